package desk

import (
	"context"
	"fmt"
	"slices"
	"time"

	"roomful"
	"roomful/day"
	"roomful/store"
)

// Scores is what there is to say of a day's scores. It is shared, and nobody changes it.
type Scores[T any] struct {
	Day *day.Day // with the gym's own settings
	All []T
}

// scoring is a question about scores with what belongs to it.
type scoring[Q any] struct {
	Question Q
	Day      *day.Day
}

// Boards tells how people scored on a sheet, piece by piece; to those who see it as members
// do, of those alone who let themselves be listed.
func (d *Desk) Boards(ctx context.Context, a Ask) (*Scores[roomful.Board], error) {
	a.Alone, a.Class = "", ""
	return ofScores(ctx, d, a, scoresOf[day.BoardQuestion, roomful.Board]{
		what: "boards", exact: true, soon: []topic{{kind: "read"}, {kind: "person"}},
		gather: func(g *Gym, _ Page, session roomful.Session, record roomful.Record, sheet string) (day.BoardQuestion, error) {
			if a.Shown {
				record = g.listed(record)
			}
			return day.BoardQuestion{Session: session, Sheet: sheet, People: g.all, Record: record, Seed: seed}, nil
		},
		none: func(q day.BoardQuestion) bool { return len(q.Record) == 0 },
		work: (*day.Day).Boards,
	})
}

// listed leaves of a record those who let themselves be listed.
func (g *Gym) listed(record roomful.Record) (out roomful.Record) {
	for _, e := range record {
		if i := slices.IndexFunc(g.all, func(a roomful.Athlete) bool { return a.ID == e.Athlete }); i >= 0 && g.all[i].Listed(g.Today) {
			out = append(out, e)
		}
	}
	return out
}

// Compared lays somebody's latest attempt at a sheet beside the one before it, or says what
// there is to match next.
func (d *Desk) Compared(ctx context.Context, a Ask, who string) (*Scores[day.Compared], error) {
	a.Alone, a.Class = who, ""
	return ofScores(ctx, d, a, scoresOf[day.CompareQuestion, day.Compared]{
		what: "compared", now: []topic{{"person", who}}, soon: []topic{{"read", who}, {"learnt", who}, {kind: store.Sheet}},
		gather: func(g *Gym, _ Page, session roomful.Session, _ roomful.Record, _ string) (day.CompareQuestion, error) {
			i := slices.IndexFunc(g.all, func(a roomful.Athlete) bool { return a.ID == who })
			if i < 0 {
				return day.CompareQuestion{}, store.ErrMissing
			}
			own := g.all[i]
			record, known, err := g.earlier(session, own, never)
			q := day.CompareQuestion{Session: session, People: []roomful.Athlete{own}, Record: record, Seed: seed}
			if known != nil {
				q.Believed = map[string]*roomful.Abilities{who: known}
			}
			return q, err
		},
		none: func(q day.CompareQuestion) bool { return len(q.Record) == 0 },
		work: (*day.Day).Compare,
	})
}

// afterQuestion asks what came of a class.
type afterQuestion struct {
	day.Question
	sheet  string
	record roomful.Record
}

// After tells what was meant beside what came of it, who was far off and why: of those who
// have a place in a class, or of all who scored.
func (d *Desk) After(ctx context.Context, a Ask) (*Scores[roomful.After], error) {
	a.Alone = ""
	return ofScores(ctx, d, a, scoresOf[afterQuestion, roomful.After]{
		what: "after",
		first: func(g *Gym, sheet string) error {
			people, _, err := g.InClass(a.Class)
			if err != nil {
				return err
			}
			scored, err := g.books.Scorers(sheet)
			if err != nil {
				return err
			}
			return few(slices.DeleteFunc(slices.Clone(people), func(a roomful.Athlete) bool { return !slices.Contains(scored, a.ID) }))
		},
		soon: []topic{{kind: "read"}, {kind: "person"}, {kind: "learnt"}, {kind: "account"}, {kind: store.Sheet}},
		gather: func(g *Gym, page Page, session roomful.Session, record roomful.Record, sheet string) (q afterQuestion, err error) {
			people, _, err := g.InClass(a.Class)
			if err != nil {
				return q, err
			}
			scored := func(a roomful.Athlete) bool {
				return slices.ContainsFunc(record, func(e roomful.Entry) bool { return e.Athlete == a.ID })
			}
			people = slices.DeleteFunc(slices.Clone(people), func(a roomful.Athlete) bool { return !scored(a) })
			q.sheet = sheet
			if q.Question, err = g.question(session, people, page.Stands); err != nil {
				return q, err
			}
			for _, e := range record {
				if slices.ContainsFunc(people, func(a roomful.Athlete) bool { return a.ID == e.Athlete }) {
					q.record = append(q.record, e)
				}
			}
			q.ByHand, err = g.ByHand(page.ID)
			return q, err
		},
		none: func(q afterQuestion) bool { return len(q.record) == 0 },
		work: func(d *day.Day, ctx context.Context, q afterQuestion) ([]roomful.After, error) {
			return d.After(ctx, q.Question, q.sheet, q.record)
		},
	})
}

