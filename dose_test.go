package roomful_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"roomful"
)

// TestDose shortens each format as a coach would on the board: stop at 8:00 of
// 16, 2 of 5 sets, 10-9-8 of ten steps.
func TestDose(t *testing.T) {
	const s, m = time.Second, time.Minute
	for _, c := range []struct {
		name         string
		dose         roomful.Dose
		format, want roomful.Format
	}{
		{"all of it", roomful.Dose{}, roomful.RoundsInTime{Window: 16 * m}, roomful.RoundsInTime{Window: 16 * m}},
		{"a window", roomful.Dose{StopAt: 8 * m}, roomful.RoundsInTime{Window: 16 * m}, roomful.RoundsInTime{Window: 8 * m}},
		{"never longer", roomful.Dose{StopAt: 20 * m}, roomful.AmountInTime{Window: 2 * m}, roomful.AmountInTime{Window: 2 * m}},
		{"intervals on the clock", roomful.Dose{StopAt: 7 * m}, roomful.Every{Interval: m, Count: 15}, roomful.Every{Interval: m, Count: 7}},
		{"rounds", roomful.Dose{Rounds: 2}, roomful.ForTime{Rounds: 4, Cap: 9 * m}, roomful.ForTime{Rounds: 2, Cap: 9 * m}},
		{"steps", roomful.Dose{Ladder: []int{10, 9, 8}}, roomful.ForTime{Rounds: 10, Ladder: roomful.Ladder{Steps: []int{10, 9, 8, 7, 6, 5, 4, 3, 2, 1}}},
			roomful.ForTime{Rounds: 3, Ladder: roomful.Ladder{Steps: []int{10, 9, 8}}}},
		{"bouts", roomful.Dose{Rounds: 4}, roomful.Intervals{Count: 8, Work: 20 * s, Rest: 10 * s}, roomful.Intervals{Count: 4, Work: 20 * s, Rest: 10 * s}},
		{"half of each station", roomful.Dose{Work: 30 * s}, roomful.Stations{Rounds: 3, Work: m, Change: 15 * s},
			roomful.Stations{Rounds: 3, Work: 30 * s, Change: 45 * s}},
		{"sets", roomful.Dose{Rounds: 2}, roomful.Sets{Count: 5, Reps: []int{5, 5, 3, 3, 1}}, roomful.Sets{Count: 2, Reps: []int{5, 5}}},
		{"no build", roomful.Dose{Steady: true, Rounds: 3}, roomful.Sets{Build: true, Within: 15 * m}, roomful.Sets{Count: 3, Reps: []int{}, Within: 15 * m}},
		{"not to the last repetition", roomful.Dose{Steady: true}, roomful.AmountInTime{Window: 2 * m, Unbroken: true}, roomful.Every{Interval: 15 * m, Count: 1}},
	} {
		got := c.dose.Of(roomful.Part{Format: c.format})
		if diff := cmp.Diff(roomful.Part{Format: c.want}, got, cmp.FilterValues(func(a, b []int) bool { return len(a)+len(b) == 0 }, cmp.Ignore())); diff != "" {
			t.Errorf("%s (-want +got)\n%s", c.name, diff)
		}
	}
}

// TestDoseShortens holds that a dose never makes a part longer, and that the part
// it is taken of stays as it was.
func TestDoseShortens(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := func(what string, most int) int { return rapid.IntRange(1, most).Draw(t, what) }
		secs := func(what string, most int) time.Duration { return time.Duration(n(what, most)) * time.Second }
		f := rapid.SampledFrom([]roomful.Format{
			roomful.RoundsInTime{Window: secs("window", 2400)}, roomful.Every{Interval: secs("interval", 180), Count: n("count", 30)},
			roomful.Intervals{Count: n("bouts", 12), Work: secs("work", 240), Rest: secs("rest", 120)},
			roomful.Stations{Rounds: n("rounds", 5), Work: secs("station", 120), Change: secs("change", 30)},
		}).Draw(t, "format")
		d := roomful.Dose{StopAt: secs("stop", 3000), Rounds: n("rounds", 10), Work: secs("work", 300)}
		before := roomful.Part{Format: f}
		after := d.Of(before)
		if long := after.Format.Length(4); long > f.Length(4) {
			t.Fatalf("%v of %v lasts %v", d, f, long)
		}
		if diff := cmp.Diff(roomful.Part{Format: f}, before); diff != "" {
			t.Fatalf("the part was changed: %s", diff)
		}
	})
}
