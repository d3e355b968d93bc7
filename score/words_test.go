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
