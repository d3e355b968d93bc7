package sim

import (
	"cmp"
	"math"
	"slices"
)

// sheaf holds the runs of one squad, by run.
type sheaf struct {
	have                 int // of the runs, from before
	score, reps, seconds []float64
	rounds               [][]float64
	capped, cannot       []bool
	reserve, fatigue     []float64
	waited, over         []float64
	reached              []float64
	spells               [][]spell   // by block and action
	lasted               [][]float64 // memory of the rounds, by block
	notches              []notch
}

// notch is what the spells of the last block came to after a number of runs, in the order
// in which they are added up.
type notch struct {
	runs   int
	spells []spell
}

func newSheaf(runs, blocks int) *sheaf {
	of := func() []float64 { return make([]float64, runs) }
	return &sheaf{
		score: of(), reps: of(), seconds: of(), reserve: of(), fatigue: of(), waited: of(), over: of(), reached: of(),
		rounds: make([][]float64, runs), capped: make([]bool, runs), cannot: make([]bool, runs),
		spells: make([][]spell, blocks), lasted: make([][]float64, blocks),
	}
}

// runs is how many there are.
func (sh *sheaf) runs() int { return len(sh.score) }

// close ends a sheaf that is to be kept: nobody changes it from here on.
func (sh *sheaf) close() {
	sh.lasted = nil
	sh.notches = append(sh.notches, notch{sh.runs(), sh.spells[len(sh.spells)-1]})
}

// first returns a sheaf of so many runs, in blocks of a size, with as many of one that is
// kept as there was a notch after.
func (sh *sheaf) first(runs, per int) *sheaf {
	at := len(sh.notches) - 1
	for at >= 0 && sh.notches[at].runs > runs {
		at--
	}
	if at < 0 {
		return nil
	}
	have := sh.notches[at].runs
	out := newSheaf(runs, (runs+per-1)/per)
	out.have, out.notches = have, slices.Clone(sh.notches[:at+1])
	for i, from := range [...][]float64{sh.score, sh.reps, sh.seconds, sh.reserve, sh.fatigue, sh.waited, sh.over, sh.reached} {
		copy([...][]float64{out.score, out.reps, out.seconds, out.reserve, out.fatigue, out.waited, out.over, out.reached}[i], from[:have])
	}
	copy(out.rounds, sh.rounds[:have])
	copy(out.capped, sh.capped[:have])
	copy(out.cannot, sh.cannot[:have])
	last := (have - 1) / per
	copy(out.spells, sh.spells[:last])
	out.spells[last] = slices.Clone(sh.notches[at].spells)
	return out
}

// keep books what a run came to, one of so many that are done of its block.
func (sh *sheaf) keep(n, block, of int, r *runner) {
	o := r.outcome()
	sh.score[n], sh.reps[n], sh.seconds[n] = o.score, o.reps, o.seconds
	sh.capped[n], sh.cannot[n] = o.capped, o.cannot
	sh.reserve[n], sh.fatigue[n] = o.reserve, o.fatigue
	sh.waited[n], sh.reached[n] = r.crew.tally.waited, r.crew.tally.reached
	if !o.cannot { // nobody waits for an element that somebody cannot do
		sh.over[n] = r.crew.clock
	}
	if sh.lasted[block] == nil {
		sh.lasted[block] = make([]float64, 0, (len(o.rounds)+1)*of)
	}
	from := len(sh.lasted[block])
	sh.lasted[block] = append(sh.lasted[block], o.rounds...)
	sh.rounds[n] = sh.lasted[block][from:]
	if sh.spells[block] == nil {
		sh.spells[block] = make([]spell, len(r.crew.tally.spells))
	}
	for i := range r.crew.tally.spells {
		sh.spells[block][i].add(r.crew.tally.spells[i])
	}
}

// The runs that count when something is given: a sixteenth of them, and enough for
// percentiles.
const (
	nearShare = 16
	nearLeast = 48
)

// near returns the runs that had come nearest to what was done.
func (sh *sheaf) near(done float64) *sheaf {
	order := make([]int, len(sh.reached))
	for n := range order {
		order[n] = n
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return cmp.Compare(math.Abs(sh.reached[a]-done), math.Abs(sh.reached[b]-done))
	})
	order = order[:min(len(order), max(nearLeast, len(order)/nearShare))]
	slices.Sort(order)
	out := newSheaf(len(order), 0)
	out.spells = sh.spells
	for i, n := range order {
		out.score[i], out.reps[i], out.seconds[i], out.rounds[i] = sh.score[n], sh.reps[n], sh.seconds[n], sh.rounds[n]
		out.capped[i], out.cannot[i], out.waited[i], out.over[i] = sh.capped[n], sh.cannot[n], sh.waited[n], sh.over[n]
		out.reserve[i], out.fatigue[i], out.reached[i] = sh.reserve[n], sh.fatigue[n], sh.reached[n]
	}
	return out
}
