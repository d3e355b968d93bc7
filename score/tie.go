package score

import (
	"math"

	"roomful"
)

// tieBreak tells equal scores at a piece apart, less is better (common practice, no
// source). Where one interval alone is the score, the slowest or the lowest, it is all
// the intervals together; where rounds are counted, or the cap ended them, it is when
// the last full round was done. It is NaN when the attempt does not say.
func tieBreak(e roomful.Entry) float64 {
	read, part := e.Reading, e.Done.Piece
	all := countIn(part)
	switch {
	case part.ScoreBy == "slowest" && all > 0 && len(read.EachSeconds) == all:
		return sum(read.EachSeconds)
	case part.ScoreBy == "lowest" && all > 0 && len(read.EachReps) == all:
		return -sum(read.EachReps)
	case part.ScoreBy == "slowest", part.ScoreBy == "lowest":
		return math.NaN()
	case read.Kind == roomful.RoundsScore:
		return untilRound(e.Done.Splits, int(e.Done.Score))
	case capped(e):
		return untilRound(e.Done.Splits, roundsBy(e.Done))
	}
	return math.NaN()
}

// untilRound is when so many rounds were done in s, NaN when not all were timed or there
// were none.
func untilRound(splits []float64, rounds int) float64 {
	if rounds < 1 || len(splits) < rounds {
		return math.NaN()
	}
	return sum(splits[:rounds])
}

// roundsBy is how many whole rounds of a piece for time were done by what was counted.
func roundsBy(d roomful.Done) int {
	f, _ := d.Piece.Format.(roomful.ForTime)
	n, work := 0, d.AtEnd()
	for n < max(f.Rounds, len(f.Ladder.Steps)) && work.Counted(f.Ladder, n+1, 0) <= d.Counted {
		n++
	}
	return n
}

// sum adds figures up.
func sum[T int | float64](all []T) float64 {
	var out T
	for _, v := range all {
		out += v
	}
	return float64(out)
}
