package version_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"roomful"
	"roomful/version"
)

// TestLimits chooses among what is safe. A pain of 3 may keep two thirds of a
// load; from 4 on the movement is swapped; and where the swap leaves the piece too
// easy, more of it fills the window (1.3 to 1.5 for a load that is lost is common
// practice, no source; up to twice for what weighs nothing).
func TestLimits(t *testing.T) {
	swings := roomful.Part{Kind: roomful.Main, Scored: true, Format: roomful.RoundsInTime{Window: 10 * time.Minute},
		Round: []roomful.Element{reps("deadlift", 8, roomful.Masses{roomful.Kg(80), roomful.Kg(55)}), reps("box-jump", 6, nil)}}
	for _, c := range []struct {
		name      string
		pain      int
		low, high float64
		want      string
	}{
		// By the toy's rule a round takes 49 s, and cut to 5 at 35 kg 33 s.
		{"nothing hurts", 0, 12, 18, "deadlift 8 55 kg, box-jump 6"},
		{"3 of 10 keeps two thirds of the load and the repetitions", 3, 12, 19, "deadlift 5 35 kg, box-jump 6"},
		{"4 of 10 does something else, for the same time", 4, 13, 17, "bridge 12, box-jump 6"},
		{"4 of 10, where that is too quick: half as much again", 4, 9, 11, "bridge 18, box-jump 6"},
	} {
		t.Run(c.name, func(t *testing.T) {
			q := day(somebody("Ola", limit("back", c.pain)))
			q.Piece, q.Effort = swings, roomful.Effort{Low: c.low, High: c.high, Unit: "rounds"}
			v := propose(t, q).Versions[0]
			if told(v) != c.want || !q.Effort.Holds(v.Forecast.Score.P50) {
				t.Errorf("%.1f rounds of %s, want %s", v.Forecast.Score.P50, told(v), c.want)
			}
			if s := v.Choices[0].Why; c.pain >= 3 && (!strings.HasSuffix(s, " today") || strings.Contains(s, "agreed")) {
				t.Errorf("why: %q", s)
			}
		})
	}
}

// TestSore lists everybody whom something hurts by 3 or more, or who told no
// figure, after those under 18 and the pregnant and before the rest.
func TestSore(t *testing.T) {
	got := propose(t, day(
		somebody("Bea", limit("returning", -1)), somebody("Cem", limit("knee", 2)), somebody("Dot", limit("wrist", 3)),
		somebody("Eli", limit("elbow", -1)), somebody("Fay", limit("pregnant", -1)),
	))
	var who []string
	for _, a := range got.Attention {
		if !slices.Contains(who, a.Name) {
			who = append(who, a.Name)
		}
	}
	if !slices.Equal(who, []string{"Fay", "Dot", "Eli", "Bea"}) {
		t.Errorf("attention for %q", who)
	}
	for i, want := range map[int]string{
		1: "Wrist 3 of 10 today: ask before the ramp. Two thirds of the front squats.",
		2: "Elbow, no figure told: ask before the ramp. Nothing in this piece is changed for it.",
	} {
		if got.Attention[i].Why != want {
			t.Errorf("%s: %q, want %q", got.Attention[i].Name, got.Attention[i].Why, want)
		}
	}
}

