package exchange_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/exchange"
	"roomful/room"
)

func TestReadBars(t *testing.T) {
	q, ds := exchange.ReadBars(strings.NewReader(`{"bars": [
		{"name": "Å", "bar": 20, "target": 62.512345678901234, "ceiling": 65, "weight": 2e0},
		{"name": "Pia", "unit": "lb", "bar": 45, "target": 135, "ceiling": null,
		 "previous": [{"mass": 45, "unit": "lb", "colour": null}]}],
	 "plates": [{"mass": 20, "count": 8}, {"mass": 45, "unit": "lb", "count": 2}],
	 "sleeve_plates": 6, "collars": 5, "most_under": 10, "unit": "kg"}`))
	want := roomful.BarQuestion{
		Plates:       []roomful.Stock{{Mass: roomful.Kg(20), Count: 8}, {Mass: roomful.Lb(45), Count: 2}},
		SleevePlates: 6, Collars: roomful.Kg(5), MostUnder: roomful.Kg(10),
		Wanted: []roomful.WantedBar{
			{Name: "Å", Bar: roomful.Kg(20), Target: roomful.Kg(62.512345678901234), Ceiling: roomful.Kg(65), Weight: 2},
			{Name: "Pia", Bar: roomful.Lb(45), Target: roomful.Lb(135), Weight: 1, Previous: []roomful.Mass{roomful.Lb(45)}},
		},
	}
	if diff := cmp.Diff(want, q); diff != "" || len(ds) > 0 {
		t.Error(diff, spots(ds))
	}
}

