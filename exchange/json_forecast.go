package exchange

import "roomful"

// Forecast is how a piece will go for everybody.
type Forecast struct {
	Piece       string            `json:"piece"`
	Kind        string            `json:"kind"`
	Runs        int               `json:"runs"`
	Seed        uint64            `json:"seed"`
	Effort      Effort            `json:"effort"`
	Athletes    []AthleteForecast `json:"athletes"`
	Diagnostics []Diagnostic      `json:"diagnostics"` // warnings about the files
	Short       []Shortage        `json:"short"`       // what is short when all start together; waiting is unknown then
}

// Shortage is a shared place of which there are fewer than want it at once.
type Shortage struct {
	Name string `json:"name"`
	Have int    `json:"have"`
	Need int    `json:"need"`
}

// AthleteForecast is how it will go for one person; seconds and kg.
type AthleteForecast struct {
	Name       string    `json:"name"`
	Score      Score     `json:"score"`
	TotalReps  Quantiles `json:"total_reps"`
	Seconds    Quantiles `json:"seconds"`
	Capped     *float64  `json:"capped_probability"`
	Cannot     *float64  `json:"cannot_probability"`
	Rounds     []Round   `json:"rounds"`
	WaitMean   *float64  `json:"wait_seconds_mean"`
	OnIntent   *float64  `json:"on_intent_probability"`
	Assumed    []string  `json:"assumed"`
	ReserveMax *float64  `json:"reserve_peak_mean"` // share of the reserve spent at its peak
	FatigueMax *float64  `json:"fatigue_peak_mean"` // of the most tired muscle group
}

// Quantiles are percentiles of the number itself, p05 ≤ p50 ≤ p95; null when
// no run gave the number.
type Quantiles struct {
	P05 *float64 `json:"p05"`
	P50 *float64 `json:"p50"`
	P95 *float64 `json:"p95"`
}

// Score is the percentiles of a score and how its median is written.
type Score struct {
	Quantiles
	Text *string `json:"text_p50"`
}

// Round is how long the n-th round takes.
type Round struct {
	N       int      `json:"n"`
	Seconds *float64 `json:"seconds_p50"`
}

// ForecastOf turns a forecast into JSON. The caller fills in runs, seed,
// diagnostics and what is short.
func ForecastOf(piece string, effort roomful.Effort, f roomful.Forecast) Forecast {
	out := Forecast{
		Piece: piece, Kind: f.Kind.String(), Effort: effortOf(effort),
		Athletes: []AthleteForecast{}, Diagnostics: []Diagnostic{}, Short: []Shortage{},
	}
	for _, a := range f.Athletes {
		out.Athletes = append(out.Athletes, athleteForecastOf(a))
	}
	return out
}

func athleteForecastOf(a roomful.AthleteForecast) AthleteForecast {
	out := AthleteForecast{
		Name: a.Name, Score: Score{quantilesOf(a.Score), word(a.Text)},
		TotalReps: quantilesOf(a.TotalReps), Seconds: quantilesOf(a.Seconds),
		Capped: figure(a.Capped), Cannot: figure(a.Cannot), Rounds: []Round{},
		WaitMean: figure(a.WaitMean), Assumed: listed(a.Assumed),
		ReserveMax: figure(a.Reserve), FatigueMax: figure(a.Fatigue),
	}
	if a.OnIntent != nil {
		out.OnIntent = figure(*a.OnIntent)
	}
	for _, r := range a.Rounds {
		out.Rounds = append(out.Rounds, Round{r.N, figure(r.Seconds)})
	}
	return out
}

func quantilesOf(q roomful.Quantiles) Quantiles {
	return Quantiles{figure(q.P05), figure(q.P50), figure(q.P95)}
}
