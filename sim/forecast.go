package sim

import (
	"context"
	"math"
	"sync"
	"sync/atomic"

	"roomful"
)

// blockRuns is how many runs of one crew a worker takes at a time; of a class it
// takes as many fewer as there are crews.
const blockRuns = 256

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
	w.remember()
	f := roomful.Forecast{Kind: roomful.KindOf(q.Piece, m.lex), Places: w.places(), Over: w.over()}
	for i, s := range c.squads {
		for k, e := range s.entrants {
			if i*len(s.entrants)+k < len(q.Entrants) {
				f.Athletes = append(f.Athletes, m.summary(q, s, w.sheaves[s.at], e))
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
	jobs    []job
	sheaves []*sheaf // by squad
	uses    [][]use  // of places, by block; a class has one group
	keys    []key    // by squad, where runs are kept
}

// job is a block of runs of a group.
type job struct{ group, block int }

func newWork(m *Model, q roomful.ForecastRequest, c *cast) *work {
	w := &work{m: m, q: q, cast: c, sheaves: make([]*sheaf, len(c.squads))}
	w.per = max(1, blockRuns/len(c.groups[0]))
	w.blocks = (q.Runs + w.per - 1) / w.per
	w.uses = make([][]use, w.blocks)
	if q.Keep && q.Given == nil && len(c.places) == 0 {
		w.recall()
	}
	for g, squads := range c.groups {
		have := 0
		for _, s := range squads {
			if w.sheaves[s.at] == nil {
				w.sheaves[s.at] = newSheaf(q.Runs, w.blocks)
			}
			have = w.sheaves[s.at].have
		}
		for b := have / w.per; b*w.per < q.Runs && have < q.Runs; b++ {
			w.jobs = append(w.jobs, job{g, b})
		}
	}
	return w
}

// recall finds what is kept of each crew, who meet nobody.
func (w *work) recall() {
	k := newKeying(w.m, w.q)
	for _, s := range w.cast.squads {
		of := k.crew(s.entrants)
		w.keys = append(w.keys, of)
		if sh, ok := w.m.kept.runs.get(of, (*sheaf).runs); ok {
			w.sheaves[s.at] = sh.first(w.q.Runs, w.per)
		}
	}
}

// remember keeps what was made.
func (w *work) remember() {
	for i, of := range w.keys {
		sh := w.sheaves[i]
		if sh.have == w.q.Runs {
			continue // as it was kept
		}
		sh.close()
		if old, ok := w.m.kept.runs.get(of, (*sheaf).runs); !ok || old.runs() < sh.runs() {
			w.m.kept.runs.keep(of, sh, sh.runs())
		}
	}
}

// share spreads blocks of runs over workers. Each run's result depends on its
// own number alone and has its own place, so the number of workers does not
// show.
func (w *work) share(ctx context.Context) error {
	var done atomic.Int64
	var mu sync.Mutex
	spread(len(w.jobs), w.q.Workers, func() func(int) {
		var c *class
		at := -1
		return func(j int) {
			if ctx.Err() != nil {
				return
			}
			do := w.jobs[j]
			if do.group != at {
				c, at = w.cast.class(w.m, w.q.Seed, w.cast.groups[do.group], c), do.group
				c.watch(w.q.Given)
			}
			w.block(c, do.block)
			if n := done.Add(1); w.q.Progress != nil {
				mu.Lock()
				w.q.Progress(float64(n) / float64(len(w.jobs)))
				mu.Unlock()
			}
		}
	})
	return ctx.Err()
}

// block does the runs of one block.
func (w *work) block(c *class, b int) {
	uses := make([]use, len(c.bays))
	from, to := b*w.per, min((b+1)*w.per, w.q.Runs)
	for _, r := range c.runners {
		from = max(from, w.sheaves[r.squad.at].have)
	}
	for n := from; n < to; n++ {
		for _, r := range c.runners {
			r.draw(n)
		}
		c.run(false)
		for _, r := range c.runners {
			w.sheaves[r.squad.at].keep(n, b, to-from, r)
		}
		for i := range uses {
			uses[i].add(c.bays[i].use)
		}
	}
	if len(uses) > 0 {
		w.uses[b] = uses
	}
}

// over returns when the last is done.
func (w *work) over() roomful.Quantiles {
	last := make([]float64, w.q.Runs)
	for _, s := range w.cast.squads {
		for n, at := range w.sheaves[s.at].over {
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
			last = max(last, w.sheaves[s.at].over[n])
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

// Typical implements [roomful.Forecaster].
func (m *Model) Typical(q roomful.ForecastRequest) []float64 {
	if !q.Keep {
		return m.typical(q)
	}
	size := max(1, q.Piece.Team.Size)
	k := newKeying(m, q)
	out, new, need := make([]float64, len(q.Entrants)), map[key]int{}, make([]roomful.Entrant, 0, len(q.Entrants))
	keys := make([]key, 0, crewsIn(q))
	for at := 0; at < len(q.Entrants); at += size {
		crew := q.Entrants[at:min(at+size, len(q.Entrants))]
		of := k.crew(crew)
		keys = append(keys, of)
		score, ok := m.kept.typical.get(of, one)
		for i := range crew {
			out[at+i] = score
		}
		if _, twice := new[of]; !ok && !twice {
			new[of] = len(need)
			need = append(need, crew...)
		}
	}
	q.Entrants = need
	got := m.typical(q)
	for i, of := range keys {
		from, ok := new[of]
		if !ok {
			continue
		}
		m.kept.typical.keep(of, got[from], 1)
		for j := i * size; j < min((i+1)*size, len(out)); j++ {
			out[j] = got[from]
		}
	}
	return out
}

// one is what a score counts in memory.
func one(float64) int { return 1 }

// typical is Typical without looking at what is kept. Nobody meets anybody, so that a
// worker needs one crew at a time.
func (m *Model) typical(q roomful.ForecastRequest) []float64 {
	size := max(1, q.Piece.Team.Size)
	out := make([]float64, len(q.Entrants))
	var refused atomic.Bool
	spread(crewsIn(q), q.Workers, func() func(int) {
		s, group := new(squad), cast{}
		var alone *class
		return func(n int) {
			if refused.Load() {
				return
			}
			if err := m.crew(q, n, s); err != nil {
				refused.Store(true)
				return
			}
			meet(nil, []*squad{s})
			alone = group.class(m, q.Seed, []*squad{s}, alone)
			r := alone.runners[0]
			r.centre()
			alone.run(true)
			o := r.outcome()
			if o.cannot {
				o.score = math.NaN()
			}
			for i := n * size; i < min((n+1)*size, len(out)); i++ {
				out[i] = o.score
			}
		}
	})
	if refused.Load() {
		for i := range out {
			out[i] = math.NaN()
		}
	}
	return out
}
