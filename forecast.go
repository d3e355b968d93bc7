package roomful

import (
	"context"
	"time"
)

// Forecaster tells how versions of a piece will go. Package sim implements it.
type Forecaster interface {
	// Forecast simulates every entrant. The answer depends on the request alone:
	// the same seed gives the same bits on any number of workers.
	Forecast(context.Context, ForecastRequest) (Forecast, error)
	// Typical returns each entrant's score without noise at the centre of their
	// abilities, as if nobody else were there, NaN when they cannot do an element. It is
	// fast and serves to screen candidates; it is never shown.
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
	// Kit is what everybody shares, as [Kit.Places] has it; nil means that nothing
	// is short.
	Kit *Kit
	// Given is how far the first entrant has come; nil when nothing is known. Only
	// the runs that come nearest to it count.
	Given   *Progress
	Runs    int
	Seed    uint64
	Workers int // 0 means as many as there are processors
	// Keep says that the same is likely to be asked again soon, perhaps with more runs:
	// what is kept need not be made again. The answer is the same without it.
	Keep bool
	// Progress, when set, is called now and then with the share done.
	Progress func(share float64)
}

// Progress is how far somebody has come: so many repetitions and calories by a time
// on the piece's clock. Below nought nobody has looked yet, and all runs count.
type Progress struct {
	At   time.Duration
	Done float64
}

// Entrant is one person and what they will do.
type Entrant struct {
	ID        string // keys the random stream
	Name      string
	Division  Division
	Abilities *Abilities
	Work      Work
	Lead      []Work // what they do of each leading piece
	// Dose is how much of the piece they do; partners do all of it.
	Dose Dose
	// Segments are changes on the way, by time: from then on the work is theirs,
	// element by element. Partners change together, by the first one's times.
	Segments []Segment
	// Wait is how long after the others they start; they end as much later.
	Wait time.Duration
}

// Forecast is how a piece will go.
type Forecast struct {
	Kind     ScoreKind
	Athletes []AthleteForecast
	// Places tells of the shared places that may run short, by word.
	Places []PlaceForecast
	// Over is when the last of them is done, in s from the start.
	Over Quantiles
}

// PlaceForecast is how a kind of shared place is used.
type PlaceForecast struct {
	Place
	Need     int     // how many are wanted when everybody wants one
	Busy     float64 // share of the time in which one is in use
	WaitMean float64 // s of waiting at each use
	Queue    float64 // how many people wait for one, on average over the piece
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
	Elements  []ElementSplit // in the order of the work: once, round, last
	WaitMean  float64        // seconds spent waiting for a place
	OnIntent  *float64       // probability of meeting the effort; nil when none is stated
	Assumed   []string       // what had to be filled in
	// Scores holds every run's score in run order, NaN for a run left out. It is shared,
	// and nobody changes it.
	Scores []float64
	// Reached is how far a run that counts had come at the time of what is given, in
	// repetitions and calories.
	Reached Quantiles
	// Reserve and Fatigue are the mean peaks of the share of the reserve spent
	// and of the most tired muscle group.
	Reserve, Fatigue float64
}

// ElementSplit is how an element goes, on average over the runs and over everything
// done of it.
type ElementSplit struct {
	Movement MovementID
	Times    float64 // how often
	Seconds  float64 // each time, waiting left out
	Breaks   float64 // each time
}

// RoundSplit is the median duration of one round.
type RoundSplit struct {
	N       int
	Seconds float64
}
