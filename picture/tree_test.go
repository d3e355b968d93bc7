package picture

import (
	"encoding/xml"
	"errors"
	"io"
	"strconv"
	"strings"
	"testing"
)

// node is an element of a drawing as another reader sees it.
type node struct {
	name  string
	attrs map[string]string
	words string // directly in it
	kids  []*node
}

// parse reads markup by encoding/xml, which knows nothing of how it was written.
func parse(t interface{ Fatalf(string, ...any) }, markup string) *node {
	root := &node{name: "all"}
	open := []*node{root}
	for d := xml.NewDecoder(strings.NewReader(markup)); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return root
		}
		if err != nil {
			t.Fatalf("cannot be read as XML: %v\n%s", err, markup)
			return root
		}
		top := open[len(open)-1]
		switch x := token.(type) {
		case xml.StartElement:
			n := &node{name: x.Name.Local, attrs: map[string]string{}}
			for _, a := range x.Attr {
				n.attrs[a.Name.Local] = a.Value
			}
			top.kids, open = append(top.kids, n), append(open, n)
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			top.words += string(x)
		}
	}
}

// walk visits a node and all beneath it.
func (n *node) walk(visit func(*node)) {
	visit(n)
	for _, k := range n.kids {
		k.walk(visit)
	}
}

// find lists the elements that have a class.
func (n *node) find(class string) (found []*node) {
	n.walk(func(n *node) {
		for _, c := range strings.Fields(n.attrs["class"]) {
			if c == class {
				found = append(found, n)
			}
		}
	})
	return found
}

// length reads an attribute as a number and whether it is in percent; NaN-free, 0 when
// it is not there.
func (n *node) length(name string) (v float64, inPercent bool) {
	s, inPercent := strings.CutSuffix(n.attrs[name], "%")
	v, _ = strconv.ParseFloat(s, 64)
	return v, inPercent
}

// at reads an attribute in percent or px.
func (n *node) at(name string) float64 {
	v, _ := n.length(name)
	return v
}

// title is what a mark says on hovering.
func (n *node) title() string {
	for _, k := range n.kids {
		if k.name == "title" {
			return k.words
		}
	}
	return ""
}

// svg parses the drawing of a picture.
func svg(t testing.TB, p Picture) *node { return parse(t, string(p.SVG("p"))).kids[0] }
