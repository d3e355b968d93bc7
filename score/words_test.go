package score_test

import (
	"testing"

	"roomful"
	"roomful/score"
)

// TestWordsOfTimes: a time stands on the clock, with the fraction that was typed; under a
// minute it is in seconds (by hand: 719.5 s is 11 min 59.5 s).
func TestWordsOfTimes(t *testing.T) {
	for seconds, want := range map[float64]string{719: "11:59", 719.5: "11:59.5", 719.9999: "12:00", 3605.25: "1:00:05.25", 42.3: "42.3 s"} {
		if got := score.Words(roomful.Reading{Kind: roomful.TimeScore, Seconds: &seconds}); got != want {
			t.Errorf("%v s: %s, want %s", seconds, got, want)
		}
	}
}

// TestEntryWords: sets at one load are counted, sets at several and missed ones stand apart.
func TestEntryWords(t *testing.T) {
	for _, c := range []struct {
		loads  []float64
		misses []int
		want   string
	}{
		{[]float64{60, 60, 60}, nil, "3 × 60 kg"},
		{[]float64{60, 62.5}, nil, "60 62.5 kg"},
		{[]float64{60, 60}, []int{2}, "60 (60 missed) kg"},
		{[]float64{60}, nil, "60 kg"},
	} {
		e := roomful.Entry{Reading: roomful.Reading{Kind: roomful.LoadScore, LoadsKg: c.loads, Misses: c.misses}}
		if got := score.EntryWords(e); got != c.want {
			t.Errorf("%v, missed %v: %q, want %q", c.loads, c.misses, got, c.want)
		}
	}
}