// scoresOf is how something is said of a day's scores.
type scoresOf[Q, A any] struct {
	what      string
	exact     bool    // of every score that has come; else the last answer stands meanwhile
	now, soon []topic // beside settings and kit
	// first refuses what need not be gathered; nil for nothing.
	first  func(g *Gym, sheet string) error
	gather func(g *Gym, page Page, session roomful.Session, record roomful.Record, sheet string) (Q, error)
	none   func(Q) bool // there is nothing to be said
	work   func(*day.Day, context.Context, Q) ([]A, error)
}

// scoredAs is the sheet that is asked about as its scores are read.
func (g *Gym) scoredAs(a Ask) (Page, error) {
	if a.Shown {
		return g.Shown(a.Sheet)
	}
	return g.Scored(a.Sheet)
}

// ofScores says something of a day's scores.
func ofScores[Q, A any](ctx context.Context, d *Desk, a Ask, of scoresOf[Q, A]) (*Scores[A], error) {
	var g *Gym
	var page Page
	come := ""
	if err := d.store.View(ctx, func(tx *store.Tx) (err error) {
		if g, err = d.Open(tx.In(a.Gym), a.Now); err == nil {
			page, err = g.scoredAs(a)
		}
		if err == nil && of.exact {
			come, err = g.come(page.ID)
		}
		if err == nil && of.first != nil {
			err = of.first(g, page.ID)
		}
		return err
	}); err != nil {
		return nil, err
	}
	r := recipe[scoring[Q], *Scores[A]]{
		key:    key{gym: a.Gym, what: of.what, sheet: page.ID, text: string(page.sum[:]) + come, stands: page.Stands, class: a.Class, person: a.Alone, shown: a.Shown},
		weight: func(scoring[Q]) int { return 10 },
	}
	r.gather = func(ctx context.Context, g *Gym) (q scoring[Q], on rests, err error) {
		on = rests{now: append([]topic{{kind: "gym"}, {kind: store.Settings}, {kind: store.Kit}, {kind: "erased"}, {"class", a.Class}, {"override", page.ID}}, of.now...), soon: of.soon}
		session, faults := g.Session(ctx, page.Document)
		if err := fit(page.Name, session, faults); err != nil {
			return q, on, err
		}
		record, err := g.resolved(page.Document, session)
		if err != nil {
			return q, on, err
		}
		q.Day = g.Day
		q.Question, err = of.gather(g, page, session, record, page.Name)
		return q, on, err
	}
	r.work = func(ctx context.Context, q scoring[Q], _ **Scores[A]) (*Scores[A], error) {
		if of.none(q.Question) {
			return &Scores[A]{Day: q.Day}, nil
		}
		all, err := of.work(q.Day, ctx, q.Question)
		return &Scores[A]{Day: q.Day, All: all}, err
	}
	return get(ctx, g, a.Now, r)
}

// come says which scores of a sheet have come.
func (g *Gym) come(sheet string) (string, error) {
	n, last, err := g.books.Come(sheet)
	return fmt.Sprintf(" %d scores up to %d", n, last), err
}

// resolved are all scores of a sheet with what was done: as it was kept, and resolved now
// where that has not been kept yet.
func (g *Gym) resolved(sheet store.Document, session roomful.Session) (roomful.Record, error) {
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

// never is after every day.
var never = roomful.Date{Year: 9999, Month: time.December, Day: 31}
