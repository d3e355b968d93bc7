package exchange

import (
	"io"
	"math"
	"slices"

	"github.com/goccy/go-yaml/ast"

	"roomful"
)

// ReadBars reads a question about bars from JSON, or from YAML, which JSON is a
// part of:
//
//	{"unit":"kg","plates":[{"mass":20,"count":8}],"sleeve_plates":6,
//	 "bars":[{"name":"Marit","bar":20,"target":62.5,"ceiling":62.5,"weight":1}]}
//
// A plate or a bar may have its own unit. Left out, the unit is kg, a weight 1,
// a ceiling none, collars 0, and nothing limits the discs on a sleeve. most_under
// is how far a bar may be under its target without asking; previous, on a bar,
// lists what is on one side of it now. With a rack, a list of bars like that of
// plates, a bar need not be named; when bars are short, those with "share": true
// and a similar load and height_cm share one.
func ReadBars(r io.Reader) (roomful.BarQuestion, []roomful.Diagnostic) {
	b := &barsReader{yamlReader: yamlReader{form: "JSON"}, names: map[string]bool{}}
	pairs, ok := b.document(r, "the question", `write {"plates": […], "bars": […]}`)
	if !ok {
		return b.out, b.sorted()
	}
	b.out.Unit = b.unitOf(pairs, roomful.Kilogram)
	b.racked = slices.ContainsFunc(pairs, func(p *ast.MappingValueNode) bool { return keyOf(p) == "rack" })
	mass := func(to *roomful.Mass, what string, most float64) func(ast.Node) {
		return func(n ast.Node) { *to = roomful.Mass{Value: b.number(n, what, 0, most), Unit: b.out.Unit} }
	}
	b.read(pairs, map[string]func(ast.Node){
		"unit":          func(ast.Node) {},
		"plates":        func(n ast.Node) { b.plates = true; b.each(n, b.stock("disc", &b.out.Plates)) },
		"rack":          func(n ast.Node) { b.out.Rack = []roomful.Stock{}; b.each(n, b.stock("bar", &b.out.Rack)) },
		"sleeve_plates": b.sleeve,
		"collars":       mass(&b.out.Collars, "collars", 20),
		"most_under":    mass(&b.out.MostUnder, "most_under", 1000),
		"bars":          func(n ast.Node) { b.each(n, b.bar) },
	})
	switch {
	case len(b.all) > 0:
	case !b.plates:
		b.fault(whole, `write "plates": [], if there are none`, "the plates are missing")
	case len(b.out.Wanted) == 0:
		b.fault(whole, `write "bars": [{"name": "Marit", "bar": 20, "target": 62.5}]`, "no bar is asked for")
	}
	return b.out, b.sorted()
}

// barsReader is the state of reading one question.
type barsReader struct {
	yamlReader
	out    roomful.BarQuestion
	plates bool // they are there, perhaps none
	racked bool // the bars there are are listed
	names  map[string]bool
}

// unitOf returns the unit that a mapping states, wherever in it that stands.
func (b *barsReader) unitOf(pairs []*ast.MappingValueNode, usual roomful.MassUnit) roomful.MassUnit {
	for _, p := range pairs {
		if keyOf(p) == "unit" {
			return b.massUnit(p.Value)
		}
	}
	return usual
}

// sleeve reads how many discs a sleeve takes.
func (b *barsReader) sleeve(n ast.Node) {
	if _, none := n.(*ast.NullNode); none {
		return
	}
	bad := len(b.all)
	v := b.number(n, "sleeve_plates", 0, math.MaxInt32)
	switch {
	case len(b.all) > bad:
	case v != math.Trunc(v):
		b.fault(nodeRange(n), "write a whole number", "sleeve_plates %s is not a whole number", roomful.Figure(v))
	case v == 0:
		b.fault(nodeRange(n), "say how many discs one side of a bar takes, or leave it out", "a sleeve that takes no disc")
	default:
		b.out.SleevePlates = int(v)
	}
}

