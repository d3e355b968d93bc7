package day_test

import (
	"strings"
	"testing"

	"roomful"
)

// TestHeavyThatWent: a load that went as meant lately stands in the band, though the
// version is lighter; one from long ago does not, and neither does one that nobody
// noted. The list of everybody's versions says the same.
func TestHeavyThatWent(t *testing.T) {
	t.Parallel()
	g := open(t)
	for _, c := range []struct {
		score string
		on    roomful.Date
		in    bool
	}{
		{"8+0 @ 55 kg", roomful.Date{Year: 2027, Month: 5, Day: 3}, true},
		{"8+0 @ 55 kg", roomful.Date{Year: 2027, Month: 5, Day: 31}, false}, // 91 days
		{"4+0 @ 55 kg", roomful.Date{Year: 2027, Month: 5, Day: 3}, false},
		{"8+0", roomful.Date{Year: 2027, Month: 5, Day: 3}, false},
	} {
		q := g.asking(t, again, tilde(), c.score)
		q.Session.Date = c.on
		q.Set = fives
		if o := g.heavy(t, q); (o.High == roomful.Kg(55)) != c.in || strings.Contains(o.Why, ", or the 55 kg of last time") != c.in {
			t.Errorf("%s, asked on %s: up to %s, load %s, why %q", c.score, c.on, o.High, o.Load, o.Why)
		}
		v, err := g.Versions(t.Context(), q.Question, false)
		if err != nil {
			t.Fatal(err)
		}
		if squat := v.Versions[0].Choices[0]; (squat.High == roomful.Kg(55)) != c.in {
			t.Errorf("%s, asked on %s: the list says up to %s", c.score, c.on, squat.High)
		}
	}
}

// TestHeavySets: of sets, the load is the score; what was missed is told.
func TestHeavySets(t *testing.T) {
	t.Parallel()
	g := open(t)
	const build, across = "strength: build to a heavy 3, 12 min\n  front squats\n", "strength: 5 x 5 @ 75 %\n  front squats\n"
	for _, c := range []struct{ piece, score, why string }{
		{build, "50", "no figure to hit: you built to 50 kg last time (2027-03-01)"},
		{build, "50 x 3 (55 no)", "no figure to hit: you built to 50 kg last time (2027-03-01) and missed 1"},
		{across, "45 45 45 45 45", "last time (2027-03-01)"},
		{across, "45 45 45 45 (47.5 no)", "you had 45 kg last time (2027-03-01) and missed 1"},
	} {
		who := tilde()
		who.Known = []roomful.Known{{Test: roomful.TestSquat, Value: 70}}
		q := g.askingAfter(t, "Rib\n2027-03-01, 60 min\n"+c.piece, "Rib Again\n2027-04-01, 60 min\nagain: Rib\n"+c.piece, who, c.score)
		o := g.heavy(t, q)
		if !strings.Contains(o.Why, c.why) || o.Last == nil || !o.Last.Sets {
			t.Errorf("%s after %q: why %q, want %q; %+v", c.piece, c.score, o.Why, c.why, o.Last)
		}
	}
}

// TestHeavyShort: where the discs do not do for everybody at once, somebody still reads
// what goes on theirs, and what is short.
func TestHeavyShort(t *testing.T) {
	t.Parallel()
	g := open(t)
	q := g.asking(t, again, tilde())
	q.Set = fives
	other := tilde()
	other.ID, other.Name = "other", "Other"
	q.People = []roomful.Athlete{q.Who, other}
	q.Kit = &roomful.Kit{Unit: roomful.Kilogram, Stations: map[string]int{"rig": 2},
		Bars: []roomful.Stock{{Mass: roomful.Kg(15), Count: 2}}, Plates: []roomful.Stock{{Mass: roomful.Kg(10), Count: 2}, {Mass: roomful.Kg(2.5), Count: 2}}}
	q.People[1].Known = []roomful.Known{{Test: roomful.TestSquat, Value: 75}}
	short := 0
	for _, q.Who = range q.People {
		o := g.heavy(t, q)
		holdBar(t, o)
		short += len(o.Short)
	}
	if short == 0 {
		t.Error("one pair of tens for two bars, and nothing is short")
	}
}
