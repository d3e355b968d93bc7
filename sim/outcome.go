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
	o := result{reps: t.counted, cannot: t.cannot, seconds: t.finish - offset}
	window := p.course.window()
	if !t.complete && !math.IsInf(window, 1) {
		o.seconds = window
	}
	if _, ok := p.piece.Format.(roomful.ForTime); ok && !math.IsInf(window, 1) {
		o.capped = !t.complete
	}
	o.score = r.score(p, o)
	for _, m := range t.rounds {
		o.rounds = append(o.rounds, m.ended-m.began)
	}
	for _, m := range c.members {
		o.reserve = max(o.reserve, m.body.PeakD)
		o.fatigue = max(o.fatigue, m.body.PeakL)
	}
	return o
}

// score returns the run's score by the piece's rule.
func (r *runner) score(p *plan, o result) float64 {
	t := &r.crew.tally
	if t.cannot && math.IsInf(p.course.window(), 1) {
		return math.NaN()
	}
	switch p.piece.ScoreBy {
	case "lowest":
		return t.lowest(p.kind)
	case "slowest":
		return t.slowest()
	}
	switch p.kind {
	case roomful.RoundsScore:
		if _, ok := p.piece.Format.(roomful.Every); ok {
			return float64(t.held)
		}
		return float64(len(t.rounds)) + r.fraction(p)
	case roomful.TimeScore:
		if iv, ok := p.piece.Format.(roomful.Intervals); ok && iv.Work == 0 {
			return t.sum()
		}
		return o.seconds
	case roomful.LoadScore:
		return t.load
	case roomful.DistanceScore:
		return t.total().metres
	case roomful.HoldScore:
		return t.total().seconds
	default:
		return t.counted
	}
}

// fraction returns how much of the round that is under way is done: counted
// repetitions and calories over those of a round; if it has none, distance or
// time.
func (r *runner) fraction(p *plan) float64 {
	l, ok := p.course.(*linear)
	if !ok {
		return 0
	}
	t, whole := &r.crew.tally, r.wholeRound(l, len(r.crew.tally.rounds))
	var f float64
	switch {
	case whole.counted > 0:
		f = t.inRound.counted / whole.counted
	case whole.metres > 0:
		f = t.inRound.metres / whole.metres
	case whole.seconds > 0:
		f = t.inRound.seconds / whole.seconds
	}
	return min(f, 1-1e-9)
}

// wholeRound returns what round n asks for in all.
func (r *runner) wholeRound(l *linear, n int) (s share) {
	acts := r.crew.members[0].actions
	for _, i := range l.round {
		a := &acts[i]
		amount := a.amount
		if count, ok := l.ladder.Step(n); ok && amount == 0 {
			amount = float64(count)
		}
		d := a.share(amount, a.timed)
		s.counted += d.counted
		s.metres += d.metres
		s.seconds += d.seconds
	}
	return s
}

// total adds up the groups.
func (t *tally) total() (s share) {
	for i := range t.groups {
		s.counted += t.groups[i].counted
		s.metres += t.groups[i].metres
		s.seconds += t.groups[i].seconds
	}
	return s
}

// of returns the amount that a kind of score counts.
func (s share) of(k roomful.ScoreKind) float64 {
	switch k {
	case roomful.DistanceScore:
		return s.metres
	case roomful.HoldScore:
		return s.seconds
	}
	return s.counted
}

// lowest returns the least amount of any bout or round.
func (t *tally) lowest(k roomful.ScoreKind) float64 {
	if len(t.groups) == 0 {
		return 0
	}
	least := math.Inf(1)
	for i := range t.groups {
		least = min(least, t.groups[i].of(k))
	}
	return least
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
