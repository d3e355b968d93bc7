package version_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/notation"
	"roomful/version"
)

// days lays out a sheet for people, in a room with every usual load or at home.
func days(t *testing.T, sheet string, home bool, athletes ...roomful.Athlete) []roomful.Itinerary {
	t.Helper()
	q := real(t, sheet, athletes)
	s, _ := notation.Read(sheet, q.Lexicon)
	q.Home, q.Runs = home, 16
	d := version.Days{Request: q, Session: s, Lineups: map[string]roomful.Lineup{}}
	for _, p := range s.Parts {
		if p.Scored {
			one := q
			one.Piece = p
			d.Lineups[p.Name()] = propose(t, one)
		}
	}
	got, err := version.Itineraries(d)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

// lifter is somebody of division a who squats 120 kg, changed.
func lifter(change func(*roomful.Athlete)) roomful.Athlete {
	a := roomful.Athlete{ID: "lea", Name: "Lea", Division: roomful.DivisionA, MassKg: 80, Months: months(30), Born: roomful.Date{Year: 1990},
		Known:  []roomful.Known{{Test: roomful.TestSquat, Value: 120}, {Test: roomful.TestDeadlift, Value: 150}, {Test: roomful.TestPress, Value: 55}},
		Skills: []roomful.SkillLevel{{Movement: "pull-up", Level: roomful.SolidSkill}}}
	if change != nil {
		change(&a)
	}
	return a
}

// shown writes a stage in short: "goblet-squat", "20 x 8, 40 x 5".
func shown(s roomful.Stage) string {
	var out []string
	for _, d := range s.Drills {
		words := string(d.Movement)
		if d.Load.Value > 0 {
			words += " " + d.Load.String()
		}
		out = append(out, words)
	}
	if s.BuildUp != nil {
		for _, b := range s.BuildUp.Sets {
			out = append(out, fmt.Sprintf("%s x %d", roomful.Figure(b.Load.Value), b.Reps))
		}
		if s.BuildUp.Then != "" {
			out = append(out, s.BuildUp.Then)
		}
	}
	if s.Version != nil {
		out = append(out, told(*s.Version))
	}
	if s.Note != "" {
		out = append(out, s.Note)
	}
	return strings.Join(out, ", ")
}

const morning = `Morning
2027-03-04, 60 min

warm-up: 2 rounds, 30 s each
  empty-bar front squat
  burpee; round 2 pull-up

`

// TestItineraries lays out one stage for one person at a time.
func TestItineraries(t *testing.T) {
	sore := func(a *roomful.Athlete) { a.Limits = []roomful.Limit{{What: "wrist", Pain: 4}} }
	noPullUp := func(a *roomful.Athlete) {
		a.Skills = []roomful.SkillLevel{{Movement: "pull-up", Level: roomful.NoSkill}}
	}
	main := "main: as many rounds as possible in 12 min\n  9 front squats 60/42.5 kg\n  12 sit-ups\n"
	for name, c := range map[string]struct {
		sheet  string
		change func(*roomful.Athlete)
		stage  int
		want   string
	}{
		"an empty bar is the bar": {morning + main, nil, 0, "front-squat 20 kg, burpee, front-squat 20 kg, pull-up"},
		"of 15 kg for division b": {morning + main, func(a *roomful.Athlete) { a.Division = roomful.DivisionB }, 0, "front-squat 15 kg, burpee, front-squat 15 kg, pull-up"},
		// two dumbbells that weigh no more than the bar they stand for
		"a sore wrist":   {morning + main, sore, 0, "dumbbell-front-squat 10 kg, fist-push-up, dumbbell-front-squat 10 kg, pull-up"},
		"no pull-up yet": {morning + main, noPullUp, 0, "front-squat 20 kg, burpee, front-squat 20 kg, banded-pull-up"},
		"a ramp unasked": {morning + main, nil, 1, "20 x 8, 40 x 5, 50 x 3, 60 x 9"},
		// 4 minutes of 8 leave time to rehearse
		"a ramp asked": {morning + "ramp: front squat to working load, 8 min\n\n" + main, nil, 1,
			"20 x 8, 40 x 5, 50 x 3, 60 x 9, then half a round of everything, slowly"},
		"another machine than the sheet's": {morning + "ramp: 6 min\n  row; three pulls, then ten\n\nmain: for time\n  2000 m row\n",
			func(a *roomful.Athlete) { a.Limits = []roomful.Limit{{What: "back", Pain: 4}} }, 1,
			"two minutes of bike easily, then three bursts of ten seconds at the pace of the piece"},
		"one that leads to nothing": {morning + "ramp: power clean to working load, 8 min\n\nmain: for time\n  30 sit-ups\n", nil, 1,
			"as the sheet says: nothing today is loaded for it"},
		"none for a light": {morning + "main: for time\n  20 front squats 30/20 kg\n", nil, 1, "front-squat 20 30 kg"},
		"the sheet's own sets": {morning + "ramp:\n  5 back squats @ 40 %\n  3 back squats @ 60 %\n\nstrength: 3 x 5, every 3 min\n  back squats @ 75 %\n", nil, 1,
			"47.5 x 5, 72.5 x 3"},
		// 90 kg is three quarters of 120: 40 % is 36, 60 % is 54, 75 % is 67.5, 88 % is 79
		"to the first working set": {morning + "ramp: back squat to working load, 10 min\n\nstrength: 3 x 5, every 3 min\n  back squats @ 75 %\n", nil, 1,
			"20 x 8, 35 x 5, 50 x 3, 65 x 2, 75 x 1, the first working set: 5 back squats at 90 kg"},
	} {
		t.Run(name, func(t *testing.T) {
			it := days(t, c.sheet, false, lifter(c.change))[0]
			if c.stage >= len(it.Stages) {
				t.Fatalf("%d stages", len(it.Stages))
			}
			if diff := cmp.Diff(c.want, shown(it.Stages[c.stage])); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// TestDrillsKeepBodiesPrivate says what is done to everybody, and why to the
// person alone.
func TestDrillsKeepBodiesPrivate(t *testing.T) {
	it := days(t, morning+"main: for time\n  30 sit-ups\n", false, lifter(func(a *roomful.Athlete) { a.Limits = []roomful.Limit{{What: "wrist", Pain: 4}} }))[0]
	d := it.Stages[0].Drills[0]
	if !d.Choice.Changed || strings.Contains(d.Why, "wrist") || !strings.Contains(d.Private, "wrist 4 of 10") {
		t.Errorf("%s: %q, private %q", d.Movement, d.Why, d.Private)
	}
}

// TestCounts says with what a score may be compared.
func TestCounts(t *testing.T) {
	own := func(a *roomful.Athlete) { a.Home = &roomful.Kit{Home: true} }
	for name, c := range map[string]struct {
		sheet string
		home  bool
		want  roomful.Counts
	}{
		"as written at home": {"main: for time\n  30 air squats\n", true, roomful.Counts{Kind: roomful.TimeScore, Comparable: true, Say: "time, as in the room"}},
		"other work at home": {"main: 3 rounds for time\n  10 pull-ups\n  10 air squats\n", true,
			roomful.Counts{Kind: roomful.TimeScore, Say: "time, as in the room. Kept apart: the work is another"}},
		"no load in sets": {"strength: 3 x 5, every 3 min\n  back squats @ 75 %\n", true,
			roomful.Counts{Kind: roomful.RepsScore, Say: "repetitions: your own kind, not comparable with the room"}},
		"in the room": {"main: for time\n  30 air squats\n", false, roomful.Counts{Kind: roomful.TimeScore, Comparable: true, Say: "time, as in the room"}},
	} {
		stages := days(t, "Test\n2027-03-04\n\n"+c.sheet, c.home, lifter(own))[0].Stages
		if diff := cmp.Diff(&c.want, stages[len(stages)-1].Counts); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
	}
}

// TestHomeDay is a whole day from nothing: drills without kit, a set that stands
// for a ramp, and nobody sent out of the door for a minute.
func TestHomeDay(t *testing.T) {
	sheet := "Test\n2027-03-04\n\nwarm-up: 1 round, 40 s each\n  easy row\n  box step-up\n\nramp: power clean to working load, 8 min\n\n" +
		"main: as many rounds as possible in 12 min\n  12 cal row\n  8 power cleans 50/35 kg\n"
	it := days(t, sheet, true, lifter(func(a *roomful.Athlete) { a.Home = &roomful.Kit{Home: true, CeilingM: 2.2, Quiet: true} }))[0]
	for _, s := range it.Stages {
		if strings.Contains(shown(s), "run") || strings.Contains(shown(s), "row ") || strings.Contains(shown(s), " kg") {
			t.Errorf("%s: %s", s.Part, shown(s))
		}
	}
	if ready := it.Stages[1]; ready.BuildUp != nil || !strings.Contains(ready.Note, "slowly") {
		t.Errorf("ramp: %+v", ready)
	}
}
