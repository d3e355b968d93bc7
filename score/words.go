package score

import (
	"math"
	"slices"
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
		return about + times(r.EachSeconds)
	case len(r.LoadsKg) > 0 && r.Kind == roomful.LoadScore:
		return about + list(r.LoadsKg) + " kg"
	case r.Rounds != nil && r.Reps != nil:
		return about + strconv.Itoa(*r.Rounds) + "+" + strconv.Itoa(*r.Reps)
	case r.Seconds != nil && *r.Seconds != math.Trunc(*r.Seconds) && *r.Seconds < 60:
		return about + roomful.Figure(*r.Seconds) + " s"
	case r.Seconds != nil && *r.Seconds != math.Trunc(*r.Seconds):
		if _, part, has := strings.Cut(roomful.Figure(*r.Seconds), "."); has {
			return about + roomful.Clock(math.Trunc(*r.Seconds)) + "." + part
		}
		return about + roomful.Clock(*r.Seconds)
	case r.Seconds != nil:
		return about + roomful.Clock(*r.Seconds)
	case r.Reps != nil:
		return about + strconv.Itoa(*r.Reps)
	case r.Metres != nil:
		return about + roomful.Figure(*r.Metres) + " m"
	}
	return "no score"
}

// times writes a time for each interval: on the clock when one takes a minute or more,
// else in seconds, with their fractions.
func times(each []float64) string {
	whole := !slices.ContainsFunc(each, func(s float64) bool { return s != math.Trunc(s) })
	if !whole || slices.Max(each) < 60 {
		return list(each)
	}
	words := make([]string, len(each))
	for i, s := range each {
		words[i] = roomful.Clock(s)
	}
	return strings.Join(words, " ")
}

// list writes figures one after another.
func list(vs []float64) string {
	words := make([]string, len(vs))
	for i, v := range vs {
		words[i] = roomful.Figure(v)
	}
	return strings.Join(words, " ")
}
