package score

import (
	"fmt"
	"slices"

	"roomful"
)

// reader turns the facts of a text into the reading of a piece.
type reader struct {
	q    Asked
	p    *parser
	said remarks
	// The pieces, and which fact each has, -1 for none.
	pieces []piece
	got    []int
	// taken are the facts that some piece has; others are stated loads or notes.
	taken   map[int]bool
	matched map[string]bool // pieces with a stated load that is the sheet's
}

// read makes the reading of piece i from the fact that fits it.
func (r *reader) read(i int) roomful.Reading {
	pieces, got := r.pieces, r.got
	s := &pieces[i]
	out := roomful.Reading{Piece: s.part.Name(), Kind: s.kind, Raw: r.p.typed}
	if got[i] < 0 {
		return out
	}
	f := &r.p.facts[got[i]]
	out.Approximate = f.approx
	switch s.kind {
	case roomful.RoundsScore:
		r.rounds(&out, s, f)
	case roomful.TimeScore:
		r.time(&out, s, f)
	case roomful.LoadScore:
		end := len(r.p.facts)
		for _, next := range slices.Backward(got[i+1:]) {
			if next > got[i] {
				end = next
			}
		}
		r.loads(&out, s, r.p.facts[got[i]:end])
	default:
		r.amount(&out, s, f)
	}
	return out
}

// rounds settles "5+20" and its kin. Exactly a whole round more is carried, as
// a coach would; anything beyond asks.
func (r *reader) rounds(out *roomful.Reading, s *piece, f *fact) {
	rounds, reps := int(f.a), 0
	switch f.kind {
	case plusFact:
		reps = int(f.b)
	case allFact:
		rounds = s.count
	case listFact:
		rounds = int(f.list[0])
		out.Question = question("how many rounds was it?", roomful.Figure(f.list[0]), roomful.Figure(f.list[1]))
	case plainFact:
		switch {
		case f.decimals > 0:
			reps = behindPoint(*f)
			if r.p.says(stretch{f.to, min(f.to+1, len(r.p.toks))}, roundWords...) {
				out.Question = question(fmt.Sprintf("is that %d rounds and %d, or a part of a round?", rounds, reps), fmt.Sprintf("%d+%d", rounds, reps), "a part of a round")
			}
		case f.a > mostTyped:
			rounds, reps = r.inRounds(s, int(f.a))
			out.Question = question(fmt.Sprintf("is %s all the repetitions together?", roomful.Figure(f.a)), fmt.Sprintf("yes, %d+%d", rounds, reps), "no, something else")
		}
	case clockFact: // "5:20"
		rounds, reps = int(f.a)/60, int(f.a)%60
	case unitFact: // repetitions in all
		rounds, reps = r.inRounds(s, int(f.a))
	}
	if f.asks || f.kind == clockFact {
		out.Question = question(fmt.Sprintf("is that %d rounds and %d repetitions?", rounds, reps), fmt.Sprintf("yes, %d+%d", rounds, reps), "no, something else")
	}
	if (f.kind == plusFact || f.kind == plainFact && f.decimals == 0 && f.a <= mostTyped) && !f.rung {
		rounds = r.whichRung(out, s, rounds, reps)
	}
	if size := RoundSize(s.part, r.q.Division, rounds); s.count == 0 && size > 0 && reps >= size {
		if reps > size {
			out.Question = question(fmt.Sprintf("a round has %d; which is it?", size), fmt.Sprintf("%d+%d", rounds+reps/size, reps%size), fmt.Sprintf("%d repetitions in all", reps))
			rounds, reps = rounds+reps/size, reps%size
		} else {
			rounds, reps = rounds+1, 0
		}
	}
	if s.count > 0 && rounds > s.count {
		out.Question = question(fmt.Sprintf("there are %d intervals; what does %d count?", s.count, rounds), "intervals", "repetitions")
	}
	out.Rounds, out.Reps = &rounds, &reps
	total := totalOf(s.part, r.q.Division, rounds, reps)
	out.TotalReps = &total
}

// amount settles repetitions, calories, metres and seconds held.
func (r *reader) amount(out *roomful.Reading, s *piece, f *fact) {
	v := f.a
	switch f.kind {
	case plusFact: // rounds and repetitions of a piece that counts the total, or two parts of it
		v = float64(totalOf(s.part, r.q.Division, int(f.a), int(f.b)))
		if RoundSize(s.part, r.q.Division, 0) == 0 {
			v = f.a + f.b
		}
	case listFact:
		v = 0
		for _, n := range f.list {
			v += n
		}
		if s.part.ScoreBy == "lowest" {
			v = slices.Min(f.list)
		}
	case setsFact: // "5x13", "13 x 5"
		if each, n := r.each(f); n > 0 && n == s.count {
			f.kind, f.list, v = listFact, slices.Repeat([]float64{each}, n), each*float64(n)
		}
	case unitFact:
		v *= f.unit.Size()
	}
	if f.decimals == 3 && (f.kind == plainFact || f.kind == unitFact && f.unit != roomful.Kilometre && f.unit != roomful.Mile) {
		v *= 1000 // "2,650" and "2.650" have a mark of thousands
	}
	switch s.kind {
	case roomful.DistanceScore:
		if f.kind == plainFact && (f.decimals == 1 || f.decimals == 2) && v < mostKm {
			out.Question = question("is "+roomful.Figure(v)+" in kilometres or in metres?", "kilometres", "metres")
			v *= 1000
		}
		out.Metres = &v
		return
	case roomful.HoldScore:
		if f.kind == plainFact && f.decimals == 2 {
			v = pointed(v)
		}
		out.Seconds = &v
		if _, one := s.part.Format.(roomful.Every); one && s.count > 1 && (f.kind == plainFact || f.kind == clockFact) && !r.p.says(r.p.clause(f.from), "total", "together", "sum") {
			out.Question = question(fmt.Sprintf("is that each of the %d, or all together?", s.count), "all together", "each")
		}
		if f.kind == listFact && !f.range_ {
			out.EachSeconds = slices.Clone(f.list)
		}
		return
	}
	n := int(v)
	out.Reps = &n
	if f.kind == listFact && !f.range_ {
		sum := 0
		for _, v := range f.list {
			out.EachReps = append(out.EachReps, int(v))
			sum += int(v)
		}
		out.TotalReps = &sum
	} else if s.part.ScoreBy != "lowest" {
		out.TotalReps = &n
	}
}

// mostKm is a distance with a point in it that may be kilometres: no class goes farther.
const mostKm = 50

// each returns the figure and how many times it was done, of "5x13" and "13 x 5".
func (r *reader) each(f *fact) (each float64, n int) {
	if len(f.list) > 0 {
		return f.list[0], int(f.b)
	}
	return f.b, int(f.a)
}

// take marks a fact as part of a reading.
func (r *reader) take(f *fact) {
	if r.taken == nil {
		r.taken = map[int]bool{}
	}
	r.taken[f.from] = true
}
