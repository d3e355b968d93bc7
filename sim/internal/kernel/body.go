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

// Part is how much of an act's effort falls on a muscle group, from 0 to 1.
type Part struct {
	Group  uint8
	Weight float64
}

// MainPart is the weight from which a group can limit an act.
const MainPart = 0.5

// Act is one kind of work resolved for one body on one day. Its unit is a
// repetition, a metre or a second.
type Act struct {
	Mode    Mode
	Joules  float64 // J/kg for one unit
	Seconds float64 // s for one unit, rested
	Floor   float64 // s for one unit, never faster by intent
	N       float64 // units possible fresh, without a break
	Slow    float64 // share of new fatigue that recovers slowly, per unit of fast fatigue there is
	Trip    float64 // log-odds of failing a unit; ignored unless Trips
	Trips   bool
	Still   bool // a hold: its unit is a second and takes one
	Parts   []Part

	perUnit float64 // 1/N
}

// Ready works out what follows from the act's figures; call it after setting
// them.
func (a *Act) Ready() { a.perUnit = 1 / max(a.N, 1e-9) }

// PerUnit returns the local fatigue that one unit adds to a group of weight 1.
func (a *Act) PerUnit() float64 { return a.perUnit }

// Body is the state of one person in one run.
type Body struct {
	C      *Constants
	Supply [modes]float64 // W/kg when oxygen uptake is at its height
	W      float64        // reserve, J/kg
	Breaks float64        // added to the log-hazard of a break
	// Slowness multiplies how long muscles take to recover; 0 is 1.
	Slowness float64

	rates        rates
	walked       float64 // s of walking not yet accounted for
	fast, slow   float64 // reserve spent, in halves that recover at two speeds
	oxygen       float64 // share of the supply that is flowing
	local        [Groups]fatigue
	now          float64
	PeakD, PeakL float64
}

// fatigue is that of one muscle group, in two parts that recover at two
// speeds, as it was at a time.
type fatigue struct{ fast, slow, at float64 }

// rates are reciprocals that every step needs.
type rates struct{ fast, slow, localFast, localSlow, oxygenRun, oxygenLift, halfW, sprint float64 }

// Ready works out what follows from the body's figures; call it after setting
// them.
func (b *Body) Ready() {
	c, slower := b.C, b.Slowness
	if slower == 0 {
		slower = 1
	}
	b.rates = rates{1 / c.TauFast, 1 / c.TauSlow, 1 / (slower * c.LocalFast), 1 / (slower * c.LocalSlow),
		1 / c.OxygenRun, 1 / c.OxygenLift, 0.5 / b.W, b.W / c.Sprint}
}

// Reset returns the body to rest at time 0.
func (b *Body) Reset() {
	b.fast, b.slow, b.oxygen, b.now, b.walked, b.PeakD, b.PeakL = 0, 0, 0, 0, 0, 0, 0
	clear(b.local[:])
}

// Now returns the body's time in s.
func (b *Body) Now() float64 { return b.now }

// Spent returns the share of the reserve that is spent.
func (b *Body) Spent() float64 { return b.fast + b.slow }

// Oxygen returns the share of the oxygen supply that is flowing.
func (b *Body) Oxygen() float64 { return b.oxygen }

// uptake returns the rate of oxygen uptake in a mode, per s.
func (b *Body) uptake(m Mode) float64 {
	if m == Lift {
		return b.rates.oxygenLift
	}
	return b.rates.oxygenRun
}

// Walk lets a few seconds pass from one element to the next. Breathing goes
// on: the time counts as part of the work that follows.
func (b *Body) Walk(seconds float64) {
	b.walked += seconds
	b.now += seconds
}

// Rest lets time pass without work.
func (b *Body) Rest(seconds float64) {
	if seconds <= 0 {
		return
	}
	b.now += seconds
	seconds += b.walked
	b.walked = 0
	b.oxygen *= fade(seconds * b.rates.oxygenLift)
	b.fast *= fade(seconds * b.rates.fast)
	b.slow *= fade(seconds * b.rates.slow)
}

// Local lets the groups of an act recover to the present and returns the local
// fatigue that counts for it: the highest among the groups that carry at least
// half of it.
func (b *Body) Local(a *Act) float64 {
	var most float64
	for i := range a.Parts {
		p := &a.Parts[i]
		l := &b.local[p.Group]
		if dt := b.now - l.at; dt > 0 {
			l.at = b.now
			l.fast *= fade(dt * b.rates.localFast)
			l.slow *= fade(dt * b.rates.localSlow)
		}
		if sum := l.fast + l.slow; p.Weight >= MainPart && sum > most {
			most = sum
		}
	}
	return most
}

// UnitSeconds returns how long the next unit of an act takes at a local
// fatigue and the tempo of the set, and for how much of it the muscles are
// busy: what intent or breath add is slack.
func (b *Body) UnitSeconds(a *Act, local, tempo float64) (t, busy float64) {
	if a.Still {
		return a.Seconds, a.Seconds
	}
	d := b.Spent()
	busy = a.Seconds * tempo * (1 + b.C.SlowLocal*local*local + b.C.SlowReserve*d)
	t = busy
	if t < a.Floor {
		t = a.Floor
	}
	if pays := b.pays(a.Mode, d); a.Joules > t*pays {
		t = a.Joules / pays
	}
	return t, busy
}

