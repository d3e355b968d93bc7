package study

import (
	"fmt"
	"math"
	"strings"

	"roomful"
	"roomful/equation"
	"roomful/sim"
)

// Energy is the oxygen a steady stretch of a movement takes, in multiples of
// rest. One of PerMinute, a cadence, and Watts, on a machine, is set; running
// gives its speed in metres a minute as its cadence.
type Energy struct {
	Movement  roomful.MovementID
	PerMinute float64
	Watts     float64
	LoadKg    float64
}

func (f Energy) predict(b *bench, g *Group) (Prediction, error) {
	m := b.Lexicon.Movement(f.Movement)
	if m == nil {
		return Prediction{}, fmt.Errorf("energy: no movement %q", f.Movement)
	}
	mass := g.Mean.MassKg
	power := joules(m, b.Constants, f.LoadKg, mass) * f.PerMinute / 60
	if f.Watts > 0 {
		power = engine(m, b.Constants, f.Watts, mass)
	}
	return single(equation.METs(equation.RestOxygen + equation.WattsPerKgOxygen(power))), nil
}

// joules returns the metabolic energy of one repetition, or one metre of
// running, in J per kg of body mass (doc/model.md, rule 1).
func joules(m *roomful.Movement, c sim.Constants, loadKg, massKg float64) float64 {
	if m.Modality == roomful.Running {
		return c.RunJoules
	}
	per := c.LoadedJoules
	if m.Travel.Dropped {
		per = c.DroppedJoules
	}
	rise := m.Travel.BodyTravelM
	if m.Travel.OverHeight {
		rise += m.Travel.UsualHeight / 100
	}
	return per*(loadKg*m.Travel.LoadTravelM/massKg+rise) + m.Travel.JoulesPerKg
}

// engine returns the metabolic power in W per kg of body mass behind a power on
// a machine.
func engine(m *roomful.Movement, c sim.Constants, watts, massKg float64) float64 {
	switch m.Implement {
	case roomful.SkiMachine:
		return watts / (c.SkiShare * massKg)
	case roomful.Bike, roomful.FanBike:
		return watts/(c.BikeShare*massKg) + c.BikeRest
	}
	return watts / (c.RowShare * massKg)
}

// Aerobic is the share of a piece's energy that oxygen taken up meanwhile pays
// for: what is left after the largest debt of the reserve.
type Aerobic struct{ Sheet string }

func (f Aerobic) predict(b *bench, g *Group) (Prediction, error) {
	rs, err := b.run(g, f.Sheet)
	if err != nil {
		return Prediction{}, err
	}
	all := b.centre(g)
	asked, err := b.asked(g, f.Sheet, all)
	if err != nil {
		return Prediction{}, err
	}
	v := make([]float64, len(rs))
	for i, r := range rs {
		w, _ := r.abilities.Median(roomful.CapReserve)
		v[i] = 1 - r.forecast.Reserve*w/asked
		if math.IsNaN(r.forecast.Score.P50) {
			v[i] = math.NaN()
		}
	}
	p := summary(v, 0.5)
	p.Value = mean(present(v))
	return p, nil
}

// asked returns the energy of a piece done whole, in J per kg of body mass, for
// somebody at the centre.
func (b *bench) asked(g *Group, sheet string, a *roomful.Abilities) (float64, error) {
	events, err := b.trace(g, sheet, a)
	var sum float64
	for _, e := range events {
		sum += e.Done * e.joules
	}
	return sum, err
}

// Breaks is how often somebody at the centre of the group breaks a set, without
// noise.
type Breaks struct{ Sheet string }

func (f Breaks) predict(b *bench, g *Group) (Prediction, error) {
	events, err := b.walk(g, f.Sheet, b.centre(g), true)
	var n float64
	for _, e := range events {
		if e.Break {
			n++
		}
	}
	return single(n), err
}

// event is a step of a run without noise with what one unit of it costs.
type event struct {
	sim.Event
	joules float64
}

// trace runs a piece once without noise for somebody at the centre of a group.
func (b *bench) trace(g *Group, sheet string, a *roomful.Abilities) ([]event, error) {
	return b.walk(g, sheet, a, false)
}

// walk is trace, with the breaks when they are asked for.
func (b *bench) walk(g *Group, sheet string, a *roomful.Abilities, breaks bool) ([]event, error) {
	p, err := b.piece(sheet)
	if err != nil {
		return nil, err
	}
	w := b.work(p, member{g.Mean, a})
	events, _, err := b.sim.Trace(roomful.ForecastRequest{Piece: p, Runs: 1, Seed: b.Seed, Workers: 1,
		Entrants: []roomful.Entrant{{ID: "mean", Name: "mean", Division: g.Mean.Division, Abilities: a, Work: w}}}, breaks)
	if err != nil {
		return nil, fmt.Errorf("tracing %q: %w", firstLine(sheet), err)
	}
	loads := map[roomful.MovementID]float64{}
	for _, t := range w.All() {
		loads[t.Movement] = t.LoadKg()
	}
	var out []event
	for _, e := range events {
		if m := b.Lexicon.Movement(e.Movement); m != nil && m.Modality != roomful.Pause {
			out = append(out, event{e, joules(m, b.Constants, loads[e.Movement], a.MassKg)})
		}
	}
	return out, nil
}

// Slowing is by how much the last of some repetitions is slower than the first,
// as a share of the first one's speed, without noise. A sheet with [count] in
// it takes the number of repetitions of one set, and the last of them is what a longer
// set adds; in one without, each repetition is a set.
type Slowing struct {
	Sheet string
	Reps  int
}

func (f Slowing) predict(b *bench, g *Group) (Prediction, error) {
	a := b.centre(g)
	lasts := func(sheet string) (first, last float64, err error) {
		events, err := b.trace(g, sheet, a)
		if err != nil || len(events) == 0 {
			return 0, 0, fmt.Errorf("slowing: no repetitions: %w", err)
		}
		x, y := events[0], events[len(events)-1]
		return x.End - x.Start, y.End - y.Start, nil
	}
	if !strings.Contains(f.Sheet, count) {
		first, last, err := lasts(f.Sheet)
		return single(1 - first/last), err
	}
	first, _, err := lasts(counted(f.Sheet, 1))
	if err != nil {
		return Prediction{}, err
	}
	_, most, err := lasts(counted(f.Sheet, f.Reps))
	if err != nil {
		return Prediction{}, err
	}
	_, less, err := lasts(counted(f.Sheet, f.Reps-1))
	return single(1 - first/(most-less)), err
}
