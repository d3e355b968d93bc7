package score

import (
	"fmt"
	"math"
	"slices"

	"roomful"
)

// time settles a time, a cap or the times of intervals.
func (r *reader) time(out *roomful.Reading, s *piece, f *fact) {
	forTime, _ := s.part.Format.(roomful.ForTime)
	whole := wholeOf(s.part, forTime, r.q.Division)
	switch {
	case f.kind == capFact:
		r.capped(out, f, forTime, whole)
	case f.kind == plusFact, f.kind == roundsFact:
		rounds, reps := int(f.a), int(f.b)
		total := totalOf(s.part, r.q.Division, rounds, reps)
		out.Rounds, out.Reps, out.TotalReps = &rounds, &reps, &total
		if total < whole && forTime.Cap > 0 {
			askShort(out, forTime)
		}
	case f.kind == listFact && s.count == 0 && f.range_:
		v := 60 * f.list[0]
		out.Seconds, out.TotalReps = &v, &whole
		out.Question = question("which time was it?", roomful.Clock(v), roomful.Clock(60*f.list[1]))
	case f.kind == listFact && s.count == 0 && f.clocks:
		r.several(out, f, max(forTime.Rounds, len(forTime.Ladder.Steps)))
		out.TotalReps = &whole
	case s.count > 0:
		r.bouts(out, s, f)
	case f.kind == clockFact:
		v := r.clockTime(out, f, longest(forTime))
		out.Seconds, out.TotalReps = &v, &whole
		if f.asks {
			r.askTime(out, f, v)
		}
		r.roundsIn(out, s, forTime)
		askCap(out, forTime)
	case f.kind == plainFact:
		v := r.bareTime(out, f, longest(forTime))
		out.Seconds, out.TotalReps = &v, &whole
		askCap(out, forTime)
	}
}

// roundsIn reads "2 rounds in 2:11" of four and "18:42 but only 4 rounds" of five: not all of
// it was done in the time.
func (r *reader) roundsIn(out *roomful.Reading, s *piece, forTime roomful.ForTime) {
	for k := range r.p.facts {
		f := &r.p.facts[k]
		if f.kind != roundsFact || int(f.a) >= forTime.Rounds || r.p.inSpan(f.from) {
			continue
		}
		c := r.p.clause(f.from)
		if r.p.word(f.to) == "in" || r.p.bare(stretch{c.from, f.from}, onlyWords) && r.p.bare(stretch{f.to, c.to}, onlyWords) {
			n := int(f.a)
			total := totalOf(s.part, r.q.Division, n, 0)
			out.Rounds, out.TotalReps = &n, &total
			r.take(f)
			r.said.undone = true
		}
	}
}

// onlyWords may stand beside the rounds that were done.
var onlyWords = wordSet("only each but did just done completed in total got managed all")

// askCap asks about a time beyond the cap.
func askCap(out *roomful.Reading, forTime roomful.ForTime) {
	if limit := forTime.Cap.Seconds(); limit > 0 && *out.Seconds > limit {
		ask(out, fmt.Sprintf("the cap is %s; was it finished after it?", roomful.Clock(limit)), "finished in "+roomful.Clock(*out.Seconds), "stopped at the cap")
	}
}

// bouts settles the times of intervals, or the one time that is the score.
func (r *reader) bouts(out *roomful.Reading, s *piece, f *fact) {
	each := slices.Clone(f.list)
	if f.kind == clockFact || f.kind == plainFact {
		each = []float64{f.a}
	}
	if len(each) == 0 {
		return
	}
	if !f.clocks && f.kind != clockFact && f.decimals == 2 {
		each = r.pointedOrSeconds(s, each)
	}
	intervals, _ := s.part.Format.(roomful.Intervals)
	if lengths, on := onClock(each, intervals.Rest.Seconds()); on && len(each) <= s.count {
		each = lengths
		out.Question = question("are those times on the clock, or one for each?", "on the clock", "one for each")
	}
	if len(each) > s.count {
		out.Question = question(fmt.Sprintf("there are %d intervals and %d times; was one more done?", s.count, len(each)), "yes, one more", "no, one is something else")
	}
	if !f.range_ && stray(each) {
		ask(out, "one of those is far from the others; is it right?", "yes", "no, something else")
	}
	score := slices.Max(each)
	if s.part.ScoreBy != "slowest" {
		score = 0
		for _, v := range each {
			score += v
		}
	}
	if f.range_ && s.part.ScoreBy != "slowest" {
		return
	}
	out.Seconds = &score
	if f.kind == listFact && !f.range_ {
		out.EachSeconds = each
	}
}

// onClock reports whether times of intervals look like the clock at the end of each, every
// one later and the last near to as many times the first, and how long each took then: with
// the rest between them, or without where that fits better.
func onClock(each []float64, rest float64) (lengths []float64, on bool) {
	n := len(each)
	if n < 2 || !grows(each) || each[n-1] <= 0.7*float64(n)*each[0] || n == 2 && each[1] <= leastTwice*each[0] {
		return nil, false
	}
	lengths = apart(each, rest)
	if bare := apart(each, 0); uneven(bare) < uneven(lengths) {
		lengths = bare
	}
	return lengths, true
}

// stray reports whether one of three times or more is three times the middle one or a third of it.
func stray(each []float64) bool {
	if len(each) < 3 {
		return false
	}
	sorted := slices.Sorted(slices.Values(each))
	middle := sorted[len(sorted)/2]
	return sorted[len(sorted)-1] > 3*middle || 3*sorted[0] < middle
}

// leastTwice is how much longer the second of two intervals is than the first where it is
// rather the clock (judgement).
const leastTwice = 1.8

// uneven is how far lengths are from the first of them, as the largest of the logarithms.
func uneven(each []float64) (worst float64) {
	for _, s := range each {
		worst = max(worst, math.Abs(math.Log(max(s, 1)/each[0])))
	}
	return worst
}

// askShort asks how far somebody came who did not finish.
func askShort(out *roomful.Reading, forTime roomful.ForTime) {
	if forTime.Cap > 0 {
		out.Question = question("was that at the cap of "+roomful.Clock(forTime.Cap.Seconds())+", or left before it?", "at the cap", "left before it")
		return
	}
	out.Question = question("how much of it was done?", "so many repetitions", "nobody counted")
}

// capped settles a cap. "cap+12" asks: done or left.
func (r *reader) capped(out *roomful.Reading, f *fact, forTime roomful.ForTime, whole int) {
	out.Capped = !f.short || forTime.Cap > 0
	if limit := forTime.Cap.Seconds(); limit > 0 {
		out.Seconds = &limit
	}
	r.said.undone = r.said.undone || !out.Capped
	n := int(f.a)
	done := n
	switch f.says {
	case capNothing:
		if f.short {
			askShort(out, forTime)
		}
		return
	case capRounds:
		out.Rounds = &n
		done = totalOf(r.pieces[r.asked()].part, r.q.Division, n, int(f.b))
	case capLeft:
		out.Left, done = &n, whole-n
	case capOpen:
		// nearer to the end than the start is likelier: a cap is set to be close to
		done = whole - n
		out.Question = question(fmt.Sprintf("does %d count what was left or what was done?", n), "left", "done")
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
	if over := int(f.b); f.says == capRounds && !out.Capped {
		out.Reps = &over
	}
}
