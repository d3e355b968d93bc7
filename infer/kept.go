package infer

import (
	"bytes"
	"encoding/gob"
	"fmt"

	"roomful"
)

// keptEntry is an [Entry] as it is kept between runs of the program. What can be
// reckoned from the rest is left out.
type keptEntry struct {
	Refused            string
	Off                float64
	Capacities         []roomful.Capacity
	Loads              []int
	Mass               bool
	Tasks              []keptTiring
	Mean, Spread, Fade *keptSurface
	MassKg             [2]float64
	LoadsKg            [][2]float64
}

// keptTiring is a [tiring] as it is kept.
type keptTiring struct {
	At int
	By []int
}

// keptSurface is a [surface] as it is kept.
type keptSurface struct {
	Middle, Scale, Weight                         []float64
	Points                                        [][]float64
	Mean, Misfit                                  float64
	Constant, Plane, Parabola, Bump, Width, Extra float64
}

// MarshalBinary gives an entry in the form in which it is kept.
func (e Entry) MarshalBinary() ([]byte, error) {
	k := keptEntry{Refused: e.Refused, Off: e.Off}
	if m := e.Emulator; m != nil {
		k.Capacities, k.Loads, k.Mass = m.inputs.capacities, m.inputs.loads, m.inputs.mass
		for _, t := range m.inputs.tasks {
			k.Tasks = append(k.Tasks, keptTiring{t.at, t.by})
		}
		k.MassKg, k.LoadsKg = m.reach.mass, m.reach.loads
		k.Mean, k.Spread, k.Fade = m.mean.kept(), m.spread.kept(), m.fade.kept()
	}
	var b bytes.Buffer
	err := gob.NewEncoder(&b).Encode(k)
	return b.Bytes(), err
}

// Entry reads an entry that was kept. It says the same as before, to the last bit.
func (s Simulator) Entry(kept []byte) (Entry, error) {
	var k keptEntry
	if err := gob.NewDecoder(bytes.NewReader(kept)).Decode(&k); err != nil {
		return Entry{}, fmt.Errorf("reading a kept emulator: %w", err)
	}
	out := Entry{Off: k.Off, Refused: k.Refused}
	if k.Mean == nil || k.Spread == nil {
		return out, nil
	}
	m := &Emulator{by: s, reach: reach{k.MassKg, k.LoadsKg}, mean: k.Mean.surface(), spread: k.Spread.surface(), fade: k.Fade.surface()}
	m.inputs = inputs{capacities: k.Capacities, loads: k.Loads, mass: k.Mass}
	for _, t := range k.Tasks {
		m.inputs.tasks = append(m.inputs.tasks, tiring{t.At, t.By})
	}
	out.Emulator = m
	return out, nil
}

// kept is the surface as it is kept.
func (s *surface) kept() *keptSurface {
	if s == nil {
		return nil
	}
	k := s.shape
	return &keptSurface{s.middle, s.scale, s.weight, s.points, s.mean, s.misfit, k.constant, k.plane, k.parabola, k.bump, k.width, k.extra}
}

// surface reckons the rest of a kept surface.
func (k *keptSurface) surface() *surface {
	if k == nil {
		return nil
	}
	s := &surface{middle: k.Middle, scale: k.Scale, weight: k.Weight, points: k.Points, mean: k.Mean, misfit: k.Misfit,
		shape: shape{k.Constant, k.Plane, k.Parabola, k.Bump, k.Width, k.Extra}}
	s.gather()
	return s
}

// reach is the body masses and the loads that an emulator was made for, each from the
// least to the most in kg.
type reach struct {
	mass  [2]float64
	loads [][2]float64 // of Work.All
}

// take widens the reach to a case, and reports whether it had to.
func (r *reach) take(c Case) (wider bool) {
	all := c.Result.Work.All()
	if first := r.loads == nil; first {
		r.mass = [2]float64{c.Prior.MassKg, c.Prior.MassKg}
		r.loads = make([][2]float64, len(all))
		for at, t := range all {
			r.loads[at] = [2]float64{t.LoadKg(), t.LoadKg()}
		}
		return true
	}
	widen := func(of *[2]float64, kg float64) {
		wider = wider || kg < of[0]-sameKg || kg > of[1]+sameKg
		of[0], of[1] = min(of[0], kg), max(of[1], kg)
	}
	widen(&r.mass, c.Prior.MassKg)
	for at, t := range all {
		widen(&r.loads[at], t.LoadKg())
	}
	return wider
}

// Serves reports whether the entry can tell what somebody's result says. What never
// varied while it was made is none of its inputs, and far beyond what it was made for
// it knows little.
func (e Entry) Serves(c Case) bool {
	if e.Emulator == nil {
		return e.Refused != ""
	}
	within := func(of [2]float64, kg float64) bool {
		slack := sameKg
		if of[1]-of[0] > sameKg {
			slack = beyond * of[1]
		}
		return kg >= of[0]-slack && kg <= of[1]+slack
	}
	all := c.Result.Work.All()
	if len(all) != len(e.reach.loads) || !within(e.reach.mass, c.Prior.MassKg) {
		return false
	}
	for at, t := range all {
		if !within(e.reach.loads[at], t.LoadKg()) {
			return false
		}
	}
	return true
}

const (
	// sameKg is how far apart masses that are the same may lie for arithmetic's sake.
	sameKg = 1e-9
	// beyond is how far past what it was made for an emulator is still asked, as a share
	// (judgement).
	beyond = 0.1
)
