package score

import (
	"strconv"
	"strings"

	"roomful"
)

// Words writes the score of a reading as it would be typed; reading it again
// gives the same score. It is "no score" when there is none.
func Words(r roomful.Reading) string {
	about := ""
	if r.Approximate {
		about = "about "
	}
	switch {
	case r.SameAs != "":
		return "same as " + r.SameAs
	case r.Capped && r.Reps != nil:
		return "capped at " + strconv.Itoa(*r.Reps)
	case r.Capped:
		return "TC"
	case len(r.EachSeconds) > 0:
		return about + list(r.EachSeconds)
	case len(r.LoadsKg) > 0 && r.Kind == roomful.LoadScore:
		return about + list(r.LoadsKg) + " kg"
	case r.Rounds != nil && r.Reps != nil:
		return about + strconv.Itoa(*r.Rounds) + "+" + strconv.Itoa(*r.Reps)
	case r.Seconds != nil && *r.Seconds != float64(int(*r.Seconds)):
		return about + roomful.Figure(*r.Seconds) + " s"
	case r.Seconds != nil:
		return about + roomful.Clock(*r.Seconds)
	case r.Reps != nil:
		return about + strconv.Itoa(*r.Reps)
	case r.Metres != nil:
		return about + roomful.Figure(*r.Metres) + " m"
	}
	return "no score"
}

// list writes figures one after another.
func list(vs []float64) string {
	words := make([]string, len(vs))
	for i, v := range vs {
		words[i] = roomful.Figure(v)
	}
	return strings.Join(words, " ")
}
