package notation

import (
	"strings"

	"roomful"
	"roomful/notation/internal/phrase"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/settle"
	"roomful/notation/internal/vocab"
)

// parser holds a sheet while it is read.
type parser struct {
	settle.Draft
	at        int       // the next line
	part      *openPart // the one that lines belong to, nil before the first
	said      map[string]scan.Span
	nextLabel string       // the letter of "Part B" before the next piece
	then      bool         // the next piece follows without a pause
	early     phrase.Facts // said before the first piece, "in pairs, you go I go"
	loose     scan.Span    // the first line of prose before the parts
}

// sheet = [ title ] [ when ] { header } { part } .
func (p *parser) sheet() {
	p.said = map[string]scan.Span{}
	for p.at < len(p.Lines) && p.Lines[p.at].Blank() {
		p.at++
	}
	if p.at < len(p.Lines) && vocab.PlainTitle(&p.Lines[p.at]) {
		p.Session.Title = vocab.TitleText(&p.Lines[p.at])
		p.at++
	}
	for p.at < len(p.Lines) {
		l := &p.Lines[p.at]
		p.at++
		p.line(l)
	}
	if !p.loose.IsZero() {
		p.Hint(p.loose, "prose before the first part is read as the story", "write about: before it")
	}
}

// line reads one line where it stands: a header, the head of a part, or what
// belongs to the part before.
func (p *parser) line(l *scan.Line) {
	p.NextLine()
	if l.Label == 0 && len(l.Tokens) > 3 && l.Words[0] == "set" && l.Tokens[1].Kind == scan.Number && l.Words[2] == ":" {
		l = l.Part(3, len(l.Tokens)) // set 1: 5 @ 65 %
	}
	switch {
	case l.Blank():
		p.pause()
	case l.Cut && !p.header(l):
		p.tooLong(l)
	case l.Cut:
	case p.header(l), p.byTheClock(l), p.splitAtThen(l), p.splitAtSlots(l), p.head(l):
	case p.part == nil:
		p.preamble(l)
	default:
		p.partLine(l)
	}
}

// tooLong keeps a line with more on it than anybody writes: as a note of the
// part, or as the story.
func (p *parser) tooLong(l *scan.Line) {
	if p.part == nil {
		p.addAbout(strings.TrimSpace(l.Raw))
		return
	}
	if c := scan.Over(l); c.Take("note") && c.Mark(":") {
		p.part.Notes = append(p.part.Notes, l.Text(c.I))
		return
	}
	p.Fault(l.Whole(), "the line is too long to read", "write one movement to a line")
	p.part.Notes = append(p.part.Notes, strings.TrimSpace(l.Raw))
}

// preamble reads a line before the first part that is no header: a date, a
// piece that needs no head, or prose.
func (p *parser) preamble(l *scan.Line) {
	switch {
	case p.when(l):
	case p.belowNought(l):
	case p.Session.Title == "" && p.loose.IsZero() && vocab.PlainTitle(l):
		p.Session.Title = vocab.TitleText(l)
	case p.partLabel(l):
	case p.looseHead(l):
	case p.looseBlock(l):
	case p.earlyClauses(l):
	case p.looseElement(l):
	case p.Session.Title == "" && p.loose.IsZero() && p.onlyTitle(l):
		p.Session.Title = vocab.TitleText(l)
		p.Hint(l.Whole(), "read as the title", "write title: before it, or main: if it is work to do")
	default:
		p.addAbout(strings.TrimSpace(l.Raw))
		if p.loose.IsZero() {
			p.loose = l.Whole()
		}
	}
}

// looseBlock reads "buy-in: 1 km row" before any head: it begins a main piece.
func (p *parser) looseBlock(l *scan.Line) bool {
	c := scan.Over(l)
	if !c.TakeAny("once", "buy-in", "buy in") || !c.Mark(":") {
		return false
	}
	p.begin(l, roomful.Main, "")
	p.partLine(l)
	return true
}

// earlyClauses keeps a line of nothing but clauses for the piece that follows:
// "in teams of 3, you go I go", "cap 15 min".
func (p *parser) earlyClauses(l *scan.Line) bool {
	r := p.Probe(scan.Over(l), true)
	r.Run()
	f := &r.F
	if len(r.Elements)+len(f.Notes) > 0 || f.Structured() || f.TeamAt.IsZero() && !f.Cap.Set() && !f.NotScored && f.Score == "" {
		return false
	}
	r = p.Reader(l, true)
	r.Run()
	p.early.Merge(&r.F, p.Clash)
	return true
}