// stock returns a reader of one kind of disc or bar.
func (b *barsReader) stock(what string, to *[]roomful.Stock) func(ast.Node) {
	return func(n ast.Node) {
		s, count, bad := roomful.Stock{Mass: roomful.Mass{Unit: b.out.Unit}}, false, len(b.all)
		b.keys(n, map[string]func(ast.Node){
			"mass":  func(n ast.Node) { s.Mass.Value = b.number(n, "mass", 0, 1000) },
			"unit":  func(n ast.Node) { s.Mass.Unit = b.massUnit(n) },
			"count": func(n ast.Node) { s.Count, count = b.count(n, "count"), true },
		})
		switch {
		case len(b.all) > bad:
		case s.Mass.Value == 0:
			b.fault(nodeRange(n), `write {"mass": 20, "count": 8}`, "a %s without a mass", what)
		case !count:
			b.fault(nodeRange(n), `write {"mass": `+roomful.Figure(s.Mass.Value)+`, "count": 8}, counting single pieces`, "how many %ss of %s there are is missing", what, s.Mass)
		default:
			*to = append(*to, s)
		}
	}
}

// bar reads one bar that is wanted.
func (b *barsReader) bar(n ast.Node) {
	w, bad := roomful.WantedBar{Weight: 1}, len(b.all)
	pairs := b.pairs(n, listOfKeys, keysHint)
	unit := b.unitOf(pairs, b.out.Unit)
	given := map[string]bool{}
	mass := func(to *roomful.Mass, what string) func(ast.Node) {
		return func(n ast.Node) {
			if _, none := n.(*ast.NullNode); !none {
				*to, given[what] = roomful.Mass{Value: b.number(n, what, 0, 2500), Unit: unit}, true
			}
		}
	}
	b.read(pairs, map[string]func(ast.Node){
		"name":      func(n ast.Node) { w.Name = b.text(n) },
		"unit":      func(ast.Node) {},
		"bar":       mass(&w.Bar, "bar"),
		"target":    mass(&w.Target, "target"),
		"ceiling":   mass(&w.Ceiling, "ceiling"),
		"share":     func(n ast.Node) { w.MayShare = b.yes(n) },
		"height_cm": func(n ast.Node) { w.HeightCm = b.number(n, "height_cm", 50, 260) },
		"weight":    func(n ast.Node) { w.Weight = b.number(n, "weight", 0, 1e6) },
		"previous":  func(n ast.Node) { w.Previous = b.side(n, unit) },
	})
	if len(b.all) > bad {
		return
	}
	given["bar"] = given["bar"] || b.racked
	if why, hint := unmeant(w, given); why != "" {
		b.fault(nodeRange(n), hint, "%s", why)
		return
	}
	if b.names[w.Name] {
		b.fault(nodeRange(n), "give each bar its own name", "two bars are called %q", w.Name)
		return
	}
	b.names[w.Name] = true
	b.out.Wanted = append(b.out.Wanted, w)
}

// yes reads true or false.
func (b *barsReader) yes(n ast.Node) bool {
	v, ok := n.(*ast.BoolNode)
	if !ok {
		b.fault(nodeRange(n), "write true or false", "neither true nor false")
		return false
	}
	return v.Value
}

// unmeant says what is missing of a bar or cannot be, with a hint.
func unmeant(w roomful.WantedBar, given map[string]bool) (why, hint string) {
	err := w.Check()
	switch {
	case w.Name == "", given["bar"] && given["target"] && err != nil:
		return err.Error(), roomful.HintOf(err)
	case !given["bar"]:
		return w.Name + `: "bar" is missing`, `say what the bare bar weighs, such as "bar": 20`
	case !given["target"]:
		return w.Name + `: "target" is missing`, `say the load in all, such as "target": 62.5`
	case given["ceiling"] && w.Ceiling.Value == 0:
		return w.Name + ": a ceiling of 0", "leave the ceiling out when there is none"
	}
	return "", ""
}

// side reads the discs on one side of a bar, as an answer writes them.
func (b *barsReader) side(n ast.Node, unit roomful.MassUnit) []roomful.Mass {
	if _, none := n.(*ast.NullNode); none {
		return nil
	}
	side := []roomful.Mass{}
	b.each(n, func(n ast.Node) {
		m := roomful.Mass{Unit: unit}
		b.keys(n, map[string]func(ast.Node){
			"mass":   func(n ast.Node) { m.Value = b.number(n, "mass", 0, 1000) },
			"unit":   func(n ast.Node) { m.Unit = b.massUnit(n) },
			"colour": func(ast.Node) {},
		})
		side = append(side, m)
	})
	return side
}
