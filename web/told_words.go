package web

import (
	"net/url"
	"slices"
	"strings"

	"roomful"
	"roomful/web/page"
)

// column is one of what a person tells, as people are asked for it.
type column struct {
	name  string // in a people file; a mass without its unit
	asks  string
	note  string
	mass  bool
	coach bool // only a coach changes it
	own   bool // only the person sees it
}

// columnGroups are the columns as a form asks for them; skills come after.
var columnGroups = []struct {
	legend, note string
	columns      []column
}{
	{"Who", "", []column{
		{name: "name", asks: "Name", coach: true},
		{name: "born", asks: "Born", note: "a day as 1990-02-28, or a year", coach: true},
		{name: "division", asks: "Of a pair, such as 60/40 kg"},
		{name: "unit", asks: "Thinks in"},
		{name: "like", asks: "Like", note: "somebody who does about as much"},
		{name: "unlisted", asks: "Left out of what others see of scores"},
		{name: "drop_in", asks: "A drop-in, no member yet", coach: true},
	}},
	{"Body and training", "", []column{
		{name: "mass", asks: "Body mass", note: "nobody else sees it", mass: true, own: true},
		{name: "height_cm", asks: "Height", note: "in cm"},
		{name: "months", asks: "Months of training", note: "under 3 is new: three quarters of the volume"},
	}},
	{"The most they can lift once", "As far as it is known. One of them is enough to begin with.", []column{
		{name: "squat", asks: "Back squat", mass: true}, {name: "deadlift", asks: "Deadlift", mass: true}, {name: "bench", asks: "Bench press", mass: true},
		{name: "press", asks: "Press", mass: true}, {name: "clean", asks: "Clean", mass: true}, {name: "snatch", asks: "Snatch", mass: true},
	}},
	{"Tests", "Times as 8:05, counts as a number.", []column{
		{name: "pullups", asks: "Pull-ups, unbroken"}, {name: "pushups_2min", asks: "Push-ups in 2 min"}, {name: "situps_2min", asks: "Sit-ups in 2 min"},
		{name: "burpees_3min", asks: "Burpees in 3 min"}, {name: "double_unders", asks: "Double-unders, unbroken"},
		{name: "row_2k", asks: "Row 2 km", note: "m:ss"}, {name: "run_5k", asks: "Run 5 km", note: "m:ss"}, {name: "vo2max", asks: "Maximal oxygen uptake", note: "mL/kg/min"},
	}},
	{"At home", "", []column{{name: "home", asks: "Owned at home", note: "such as 2x dumbbell 10 kg; rope; box 50 cm; low-ceiling; quiet. Write nothing for nothing, and leave it empty when it is not told"}}},
}

// in is the name of a column in a people file for a unit.
func (c column) in(unit string) string {
	if c.mass {
		return c.name + "_" + unit
	}
	return c.name
}

// names are all the names that the column has in a people file.
func (c column) names() []string {
	if c.mass {
		return []string{c.in("kg"), c.in("lb")}
	}
	return []string{c.name}
}

// value finds what was told in a column, and the unit it stands in.
func (c column) value(told map[string]string, thinks string) (value, unit string) {
	if !c.mass {
		return told[c.name], ""
	}
	for _, unit := range []string{"kg", "lb"} {
		if v := told[c.in(unit)]; v != "" {
			return v, unit
		}
	}
	return "", thinks
}

// may reports whether a visitor is asked for a column of somebody's.
func (c column) may(v visit, who string, coach bool) bool {
	return (!c.coach || coach) && (!c.own || v.is(who))
}

// factsOf are what somebody told, in words.
func factsOf(has map[string]string, lex roomful.Lexicon) (out []page.Fact) {
	for _, g := range columnGroups {
		for _, c := range g.columns {
			value, unit := c.value(has, "")
			switch {
			case value == "" || c.name == "name":
				continue
			case c.name == "unlisted", c.name == "drop_in":
				value = "yes"
			case c.name == "division":
				value = divisionNames[value]
			case c.name == "height_cm":
				value += " cm"
			case unit != "":
				value += " " + unit
			}
			out = append(out, page.Fact{Name: c.asks, Value: value})
		}
	}
	if skills := has["skills"]; skills != "" {
		out = append(out, page.Fact{Name: "Skills", Value: skillsInWords(skills, lex)})
	}
	return out
}

// divisionNames say what the divisions choose.
var divisionNames = map[string]string{"": "not told: the second, lighter one", "a": "the first", "b": "the second"}

// levelNames say how well a skill is held.
var levelNames = map[string]string{"": "not told", "none": "not yet", "some": "some", "solid": "solid"}

// skillsInWords says skills as people do.
func skillsInWords(cell string, lex roomful.Lexicon) string {
	var out []string
	for one := range strings.SplitSeq(cell, ";") {
		id, level, _ := strings.Cut(strings.TrimSpace(one), ":")
		name := id
		if m := lex.Movement(roomful.MovementID(id)); m != nil {
			name = m.Name
		}
		if level == "" {
			level = "solid"
		}
		out = append(out, name+" "+levelNames[level])
	}
	return strings.Join(out, ", ")
}

// skillsAsked are the movements that have to be learnt, by name.
func skillsAsked(lex roomful.Lexicon) (out []*roomful.Movement) {
	for _, m := range lex.All() {
		if m.Skill.Needed || m.Skill.Trips {
			out = append(out, m)
		}
	}
	slices.SortFunc(out, func(a, b *roomful.Movement) int { return strings.Compare(a.Name, b.Name) })
	return out
}

// skillField is the name of a skill's field.
func skillField(id roomful.MovementID) string { return "skill-" + string(id) }

// isSkillField reports whether a name is that of a skill's field.
func isSkillField(name string) bool { return strings.HasPrefix(name, "skill-") }

// skillsSent is the column of skills as a form has it: what was told of movements that it
// does not ask for stays.
func skillsSent(was []roomful.SkillLevel, sent url.Values, lex roomful.Lexicon) string {
	var out []string
	asked := skillsAsked(lex)
	for _, s := range was {
		if !slices.ContainsFunc(asked, func(m *roomful.Movement) bool { return m.ID == s.Movement }) {
			out = append(out, skillWord(s.Movement, s.Level.String()))
		}
	}
	for _, m := range asked {
		if level := sent.Get(skillField(m.ID)); level != "" {
			out = append(out, skillWord(m.ID, level))
		}
	}
	return strings.Join(out, "; ")
}

// skillWord is a skill as a people file has it.
func skillWord(id roomful.MovementID, level string) string {
	if level == roomful.SolidSkill.String() {
		return string(id)
	}
	return string(id) + ":" + level
}
