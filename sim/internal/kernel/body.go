// Package kernel is the model of one body at work: oxygen supply, a reserve
// above it, local fatigue by muscle group, the time a repetition takes, and
// when a set is broken. It knows nothing of movements, pieces or people; package
// sim resolves those into acts and drives bodies through them.
//
// Energies are metabolic and per kilogram of body mass (J/kg, W/kg); fatigue
// and reserve are shares of a whole. doc/model.md states the rules by number.
package kernel

import "math"

// Groups is the number of muscle groups.
const Groups = 6

// Mode is the kind of work, which sets the oxygen supply.
type Mode uint8

// The modes of work.
const (
	Lift Mode = iota
	Machine
	Run
	modes
)

// Part is the fatigue that one unit of an act adds to a muscle group: the
// group's weight over the repetitions possible fresh.
type Part struct {
	Group  uint8
	Weight float64
}

// Act is one kind of work resolved for one body on one day. Its unit is a
// repetition, a metre or a second.
type Act struct {
	Mode    Mode
	Joules  float64 // J/kg for one unit
	Seconds float64 // s for one unit, rested
	Floor   float64 // s for one unit, never faster by intent
	N       float64 // units possible fresh, without a break
	Slow    float64 // share of the fatigue that recovers slowly
	Trip    float64 // log-odds of failing a unit; ignored unless Trips
	Trips   bool
	Parts   []Part
}

// Body is the state of one person in one run.
type Body struct {
	C      *Constants
	Supply [modes]float64 // W/kg when oxygen uptake is at its height
	W      float64        // reserve, J/kg
	Breaks float64        // added to the log-hazard of a break

	fast, slow   float64 // reserve spent, in halves that recover at two speeds
	oxygen       float64 // share of the supply that is flowing
	local        [Groups]struct{ fast, slow, at float64 }
	now          float64
	PeakD, PeakL float64
}

// Reset returns the body to rest at time 0.
func (b *Body) Reset() {
	b.fast, b.slow, b.oxygen, b.now, b.PeakD, b.PeakL = 0, 0, 0, 0, 0, 0
	clear(b.local[:])
}

// Now returns the body's time in s.
func (b *Body) Now() float64 { return b.now }

// Spent returns the share of the reserve that is spent.
func (b *Body) Spent() float64 { return b.fast + b.slow }

// Oxygen returns the share of the oxygen supply that is flowing.
func (b *Body) Oxygen() float64 { return b.oxygen }

// tau returns the time constant of oxygen uptake in a mode.
func (b *Body) tau(m Mode) float64 {
	if m == Lift {
		return b.C.OxygenLift
	}
	return b.C.OxygenRun
}

// Rest lets time pass without work.
func (b *Body) Rest(seconds float64) {
	if seconds <= 0 {
		return
	}
	b.oxygen *= math.Exp(-seconds / b.C.OxygenLift)
	b.fast *= math.Exp(-seconds / b.C.TauFast)
	b.slow *= math.Exp(-seconds / b.C.TauSlow)
	b.now += seconds
}

// refresh lets a group recover to the present.
func (b *Body) refresh(g uint8) {
	l := &b.local[g]
	if dt := b.now - l.at; dt > 0 {
		if l.fast > 1e-9 || l.slow > 1e-9 {
			l.fast *= math.Exp(-dt / b.C.LocalFast)
			l.slow *= math.Exp(-dt / b.C.LocalSlow)
		}
		l.at = b.now
	}
}

// Local returns the local fatigue that counts for an act: the highest among
// the groups that carry at least half of it.
func (b *Body) Local(a *Act) float64 {
	var most float64
	for _, p := range a.Parts {
		b.refresh(p.Group)
		if p.Weight >= 0.5 {
			l := &b.local[p.Group]
			most = max(most, l.fast+l.slow)
		}
	}
	return most
}

