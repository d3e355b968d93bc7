package picture

import "html/template"

// Shape stands for an option, the same wherever the option is: on the day, a card, the
// screen and paper. A word always stands beside it.
type Shape uint8

// The shapes, in the order of the options of a day. None is for who stands on none.
const (
	None Shape = iota
	Disc
	Triangle
	Square
	Lozenge
)

// ShapeOf returns the shape of an option of the day, counted from 0; None beyond the
// four that a day may have.
func ShapeOf(option int) Shape {
	if option < 0 || option > 3 {
		return None
	}
	return Shape(option + 1)
}

// String returns the shape as a word.
func (s Shape) String() string {
	if s > Lozenge {
		s = None
	}
	return [...]string{"no option", "disc", "triangle", "square", "lozenge"}[s]
}

// SVG writes the shape to stand in a line of text, as tall as its letters. It says its
// word to who cannot see it; the option's name has to stand beside it.
func (s Shape) SVG() template.HTML {
	d := &drawing{}
	d.open("svg", "xmlns", "http://www.w3.org/2000/svg", "class", "pic-shape", "viewBox", "-8 -8 16 16",
		"width", "16", "height", "16", "role", "img", "aria-label", s.String())
	s.outline(d, "pic-solid")
	d.close("svg")
	return template.HTML(d.String())
}

// shapePx is how far a shape reaches at most from its middle.
const shapePx = 7

// outline draws the shape around the origin. The shapes cover about the same area, so
// that none looks more important.
func (s Shape) outline(d *drawing, class string) {
	switch s {
	case Disc:
		d.put("circle", "class", class, "r", "5.8")
	case Triangle:
		d.put("path", "class", class, "d", "M0-6.6 6.8 5.4H-6.8Z")
	case Square:
		d.put("path", "class", class, "d", "M-5.2-5.2H5.2V5.2H-5.2Z")
	case Lozenge:
		d.put("path", "class", class, "d", "M0-7 6.4 0 0 7-6.4 0Z")
	default:
		d.put("path", "class", class, "d", "M-1.5-6H1.5V6H-1.5Z")
	}
}

// mark draws the shape around a place, which is in percent of a plot or in px, with what
// it says on hovering.
func (d *drawing) mark(s Shape, class, says, x, y string) {
	d.open("svg", "class", "pic-mark", "x", x, "y", y, "overflow", "visible")
	if says != "" {
		d.words("title", says)
	}
	s.outline(d, class)
	d.close("svg")
}
