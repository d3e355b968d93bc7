package vocab

import (
	"strings"
	"time"
	"unicode"
	"unicode/utf8"

	"roomful"
	"roomful/notation/internal/scan"
)

// The vocabulary that reading and printing share.

// MeasureUnit is what a unit word stands for.
type MeasureUnit struct {
	Class Class
	Unit  roomful.Unit
	Mass  roomful.MassUnit
	Times float64 // how many of the unit one is, for units that are not kept
}

// In returns a unit of amounts.
func In(u roomful.Unit) MeasureUnit { return MeasureUnit{Class: Counted, Unit: u, Times: 1} }

// Class is what kind of quantity a unit measures.
type Class uint8

const (
	Bare    Class = iota // no unit
	Counted              // an amount in a unit of [roomful.Unit]
	Massed
	Percent
)

// UnitWords gives every unit word that is read.
var UnitWords = func() map[string]MeasureUnit {
	words := map[string]MeasureUnit{"%": {Class: Percent}, "percent": {Class: Percent}, "pc": {Class: Percent}, "h": {Counted, roomful.Minute, 0, 60}, "hour": {Counted, roomful.Minute, 0, 60}, "hours": {Counted, roomful.Minute, 0, 60}}
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
			words[w] = MeasureUnit{Class: Counted, Unit: unit, Times: 1}
		}
	}
	for unit, list := range map[roomful.MassUnit]string{
		roomful.Kilogram: "kg kgs kilo kilos kilogram kilograms",
		roomful.Pound:    "lb lbs pound pounds #",
	} {
		for _, w := range strings.Fields(list) {
			words[w] = MeasureUnit{Class: Massed, Mass: unit, Times: 1}
		}
	}
	return words
}()

// Adjectives stand before a movement and change nothing but the note.
var Adjectives = Set("easy slow steady light heavy fast quick quickly hard controlled smooth relaxed moderate brisk gentle tempo synchro synchronised synchronized sync empty-bar empty bar alternating alternate")

// Phrases may stand after a movement and are kept where they are.
var Phrases = []string{
	"a side", "each side", "per side", "a leg", "each leg", "per leg", "an arm", "each arm", "per arm", "a hand", "each hand", "per hand",
	"each way", "each direction", "from the floor", "from the rack", "from the hang", "to working load", "to working weight", "at working load", "at working weight",
	"unbroken", "alternating", "alternate", "together", "synchronised",
}

// Remarks are the words that a remark right after a movement begins with. Any
// other word there may make another movement of it.
var Remarks = Set("with without no not in on at from to through per of for as if when until till before after than then while over under around round across up down back into onto off between using holding wearing " +
	"keep keeping stay staying go going do doing use hold try aim focus break think work rest get find pick choose start stay be is are this that these those it its same different any all every both only just optional " +
	"outside outdoors indoors inside laps lap there together apart facing partner partners switching switch swap split broken breaking increasing adding climbing ascending descending decreasing " +
	"left right l r side sides arm arms leg legs hand hands total max min ub tng touch-and-go touch paused pause explosive quality technique practice practise skill test pace sprint sprints easy-pace " +
	"good perfect clean-reps deep full smooth strong tight rx rx'd scaled style or and but plus so because please gently slowly quickly continuously continuous " +
	"buy buy-in cash cash-out tt time trial day superset complex ladder warm-up week weeks")

// Easier are the words that a bracket about easier work begins with.
var Easier = Set("scale scaled scaling sub subs substitute option options or swap swaps modify mod beginner beginners easier alternative instead")

// Little words mean nothing where an element may begin.
var Little = Set("of the then and with a an on for to into your each max maximum")

// divisionWords name a division when a figure follows.
var divisionWords = Set("a b m w f men man male males mens men's women woman female females ladies womens women's")

// reserved words begin heads, keys or formats: a first line that begins with
// one is not taken for a title.
var reserved = Set("warm-up wu warmup warm ramp primer strength lift main workout conditioning piece mobility cool-down cooldown cool " +

	"title date again divisions about effort goal target intent once buy-in buy round last cash-out cash finish standards standard instead note notes score " +
	"part amrap emom rft ft every as max most for in build odd even min minute station rest rx")

// formatWords mark a line that cannot be a plain title anywhere.
var formatWords = Set("amrap emom rft rounds rds x sets possible minute on min mins minutes cap tc")

// Set makes a set of words.
func Set(words string) map[string]bool {
	m := map[string]bool{}
	for _, w := range strings.Fields(words) {
		m[w] = true
	}
	return m
}

// EveryWord reports whether a word is short for an interval: e2mom, e90s, e2.
func EveryWord(w string) bool { return len(w) > 1 && w[0] == 'e' && scan.IsDigit(w[1]) }

