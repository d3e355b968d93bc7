package day_test

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"

	"roomful"
	"roomful/day"
)

// learnt learns from scores of the chipper, one a day from the first of March.
func learnt(t *testing.T, who roomful.Athlete, today roomful.Date, texts ...string) (day.Learnt, *roomful.Abilities) {
	t.Helper()
	got, _ := record(t, who, chipper, texts...)
	all, err := open(t).Learn(t.Context(), day.LearnQuestion{People: []roomful.Athlete{who, {ID: "2", Name: "Marit", Division: roomful.DivisionB}}, Record: got, Today: today, Seed: 1})
	if err != nil {
		t.Fatal(err)
	}
	return all, all.Abilities[who.ID]
}

var odo = roomful.Athlete{ID: "1", Name: "Odo", Division: roomful.DivisionA, MassKg: 82}

// TestLearn has a fast score raise oxygen, a slow one lower it, and name the sheet
// it was learnt from.
func TestLearn(t *testing.T) {
	today := roomful.Date{Year: 2027, Month: 3, Day: 10}
	at := func(text string) float64 {
		_, a := learnt(t, odo, today, text)
		v, _ := a.Median(roomful.CapVO2max)
		return v
	}
	fast, slow := at("7:30 as written"), at("10:30 as written")
	if fast < slow*1.1 {
		t.Errorf("oxygen %v after a fast score, %v after a slow one", fast, slow)
	}
	_, a := learnt(t, odo, today, "10:30 as written")
	if by := a.Dims[a.Index(roomful.CapVO2max)].Informed; !slices.Contains(by, "Chipper, 2027-03-01") {
		t.Errorf("oxygen was informed by %q", by)
	}
}

// TestLearnLightLoad leaves the maximum of a swing as wide as it was when the bell
// is light: it says next to nothing about the heaviest.
func TestLearnLightLoad(t *testing.T) {
	today := roomful.Date{Year: 2027, Month: 3, Day: 10}
	_, before := learnt(t, odo, today)
	_, after := learnt(t, odo, today, "11:00 with 8 kg, ring rows", "10:50 with 8 kg, ring rows")
	c := roomful.OneRM(roomful.Deadlift)
	if was, is := before.SD(c), after.SD(c); is < 0.9*was {
		t.Errorf("after light swings the deadlift is known to %.3f, before to %.3f", is, was)
	}
}

// TestLearnLeavesOut says why a score was not learnt from.
func TestLearnLeavesOut(t *testing.T) {
	all, _ := learnt(t, odo, roomful.Date{Year: 2027, Month: 3, Day: 2}, "cap+12", "light", "10:30 as written")
	var why []string
	for _, l := range all.Left {
		why = append(why, l.Why)
	}
	if len(why) != 2 || !strings.HasPrefix(why[0], "a question is open") || !strings.Contains(why[1], "score") {
		t.Errorf("left out %q; the third is of a later day and counts for nothing", why)
	}
}

// TestLearnWorkers gives the same abilities on any number of workers.
func TestLearnWorkers(t *testing.T) {
	g := open(t)
	got, _ := record(t, odo, chipper, "10:30 as written", "11:30 green band", "12:00 with 16 kg")
	ask := func(workers int) map[string]*roomful.Abilities {
		all, err := g.Learn(t.Context(), day.LearnQuestion{People: []roomful.Athlete{odo}, Record: got, Seed: 1, Workers: workers})
		if err != nil {
			t.Fatal(err)
		}
		return all.Abilities
	}
	one, three := ask(1), ask(3)
	if !maps.EqualFunc(one, three, func(a, b *roomful.Abilities) bool {
		return slices.EqualFunc(a.Dims, b.Dims, func(x, y roomful.Dim) bool {
			return x.Centre == y.Centre && slices.Equal(x.Loads, y.Loads) && slices.Equal(x.Informed, y.Informed)
		})
	}) {
		t.Error("one worker and three do not learn the same")
	}
}

// TestLearnPerson learns the same of one person by themselves as among all, once the
// gym's scores have been learnt from.
func TestLearnPerson(t *testing.T) {
	today := roomful.Date{Year: 2027, Month: 3, Day: 10}
	marit := roomful.Athlete{ID: "2", Name: "Marit", Division: roomful.DivisionB}
	people := []roomful.Athlete{odo, marit}
	records := map[string]roomful.Record{}
	records["1"], _ = record(t, odo, chipper, "10:30 as written", "10:05 as written")
	records["2"], _ = record(t, marit, chipper, "9:40 as written")
	d := open(t)
	lessons := map[string]day.Lesson{}
	taught, err := d.LearnGym(t.Context(), day.GymQuestion{People: people, Today: today, Seed: 1, Most: 400,
		Record: func(id string) (roomful.Record, error) { return records[id], nil }},
		func(l day.Lesson) error { lessons[l.Person] = l; return nil })
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range people {
		own := lessons[a.ID]
		got, err := d.LearnPerson(t.Context(), day.PersonQuestion{Who: a, People: people, Record: records[a.ID], Today: today, Seed: 1,
			Taught: day.Taught{By: taught.By, Shift: own.Shift}})
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(own, got, cmpopts.EquateNaNs()); diff != "" {
			t.Errorf("%s (-among all +alone)\n%s", a.Name, diff)
		}
	}
}
