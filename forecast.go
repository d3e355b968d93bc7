package roomful

import "context"

// Forecaster tells how versions of a piece will go. Package sim implements it.
type Forecaster interface {
	// Forecast simulates every entrant. The answer depends on the request alone:
	// the same seed gives the same bits on any number of workers.
	Forecast(context.Context, ForecastRequest) (Forecast, error)
	// Typical returns each entrant's score without noise at the centre of their
	// abilities, NaN when they cannot do an element. It is fast and serves to
	// screen candidates; it is never shown.
	Typical(ForecastRequest) []float64
	// Unbroken returns how many repetitions (seconds for holds) of a task a
	// person at the centre of these abilities could do fresh without a break.
	Unbroken(*Abilities, Task) float64
	// LoadFor returns the total load in kg at which that person could do just
	// reps repetitions of a task fresh; 0 when no load is light enough.
	LoadFor(a *Abilities, t Task, reps float64) float64
}

// ForecastRequest is what to simulate.
type ForecastRequest struct {
	Piece    Part
	Lead     []Part // pieces done just before on the same clock
	Effort   Effort // to report the probability of meeting it
	Entrants []Entrant
	// Stations are the shared places there are; nil means that nothing is short.
	Stations map[string]int
	Runs     int
	Seed     uint64
	Workers  int // 0 means as many as there are processors
	// Progress, when set, is called now and then with the share done.
	Progress func(share float64)
}

// Entrant is one person and what they will do.
type Entrant struct {
	ID        string // keys the random stream
	Name      string
	Division  Division
	Abilities *Abilities
	Work      Work
	Lead      []Work // what they do of each leading piece
}

// Forecast is how a piece will go.
type Forecast struct {
	Kind     ScoreKind
	Athletes []AthleteForecast
}

// Quantiles are percentiles of a number itself, p05 ≤ p50 ≤ p95.
type Quantiles struct{ P05, P50, P95 float64 }

// AthleteForecast is how it will go for one entrant. Seconds and loads are in
// s and kg; a score of rounds counts the part of the next round as a fraction.
type AthleteForecast struct {
	Name      string
	Score     Quantiles
	Text      string // the median score as a person would write it
	TotalReps Quantiles
	Seconds   Quantiles
	Capped    float64 // probability of meeting the cap before the end
	Cannot    float64 // probability of an element the person cannot do once
	Rounds    []RoundSplit
	WaitMean  float64  // seconds spent waiting for a station
	OnIntent  *float64 // probability of meeting the effort; nil when none is stated
	Assumed   []string // what had to be filled in
	// Scores holds every run's score in run order, NaN for a run left out.
	Scores []float64
	// Reserve and Fatigue are the mean peaks of the share of the reserve spent
	// and of the most tired muscle group.
	Reserve, Fatigue float64
}

// RoundSplit is the median duration of one round.
type RoundSplit struct {
	N       int
	Seconds float64
}
