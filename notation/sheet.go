package notation

import (
	"strings"

	"roomful"
)

// parser holds a sheet while it is read.
type parser struct {
	draft
	at        int       // the next line
	part      *openPart // the one that lines belong to, nil before the first
	said      map[string]span
	nextLabel string // the letter of "Part B" before the next piece
	then      bool   // the next piece follows without a pause
	loose     span   // the first line of prose before the parts
}

// sheet = [ title ] [ when ] { header } { part } .
func (p *parser) sheet() {
	p.said = map[string]span{}
	for p.at < len(p.lines) && p.lines[p.at].blank() {
		p.at++
	}
	if p.at < len(p.lines) && plainTitle(&p.lines[p.at]) {
		p.session.Title = titleText(&p.lines[p.at])
		p.at++
	}
	for p.at < len(p.lines) {
		l := &p.lines[p.at]
		p.at++
		p.line(l)
	}
	if !p.loose.isZero() {
		p.hint(p.loose, "prose before the first part is read as the story", "write about: before it")
	}
}

// line reads one line where it stands: a header, the head of a part, or what
// belongs to the part before.
func (p *parser) line(l *line) {
	p.nextLine()
	switch {
	case l.blank():
		p.pause()
	case l.cut && !p.header(l):
		p.tooLong(l)
	case l.cut:
	case p.header(l), p.head(l):
	case p.part == nil:
		p.preamble(l)
	default:
		p.partLine(l)
	}
}

// tooLong keeps a line with more on it than anybody writes: as a note of the
// part, or as the story.
func (p *parser) tooLong(l *line) {
	if p.part == nil {
		p.addAbout(strings.TrimSpace(l.raw))
		return
	}
	if c := at(l); c.take("note") && c.mark(":") {
		p.part.notes = append(p.part.notes, l.text(c.i))
		return
	}
	p.fault(l.whole(), "the line is too long to read", "write one movement to a line")
	p.part.notes = append(p.part.notes, strings.TrimSpace(l.raw))
}

// preamble reads a line before the first part that is no header: a date, a
// piece that needs no head, or prose.
func (p *parser) preamble(l *line) {
	switch {
	case p.when(l):
	case p.session.Title == "" && p.loose.isZero() && plainTitle(l):
		p.session.Title = titleText(l)
	case p.partLabel(l):
	case p.looseHead(l):
	case p.looseElement(l):
	case p.session.Title == "" && p.loose.isZero() && p.onlyTitle(l):
		p.session.Title = titleText(l)
	default:
		p.addAbout(strings.TrimSpace(l.raw))
		if p.loose.isZero() {
			p.loose = l.whole()
		}
	}
}

// onlyTitle reports whether a line can only be a title: it is short and no
// sentence.
func (p *parser) onlyTitle(l *line) bool { return len([]rune(l.raw)) <= 60 && !prose(l) }

// header = "title:" | "date:" | "again:" | "divisions:" | "about:" | "effort:" .
func (p *parser) header(l *line) bool {
	c := at(l)
	key, ok := c.key("title", "date", "again", "divisions", "about", "effort", "goal", "target", "intent")
	if !ok {
		return false
	}
	at := l.span(0, c.i)
	switch key {
	case "goal", "target", "intent":
		key = "effort"
	}
	if first, twice := p.said[key]; twice && key != "about" {
		p.fault(at, key+" is said twice", "it stands at line "+roomful.Figure(float64(first.line))+" already: delete one of them")
		p.addAbout(l.text(c.i))
		return true
	}
	p.said[key] = at
	p.headerValue(key, l, c)
	return true
}

// headerValue reads what follows the key of a header.
func (p *parser) headerValue(key string, l *line, c cursor) {
	switch key {
	case "title":
		p.session.Title = strings.TrimFunc(l.text(c.i), space)
	case "date":
		rest := *l
		rest.tokens = l.tokens[c.i:]
		rest.words = l.words[c.i:]
		if rest.blank() || !p.when(&rest) {
			p.fault(l.span(c.i, c.last), "no date I can read", "write the date as 2027-03-04")
			p.addAbout(l.text(c.i))
		}
	case "again":
		p.session.Again = l.text(c.i)
		if p.session.Again == "" {
			p.warn(l.whole(), "again: without a title", "write the title of the earlier session")
		}
	case "divisions":
		p.divisions(l, c)
	case "about":
		p.about(l, c)
	case "effort":
		p.effort(l, c)
	}
}

// divisions = word "," word .
func (p *parser) divisions(l *line, c cursor) {
	var names []string
	for _, name := range strings.FieldsFunc(l.text(c.i), func(r rune) bool { return r == ',' || r == '/' || r == ';' }) {
		if name = strings.TrimSpace(name); name != "" {
			names = append(names, name)
		}
	}
	p.session.Divisions, p.divisionNames = names, names
	if len(names) != 2 {
		p.fault(l.span(min(c.i, len(l.tokens)-1), c.last), "a sheet has two divisions or none", "write divisions: north, south")
	}
}

// about = text { indented line } .
func (p *parser) about(l *line, c cursor) {
	text := []string{l.text(c.i)}
	for p.at < len(p.lines) {
		next := &p.lines[p.at]
		if next.blank() && strings.TrimSpace(next.raw) == "" {
			if p.at+1 == len(p.lines) || p.lines[p.at+1].blank() || p.lines[p.at+1].indent <= l.indent {
				break
			}
		} else if next.indent <= l.indent {
			break
		}
		p.at++
		text = append(text, strings.TrimSpace(next.raw))
	}
	p.addAbout(strings.TrimSpace(strings.Join(text, "\n")))
}

// addAbout adds a paragraph to the story.
func (p *parser) addAbout(text string) {
	switch {
	case text == "":
	case p.session.About == "":
		p.session.About = text
	default:
		p.session.About += "\n" + text
	}
}
