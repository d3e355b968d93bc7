package picture

import "html/template"

// Picture is a drawing, and what it says in words and figures.
type Picture struct {
	Title string // what is drawn
	Desc  string // what is to be seen, in a sentence or two
	Table Table  // everything drawn, as figures

	class  string  // of the drawing, beside pic
	height float64 // in px
	grows  float64 // the width in px of a drawing that grows as a whole; 0 for others
	draw   func(d *drawing, id string)
}

// Table is what a picture draws as words and figures. The first cell of a row names it.
type Table struct {
	Caption string
	Head    []string
	Rows    [][]string
}

// SVG writes the drawing to stand in a page. The prefix makes the ids in it the page's
// only ones: every picture of a page has another.
func (p Picture) SVG(prefix string) template.HTML {
	id := safeID(prefix)
	d := &drawing{}
	box := []string{"width", "100%", "height", px(p.height)}
	if p.grows > 0 {
		box = []string{"viewBox", "0 0 " + px(p.grows) + " " + px(p.height), "width", "100%"}
	}
	d.open("svg", append([]string{
		"xmlns", "http://www.w3.org/2000/svg", "class", "pic pic-" + p.class, "role", "img",
		"aria-labelledby", id + "-title", "aria-describedby", id + "-desc",
	}, box...)...)
	d.words("title", p.Title, "id", id+"-title")
	d.words("desc", p.Desc, "id", id+"-desc")
	p.draw(d, id)
	d.close("svg")
	return template.HTML(d.String()) // every word of it went through escape
}

// Figure writes the drawing with its table folded beneath it, open on paper. A table
// without rows is left out: the drawing says then that there is nothing yet.
func (p Picture) Figure(prefix string) template.HTML {
	d := &drawing{}
	d.open("figure", "class", "pic-figure pic-figure-"+p.class)
	d.raw(string(p.SVG(prefix)))
	if len(p.Table.Rows) > 0 {
		d.open("details", "class", "pic-data")
		d.words("summary", p.Title+", in figures")
		d.raw(string(p.Table.HTML()))
		d.close("details")
	}
	d.close("figure")
	return template.HTML(d.String())
}

// HTML writes the table.
func (t Table) HTML() template.HTML {
	d := &drawing{}
	d.open("div", "class", "wide", "tabindex", "0", "role", "group", "aria-label", t.Caption)
	d.open("table")
	d.words("caption", t.Caption)
	d.open("thead")
	d.open("tr")
	for _, h := range t.Head {
		d.words("th", h, "scope", "col")
	}
	d.close("tr")
	d.close("thead")
	d.open("tbody")
	for _, row := range t.Rows {
		d.open("tr")
		for i, cell := range row {
			if i == 0 {
				d.words("th", cell, "scope", "row", "dir", "auto")
				continue
			}
			d.words("td", cell, "dir", "auto")
		}
		d.close("tr")
	}
	d.close("tbody")
	d.close("table")
	d.close("div")
	return template.HTML(d.String())
}
