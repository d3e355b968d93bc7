package day

import (
	"context"

	"roomful"
	"roomful/version"
)

// Choices is what one person would do of a piece on each option of its day.
type Choices struct {
	Piece        roomful.Part
	Effort       roomful.Effort // as proposed when the sheet has none
	Alternatives []roomful.Alternative
}

// Choices finds what somebody among the people of a question would do on each option of
// the day, at home with their own kit. Each is worked out as a version is, and nothing that
// was set by hand counts.
func (d *Day) Choices(ctx context.Context, q Question, who string, home bool) (Choices, error) {
	c, err := d.class(q)
	if err != nil {
		return Choices{}, err
	}
	r := d.versionRequest(ctx, &c, home)
	all, err := version.Alternatives(ctx, r, who)
	return Choices{c.piece, c.effort, all}, err
}

// Expect says in words where somebody would end with their version, beside the effort; empty
// when no window is theirs to meet.
func (d *Day) Expect(got Versions, v roomful.Version) string {
	kind := roomful.KindOf(got.Piece, d.Lexicon)
	if v.Stop != "" || !v.Dose.Whole() || !got.Effort.Stated() || !got.Effort.Counts(kind) {
		return ""
	}
	switch {
	case v.Forecast.OnIntent != nil:
		return got.Effort.Expect(kind, v.Forecast, *v.Forecast.OnIntent)
	case got.Effort.Proposed:
		return got.Effort.Expect(kind, v.Forecast, 1) // the room's, and nobody's to be sure of
	}
	return ""
}

// Stated is what a piece says for a division in figures: what is left to a maximum, a feel
// or a test has no load. What is set by hand is held against it when the sheet is edited.
func Stated(p roomful.Part, division roomful.Division) roomful.Work {
	of := func(elements []roomful.Element) (out []roomful.Task) {
		for _, e := range elements {
			t := roomful.Task{Movement: e.Movement, Amount: e.Amount.For(division), Unit: e.Amount.Unit.Base(), Implements: e.Implements, HeightCm: e.HeightCm(division), Slot: e.Slot}
			if masses, ok := e.Load.(roomful.Masses); ok && len(masses) > 0 {
				t.Load = masses.For(division)
			}
			out = append(out, t)
		}
		return out
	}
	return roomful.Work{Once: of(p.Once), Round: of(p.Round), Last: of(p.Last)}
}