// belowNought says when a format before the first part cannot be read for a
// figure below nought, and keeps the line in the story.
func (p *parser) belowNought(l *scan.Line) bool {
	if !looksLikeHead(l) {
		return false
	}
	for i := 1; i+1 < len(l.Tokens); i++ {
		if t := l.Tokens[i]; t.Text == "-" && !t.Tight && l.Tokens[i+1].Kind == scan.Number && l.Tokens[i+1].Tight {
			if p.looseHead(l) {
				return true
			}
			p.Fault(l.Span(i, i+2), "a figure below nought", "write "+l.Slice(i+1, i+2))
			p.addAbout(strings.TrimSpace(l.Raw))
			return true
		}
	}
	return false
}

// onlyTitle reports whether a line can only be a title: it is short and no
// sentence.
func (p *parser) onlyTitle(l *scan.Line) bool { return len([]rune(l.Raw)) <= 60 && !prose(l) }

// header = "title:" | "date:" | "again:" | "divisions:" | "about:" | "effort:" .
func (p *parser) header(l *scan.Line) bool {
	c := scan.Over(l)
	key, ok := c.Key("title", "date", "again", "divisions", "about", "effort", "goal", "target", "intent")
	if !ok {
		return false
	}
	at := l.Span(0, c.I)
	switch key {
	case "goal", "target", "intent":
		key = "effort"
	}
	if first, twice := p.said[key]; twice && key != "about" {
		p.Fault(at, key+" is said twice", "it stands at line "+roomful.Figure(float64(first.Line))+" already: delete one of them")
		p.addAbout(l.Text(c.I))
		return true
	}
	p.said[key] = at
	p.headerValue(key, l, c)
	return true
}

// headerValue reads what follows the key of a header.
func (p *parser) headerValue(key string, l *scan.Line, c scan.Cursor) {
	switch key {
	case "title":
		p.Session.Title = strings.TrimFunc(l.Text(c.I), scan.Space)
	case "date":
		rest := *l
		rest.Tokens = l.Tokens[c.I:]
		rest.Words = l.Words[c.I:]
		if rest.Blank() || !p.when(&rest) {
			p.Fault(l.Span(c.I, c.Last), "no date I can read", "write the date as 2027-03-04")
			p.Session.DateText = l.Text(c.I)
		}
	case "again":
		p.Session.Again = l.Text(c.I)
		if p.Session.Again == "" {
			p.Warn(l.Whole(), "again: without a title", "write the title of the earlier session")
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
func (p *parser) divisions(l *scan.Line, c scan.Cursor) {
	var names []string
	for _, name := range strings.FieldsFunc(l.Text(c.I), func(r rune) bool { return r == ',' || r == '/' || r == ';' }) {
		if name = strings.TrimSpace(name); name != "" {
			names = append(names, name)
		}
	}
	p.Session.Divisions, p.DivisionNames = names, names
	if len(names) != 2 {
		p.Fault(l.Span(min(c.I, len(l.Tokens)-1), c.Last), "a sheet has two divisions or none", "write divisions: north, south")
	}
}

// about = text { indented line } .
func (p *parser) about(l *scan.Line, c scan.Cursor) {
	text := []string{l.Text(c.I)}
	for p.at < len(p.Lines) {
		next := &p.Lines[p.at]
		if next.Blank() && strings.TrimSpace(next.Raw) == "" {
			if p.at+1 == len(p.Lines) || p.Lines[p.at+1].Blank() || p.Lines[p.at+1].Indent <= l.Indent {
				break
			}
		} else if next.Indent <= l.Indent {
			break
		}
		p.at++
		text = append(text, strings.TrimSpace(next.Raw))
	}
	p.addAbout(strings.TrimSpace(strings.Join(text, "\n")))
}

// addAbout adds a paragraph to the story.
func (p *parser) addAbout(text string) {
	switch {
	case text == "":
	case p.Session.About == "":
		p.Session.About = text
	default:
		p.Session.About += "\n" + text
	}
}
