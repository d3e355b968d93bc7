package version

import (
	"fmt"
	"math"
	"time"

	"roomful"
	"roomful/version/internal/care"
	"roomful/version/internal/say"
)

// Somebody who is held to a share of the volume does the piece as it is, for
// less long: halving the repetitions of a window would only double its rounds.
// Where the work is fixed they do fewer rounds, sets or steps if those divide
// well, and else a share of each amount. Either way no window of the effort is
// theirs to meet: it is for the whole piece.

// What a share of the volume may be rounded to.
const (
	overRound  = 0.25 // of a round above the share (judgement: 4 of 5 rounds for three quarters)
	underShare = 0.1  // of all rounds or steps below it, before amounts are cut instead
	overSteps  = 0.05 // of a ladder's whole count above it: 21-15 of 21-15-9 for three quarters
)

// steadySets is how many sets of one load stand for a build to a heaviest one:
// one to three are usual under 18 (Faigenbaum et al. 2009).
const steadySets = 3

// doses finds how much of the piece a person does: the dose, and the share of
// each amount that is theirs, 1 when the dose says it all.
func (c *class) doses(p *person) (d roomful.Dose, amounts float64) {
	share := p.care.Volume
	if s, ok := c.Piece.Format.(roomful.Sets); ok && s.Build && p.care.Any() {
		return c.steadyDose(p), 1
	}
	if share >= 1 {
		return d, 1
	}
	d = c.shorter(share)
	if d.Whole() && c.Piece.Team.Size > 1 {
		return d, 1 // what partners share is not one person's to cut
	}
	if d.Whole() {
		return d, share
	}
	d.Private = p.care.Because() + ": " + say.Share(share) + " the volume"
	return d, 1
}

// steadyDose is sets at one load in the place of a build.
func (c *class) steadyDose(p *person) roomful.Dose {
	d := roomful.Dose{Steady: true, Rounds: int(math.Ceil(steadySets * p.care.Volume))}
	d.Say = fmt.Sprintf("%s at one load today", say.Count(d.Rounds, "set"))
	d.Private = "no heaviest set"
	if b := p.care.Because(); b != "" {
		d.Private = b + ": " + d.Private
	}
	return d
}

// shorter returns the dose that is a share of the piece, the whole when only
// its amounts can be cut.
func (c *class) shorter(share float64) (d roomful.Dose) {
	whole := c.Piece.Format.Length(len(c.Piece.Round))
	switch f := c.Piece.Format.(type) {
	case roomful.RoundsInTime, roomful.AmountInTime:
		d.StopAt = trimTime(whole, share)
	case roomful.Every:
		d.StopAt = time.Duration(max(int(float64(f.Count)*share+1e-9), 1)) * f.Interval
	case roomful.Intervals:
		d = rounds(f.Count, share, f.Work, "bout")
	case roomful.Stations:
		d = rounds(f.Rounds, share, f.Work, "round")
	case roomful.ForTime:
		if len(f.Ladder.Steps) > 0 {
			d.Ladder = steps(f.Ladder.Steps, share)
			d.Say = say.Steps(d.Ladder) + " today"
		} else {
			d = rounds(f.Rounds, share, 0, "round")
		}
	case roomful.Sets:
		n := max(f.Count, len(f.Reps))
		d.Rounds = max(int(float64(n)*share+overRound), 1)
		d.Say = fmt.Sprintf("%d of %s today", d.Rounds, say.Count(n, "set"))
		if d.Rounds >= n {
			d = roomful.Dose{}
		}
	}
	switch {
	case d.StopAt > 0 && d.StopAt < whole:
		d.Say = say.Minutes(d.StopAt) + " of " + say.Clock(whole) + " today"
	case d.StopAt > 0:
		d = roomful.Dose{}
	}
	return d
}

