package say_test

import (
	"testing"
	"time"

	"roomful"
	"roomful/version/internal/say"
)

func TestFigures(t *testing.T) {
	for _, c := range []struct {
		v          float64
		u          roomful.Unit
		tidy, trim float64
	}{
		{6.75, roomful.Rep, 7, 6},
		{0.2, roomful.Rep, 1, 1},
		{43, roomful.Rep, 45, 40},
		{333, roomful.Metre, 350, 300},
		{87, roomful.Metre, 90, 80},
		{22, roomful.Second, 20, 20},
		{9.5, roomful.Calorie, 10, 9},
	} {
		if tidy, trim := say.Tidy(c.v, c.u), say.Trim(c.v, c.u); tidy != c.tidy || trim != c.trim {
			t.Errorf("%v %s: %v and %v, want %v and %v", c.v, c.u, tidy, trim, c.tidy, c.trim)
		}
	}
}

// TestNeighbour names what changes: pull for push and squat for hinge never
// pass in silence (common practice).
func TestNeighbour(t *testing.T) {
	of := func(p ...roomful.Pattern) *roomful.Movement { return &roomful.Movement{Patterns: p} }
	for _, c := range []struct {
		a, b *roomful.Movement
		want string
	}{
		{of(roomful.PullVertical), of(roomful.PullHorizontal), ""},
		{of(roomful.PullVertical), of(roomful.PushHorizontal), "pull becomes push"},
		{of(roomful.Squat), of(roomful.Hinge), "squat becomes hinge"},
		{of(roomful.Squat, roomful.PushVertical), of(roomful.Squat), ""},
		{of(roomful.Jump), of(roomful.SingleLeg, roomful.Jump), ""},
		{of(), of(roomful.Hinge), ""},
	} {
		if got := say.Neighbour(c.a, c.b); got != c.want {
			t.Errorf("%v to %v: %q, want %q", c.a.Patterns, c.b.Patterns, got, c.want)
		}
	}
}

func TestPublic(t *testing.T) {
	for words, want := range map[string]string{
		"pressing overhead becomes pressing ahead": "pressing overhead becomes pressing ahead",
		"easier on a sore back":                    "hinge becomes squat",
		"":                                         "",
	} {
		if got := say.Public(words, "hinge becomes squat"); got != want {
			t.Errorf("%q is said as %q", words, got)
		}
	}
}

func TestTimesAndLoads(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{say.Minutes(8 * time.Minute), "8 minutes"},
		{say.Minutes(time.Minute), "1 minute"},
		{say.Minutes(450 * time.Second), "7:30"},
		{say.Clock(15 * time.Minute), "15"},
		{say.Steps([]int{21, 15, 9}), "21-15-9"},
		{say.Count(1, "set") + ", " + say.Count(2, "set"), "1 set, 2 sets"},
		{say.Share(0.5) + " the volume", "half the volume"},
		{say.Share(0.75) + " the volume", "three quarters of the volume"},
		{say.Load(roomful.Kg(80), roomful.Kilogram), "80 kg"},
		{say.Load(roomful.Kg(80), roomful.Pound), "80 kg (176 lb)"},
		{say.Load(roomful.Lb(95), roomful.Kilogram), "95 lb (43 kg)"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

// TestKept: what is kept of a pattern can be read aloud behind "keeps".
func TestKept(t *testing.T) {
	for p, want := range map[roomful.Pattern]string{
		roomful.Hinge: "the hinge", roomful.PullVertical: "the pull", roomful.SingleLeg: "the work on one leg",
		roomful.Core: "the core at work", roomful.Mobilise: "the same parts moving",
	} {
		if got := say.Kept(p); got != want {
			t.Errorf("keeps %s, want %s", got, want)
		}
	}
}
