package desk

import (
	"context"
	"errors"
	"time"

	"roomful"
	"roomful/day"
	"roomful/store"
)

// Scored is what people scored on a sheet, as it was worked out. It is shared, and nobody
// changes it.
type Scored struct {
	Session roomful.Session
	// Boards are one to a piece that has a score. They have everybody, whom others may not
	// see too.
	Boards []roomful.Board
}

// results is a question about the scores of a sheet.
type results struct {
	day.Question
	Day    *day.Day
	Sheet  string
	Record roomful.Record
}

// Boards tells how people scored on a sheet. A score counts as soon as it has come.
func (d *Desk) Boards(ctx context.Context, gym string, now time.Time, sheet string) (*Scored, error) {
	return scoredOn(ctx, d, gym, now, sheet, "boards", true, func(ctx context.Context, q results, _ **Scored) (*Scored, error) {
		out := &Scored{Session: q.Session}
		if len(q.Record) == 0 {
			return out, nil
		}
		var err error
		out.Boards, err = q.Day.Boards(ctx, day.BoardQuestion{Session: q.Session, Sheet: q.Sheet, People: q.People, Record: q.Record, Seed: seed})
		return out, noneScored(err)
	})
}

// After tells what was meant beside what came of it. While it is worked out with a score
// that has just come the last answer stands.
func (d *Desk) After(ctx context.Context, gym string, now time.Time, sheet string) ([]roomful.After, error) {
	return scoredOn(ctx, d, gym, now, sheet, "after", false, func(ctx context.Context, q results, _ *[]roomful.After) ([]roomful.After, error) {
		if len(q.Record) == 0 {
			return nil, nil
		}
		out, err := q.Day.After(ctx, q.Question, q.Sheet, q.Record)
		return out, noneScored(err)
	})
}

// noneScored takes it for an answer that nobody has a score.
func noneScored(err error) error {
	if roomful.HintOf(err) != "" {
		return nil
	}
	return err
}

// scoredOn answers a question about the scores of a sheet, from what is kept where that
// still holds: at once after each score, or as soon as it has been worked out.
func scoredOn[A any](ctx context.Context, d *Desk, gym string, now time.Time, sheet, what string, atOnce bool,
	work func(context.Context, results, *A) (A, error)) (A, error) {
	for tries := 0; ; tries++ {
		var none A
		var g *Gym
		r := recipe[results, A]{work: work, weight: func(q results) int { return 1 + len(q.Record)/10 }}
		if err := d.store.View(ctx, func(tx *store.Tx) (err error) {
			if g, err = d.Open(tx.In(gym), now); err != nil {
				return err
			}
			shown, err := g.Scored(sheet)
			r.key = key{gym: gym, what: what, sheet: shown.ID, text: string(shown.sum[:])}
			return err
		}); err != nil {
			return none, err
		}
		r.gather = func(ctx context.Context, g *Gym) (results, rests, error) { return g.results(ctx, sheet, r.key, atOnce) }
		got, err := get(ctx, g, now, r)
		if errors.Is(err, errMoved) && tries < mostMoves {
			continue
		}
		return got, err
	}
}

// results gathers the scores of a sheet.
func (g *Gym) results(ctx context.Context, sheet string, k key, atOnce bool) (q results, on rests, err error) {
	shown, err := g.Scored(sheet)
	if err == nil && (shown.ID != k.sheet || string(shown.sum[:]) != k.text) {
		err = errMoved
	}
	if err != nil {
		return q, on, err
	}
	session, faults := g.session(ctx, shown.Text, true)
	if faults > 0 {
		return q, on, &roomful.Error{Summary: "reading the scores of " + shown.Name + ": the sheet has faults", Hint: "mend the sheet: the scores are kept as they were typed"}
	}
	q.Day, q.Sheet = g.Day, shown.Name
	if q.Record, err = g.scoresOf(shown.Document, session); err != nil {
		return q, on, err
	}
	here := map[string]bool{}
	for _, e := range q.Record {
		here[e.Athlete] = true
	}
	var people []roomful.Athlete
	for _, a := range g.all {
		if here[a.ID] {
			people = append(people, a)
		}
	}
	if len(people) > 0 {
		q.Question, err = g.Question(session, people)
	}
	q.Session, q.People = session, people
	on = rests{now: []topic{{kind: "gym"}, {kind: store.Settings}, {kind: "erased"}, {kind: "person"}}, soon: []topic{{kind: "learnt"}, {kind: store.Kit}, {"override", shown.ID}}}
	scores := []topic{{kind: "attempt"}, {kind: "read"}}
	if atOnce {
		on.now = append(on.now, scores...)
	} else {
		on.soon = append(on.soon, scores...)
	}
	return q, on, err
}

// scoresOf are all scores of a sheet with what was done: as it was kept, and resolved now
// where that has not been kept yet.
func (g *Gym) scoresOf(sheet store.Document, session roomful.Session) (roomful.Record, error) {
	attempts, err := g.books.OfSheet(sheet.ID)
	if err != nil {
		return nil, err
	}
	done, err := g.books.DoneOn(sheet.ID)
	if err != nil {
		return nil, err
	}
	q := day.RecordQuestion{People: g.all, Sheets: map[string]roomful.Session{sheet.Name: session}, Others: g.others, ByHand: map[string][]day.ByHand{}}
	for i, a := range attempts {
		if kept := done[a.ID]; kept != nil && a.Read != nil {
			q.Known = append(q.Known, g.entries(a, sheet, kept)...)
			continue
		}
		q.Logged = append(q.Logged, roomful.Logged{Athlete: a.Person, On: a.Day, Sheet: sheet.Name, Piece: a.Piece, Text: a.Text, Line: i + 1})
	}
	if len(q.Logged) == 0 {
		return q.Known, nil
	}
	if q.ByHand[sheet.Name], err = g.set(sheet); err != nil {
		return nil, err
	}
	out, _ := g.Day.Record(q) // what could not be read stands among the texts
	return out, nil
}
