package prep

import (
	"math"
	"slices"
	"time"

	"roomful"
	"roomful/version/internal/rack"
)

// Aim is what a build-up leads to, for one person.
type Aim struct {
	Movement   *roomful.Movement
	Load       roomful.Mass // per implement
	Implements int
	// MostKg is the person's maximum of the movement per implement, 0 when it is
	// not known.
	MostKg   float64
	Reps     int // of the set it leads to: the proof set, or the first working set
	Strength bool
	// Heaviest says that the sets after it build on to a heaviest one of Load, so
	// that it ends earlier.
	Heaviest bool
	Careful  bool          // lighter steps: new, under 18, or no maximum known
	Most     time.Duration // for all of it; 0 when nothing is said
	Rest     time.Duration // the gym's longest between two sets; 0 for the usual
	Stock    *rack.Stock
	Division roomful.Division
}

// step is one set of a build-up: a share of the load aimed at, and repetitions.
// A share of 0 is the bare bar.
type step struct {
	share float64
	reps  int
}

// The steps of a ramp (common practice, no source). For strength each step is
// fewer repetitions than the one before; before a piece on a clock there are two or
// three sets of 3 to 5.
var (
	strengthSteps = []step{{0, 8}, {0.4, 5}, {0.6, 3}, {0.75, 2}, {0.88, 1}}
	carefulSets   = []step{{0, 8}, {0.4, 5}, {0.55, 5}, {0.7, 3}, {0.85, 2}}
	heaviestSteps = []step{{0, 8}, {0.4, 5}, {0.6, 3}}
	clockSteps    = []step{{0, 8}, {2.0 / 3, 5}, {0.85, 3}}
	carefulSteps  = []step{{0, 8}, {0.5, 5}, {0.7, 5}, {0.85, 3}}
	easySteps     = []step{{0, 8}, {0.7, 5}}
	lightSets     = []step{{0, 8}, {0.75, 3}}
	lighterOnes   = []step{{0.55, 5}, {0.8, 3}} // dumbbells and kettlebells
)

// FirstWorkingStep is the first working set as a share of the heaviest one that
// sets build to (common practice, no source).
const FirstWorkingStep = 0.75

// What makes a step worth its time, and what a load has to be for all of them
// (judgement).
const (
	nearBar   = 1.5  // times the bare bar: one set of it is enough
	lightBar  = 2    // times the bare bar: two sets are enough for strength
	lightLoad = 0.35 // of the maximum: fewer steps are enough
	roundDown = 0.1  // of a step's load may be left for fewer plates
	leastJump = 0.08 // of the load aimed at, from one set to the next
	leastKg   = 5    // from one set to the next
	leastGap  = 2.5  // kg under the load aimed at
)

// BuildUp returns the sets that lead to a load, with plates and times; nil when
// nothing lighter is worth a set and the load is not on a bar.
func BuildUp(a Aim) *roomful.BuildUp {
	b := &roomful.BuildUp{Movement: a.Movement.ID}
	switch a.Movement.Implement {
	case roomful.Barbell:
		b.Sets = a.barSets()
	case roomful.Dumbbell, roomful.Kettlebell:
		b.Sets = a.handSets()
	}
	if len(b.Sets) == 0 {
		return nil
	}
	a.time(b)
	if a.Careful {
		b.Say = "if a step is a fight, stay there and tell the coach"
	}
	return b
}

// goal is the load the steps are shares of and end at.
func (a *Aim) goal() roomful.Mass {
	if !a.Heaviest {
		return a.Load
	}
	load, _ := a.Stock.Below(a.tool(), a.Load.Kg()*FirstWorkingStep)
	return load
}

// tool is what is held.
func (a *Aim) tool() rack.Tool {
	return rack.Tool{Implement: a.Movement.Implement, Count: a.Implements}
}

