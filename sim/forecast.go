package sim

import (
	"cmp"
	"context"
	"math"
	"slices"
	"strconv"
	"sync"
	"sync/atomic"

	"roomful"
)

// blockRuns is how many runs of one crew a worker takes at a time; of a class it
// takes as many fewer as there are crews.
const blockRuns = 256

// sheaf holds the runs of one squad, by run.
type sheaf struct {
	score, reps, seconds []float64
	rounds               [][]float64
	capped, cannot       []bool
	reserve, fatigue     []float64
	waited, over         []float64
	reached              []float64
	spells               [][]spell // by block and action
}

func newSheaf(runs, blocks int) *sheaf {
	of := func() []float64 { return make([]float64, runs) }
	return &sheaf{
		score: of(), reps: of(), seconds: of(), reserve: of(), fatigue: of(), waited: of(), over: of(), reached: of(),
		rounds: make([][]float64, runs), capped: make([]bool, runs), cannot: make([]bool, runs),
		spells: make([][]spell, blocks),
	}
}

// Forecast implements [roomful.Forecaster].
func (m *Model) Forecast(ctx context.Context, q roomful.ForecastRequest) (roomful.Forecast, error) {
	if q.Runs <= 0 {
		return roomful.Forecast{}, &roomful.Error{Summary: "forecasting " + q.Piece.Name() + ": no runs asked for", Hint: "ask for at least one run; 1000 is usual"}
	}
	c, err := m.gather(q)
	if err != nil {
		return roomful.Forecast{}, err
	}
	w := newWork(m, q, &c)
	if err := w.share(ctx); err != nil {
		return roomful.Forecast{}, err
	}
	f := roomful.Forecast{Kind: roomful.KindOf(q.Piece, m.lex), Places: w.places(), Over: w.over()}
	for i, s := range c.squads {
		for k, e := range s.entrants {
			if i*len(s.entrants)+k < len(q.Entrants) {
				f.Athletes = append(f.Athletes, m.summary(q, s, w.sheaves[s], e))
			}
		}
	}
	return f, nil
}

// work is a forecast being made.
type work struct {
	m       *Model
	q       roomful.ForecastRequest
	cast    *cast
	per     int // runs in a block
	blocks  int
	sheaves map[*squad]*sheaf
	uses    [][]use // of places, by block; a class has one group
}

func newWork(m *Model, q roomful.ForecastRequest, c *cast) *work {
	w := &work{m: m, q: q, cast: c, sheaves: map[*squad]*sheaf{}}
	w.per = max(1, blockRuns/len(c.groups[0]))
	w.blocks = (q.Runs + w.per - 1) / w.per
	for _, s := range c.squads {
		w.sheaves[s] = newSheaf(q.Runs, w.blocks)
	}
	w.uses = make([][]use, w.blocks)
	return w
}

// share spreads blocks of runs over workers. Each run's result depends on its
// own number alone and has its own place, so the number of workers does not
// show.
func (w *work) share(ctx context.Context) error {
	jobs := w.blocks * len(w.cast.groups)
	var done atomic.Int64
	var mu sync.Mutex
	spread(jobs, w.q.Workers, func() func(int) {
		var c *class
		at := -1
		return func(j int) {
			if ctx.Err() != nil {
				return
			}
			if g := j / w.blocks; g != at {
				c, at = w.cast.class(w.m, w.q.Seed, w.cast.groups[g], c), g
				c.watch(w.q.Given)
			}
			w.block(c, j%w.blocks)
			if n := done.Add(1); w.q.Progress != nil {
				mu.Lock()
				w.q.Progress(float64(n) / float64(jobs))
				mu.Unlock()
			}
		}
	})
	return ctx.Err()
}

// block does the runs of one block.
func (w *work) block(c *class, b int) {
	uses := make([]use, len(c.bays))
	for n := b * w.per; n < min((b+1)*w.per, w.q.Runs); n++ {
		for _, r := range c.runners {
			r.draw(n)
		}
		c.run(false)
		for _, r := range c.runners {
			w.sheaves[r.squad].keep(n, b, r)
		}
		for i := range uses {
			uses[i].add(c.bays[i].use)
		}
	}
	if len(uses) > 0 {
		w.uses[b] = uses
	}
}

