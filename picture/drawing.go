package picture

import (
	"encoding/xml"
	"math"
	"strconv"
	"strings"
)

// drawing gathers elements in the order in which they are painted. Attributes are given
// as name, value, name, value.
type drawing struct{ strings.Builder }

// open writes the start of an element that holds others.
func (d *drawing) open(name string, attributes ...string) {
	d.start(name, attributes)
	d.WriteString(">")
}

// close writes the end of such an element.
func (d *drawing) close(name string) { d.WriteString("</" + name + ">") }

// put writes an element that holds nothing.
func (d *drawing) put(name string, attributes ...string) {
	d.start(name, attributes)
	d.WriteString("/>")
}

// words writes an element that holds words.
func (d *drawing) words(name, words string, attributes ...string) {
	d.open(name, attributes...)
	d.WriteString(escape(words))
	d.close(name)
	if name == "text" {
		d.WriteString("\n") // what is copied or read aloud does not run together
	}
}

// raw writes what an earlier drawing has gathered.
func (d *drawing) raw(markup string) { d.WriteString(markup) }

// start writes an element up to its last attribute.
func (d *drawing) start(name string, attributes []string) {
	d.WriteString("<" + name)
	for i := 0; i+1 < len(attributes); i += 2 {
		d.WriteString(" " + attributes[i] + `="` + escape(attributes[i+1]) + `"`)
	}
}

// line writes a straight line from one place to another, each in percent or px.
func (d *drawing) line(class string, x1, y1, x2, y2 string) {
	d.put("line", "class", class, "x1", x1, "y1", y1, "x2", x2, "y2", y2)
}

// plot opens a field within the drawing in which percentages are of the field's width.
// Close it as svg.
func (d *drawing) plot(leftPercent, widthPercent float64) {
	d.open("svg", "class", "pic-plot", "x", percent(leftPercent), "width", percent(widthPercent), "overflow", "visible")
}

// escape makes words safe between tags and in an attribute. What no XML may hold
// becomes the mark for an unreadable character.
func escape(words string) string {
	var b strings.Builder
	_ = xml.EscapeText(&b, []byte(words)) // a strings.Builder never fails
	return b.String()
}

// safeID keeps what is plain in an id.
func safeID(prefix string) string {
	plain := strings.Map(func(r rune) rune {
		switch {
		case r >= 'a' && r <= 'z', r >= 'A' && r <= 'Z', r >= '0' && r <= '9', r == '-', r == '_':
			return r
		}
		return '-'
	}, prefix)
	if plain == "" || plain[0] < 'A' {
		plain = "pic" + plain // an id begins with a letter
	}
	return plain
}

// px writes a length in px to a hundredth.
func px(v float64) string { return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64) }

// percent writes a share of the width in percent: three decimals are a hundredth of a px
// on the widest page.
func percent(v float64) string {
	return strconv.FormatFloat(math.Round(v*1000)/1000, 'f', -1, 64) + "%"
}
