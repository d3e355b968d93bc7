package notation

import (
	"strings"

	"roomful"
)

// absorb adds what a line says to the part: clauses to its facts, elements to
// the block that lines belong to now.
func (p *parser) absorb(r *reading) {
	pt := p.part
	pt.facts.merge(r.f, func(what string, second span) {
		p.clash(what, second)
		pt.keep(p.textAt(second))
	})
	p.ladderPart = p.ladderPart || !r.f.ladderAt.isZero()
	if r.counts != roomful.Rep {
		pt.counts = r.counts
	}
	for _, in := range r.instead {
		pt.instead = append(pt.instead, in)
		pt.insteadAt = append(pt.insteadAt, r.c.whole())
	}
	list := pt.list()
	for _, d := range r.elements {
		d.label = r.c.label
		if r.c.letter != "" && d.label == 0 {
			d.label = int(r.c.letter[0]-'a') + 1
		}
		d.Slot = pt.slot
		switch {
		case d.move == nil && p.isRemark(pt.kind, &d):
			p.part.notes = append(p.part.notes, d.Words)
			p.hint(d.nameOrPlace(), quote(d.Words)+" is kept as a note", "write note: before it to keep this quiet")
			continue
		case d.move != nil || d.Words != "" && plainName(d.Words):
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
func (p *parser) noMovement(d *drafted) {
	var words []string
	for _, text := range [...]string{amountText(d.Amount), d.Words, loadText(d.Element), heightText(d.Heights), d.Note} {
		if text != "" {
			words = append(words, text)
		}
	}
	if d.Amount.Stated() || d.Load != nil || d.Words != "" {
		p.say(severity(p.part.kind), d.at, "no movement is named", "kept as a note", "write what is done, such as 10 burpees")
	}
	p.part.notes = append(p.part.notes, strings.Join(words, " "))
}

// heritable reports whether an element without a name says how much of the one
// before it.
func heritable(d, last *drafted) bool {
	if last.move == nil || !d.Amount.Stated() && d.Load == nil {
		return false
	}
	base := d.Amount.Unit.Base()
	return base == roomful.Rep || base == roomful.Second || counts(last.move, base)
}

// inherit gives "3 @ 80 %" the movement of the line before. A movement named at
// the head alone gives way to the lines that say how much.
func (p *parser) inherit(d *drafted, list *[]drafted) {
	last := (*list)[len(*list)-1]
	if d.Amount.Stated() && d.Amount.Unit == roomful.Rep && !counts(last.move, roomful.Rep) {
		if d.Amount.Unit = last.Amount.Unit; d.Amount.Unit == roomful.Rep {
			d.Amount.Unit = last.move.Units[0]
		}
		p.warn(d.at, "no unit: read as "+d.Amount.Unit.String(), "add the unit")
	}
	d.move, d.Movement, d.Words, d.nameAt = last.move, last.Movement, last.Words, last.nameAt
	if !last.Amount.Stated() && last.Load == nil && last.Note == "" && (last.fromHead || last.Line != d.Line) {
		*list = (*list)[:len(*list)-1]
	}
}

// elements reads elements, and clauses between them, into the current block.
func (p *parser) elements(l *line, c cursor) {
	r := p.readerOf(c, false)
	r.scored = scored(p.part.kind)
	r.repsKnown = p.part.facts.reps.set()
	r.run()
	p.multiply(r)
	p.placeSuffix(l, r)
	p.absorb(r)
}

// multiply reads "4 x 25 m" within a piece that has a format of its own as the
// whole amount.
func (p *parser) multiply(r *reading) {
	pt, f := p.part, &r.f
	if !f.times.set() || f.work.set() || len(r.elements) != 1 || f.times.n < 1 || f.times.n > 200 || scored(pt.kind) && !pt.facts.timedFormat() && !pt.facts.rounds.set() {
		return
	}
	d := &r.elements[0]
	if f.reps.set() && !d.Amount.Stated() && p.takesReps(d) {
		d.Amount = roomful.Amount{By: []float64{float64(f.reps.n)}}
	}
	if !d.Amount.Stated() {
		return
	}
	for i := range d.Amount.By {
		d.Amount.By[i] *= float64(f.times.n)
	}
	p.hint(f.times.at, "read as "+amountText(d.Amount)+" in all", "write the whole amount")
	f.times, f.reps = count{}, count{}
}
