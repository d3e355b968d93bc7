package sim

import (
	"context"
	"math"
	"runtime"
	"strconv"
	"sync"
	"sync/atomic"

	"roomful"
)

// blockRuns is how many runs a worker takes at a time.
const blockRuns = 256

// sheaf holds the runs of one squad, by run.
type sheaf struct {
	score, reps, seconds []float64
	rounds               [][]float64
	capped, cannot       []bool
	reserve, fatigue     []float64
}

func newSheaf(runs int) *sheaf {
	return &sheaf{
		score: make([]float64, runs), reps: make([]float64, runs), seconds: make([]float64, runs),
		rounds: make([][]float64, runs), capped: make([]bool, runs), cannot: make([]bool, runs),
		reserve: make([]float64, runs), fatigue: make([]float64, runs),
	}
}

// Forecast implements [roomful.Forecaster].
func (m *Model) Forecast(ctx context.Context, q roomful.ForecastRequest) (roomful.Forecast, error) {
	if q.Runs <= 0 {
		return roomful.Forecast{}, &roomful.Error{Summary: "forecasting " + q.Piece.Name() + ": no runs asked for", Hint: "ask for at least one run; 1000 is usual"}
	}
	squads, err := m.crews(q)
	if err != nil {
		return roomful.Forecast{}, err
	}
	sheaves := make([]*sheaf, len(squads))
	for i := range sheaves {
		sheaves[i] = newSheaf(q.Runs)
	}
	if err := m.share(ctx, q, squads, sheaves); err != nil {
		return roomful.Forecast{}, err
	}
	f := roomful.Forecast{Kind: roomful.KindOf(q.Piece, m.lex)}
	for i, s := range squads {
		for k, e := range s.entrants {
			if i*len(s.entrants)+k < len(q.Entrants) {
				f.Athletes = append(f.Athletes, m.summary(q, s, sheaves[i], e))
			}
		}
	}
	return f, nil
}

// share spreads blocks of runs over workers. Each run's result depends on its
// own number alone and has its own place, so the number of workers does not
// show.
func (m *Model) share(ctx context.Context, q roomful.ForecastRequest, squads []*squad, out []*sheaf) error {
	blocks := (q.Runs + blockRuns - 1) / blockRuns
	jobs := blocks * len(squads)
	workers := q.Workers
	if workers <= 0 {
		workers = runtime.GOMAXPROCS(0)
	}
	var next, done atomic.Int64
	var wg sync.WaitGroup
	var mu sync.Mutex
	for range min(workers, jobs) {
		wg.Go(func() {
			var r *runner
			at := -1
			for {
				j := int(next.Add(1)) - 1
				if j >= jobs || ctx.Err() != nil {
					return
				}
				if s := j / blocks; s != at {
					r, at = newRunner(m, q, squads[s]), s
				}
				first := j % blocks * blockRuns
				r.block(first, min(first+blockRuns, q.Runs), out[at])
				if n := done.Add(1); q.Progress != nil {
					mu.Lock()
					q.Progress(float64(n) / float64(jobs))
					mu.Unlock()
				}
			}
		})
	}
	wg.Wait()
	return ctx.Err()
}

// block does runs first to end.
func (r *runner) block(first, end int, out *sheaf) {
	for n := first; n < end; n++ {
		r.run(n)
		o := r.outcome()
		out.score[n], out.reps[n], out.seconds[n] = o.score, o.reps, o.seconds
		out.rounds[n], out.capped[n], out.cannot[n] = o.rounds, o.capped, o.cannot
		out.reserve[n], out.fatigue[n] = o.reserve, o.fatigue
	}
}

// summary turns a squad's runs into one entrant's forecast.
func (m *Model) summary(q roomful.ForecastRequest, s *squad, sh *sheaf, e roomful.Entrant) roomful.AthleteForecast {
	p := &s.plans[len(s.plans)-1]
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
		Rounds: roundSplits(sh.rounds),
	}
	if q.Effort.Stated() && !q.Effort.Proposed {
		in := 0
		for i, v := range sh.score {
			if !sh.capped[i] && q.Effort.Holds(v) {
				in++
			}
		}
		on := float64(in) / float64(q.Runs)
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
	squads, err := m.crews(q)
	if err != nil {
		for range q.Entrants {
			out = append(out, math.NaN())
		}
		return out
	}
	for _, s := range squads {
		r := newRunner(m, q, s)
		r.typical(nil)
		o := r.outcome()
		score := o.score
		if o.cannot {
			score = math.NaN()
		}
		for range s.entrants {
			if len(out) < len(q.Entrants) {
				out = append(out, score)
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
