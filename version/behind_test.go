package version_test

import (
	"strings"
	"testing"
	"time"

	"roomful"
	"roomful/version"
)

// behindQuestion asks about the one person of a request who has come so far.
func behindQuestion(t *testing.T, q version.Request, at time.Duration, done float64) version.BehindQuestion {
	t.Helper()
	l, err := version.Propose(t.Context(), q)
	if err != nil {
		t.Fatal(err)
	}
	return version.BehindQuestion{Request: q, Version: l.Versions[0], At: at, Done: done}
}

// alone asks for one known person.
func alone(t *testing.T, sheet string) version.Request {
	months := 30.0
	return real(t, sheet, []roomful.Athlete{{ID: "a", Name: "Ada", Division: roomful.DivisionA, MassKg: 80, Months: &months, Known: []roomful.Known{
		{Test: roomful.TestSquat, Value: 110}, {Test: roomful.TestPushUps, Value: 45}, {Test: roomful.TestRow2k, Value: 460}}}})
}

// TestCutBack is one round at 4:00 of 12 with a target of 6 to 8: it ends far
// below, cutting brings it nearer and is noted from 4:00 on, and what is done in
// full needs nothing.
func TestCutBack(t *testing.T) {
	q := alone(t, "effort: 6-8 rounds\nmain: as many rounds as possible in 12 min\n  9 front squats 40/30 kg\n  9 push-ups\n  9 box jumps 60/50 cm\n")
	got, err := version.CutBack(t.Context(), behindQuestion(t, q, 4*time.Minute, 27))
	if err != nil {
		t.Fatal(err)
	}
	if got.Meets || got.Ends.Score.P50 >= 6 || got.Ends.Score.P50 < 2 {
		t.Errorf("one round at 4:00 ends at %.1f, meets %v", got.Ends.Score.P50, got.Meets)
	}
	if len(got.Cuts) == 0 {
		t.Fatal("nothing to cut")
	}
	for _, c := range got.Cuts {
		if c.Segment.From != 4*time.Minute || c.Say == "" || c.Ends.Score.P50 < got.Ends.Score.P50 {
			t.Errorf("%s ends at %.2f: %+v", c.What, c.Ends.Score.P50, c.Segment)
		}
	}
	ok, err := version.CutBack(t.Context(), behindQuestion(t, q, 4*time.Minute, 27*2.4))
	if err != nil {
		t.Fatal(err)
	}
	if !ok.Meets || len(ok.Cuts) > 0 || ok.Ends.Score.P50 <= got.Ends.Score.P50 {
		t.Errorf("2.4 rounds at 4:00 end at %.1f, meets %v, %d cuts", ok.Ends.Score.P50, ok.Meets, len(ok.Cuts))
	}
}

// TestCutBackRefuses: what cannot be reckoned is said, with what to do.
func TestCutBackRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		sheet string
		at    time.Duration
		want  string
	}{
		"over":      {"main: as many rounds as possible in 12 min\n  9 push-ups\n  9 air squats\n", 12 * time.Minute, "not under way"},
		"not begun": {"main: as many rounds as possible in 12 min\n  9 push-ups\n  9 air squats\n", 0, "not under way"},
		"minutes":   {"main: every minute for 10 min\n  9 push-ups\n", 4 * time.Minute, "only rounds in a window"},
	} {
		_, err := version.CutBack(t.Context(), behindQuestion(t, alone(t, c.sheet), c.at, 10))
		if err == nil || !strings.Contains(err.Error(), c.want) || roomful.HintOf(err) == "" {
			t.Errorf("%s: %v (%s)", name, err, roomful.HintOf(err))
		}
	}
}
