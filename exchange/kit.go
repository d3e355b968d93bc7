package exchange

import (
	"io"
	"slices"
	"strings"

	"github.com/goccy/go-yaml/ast"

	"roomful"
)

// ReadKit reads what a room owns from YAML. Everything is optional, an unknown
// key is a fault at its line, and what a kit omits is absent. Dumbbells are
// written in pairs and kept as single pieces. The kit is nil only when nothing
// of the file could be read.
func ReadKit(r io.Reader) (*roomful.Kit, []roomful.Diagnostic) {
	k := &kit{}
	pairs, ok := k.document(r, "the kit", "list what the room owns, such as bars: [{mass: 20, count: 10}]")
	if !ok {
		return nil, k.sorted()
	}
	k.out.Stations = map[string]int{}
	for _, p := range pairs {
		if keyOf(p) == "unit" { // it holds for masses that stand before it
			k.out.Unit = k.massUnit(p.Value)
		}
	}
	k.read(pairs, map[string]func(ast.Node){
		"name":        func(n ast.Node) { k.out.Name = k.text(n) },
		"unit":        func(ast.Node) {},
		"space":       k.space,
		"stations":    k.stations,
		"bars":        k.stocks(&k.out.Bars, "count"),
		"plates":      k.stocks(&k.out.Plates, "count"),
		"dumbbells":   k.stocks(&k.out.Dumbbells, "pairs"),
		"kettlebells": k.stocks(&k.out.Kettlebells, "count"),
		"balls":       k.stocks(&k.out.Balls, "count"),
		"boxes":       k.boxes,
		"ropes":       func(n ast.Node) { k.out.Ropes = k.count(n, "ropes") },
		"rings":       func(n ast.Node) { k.out.Rings = k.count(n, "rings") },
		"other":       func(n ast.Node) { k.each(n, func(n ast.Node) { k.out.Other = append(k.out.Other, k.text(n)) }) },
		"noise":       k.noise,
	})
	return &k.out, k.sorted()
}

// kit is the state of reading one file of kit.
type kit struct {
	yamlReader
	out roomful.Kit
}

func (k *kit) space(n ast.Node) {
	metres := func(to *float64, what string, least, most float64) func(ast.Node) {
		return func(n ast.Node) { *to = k.number(n, what, least, most) }
	}
	k.keys(n, map[string]func(ast.Node){
		"length_m":  metres(&k.out.LengthM, "length_m", 1, 1000),
		"width_m":   metres(&k.out.WidthM, "width_m", 1, 1000),
		"ceiling_m": metres(&k.out.CeilingM, "ceiling_m", 1.5, 100),
	})
}

func (k *kit) stations(n ast.Node) {
	for _, p := range k.pairs(n, "stations were", "write them as {row: 6, rig: 10}") {
		word := keyOf(p)
		if !slices.Contains(roomful.StationWords, word) {
			if near := nearest(word, roomful.StationWords); near != "" {
				k.fault(nodeRange(p.Key), "did you mean "+near+"?", "station %q is not known", word)
				continue
			}
			k.warn(nodeRange(p.Key), "known are "+strings.Join(roomful.StationWords, ", "), "station %q is not known and is kept as it stands", word)
		}
		k.out.Stations[word] = k.count(p.Value, word)
	}
}

// stocks returns a reader of a list of weights, counted singly or in pairs.
func (k *kit) stocks(to *[]roomful.Stock, usual string) func(ast.Node) {
	return func(n ast.Node) {
		k.each(n, func(n ast.Node) { k.stock(to, n, usual) })
	}
}

func (k *kit) stock(to *[]roomful.Stock, n ast.Node, usual string) {
	s := roomful.Stock{Mass: roomful.Mass{Unit: k.out.Unit}, Count: -1}
	bad := len(k.all)
	readers := map[string]func(ast.Node){
		"mass":  func(n ast.Node) { s.Mass.Value = k.number(n, "mass", 0.25, 1000) },
		"unit":  func(n ast.Node) { s.Mass.Unit = k.massUnit(n) },
		"count": func(n ast.Node) { s.Count = k.count(n, "count") },
	}
	if usual == "pairs" {
		readers["pairs"] = func(n ast.Node) { s.Count = 2 * k.count(n, "pairs") }
	}
	k.keys(n, readers)
	switch {
	case len(k.all) > bad:
		return
	case s.Mass.Value == 0:
		k.fault(nodeRange(n), "write {mass: 20, "+usual+": 4}", "a weight here has no mass")
		return
	case s.Count < 0:
		s.Count = 1
		if usual == "pairs" {
			s.Count = 2
		}
		k.warn(nodeRange(n), "write {mass: "+roomful.Figure(s.Mass.Value)+", "+usual+": 4}", "%s of %s is not said, so there is one", usual, s.Mass)
	}
	*to = append(*to, s)
}

func (k *kit) boxes(n ast.Node) {
	k.each(n, func(n ast.Node) {
		b := roomful.BoxStock{Count: 1}
		k.keys(n, map[string]func(ast.Node){
			"heights_cm": func(n ast.Node) {
				k.each(n, func(n ast.Node) {
					if h := k.number(n, "heights_cm", 5, 200); h > 0 {
						b.HeightsCm = append(b.HeightsCm, h)
					}
				})
			},
			"count": func(n ast.Node) { b.Count = k.count(n, "count") },
		})
		if len(b.HeightsCm) == 0 {
			k.fault(nodeRange(n), "write {heights_cm: [50, 60], count: 8}", "a box here has no height")
			return
		}
		k.out.Boxes = append(k.out.Boxes, b)
	})
}

func (k *kit) noise(n ast.Node) {
	switch strings.ToLower(k.text(n)) {
	case "quiet":
		k.out.Quiet = true
	case "any", "":
	default:
		k.fault(nodeRange(n), "write quiet or any", "noise %q is neither quiet nor any", k.text(n))
	}
}
