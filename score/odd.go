package score

import (
	"math"
	"slices"
	"strings"

	"roomful"
)

// longestClass is beyond the time of any class in s (judgement): what comes out longer,
// where the sheet has no cap, is asked about.
const longestClass = 3 * 3600

// longest is how long a piece for time may take in s: its cap, else a very long class.
func longest(f roomful.ForTime) float64 {
	if f.Cap > 0 {
		return f.Cap.Seconds()
	}
	return longestClass
}

// bareTime reads a time without a colon and asks where it may be another: "7.13" and
// "18" are clear, "1842", "18.75" and "18.4" are not.
func (r *reader) bareTime(out *roomful.Reading, f *fact, limit float64) float64 {
	hundredths := int(math.Round(f.a*100)) % 100
	v := pointed(f.a)
	switch {
	case f.decimals == 0 && f.a < 100, f.decimals == 2 && hundredths < 60:
		return v
	case f.decimals == 0:
		v = r.digitTime(f.a, limit)
	case f.decimals == 1:
		out.Question = question("is "+roomful.Figure(f.a)+" minutes and seconds, or a part of a minute?", roomful.Clock(v), roomful.Clock(math.Round(f.a*60)))
		return v
	default:
		v = math.Round(f.a * 60)
	}
	r.askTime(out, f, v)
	return v
}

// digitTime reads digits alone, "1842", as the clock without its colons where that is a
// time within the limit, else as seconds.
func (r *reader) digitTime(digits, limit float64) float64 {
	n := int(digits)
	clock := n/10000*3600 + n/100%100*60 + n%100
	if n%100 < 60 && n/100%100 < 60 && float64(clock) <= limit {
		return float64(clock)
	}
	return digits
}

// clockTime reads a time with a colon and asks about hours that are minutes, "18:42:00",
// and about a time beyond any class.
func (r *reader) clockTime(out *roomful.Reading, f *fact, limit float64) float64 {
	v := f.a
	if v <= limit {
		return v
	}
	text := r.p.toks[f.from].text
	if minutes := math.Floor(v / 60); strings.Count(text, ":") == 2 && minutes <= limit && (v > longestClass || strings.HasSuffix(text, ":00")) {
		v = minutes // "18:42:00", and the hundredths of a watch
	} else if v <= longestClass {
		return v // the cap has its own question
	}
	r.askTime(out, f, v)
	return v
}

// askTime asks whether a time is the one that was meant.
func (r *reader) askTime(out *roomful.Reading, f *fact, v float64) {
	out.Question = question("is "+f.text+" a time of "+roomful.Clock(v)+"?", "yes, "+roomful.Clock(v), "no, something else")
}

// several reads more than one time of a piece that has one: the clock at the end of each
// round, else it asks which is the score.
func (r *reader) several(out *roomful.Reading, f *fact, rounds int) {
	first, last := f.list[0], f.list[len(f.list)-1]
	if len(f.list) == rounds && grows(f.list) {
		out.Seconds, r.said.splits, r.said.onClock = &last, f.list, true
		return
	}
	out.Seconds = &first
	out.Question = question("which is the score?", roomful.Clock(first), roomful.Clock(last))
}

// shortest is less than any interval takes in s, where the sheet does not say how much is done.
const shortest = 4

// pointedOrSeconds reads times of intervals with two places behind the point, 1.12 and
// 52.75: minutes and seconds, unless somebody can do an interval in so many seconds.
func (r *reader) pointedOrSeconds(s *piece, each []float64) []float64 {
	least := max(r.least(s.part.Round, 0), shortest)
	if !slices.ContainsFunc(each, func(v float64) bool { return v < least }) {
		return each
	}
	out := make([]float64, len(each))
	for i, v := range each {
		out[i] = pointed(v)
	}
	return out
}

// grows reports whether each figure is more than the one before it.
func grows(each []float64) bool {
	for i := 1; i < len(each); i++ {
		if each[i] <= each[i-1] {
			return false
		}
	}
	return true
}

// apart turns times on the clock into how long each took, with so much rest between.
func apart(each []float64, rest float64) []float64 {
	out := slices.Clone(each)
	for i := len(out) - 1; i > 0; i-- {
		out[i] -= each[i-1] + rest
	}
	return out
}
