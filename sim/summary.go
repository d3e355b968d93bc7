package sim

import (
	"math"
	"slices"
	"strconv"

	"roomful"
)

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
		Name: e.Name, Scores: slices.Clone(sh.score), Assumed: e.Abilities.Assumed,
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