// keep books what a run came to.
func (sh *sheaf) keep(n, block int, r *runner) {
	o := r.outcome()
	sh.score[n], sh.reps[n], sh.seconds[n] = o.score, o.reps, o.seconds
	sh.rounds[n], sh.capped[n], sh.cannot[n] = o.rounds, o.capped, o.cannot
	sh.reserve[n], sh.fatigue[n] = o.reserve, o.fatigue
	sh.waited[n], sh.reached[n] = r.crew.tally.waited, r.crew.tally.reached
	if !o.cannot { // nobody waits for an element that somebody cannot do
		sh.over[n] = r.crew.clock
	}
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

// over returns when the last is done.
func (w *work) over() roomful.Quantiles {
	last := make([]float64, w.q.Runs)
	for _, s := range w.cast.squads {
		for n, at := range w.sheaves[s].over {
			last[n] = max(last[n], at)
		}
	}
	return quantiles(last)
}

// places tells of the places that may run short.
func (w *work) places() []roomful.PlaceForecast {
	out := w.cast.places
	var over float64
	for n := range w.q.Runs {
		var last float64
		for _, s := range w.cast.squads {
			last = max(last, w.sheaves[s].over[n])
		}
		over += last
	}
	for i := range out {
		var u use
		for _, uses := range w.uses {
			u.add(uses[i])
		}
		out[i].Busy = u.busy / (over * float64(out[i].Count))
		out[i].WaitMean = u.waited / max(1, u.visits)
		out[i].Queue = u.waited / over
	}
	return out
}

// summary turns a squad's runs into one entrant's forecast.
func (m *Model) summary(q roomful.ForecastRequest, s *squad, sh *sheaf, e roomful.Entrant) roomful.AthleteForecast {
	p := &s.plans[len(s.plans)-1]
	runs := q.Runs
	if q.Given != nil && q.Given.Done >= 0 {
		sh = sh.near(q.Given.Done)
		runs = len(sh.score)
	}
	keep := func(v []float64) []float64 {
		out := make([]float64, 0, len(v))
		for i := range v {
			if !math.IsNaN(sh.score[i]) {
				out = append(out, v[i])
			}
		}
		return out
	}
	a := roomful.AthleteForecast{
		Name: e.Name, Scores: sh.score, Assumed: e.Abilities.Assumed,
		Score: quantiles(keep(sh.score)), TotalReps: quantiles(keep(sh.reps)), Seconds: quantiles(keep(sh.seconds)),
		Capped: portion(sh.capped), Cannot: portion(sh.cannot),
		Reserve: mean(sh.reserve), Fatigue: mean(sh.fatigue),
		Rounds: roundSplits(sh.rounds), Elements: s.elements(sh.spells, q.Runs), WaitMean: mean(sh.waited),
	}
	if q.Given != nil {
		a.Reached = quantiles(sh.reached)
	}
	if q.Effort.Stated() && !q.Effort.Proposed {
		in := 0
		for i, v := range sh.score {
			if !sh.capped[i] && q.Effort.Holds(v) {
				in++
			}
		}
		on := float64(in) / float64(runs)
		a.OnIntent = &on
	}
	a.Text = text(p, s, a)
	return a
}

// text writes the median score as a person would.
func text(p *plan, s *squad, a roomful.AthleteForecast) string {
	if math.IsNaN(a.Score.P50) {
		return ""
	}
	if p.kind == roomful.TimeScore && a.Capped > 0.5 {
		short := roomful.Clock(p.course.window()) + " cap"
		if done := math.Round(a.TotalReps.P50); done > 0 {
			short += ", " + roomful.Figure(done) + " done"
		}
		return short
	}
	if _, ok := p.piece.Format.(roomful.Every); ok && p.kind == roomful.RoundsScore {
		return strconv.Itoa(int(a.Score.P50))
	}
	return p.kind.Text(a.Score.P50, p.whole(s.actions[0], int(a.Score.P50)).counted)
}

// Typical implements [roomful.Forecaster].
func (m *Model) Typical(q roomful.ForecastRequest) []float64 {
	out := make([]float64, 0, len(q.Entrants))
	c, err := m.gather(q)
	if err != nil {
		for range q.Entrants {
			out = append(out, math.NaN())
		}
		return out
	}
	scores := make([]float64, len(c.squads))
	spread(len(c.groups), q.Workers, func() func(int) {
		var class *class
		return func(g int) {
			class = c.class(m, q.Seed, c.groups[g], class)
			for _, r := range class.runners {
				r.centre()
			}
			class.run(true)
			for _, r := range class.runners {
				o := r.outcome()
				if scores[r.squad.at] = o.score; o.cannot {
					scores[r.squad.at] = math.NaN()
				}
			}
		}
	})
	for i, s := range c.squads {
		for range s.entrants {
			if len(out) < len(q.Entrants) {
				out = append(out, scores[i])
			}
		}
	}
	return out
}

// portion returns the share of true values.
func portion(v []bool) float64 {
	n := 0
	for _, b := range v {
		if b {
			n++
		}
	}
	return float64(n) / float64(len(v))
}

// mean returns the mean.
func mean(v []float64) float64 {
	var s float64
	for _, x := range v {
		s += x
	}
	return s / float64(len(v))
}

// roundSplits returns the median duration of each round that at least half of
// the runs completed.
func roundSplits(runs [][]float64) []roomful.RoundSplit {
	var out []roomful.RoundSplit
	v := make([]float64, 0, len(runs))
	for n := 0; ; n++ {
		v = v[:0]
		for _, r := range runs {
			if n < len(r) {
				v = append(v, r[n])
			}
		}
		if 2*len(v) < len(runs) || len(v) == 0 {
			return out
		}
		out = append(out, roomful.RoundSplit{N: n + 1, Seconds: quantile(v, 0.5)})
	}
}

// elements returns how each element of the piece went, on average over so many runs.
func (s *squad) elements(blocks [][]spell, runs int) []roomful.ElementSplit {
	acts := s.actions[0]
	n := len(s.entrants[0].Work.All())
	at := len(acts) - n*(1+len(s.from))
	out := make([]roomful.ElementSplit, 0, n)
	for i := at; i < at+n; i++ {
		var sum spell
		for _, b := range blocks {
			sum.add(b[i])
		}
		each := max(1, sum.visits)
		out = append(out, roomful.ElementSplit{Movement: acts[i].task.Movement, Times: sum.visits / float64(max(1, runs)), Seconds: sum.seconds / each, Breaks: sum.breaks / each})
	}
	return out
}