// PlainTitle reports whether a line can stand first as a title without
// "title:" before it: it begins with a letter, has no colon, is no date and
// does not look like a format.
func PlainTitle(l *scan.Line) bool {
	const longest = 60 // characters; what is longer, or ends in a full stop, is prose
	if l.Blank() || len(l.Raw) > longest && utf8.RuneCountInString(l.Raw) > longest || l.Tokens[len(l.Tokens)-1].Text == "." {
		return false
	}
	if l.Tokens[0].Kind != scan.Word || reserved[l.Tokens[0].Text] || EveryWord(l.Tokens[0].Text) || l.Label > 0 || l.Letter != "" {
		return false
	}
	dated := Months[l.Tokens[0].Text] != 0 || Weekday(l.Tokens[0].Text)
	for i, t := range l.Tokens {
		switch {
		case dated && (t.Kind == scan.Number || Months[t.Text] != 0 && i > 0):
			return false
		case t.Text == ":" || t.Kind == scan.Clock || t.Text == ";":
			return false
		case t.Kind == scan.Word && formatWords[t.Text]:
			return false
		case t.Kind == scan.Number && (i < len(l.Tokens)-1 || t.Tight):
			return false
		}
	}
	return true
}

// TitleText returns a line without the marks of a heading around it, its spaces
// made plain.
func TitleText(l *scan.Line) string {
	text := strings.TrimRightFunc(l.Slice(0, len(l.Tokens)), func(r rune) bool { return scan.Space(r) || strings.ContainsRune("*#=_~", r) })
	if r, size := utf8.DecodeLastRuneInString(text); strings.ContainsRune("\"”“", r) && strings.Count(text, string(r)) == 1 {
		text = text[:len(text)-size] // the first one was a mark before the line
	}
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return ' '
		}
		return r
	}, text)
}

// Counts reports whether a movement may be counted in a base unit. An unknown
// one may.
func Counts(m *roomful.Movement, base roomful.Unit) bool {
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

// UnitPlural names a unit in a sentence.
func UnitPlural(u roomful.Unit) string {
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

// UnitList names the units a movement may be counted in.
func UnitList(m *roomful.Movement) string {
	var names []string
	for _, u := range m.Units {
		names = append(names, UnitPlural(u))
	}
	return strings.Join(names, " or ")
}

// TakesHeight reports whether a box or a target belongs to a movement.
func TakesHeight(m *roomful.Movement) bool {
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

// Loaded reports whether a load belongs to a movement.
func Loaded(m *roomful.Movement) bool { return m != nil && m.TakesLoad() }

// NearUnit returns a unit word one letter away.
func NearUnit(text string) string {
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

// PlainName reports whether unknown words can stand as the name of an element:
// they do not begin like a head, a format or a unit.
func PlainName(name string) bool {
	l := scan.Scan(name)
	if len(l) != 1 || l[0].Blank() || l[0].Letter != "" {
		return false
	}
	bare := true
	for _, t := range l[0].Tokens {
		if t.Kind != scan.Word || t.Text == "pair" {
			return false
		}
		bare = bare && Adjectives[t.Text]
	}
	first, last := l[0].Words[0], l[0].Words[len(l[0].Words)-1]
	_, unit := UnitWords[first]
	begins := reserved[first] || FormatHints[first] || Little[first] || LeadIns[first] || unit || divisionWords[first] || bare
	return !begins && !divisionWords[last] && !LeadIns[last]
}

// RestMovement stands in where a lexicon does not know rest.
var RestMovement = roomful.Movement{ID: roomful.Rest, Name: "rest", Plural: "rest", Modality: roomful.Pause, Units: []roomful.Unit{roomful.Second}}

// LeadIns are words that lead from a name to a figure.
var LeadIns = Set("or at to fresh tempo rpe x from as in by @ men women a b m f w")

// FormatHints are words that only a line with a format has.
var FormatHints = Set("amrap amreps emom rft rfts rnft ft possible every time rounds round rd rds rnd rnds sets set interval intervals bout bouts effort efforts repeat repeats times build heavy find work on off max most x rm stations station")

// Numerals are the numbers that coaches write as words.
var Numerals = map[string]int{"one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9, "ten": 10, "twelve": 12}

// Months are the names of the months and what people cut them to.
var Months = func() map[string]time.Month {
	m := map[string]time.Month{"sept": time.September}
	for i := time.January; i <= time.December; i++ {
		name := strings.ToLower(i.String())
		m[name], m[name[:3]] = i, i
	}
	return m
}()

// Weekday reports whether a word names a day of the week.
func Weekday(text string) bool {
	switch text {
	case "monday", "tuesday", "wednesday", "thursday", "friday", "saturday", "sunday",
		"mon", "tue", "tues", "wed", "thu", "thur", "thurs", "fri", "sat", "sun":
		return true
	}
	return false
}

// Scored reports whether parts of a kind have a score.
func Scored(k roomful.PartKind) bool { return k == roomful.Strength || k == roomful.Main }

// Length writes a time as coaches do: 20 s, 2 min, 2:30.
func Length(d time.Duration) string {
	s := d.Seconds()
	switch {
	case d%time.Minute == 0 && d > 0:
		return roomful.Figure(d.Minutes()) + " min"
	case s < 120 || d%time.Second != 0:
		return roomful.Figure(s) + " s"
	}
	return roomful.Clock(s)
}