// trimTime is a share of a window, down to half minutes, of a short one to five
// seconds.
func trimTime(whole time.Duration, share float64) time.Duration {
	step := 30 * time.Second
	if whole < 4*time.Minute {
		step = 5 * time.Second
	}
	return max(time.Duration(float64(whole)*share).Truncate(step), step)
}

// rounds is a share of n rounds or bouts; when they do not divide well, a share
// of the time of each; nothing when that is not fixed.
func rounds(n int, share float64, work time.Duration, word string) (d roomful.Dose) {
	k := int(float64(n)*share + overRound)
	switch {
	case n > 1 && k >= 1 && k < n && float64(k) >= float64(n)*(share-underShare):
		d.Rounds = k
		d.Say = fmt.Sprintf("%d of %s today", k, say.Count(n, word))
	case work > 0:
		d.Work = trimTime(work, share)
		d.Say = fmt.Sprintf("%d s of every %d today", int(d.Work.Seconds()), int(work.Seconds()))
	}
	return d
}

// steps is a share of a ladder: its first steps or, when they do not divide
// well, smaller ones.
func steps(all []int, share float64) []int {
	var total float64
	for _, n := range all {
		total += float64(n)
	}
	var sum float64
	for k, n := range all {
		if sum+float64(n) > total*(share+overSteps)+tiny {
			if k > 0 && sum >= total*(share-underShare) {
				return all[:k:k]
			}
			break
		}
		sum += float64(n)
	}
	out := make([]int, len(all))
	for i, n := range all {
		out[i] = max(int(math.Floor(float64(n)*share)), 1)
	}
	return out
}

// maximal reports whether the piece asks for a heaviest set or one to the last
// repetition.
func (c *class) maximal() bool {
	switch f := c.Piece.Format.(type) {
	case roomful.Sets:
		return f.Build
	case roomful.AmountInTime:
		return f.Unbroken
	}
	return false
}

// spare reports whether a set of a movement to the last repetition is one to
// stop short of for a person. A skill that fails by itself is no strain.
func (c *class) spare(p *person, m *roomful.Movement) bool {
	a, ok := c.Piece.Format.(roomful.AmountInTime)
	return ok && a.Unbroken && p.care.Any() && m.Bound != nil && !m.Skill.Trips
}

// dose is how much of the piece a plan does: its person's, and sets at one load
// where a build has nothing to be built with or hurts.
func (c *class) dose(p *person, fits []*fitted) roomful.Dose {
	for _, f := range fits {
		m := f.form.movement
		if _, sets := c.Piece.Format.(roomful.Sets); !sets {
			if m != nil && !f.stuck && c.spare(p, m) {
				return roomful.Dose{Steady: true, Say: "a set that ends with some in hand today", Private: p.care.Because() + ": not to the last repetition"}
			}
		} else if c.maximal() && !p.dose.Steady && (f.stuck || f.why.limit != nil || m != nil && (!m.TakesLoad() || m.Bound == nil)) {
			return c.steadyDose(p)
		}
	}
	return p.dose
}

// free reports whether no window is a person's to meet.
func (c *class) free(p *person) bool {
	return !c.windowed || p.care.Volume < 1 || c.maximal() && p.care.Any()
}

// doing is the piece as a plan's person does it. What partners share goes on
// without them, so theirs is the whole.
func (c *class) doing(q *plan) roomful.Part {
	if c.Piece.Team.Size > 1 {
		return c.Piece
	}
	return q.dose.Of(c.Piece)
}

// inHand is the amount of a set that leaves some in hand, in the place of one to
// the last repetition: two repetitions, a third where there are many or where it
// is a hold.
func (f *fitter) inHand(t roomful.Task) float64 {
	n := f.Forecaster.Unbroken(f.p.cautious(), t)
	left := n * care.TwoThirds
	if t.Unit == roomful.Rep {
		left = min(left, max(n-inReserve, 1))
	}
	return say.Trim(left*f.p.care.Volume, t.Unit)
}
