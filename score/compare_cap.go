package score

import (
	"math"

	"roomful"
)

// gap is the later score less the earlier. Where both met one cap it is what was done
// by then, turned round so that more done is less time. Where one of them met the cap
// the true gap is atLeast so wide: all that is known is that it would have taken longer.
func gap(a, b roomful.Entry) (d float64, atLeast bool) {
	if capped(a) && capped(b) {
		return a.Done.Counted - b.Done.Counted, false
	}
	d = b.Done.Score - a.Done.Score
	if atLeast = capped(a) != capped(b); atLeast && d == 0 { // who finished on the cap's own second was before
		d = leastBeyond
		if capped(a) {
			d = -d
		}
	}
	return d, atLeast
}

// leastBeyond is how far beyond the cap somebody at least was who met it, in s: scores
// are kept in whole seconds.
const leastBeyond = 1

// hiddenByCap says why a cap hides which of two attempts was better, or "".
func hiddenByCap(a, b roomful.Entry) string {
	capA, capB := capped(a), capped(b)
	at := func(e roomful.Entry) string { return roomful.Clock(e.Done.Score) }
	switch {
	case capA && capB && a.Done.Score != b.Done.Score:
		return "both met the cap, once of " + at(a) + " and once of " + at(b)
	case capA && capB && math.IsNaN(a.Done.Counted-b.Done.Counted):
		return "both met the cap, and how far they came was not kept"
	case capA && !capB && b.Done.Score > a.Done.Score:
		return "the cap of " + at(a) + " came before the later time"
	case capB && !capA && a.Done.Score > b.Done.Score:
		return "the cap of " + at(b) + " came before the earlier time"
	}
	return ""
}
