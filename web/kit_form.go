package web

import (
	"fmt"
	"net/url"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"roomful"
	"roomful/web/page"
)

// shelf is weights of one kind as a kit has them.
type shelf struct {
	key, legend, note string
	count             string // "count" or "pairs"
	stock             func(*roomful.Kit) []roomful.Stock
}

// shelves are those of a kit, in the order of its text.
var shelves = []shelf{
	{"bars", "Bars", "", "count", func(k *roomful.Kit) []roomful.Stock { return k.Bars }},
	{"plates", "Plates", "Single ones, not pairs.", "count", func(k *roomful.Kit) []roomful.Stock { return k.Plates }},
	{"dumbbells", "Dumbbells", "In pairs.", "pairs", func(k *roomful.Kit) []roomful.Stock { return k.Dumbbells }},
	{"kettlebells", "Kettlebells", "", "count", func(k *roomful.Kit) []roomful.Stock { return k.Kettlebells }},
	{"balls", "Balls", "", "count", func(k *roomful.Kit) []roomful.Stock { return k.Balls }},
}

// emptyLines is how many lines a shelf has to spare.
const emptyLines = 2

// kitValues are the fields of a kit's form.
func kitValues(k *roomful.Kit) url.Values {
	out := url.Values{}
	set := func(name, value string) {
		if value != "" && value != "0" {
			out.Set(name, value)
		}
	}
	set("name", k.Name)
	set("unit", k.Unit.String())
	set("length_m", roomful.Figure(k.LengthM))
	set("width_m", roomful.Figure(k.WidthM))
	set("ceiling_m", roomful.Figure(k.CeilingM))
	for word, n := range k.Stations {
		set("station-"+word, strconv.Itoa(n))
	}
	for _, s := range shelves {
		for i, one := range s.stock(k) {
			mass := roomful.Figure(one.Mass.Value)
			if one.Mass.Unit != k.Unit {
				mass += " " + one.Mass.Unit.String()
			}
			set(lineField(s.key, i, "mass"), mass)
			n := float64(one.Count)
			if s.count == "pairs" {
				n /= 2
			}
			set(lineField(s.key, i, "count"), roomful.Figure(n))
		}
	}
	for i, b := range k.Boxes {
		var heights []string
		for _, h := range b.HeightsCm {
			heights = append(heights, roomful.Figure(h))
		}
		set(lineField("boxes", i, "mass"), strings.Join(heights, "/"))
		set(lineField("boxes", i, "count"), strconv.Itoa(b.Count))
	}
	set("ropes", strconv.Itoa(k.Ropes))
	set("rings", strconv.Itoa(k.Rings))
	set("other", strings.Join(k.Other, ", "))
	if k.Quiet {
		out.Set("quiet", "yes")
	}
	return out
}

// lineField is the name of a field of a line.
func lineField(key string, line int, column string) string {
	return fmt.Sprintf("%s-%d-%s", key, line, column)
}

// mostShelf bounds the lines of a shelf (judgement).
const mostShelf = 60

// shelfLines is how many lines of a shelf have something in them.
func shelfLines(sent url.Values, key string) (n int) {
	for i := range mostShelf {
		if sent.Get(lineField(key, i, "mass"))+sent.Get(lineField(key, i, "count")) != "" {
			n = i + 1
		}
	}
	return n
}

// kitForm lays fields out, with so many lines to spare and what is wrong.
func kitForm(sent url.Values, spare int, wrong map[string]string) page.Kit {
	input := func(name, label, small string) page.Input {
		return page.Input{Name: name, Label: label, Small: small, Value: sent.Get(name), Wrong: wrong[name], Most: 100}
	}
	out := page.Kit{About: []page.Input{input("name", "Name", ""), input("length_m", "Length", "in metres"), input("width_m", "Width", "in metres"), input("ceiling_m", "Ceiling", "in metres")}}
	unit := input("unit", "Weights are in", "")
	unit.Type, unit.Choices = page.Pick, []page.Choice{{Value: "kg", Label: "kg"}, {Value: "lb", Label: "lb"}}
	quiet := input("quiet", "Neighbours mind noise", "")
	quiet.Type = page.Tick
	out.About = append(out.About, unit, quiet)
	boxes := shelf{key: "boxes", legend: "Boxes", note: "The heights in cm that one can stand at, as 50/60/75."}
	for _, s := range append(slices.Clone(shelves), boxes) {
		one := page.Shelf{Legend: s.legend, Note: s.note}
		what, many := strings.TrimSuffix(s.legend, "s"), "How many"
		if s.key == "boxes" {
			what = "Box"
		}
		if s.count == "pairs" {
			many = "Pairs"
		}
		for i := range min(shelfLines(sent, s.key)+spare, mostShelf) {
			label := what + " " + strconv.Itoa(i+1)
			one.Rows = append(one.Rows, [2]page.Input{input(lineField(s.key, i, "mass"), label, ""), input(lineField(s.key, i, "count"), many, "")})
		}
		out.Shelves = append(out.Shelves, one)
	}
	for _, word := range stationsOf(sent) {
		out.Stations = append(out.Stations, input("station-"+word, stationName(word), ""))
	}
	out.Small = []page.Input{input("ropes", "Ropes", ""), input("rings", "Pairs of rings", ""), input("other", "Others", "with commas between, such as band, pull-up-bar")}
	out.Wrong = wrongOnes(out.About, out.Stations, out.Small)
	for _, s := range out.Shelves {
		for _, row := range s.Rows {
			out.Wrong = append(out.Wrong, wrongOnes(row[:])...)
		}
	}
	return out
}

