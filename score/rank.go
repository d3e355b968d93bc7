package score

import (
	"cmp"
	"context"
	"maps"
	"math"
	"slices"
	"strings"

	"roomful"
)

// Ranking asks for the board of one piece.
type Ranking struct {
	Entries roomful.Record // of the piece; of two by one person the later counts
	Policy  roomful.CapPolicy
	// Unranked are those who are shown without a place, by id: who asked for it, and
	// who is under 18.
	Unranked map[string]bool
	// Believed is what is believed of a person, and Written the piece as written for
	// them; without them nothing is said of what a changed attempt would have been.
	Believed func(id string) *roomful.Abilities
	Written  func(id string) roomful.Work
}

// Rank places attempts at a piece. Ties share a place and the next is left out. Equal
// scores are told apart by [tieBreak] when everybody who has one of them said enough.
func (c Comparer) Rank(ctx context.Context, q Ranking) (roomful.Board, error) {
	var out roomful.Board
	unranked := map[string]bool{}
	maps.Copy(unranked, q.Unranked)
	for _, e := range together(q.Entries) {
		if slices.ContainsFunc(e.ids, func(id string) bool { return q.Unranked[id] }) {
			unranked[e.Athlete] = true // a place would be theirs too
		}
		out.Piece, out.Kind = e.Done.Piece, e.Reading.Kind
		p := roomful.Placed{Entry: e.Entry, With: e.with, Capped: capped(e.Entry), Equivalent: math.NaN()}
		switch {
		case math.IsNaN(e.Done.Score) || e.Reading.Question != nil || p.Capped && q.Policy == roomful.CapNoScore:
			out.Without = append(out.Without, p)
		case asWritten(e.Entry):
			out.Written = append(out.Written, p)
		default:
			var err error
			if p.Equivalent, err = c.asWritten(ctx, q, e.Entry); err != nil {
				return out, err
			}
			out.Changed = append(out.Changed, p)
		}
	}
	for _, side := range []*[]roomful.Placed{&out.Written, &out.Changed, &out.Without} {
		*side = slices.Clone(*side) // a board is kept, without the room in which it grew
	}
	place(out.Written, unranked, func(p roomful.Placed) []float64 { return rankKey(p.Entry) })
	placeChanged(out.Changed, unranked)
	slices.SortStableFunc(out.Without, func(a, b roomful.Placed) int { return strings.Compare(a.Name, b.Name) })
	return out, nil
}

// placeChanged places those who changed something by about what it would have been as
// written, since versions differ. Who has no such estimate is shown behind them without
// a place; where nobody has one all are placed by their scores.
func placeChanged(all []roomful.Placed, unranked map[string]bool) {
	estimated := func(p roomful.Placed) bool { return !math.IsNaN(p.Equivalent) }
	if !slices.ContainsFunc(all, estimated) {
		place(all, unranked, func(p roomful.Placed) []float64 { return rankKey(p.Entry) })
		return
	}
	without := map[string]bool{}
	for _, p := range all {
		without[p.Athlete] = unranked[p.Athlete] || !estimated(p)
	}
	place(all, without, func(p roomful.Placed) []float64 {
		if !estimated(p) {
			return []float64{1, rankKey(p.Entry)[1], math.NaN()}
		}
		return []float64{0, -p.Equivalent * better(p.Reading.Kind), math.NaN()}
	})
}

// asWritten reports whether nothing was changed in an attempt, as far as it says.
func asWritten(e roomful.Entry) bool {
	said := e.Reading.AsWritten
	return (said == nil || *said) && len(e.Done.Changed) == 0 && len(e.Done.Segments) == 0 && e.Done.Dose.Whole() && !e.Done.Easier
}

// rankKey is what attempts at a piece are placed by, less is better: who finished
// before who was capped, then the score, then what tells ties apart.
func rankKey(e roomful.Entry) []float64 {
	key := []float64{0, -e.Done.Score * better(e.Reading.Kind), tieBreak(e)}
	if capped(e) {
		key[0], key[1] = 1, 0
		if n := e.Done.Counted; !math.IsNaN(n) {
			key[1] = -n
		}
	}
	return key
}

