package version

import (
	"fmt"
	"math"

	"roomful"
	"roomful/version/internal/care"
	"roomful/version/internal/say"
)

// Somebody who is held to a share of the volume does the piece as it is, for
// less long: halving the repetitions of a window would only double its rounds.
// Where the work is fixed they do fewer rounds, sets or steps if those divide
// well, and else a share of each amount. Either way no window of the effort is
// theirs to meet: it is for the whole piece.

// steadySets is how many sets of one load stand for a build to a heaviest one:
// one to three are usual under 18 (Faigenbaum et al. 2009).
const steadySets = 3

// doses finds how much of the piece a person does: the dose, and the share of
// each amount that is theirs, 1 when the dose says it all.
func (c *class) doses(p *person) (d roomful.Dose, amounts float64) {
	share := p.care.Volume
	if s, ok := c.Piece.Format.(roomful.Sets); ok && s.Build && (p.care.Any() || c.Home || c.blind(p)) {
		return c.steadyDose(p), 1
	}
	if share >= 1 {
		return d, 1
	}
	d = care.Shorter(c.Piece, share)
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
	} else if c.Home {
		d.Private = "training alone: " + d.Private
	} else if c.blind(p) {
		d.Private = "no maximum known: " + d.Private
	}
	return d
}

// blind reports whether somebody would have to build to a heaviest set of a lift of
// which nothing they told says how much they lift.
func (c *class) blind(p *person) bool {
	for _, l := range c.lines {
		if l.Movement != nil && !p.knowsMax(l.Movement) {
			return true
		}
	}
	return false
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
		m := f.form.Movement
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
	return !c.windowed || p.care.Volume < 1 || c.maximal() && (p.care.Any() || c.Home)
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
	one := t
	one.Amount = 1
	if a, ok := f.Piece.Format.(roomful.AmountInTime); ok && t.Unit != roomful.Second { // no more than there is time for
		n = min(n, a.Window.Seconds()/f.seconds(f.p, one))
	}
	left := n * care.TwoThirds
	if t.Unit == roomful.Rep {
		left = min(left, max(n-inReserve, 1))
	}
	return say.Trim(left*f.p.care.Volume, t.Unit)
}