// stationsOf are the stations that are asked for: all that are known, and those of the
// gym's own.
func stationsOf(sent url.Values) []string {
	out := slices.Clone(roomful.StationWords)
	var own []string
	for name := range sent {
		if word, is := strings.CutPrefix(name, "station-"); is && !slices.Contains(out, word) {
			own = append(own, word)
		}
	}
	slices.Sort(own)
	return append(out, own...)
}

// stationNames say of the stations whose word says little what they are.
var stationNames = map[string]string{"row": "Rowing machines", "ski": "Ski machines", "bike": "Bikes", "fan-bike": "Fan bikes", "rig": "Places at the rig", "wall-target": "Wall targets",
	"lane": "Lanes", "bench": "Benches", "sled": "Sleds", "climbing-rope": "Climbing ropes", "rack": "Racks"}

// stationName is what a station is called.
func stationName(word string) string {
	if name := stationNames[word]; name != "" {
		return name
	}
	return capital(word)
}

// textLine is a line of a text that a form makes, and the field that it stands for.
type textLine struct{ field, text string }

// joined is the text of some lines.
func joined(lines []textLine) string {
	var out strings.Builder
	for _, l := range lines {
		out.WriteString(l.text + "\n")
	}
	return out.String()
}

// kitLines are the lines of a kit's text, as a form has it.
func kitLines(sent url.Values) (out []textLine) {
	add := func(field, format string, args ...any) {
		out = append(out, textLine{field, fmt.Sprintf(format, args...)})
	}
	value := func(name string) string { return strings.TrimSpace(sent.Get(name)) }
	if v := value("name"); v != "" {
		add("name", "name: %s", scalar(v))
	}
	add("unit", "unit: %s", scalar(value("unit")))
	section := func(key string, names []string, label func(string) string) {
		begun := false
		for _, name := range names {
			if v := value(name); v != "" {
				if !begun {
					add("", "%s:", key)
				}
				begun = true
				add(name, "  %s: %s", label(name), scalar(v))
			}
		}
	}
	section("space", []string{"length_m", "width_m", "ceiling_m"}, func(name string) string { return name })
	var stations []string
	for _, word := range stationsOf(sent) {
		stations = append(stations, "station-"+word)
	}
	section("stations", stations, func(name string) string { return scalar(strings.TrimPrefix(name, "station-")) })
	for _, s := range append(slices.Clone(shelves), shelf{key: "boxes"}) {
		begun := false
		for i := range shelfLines(sent, s.key) {
			mass, count := value(lineField(s.key, i, "mass")), value(lineField(s.key, i, "count"))
			if mass+count == "" {
				continue
			}
			if !begun {
				add("", "%s:", s.key)
			}
			begun = true
			field := lineField(s.key, i, "mass")
			if mass != "" && amountForm.MatchString(mass) && !amountForm.MatchString(count) {
				field = lineField(s.key, i, "count")
			}
			add(field, "  - {%s}", strings.Join(lineParts(s, mass, count), ", "))
		}
	}
	for _, name := range []string{"ropes", "rings"} {
		if v := value(name); v != "" {
			add(name, "%s: %s", name, scalar(v))
		}
	}
	if others := wordsOf(value("other")); len(others) > 0 {
		add("other", "other: [%s]", strings.Join(others, ", "))
	}
	if value("quiet") == "yes" {
		add("quiet", "noise: quiet")
	}
	return out
}

// lineParts are the keys of a line.
func lineParts(s shelf, mass, count string) (out []string) {
	if s.key == "boxes" {
		var heights []string
		for h := range strings.SplitSeq(mass, "/") {
			if h = strings.TrimSpace(h); h != "" {
				heights = append(heights, scalar(h))
			}
		}
		out = append(out, "heights_cm: ["+strings.Join(heights, ", ")+"]")
	} else if mass != "" {
		bare, unit := mass, ""
		for _, u := range []string{"kg", "lb"} {
			if cut, is := strings.CutSuffix(mass, u); is {
				bare, unit = strings.TrimSpace(cut), u
			}
		}
		out = append(out, "mass: "+scalar(bare))
		if unit != "" {
			out = append(out, "unit: "+unit)
		}
	}
	switch n, err := strconv.ParseFloat(count, 64); {
	case count == "":
	case s.count != "pairs":
		out = append(out, "count: "+scalar(count))
	case err == nil && n != float64(int(n)) && 2*n == float64(int(2*n)): // one of a pair is missing
		out = append(out, "count: "+strconv.Itoa(int(2*n)))
	default:
		out = append(out, "pairs: "+scalar(count))
	}
	return out
}

// wordsOf are words with commas between them.
func wordsOf(text string) (out []string) {
	for word := range strings.SplitSeq(text, ",") {
		if word = strings.TrimSpace(word); word != "" {
			out = append(out, scalar(word))
		}
	}
	return out
}

// Texts that YAML reads as what they are: a figure, and words without a mark.
var (
	amountForm = regexp.MustCompile(`^\d+([.,]\d+)?$`)
	plainForm  = regexp.MustCompile(`^[\pL][\pL\pN .()/'’-]*$`)
	notWords   = []string{"null", "true", "false", "yes", "no", "on", "off", "y", "n"}
)

// scalar is a text as a value of YAML.
func scalar(text string) string {
	text = strings.Join(strings.Fields(text), " ")
	switch {
	case amountForm.MatchString(text):
		return strings.Replace(text, ",", ".", 1)
	case plainForm.MatchString(text) && !slices.Contains(notWords, strings.ToLower(text)):
		return text
	}
	return strconv.Quote(text)
}
