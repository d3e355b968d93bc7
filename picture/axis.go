package picture

import (
	"math"

	"roomful"
)

// axis lays scores of one kind out to scale.
type axis struct {
	kind      roomful.ScoreKind
	low, high float64 // at both ends
	ticks     []float64
}

// mostScore is what no score exceeds; what does is not drawn.
const mostScore = 1e7

// known reports whether a number can be a score.
func known(v float64) bool { return v >= 0 && v <= mostScore }

// newAxis returns an axis on which all known values lie, with at most so many steps.
// Without any it goes from 0 to 1.
func newAxis(kind roomful.ScoreKind, most int, values ...float64) axis {
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range values {
		if known(v) {
			low, high = min(low, v), max(high, v)
		}
	}
	if low > high {
		low, high = 0, 1
	}
	for step := range ladder(kind) {
		from, to := math.Floor(low/step), math.Ceil(high/step)
		if from == to { // one value, on a step: give it air on both sides
			from, to = max(from-1, 0), to+1
		}
		if to-from > float64(most) {
			continue
		}
		a := axis{kind: kind, low: from * step, high: to * step}
		for n := from; n <= to; n++ {
			a.ticks = append(a.ticks, n*step)
		}
		return a
	}
	return axis{kind: kind, high: mostScore}
}

// ladder yields steps between ticks that people count in, ever wider: for times those of
// a clock, for others 1, 2 and 5 of each power of ten.
func ladder(kind roomful.ScoreKind) func(yield func(float64) bool) {
	return func(yield func(float64) bool) {
		unit := 1.0
		if kind == roomful.TimeScore || kind == roomful.HoldScore {
			for _, step := range []float64{1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 900, 1800} {
				if !yield(step) {
					return
				}
			}
			unit = 3600
		}
		for ; unit <= mostScore; unit *= 10 {
			for _, n := range []float64{1, 2, 5} {
				if !yield(n * unit) {
					return
				}
			}
		}
	}
}

// at returns where a value lies, in percent of the axis.
func (a axis) at(v float64) float64 {
	return min(max((v-a.low)/(a.high-a.low), 0), 1) * 100
}

// tick writes the figure at a tick, without its unit.
func (a axis) tick(v float64) string {
	if a.kind == roomful.TimeScore || a.kind == roomful.HoldScore {
		return roomful.Clock(v)
	}
	return roomful.Figure(v)
}

// unit says what the figures at the ticks count.
func (a axis) unit(effort roomful.Effort) string {
	switch a.kind {
	case roomful.RoundsScore:
		return "rounds"
	case roomful.TimeScore, roomful.HoldScore:
		return "m:ss"
	case roomful.LoadScore:
		return "kg"
	case roomful.DistanceScore:
		return "m"
	}
	if effort.Unit == "cal" {
		return "cal"
	}
	return "reps"
}

// window is the span of scores that an effort means.
type window struct {
	low, high float64
	stated    bool
	timed     bool   // more is later, not above
	words     string // "5-7 rounds, steady"
}

// windowOf returns the window of an effort for scores of a kind; it is not stated when
// the effort counts something else.
func windowOf(e roomful.Effort, kind roomful.ScoreKind) window {
	low, high := e.Window()
	if !e.Stated() || !e.Counts(kind) || !known(low) || !known(high) || high <= low {
		return window{}
	}
	words := roomful.Figure(e.Low)
	if e.High != e.Low {
		words += "-" + roomful.Figure(e.High)
	}
	words += " " + e.Unit
	if e.Feel != "" {
		words += ", " + e.Feel
	}
	return window{low, high, true, kind == roomful.TimeScore, words}
}

// place says where a score lies beside the window, in a word that blames nobody.
func (w window) place(v float64) string {
	switch {
	case !w.stated || !known(v):
		return ""
	case v >= w.low && v < w.high:
		return "within"
	case w.timed && v < w.low:
		return "sooner"
	case w.timed:
		return "later"
	case v < w.low:
		return "below"
	}
	return "above"
}

// ends returns the window's ends as values for an axis; none when it is not stated.
func (w window) ends() []float64 {
	if !w.stated {
		return nil
	}
	return []float64{w.low, w.high}
}
