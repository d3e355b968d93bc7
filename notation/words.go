package notation

import (
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"roomful"
)

// The vocabulary that reading and printing share.

// measureUnit is what a unit word stands for.
type measureUnit struct {
	class classOf
	unit  roomful.Unit
	mass  roomful.MassUnit
	times float64 // how many of the unit one is, for units that are not kept
}

// classOf is what kind of quantity a unit measures.
type classOf uint8

const (
	bare    classOf = iota // no unit
	counted                // an amount in a unit of [roomful.Unit]
	massed
	percent
)

// unitWords gives every unit word that is read.
var unitWords = func() map[string]measureUnit {
	words := map[string]measureUnit{"%": {class: percent}, "percent": {class: percent}, "pc": {class: percent}, "h": {counted, roomful.Minute, 0, 60}, "hour": {counted, roomful.Minute, 0, 60}, "hours": {counted, roomful.Minute, 0, 60}}
	for unit, list := range map[roomful.Unit]string{
		roomful.Rep:        "rep reps repetition repetitions steps step",
		roomful.Metre:      "m metre metres meter meters mtr mtrs",
		roomful.Calorie:    "cal cals calorie calories kcal",
		roomful.Second:     "s sec secs second seconds",
		roomful.Kilometre:  "km kms kilometre kilometres kilometer kilometers k",
		roomful.Mile:       "mi mile miles",
		roomful.Minute:     "min mins minute minutes",
		roomful.Yard:       "yd yds yard yards",
		roomful.Foot:       "ft foot feet",
		roomful.Inch:       "in inch inches",
		roomful.Centimetre: "cm cms centimetre centimetres",
	} {
		for _, w := range strings.Fields(list) {
			words[w] = measureUnit{class: counted, unit: unit, times: 1}
		}
	}
	for unit, list := range map[roomful.MassUnit]string{
		roomful.Kilogram: "kg kgs kilo kilos kilogram kilograms",
		roomful.Pound:    "lb lbs pound pounds #",
	} {
		for _, w := range strings.Fields(list) {
			words[w] = measureUnit{class: massed, mass: unit, times: 1}
		}
	}
	return words
}()

// adjectives stand before a movement and change nothing but the note.
var adjectives = set("easy slow steady light heavy fast quick quickly hard controlled smooth relaxed moderate brisk gentle tempo empty-bar empty bar alternating alternate")

// phrases may stand after a movement and are kept where they are.
var phrases = []string{
	"a side", "each side", "per side", "a leg", "each leg", "per leg", "an arm", "each arm", "per arm", "a hand", "each hand", "per hand",
	"each way", "each direction", "from the floor", "from the rack", "from the hang", "to working load", "to working weight", "at working load", "at working weight",
	"unbroken", "alternating", "alternate", "together", "synchronised", "as needed",
}

// little words mean nothing where an element may begin.
var little = set("of the then and with a an on for to into your each max maximum")

// divisionWords name a division when a figure follows.
var divisionWords = set("a b m w f men man male males mens men's women woman female females ladies womens women's")

// reserved words begin heads, keys or formats: a first line that begins with
// one is not taken for a title.
var reserved = set("warm-up warmup warm ramp primer strength lift main workout conditioning piece mobility cool-down cooldown cool " +

	"title date again divisions about effort goal target intent once buy-in buy round last cash-out cash finish standards standard instead note notes score " +
	"part amrap emom rft ft every as max most for in build odd even min minute station rest rx")

// formatWords mark a line that cannot be a plain title anywhere.
var formatWords = set("amrap emom rft rounds rds x sets possible minute on min mins minutes cap tc")

// set makes a set of words.
func set(words string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(words) {
		m[w] = true
	}
	return m
}

// plainTitle reports whether a line can stand first as a title without
// "title:" before it: it begins with a letter, has no colon, is no date and
// does not look like a format.
func plainTitle(l *line) bool {
	const longest = 60 // characters; what is longer, or ends in a full stop, is prose
	if l.blank() || len(l.raw) > longest && utf8.RuneCountInString(l.raw) > longest || l.tokens[len(l.tokens)-1].text == "." {
		return false
	}
	if l.tokens[0].kind != word || reserved[l.tokens[0].text] || l.label > 0 || l.letter != "" {
		return false
	}
	for i, t := range l.tokens {
		switch {
		case t.text == ":" || t.kind == clock || t.text == ";":
			return false
		case t.kind == word && formatWords[t.text]:
			return false
		case t.kind == number && (i < len(l.tokens)-1 || t.tight):
			return false
		}
	}
	return months[l.tokens[0].text] == 0 && !weekday(l.tokens[0].text)
}

