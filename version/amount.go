package version

import (
	"math"
	"slices"
	"time"

	"roomful"
	"roomful/version/internal/piece"
	"roomful/version/internal/rack"
	"roomful/version/internal/say"
)

// nearTime is how far apart the times of two repetitions may be for the count to
// stay: a coach says 12 ring rows for 12 pull-ups, not 11 (common practice, no
// source).
const nearTime = 1.67

// lostLoad is how many more repetitions stand for a load that is taken away
// (common practice, no source: 1.3 to 1.5).
const lostLoad = 1.5

// mostForOne is the greatest ratio of repetitions for somebody with a limit: much
// more of another thing is a strain of its own (judgement).
const mostForOne = 1.5

// calories are what machines show for the same work beside each other: a fan
// bike shows four fifths of the others (common practice, no source).
var calories = map[roomful.Implement]float64{
	roomful.RowMachine: 1, roomful.SkiMachine: 1, roomful.Bike: 1, roomful.FanBike: 0.8,
}

// convert returns how much of another form keeps the time of a task for this
// person, and what the amount rests on.
func (c *class) convert(p *person, w roomful.Task, from *roomful.Movement, g piece.Form) (amount float64, unit roomful.Unit, on roomful.Basis) {
	to := g.Movement
	unit = w.Unit
	if len(to.Units) > 0 && !slices.Contains(to.Units, unit) {
		unit = to.Units[0]
		if c.kind == roomful.RepsScore && slices.Contains(to.Units, roomful.Calorie) {
			unit = roomful.Calorie // a score of repetitions counts calories and no metres
		}
	}
	ratio, by := c.ratio(p, from, g, unit)
	switch {
	case c.standsInSets(p, w, to) && unit == roomful.Rep:
		return max(w.Amount, setOf(to)), unit, roomful.BySet
	case w.Amount == 0:
		return 0, unit, roomful.ByTime
	case ratio > 0 && unit == w.Unit:
		return say.Tidy(w.Amount*ratio, unit), unit, by
	case unit == roomful.Calorie && w.Unit == roomful.Calorie:
		return say.Tidy(w.Amount*calories[to.Implement]/calories[from.Implement], unit), unit, roomful.ByCalories
	case unit == roomful.Rep && w.Unit == roomful.Rep && from.Pace.Ordinary > 0 && to.Pace.Ordinary > 0:
		ratio, on := from.Pace.Ordinary/to.Pace.Ordinary, roomful.ByTime
		if ratio < nearTime && ratio > 1/nearTime {
			ratio, on = 1, roomful.ByCount
			if w.Load.Value > 0 && !to.TakesLoad() && !p.care.Any() {
				ratio, on = lostLoad, roomful.ByLostLoad
			}
		}
		return say.Tidy(w.Amount*ratio, unit), unit, on
	}
	seconds := c.seconds(p, w)
	if unit == roomful.Second {
		return say.Tidy(seconds, unit), unit, roomful.ByTime
	}
	if n := c.inTime(p, roomful.Task{Movement: to.ID, Amount: usualAmount[unit], Unit: unit, HeightCm: rack.UsualHeight(to, p.Athlete.Division)}, seconds); n > 0 {
		return say.Tidy(n, unit), unit, roomful.ByTime
	}
	return w.Amount, unit, roomful.ByCount
}

// ratio returns how many of a form stand for one of a movement, and whose figure
// that is: the gym's comes before the catalogue's. It is 0 when neither says.
func (c *class) ratio(p *person, from *roomful.Movement, g piece.Form, unit roomful.Unit) (float64, roomful.Basis) {
	ratio, by := c.Gym.Ratios.For(from.ID, g.Movement.ID, unit), roomful.ByGym
	if ratio == 0 {
		ratio, by = g.Ratio, roomful.ByCatalogue
	}
	if unit == roomful.Rep && len(p.care.Acting) > 0 {
		ratio = min(ratio, mostForOne)
	}
	return ratio, by
}

// closer is how often an amount is timed again to come nearer to a time: a short
// piece goes faster than a long one, so one timing is not enough.
const closer = 3

// inTime returns how much of a task takes a person so many seconds, starting
// from the task's own amount; 0 when it cannot be timed.
func (c *class) inTime(p *person, t roomful.Task, seconds float64) float64 {
	for range closer {
		took := c.seconds(p, t)
		if took <= 0 {
			return 0
		}
		t.Amount *= seconds / took
	}
	return t.Amount
}

// standsInSets reports whether a form takes the place of a strength set that
// would hurt, or of one with a load and has none.
func (c *class) standsInSets(p *person, w roomful.Task, to *roomful.Movement) bool {
	_, sets := c.Piece.Format.(roomful.Sets)
	from := c.Lexicon.Movement(w.Movement)
	return sets && from != nil && from.TakesLoad() && to.Implement != from.Implement && (p.care.HeldBy(from) != nil || !to.TakesLoad())
}

// setOf is the least repetitions of a set that stands in for a heavier one, with
// a lighter load or with none (common practice, no source).
func setOf(m *roomful.Movement) float64 {
	if m.TakesLoad() {
		return 8
	}
	return 12
}

// usualAmount is how much of a form to time first, by unit.
var usualAmount = map[roomful.Unit]float64{roomful.Rep: 20, roomful.Metre: 400, roomful.Calorie: 20}

// usualLaps is how often a round is done in a window when the effort does not say
// (common practice, no source).
const usualLaps = 4

// laps is how often a round comes in the piece: one bout of a long piece is not
// sprinted.
func (c *class) laps() int {
	switch f := c.Piece.Format.(type) {
	case roomful.ForTime:
		return max(f.Rounds, 1)
	case roomful.RoundsInTime:
		if c.windowed && c.Effort.Low > 1 {
			return int(c.Effort.Low)
		}
		return usualLaps
	}
	return 1
}

// seconds is how long one task takes a person at the pace of the piece, without
// noise.
func (c *class) seconds(p *person, t roomful.Task) float64 {
	if t.Unit == roomful.Second {
		return t.Amount
	}
	if m := c.Lexicon.Movement(t.Movement); m != nil && t.Unit == roomful.Rep && m.Pace.Ordinary > 0 {
		return t.Amount * m.Pace.Ordinary
	}
	one := roomful.Part{Kind: roomful.Main, Scored: true, Format: roomful.ForTime{Rounds: c.laps(), Cap: time.Duration(c.laps()) * time.Hour},
		Round: []roomful.Element{{Movement: t.Movement, Amount: roomful.Amount{By: []float64{t.Amount}, Unit: t.Unit}}}}
	got := c.Forecaster.Typical(roomful.ForecastRequest{Piece: one, Seed: c.Seed, Workers: 1, Keep: true, Entrants: []roomful.Entrant{{
		ID: p.id, Name: p.Athlete.Name, Division: p.Athlete.Division, Abilities: p.Abilities,
		Work: roomful.Work{Round: []roomful.Task{t}},
	}}})
	if len(got) != 1 || math.IsNaN(got[0]) {
		return 0
	}
	return got[0] / float64(c.laps())
}
