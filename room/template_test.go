package room_test

import (
	"testing"
	"time"

	"roomful"
	"roomful/room"
)

// lasting sums the lines of some kinds.
func lasting(h roomful.Hour, kinds ...roomful.HourKind) (sum time.Duration) {
	for _, l := range h.Lines {
		for _, k := range kinds {
			if l.Kind == k {
				sum += l.Length()
			}
		}
	}
	return sum
}

// TestTemplates lays out three usual hours with the usual settings beside the
// minutes that coaches plan for them (common practice, no source): no block is
// further apart than a minute and a half.
func TestTemplates(t *testing.T) {
	type block struct {
		what    string
		minutes int
		kinds   []roomful.HourKind
	}
	const most = 90 * time.Second
	for _, c := range []struct {
		what, sheet string
		heats       int
		blocks      []block
	}{
		{"conditioning alone: 4, 8, 12, 3, 20, 3, 7, 3", `A
2027-03-04, 60 min
ramp: front squat to working load, 12 min
main: as many rounds as possible in 20 min
  9 front squats 60/42.5 kg
  12 pull-ups
mobility: 7 min
  couch stretch 60 s a side
`, 1, []block{{"briefing", 4, []roomful.HourKind{roomful.HourBriefing}}, {"warm-up", 8, []roomful.HourKind{roomful.HourWarmUp}}, {"ramp", 12, []roomful.HourKind{roomful.HourRamp}},
			{"set-up", 3, []roomful.HourKind{roomful.HourSetUp}}, {"main", 20, []roomful.HourKind{roomful.HourWork}}, {"scores", 3, []roomful.HourKind{roomful.HourScores}},
			{"mobility", 7, []roomful.HourKind{roomful.HourMobility}}, {"reset", 3, []roomful.HourKind{roomful.HourReset}}}},
		{"strength and a short piece: 3, 8, 8, 18, 5, 12", `B
2027-03-04, 60 min
ramp: front squat to working load, 8 min
strength: every 3 min x 6
  3 front squats 60/42.5 kg
main: as many rounds as possible in 12 min
  9 burpees
  12 pull-ups
`, 1, []block{{"briefing", 3, []roomful.HourKind{roomful.HourBriefing}}, {"warm-up", 8, []roomful.HourKind{roomful.HourWarmUp}}, {"ramp", 8, []roomful.HourKind{roomful.HourRamp}},
			{"sets and piece", 30, []roomful.HourKind{roomful.HourWork}}, {"change over and second briefing", 5, []roomful.HourKind{roomful.HourChange}}}},
		{"two heats: 12, 2, 12", `C
2027-03-04, 60 min
ramp: front squat to working load, 12 min
main: as many rounds as possible in 12 min
  9 front squats 60/42.5 kg
  12 pull-ups
`, 2, []block{{"heats with the change", 26, []roomful.HourKind{roomful.HourWork, roomful.HourChange}}}},
	} {
		q := ask(t, c.sheet, 8, slow(500))
		q.Heats = c.heats
		h, err := room.Plan(t.Context(), q)
		if err != nil {
			t.Fatal(err)
		}
		for _, b := range c.blocks {
			if got, want := lasting(h, b.kinds...), minutes(b.minutes); (got - want).Abs() > most {
				t.Errorf("%s: %s takes %v, coaches plan %v\n%s", c.what, b.what, got, want, lines(h))
			}
		}
	}
}