// titleText returns a line without the marks of a heading around it, its spaces
// made plain.
func titleText(l *line) string {
	text := strings.TrimRightFunc(l.slice(0, len(l.tokens)), func(r rune) bool { return space(r) || strings.ContainsRune("*#=_~", r) })
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return ' '
		}
		return r
	}, text)
}

// counts reports whether a movement may be counted in a base unit. An unknown
// one may.
func counts(m *roomful.Movement, base roomful.Unit) bool {
	if m == nil || len(m.Units) == 0 {
		return true
	}
	for _, u := range m.Units {
		if u == base {
			return true
		}
	}
	return false
}

// unitPlural names a unit in a sentence.
func unitPlural(u roomful.Unit) string {
	switch u.Base() {
	case roomful.Rep:
		return "repetitions"
	case roomful.Calorie:
		return "calories"
	case roomful.Second:
		return "time"
	}
	return "distance"
}

// unitList names the units a movement may be counted in.
func unitList(m *roomful.Movement) string {
	var names []string
	for _, u := range m.Units {
		names = append(names, unitPlural(u))
	}
	return strings.Join(names, " or ")
}

// takesHeight reports whether a box or a target belongs to a movement.
func takesHeight(m *roomful.Movement) bool {
	if m == nil {
		return false
	}
	if m.Implement == roomful.Ball {
		return true
	}
	for _, n := range m.Needs {
		if n == "box" || n == "wall-target" || n == "wall" {
			return true
		}
	}
	return false
}

// loaded reports whether a load belongs to a movement.
func loaded(m *roomful.Movement) bool { return m != nil && m.TakesLoad() }

// nearUnit returns a unit word one letter away.
func nearUnit(text string) string {
	best := ""
	for _, w := range [...]string{"reps", "kg", "lb", "km", "miles", "metres", "cal", "min", "cm", "inches", "feet", "seconds"} {
		if len(text) > 1 && oneEdit(text, w) && len(w) > len(best) {
			best = w
		}
	}
	return best
}

// oneEdit reports whether one letter added, dropped or changed makes b of a.
func oneEdit(a, b string) bool {
	if len(a) > len(b) {
		a, b = b, a
	}
	if len(b)-len(a) > 1 {
		return false
	}
	for i := range len(a) {
		if a[i] != b[i] {
			return a[i+1:] == b[i+1:] || a[i:] == b[i+1:]
		}
	}
	return true
}

// plainName reports whether unknown words can stand as the name of an element:
// they do not begin like a head, a format or a unit.
func plainName(s string) bool {
	s = plain(s)
	first, _, _ := strings.Cut(s, " ")
	last := s[strings.LastIndexByte(s, ' ')+1:]
	_, unit := unitWords[first]
	if r, _ := utf8.DecodeRuneInString(first); !unicode.IsLetter(r) || divisionWords[last] || leadIns[last] {
		return false
	}
	return !reserved[first] && !formatHints[first] && !little[first] && !leadIns[first] && !unit
}

// restMovement stands in where a lexicon does not know rest.
var restMovement = roomful.Movement{ID: roomful.Rest, Name: "rest", Plural: "rest", Modality: roomful.Pause, Units: []roomful.Unit{roomful.Second}}

// leadIns are words that lead from a name to a figure.
var leadIns = set("or at to fresh tempo rpe x from as in by @ men women a b m f w")

// formatHints are words that only a line with a format has.
var formatHints = set("amrap amreps emom rft rfts ft possible every time rounds round rd rds rnd rnds sets set intervals bouts build heavy find work on off max most x rm stations station")

// numerals are the numbers that coaches write as words.
var numerals = map[string]int{"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "twelve": 12}

// months are the names of the months and what people cut them to.
var months = func() map[string]time.Month {
	m := map[string]time.Month{"sept": time.September}
	for i := time.January; i <= time.December; i++ {
		name := strings.ToLower(i.String())
		m[name], m[name[:3]] = i, i
	}
	return m
}()

// weekday reports whether a word names a day of the week.
func weekday(text string) bool {
	switch text {
	case "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday",
		"mon", "tue", "tues", "wed", "thu", "thur", "thurs", "fri", "sat", "sun":
		return true
	}
	return false
}

// scored reports whether parts of a kind have a score.
func scored(k roomful.PartKind) bool { return k == roomful.Strength || k == roomful.Main }

// length writes a time as coaches do: 20 s, 2 min, 2:30.
func length(d time.Duration) string {
	s := d.Seconds()
	switch {
	case d%time.Minute == 0 && d > 0:
		return roomful.Figure(d.Minutes()) + " min"
	case s < 120 || d%time.Second != 0:
		return roomful.Figure(s) + " s"
	}
	return roomful.Clock(s)
}
