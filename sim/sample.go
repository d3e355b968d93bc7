package sim

import (
	"math"
	"math/rand/v2"
	"slices"

	"roomful"
	"roomful/sim/internal/kernel"
)

// Keys of the random numbers that a run draws before it starts. Numbers within
// a run are keyed by step.
const (
	keyFactor = 1 << 32
	keyDay    = 2 << 32
	keyGym    = 3 << 32
	keySteps  = 4 << 32
)

// noise is a source of variates that can be moved to a key.
type noise struct {
	*rand.Rand
	stream kernel.Stream
}

// Seek moves the source to the start of a key's numbers.
func (n *noise) Seek(key uint64) { n.stream.Seek(key) }

// Bell returns a number from a bell curve of mean 0 and spread 1, the sum of four
// even ones out of one word: no farther out than 3.5, and several times faster than
// a normal number. It serves what is small beside everything else, set by set.
func (n *noise) Bell() float64 {
	w := n.stream.Uint64()
	sum := w&0xffff + w>>16&0xffff + w>>32&0xffff + w>>48
	const mean, spread = 2 * 65535, 37837.2 // 65536·√(4/12)
	return (float64(sum) - mean) * (1 / spread)
}

func newNoise() *noise {
	n := new(noise)
	n.Rand = rand.New(&n.stream)
	return n
}

// sampler draws one person's abilities. Only capacities that the piece touches
// are drawn; each factor has its own key, so that the same run gives the same
// person whatever the piece.
type sampler struct {
	abilities *roomful.Abilities
	need      []int // dims
	factors   []int // factors that they load on
	keys      []uint64
	z         []float64
	noise     *noise
	dims      []float64
	fixed     [roles]int // dims of the whole person by role
}

// The roles of dims that belong to the whole person.
const (
	roleVO2max = iota
	roleReserve
	roleSpeed
	rolePacing
	roleBreaks
	roleRecovery
	roles
)

// wholePerson lists the capacities of the roles with the value to use when a
// person lacks one.
var wholePerson = [roles]struct {
	capacity roomful.Capacity
	missing  float64
}{
	roleVO2max:   {roomful.CapVO2max, 42},
	roleReserve:  {roomful.CapReserve, 1050},
	roleSpeed:    {roomful.CapSpeed, 1},
	rolePacing:   {roomful.CapPacing, 1},
	roleBreaks:   {roomful.CapBreaks, 0},
	roleRecovery: {roomful.CapRecovery, 1},
}

// learn prepares to draw what a person's actions need, in the memory of whom it drew before.
func (s *sampler) learn(a *roomful.Abilities, actions []action) {
	*s = sampler{abilities: a, noise: s.noise, dims: slices.Grow(s.dims[:0], len(a.Dims))[:len(a.Dims)], need: s.need[:0], factors: s.factors[:0], keys: s.keys[:0], z: s.z[:0]}
	want := func(i int) {
		if i >= 0 && !slices.Contains(s.need, i) {
			s.need = append(s.need, i)
			s.dims[i] = value(&a.Dims[i], a.Dims[i].Centre)
		}
	}
	for r := range wholePerson {
		s.fixed[r] = a.Index(wholePerson[r].capacity)
		want(s.fixed[r])
	}
	for i := range actions {
		want(actions[i].bound.strengthDim())
		want(actions[i].bound.enduranceDim())
		want(actions[i].trip)
	}
}

// draws lists the factors that the capacities load on, for who is to be drawn and not
// taken at the centre.
func (s *sampler) draws() {
	a := s.abilities
	s.z = slices.Grow(s.z[:0], a.Factors)[:a.Factors]
	for _, i := range s.need {
		for _, l := range a.Dims[i].Loads {
			if !slices.Contains(s.factors, l.Factor) {
				s.factors = append(s.factors, l.Factor)
			}
		}
	}
	slices.Sort(s.factors)
	for _, f := range s.factors {
		key := uint64(f)
		if f < len(a.Keys) {
			key = hash(a.Keys[f])
		}
		s.keys = append(s.keys, kernel.Mix(keyFactor, key))
	}
}

// strengthDim returns the dim of the bound's maximum, -1 when there is none.
func (b *bound) strengthDim() int {
	if b.kind == noBound {
		return -1
	}
	return b.strength
}

// enduranceDim returns the dim of the bound's endurance, -1 when there is none.
func (b *bound) enduranceDim() int {
	if b.kind == noBound {
		return -1
	}
	return b.endurance
}

// draw fills the dims for a run.
func (s *sampler) draw(key uint64) {
	if len(s.factors) == 0 {
		s.draws()
	}
	for i, f := range s.factors {
		s.noise.Seek(kernel.Mix(key, s.keys[i]))
		s.z[f] = s.noise.NormFloat64()
	}
	for _, i := range s.need {
		d := &s.abilities.Dims[i]
		x := d.Centre
		for _, l := range d.Loads {
			x += l.SD * s.z[l.Factor]
		}
		s.dims[i] = value(d, x)
	}
}

// role returns a whole-person capacity as drawn.
func (s *sampler) role(r int) float64 {
	if i := s.fixed[r]; i >= 0 {
		return s.dims[i]
	}
	return wholePerson[r].missing
}

// day is what a run adds to a person's abilities.
type day struct{ oxygen, endurance, tempo float64 }

// day draws the effects of a day and of a gym. Everybody in a run shares the
// gym's.
func (s *sampler) day(c *Constants, personRun, seedRun uint64) (d day) {
	s.noise.Seek(kernel.Mix(personRun, keyDay))
	d.oxygen = math.Exp(c.DayOxygen * s.noise.NormFloat64())
	s.noise.Seek(kernel.Mix(seedRun, keyGym))
	d.endurance = math.Exp(c.GymEndurance * s.noise.NormFloat64())
	d.tempo = math.Exp(c.GymTempo * s.noise.NormFloat64())
	return d
}

// calm is a day without noise.
var calm = day{1, 1, 1}

// prepare sets a member's body and acts from what their sampler drew.
func (m *member) prepare(s *sampler, d day, c *Constants) {
	m.dims, m.c, m.endurance = s.dims, c, d.endurance
	m.speed = s.role(roleSpeed) * d.tempo
	m.pace = s.role(rolePacing)
	m.body.C = &c.Constants
	m.body.W = s.role(roleReserve)
	m.body.Breaks = s.role(roleBreaks)
	m.body.Slowness = s.role(roleRecovery)
	// VO2max above rest, at 20.9 J/mL, per second.
	net := (s.role(roleVO2max) - 3.5) * 20.9 / 60 * d.oxygen
	m.body.Supply[kernel.Lift] = c.PhiLift * net
	m.body.Supply[kernel.Machine] = c.PhiMachine * net
	m.body.Supply[kernel.Run] = c.PhiRun * net
	m.body.Ready()
	for i := range m.actions {
		a := &m.actions[i]
		if a.kind == engineAction {
			m.acts[i].Seconds = 1 / a.rate(m.body.Supply[a.mode])
		}
		if a.kind != repsAction {
			continue
		}
		m.acts[i] = a.resolve(m)
		m.find(i, a.amount)
	}
}
