package score

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"roomful"
)

// Comparer lays attempts beside each other. Abilities are of the person on the
// earlier day.
type Comparer struct {
	Forecaster roomful.Forecaster
	Lexicon    roomful.Lexicon
	Runs       int // UsualRuns when 0
	Seed       uint64
	Workers    int
	Unit       roomful.MassUnit // that the person thinks in
}

// UsualRuns is how often both versions are simulated: the middle of an interval
// then moves by less than a hundredth from seed to seed.
const UsualRuns = 1024

// Between a probability of so much and one less it nobody can say which was better.
const tieBelow = 0.4

// Compare lays a later attempt beside an earlier one. The same work is compared by
// its scores. Other work is compared through what the person of the earlier day
// would have scored on the later work.
func (c Comparer) Compare(ctx context.Context, who *roomful.Abilities, earlier, later roomful.Entry) (roomful.Comparison, error) {
	out := roomful.Comparison{Earlier: earlier, Later: later, Difference: math.NaN(), Improved: math.NaN(),
		Beat: roomful.Target{Match: math.NaN(), Beat: math.NaN()}}
	for _, e := range []roomful.Entry{earlier, later} {
		for _, a := range e.Done.Assumed {
			out.Assumed = append(out.Assumed, e.On.String()+": "+a)
		}
	}
	out.Tier, out.Changed = c.tier(earlier, later)
	var err error
	switch out.Tier {
	case roomful.TierNotComparable:
	case roomful.TierSame:
		out.Difference, out.AtLeast = gap(earlier, later)
		out.Improved = certain(out.Difference, better(later.Reading.Kind))
	default:
		out.Difference, out.AtLeast = gap(earlier, later)
		err = c.equivalent(ctx, who, &out)
		if p := c.plain(out); !math.IsNaN(p) {
			out.Improved = p
		}
		if out.Tier == roomful.TierDifferent { // of other work a difference means nothing
			out.Difference, out.AtLeast = math.NaN(), false
		}
	}
	if err == nil {
		out.Beat, err = c.Next(ctx, who, c.Best(roomful.Record{earlier, later}))
	}
	out.Sentence = guessed(out, c.sentence(out))
	return out, err
}

// better is 1 when more is better, and -1 for times.
func better(k roomful.ScoreKind) float64 {
	if k.HigherIsBetter() {
		return 1
	}
	return -1
}

// certain is the probability of being better when nothing is in doubt.
func certain(difference, sign float64) float64 {
	switch {
	case math.IsNaN(difference):
		return math.NaN()
	case difference*sign > 0:
		return 1
	case difference == 0:
		return 0.5
	}
	return 0
}

// sameLoad is how far apart two loads may be and still be one: plates in kilograms
// and in pounds do not meet exactly.
const sameLoad = 0.01

// tier finds how far two attempts may be compared, and what was otherwise.
func (c Comparer) tier(a, b roomful.Entry) (roomful.Tier, []string) {
	if why := incomparable(a, b); why != "" {
		return roomful.TierNotComparable, []string{why}
	}
	var changed []string
	if why := otherPiece(a.Done, b.Done); why != "" {
		return roomful.TierDifferent, []string{why}
	}
	before, now := a.Done.Work.All(), b.Done.Work.All()
	if len(before) != len(now) {
		return roomful.TierDifferent, append(slices.Clone(b.Done.Changed), "not the same lines")
	}
	for i := range now {
		changed = append(changed, c.otherTask(before[i], now[i], b.Reading.Kind)...)
	}
	if !slices.EqualFunc(a.Done.Segments, b.Done.Segments, sameSegment) {
		changed = append(changed, onTheWay(b.Done)+" instead of "+onTheWay(a.Done))
	}
	if was, is := a.Done.Dose, b.Done.Dose; !sameDose(was, is) {
		return roomful.TierDifferent, append(changed, words(is)+" instead of "+words(was))
	}
	switch len(changed) {
	case 0:
		return roomful.TierSame, nil
	case 1:
		return roomful.TierOneChange, changed
	}
	return roomful.TierDifferent, changed
}

// words is a dose in words.
func words(d roomful.Dose) string {
	switch {
	case d.Whole():
		return "all of it"
	case d.StopAt > 0:
		return "until " + roomful.Clock(d.StopAt.Seconds())
	case d.Rounds > 0:
		return fmt.Sprintf("%d of the rounds", d.Rounds)
	case d.Work > 0:
		return roomful.Figure(d.Work.Seconds()) + " s of each bout"
	case len(d.Ladder) > 0:
		return fmt.Sprintf("%d steps", len(d.Ladder))
	}
	return "sets at one load"
}

// sameDose reports whether as much was done of a piece.
func sameDose(a, b roomful.Dose) bool {
	return a.StopAt == b.StopAt && a.Rounds == b.Rounds && a.Work == b.Work && a.Steady == b.Steady && slices.Equal(a.Ladder, b.Ladder)
}

