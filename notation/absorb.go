package notation

import (
	"strings"

	"roomful"
	"roomful/notation/internal/canon"
	"roomful/notation/internal/diag"
	"roomful/notation/internal/phrase"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/settle"
	"roomful/notation/internal/vocab"
)

// absorb adds what a line says to the part: clauses to its facts, elements to
// the block that lines belong to now.
func (p *parser) absorb(r *phrase.Reading) {
	pt := p.part
	pt.Facts.Merge(&r.F, func(what string, second scan.Span) {
		if what == "ladder" {
			p.Fault(second, "a second ladder in one piece", "write the rounds out line by line, or two pieces, main a: and main b:").Detail = "the second is kept as a note"
		} else {
			p.Clash(what, second)
		}
		pt.Keep(p.TextAt(second))
	})
	p.LadderPart = p.LadderPart || !r.F.LadderAt.IsZero()
	if r.Counts != roomful.Rep {
		pt.Counts = r.Counts
	}
	for _, in := range r.Instead {
		pt.Instead = append(pt.Instead, in)
		pt.InsteadAt = append(pt.InsteadAt, r.C.Whole())
	}
	list := pt.list()
	if *list == nil && len(r.Elements) > 0 {
		*list = make([]phrase.Element, 0, 6) // as many as a round usually has
	}
	for _, d := range r.Elements {
		d.Label = r.C.Label
		if r.C.Letter != "" && d.Label == 0 {
			d.Label = int(r.C.Letter[0]-'a') + 1
		}
		d.Slot = pt.slot
		switch {
		case d.Move == nil && p.IsRemark(pt.Kind, &d):
			p.part.Notes = append(p.part.Notes, d.Words)
			p.Hint(d.NameOrPlace(), diag.Quote(d.Words)+" is kept as a note", "write note: before it to keep this quiet")
			continue
		case d.Move != nil || d.Words != "" && p.CanName(d.Words):
		case d.Words == "" && len(*list) > 0 && heritable(&d, &(*list)[len(*list)-1]):
			p.inherit(&d, list)
		default:
			p.noMovement(&d)
			continue
		}
		*list = append(*list, d)
	}
}

// noMovement keeps an element that says how much but not of what.
func (p *parser) noMovement(d *phrase.Element) {
	var words []string
	for _, text := range [...]string{canon.AmountText(d.Amount), d.Words, canon.LoadText(d.Element), canon.HeightText(d.Heights), d.Note} {
		if text != "" {
			words = append(words, text)
		}
	}
	if d.Amount.Stated() || d.Load != nil || d.Words != "" {
		p.Say(settle.Severity(p.part.Kind), d.At, "no movement is named", "kept as a note", "write what is done, such as 10 burpees")
	}
	p.part.Notes = append(p.part.Notes, strings.Join(words, " "))
}

// heritable reports whether an element without a name says how much of the one
// before it.
func heritable(d, last *phrase.Element) bool {
	if last.Move == nil || !d.Amount.Stated() && d.Load == nil {
		return false
	}
	base := d.Amount.Unit.Base()
	return base == roomful.Rep || base == roomful.Second || vocab.Counts(last.Move, base)
}

// inherit gives "3 @ 80 %" the movement of the line before. A movement named at
// the head alone gives way to the lines that say how much.
func (p *parser) inherit(d *phrase.Element, list *[]phrase.Element) {
	last := (*list)[len(*list)-1]
	if d.Amount.Stated() && d.Amount.Unit == roomful.Rep && !vocab.Counts(last.Move, roomful.Rep) {
		if d.Amount.Unit = last.Amount.Unit; d.Amount.Unit == roomful.Rep {
			d.Amount.Unit = last.Move.Units[0]
		}
		p.Warn(d.At, "no unit: read as "+d.Amount.Unit.String(), "add the unit")
	}
	d.Move, d.Movement, d.Words, d.NameAt = last.Move, last.Movement, last.Words, last.NameAt
	if !last.Amount.Stated() && last.Load == nil && last.Note == "" && (last.FromHead || last.Line != d.Line) {
		*list = (*list)[:len(*list)-1]
	}
}

// elements reads elements, and clauses between them, into the current block.
func (p *parser) elements(l *scan.Line, c scan.Cursor) {
	r := p.ReaderOf(c, false)
	r.Scored = vocab.Scored(p.part.Kind)
	r.RepsKnown = p.part.Facts.Reps.Set() || p.part.Facts.Each.Set() || !p.part.Facts.Stations.IsZero()
	r.Run()
	p.multiply(r)
	p.placeSuffix(l, r)
	p.absorb(r)
}

// multiply reads "4 x 25 m" within a piece that has a format of its own as the
// whole amount.
func (p *parser) multiply(r *phrase.Reading) {
	pt, f := p.part, &r.F
	if !f.Times.Set() || f.Work.Set() || len(r.Elements) != 1 || f.Times.N < 1 || f.Times.N > 200 || vocab.Scored(pt.Kind) && !pt.Facts.TimedFormat() && !pt.Facts.Rounds.Set() {
		return
	}
	d := &r.Elements[0]
	if f.Reps.Set() && !d.Amount.Stated() && p.TakesReps(d) {
		d.Amount = roomful.Amount{By: []float64{float64(f.Reps.N)}}
	}
	if !d.Amount.Stated() {
		return
	}
	for i := range d.Amount.By {
		d.Amount.By[i] = min(d.Amount.By[i]*float64(f.Times.N), scan.Largest)
	}
	p.Hint(f.Times.At, "read as "+canon.AmountText(d.Amount)+" in all", "write the whole amount")
	f.Times, f.Reps = phrase.Count{}, phrase.Count{}
}
