package version_test

import (
	"strings"
	"testing"

	"roomful"
	"roomful/notation"
)

// TestHomeInsteadOf puts lines of a sheet into homes. The time of a set and its
// effort are kept, never the load for its own sake (common practice, no source).
func TestHomeInsteadOf(t *testing.T) {
	bar := &roomful.Kit{Home: true, Other: []string{"rack"}, Bars: []roomful.Stock{{Mass: roomful.Kg(20), Count: 1}},
		Plates: []roomful.Stock{{Mass: roomful.Kg(20), Count: 4}, {Mass: roomful.Kg(10), Count: 2}, {Mass: roomful.Kg(5), Count: 2}}}
	pair := &roomful.Kit{Home: true, Dumbbells: []roomful.Stock{{Mass: roomful.Kg(22.5), Count: 2}}}
	low := &roomful.Kit{Home: true, CeilingM: 2.2, Quiet: true}
	nothing := &roomful.Kit{Home: true}
	for name, c := range map[string]struct {
		sheet string
		home  *roomful.Kit
		want  string // as told
		why   string
	}{
		// 16 at 4 s are 64 s of 150: half of the clock at most
		"no bar for squats": {"strength: 5 x 5, every 2:30\n  back squats @ 75 %\n", nothing, "split-squat 16", "8 a side, three seconds down"},
		// a clock of 60 s has room for 30 s: 7 at 4 s, 3 a side
		"in a short interval": {"strength: 5 x 3, every 1 min\n  back squats @ 75 %\n", nothing, "split-squat 6", "3 a side"},
		"no bar to pull":      {"strength: 5 x 5, every 2:30\n  deadlifts @ 75 %\n", nothing, "single-leg-deadlift 16", "8 a side"},
		"no bar to press":     {"strength: 5 x 3, rest 2 min\n  push presses @ 80 %\n", nothing, "pike-push-up 12", "three seconds down"},
		// 45 kg in the hands stand for 67 of 90 on a bar: more of them, no tempo
		"a pair in the hands": {"strength: 5 x 5, every 2:30\n  back squats @ 75 %\n", pair, "dumbbell-front-squat 12 22.5 kg", "no bar at home"},
		"a bar that is there": {"strength: 5 x 5, every 2:30\n  back squats @ 75 %\n", bar, "back-squat 5 90 kg", "as written"},
		// a single is what nobody does alone: two are left in hand, so the load of three
		"nothing maximal": {"strength: 3 x 1, rest 2 min\n  back squats @ 100 %\n", bar, "back-squat 1 110 kg", "110 kg"},
		// 12 cal at 20 a minute, five times over, are 36 s: 18 steps of 2 s
		"a brief row": {"main: 5 rounds for time\n  12 cal row\n  10 air squats\n", nothing, "stair-step-up 18, air-squat 10", "no rower"},
		// four fifths of the row are usual (common practice, no source): 1600 m
		"a long row":      {"main: 2 rounds for time\n  2000 m row\n  10 air squats\n", nothing, "run 1650, air-squat 10", "no rower"},
		"upside down":     {"main: 5 rounds for time\n  10 handstand push-ups\n  10 air squats\n", nothing, "pike-push-up 10, air-squat 10", "alone at home"},
		"under a ceiling": {"main: 5 rounds for time\n  10 handstand push-ups\n  10 air squats\n", low, "pike-push-up 10, air-squat 10", "under a low ceiling"},
	} {
		t.Run(name, func(t *testing.T) {
			q := real(t, "Test\n2027-03-04\n\nmain: for time\n  10 air squats\n", []roomful.Athlete{lifter(func(a *roomful.Athlete) {
				a.Home = c.home
				a.Skills = append(a.Skills, roomful.SkillLevel{Movement: "handstand-push-up", Level: roomful.SolidSkill})
			})})
			s, _ := notation.Read("Test\n2027-03-04\n\n"+c.sheet, q.Lexicon)
			q.Piece, q.Home, q.Runs = s.Parts[0], true, 16
			v := propose(t, q).Versions[0]
			if got := told(v); got != c.want {
				t.Errorf("%s, want %s", got, c.want)
			}
			if !strings.Contains(v.Choices[0].Why, c.why) {
				t.Errorf("why %q, want %q", v.Choices[0].Why, c.why)
			}
		})
	}
}
