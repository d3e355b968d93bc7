package exchange

import (
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"

	"roomful"
)

// ReadKit reads what a room owns from YAML. Everything is optional, an unknown
// key is a fault at its line, and what a kit omits is absent. Dumbbells are
// written in pairs and kept as single pieces. The kit is nil only when nothing
// of the file could be read.
func ReadKit(r io.Reader) (*roomful.Kit, []roomful.Diagnostic) {
	k := &kit{}
	text, ok := readText(r, "the kit", &k.report)
	if !ok {
		return nil, k.sorted()
	}
	root, err := parseYAML(text)
	if err != nil {
		k.fault(errorPlace(err), "check the indent, the colons and the brackets", "the kit is not YAML: %s", firstLine(err))
		return nil, k.sorted()
	}
	if root == nil {
		k.fault(whole, "list what the room owns, such as bars: [{mass: 20, count: 10}]", "the kit is empty")
		return nil, k.sorted()
	}
	k.out.Stations = map[string]int{}
	k.keys(root, map[string]func(ast.Node){
		"unit": k.unit,
	}, true)
	k.keys(root, map[string]func(ast.Node){
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
	}, false)
	return &k.out, k.sorted()
}

// kit is the state of reading one file.
type kit struct {
	report
	out roomful.Kit
}

// parseYAML returns the one document of a YAML text, nil when there is
// nothing in it. The parser's own failures come back as errors.
func parseYAML(text string) (root ast.Node, err error) {
	defer func() {
		if broken := recover(); broken != nil {
			err = fmt.Errorf("this cannot be read")
		}
	}()
	file, err := parser.ParseBytes([]byte(text), 0)
	if err != nil {
		return nil, err
	}
	for _, d := range file.Docs {
		switch {
		case d.Body == nil:
		case root != nil:
			return nil, errors.New("there are two documents in it")
		default:
			root = d.Body
		}
	}
	return root, nil
}

// errorPlace returns where the parser stopped.
func errorPlace(err error) roomful.Range {
	var e yaml.Error
	if errors.As(err, &e) && e.GetToken() != nil {
		return tokenRange(e.GetToken())
	}
	return whole
}

// firstLine returns what the parser says, without its picture of the source.
func firstLine(err error) string {
	var e yaml.Error
	text := err.Error()
	if errors.As(err, &e) {
		text = e.GetMessage()
	}
	text, _, _ = strings.Cut(text, "\n")
	return text
}

func tokenRange(t *token.Token) roomful.Range {
	if t == nil || t.Position == nil {
		return whole
	}
	at := roomful.Position{Line: max(t.Position.Line, 1), Column: max(t.Position.Column, 1)}
	end := at
	if !strings.Contains(t.Value, "\n") {
		end.Column += len([]rune(t.Value))
	}
	return roomful.Range{Start: at, End: end}
}

func nodeRange(n ast.Node) roomful.Range {
	if n == nil {
		return whole
	}
	return tokenRange(n.GetToken())
}

// keys calls the reader of each key of a mapping. Keys without one are faults,
// unless quiet.
func (k *kit) keys(n ast.Node, readers map[string]func(ast.Node), quiet bool) {
	var pairs []*ast.MappingValueNode
	switch n := n.(type) {
	case *ast.MappingNode:
		pairs = n.Values
	case *ast.MappingValueNode:
		pairs = []*ast.MappingValueNode{n}
	case *ast.NullNode:
	default:
		if !quiet {
			k.fault(nodeRange(n), "write key: value lines", "a list of keys was expected here")
		}
	}
	for _, p := range pairs {
		name := p.Key.String()
		if read, ok := readers[name]; ok {
			read(p.Value)
		} else if !quiet {
			k.unknownKey(p.Key, name, readers)
		}
	}
}

func (k *kit) unknownKey(at ast.Node, name string, readers map[string]func(ast.Node)) {
	var known []string
	for r := range readers {
		known = append(known, r)
	}
	slices.Sort(known)
	k.fault(nodeRange(at), didYouMean(name, known, "keys here are "+strings.Join(known, ", ")), "key %q is not known", name)
}