// pays is the power in W/kg that supply and reserve can pay for.
func (b *Body) pays(m Mode, spent float64) float64 {
	pays := b.Supply[m] * b.oxygen
	if room := b.C.SpendTo - spent; room > 0 {
		pays += b.rates.sprint * room
	}
	if least := 0.05 * b.Supply[m]; pays < least {
		pays = least
	}
	return pays
}

// Do performs n units of an act, each taking the given seconds and keeping the
// muscles busy for a part of them; in the rest of the time they recover. No
// units are no work.
func (b *Body) Do(a *Act, n, seconds, busy float64) {
	dt := n * seconds
	if dt <= 0 {
		return
	}
	b.spend(a.Mode, n*a.Joules, dt)
	b.now += dt
	each := n * a.perUnit
	recovered := b.now
	if slack := n * (seconds - busy); slack > 0 {
		recovered -= slack
	}
	for i := range a.Parts {
		p := &a.Parts[i]
		l := &b.local[p.Group]
		fast, slow := split(a.Slow, l.fast, each*p.Weight)
		l.fast += fast
		l.slow += slow
		l.at = recovered
		if sum := l.fast + l.slow; sum > b.PeakL {
			b.PeakL = sum
		}
	}
	if d := b.Spent(); d > b.PeakD {
		b.PeakD = d
	}
}

// split parts new local fatigue into what recovers fast and slowly. The slow
// share grows with the fast fatigue there is: d fast = (1 - slow·fast) d added.
func split(slow, fast, added float64) (more, slower float64) {
	room := 1 - slow*fast
	if room <= 0 {
		return 0, added
	}
	x := slow * added
	if x > 0.5 {
		more = room / slow * (1 - Exp(-x))
	} else {
		// The series of (1 - e^-x)/x, within 5e-5.
		more = room * added * (1 - x*(0.5-x*(1.0/6-x*(1.0/24-x*(1.0/120)))))
	}
	return more, added - more
}

// spend balances the energy of dt seconds of work costing joules in all, with
// the walk before it. What a walk takes up and the work does not need yet is
// kept for the work that follows.
func (b *Body) spend(m Mode, joules, dt float64) {
	walk := b.walked
	all := dt + walk
	b.walked = 0
	supplied := b.Supply[m] * all
	if lack := 1 - b.oxygen; lack > 1e-4 {
		// The supply lacks on average what an exponential approach lacks.
		keep, mean := lag(all * b.uptake(m))
		supplied *= 1 - lack*mean
		b.oxygen = 1 - lack*keep
	}
	if net := joules - supplied; net >= 0 {
		half := net * b.rates.halfW
		b.fast += half
		b.slow += half
		return
	}
	unused := all * (1 - joules/supplied)
	if unused < walk {
		b.walked = unused
		return
	}
	b.fast *= fade(unused * b.rates.fast)
	b.slow *= fade(unused * b.rates.slow)
}

// Exp returns e^x to within 4e-6 of itself, several times faster than the
// library's. It serves rates and decays, which are known far less well.
func Exp(x float64) float64 {
	y := x * math.Log2E
	if y < -1000 || y > 1000 {
		return math.Exp(x)
	}
	// Adding half of all the whole numbers a float64 can hold rounds y to the
	// nearest and leaves it in the low bits, without a slow conversion.
	const round = 3 << 51
	t := y + round
	f := (y - (t - round)) * math.Ln2
	// Taylor's series of e^f for |f| ≤ ln 2 / 2, in pairs that can run at once.
	g := f * f
	p := (1 + f) + g*((0.5+f*(1.0/6))+g*(1.0/24+f*(1.0/120)))
	return p * math.Float64frombits((math.Float64bits(t)+1023)<<52)
}

// fade returns e^-x for x ≥ 0. Most steps are short against the time constants,
// where the (2,2) Padé approximant is within 5e-5 and several times faster,
// the more so as it is short enough to be inlined.
func fade(x float64) float64 {
	if x > 0.5 {
		return Exp(-x)
	}
	return 1 - 12*x/(12+x*(6+x))
}

// lag returns e^-x for x ≥ 0 and the mean of e^-t over t from 0 to x, (1-e^-x)/x;
// both come from one division where x is short, as in fade.
func lag(x float64) (end, mean float64) {
	if x > 0.5 {
		end = Exp(-x)
		return end, (1 - end) / x
	}
	mean = 12 / (12 + x*(6+x))
	return 1 - x*mean, mean
}

// Hazard returns the rate of breaking the set per unit.
func (b *Body) Hazard(local float64) float64 {
	return Exp(b.C.BreakBase + b.C.BreakLocal*local + b.C.BreakReserve*b.Spent() + b.Breaks)
}

// TripRate returns the rate of failing per unit tried: -log(1-p).
func (b *Body) TripRate(a *Act, local float64) float64 {
	x := a.Trip + b.C.TripFatigue*(b.Spent()+local)
	return math.Log1p(Exp(x))
}

// Recovery returns how many seconds of rest bring an act's local fatigue down
// to a target, 0 when it is there.
func (b *Body) Recovery(a *Act, target float64) float64 {
	var longest float64
	b.Local(a)
	for _, p := range a.Parts {
		if p.Weight < MainPart {
			continue
		}
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
		f := fast * fade(t*b.rates.localFast)
		s := slow * fade(t*b.rates.localSlow)
		over := f + s - target
		if over <= 1e-6 {
			break
		}
		t += over / (f*b.rates.localFast + s*b.rates.localSlow)
	}
	return t
}