// TestBarsDiagnostics refuses what cannot be meant, at its place, with the next
// step; nothing is guessed.
func TestBarsDiagnostics(t *testing.T) {
	bar := func(rest string) string { return `{"plates":[],"bars":[{"name":"Odo",` + rest + `}]}` }
	plate := func(rest string) string {
		return `{"bars":[{"name":"Odo","bar":20,"target":60}],"plates":[{` + rest + `}]}`
	}
	for _, c := range []struct{ name, text, want string }{
		{"nothing", "", `1:1-1 error: the question is empty | write {"plates": […], "bars": […]}`},
		{"a list", "[]", `1:1-2 error: a list of keys was expected here | write key: value lines`},
		{"no plates", `{"bars":[{"name":"Odo","bar":20,"target":60}]}`, `1:1-1 error: the plates are missing | write "plates": [], if there are none`},
		{"no bars", `{"plates":[]}`, `1:1-1 error: no bar is asked for | write "bars": [{"name": "Marit", "bar": 20, "target": 62.5}]`},
		{"empty bars", `{"plates":[],"bars":[]}`, `1:1-1 error: no bar is asked for | write "bars": [{"name": "Marit", "bar": 20, "target": 62.5}]`},
		{"no target", bar(`"bar":20`), `1:22-23 error: Odo: "target" is missing | say the load in all, such as "target": 62.5`},
		{"no bar", bar(`"target":20`), `1:22-23 error: Odo: "bar" is missing | say what the bare bar weighs, such as "bar": 20`},
		{"negative", bar(`"bar":20,"target":-5`), `1:54-56 error: target is below zero | leave it out when there is none`},
		{"no number", bar(`"bar":20,"target":NaN`), `1:54-57 error: target is not a number | write a plain number`},
		{"endless", bar(`"bar":20,"target":1e999`), `1:54-59 error: target 1e999 cannot be right | it lies between 0 and 2500`},
		{"heavy", bar(`"bar":20,"target":1e9`), `1:54-57 error: target 1e9 cannot be right | it lies between 0 and 2500`},
		{"too low a ceiling", bar(`"bar":20,"target":20,"ceiling":15`), `1:22-23 error: Odo: the bare bar of 20 kg is above the ceiling of 15 kg | take a lighter bar or raise the ceiling`},
		{"a ceiling of 0", bar(`"bar":20,"target":20,"ceiling":0`), `1:22-23 error: Odo: a ceiling of 0 | leave the ceiling out when there is none`},
		{"unknown", bar(`"bar":20,"targte":20`), `1:45-51 error: key "targte" is not known | did you mean target?`},
		{"twice a key", bar(`"bar":20,"bar":15`), `1:45-48 error: the question is not JSON: mapping key "bar" already defined at [1:36] | check the commas, the quotes and the brackets`},
		{"twice a name", `{"plates":[],"bars":[{"name":"Odo","bar":20,"target":60},{"name":"Odo","bar":20,"target":60}]}`, `1:58-59 error: two bars are called "Odo" | give each bar its own name`},
		{"half a disc", plate(`"mass":20,"count":2.5`), `1:76-79 error: count 2.5 is not a whole number | write a whole number`},
		{"discs without end", plate(`"mass":20,"count":1000000`), `1:76-83 error: count 1000000 cannot be right | it lies between 0 and 10000`},
		{"uncounted", plate(`"mass":20`), `1:57-58 error: how many discs of 20 kg there are is missing | write {"mass": 20, "count": 8}, counting single pieces`},
		{"weightless", plate(`"count":2`), `1:57-58 error: a disc without a mass | write {"mass": 20, "count": 8}`},
		{"share", bar(`"bar":20,"target":20,"share":1`), `1:65-66 error: neither true nor false | write true or false`},
		{"stone", plate(`"mass":2,"count":2,"unit":"stone"`), `1:84-89 error: unit "stone" is neither kg nor lb | write kg or lb`},
		{"no sleeve", `{"sleeve_plates":0,"plates":[],"bars":[{"name":"Odo","bar":20,"target":60}]}`, `1:18-19 error: a sleeve that takes no disc | say how many discs one side of a bar takes, or leave it out`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, ds := exchange.ReadBars(strings.NewReader(c.text))
			if diff := cmp.Diff([]string{c.want}, spots(ds)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

// TestBarsJSON keeps the promised fields, and lists that are never null.
func TestBarsJSON(t *testing.T) {
	a, err := room.Plates(roomful.BarQuestion{
		Plates: []roomful.Stock{{Mass: roomful.Kg(20), Count: 2}},
		Wanted: []roomful.WantedBar{{Name: "Odo", Bar: roomful.Kg(20), Target: roomful.Kg(60), Weight: 1}, {Name: "Pia", Bar: roomful.Kg(20), Target: roomful.Kg(60), Weight: 1}},
	}, room.UsualSteps(2))
	if err != nil {
		t.Fatal(err)
	}
	o := object(t, exchange.BarsOf(a, roomful.Kilogram))
	has(t, "plates", o, "bars weighted_deviation bound proven short questions moved unit")
	odo, pia := o["bars"].([]any)[0], o["bars"].([]any)[1]
	has(t, "bar", odo, "name load per_side unit target below above moved")
	if got := fmt.Sprint(odo.(map[string]any)["per_side"], pia.(map[string]any)["per_side"]); got != "[map[colour:blue mass:20 unit:kg]] []" {
		t.Error(got)
	}
	has(t, "short", o["short"].([]any)[0], "what mass unit have need for")
}

// FuzzReadBars holds that any text is answered or refused, never a panic, and
// that what is answered keeps to the discs there are.
func FuzzReadBars(f *testing.F) {
	f.Add(`{"unit":"kg","plates":[{"mass":20,"count":8}],"sleeve_plates":6,"bars":[{"name":"a","bar":20,"target":62.5,"ceiling":62.5,"weight":1}]}`)
	f.Add(`{"plates":[{"mass":45,"unit":"lb","count":2},{"mass":0.001,"count":9}],"most_under":1,"bars":[{"name":"a","bar":0,"target":1e2,"previous":[{"mass":45,"unit":"lb"}]}]}`)
	f.Add(`{"plates":[],"bars":[{"name":"a","bar":20,"target":NaN}]}`)
	f.Fuzz(func(t *testing.T, text string) {
		q, ds := exchange.ReadBars(strings.NewReader(text))
		for _, d := range ds {
			if d.Severity == roomful.Fault {
				return
			}
		}
		a, err := room.Plates(q, 1000)
		if err != nil {
			if roomful.HintOf(err) == "" {
				t.Fatalf("%v has no hint", err)
			}
			return
		}
		if len(a.Bars) != len(q.Wanted) || a.Bound > a.Deviation {
			t.Fatalf("%+v", a)
		}
	})
}
