package exchange

import (
	"cmp"
	"errors"
	"fmt"
	"io"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/goccy/go-yaml"
	"github.com/goccy/go-yaml/ast"
	"github.com/goccy/go-yaml/parser"
	"github.com/goccy/go-yaml/token"

	"roomful"
)

// yamlReader walks a YAML document, saying what is wrong at its place and
// reading on.
type yamlReader struct {
	report
	form string // what the writer calls the form, when it is not YAML
}

// document reads the keys of the one document of a file; ok is false when
// nothing can be used.
func (y *yamlReader) document(r io.Reader, what, hint string) (pairs []*ast.MappingValueNode, ok bool) {
	text, ok := readText(r, what, &y.report)
	if !ok {
		return nil, false
	}
	root, err := parseYAML(text)
	switch {
	case err != nil:
		y.fault(errorPlace(err), y.formHint(), "%s is not %s: %s", what, cmp.Or(y.form, "YAML"), firstLine(err))
	case root == nil:
		y.fault(whole, hint, "%s is empty", what)
	default:
		return y.pairs(root, listOfKeys, keysHint), true
	}
	return nil, false
}

// formHint says where to look when the form itself is broken. Indents mean
// nothing in JSON.
func (y *yamlReader) formHint() string {
	if y.form == "JSON" {
		return "check the commas, the quotes and the brackets"
	}
	return "check the indent, the colons and the brackets"
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

// pairs lists the keys of a mapping with their values, none when n is not one.
func (y *yamlReader) pairs(n ast.Node, what, hint string) []*ast.MappingValueNode {
	switch n := n.(type) {
	case *ast.MappingNode:
		return n.Values
	case *ast.MappingValueNode:
		return []*ast.MappingValueNode{n}
	case *ast.NullNode:
	default:
		y.fault(nodeRange(n), hint, "%s expected here", what)
	}
	return nil
}

// keyOf is the name of a key, without quotes.
func keyOf(p *ast.MappingValueNode) string { return p.Key.GetToken().Value }

// keys calls the reader of each key of a mapping. Keys without one are faults.
func (y *yamlReader) keys(n ast.Node, readers map[string]func(ast.Node)) {
	y.read(y.pairs(n, listOfKeys, keysHint), readers)
}

// What a mapping is called, and how it is written.
const listOfKeys, keysHint = "a list of keys was", "write key: value lines"

// read calls the reader of each key. Keys without one are faults.
func (y *yamlReader) read(pairs []*ast.MappingValueNode, readers map[string]func(ast.Node)) {
	for _, p := range pairs {
		if read, ok := readers[keyOf(p)]; ok {
			read(p.Value)
		} else {
			y.unknownKey(p, slices.Sorted(maps.Keys(readers)))
		}
	}
}

// unknownKey says which keys there are.
func (y *yamlReader) unknownKey(p *ast.MappingValueNode, known []string) {
	name := keyOf(p)
	y.fault(nodeRange(p.Key), didYouMean(name, known, "keys here are "+strings.Join(known, ", ")), "key %q is not known", name)
}

// each calls read for every entry of a sequence.
func (y *yamlReader) each(n ast.Node, read func(ast.Node)) {
	switch n := n.(type) {
	case *ast.SequenceNode:
		for _, v := range n.Values {
			read(v)
		}
	case *ast.NullNode:
	default:
		y.fault(nodeRange(n), "write it as a list, [ … ]", "a list was expected here")
	}
}

// text reads a word or a line.
func (y *yamlReader) text(n ast.Node) string {
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
	y.fault(nodeRange(n), "write a word", "a word was expected here")
	return ""
}

// number reads a figure between least and most.
func (y *yamlReader) number(n ast.Node, what string, least, most float64) float64 {
	var text string
	switch n.(type) {
	case *ast.IntegerNode, *ast.FloatNode, *ast.StringNode:
		text = n.GetToken().Value
	}
	v, ok := plainNumber(text)
	if y.form == "JSON" && written.MatchString(text) {
		v, ok = reckoned(text), true
	}
	switch {
	case !ok:
		y.fault(nodeRange(n), "write a plain number", "%s is not a number", what)
	case v < 0:
		y.fault(nodeRange(n), "leave it out when there is none", "%s is below zero", what)
	case v < least || v > most:
		y.fault(nodeRange(n), "it lies between "+roomful.Figure(least)+" and "+roomful.Figure(most), "%s %s cannot be right", what, text)
	default:
		return v
	}
	return 0
}

// written matches a number as programs write it and people do not: with many
// digits or an exponent.
var written = regexp.MustCompile(`^-?\d+(\.\d+)?([eE][-+]?\d+)?$`)

// reckoned is the value of such a number, infinite when it is too large.
func reckoned(text string) float64 {
	v, _ := strconv.ParseFloat(text, 64) // out of range is infinite, and refused as that
	return v
}

// most bounds what a room can own of one thing.
const mostPieces = 10000

// count reads a whole number of things.
func (y *yamlReader) count(n ast.Node, what string) int {
	v := y.number(n, what, 0, mostPieces)
	if v != float64(int(v)) {
		y.fault(nodeRange(n), "write a whole number", "%s %s is not a whole number", what, strconv.FormatFloat(v, 'f', -1, 64))
		return 0
	}
	return int(v)
}

func (y *yamlReader) massUnit(n ast.Node) roomful.MassUnit {
	switch strings.ToLower(y.text(n)) {
	case "kg":
	case "lb", "lbs":
		return roomful.Pound
	default:
		y.fault(nodeRange(n), "write kg or lb", "unit %q is neither kg nor lb", y.text(n))
	}
	return roomful.Kilogram
}
