package score

import (
	"fmt"
	"math"
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
	out := roomful.Reading{Piece: s.part.Name(), Kind: s.kind, Raw: r.p.raw}
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
			if next >= 0 {
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
	case plainFact:
		if f.decimals > 0 {
			reps = behindPoint(*f)
		}
	case unitFact: // repetitions in all
		rounds, reps = r.inRounds(s, int(f.a))
	}
	if f.kind == plusFact && !f.rung {
		r.whichRung(out, s, rounds, reps)
	}
	if size := RoundSize(s.part, r.q.Division, rounds); s.count == 0 && size > 0 && reps >= size {
		if reps > size {
			out.Question = &roomful.Question{Ask: fmt.Sprintf("a round has %d; which is it?", size),
				Answers: [2]string{fmt.Sprintf("%d+%d", rounds+reps/size, reps%size), fmt.Sprintf("%d repetitions in all", reps)}}
			rounds, reps = rounds+reps/size, reps%size
		} else {
			rounds, reps = rounds+1, 0
		}
	}
	if s.count > 0 && rounds > s.count {
		out.Question = &roomful.Question{Ask: fmt.Sprintf("there are %d intervals; what does %d count?", s.count, rounds),
			Answers: [2]string{"intervals", "repetitions"}}
	}
	out.Rounds, out.Reps = &rounds, &reps
	total := totalOf(s.part, r.q.Division, rounds, reps)
	out.TotalReps = &total
}

// inRounds turns repetitions in all into whole rounds and what is over.
func (r *reader) inRounds(s *piece, all int) (rounds, reps int) {
	reps = max(0, all-countOf(s.part.Once, r.q.Division, 0))
	for rounds < mostRounds {
		size := RoundSize(s.part, r.q.Division, rounds)
		if size <= 0 || reps < size {
			break
		}
		reps -= size
		rounds++
	}
	return rounds, reps
}

// whichRung asks when the first figure of "12+4" may be the rung of twelve or twelve
// rungs.
func (r *reader) whichRung(out *roomful.Reading, s *piece, rounds, reps int) {
	f, ok := s.part.Format.(roomful.RoundsInTime)
	if !ok || len(f.Ladder.Steps) == 0 {
		return
	}
	rung := r.p.rungs[rounds]
	if rung == 0 || rung == rounds || reps >= RoundSize(s.part, r.q.Division, rung) {
		return
	}
	out.Question = &roomful.Question{Ask: fmt.Sprintf("is that the rung of %d, or %d rungs?", rounds, rounds),
		Answers: [2]string{fmt.Sprintf("%d rungs", rounds), fmt.Sprintf("the rung of %d", rounds)}}
}

// behindPoint returns the figure behind a point or comma: 20 of 5.20, 2 of 7.2.
func behindPoint(f fact) int {
	_, frac := math.Modf(f.a)
	return int(math.Round(frac * math.Pow10(f.decimals)))
}

// time settles a time, a cap or the times of intervals.
func (r *reader) time(out *roomful.Reading, s *piece, f *fact) {
	forTime, _ := s.part.Format.(roomful.ForTime)
	whole := wholeOf(s.part, forTime, r.q.Division)
	switch f.kind {
	case clockFact:
		out.Seconds = &f.a
	case plainFact:
		v := pointed(f.a)
		if f.decimals < 2 && s.count > 0 {
			v = f.a
		}
		out.Seconds = &v
	case listFact:
		r.bouts(out, s, f)
		return
	case capFact:
		r.capped(out, f, forTime, whole)
		return
	case plusFact, roundsFact:
		rounds, reps := int(f.a), int(f.b)
		total := totalOf(s.part, r.q.Division, rounds, reps)
		out.Rounds, out.Reps, out.TotalReps = &rounds, &reps, &total
		return
	default:
		return
	}
	if s.count > 0 {
		return
	}
	out.TotalReps = &whole
	for k := range r.p.facts { // "2 rounds in 2:11" of four
		if g := &r.p.facts[k]; g.kind == roundsFact && r.p.word(g.to) == "in" && int(g.a) < forTime.Rounds {
			n := int(g.a)
			total := totalOf(s.part, r.q.Division, n, 0)
			out.Rounds, out.TotalReps = &n, &total
			r.take(g)
			r.said.undone = true
		}
	}
	if limit := forTime.Cap.Seconds(); limit > 0 && *out.Seconds > limit {
		out.Question = &roomful.Question{Ask: fmt.Sprintf("the cap is %s; was it finished after it?", roomful.Clock(limit)),
			Answers: [2]string{"finished in " + roomful.Clock(*out.Seconds), "stopped at the cap"}}
	}
}

// bouts settles one time to an interval.
func (r *reader) bouts(out *roomful.Reading, s *piece, f *fact) {
	each := slices.Clone(f.list)
	if !f.clocks && f.decimals == 2 {
		for i, v := range each {
			each[i] = pointed(v)
		}
	}
	score := slices.Max(each)
	if s.part.ScoreBy != "slowest" {
		score = 0
		for _, v := range each {
			score += v
		}
	}
	if f.range_ {
		if s.part.ScoreBy == "slowest" {
			out.Seconds = &score
		}
		return
	}
	out.EachSeconds, out.Seconds = each, &score
}