// steps are those that suit the load.
func (a *Aim) steps(barKg float64) []step {
	kg := a.Load.Kg()
	switch {
	case kg <= barKg*nearBar:
		return easySteps[:1]
	case a.Strength && kg <= barKg*lightBar:
		return lightSets
	case a.Heaviest:
		return heaviestSteps
	case a.Strength && a.Careful:
		return carefulSets
	case a.Strength:
		return strengthSteps
	case a.Careful:
		return carefulSteps
	case a.MostKg > 0 && kg < lightLoad*a.MostKg:
		return easySteps
	}
	return clockSteps
}

// barSets are the sets on a bar: the bare bar, steps that add plates to what is
// on, and the set they lead to.
func (a *Aim) barSets() []roomful.BuildSet {
	goal := a.goal()
	bar, _, ok := a.Stock.Side(a.Division, goal)
	if !ok {
		return nil
	}
	var out []roomful.BuildSet
	var on []roomful.Mass
	last := 0.0
	put := func(load roomful.Mass, reps int, side []roomful.Mass, proof bool) {
		on, last = side, load.Kg()
		out = append(out, roomful.BuildSet{Reps: reps, Load: load, Proof: proof,
			Plates: roomful.SideLoad{Movement: a.Movement.ID, Bar: bar, PerSide: slices.Clone(side)}})
	}
	for _, s := range a.steps(bar.Kg()) {
		if s.share == 0 {
			if bar.Kg() < goal.Kg()-leastGap+tiny {
				put(bar, s.reps, nil, false)
			}
			continue
		}
		if load, side, ok := a.fewest(bar, on, s.share*a.Load.Kg(), last+a.jump()-tiny, goal.Kg()-leastGap+tiny); ok {
			put(load, s.reps, side, false)
		}
	}
	if a.Strength {
		return out // the first working set belongs to the sets themselves
	}
	if side, _, ok := a.onto(bar, on, goal); ok {
		put(goal, a.Reps, side, true)
	}
	return out
}

// jump is how much heavier a set is at least than the one before.
func (a *Aim) jump() float64 { return max(leastKg, leastJump*a.Load.Kg()) }

// fewest finds the load of a step: at most kg and a little under it, between
// least and most, with the fewest plates moved from what is on; of equal ones the
// heaviest.
func (a *Aim) fewest(bar roomful.Mass, on []roomful.Mass, kg, least, most float64) (best roomful.Mass, side []roomful.Mass, ok bool) {
	moves := math.MaxInt
	for _, load := range a.Stock.Of(a.tool()) {
		if v := load.Kg(); v < max(least, kg*(1-roundDown)) || v > min(most, kg+tiny) {
			continue
		}
		if plates, n, fits := a.onto(bar, on, load); fits && n <= moves {
			best, side, moves, ok = load, plates, n, true
		}
	}
	return best, side, ok
}

// onto finds the plates that make a load with the fewest moved from what is on,
// the outermost taken off first; of equal ones the fewest plates.
func (a *Aim) onto(bar roomful.Mass, on []roomful.Mass, load roomful.Mass) (side []roomful.Mass, moves int, ok bool) {
	for off := range len(on) + 1 {
		plates, fits := a.Stock.Onto(bar, on[:len(on)-off], load)
		n := moved(on, plates)
		if fits && (!ok || n < moves || n == moves && len(plates) < len(side)) {
			side, moves, ok = plates, n, true
		}
	}
	return side, moves, ok
}

// moved counts the plates of one side that come off and go on.
func moved(from, to []roomful.Mass) int {
	same := 0
	for same < min(len(from), len(to)) && from[same] == to[same] {
		same++
	}
	return len(from) + len(to) - 2*same
}

// handSets are one or two lighter ones that there are, and the set itself.
func (a *Aim) handSets() []roomful.BuildSet {
	var out []roomful.BuildSet
	last := 0.0
	for _, s := range lighterOnes {
		load, ok := a.Stock.Below(a.tool(), a.Load.Kg()*s.share)
		if ok && load.Kg() > last+tiny && load.Kg() > a.Load.Kg()*lighterOnes[0].share/2 {
			out = append(out, roomful.BuildSet{Reps: s.reps, Load: load, Implements: a.Implements})
			last = load.Kg()
		}
	}
	if len(out) == 0 || a.Strength {
		return out
	}
	return append(out, roomful.BuildSet{Reps: a.Reps, Load: a.Load, Implements: a.Implements, Proof: true})
}

