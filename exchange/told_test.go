package exchange_test

import (
	"maps"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/exchange"
)

// TestTold changes what somebody told, a column at a time, and leaves the rest.
func TestTold(t *testing.T) {
	lex := movements(t)
	today := roomful.Date{Year: 2027, Month: 3, Day: 4}
	start, ds := exchange.ReadPeople(strings.NewReader("id,name,division,born,mass_kg,squat_lb,skills,home,unlisted\nw,Wren,b,1990-05-01,61.5,150,pull-up:some,band; rope,yes\no,Odo,a,,,,,?,\n"), lex, today)
	if len(ds) > 0 || len(start) != 2 {
		t.Fatal(ds)
	}
	wren := start[0]
	told := exchange.ToldOf(wren)
	for column, want := range map[string]string{"name": "Wren", "division": "b", "born": "1990-05-01", "mass_kg": "61.5", "unlisted": "yes"} {
		if told[column] != want {
			t.Errorf("%s is told as %q", column, told[column])
		}
	}
	if _, ok := exchange.ToldOf(start[1])["home"]; ok {
		t.Error("a home that was not told of is told")
	}
	same, ds := exchange.Tell(wren, nil, start, lex, today)
	if diff := cmp.Diff(wren, same); diff != "" || len(ds) > 0 {
		t.Errorf("nothing told, and %s %v", diff, ds)
	}
	next, ds := exchange.Tell(wren, map[string]string{"squat_kg": "70", "mass_kg": "", "unlisted": "", "like": "odo"}, start, lex, today)
	if len(ds) > 0 {
		t.Fatal(ds)
	}
	want := maps.Clone(told)
	delete(want, "mass_kg")
	delete(want, "unlisted")
	delete(want, "squat_lb")
	want["squat_kg"], want["like"] = "70", "Odo"
	got := exchange.ToldOf(next)
	delete(got, "squat_lb")
	delete(want, "squat_lb")
	if v, _ := next.Measured(roomful.TestSquat); v != 70 {
		t.Errorf("a squat of %v kg", v)
	}
	for _, column := range []string{"like", "born", "skills", "home"} {
		if got[column] != want[column] {
			t.Errorf("%s is %q, want %q", column, got[column], want[column])
		}
	}
	if next.MassKg != 0 || next.Unlisted {
		t.Errorf("still %v kg, unlisted %v", next.MassKg, next.Unlisted)
	}
	for column, bad := range map[string]string{"division": "c", "mass_kg": "9000", "like": "Nobody", "nonsense": "1", "unlisted": "perhaps", "born": "2031"} {
		if _, ds := exchange.Tell(wren, map[string]string{column: bad}, start, lex, today); len(ds) == 0 {
			t.Errorf("%s %q is told without a word", column, bad)
		}
	}
}

// TestToldColumn: each fault is said of the column that it stands in.
func TestToldColumn(t *testing.T) {
	lex := movements(t)
	was := roomful.Athlete{ID: "mo", Name: "Mo, \"the ü\"", Known: []roomful.Known{{Test: roomful.TestSquat, Value: 100}}}
	for column, value := range map[string]string{"press_kg": "heavy", "row_2k": "8:99", "skills": "pull-up:best", "born": "soon", "home": "2x dumbbell; rope", "unit": "stone", "division": "c", "like": "Mo"} {
		sent := map[string]string{column: value, "height_cm": "170"}
		_, ds := exchange.Tell(was, sent, nil, lex, roomful.Date{Year: 2027, Month: 3, Day: 4})
		if len(ds) == 0 {
			t.Errorf("%s %q is no fault", column, value)
		}
		for _, d := range ds {
			if got := exchange.ToldColumn(was, sent, d); got != column {
				t.Errorf("%q: said of %s, want %s", d.Summary, got, column)
			}
		}
	}
}
