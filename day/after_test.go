package day_test

import (
	"math"
	"strings"
	"testing"

	"roomful"
	"roomful/day"
)

// windowed is the chipper with a window of 10 to 12 minutes.
const windowed = `Chipper
2027-03-01, 60 min

effort: 10-12 min

main: 3 rounds for time, cap 15 min
  400 m run
  12 kettlebell swings 24/16 kg
  8 pull-ups
`

// TestAfter counts who ended in the window, which ends just before 12:01, and names
// who was furthest outside it first.
func TestAfter(t *testing.T) {
	g := open(t)
	session := g.session(t, windowed)
	q := day.RecordQuestion{Sheets: map[string]roomful.Session{"chipper": session}}
	for i, text := range []string{"10:00 as written", "12:00 as written", "12:30 as written", "9:00 as written", "14:30 with 28 kg", "TC, 6 left", "cap+6"} {
		id := string(rune('a' + i))
		q.People = append(q.People, roomful.Athlete{ID: id, Name: id, Division: roomful.DivisionA})
		q.Logged = append(q.Logged, roomful.Logged{Athlete: id, Sheet: "chipper", Text: text, Line: i + 2})
	}
	record, unread := g.Record(q)
	if len(unread) > 0 {
		t.Fatal(unread)
	}
	all, err := g.After(t.Context(), day.Question{Session: session, People: q.People, Runs: 64, Seed: 1}, "chipper", record)
	if err != nil {
		t.Fatal(err)
	}
	a := all[0]
	if a.Scored != 6 || a.Within != 2 || math.Abs(a.Middle-735) > 1e-9 || len(a.Open) != 1 {
		t.Errorf("%d scored, %d within, middle %v, %d open; want 6, 2, 735 and 1", a.Scored, a.Within, a.Middle, len(a.Open))
	}
	var far string
	for _, f := range a.Far {
		far += f.Name
	}
	// 15:00 is 24.8 % above 12:01, 14:30 20.7 %, 9:00 10 % under 10:00; 12:30 is not named.
	if far != "fed" || a.Far[0].Why != "met the cap" || a.Far[2].Off <= 0 {
		t.Errorf("far off %s: %+v", far, a.Far)
	}
}

// TestAfterDirection explains too little by a heavier bell and too much by a lighter
// one, and never the other way round. As much as is written is proposed to them, 24 kg.
func TestAfterDirection(t *testing.T) {
	g := open(t)
	session := g.session(t, windowed)
	q := day.RecordQuestion{Sheets: map[string]roomful.Session{"chipper": session}}
	for i, text := range []string{"14:30 with 32 kg", "7:30 with 32 kg", "14:30 with 4 kg", "7:30 with 4 kg"} {
		id := string(rune('a' + i))
		a := roomful.Athlete{ID: id, Name: id, Division: roomful.DivisionA}
		record, unread := g.Record(day.RecordQuestion{Sheets: q.Sheets, People: []roomful.Athlete{a}, Logged: []roomful.Logged{{Athlete: id, Sheet: "chipper", Text: text, Line: 2}}})
		if len(unread) > 0 {
			t.Fatal(unread)
		}
		all, err := g.After(t.Context(), day.Question{Session: session, People: []roomful.Athlete{a}, Runs: 64, Seed: 1}, "chipper", record)
		if err != nil {
			t.Fatal(err)
		}
		named := strings.Contains(all[0].Far[0].Why, "kettlebell swings with")
		if want := i == 0 || i == 3; named != want {
			t.Errorf("%s: %q", text, all[0].Far[0].Why)
		}
	}
}
