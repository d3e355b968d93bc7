package day_test

import (
	"strings"
	"testing"

	"roomful"
	"roomful/day"
)

// TestByHandAfterEdit edits the sheet under a version that was set: what was set stays,
// what was as written follows the sheet, and what fits no more is told and not done.
func TestByHandAfterEdit(t *testing.T) {
	g := open(t)
	sheet := func(lines string) roomful.Session {
		return g.session(t, "Nine\n2027-03-04, 60 min\n\neffort: 4-8 rounds, steady\n\nmain: as many rounds as possible in 12 min\n"+lines)
	}
	first := sheet("  9 front squats 60/42.5 kg\n  12 push-ups\n")
	piece, _ := first.Asked("")
	ann := roomful.Athlete{ID: "ann", Name: "Ann", Division: roomful.DivisionA, MassKg: 80, Known: []roomful.Known{{Test: roomful.TestSquat, Value: 120}}}
	written := day.Stated(piece, ann.Division)
	if len(written.Round) != 2 || written.Round[0].Load.Kg() != 60 || written.Round[1].Amount != 12 {
		t.Fatalf("the sheet says %+v", written)
	}
	squat := written.Round[0]
	squat.Load = roomful.Kg(35)
	set := day.ByHand{Athlete: "ann", Work: written.With(0, squat), Written: written, Whose: "Olu"}
	for name, c := range map[string]struct {
		lines string
		hand  bool
		load  float64 // of the front squats
		other string  // the other line in short
		told  string
	}{
		"as it was":                     {"  9 front squats 60/42.5 kg\n  12 push-ups\n", true, 35, "push-up 12", ""},
		"the other line is less":        {"  9 front squats 60/42.5 kg\n  10 push-ups\n", true, 35, "push-up 10", ""},
		"the other line is another":     {"  9 front squats 60/42.5 kg\n  15 air squats\n", true, 35, "air-squat 15", ""},
		"a line is new":                 {"  9 front squats 60/42.5 kg\n  12 push-ups\n  5 burpees\n", true, 35, "push-up 12", ""},
		"they change places":            {"  12 push-ups\n  9 front squats 60/42.5 kg\n", true, 35, "push-up 12", ""},
		"the load of the sheet changes": {"  9 front squats 70/50 kg\n  12 push-ups\n", true, 35, "push-up 12", ""},
		"its own line goes":             {"  9 deadlifts 60/42.5 kg\n  12 push-ups\n", false, 0, "push-up 12", "set it again"},
	} {
		q := day.Question{Session: sheet(c.lines), People: []roomful.Athlete{ann}, Runs: 16, Seed: 1, ByHand: []day.ByHand{set}}
		got, err := g.Versions(t.Context(), q, false)
		if err != nil {
			t.Fatal(err)
		}
		v, told := got.Versions[0], ""
		for _, a := range got.Attention {
			told += a.Why + "\n"
		}
		load, other := 0.0, ""
		for _, one := range v.Work.Round {
			if one.Movement == "front-squat" {
				load = one.Load.Kg()
			}
			other += string(one.Movement) + " " + roomful.Figure(one.Amount) + "; "
		}
		if v.ByHand != c.hand || load != c.load || !strings.Contains(other, c.other) || !strings.Contains(told, c.told) {
			t.Errorf("%s: by hand %v, front squats at %v, %s told %q", name, v.ByHand, load, other, told)
		}
	}
}

// TestByHandLoses keeps what is left of a version that was set when one of its lines goes,
// and tells the coach which.
func TestByHandLoses(t *testing.T) {
	g := open(t)
	was := g.session(t, "Nine\n2027-03-04, 60 min\n\neffort: 4-8 rounds, steady\n\nmain: as many rounds as possible in 12 min\n  9 front squats 60/42.5 kg\n  12 push-ups\n")
	piece, _ := was.Asked("")
	written := day.Stated(piece, roomful.DivisionA)
	squat, push := written.Round[0], written.Round[1]
	squat.Load, push.Amount = roomful.Kg(35), 6
	set := day.ByHand{Athlete: "ann", Work: written.With(0, squat).With(1, push), Written: written, Own: true, Option: "As written", Reason: "a cold"}
	now := g.session(t, "Nine\n2027-03-04, 60 min\n\neffort: 4-8 rounds, steady\n\nmain: as many rounds as possible in 12 min\n  9 front squats 60/42.5 kg\n  15 air squats\n")
	ann := roomful.Athlete{ID: "ann", Name: "Ann", Division: roomful.DivisionA, MassKg: 80, Known: []roomful.Known{{Test: roomful.TestSquat, Value: 120}}}
	got, err := g.Versions(t.Context(), day.Question{Session: now, People: []roomful.Athlete{ann}, Runs: 16, Seed: 1, ByHand: []day.ByHand{set}}, false)
	if err != nil {
		t.Fatal(err)
	}
	v := got.Versions[0]
	if c := v.Choices[0]; c.Load.Kg() != 35 || c.Why != "their own choice" || c.Private != "a cold" {
		t.Errorf("front squats are %+v", c)
	}
	told := ""
	for _, a := range got.Attention {
		told += a.Why + "\n"
	}
	if !strings.Contains(told, "push-ups, which the sheet has no longer") {
		t.Errorf("told %q", told)
	}
	if o := got.Options[0]; o.Name != "As written" || len(o.People) != 1 || v.Option != o.Name {
		t.Errorf("she stands on %q of %+v", v.Option, got.Options)
	}
}