// each calls read for every entry of a sequence.
func (k *kit) each(n ast.Node, read func(ast.Node)) {
	switch n := n.(type) {
	case *ast.SequenceNode:
		for _, v := range n.Values {
			read(v)
		}
	case *ast.NullNode:
	default:
		k.fault(nodeRange(n), "write it as a list, [ … ]", "a list was expected here")
	}
}

// text reads a word or a line.
func (k *kit) text(n ast.Node) string {
	switch n := n.(type) {
	case *ast.StringNode:
		return n.Value
	case *ast.LiteralNode:
		return strings.TrimSpace(n.Value.Value)
	case *ast.NullNode:
		return ""
	case ast.ScalarNode:
		return n.GetToken().Value
	}
	k.fault(nodeRange(n), "write a word", "a word was expected here")
	return ""
}

// number reads a figure between least and most.
func (k *kit) number(n ast.Node, what string, least, most float64) float64 {
	var text string
	switch n.(type) {
	case *ast.IntegerNode, *ast.FloatNode, *ast.StringNode:
		text = n.GetToken().Value
	}
	v, ok := plainNumber(text)
	switch {
	case !ok:
		k.fault(nodeRange(n), "write a plain number", "%s is not a number", what)
	case v < 0:
		k.fault(nodeRange(n), "leave it out when there is none", "%s is below zero", what)
	case v < least || v > most:
		k.fault(nodeRange(n), "it lies between "+roomful.Figure(least)+" and "+roomful.Figure(most), "%s %s cannot be right", what, text)
	default:
		return v
	}
	return 0
}

// most bounds what a room can own of one thing.
const mostPieces = 10000

// count reads a whole number of things.
func (k *kit) count(n ast.Node, what string) int {
	v := k.number(n, what, 0, mostPieces)
	if v != float64(int(v)) {
		k.fault(nodeRange(n), "write a whole number", "%s %s is not a whole number", what, strconv.FormatFloat(v, 'f', -1, 64))
		return 0
	}
	return int(v)
}

func (k *kit) unit(n ast.Node) { k.out.Unit = k.massUnit(n) }

func (k *kit) massUnit(n ast.Node) roomful.MassUnit {
	switch strings.ToLower(k.text(n)) {
	case "kg":
	case "lb", "lbs":
		return roomful.Pound
	default:
		k.fault(nodeRange(n), "write kg or lb", "unit %q is neither kg nor lb", k.text(n))
	}
	return roomful.Kilogram
}

func (k *kit) space(n ast.Node) {
	metres := func(to *float64, what string, least, most float64) func(ast.Node) {
		return func(n ast.Node) { *to = k.number(n, what, least, most) }
	}
	k.keys(n, map[string]func(ast.Node){
		"length_m":  metres(&k.out.LengthM, "length_m", 1, 1000),
		"width_m":   metres(&k.out.WidthM, "width_m", 1, 1000),
		"ceiling_m": metres(&k.out.CeilingM, "ceiling_m", 1.5, 100),
	}, false)
}

// stationWords are the shared places a room usually lists.
var stationWords = []string{"row", "ski", "bike", "fan-bike", "rig", "wall-target", "lane", "bench", "sled", "climbing-rope", "rack"}

func (k *kit) stations(n ast.Node) {
	var pairs []*ast.MappingValueNode
	switch n := n.(type) {
	case *ast.MappingNode:
		pairs = n.Values
	case *ast.MappingValueNode:
		pairs = []*ast.MappingValueNode{n}
	case *ast.NullNode:
	default:
		k.fault(nodeRange(n), "write them as {row: 6, rig: 10}", "stations were expected here")
	}
	for _, p := range pairs {
		word := p.Key.String()
		if !slices.Contains(stationWords, word) {
			if near := nearest(word, stationWords); near != "" {
				k.fault(nodeRange(p.Key), "did you mean "+near+"?", "station %q is not known", word)
				continue
			}
			k.warn(nodeRange(p.Key), "known are "+strings.Join(stationWords, ", "), "station %q is not known and is kept as it stands", word)
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
	k.keys(n, readers, false)
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
		}, false)
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
