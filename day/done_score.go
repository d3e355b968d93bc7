package day

import (
	"cmp"
	"math"
	"slices"
	"time"

	"roomful"
)

// score turns the figures of a reading into the forecaster's unit, and notes splits
// and doses that follow from them.
func (r *redo) score() {
	read := r.question.Reading
	r.out.Splits = slices.Concat(read.Splits, read.EachSeconds)
	if at := read.StoppedSeconds; at > 0 {
		r.out.Dose = roomful.Dose{StopAt: time.Duration(at * float64(time.Second)), Say: "until " + roomful.Clock(at)}
	}
	if read.TotalReps != nil {
		r.out.Counted = float64(*read.TotalReps)
	}
	if read.Question != nil && read.Approximate {
		r.out.Assumed = append(r.out.Assumed, "the score is a guess")
	}
	switch read.Kind {
	case roomful.RoundsScore:
		r.rounds(read)
	case roomful.TimeScore:
		r.time(read)
	case roomful.LoadScore:
		r.out.Score = heaviest(read)
	case roomful.DistanceScore:
		if read.Metres != nil {
			r.out.Score = *read.Metres
		}
	case roomful.HoldScore:
		if read.Seconds != nil {
			r.out.Score = *read.Seconds
		}
	default:
		if read.Reps != nil {
			r.out.Score = float64(*read.Reps)
		}
	}
}

// rounds is whole rounds and the part of the next, of the version done.
func (r *redo) rounds(read roomful.Reading) {
	if read.Rounds == nil {
		return
	}
	whole, extra := *read.Rounds, 0
	if read.Reps != nil {
		extra = *read.Reps
	}
	r.out.Score = float64(whole)
	if size := r.roundSize(whole); extra > 0 && size > 0 {
		r.out.Score += min(float64(extra)/size, 0.999)
	}
}

// roundSize is the repetitions and calories of a round of the version done,
// counted from 0; of one without any, its metres or seconds.
func (r *redo) roundSize(n int) float64 {
	if size := r.out.RoundSize(n); size > 0 {
		return size
	}
	f, _ := r.part.Format.(roomful.RoundsInTime)
	step, _ := f.Ladder.Step(n)
	var metres, seconds float64
	for _, t := range r.out.AtEnd().Round {
		amount := cmp.Or(t.Amount, float64(step))
		switch {
		case t.Movement == roomful.Rest:
		case t.Unit == roomful.Metre:
			metres += amount
		case t.Unit == roomful.Second:
			seconds += amount
		}
	}
	return cmp.Or(metres, seconds)
}

// time is a time, the cap, or what the intervals come to. Fewer intervals than the
// sheet has are a smaller dose.
func (r *redo) time(read roomful.Reading) {
	if read.Seconds != nil {
		r.out.Score = *read.Seconds
	}
	r.out.Capped = read.Capped
	if read.Capped && math.IsNaN(r.out.Score) {
		if f, ok := r.part.Format.(roomful.ForTime); ok && f.Cap > 0 {
			r.out.Score = f.Cap.Seconds()
		}
	}
	count := 0
	switch f := r.part.Format.(type) {
	case roomful.Intervals:
		count = f.Count
	case roomful.Every:
		count = f.Count
	}
	if f, ok := r.part.Format.(roomful.ForTime); ok && read.Rounds != nil && !read.Capped && *read.Rounds > 0 && *read.Rounds < f.Rounds {
		r.out.Dose = roomful.Dose{Rounds: *read.Rounds, Say: "fewer rounds"}
	}
	if n := len(read.EachSeconds); n > 0 && n < count {
		r.out.Dose = roomful.Dose{Rounds: n, Say: "fewer intervals"}
	}
}
