// Units prints what Roomful makes of figures as a coach, a member or an
// inventory writes them, one JSON object a line, for compare.mjs beside it to
// hold against UCUM, the Unified Code for Units of Measure. Every figure goes
// through the reader that a user's figure goes through.
package main

import (
	"encoding/json"
	"fmt"
	"os"
	"strings"

	"roomful"
	"roomful/catalogue"
	"roomful/exchange"
	"roomful/notation"
)

// figure is one conversion: what was written, in UCUM's code for its unit, and
// what we made of it in UCUM's code for ours.
type figure struct {
	Written string  `json:"written"`
	Value   float64 `json:"value"`
	From    string  `json:"from"`
	To      string  `json:"to"`
	Ours    float64 `json:"ours"`
}

// UCUM's codes, case-sensitive (The Unified Code for Units of Measure, 2.1).
const (
	pound, kilogram                    = "[lb_av]", "kg"
	inch, foot, yard, mile             = "[in_i]", "[ft_i]", "[yd_i]", "[mi_i]"
	centimetre, metre, kilometre       = "cm", "m", "km"
	second, minute, hour, kilocalories = "s", "min", "h", "kcal"
)

// asked are lines of a sheet whose last figure is converted.
var asked = []struct {
	line     string
	value    float64
	from, to string
}{
	{"10 front squats 45 lb", 45, pound, kilogram},
	{"10 front squats 95#", 95, pound, kilogram},
	{"10 front squats 135 lbs", 135, pound, kilogram},
	{"10 front squats 42.5 kg", 42.5, kilogram, kilogram},
	{"10 kettlebell swings 53 pounds", 53, pound, kilogram},
	{"20 goblet squats 1.25 kg", 1.25, kilogram, kilogram},
	{"10 box jumps 20 in", 20, inch, centimetre},
	{"10 box jumps 24 inches", 24, inch, centimetre},
	{"10 box jumps 2 ft", 2, foot, centimetre},
	{"10 box jumps 0.6 m", 0.6, metre, centimetre},
	{"10 wall balls 20 lb 10 ft", 10, foot, centimetre},
	{"10 wall balls 20 lb 9 feet", 9, foot, centimetre},
	{"1 mile run", 1, mile, metre},
	{"1.5 mi run", 1.5, mile, metre},
	{"400 yd run", 400, yard, metre},
	{"50 yards farmer's carry", 50, yard, metre},
	{"100 ft walking lunge", 100, foot, metre},
	{"5 km bike", 5, kilometre, metre},
	{"2k row", 2, kilometre, metre},
	{"800 metres run", 800, metre, metre},
	{"20 kcal row", 20, kilocalories, kilocalories},
	{"2 min plank", 2, minute, second},
	{"1.5 minutes plank", 1.5, minute, second},
	{"45 s plank", 45, second, second},
}

func main() {
	out := json.NewEncoder(os.Stdout)
	all, err := figures()
	if err != nil {
		fmt.Fprintln(os.Stderr, "units:", err)
		os.Exit(1)
	}
	for _, f := range all {
		if err := out.Encode(f); err != nil {
			fmt.Fprintln(os.Stderr, "units:", err)
			os.Exit(1)
		}
	}
}

// figures gathers what every reader makes of what is written.
func figures() ([]figure, error) {
	lex, err := catalogue.Load()
	if err != nil {
		return nil, err
	}
	var all []figure
	for _, a := range asked {
		e, err := element(a.line, lex)
		if err != nil {
			return nil, err
		}
		all = append(all, figure{a.line, a.value, a.from, a.to, converted(e, a.to)})
	}
	for _, more := range []func() ([]figure, error){loads, people, homes, caps(lex)} {
		got, err := more()
		if err != nil {
			return nil, err
		}
		all = append(all, got...)
	}
	return all, nil
}

// element reads one line of a piece.
func element(line string, lex roomful.Lexicon) (roomful.Element, error) {
	s, ds := notation.Read("main: for time\n  "+line+"\n", lex)
	for _, d := range ds {
		if d.Severity == roomful.Fault {
			return roomful.Element{}, fmt.Errorf("reading %q: %s", line, d.Summary)
		}
	}
	if len(s.Parts) != 1 || len(s.Parts[0].Round) != 1 {
		return roomful.Element{}, fmt.Errorf("%q is not read as one element", line)
	}
	return s.Parts[0].Round[0], nil
}