// UnitSeconds returns how long the next unit of an act takes at a local
// fatigue and the tempo of the set.
func (b *Body) UnitSeconds(a *Act, local, tempo float64) float64 {
	d := b.Spent()
	t := a.Seconds * tempo * (1 + b.C.SlowLocal*local*local + b.C.SlowReserve*d)
	return max(t, a.Floor, b.energyFloor(a, d))
}

// energyFloor is the shortest time in which supply and reserve can pay for a
// unit.
func (b *Body) energyFloor(a *Act, spent float64) float64 {
	supply := b.Supply[a.Mode]*b.oxygen + b.W*max(0, b.C.SpendTo-spent)/b.C.Sprint
	return a.Joules / max(supply, 0.05*b.Supply[a.Mode], 1e-9)
}

// Do performs n units of an act, each taking the given seconds.
func (b *Body) Do(a *Act, n, seconds float64) {
	dt := n * seconds
	b.spend(a.Mode, n*a.Joules, dt)
	b.now += dt
	for _, p := range a.Parts {
		l := &b.local[p.Group]
		add := n * p.Weight / a.N
		l.fast += add * (1 - a.Slow)
		l.slow += add * a.Slow
		l.at = b.now
		b.PeakL = max(b.PeakL, l.fast+l.slow)
	}
	b.PeakD = max(b.PeakD, b.Spent())
}

// spend balances the energy of dt seconds of work costing joules in all.
func (b *Body) spend(m Mode, joules, dt float64) {
	tau := b.tau(m)
	keep := math.Exp(-dt / tau)
	mean := 1.0 // mean share of the supply flowing over dt
	if dt > 1e-9 {
		mean = 1 - (1-b.oxygen)*(1-keep)*tau/dt
	}
	b.oxygen = 1 - (1-b.oxygen)*keep
	supplied := b.Supply[m] * mean * dt
	if net := joules - supplied; net > 0 {
		half := net / (2 * b.W)
		b.fast += half
		b.slow += half
		return
	}
	unused := 1 - joules/supplied
	b.fast *= math.Exp(-dt / b.C.TauFast * unused)
	b.slow *= math.Exp(-dt / b.C.TauSlow * unused)
}

// Room returns how many whole units of an act can follow before local fatigue
// forbids the next one.
func (b *Body) Room(a *Act, local float64) float64 {
	if len(a.Parts) == 0 {
		return math.Inf(1)
	}
	return (1 - local) * a.N
}

// Hazard returns the rate of breaking the set per unit.
func (b *Body) Hazard(local float64) float64 {
	return math.Exp(b.C.BreakBase + b.C.BreakLocal*local + b.C.BreakReserve*b.Spent() + b.Breaks)
}

// TripRate returns the rate of failing per unit tried: -log(1-p).
func (b *Body) TripRate(a *Act, local float64) float64 {
	x := a.Trip + b.C.TripFatigue*(b.Spent()+local)
	return math.Log1p(math.Exp(x))
}

// Recovery returns how many seconds of rest bring an act's local fatigue down
// to a target, 0 when it is there.
func (b *Body) Recovery(a *Act, target float64) float64 {
	var longest float64
	for _, p := range a.Parts {
		if p.Weight < 0.5 {
			continue
		}
		b.refresh(p.Group)
		l := &b.local[p.Group]
		longest = max(longest, b.decay(l.fast, l.slow, target))
	}
	return longest
}

// decay solves fast·e^(-t/τf) + slow·e^(-t/τs) = target for t by Newton's
// method from the left, where the sum is convex and so never overshoots.
func (b *Body) decay(fast, slow, target float64) float64 {
	t := 0.0
	for range 40 {
		f := fast * math.Exp(-t/b.C.LocalFast)
		s := slow * math.Exp(-t/b.C.LocalSlow)
		over := f + s - target
		if over <= 1e-6 {
			break
		}
		t += over / (f/b.C.LocalFast + s/b.C.LocalSlow)
	}
	return t
}