// Times of a ramp (common practice, no source). A conditioning ramp takes 3 to 5
// minutes, one for strength 8 to 12 with about two minutes between sets.
const (
	setUp       = 5 * time.Second // to step up, brace and put it down again
	plateMove   = 4 * time.Second // for each plate of one side, two hands at work
	changeHands = 5 * time.Second

	clockRamp, clockLeast, clockMost          = 4 * time.Minute, 20 * time.Second, time.Minute
	strengthRamp, strengthLeast, strengthMost = 10 * time.Minute, time.Minute, 150 * time.Second
)

// time gives every set its time and shares what is left of a ramp's usual
// length, or of the sheet's, as rest. A ramp that cannot fit loses the second
// set, then the next.
func (a *Aim) time(b *roomful.BuildUp) {
	length, least, most := clockRamp, clockLeast, clockMost
	if a.Strength {
		length, least, most = strengthRamp, strengthLeast, strengthMost
	}
	if a.Most > 0 {
		length = min(length, a.Most)
	}
	if a.Rest > 0 && (a.Strength || a.Rest < most) {
		most = a.Rest
		least = min(least, most)
	}
	for {
		work := worked(b.Sets, a.Movement)
		gaps := len(b.Sets) - 1
		if a.Strength {
			gaps++ // before the first working set
		}
		rest := most
		if gaps > 0 {
			rest = min(max((length-work)/time.Duration(gaps), least), most).Truncate(5 * time.Second)
		}
		b.Length = a.rests(b.Sets, rest)
		if a.Most == 0 || b.Length <= a.Most || len(b.Sets) <= 2 {
			return
		}
		b.Sets = a.without(b.Sets, 1)
	}
}

// worked times the work of every set and returns the sum.
func worked(sets []roomful.BuildSet, m *roomful.Movement) (all time.Duration) {
	for i := range sets {
		s := &sets[i]
		s.Work = setUp + time.Duration(float64(s.Reps)*m.Pace.Ordinary*float64(time.Second)).Round(time.Second)
		all += s.Work
	}
	return all
}

// Time gives the sets that a sheet states their times: the length of the part, or
// the usual one, shared as rest.
func Time(b *roomful.BuildUp, m *roomful.Movement, length time.Duration) {
	if length == 0 {
		length = clockRamp
	}
	work := worked(b.Sets, m)
	a := Aim{Movement: m}
	rest := time.Duration(0)
	if gaps := len(b.Sets) - 1; gaps > 0 {
		rest = max((length-work)/time.Duration(gaps), clockLeast).Truncate(5 * time.Second)
	}
	b.Length = a.rests(b.Sets, min(rest, strengthMost))
}

// rests sets the rest after each set, long enough to change the plates, and
// returns the length of it all.
func (a *Aim) rests(sets []roomful.BuildSet, rest time.Duration) (all time.Duration) {
	for i := range sets {
		change := changeHands
		if i+1 < len(sets) {
			change += time.Duration(moved(sets[i].Plates.PerSide, sets[i+1].Plates.PerSide)) * plateMove
		}
		sets[i].Rest = max(rest, change)
		if i == len(sets)-1 && !a.Strength {
			sets[i].Rest = 0
		}
		all += sets[i].Work + sets[i].Rest
	}
	return all
}

// without drops one set. What it put on the bar stays out of the others only if
// they were loaded onto it, so the plates are laid anew.
func (a *Aim) without(sets []roomful.BuildSet, i int) []roomful.BuildSet {
	out := slices.Delete(slices.Clone(sets), i, i+1)
	for n := i; n < len(out); n++ {
		s := &out[n]
		if side, _, ok := a.onto(s.Plates.Bar, out[n-1].Plates.PerSide, s.Load); ok && s.Plates.Bar.Value > 0 {
			s.Plates.PerSide = side
		}
	}
	return out
}

// tiny absorbs rounding when masses in kg are compared.
const tiny = 1e-6