// place sorts attempts and gives them places, equal ones the same.
func place(all []roomful.Placed, unranked map[string]bool, key func(roomful.Placed) []float64) {
	score := func(a, b roomful.Placed) int { return slices.Compare(key(a)[:2], key(b)[:2]) }
	slices.SortStableFunc(all, func(a, b roomful.Placed) int { return cmp.Or(score(a, b), strings.Compare(a.Name, b.Name)) })
	ranked := 0
	for from := 0; from < len(all); {
		to := from + 1
		for to < len(all) && score(all[from], all[to]) == 0 {
			to++
		}
		ranked = placeLevel(all[from:to], ranked, unranked, key)
		from = to
	}
}

// placeLevel gives places to attempts with one score, behind so many others. What tells
// ties apart counts where everybody who is ranked told it; who is not ranked and did not
// tell is shown last of them.
func placeLevel(level []roomful.Placed, behind int, unranked map[string]bool, key func(roomful.Placed) []float64) int {
	last := func(p roomful.Placed) float64 {
		if v := key(p)[2]; !math.IsNaN(v) || !unranked[p.Athlete] {
			return v
		}
		return math.Inf(1)
	}
	told := !slices.ContainsFunc(level, func(p roomful.Placed) bool { return math.IsNaN(last(p)) })
	if told {
		slices.SortStableFunc(level, func(a, b roomful.Placed) int { return cmp.Compare(last(a), last(b)) })
	}
	n, prev := behind, -1
	for i := range level {
		if unranked[level[i].Athlete] {
			continue
		}
		n++
		level[i].Place = n
		if prev >= 0 && (!told || last(level[prev]) == last(level[i])) {
			level[i].Place, level[i].Tied, level[prev].Tied = level[prev].Place, true, true
		}
		prev = i
	}
	return n
}

// asWritten is about what somebody would have scored that day on the piece as
// written, NaN when nothing can be said or when it is beyond them.
func (c Comparer) asWritten(ctx context.Context, q Ranking, e roomful.Entry) (float64, error) {
	if q.Believed == nil || q.Written == nil || e.Done.Piece.Team.Size > 1 {
		return math.NaN(), nil
	}
	who := q.Believed(e.Athlete)
	if who == nil {
		return math.NaN(), nil
	}
	written := e
	written.Done.Work, written.Done.Segments, written.Done.Dose = q.Written(e.Athlete), nil, roomful.Dose{}
	out := roomful.Comparison{Earlier: e, Later: written}
	if err := c.equivalent(ctx, who, &out); err != nil || out.Equivalent == nil {
		return math.NaN(), err
	}
	if about := out.Equivalent.P50; math.Abs(math.Log(max(about, leastOf)/max(e.Done.Score, leastOf))) < math.Log(farFromOwn) {
		return about, nil
	}
	return math.NaN(), nil
}

// farFromOwn is how many times somebody's own score an estimate may be: beyond it the
// piece as written is not for them, and a figure would only shame.
const farFromOwn = 1.6

// pairedUp is an attempt with partners who said the same.
type pairedUp struct {
	roomful.Entry
	with, ids []string // partners, by name and by id
}

// together keeps one attempt of each person, the latest, and puts partners of a team
// piece who name each other and have one score on one line.
func together(all roomful.Record) []pairedUp {
	var latest roomful.Record
	for _, e := range all {
		if i := slices.IndexFunc(latest, func(o roomful.Entry) bool { return o.Athlete == e.Athlete }); i >= 0 {
			latest[i] = e
			continue
		}
		latest = append(latest, e)
	}
	var out []pairedUp
	for _, e := range latest {
		i := slices.IndexFunc(out, func(o pairedUp) bool {
			names := strings.EqualFold(o.Reading.Partner, e.Name) || strings.EqualFold(e.Reading.Partner, o.Name)
			return names && o.Done.Piece.Team.Size > 1 && o.Done.Score == e.Done.Score
		})
		if i >= 0 {
			out[i].with, out[i].ids = append(out[i].with, e.Name), append(out[i].ids, e.Athlete)
			continue
		}
		out = append(out, pairedUp{Entry: e})
	}
	return out
}
