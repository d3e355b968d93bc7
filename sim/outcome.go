package sim

import (
	"math"

	"roomful"
)

// result is what a run is worth.
type result struct {
	score   float64 // NaN when the run is left out
	reps    float64
	seconds float64
	capped  bool
	cannot  bool
	rounds  []float64 // durations in s, valid until the next run
	reserve float64
	fatigue float64
}

// outcome reads the crew's tally after a walk.
func (r *runner) outcome() result {
	c := &r.crew
	t, p, offset := &c.tally, r.last(), c.cursor.offset
	o := result{reps: t.counted, cannot: r.cannot, seconds: t.finish - offset}
	window := p.course.window()
	if !t.complete && !math.IsInf(window, 1) {
		o.seconds = window
	}
	if _, ok := p.piece.Format.(roomful.ForTime); ok && !math.IsInf(window, 1) {
		o.capped = !t.complete
	}
	o.score = r.score(p, o)
	o.rounds = r.lasted[:0]
	for _, m := range t.rounds {
		o.rounds = append(o.rounds, m.ended-m.began)
	}
	r.lasted = o.rounds
	for _, m := range c.members {
		o.reserve = max(o.reserve, m.body.PeakD)
		o.fatigue = max(o.fatigue, m.body.PeakL)
	}
	return o
}

// score returns the run's score by the piece's rule.
func (r *runner) score(p *plan, o result) float64 {
	t := &r.crew.tally
	if r.lost {
		return math.NaN()
	}
	switch p.piece.ScoreBy {
	case "lowest":
		return r.lowest(p)
	case "slowest":
		// In a window the slowest bout is the one with the least done.
		if p.kind != roomful.TimeScore {
			return r.lowest(p)
		}
		return t.slowest()
	}
	switch p.kind {
	case roomful.RoundsScore:
		if _, ok := p.piece.Format.(roomful.Every); ok {
			return float64(t.held)
		}
		if _, ok := p.course.(*linear); ok {
			n := len(t.rounds)
			return float64(n) + min(t.inRound.over(p.whole(r.crew.members[0].actions, n)), 0.999)
		}
		return r.worth(p, t.total())
	case roomful.TimeScore:
		if iv, ok := p.piece.Format.(roomful.Intervals); ok && iv.Work == 0 {
			return t.sum()
		}
		return o.seconds
	case roomful.LoadScore:
		return t.load
	default:
		return r.worth(p, t.total())
	}
}

// worth returns what an amount counts in the piece's kind of score.
func (r *runner) worth(p *plan, s share) float64 {
	switch p.kind {
	case roomful.DistanceScore:
		return s.metres
	case roomful.HoldScore:
		return s.seconds
	case roomful.RoundsScore:
		return s.over(p.whole(r.crew.members[0].actions, 0))
	default:
		return s.counted
	}
}

// total adds up the groups.
func (t *tally) total() (s share) {
	for i := range t.groups {
		s.add(t.groups[i].share)
	}
	return s
}

// lowest returns the least amount of any bout or round, or the shortest time.
func (r *runner) lowest(p *plan) float64 {
	groups := r.crew.tally.groups
	if len(groups) == 0 {
		return 0
	}
	least := math.Inf(1)
	for i := range groups {
		if g := &groups[i]; p.kind == roomful.TimeScore {
			least = min(least, g.ended-g.began)
		} else {
			least = min(least, r.worth(p, g.share))
		}
	}
	return least
}

// over returns how many times a whole an amount is: counted repetitions and
// calories over those of the whole; if it has none, distance or time.
func (s share) over(whole share) float64 {
	switch {
	case whole.counted > 0:
		return s.counted / whole.counted
	case whole.metres > 0:
		return s.metres / whole.metres
	case whole.seconds > 0:
		return s.seconds / whole.seconds
	}
	return 0
}

// slowest returns the longest bout in seconds.
func (t *tally) slowest() float64 {
	var most float64
	for i := range t.groups {
		most = max(most, t.groups[i].ended-t.groups[i].began)
	}
	return most
}

// sum returns the time of all bouts in seconds, rests left out.
func (t *tally) sum() float64 {
	var s float64
	for i := range t.groups {
		s += t.groups[i].ended - t.groups[i].began
	}
	return s
}
