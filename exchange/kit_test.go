package exchange_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/exchange"
)

func TestReadKit(t *testing.T) {
	const text = `
name: The Boat Shed
unit: kg
space: {length_m: 18, width_m: 9.5, ceiling_m: 4}
stations: {row: 6, fan-bike: 2, rig: 10}
bars:
  - {mass: 20, count: 10}
  - mass: 45
    unit: lb
    count: 2
plates: [{mass: 20, count: 20}, {mass: 1.25, count: 8}]
dumbbells: [{mass: 22.5, pairs: 3}, {mass: 40, count: 1}]
kettlebells: [{mass: 24, count: 6}]
balls: [{mass: 9, count: 8}]
boxes: [{heights_cm: [50, 60, 75], count: 12}]
ropes: 20
rings: 6
noise: quiet
`
	kg := roomful.Kg
	want := &roomful.Kit{
		Name: "The Boat Shed", LengthM: 18, WidthM: 9.5, CeilingM: 4,
		Stations:    map[string]int{"row": 6, "fan-bike": 2, "rig": 10},
		Bars:        []roomful.Stock{{Mass: kg(20), Count: 10}, {Mass: roomful.Lb(45), Count: 2}},
		Plates:      []roomful.Stock{{Mass: kg(20), Count: 20}, {Mass: kg(1.25), Count: 8}},
		Dumbbells:   []roomful.Stock{{Mass: kg(22.5), Count: 6}, {Mass: kg(40), Count: 1}},
		Kettlebells: []roomful.Stock{{Mass: kg(24), Count: 6}},
		Balls:       []roomful.Stock{{Mass: kg(9), Count: 8}},
		Boxes:       []roomful.BoxStock{{HeightsCm: []float64{50, 60, 75}, Count: 12}},
		Ropes:       20, Rings: 6, Quiet: true,
	}
	got, ds := exchange.ReadKit(strings.NewReader(text))
	if len(ds) > 0 {
		t.Fatal(spots(ds))
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestKitInPounds(t *testing.T) {
	// The unit holds for every mass, wherever it stands in the file.
	got, ds := exchange.ReadKit(strings.NewReader("plates: [{mass: 45, count: 4}]\nunit: lb\n"))
	want := []roomful.Stock{{Mass: roomful.Lb(45), Count: 4}}
	if len(ds) > 0 || !cmp.Equal(want, got.Plates) {
		t.Errorf("got %+v, %v", got, spots(ds))
	}
}

func TestKitDiagnostics(t *testing.T) {
	cases := []struct {
		name, text string
		want       []string
	}{
		{"nothing", "", []string{"1:1-1 error: the kit is empty | list what the room owns, such as bars: [{mass: 20, count: 10}]"}},
		{"not a mapping", "hello", []string{"1:1-6 error: a list of keys was expected here | write key: value lines"}},
		{"unknown key", "name: x\nkettelbells: []\n", []string{`2:1-12 error: key "kettelbells" is not known | did you mean kettlebells?`}},
		{"unknown key inside", "bars:\n  - mass: 20\n    cuont: 3\n", []string{`3:5-10 error: key "cuont" is not known | did you mean count?`}},
		{"below zero", "stations:\n  row: -3\nropes: -1\n", []string{"2:8-10 error: row is below zero | leave it out when there is none",
			"3:8-10 error: ropes is below zero | leave it out when there is none"}},
		{"half a rower", "stations: {row: 2.5}", []string{"1:17-20 error: row 2.5 is not a whole number | write a whole number"}},
		{"station", "stations: {rwo: 2}", []string{`1:12-15 error: station "rwo" is not known | did you mean row?`}},
		{"no mass", "bars: [{count: 3}]", []string{"1:8-9 error: a weight here has no mass | write {mass: 20, count: 4}"}},
		{"no count", "dumbbells: [{mass: 20}]", []string{"1:13-14 warning: pairs of 20 kg is not said, so there is one | write {mass: 20, pairs: 4}"}},
		{"noise", "noise: loud", []string{`1:8-12 error: noise "loud" is neither quiet nor any | write quiet or any`}},
		{"unit", "unit: stone", []string{`1:7-12 error: unit "stone" is neither kg nor lb | write kg or lb`}},
		{"no height", "boxes: [{count: 3}]", []string{"1:9-10 error: a box here has no height | write {heights_cm: [50, 60], count: 8}"}},
		{"two documents", "ropes: 1\n---\nropes: 2\n", []string{"1:1-1 error: the kit is not YAML: there are two documents in it | check the indent, the colons and the brackets"}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			_, ds := exchange.ReadKit(strings.NewReader(c.text))
			if diff := cmp.Diff(c.want, spots(ds)); diff != "" {
				t.Error(diff)
			}
		})
	}
}

func TestKitSyntax(t *testing.T) {
	for _, text := range []string{"bars: [", "\tbars: 1", "a: b: c", "ropes: 1\nropes: 2", "name: \"x"} {
		k, ds := exchange.ReadKit(strings.NewReader(text))
		if k != nil || len(ds) != 1 || ds[0].Severity != roomful.Fault || strings.Contains(ds[0].Summary, "\n") {
			t.Errorf("%q: %v, %v", text, k, spots(ds))
		}
	}
}

func FuzzReadKit(f *testing.F) {
	f.Add("name: x\nbars: [{mass: 20, count: 3}]\nspace: {length_m: 3}\n")
	f.Add("stations: {row: 1}\nboxes:\n  - heights_cm: [50]\n")
	f.Add("- &a [*a]\n!!x y")
	f.Fuzz(func(t *testing.T, text string) {
		k, ds := exchange.ReadKit(strings.NewReader(text))
		if k == nil && len(ds) == 0 {
			t.Error("nothing was read and nothing said")
		}
	})
}
