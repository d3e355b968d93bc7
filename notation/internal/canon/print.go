package canon

import (
	"slices"
	"strings"

	"roomful"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/vocab"
)

// Print writes a session in the canonical form. Reading that again gives the
// same session, and printing it the same text.
func Print(s roomful.Session, lex roomful.Lexicon) string {
	p := printer{lex: lex}
	p.title(s)
	p.when(s)
	p.header("again", s.Again)
	p.header("divisions", strings.Join(s.Divisions, ", "))
	p.about(s.About)
	p.effort(s.Effort)
	for _, part := range s.Parts {
		p.gap()
		p.part(part)
	}
	return p.out.String()
}

// printer gathers the text.
type printer struct {
	lex roomful.Lexicon
	out strings.Builder
}

// line writes one line at a depth of two spaces each.
func (p *printer) line(depth int, text string) {
	p.out.WriteString(strings.Repeat("  ", depth))
	p.out.WriteString(strings.TrimRight(text, " "))
	p.out.WriteByte('\n')
}

// gap leaves a line empty, except at the top.
func (p *printer) gap() {
	if p.out.Len() > 0 {
		p.out.WriteByte('\n')
	}
}

func (p *printer) title(s roomful.Session) {
	title := strings.TrimFunc(s.Title, scan.Space)
	if title == "" {
		return
	}
	if l := scan.Scan(title); len(l) != 1 || !vocab.PlainTitle(&l[0]) || vocab.TitleText(&l[0]) != title {
		title = "title: " + title
	}
	p.line(0, title)
}

func (p *printer) when(s roomful.Session) {
	if s.DateText != "" {
		p.header("date", s.DateText)
	}
	var clauses []string
	if !s.Date.IsZero() {
		clauses = append(clauses, s.Date.String())
	}
	if s.Minutes > 0 {
		clauses = append(clauses, roomful.Figure(float64(s.Minutes))+" min")
	}
	if len(clauses) > 0 {
		p.line(0, strings.Join(clauses, ", "))
	}
}

func (p *printer) header(key, value string) {
	if value != "" {
		p.line(0, key+": "+value)
	}
}

func (p *printer) about(text string) {
	if text == "" {
		return
	}
	p.gap()
	first, rest, more := strings.Cut(text, "\n")
	p.line(0, "about: "+first)
	for more {
		first, rest, more = strings.Cut(rest, "\n")
		if first == "" {
			p.line(0, "")
			continue
		}
		p.line(1, first)
	}
}

func (p *printer) effort(e roomful.Effort) {
	var clauses []string
	if e.Stated() {
		clauses = append(clauses, Window(e))
	}
	if e.Feel != "" {
		clauses = append(clauses, e.Feel)
	}
	if len(clauses) == 0 && e.Protect == "" && len(e.Fresh) == 0 {
		return
	}
	p.gap()
	p.line(0, "effort: "+strings.Join(clauses, ", "))
	for _, f := range e.Fresh {
		p.line(1, p.name(f.Movement)+": fresh "+roomful.Figure(float64(f.Reps))+"+")
	}
	if e.Protect != "" {
		p.line(1, "protect: "+p.name(roomful.MovementID(e.Protect)))
	}
}

// Window writes what the effort aims at.
func Window(e roomful.Effort) string {
	unit := e.Unit
	if unit == "minutes" {
		unit = "min"
	}
	low, high := roomful.Figure(e.Low), roomful.Figure(e.High)
	switch {
	case e.Low == 0:
		return "under " + high + " " + unit
	case low == high:
		return high + " " + unit
	}
	return low + "-" + high + " " + unit
}

// name returns the name of a movement, or the id itself where none has it.
func (p *printer) name(id roomful.MovementID) string {
	if m := p.lex.Movement(id); m != nil {
		return m.Name
	}
	return string(id)
}

func (p *printer) part(part roomful.Part) {
	head := part.Name() + ":"
	inline := ""
	if part.Kind == roomful.Ramp && len(part.Round) == 1 && part.Round[0].Movement != "" && !part.Round[0].Amount.Stated() && part.Round[0].Slot == 0 {
		if text := p.aside(part, part.Round[0]); !strings.Contains(text, ";") {
			inline = text
		}
	}
	clauses := formatClauses(part)
	if inline != "" {
		clauses = append([]string{inline}, clauses...)
	}
	if len(clauses) > 0 {
		head += " " + strings.Join(clauses, ", ")
	}
	p.line(0, head)
	p.block("once", part, part.Once)
	switch {
	case inline != "":
	case len(part.Once)+len(part.Last) > 0 && len(part.Round) > 0:
		p.line(1, "round:")
		p.elements(part, part.Round, 2, p.inRound)
	default:
		p.elements(part, part.Round, 1, p.inRound)
	}
	p.block("last", part, part.Last)
	p.standards(part)
	p.instead(part)
	for _, note := range strings.Split(part.Note, "\n") {
		if note != "" {
			p.line(1, "note: "+note)
		}
	}
}

func (p *printer) block(key string, part roomful.Part, list []roomful.Element) {
	if len(list) > 0 {
		p.line(1, key+":")
		p.elements(part, list, 2, p.aside)
	}
}

// elements writes one element to a line; those of one slot share one.
func (p *printer) elements(part roomful.Part, list []roomful.Element, depth int, write func(roomful.Part, roomful.Element) string) {
	two := maxSlot(list) == 2
	for i := 0; i < len(list); {
		slot := list[i].Slot
		text := write(part, list[i])
		i++
		for ; slot > 0 && i < len(list) && list[i].Slot == slot && !strings.Contains(text, ";"); i++ {
			text += " + " + write(part, list[i])
		}
		switch {
		case slot == 0:
		case two:
			text = [...]string{"odd", "even"}[slot-1] + ": " + text
		default:
			text = roomful.Figure(float64(slot)) + ": " + text
		}
		p.line(depth, text)
	}
}

func maxSlot(list []roomful.Element) int {
	most := 0
	for _, e := range list {
		most = max(most, e.Slot)
	}
	return most
}

func (p *printer) standards(part roomful.Part) {
	if len(part.Standards) == 0 {
		return
	}
	p.line(1, "standards:")
	for _, s := range part.Standards {
		p.line(2, p.name(s.Movement)+": "+s.Text)
	}
}

func (p *printer) instead(part roomful.Part) {
	if len(part.Instead) == 0 {
		return
	}
	p.line(1, "instead:")
	for _, in := range part.Instead {
		var options []string
		for _, e := range in.Options {
			note := e.Note
			e.Note = ""
			text := p.option(e)
			if note != "" {
				text += " (" + note + ")"
			}
			options = append(options, text)
		}
		p.line(2, p.name(in.Movement)+": "+strings.Join(options, "; "))
	}
}

// trimNotes splits a note where it was joined.
func trimNotes(note string) []string {
	return slices.DeleteFunc(strings.Split(note, ", "), func(s string) bool { return s == "" })
}