// TestSoreOnAnOption says what an option changes for somebody who hurts, where the limit
// would have changed it in any case. Whose limit has no part in it is told so.
func TestSoreOnAnOption(t *testing.T) {
	got := propose(t, day(
		somebody("Ada", noPullUps), somebody("Bo", noPullUps), somebody("Cy", noPullUps),
		somebody("Dot", limit("shoulder", 4)),
		somebody("Eli", func(p *version.Person) { noPullUps(p); limit("elbow", 4)(p) }),
	))
	for name, want := range map[string]struct{ why, private string }{
		"Dot": {"Shoulder 4 of 10 today: ask before the ramp. Ring rows instead of pull-ups.", "shoulder 4 of 10 today: nothing overhead, no hard pull on the shoulder"},
		"Eli": {"Elbow 4 of 10 today: ask before the ramp. Nothing in this piece is changed for it.", ""},
	} {
		i := slices.IndexFunc(got.Versions, func(v roomful.Version) bool { return v.Name == name })
		pull := got.Versions[i].Choices[2]
		if pull.Movement != "ring-row" || got.Versions[i].OneOff {
			t.Fatalf("%s does %s, one-off %v: the option should ask it", name, pull.Movement, got.Versions[i].OneOff)
		}
		if pull.Private != want.private {
			t.Errorf("%s: private %q, want %q", name, pull.Private, want.private)
		}
		i = slices.IndexFunc(got.Attention, func(a roomful.Attention) bool { return a.Name == name })
		if got.Attention[i].Why != want.why {
			t.Errorf("%s: %q, want %q", name, got.Attention[i].Why, want.why)
		}
	}
}

// TestPair offers a pair of dumbbells only to who has one: a dumbbell at home is
// one unless two are told.
func TestPair(t *testing.T) {
	home := func(n int) func(*version.Person) {
		return func(p *version.Person) {
			p.Athlete.Home = &roomful.Kit{Home: true, Dumbbells: []roomful.Stock{{Mass: roomful.Kg(12.5), Count: n}}}
		}
	}
	q := day(somebody("One", home(1)), somebody("Two", home(2)))
	q.Home = true
	q.Effort = roomful.Effort{}
	q.Piece = roomful.Part{Kind: roomful.Main, Scored: true, Format: roomful.ForTime{Rounds: 3},
		Round: []roomful.Element{reps("dumbbell-front-squat", 10, roomful.Masses{roomful.Kg(15)})}}
	got := propose(t, q).Versions
	if c := got[0].Choices[0]; c.Movement != "dumbbell-goblet-squat" || c.Implements > 1 || c.Load != roomful.Kg(12.5) ||
		!strings.HasPrefix(c.Why, "no pair of dumbbells at home") {
		t.Errorf("with one: %d x %s %s, %q", c.Implements, c.Load, c.Movement, c.Why)
	}
	if c := got[1].Choices[0]; c.Movement != "dumbbell-front-squat" || c.Implements != 2 || c.Load != roomful.Kg(12.5) {
		t.Errorf("with two: %d x %s %s, %q", c.Implements, c.Load, c.Movement, c.Why)
	}
}

// TestNearestPair takes the nearest load there is a pair of, and says so.
func TestNearestPair(t *testing.T) {
	q := day(somebody("Pat", func(p *version.Person) { p.Abilities = able(120, 180, 12, 44) }))
	q.Kit = &roomful.Kit{Dumbbells: []roomful.Stock{{Mass: roomful.Kg(15), Count: 1}, {Mass: roomful.Kg(12.5), Count: 2}}}
	q.Effort = roomful.Effort{}
	q.Piece = roomful.Part{Kind: roomful.Main, Scored: true, Format: roomful.ForTime{Rounds: 3},
		Round: []roomful.Element{reps("dumbbell-front-squat", 10, roomful.Masses{roomful.Kg(15)})}}
	if c := propose(t, q).Versions[0].Choices[0]; c.Implements != 2 || c.Load != roomful.Kg(12.5) || c.Why != "12.5 kg is the nearest pair here" {
		t.Errorf("%d x %s, %q", c.Implements, c.Load, c.Why)
	}
}

