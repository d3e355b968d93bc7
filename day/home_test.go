package day_test

import (
	"slices"
	"strings"
	"testing"

	"roomful"
)

// TestHomeOwned: who has not got what is asked for takes the same movement with
// what they own, before a backpack: Yusra has kettlebells of 12 and 16 kg, Thabo a
// bar, and nobody is sent to a lift that has to be learnt.
func TestHomeOwned(t *testing.T) {
	g := open(t)
	for _, c := range []struct {
		sheet, name, piece string
		want, not          []roomful.MovementID
	}{
		{"linseed", "Yusra", "strength", []roomful.MovementID{"kettlebell-row", "kettlebell-press"}, []roomful.MovementID{"backpack-row"}},
		{"linseed", "Thabo", "strength", []roomful.MovementID{"press"}, []roomful.MovementID{"pike-push-up"}},
		{"ferrule", "Yusra", "main b", []roomful.MovementID{"kettlebell-swing"}, []roomful.MovementID{"kettlebell-snatch"}},
		{"ferrule", "Thabo", "main b", nil, []roomful.MovementID{"snatch"}},
	} {
		q := g.question(g.session(t, g.sheets[c.sheet]))
		q.Piece, q.Runs = c.piece, 8
		q.People = slices.DeleteFunc(slices.Clone(q.People), func(a roomful.Athlete) bool { return a.Name != c.name })
		got, err := g.Versions(t.Context(), q, true)
		if err != nil {
			t.Fatal(err)
		}
		var does []roomful.MovementID
		for _, one := range got.Versions[0].Choices {
			does = append(does, one.Movement)
		}
		for _, id := range c.want {
			if !slices.Contains(does, id) {
				t.Errorf("%s, %s: %v, want %s", c.sheet, c.name, does, id)
			}
		}
		for _, id := range c.not {
			if slices.Contains(does, id) {
				t.Errorf("%s, %s: %v, with %s", c.sheet, c.name, does, id)
			}
		}
	}
}

// TestBuildBlind: a build to a heaviest set of a lift of which nothing is known
// becomes sets at a light load, the coach is told, and confidence is low; a guess
// from somebody alike is not called sure.
func TestBuildBlind(t *testing.T) {
	g := open(t)
	q := g.question(g.session(t, g.sheets["crook-handle"]))
	q.Piece = "strength"
	got, err := g.Versions(t.Context(), q, false)
	if err != nil {
		t.Fatal(err)
	}
	told := map[string]bool{}
	for _, a := range got.Attention {
		told[a.Name] = told[a.Name] || strings.HasPrefix(a.Why, "No maximum known")
	}
	for _, v := range got.Versions {
		switch v.Name {
		case "Jun", "Aziza", "Mirela", "Nell":
			if !v.Dose.Steady || v.Confidence != roomful.Low || !told[v.Name] || v.Choices[0].Load.Kg() > 60 {
				t.Errorf("%s: steady %v, %s confidence, told %v, %s", v.Name, v.Dose.Steady, v.Confidence, told[v.Name], v.Choices[0].Load)
			}
		case "Kwabena":
			if v.Dose.Steady || v.Confidence != roomful.High {
				t.Errorf("Kwabena: steady %v, %s confidence", v.Dose.Steady, v.Confidence)
			}
		case "Ottilie": // like Pia
			if v.Confidence == roomful.High {
				t.Error("Ottilie: high confidence in a load taken from somebody else")
			}
		}
	}
}

// TestSparedLoad: what stands in for something that hurts is light: not the
// heaviest bell of the house for a back that hurts.
func TestSparedLoad(t *testing.T) {
	g := open(t)
	q := g.question(g.session(t, g.sheets["the-tall-gamp"]))
	q.Piece = "strength"
	got, err := g.Versions(t.Context(), q, false)
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range got.Versions {
		if v.Name == "Teodor" && v.Choices[0].Load.Kg() > 24 {
			t.Errorf("Teodor, back 4 of 10: %s at %s", v.Choices[0].Movement, v.Choices[0].Load)
		}
	}
}
