package day_test

import (
	"slices"
	"strings"
	"testing"

	"roomful"
	"roomful/day"
)

// TestVersionsShareTheRack: eight people alike on snatches alone, four bells of
// their weight and plenty of the next: some take another, say why, and the whole
// class waits less; with eight bells nobody changes.
func TestVersionsShareTheRack(t *testing.T) {
	g := open(t)
	s := g.session(t, "Eight\n2027-03-04, 60 min\n\neffort: 60-200 reps, steady\n\nmain: as many rounds as possible in 10 min\n  20 dumbbell snatches 15/10 kg\n  5 push-ups\n")
	q := day.Question{Session: s, Runs: 32, Seed: 1}
	for _, name := range []string{"Ann", "Ben", "Cai", "Dot", "Eve", "Fay", "Gus", "Hal"} {
		q.People = append(q.People, roomful.Athlete{ID: name, Name: name, Division: roomful.DivisionA, MassKg: 80})
	}
	counts := func(n int) *roomful.Kit {
		return &roomful.Kit{Dumbbells: []roomful.Stock{{Mass: roomful.Kg(7.5), Count: n}, {Mass: roomful.Kg(10), Count: n}, {Mass: roomful.Kg(12.5), Count: n}, {Mass: roomful.Kg(15), Count: n}}}
	}
	held := func(kit *roomful.Kit) (of map[float64]int, said int, att []roomful.Attention) {
		q.Kit = kit
		v, err := g.Versions(t.Context(), q, false)
		if err != nil {
			t.Fatal(err)
		}
		of = map[float64]int{}
		for _, one := range v.Versions {
			c := one.Choices[0]
			of[c.Load.Kg()]++
			if strings.Contains(c.Why, "are taken: ") {
				said++
				if one.AsWritten || !c.Changed || one.Work.Round[0].Load != c.Load {
					t.Errorf("%s takes %s, but the version says otherwise: %+v", one.Name, c.Load, one)
				}
			}
		}
		return of, said, v.Attention
	}
	if of, said, _ := held(counts(8)); said != 0 {
		t.Errorf("with enough for all %d change: %v", said, of)
	}
	of, said, att := held(counts(4))
	for kg, n := range of {
		if n > 4 {
			t.Errorf("%d hold %g kg of 4", n, kg)
		}
	}
	asked := 0
	for _, a := range att {
		if strings.HasPrefix(a.Why, "ask: ") || strings.Contains(a.Why, " ask: ") {
			asked++
		}
	}
	if asked != 0 {
		t.Errorf("%d are asked, and yet another weight does as well for all: %v", asked, of)
	}
	if said != 4 {
		t.Errorf("%d of 8 take another weight, want the 4 for whom there is none: %v", said, of)
	}
}

// TestInTurnTold says in everybody's version what they will wait for: one box for
// four people at once.
func TestInTurnTold(t *testing.T) {
	g := open(t)
	s := g.session(t, "Steps\n2027-03-04, 60 min\n\nmain: 3 rounds for time\n  20 box step-ups 50 cm\n  10 push-ups\n")
	var people []roomful.Athlete
	for _, name := range []string{"Ann", "Ben", "Cai", "Dee"} {
		people = append(people, roomful.Athlete{ID: name, Name: name, Division: roomful.DivisionA})
	}
	v, err := g.Versions(t.Context(), day.Question{Session: s, People: people, Runs: 16, Seed: 1,
		Kit: &roomful.Kit{Boxes: []roomful.BoxStock{{HeightsCm: []float64{50}, Count: 1}}}}, false)
	if err != nil {
		t.Fatal(err)
	}
	for _, one := range v.Versions {
		if why := one.Choices[0].Why; !strings.HasSuffix(why, "in turn: box, 1 for 4") {
			t.Errorf("%s: box step-ups %q", one.Name, why)
		}
		if why := one.Choices[1].Why; strings.Contains(why, "in turn") {
			t.Errorf("%s: push-ups %q", one.Name, why)
		}
	}
}

// TestVersionsSwitch: six targets for thirteen who throw. Some take another option of
// the day; everybody reads why, who is asked stands in the coach's list, and the
// options say who does them.
func TestVersionsSwitch(t *testing.T) {
	g := open(t)
	all, err := g.Versions(t.Context(), g.question(g.session(t, g.sheets["the-clock-runs-fast"])), false)
	if err != nil {
		t.Fatal(err)
	}
	v := all.Pieces[len(all.Pieces)-1]
	moved := 0
	for _, one := range v.Versions {
		if one.Stop != "" {
			continue
		}
		c := one.Choices[0]
		asks := strings.Contains(c.Why, "wall-target, 6 for 13: is this all right today")
		if asks || strings.Contains(c.Why, "wall-target, 6 for 13: this does as well") {
			moved++
			if c.Movement == "wall-ball" {
				t.Errorf("%s still throws: %q", one.Name, c.Why)
			}
		}
		if listed := slices.ContainsFunc(v.Attention, func(a roomful.Attention) bool {
			return a.Athlete == one.Athlete && strings.HasPrefix(a.Why, "ask: ")
		}); listed != asks {
			t.Errorf("%s: asked %v, in the coach's list %v", one.Name, asks, listed)
		}
		if one.Work.All()[0].Movement != c.Movement || one.Forecast.Name != one.Name {
			t.Errorf("%s does %s, the work is %v and the forecast of %q", one.Name, c.Movement, one.Work.All(), one.Forecast.Name)
		}
		for _, o := range v.Options {
			if slices.Contains(o.People, one.Athlete) != (o.Name == one.Option) {
				t.Errorf("%s stands on %q, and in the list of %q", one.Name, one.Option, o.Name)
			}
		}
	}
	if moved == 0 {
		t.Error("nobody leaves the targets to others")
	}
}