// onTheWay says what changed on the way.
func onTheWay(d roomful.Done) string {
	var said []string
	for _, s := range d.Segments {
		if s.From > 0 {
			said = append(said, s.Say)
		}
	}
	if len(said) == 0 {
		return "the same to the end"
	}
	return strings.Join(said, ", ")
}

// sameSegment reports whether the same was done from the same time on.
func sameSegment(a, b roomful.Segment) bool {
	return a.From == b.From && slices.EqualFunc(a.Work.All(), b.Work.All(), func(x, y roomful.Task) bool {
		return x.Movement == y.Movement && near(x.Amount, y.Amount) && near(x.LoadKg(), y.LoadKg())
	})
}

// incomparable says why nothing can be said about two attempts, or "".
func incomparable(a, b roomful.Entry) string {
	for _, e := range []roomful.Entry{a, b} {
		switch {
		case math.IsNaN(e.Done.Score):
			return "there is no score of " + day(e.On)
		case e.Reading.Question != nil:
			return "the score of " + day(e.On) + " can be read in two ways: " + e.Reading.Question.Ask
		}
	}
	switch {
	case a.Done.Piece.Team.Size > 1 && !strings.EqualFold(a.Reading.Partner, b.Reading.Partner):
		return "not with the same partner"
	case a.Reading.Kind != b.Reading.Kind:
		return fmt.Sprintf("one is scored by %s and the other by %s", a.Reading.Kind, b.Reading.Kind)
	case a.Done.Piece.Format.Name() != b.Done.Piece.Format.Name():
		return "the pieces are not run in the same way"
	}
	return hiddenByCap(a, b)
}

// otherPiece says what is otherwise about the piece itself, or "".
func otherPiece(a, b roomful.Done) string {
	fa, fb := a.Piece.Format, b.Piece.Format
	if ta, ok := fa.(roomful.ForTime); ok { // a cap does not change the work
		tb := fb.(roomful.ForTime)
		ta.Cap, tb.Cap = 0, 0
		fa, fb = ta, tb
	}
	if fmt.Sprintf("%+v", fa) != fmt.Sprintf("%+v", fb) {
		return "the piece is of another length"
	}
	return ""
}

// near reports whether two figures are one but for the rounding of plates.
func near(a, b float64) bool { return math.Abs(a-b) <= sameLoad*max(math.Abs(a), math.Abs(b))+1e-9 }

// otherTask lists what is otherwise about a line, each in words. Where the load is
// the score it is no change.
func (c Comparer) otherTask(a, b roomful.Task, kind roomful.ScoreKind) []string {
	if a.Movement != b.Movement {
		return []string{fmt.Sprintf("%s instead of %s", c.plural(b.Movement), c.plural(a.Movement))}
	}
	var out []string
	name := c.plural(b.Movement)
	if !near(a.Amount, b.Amount) || a.Unit != b.Unit {
		if b.Unit == roomful.Rep && a.Unit == b.Unit {
			out = append(out, fmt.Sprintf("%s %s instead of %s", roomful.Figure(b.Amount), name, roomful.Figure(a.Amount)))
		} else {
			out = append(out, fmt.Sprintf("%s %s of %s instead of %s", roomful.Figure(b.Amount), b.Unit, name, roomful.Figure(a.Amount)))
		}
	}
	switch la, lb := a.LoadKg(), b.LoadKg(); {
	case near(la, lb), kind == roomful.LoadScore:
	case la == 0:
		out = append(out, fmt.Sprintf("%s with %s", name, c.mass(b.Load)))
	case lb == 0:
		out = append(out, fmt.Sprintf("%s without the %s", name, c.mass(a.Load)))
	default:
		out = append(out, fmt.Sprintf("%s with %s instead of %s", name, c.mass(b.Load), c.mass(a.Load)))
	}
	if !near(a.HeightCm, b.HeightCm) {
		out = append(out, fmt.Sprintf("%s at %s cm instead of %s", name, roomful.Figure(b.HeightCm), roomful.Figure(a.HeightCm)))
	}
	return out
}

// mass writes a load in the person's unit.
func (c Comparer) mass(m roomful.Mass) string { return m.Near(c.Unit).String() }

// plural names a movement as one names several.
func (c Comparer) plural(id roomful.MovementID) string {
	if m := c.Lexicon.Movement(id); m != nil {
		return m.Plural
	}
	return strings.ReplaceAll(string(id), "-", " ")
}

// day writes a date as one says it, "5 December 2026".
func day(d roomful.Date) string {
	if d.IsZero() {
		return "the earlier day"
	}
	return fmt.Sprintf("%d %s %d", d.Day, d.Month, d.Year)
}
