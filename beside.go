package roomful

import "math"

// Off is how far a score misses the window, as a share of the edge that it misses: 0 inside,
// under 0 when it is too slow or too little.
func (e Effort) Off(k ScoreKind, score float64) float64 {
	low, high := e.Window()
	var miss float64
	switch {
	case math.IsNaN(score):
		return -1
	case score < low:
		miss = score/low - 1
	case score >= high:
		miss = score/high - 1
	}
	if !k.HigherIsBetter() {
		miss = -miss
	}
	return miss
}

// farBeside is from which share of an edge of the window on an end is far beside it
// (judgement).
const farBeside = 0.2

// Expect says in words without figures where a forecast ends beside the effort, for the
// person to read; sure is how probable it is that the effort is met.
func (e Effort) Expect(k ScoreKind, f AthleteForecast, sure float64) string {
	off := e.Off(k, f.Score.P50)
	capped := k == TimeScore && f.Capped >= 0.5
	switch {
	case f.Cannot >= 0.5:
		return "something in it is still too hard"
	case e.Holds(f.Score.P50) && !capped && sure >= 0.5:
		return "likely as meant"
	case e.Holds(f.Score.P50) && !capped:
		return "as meant on a usual day, not surely"
	case capped:
		return "likely not done by the cap"
	}
	side := "quick"
	switch {
	case k == LoadScore && off < 0:
		side = "light"
	case k == LoadScore:
		side = "heavy"
	case off < 0:
		side = "slow"
	}
	if math.Abs(off) > farBeside {
		return "likely far on the " + side + " side"
	}
	return "likely on the " + side + " side"
}
