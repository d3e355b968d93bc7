package room_test

import (
	"slices"
	"testing"
	"time"

	"roomful"
	"roomful/room"
)

// work is so many calories on a machine and a dumbbell snatch at so many kg.
func work(machine roomful.MovementID, cal, kg float64) roomful.Work {
	return roomful.Work{Round: []roomful.Task{
		{Movement: machine, Amount: cal, Unit: roomful.Calorie},
		{Movement: "dumbbell-snatch", Amount: 10, Unit: roomful.Rep, Load: roomful.Kg(kg), Implements: 1},
	}}
}

// TestChanged: each hears what is theirs now and in whose place, those who do the
// same together, a guest the whole of it, and who keeps everything nothing.
func TestChanged(t *testing.T) {
	piece := func(es ...roomful.Entrant) []room.Piece {
		return []room.Piece{{Part: roomful.Part{Kind: roomful.Main}, Entrants: es}}
	}
	before := piece(roomful.Entrant{ID: "a", Name: "Ann", Work: work("row", 12, 15)}, roomful.Entrant{ID: "b", Name: "Ben", Work: work("row", 12, 20)},
		roomful.Entrant{ID: "c", Name: "Cai", Work: work("ski", 12, 15)})
	q := room.Request{Lexicon: lexicon, Pieces: piece(roomful.Entrant{ID: "a", Name: "Ann", Work: work("ski", 10, 15)},
		roomful.Entrant{ID: "b", Name: "Ben", Work: work("ski", 10, 20)}, roomful.Entrant{ID: "c", Name: "Cai", Work: work("ski", 12, 12.5)},
		roomful.Entrant{ID: "g", Name: "guest 1", Work: work("ski", 9, 10)})}
	got := room.Changed(q, before, "no row today")
	want := "Ann and Ben: 10 cal ski instead of the row. Cai: 10 dumbbell snatches at 12.5 kg. guest 1: 9 cal ski and 10 dumbbell snatches at 10 kg."
	if len(got) != 1 || got[0].Say != want || !slices.Equal(got[0].Touches, []string{"Ann", "Ben", "Cai", "guest 1"}) {
		t.Errorf("got %+v, want %q", got, want)
	}
	if same := room.Changed(room.Request{Lexicon: lexicon, Pieces: before}, before, "nothing"); len(same) != 0 {
		t.Errorf("nothing changed, and yet %+v", same)
	}
}

// minutes turns whole minutes into a length.
func minutes(n int) time.Duration { return time.Duration(n) * time.Minute }

// TestVerdict: with the usual settings a class of 60 min is tight beyond 56 min,
// and one of 45 min beyond 42 min.
func TestVerdict(t *testing.T) {
	for _, c := range []struct {
		class, amber, red int
	}{{60, 56 * 60, 60 * 60}, {45, 42 * 60, 45 * 60}, {90, 84 * 60, 90 * 60}} {
		amber, red := roomful.DefaultGym().Hour.Bounds(minutes(c.class))
		if int(amber.Seconds()) != c.amber || int(red.Seconds()) != c.red {
			t.Errorf("class of %d min: tight beyond %v, over beyond %v", c.class, amber, red)
		}
		for end, want := range map[int]roomful.Verdict{c.amber: roomful.Fits, c.amber + 1: roomful.Tight, c.red: roomful.Tight, c.red + 1: roomful.Over} {
			h := roomful.Hour{Amber: amber, Red: red, Lines: []roomful.HourLine{{End: minutes(end) / 60}}}
			if h.Verdict() != want || h.Fits() != (want != roomful.Over) {
				t.Errorf("class of %d min planned for %d s: %s, want %s", c.class, end, h.Verdict(), want)
			}
		}
	}
}
