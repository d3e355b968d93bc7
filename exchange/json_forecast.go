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
	Diagnostics []Diagnostic      `json:"diagnostics"`  // warnings about the files
	Short       []Shortage        `json:"short"`        // what is short when all want it at once
	Over        Quantiles         `json:"over_seconds"` // when the last of them is done
}

// Shortage is a shared place of which there are fewer than want it at once.
type Shortage struct {
	Name  string   `json:"name"`
	Have  int      `json:"have"`
	Need  int      `json:"need"`
	Busy  *float64 `json:"busy"`              // share of the time in which one is in use
	Wait  *float64 `json:"wait_mean_seconds"` // at each use
	Queue *float64 `json:"queue_mean"`        // people waiting
}

// AthleteForecast is how it will go for one person; seconds and kg.
type AthleteForecast struct {
	Name       string         `json:"name"`
	Score      Score          `json:"score"`
	TotalReps  Quantiles      `json:"total_reps"`
	Seconds    Quantiles      `json:"seconds"`
	Capped     *float64       `json:"capped_probability"`
	Cannot     *float64       `json:"cannot_probability"`
	Rounds     []Round        `json:"rounds"`
	Elements   []ElementSplit `json:"elements"`
	WaitMean   *float64       `json:"wait_seconds_mean"`
	OnIntent   *float64       `json:"on_intent_probability"`
	Assumed    []string       `json:"assumed"`
	ReserveMax *float64       `json:"reserve_peak_mean"` // share of the reserve spent at its peak
	FatigueMax *float64       `json:"fatigue_peak_mean"` // of the most tired muscle group
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

// ElementSplit is how an element goes each time it comes up, on average.
type ElementSplit struct {
	Movement string   `json:"movement"`
	Seconds  *float64 `json:"seconds_mean"` // waiting left out
	Breaks   *float64 `json:"breaks_mean"`
}

// ForecastOf turns a forecast into JSON. The caller fills in runs, seed and
// diagnostics.
func ForecastOf(piece string, effort roomful.Effort, f roomful.Forecast) Forecast {
	out := Forecast{
		Piece: piece, Kind: f.Kind.String(), Effort: effortOf(effort),
		Athletes: []AthleteForecast{}, Diagnostics: []Diagnostic{}, Short: []Shortage{}, Over: quantilesOf(f.Over),
	}
	for _, p := range f.Places {
		out.Short = append(out.Short, Shortage{p.Word, p.Count, p.Need, figure(p.Busy), figure(p.WaitMean), figure(p.Queue)})
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
		Capped: figure(a.Capped), Cannot: figure(a.Cannot), Rounds: []Round{}, Elements: []ElementSplit{},
		WaitMean: figure(a.WaitMean), Assumed: listed(a.Assumed),
		ReserveMax: figure(a.Reserve), FatigueMax: figure(a.Fatigue),
	}
	if a.OnIntent != nil {
		out.OnIntent = figure(*a.OnIntent)
	}
	for _, r := range a.Rounds {
		out.Rounds = append(out.Rounds, Round{r.N, figure(r.Seconds)})
	}
	for _, e := range a.Elements {
		out.Elements = append(out.Elements, ElementSplit{string(e.Movement), figure(e.Seconds), figure(e.Breaks)})
	}
	return out
}

func quantilesOf(q roomful.Quantiles) Quantiles {
	return Quantiles{figure(q.P05), figure(q.P50), figure(q.P95)}
}
