package study

import (
	"math"
	"math/rand/v2"
	"slices"
	"sort"

	"gonum.org/v1/gonum/stat"

	"roomful"
	"roomful/infer"
)

// recoveryRuns is how often a piece that nobody did before is forecast.
const recoveryRuns = 200

// forecast lays the forecasts of a fresh piece beside a plain baseline, by the
// continuous ranked probability score of the logarithm (Gneiting and Raftery 2007,
// J Am Stat Assoc 102:359-378). The baseline knows how everybody did: who is usually
// at the 60th percentile is expected there again, give or take what it was off by.
func (t *trial) forecast(out *Recovered, people []subject, learnt []*roomful.Abilities) error {
	part := t.pieces[len(t.pieces)-1]
	var fresh []float64
	var who []int
	for i := range people {
		if v := people[i].fresh; v > 0 && !math.IsNaN(v) {
			fresh, who = append(fresh, math.Log(v)), append(who, i)
		}
	}
	if len(who) < 3 {
		return nil
	}
	for k, i := range who {
		f, err := t.model.Forecast(t.ctx, roomful.ForecastRequest{Piece: part, Runs: recoveryRuns, Seed: t.Seed + 77, Workers: 1,
			Entrants: []roomful.Entrant{{ID: people[i].results[0].Title + string(rune('a'+i%26)), Abilities: learnt[i], Work: tasksOf(part)}}})
		if err != nil {
			return err
		}
		var runs []float64
		r := rand.New(rand.NewPCG(t.Seed, uint64(i)+500_000))
		for _, v := range f.Athletes[0].Scores {
			if v > 0 && !math.IsNaN(v) {
				runs = append(runs, math.Log(v)+infer.ModelError*r.NormFloat64())
			}
		}
		if len(runs) == 0 {
			runs = []float64{math.Log(leastScore)}
		}
		out.CRPS += (crps(runs, fresh[k]) - out.CRPS) / float64(k+1)
	}
	out.Forecasts = len(who)
	out.Baseline = t.baseline(people, who, fresh)
	return nil
}

// leastScore stands for a score of nothing, which has no logarithm.
const leastScore = 0.02

// baseline is the score of the plain baseline.
func (t *trial) baseline(people []subject, who []int, fresh []float64) float64 {
	standing := percentiles(people)
	sorted := slices.Clone(fresh)
	sort.Float64s(sorted)
	var expected, off []float64
	for k, i := range who {
		e := stat.Quantile(min(max(standing[i], 0.001), 0.999), stat.LinInterp, sorted, nil)
		expected, off = append(expected, e), append(off, fresh[k]-e)
	}
	sd := math.Sqrt(stat.Variance(off, nil))
	mean := 0.0
	for k := range who {
		mean += (normalCRPS(expected[k], sd, fresh[k]) - mean) / float64(k+1)
	}
	return mean
}

// percentiles are where each person usually stood among all who did a piece, from
// nought to one with more being better.
func percentiles(people []subject) []float64 {
	type mark struct {
		who   int
		score float64
	}
	by := map[string][]mark{}
	var keys []string
	for i := range people {
		for k := range people[i].results {
			r := &people[i].results[k]
			if len(r.Cannot) > 0 || !(r.Score > 0) {
				continue
			}
			key, v := r.Structure(), r.Score
			if _, timed := r.Piece.Format.(roomful.ForTime); timed {
				v = -v
			}
			if by[key] == nil {
				keys = append(keys, key)
			}
			by[key] = append(by[key], mark{i, v})
		}
	}
	sum, n := make([]float64, len(people)), make([]float64, len(people))
	for _, key := range keys {
		marks := by[key]
		slices.SortStableFunc(marks, func(a, b mark) int {
			switch {
			case a.score < b.score:
				return -1
			case a.score > b.score:
				return 1
			}
			return 0
		})
		for place, m := range marks {
			sum[m.who] += (float64(place) + 0.5) / float64(len(marks))
			n[m.who]++
		}
	}
	for i := range sum {
		if sum[i] = sum[i] / max(n[i], 1); n[i] == 0 {
			sum[i] = 0.5
		}
	}
	return sum
}

// crps is the continuous ranked probability score of draws against what came.
func crps(draws []float64, came float64) float64 {
	sorted := slices.Clone(draws)
	sort.Float64s(sorted)
	n := float64(len(sorted))
	var apart, spread float64
	for i, v := range sorted {
		apart += math.Abs(v-came) / n
		spread += v * (2*float64(i) + 1 - n) / (n * n)
	}
	return apart - spread
}

// normalCRPS is that of a normal distribution, in closed form (Gneiting and others
// 2005, Mon Weather Rev 133:1098-1118).
func normalCRPS(mean, sd, came float64) float64 {
	z := (came - mean) / sd
	return sd * (z*(2*(0.5*math.Erfc(-z/math.Sqrt2))-1) + 2*math.Exp(-z*z/2)/math.Sqrt(2*math.Pi) - 1/math.Sqrt(math.Pi))
}