// converted is the quantity of an element that a unit measures.
func converted(e roomful.Element, to string) float64 {
	switch to {
	case kilogram:
		if m, ok := e.Load.(roomful.Masses); ok {
			return m.For(roomful.DivisionA).Kg()
		}
		return 0
	case centimetre:
		return e.HeightCm(roomful.DivisionA)
	default:
		return e.Amount.For(roomful.DivisionA)
	}
}

// loads converts bars and plates, there and back, as a bar is loaded.
func loads() ([]figure, error) {
	kit, ds := exchange.ReadKit(strings.NewReader("unit: lb\nbars: [{mass: 45, count: 1}]\nplates: [{mass: 1.25, unit: kg, count: 2}, {mass: 2.5, count: 2}]\n"))
	if kit == nil || len(ds) > 0 {
		return nil, fmt.Errorf("reading a kit: %v", ds)
	}
	all := []figure{
		{"a bar of 45 in a kit in lb", 45, pound, kilogram, kit.Bars[0].Mass.Kg()},
		{"a plate of 1.25 kg in a kit in lb", 1.25, kilogram, pound, kit.Plates[0].Mass.In(roomful.Pound).Value},
		{"a plate of 2.5 in a kit in lb", 2.5, pound, kilogram, kit.Plates[1].Mass.In(roomful.Kilogram).Value},
	}
	for _, kg := range []float64{20, 60, 102.5} {
		all = append(all, figure{roomful.Kg(kg).String() + " on a bar in lb", kg, kilogram, pound, roomful.Kg(kg).In(roomful.Pound).Value})
	}
	return all, nil
}

// people converts what a member writes of themselves.
func people() ([]figure, error) {
	all, ds := exchange.ReadPeople(strings.NewReader("name,mass_lb,deadlift_lb,row_2k\nOda,154,225,8:32\n"), nil, roomful.Date{})
	if len(all) != 1 || len(ds) > 0 {
		return nil, fmt.Errorf("reading people: %v", ds)
	}
	known := map[roomful.Test]float64{}
	for _, k := range all[0].Known {
		known[k.Test] = k.Value
	}
	return []figure{
		{"mass_lb 154", 154, pound, kilogram, all[0].MassKg},
		{"deadlift_lb 225", 225, pound, kilogram, known[roomful.TestDeadlift]},
		{"row_2k 8:32", 8 + 32.0/60, minute, second, known[roomful.TestRow2k]},
	}, nil
}

// homes converts what somebody owns at home.
func homes() ([]figure, error) {
	all, ds := exchange.ReadPeople(strings.NewReader("name,home\nOda,box 20in; dumbbell 35lb; box 0.5m\n"), nil, roomful.Date{})
	if len(all) != 1 || len(ds) > 0 || all[0].Home == nil {
		return nil, fmt.Errorf("reading a home: %v", ds)
	}
	home := all[0].Home
	return []figure{
		{"box 20in at home", 20, inch, centimetre, home.Boxes[0].HeightsCm[0]},
		{"box 0.5m at home", 0.5, metre, centimetre, home.Boxes[1].HeightsCm[0]},
		{"dumbbell 35lb at home", 35, pound, kilogram, home.Dumbbells[0].Mass.Kg()},
	}, nil
}

// caps converts the times of a head line.
func caps(lex roomful.Lexicon) func() ([]figure, error) {
	return func() ([]figure, error) {
		var all []figure
		for _, c := range []struct {
			window string
			value  float64
			from   string
		}{{"20 min", 20, minute}, {"90 s", 90, second}, {"1 hour", 1, hour}} {
			s, ds := notation.Read("main: as many rounds as possible in "+c.window+"\n  10 push-ups\n", lex)
			if len(ds) > 0 || len(s.Parts) != 1 {
				return nil, fmt.Errorf("reading a window of %s: %v", c.window, ds)
			}
			ours := s.Parts[0].Format.Length(1).Seconds()
			all = append(all, figure{"in " + c.window, c.value, c.from, second, ours})
		}
		return all, nil
	}
}