// TestByHandAndLimits: what somebody chose does not stand above what they told of their
// body since; a coach's word does, and the coach is told. Two thirds of it may be done.
func TestByHandAndLimits(t *testing.T) {
	g := open(t)
	s := g.session(t, "Nine\n2027-03-04, 60 min\n\neffort: 4-8 rounds, steady\n\nmain: as many rounds as possible in 12 min\n  9 front squats 60/42.5 kg\n  12 push-ups\n")
	piece, _ := s.Asked("")
	written := day.Stated(piece, roomful.DivisionA)
	gentle := written.Round[0]
	gentle.Load, gentle.Amount = roomful.Kg(40), 6
	ann := roomful.Athlete{ID: "ann", Name: "Ann", Division: roomful.DivisionA, MassKg: 80, Known: []roomful.Known{{Test: roomful.TestSquat, Value: 120}}, Limits: []roomful.Limit{{What: "knee", Pain: 4}}}
	for name, c := range map[string]struct {
		set  day.ByHand
		hand bool
		told string
	}{
		"her own choice": {day.ByHand{Athlete: "ann", Work: written, Written: written, Own: true}, false, "their own choice is not done: front squats; knee 4 of 10 today"},
		"a coach's word": {day.ByHand{Athlete: "ann", Work: written, Written: written, Whose: "Olu"}, true, "Olu's word has what hurts, ask them: front squats"},
		"two thirds":     {day.ByHand{Athlete: "ann", Work: written.With(0, gentle), Written: written, Own: true}, true, ""},
	} {
		got, err := g.Versions(t.Context(), day.Question{Session: s, People: []roomful.Athlete{ann}, Runs: 16, Seed: 1, ByHand: []day.ByHand{c.set}}, false)
		if err != nil {
			t.Fatal(err)
		}
		told := ""
		for _, a := range got.Attention {
			told += a.Why + "\n"
		}
		if v := got.Versions[0]; v.ByHand != c.hand || !strings.Contains(told, c.told) || c.told == "" && strings.Contains(told, "what hurts") {
			t.Errorf("%s: by hand %v, told %q", name, v.ByHand, told)
		}
	}
}

// TestReload types loads: those that the kit has are taken, and of others the nearest named.
func TestReload(t *testing.T) {
	g := open(t)
	kit := &roomful.Kit{Bars: []roomful.Stock{{Mass: roomful.Kg(20), Count: 1}}, Plates: []roomful.Stock{{Mass: roomful.Kg(5), Count: 2}, {Mass: roomful.Kg(2.5), Count: 2}}}
	w := roomful.Work{Round: []roomful.Task{{Movement: "front-squat", Amount: 9, Load: roomful.Kg(60)}, {Movement: "push-up", Amount: 12}}}
	for _, c := range []struct {
		of   roomful.MovementID
		load roomful.Mass
		kit  *roomful.Kit
		want string // of the refusal with its hint; empty when it is taken
	}{
		{"front-squat", roomful.Kg(35), kit, ""}, // 20 + 2 x 7.5
		{"front-squat", roomful.Kg(33), kit, "no barbell here is 33 kg|the nearest is 35 kg"},
		{"front-squat", roomful.Kg(33), nil, ""},
		{"front-squat", roomful.Lb(77.16), kit, ""}, // 35 kg within a rounding
		{"front-squat", roomful.Kg(0), nil, "none that is lifted"},
		{"front-squat", roomful.Kg(900), nil, "none that is lifted"},
		{"push-up", roomful.Kg(20), nil, "it has no push-up with one|what has a load is front squat"},
		{"nonsense", roomful.Kg(20), nil, "it has no nonsense with one"},
	} {
		got, err := g.Reload(w, c.of, c.load, c.kit)
		said := ""
		if err != nil {
			said = err.Error() + "|" + roomful.HintOf(err)
		}
		ok := c.want == "" && err == nil && got.Round[0].Load == c.load
		for part := range strings.SplitSeq(c.want, "|") {
			ok = ok || c.want != "" && strings.Contains(said, part)
		}
		if !ok {
			t.Errorf("%s at %s: %v, %q", c.of, c.load, got.Round, said)
		}
		if w.Round[0].Load.Kg() != 60 {
			t.Fatal("what they did before has changed")
		}
	}
}
