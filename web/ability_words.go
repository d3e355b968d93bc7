package web

import (
	"math"
	"strings"

	"roomful"
	"roomful/exchange"
	"roomful/web/page"
)

// wayNames say of the capacities of the whole person what they are.
var wayNames = map[roomful.Capacity]string{
	roomful.CapVO2max:   "Oxygen uptake at most",
	roomful.CapReserve:  "Work above what breath can carry",
	roomful.CapSpeed:    "Time of a repetition",
	roomful.CapPacing:   "Pace they choose",
	roomful.CapBreaks:   "Readiness to break a set",
	roomful.CapRecovery: "Time that muscles take to recover",
}

// capacityName says a capacity in words; way tells those that say how somebody goes about
// it from those that say how much.
func capacityName(c roomful.Capacity, lex roomful.Lexicon) (name string, way bool) {
	if name, ok := wayNames[c]; ok {
		return name, c != roomful.CapVO2max && c != roomful.CapReserve
	}
	kind, of, _ := strings.Cut(string(c), " ")
	what := strings.ReplaceAll(of, "-", " ")
	if m := lex.Movement(roomful.MovementID(of)); m != nil {
		what = m.Name
	}
	what = capital(what)
	switch kind {
	case "1rm":
		return what + ", once", false
	case "max":
		return what + ", unbroken", false
	case "endurance":
		return what + ": repetitions at a load", true
	case "trips":
		return what + ": attempts that fail", true
	}
	return capital(string(c)), true
}

// abilityRows are what is believed of somebody: how much they can do, in their own unit,
// and how they go about it, as factors.
func abilityRows(a roomful.Athlete, known *roomful.Abilities, lex roomful.Lexicon) (able, ways []page.AbilityRow) {
	for i, one := range exchange.AbilitiesOf(a, known, lex).Abilities {
		c := known.Dims[i].Capacity
		name, way := capacityName(c, lex)
		if one.Mean == nil || one.P05 == nil || one.P95 == nil {
			continue
		}
		say := func(v float64) string { return abilityFigure(a, c, one.Unit, v) }
		row := page.AbilityRow{Name: name, About: say(*one.Mean), From: say(*one.P05), To: say(*one.P95), By: restsOn(one.InformedBy), Unit: one.Unit}
		switch {
		case one.Unit == "kg":
			row.Unit = a.Unit.String()
		case one.Unit == "rep", one.Unit == "ratio", one.Unit == "log-odds":
			row.Unit = ""
		}
		if way {
			ways = append(ways, row)
		} else {
			able = append(able, row)
		}
	}
	return able, ways
}

// abilityFigure writes a figure as round as it is sure. Log-odds become shares and
// factors, which people can read.
func abilityFigure(a roomful.Athlete, c roomful.Capacity, unit string, v float64) string {
	switch {
	case unit == "kg":
		text, _, _ := strings.Cut(a.Own(v), " ")
		return text
	case c == roomful.CapBreaks:
		return roomful.Figure(math.Round(math.Exp(v)*100) / 100)
	case c.Plain():
		return roomful.Figure(math.Round(100/(1+math.Exp(-v)))) + " %"
	case unit == "ratio":
		return roomful.Figure(math.Round(v*100) / 100)
	case v >= 100:
		return roomful.Figure(math.Round(v/10) * 10)
	}
	return roomful.Figure(math.Round(v))
}

// inGeneral is what a figure rests on that no result of somebody's own informs.
const inGeneral = "people in general"

// mostSources is how many sources a row names.
const mostSources = 3

// restsOn says what informed a figure.
func restsOn(sources []string) string {
	switch n := len(sources); {
	case n == 0:
		return inGeneral
	case n > mostSources:
		return strings.Join(sources[n-mostSources:], "; ") + " and more"
	}
	return strings.Join(sources, "; ")
}
