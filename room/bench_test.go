package room_test

import (
	"testing"

	"roomful"
	"roomful/room"
	"roomful/sim"
)

const rowers = `Rowing
2027-03-04, 60 min
main: as many rounds as possible in 20 min
  500 m row
  20 air squats
  15 push-ups
`

// BenchmarkPlan lays out the hour with a list of what would help for 24 people on a
// 20-minute piece with 12 rowers.
func BenchmarkPlan(b *testing.B) {
	q := ask(b, rowers, 24, sim.New(lexicon))
	q.Workers, q.Kit = 0, &roomful.Kit{Stations: map[string]int{"row": 12}}
	for b.Loop() {
		h, err := room.Plan(b.Context(), q)
		if err != nil || len(h.Fixes) == 0 {
			b.Fatalf("%d fixes, %v", len(h.Fixes), err)
		}
	}
}