// capped settles a cap. "cap+12" asks: done or left.
func (r *reader) capped(out *roomful.Reading, f *fact, forTime roomful.ForTime, whole int) {
	out.Capped = true
	if limit := forTime.Cap.Seconds(); limit > 0 {
		out.Seconds = &limit
	}
	n := int(f.a)
	done := n
	switch f.says {
	case capNothing:
		return
	case capRounds:
		out.Rounds = &n
		done = totalOf(r.pieces[r.asked()].part, r.q.Division, n, 0)
	case capLeft:
		out.Left, done = &n, whole-n
	case capOpen:
		// nearer to the end than the start is likelier: a cap is set to be close to
		done = whole - n
		out.Question = &roomful.Question{Ask: fmt.Sprintf("does %d count what was left or what was done?", n),
			Answers: [2]string{"left", "done"}}
		if 2*n > whole {
			done = n
			out.Question.Answers = [2]string{"done", "left"}
		} else {
			out.Left = &n
		}
	}
	if done >= 0 {
		out.Reps, out.TotalReps = &done, &done
	}
}

// loads settles the sets of a strength piece.
func (r *reader) loads(out *roomful.Reading, s *piece, facts []fact) {
	unit := r.unit(s.part)
	for i := range facts {
		f := &facts[i]
		if i > 0 && (r.elsewhere(s, f) || r.another(&facts[0], f)) {
			continue
		}
		if f.massSaid {
			unit = f.mass
		}
		kg := func(v float64) float64 { return inKg(v, f, unit) }
		switch {
		case f.kind == setsFact && len(f.list) > 0:
			for range min(max(int(f.a), 1), 30) {
				out.LoadsKg = append(out.LoadsKg, kg(f.list[0]))
			}
		case f.kind == listFact && !f.clocks && !f.range_:
			for _, n := range f.failed {
				out.Misses = append(out.Misses, len(out.LoadsKg)+n)
			}
			for _, v := range f.list {
				out.LoadsKg = append(out.LoadsKg, kg(v))
			}
		case f.kind == loadFact, f.kind == plainFact && (i == 0 || f.a >= 20):
			out.LoadsKg = append(out.LoadsKg, kg(f.a))
			if r.missed(f) {
				out.Misses = append(out.Misses, len(out.LoadsKg))
			}
		case f.kind == setsFact && i == 0 && i+1 < len(facts) && (facts[1].kind == loadFact || facts[1].kind == plainFact):
			continue
		default:
			continue
		}
		r.take(f)
	}
	if r.lastFailed() && len(out.LoadsKg) > 0 && !slices.Contains(out.Misses, len(out.LoadsKg)) {
		out.Misses = append(out.Misses, len(out.LoadsKg))
	}
}

// another reports whether a load stands in a sentence of its own behind the load of
// the strength piece and is no miss: then it is what was lifted in the next one.
func (r *reader) another(first, f *fact) bool {
	return f.kind == loadFact && !r.missed(f) && r.p.sentence(f.from) != r.p.sentence(first.from) && slices.ContainsFunc(r.pieces, func(s piece) bool {
		return s.kind != roomful.LoadScore && loaded(s.part)
	})
}

// elsewhere reports whether a load is of a line of another piece that stands beside
// it.
func (r *reader) elsewhere(s *piece, f *fact) bool {
	for _, m := range r.p.named {
		if (m.to == f.from || m.from == f.to) && lineOf(s.part.All(), m.id) < 0 && len(piecesWith(r.pieces, m.id)) > 0 {
			return true
		}
	}
	return false
}

// missed reports whether a word of failing stands beside a load.
func (r *reader) missed(f *fact) bool {
	before, after := r.p.word(f.from-1), r.p.word(f.to)
	return slices.Contains(missWords, before) || slices.Contains(missWords, after) || after == "no"
}

// lastFailed reports whether the last set is said to have failed.
func (r *reader) lastFailed() bool {
	for i := range r.p.toks {
		if r.p.at(i, []string{"last", "set", "failed"}) || r.p.at(i, []string{"failed", "last", "set"}) || r.p.at(i, []string{"missed", "the", "last"}) {
			return true
		}
	}
	return false
}

// unit is the unit of loads that come without one: the person's, unless the
// sheet is written in pounds.
func (r *reader) unit(p roomful.Part) roomful.MassUnit {
	for _, e := range p.All() {
		if ms, ok := e.Load.(roomful.Masses); ok && len(ms) > 0 {
			return ms[0].Unit
		}
	}
	return r.q.Unit
}

// inKg returns a figure in kilograms.
func inKg(v float64, f *fact, unit roomful.MassUnit) float64 {
	if f.massSaid {
		unit = f.mass
	}
	if !f.massSaid && v != math.Trunc(v) {
		unit = roomful.Kilogram // pounds come whole, halves are kilograms
	}
	return math.Round(roomful.Mass{Value: v, Unit: unit}.Kg()*1000) / 1000
}

// amount settles repetitions, calories, metres and seconds held.
func (r *reader) amount(out *roomful.Reading, s *piece, f *fact) {
	v := f.a
	switch f.kind {
	case plusFact: // rounds and repetitions of a piece that counts the total
		v = float64(totalOf(s.part, r.q.Division, int(f.a), int(f.b)))
	case listFact:
		v = 0
		for _, n := range f.list {
			v += n
		}
		if s.part.ScoreBy == "lowest" {
			v = slices.Min(f.list)
		}
	case unitFact:
		v *= f.unit.Size()
	}
	switch s.kind {
	case roomful.DistanceScore:
		out.Metres = &v
		return
	case roomful.HoldScore:
		out.Seconds = &v
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

// take marks a fact as part of a reading.
func (r *reader) take(f *fact) {
	if r.taken == nil {
		r.taken = map[int]bool{}
	}
	r.taken[f.from] = true
}
