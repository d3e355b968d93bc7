package notation

import (
	"strings"
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