// TestDivisions shows an option with the figures of both divisions when people of
// both stand on it, and with those of one when they do not.
func TestDivisions(t *testing.T) {
	weak := func(d roomful.Division) func(*version.Person) {
		return func(p *version.Person) { p.Athlete.Division, p.Abilities = d, able(50, 100, 30, 46) }
	}
	loads := func(ts []roomful.Task) (out []string) {
		for _, t := range ts {
			if t.Movement == "front-squat" {
				out = append(out, t.Load.String())
			}
		}
		return out
	}
	got := propose(t, day(somebody("Ann", nil), somebody("Bob", weak(roomful.DivisionA)), somebody("Cat", weak(roomful.DivisionB))))
	if len(got.Options) != 2 || got.Options[1].Name != "Lighter" {
		t.Fatalf("options %v", got.Options)
	}
	written, lighter := got.Options[0], got.Options[1]
	if a, b := loads(written.Elements), loads(written.Second); !slices.Equal(a, []string{"60 kg"}) || !slices.Equal(b, []string{"42.5 kg"}) {
		t.Errorf("as written: %v and %v", a, b)
	}
	bob, cat := got.Versions[1].Choices[1].Load.String(), got.Versions[2].Choices[1].Load.String()
	if a, b := loads(lighter.Elements), loads(lighter.Second); bob == cat || !slices.Equal(a, []string{bob}) || !slices.Equal(b, []string{cat}) {
		t.Errorf("lighter: %v and %v, they use %s and %s", a, b, bob, cat)
	}
	alone := propose(t, day(somebody("Cat", weak(roomful.DivisionB))))
	if o := alone.Options[1]; o.Second != nil || !slices.Equal(loads(o.Elements), []string{"35 kg"}) {
		t.Errorf("one division: %v and %v", o.Elements, o.Second)
	}
}

// TestShares leaves an option's share of a maximum as it is written.
func TestShares(t *testing.T) {
	q := day(somebody("Ann", nil), somebody("Bob", func(p *version.Person) { p.Abilities = able(120, 180, 12, 44) }))
	q.Effort = roomful.Effort{}
	q.Piece = roomful.Part{Kind: roomful.Strength, Scored: true, Format: roomful.Sets{Count: 5},
		Round: []roomful.Element{reps("front-squat", 5, roomful.Percent(75))}}
	if e := propose(t, q).Options[0].Elements[0]; e.Percent != 75 || e.Load.Value != 0 {
		t.Errorf("%+v", e)
	}
}

// TestProposedAsksNoMore gives nobody more than is written when it was not the
// sheet that set the window, and calls nobody who is merely quick.
func TestProposedAsksNoMore(t *testing.T) {
	q := day(somebody("Val", func(p *version.Person) { p.Abilities = able(80, 130, 30, 50) }))
	q.Effort.Fresh, q.Effort.Low, q.Effort.High, q.Effort.Proposed = nil, 2, 3, true
	got := propose(t, q)
	if v := got.Versions[0]; v.Option != "As written" || len(got.Attention) > 0 {
		t.Errorf("on %q, attention %v", v.Option, got.Attention)
	}
}

// TestNothingSoLight leaves a sore line out when the lightest there is is still
// more than two thirds of what is written: one bell of 24 kg for a swing at 24.
func TestNothingSoLight(t *testing.T) {
	q := day()
	q.Kit = &roomful.Kit{Kettlebells: []roomful.Stock{{Mass: roomful.Kg(24), Count: 8}}}
	p := version.Person{Athlete: roomful.Athlete{ID: "a", Name: "Ann", Months: months(24), Limits: []roomful.Limit{{What: "back", Pain: -1}}}, Abilities: able(25, 48.5, 1, 28)}
	q.Effort.Low, q.Effort.High = 2, 2 // a slow piece, which leaving swings in would serve
	for _, d := range []roomful.Division{roomful.AnyDivision, roomful.DivisionA, roomful.DivisionB} {
		p.Athlete.Division = d
		q.People = []version.Person{p}
		for _, c := range propose(t, q).Versions[0].Choices {
			if c.Movement == "kettlebell-swing" {
				t.Errorf("division %s does %v %s at %s with a sore back", d, c.Amount, c.Movement, c.Load)
			}
		}
	}
}
