package demo_test

import (
	"strings"
	"testing"
	"time"

	"roomful"
	"roomful/exchange"
	"roomful/prior"
)

// TestPeople reads everyone without a complaint and finds the difficulties that
// the demo is there to show.
func TestPeople(t *testing.T) {
	people := everybody(t)
	if len(people) != howManyPeople {
		t.Errorf("%d people, want %d", len(people), howManyPeople)
	}
	shown := map[string]func(roomful.Athlete) bool{
		"a sore back":      func(a roomful.Athlete) bool { return a.Has("back") },
		"a sore knee":      func(a roomful.Athlete) bool { return a.Has("knee") },
		"a pregnancy":      func(a roomful.Athlete) bool { return a.Has("pregnant") },
		"a return":         func(a roomful.Athlete) bool { return a.Has("returning") },
		"someone under 18": func(a roomful.Athlete) bool { years, ok := a.Age(today); return ok && years < 18 },
		"someone over 65":  func(a roomful.Athlete) bool { years, ok := a.Age(today); return ok && years > 65 },
		"pounds":           func(a roomful.Athlete) bool { return a.Unit == roomful.Pound },
		"a home":           func(a roomful.Athlete) bool { return a.Home != nil },
		"a likeness":       func(a roomful.Athlete) bool { return a.Like != "" },
		"a sore shoulder":  func(a roomful.Athlete) bool { return a.Has("shoulder") },
		"a sore wrist":     func(a roomful.Athlete) bool { return a.Has("wrist") },
		"no impact":        func(a roomful.Athlete) bool { return a.Has("impact") },
		"a stop":           func(a roomful.Athlete) bool { return a.Has("stop") },
		"a bar at home":    func(a roomful.Athlete) bool { return a.Home != nil && len(a.Home.Bars) > 0 && len(a.Home.Plates) > 0 },
		"a kettlebell":     func(a roomful.Athlete) bool { return a.Home != nil && len(a.Home.Kettlebells) > 0 },
		"a rope":           func(a roomful.Athlete) bool { return a.Home != nil && a.Home.Ropes > 0 },
		"a machine":        func(a roomful.Athlete) bool { return a.Home != nil && a.Home.Stations["row"] > 0 },
		"a low ceiling":    func(a roomful.Athlete) bool { return a.Home != nil && a.Home.CeilingM > 0 },
		"a quiet home":     func(a roomful.Athlete) bool { return a.Home != nil && a.Home.Quiet },
		"every figure":     func(a roomful.Athlete) bool { return len(a.Known) == 14 },
		"nothing but a name": func(a roomful.Athlete) bool {
			return a.Born.Year == 0 && a.MassKg == 0 && a.Months == nil && len(a.Known) == 0 && a.Like == ""
		},
	}
	for _, a := range people {
		for what, is := range shown {
			if is(a) {
				delete(shown, what)
			}
		}
	}
	for what := range shown {
		t.Errorf("nobody in people.csv shows %s", what)
	}
}

// TestDoubts finds no figures that contradict each other but the one that is
// there on purpose.
func TestDoubts(t *testing.T) {
	lex := movements(t)
	for _, a := range everybody(t) {
		said := prior.Doubts(a, lex, today)
		if a.Name == "Fenna" {
			if len(said) != 1 || !strings.Contains(said[0], "2 km row") {
				t.Errorf("Fenna's row should be doubted, got %q", said)
			}
			continue
		}
		for _, d := range said {
			t.Errorf("%s: %s", a.Name, d)
		}
	}
}

// today is the day the people file tells of.
var today = roomful.Date{Year: 2027, Month: time.February, Day: 1}

// everybody reads the people without a complaint.
func everybody(t *testing.T) []roomful.Athlete {
	t.Helper()
	people, ds := exchange.ReadPeople(strings.NewReader(read(t, "people.csv")), movements(t), today)
	for _, d := range ds {
		t.Errorf("people.csv:%d:%d: %s: %s", d.Range.Start.Line, d.Range.Start.Column, d.Summary, d.Hint)
	}
	return people
}
