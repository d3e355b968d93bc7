package notation

import (
	"fmt"
	"time"

	"roomful"
)

// check says what could not be run, or cannot be meant.
func (p *draft) check() {
	if len(p.parts) == 0 {
		p.fault(span{1, 1, 1}, "there is no part to do", `write a piece, such as "AMRAP 12" with its movements below`)
	}
	for i, pt := range p.parts {
		p.checkTimes(pt)
		p.checkRest(pt, p.session.Parts[i].Format)
		for _, list := range [...][]drafted{pt.once, pt.round, pt.last} {
			for j := range list {
				p.checkElement(pt, &list[j])
			}
		}
		p.checkNamed(pt)
	}
	p.checkFresh()
}

// checkRest says when a part has nothing in it.
func (p *draft) checkRest(pt *part, f roomful.Format) {
	switch {
	case !pt.empty():
	case scored(pt.kind):
		p.fault(pt.head, pt.kind.String()+" has no movements", "write them on the lines below, one to a line")
	case f == roomful.Unscored{} && len(pt.notes)+len(pt.facts.notes) == 0:
		p.hint(pt.head, pt.kind.String()+" is empty", "write what is done, or delete the line")
	}
}

// The longest that a piece and its parts may take, in minutes; beyond that a
// figure is a slip.
const (
	longestPiece = 180 * time.Minute
	longestRest  = 30 * time.Minute
)

// checkTimes says when a time or a count cannot be right.
func (p *draft) checkTimes(pt *part) {
	f := &pt.facts
	for _, c := range [...]struct {
		t    timed
		what string
		most time.Duration
	}{
		{f.window, "window", longestPiece}, {f.cap, "cap", longestPiece}, {f.total, "length", longestPiece},
		{f.interval, "interval", longestPiece}, {f.work, "work time", longestPiece}, {f.each, "time for each", longestRest},
		{f.rest, "rest", longestRest}, {f.between, "rest", longestRest}, {f.change, "change", longestRest},
	} {
		switch {
		case c.t.set() && c.t.d <= 0:
			p.fault(c.t.at, "a "+c.what+" of nothing", "write a time such as 12 min")
		case c.t.d > c.most:
			p.fault(c.t.at, fmt.Sprintf("a %s of %s cannot be right", c.what, length(c.t.d)), fmt.Sprintf("write a time up to %s", length(c.most)))
		}
	}
	for _, c := range [...]struct {
		n    count
		what string
		most int
	}{{f.rounds, "rounds", 200}, {f.times, "times", 200}, {f.sets, "sets", 60}, {f.intervals, "intervals", 200}, {f.reps, "repetitions", 500}} {
		if c.n.set() && (c.n.n < 1 || c.n.n > c.most) {
			p.fault(c.n.at, fmt.Sprintf("%d %s cannot be right", c.n.n, c.what), fmt.Sprintf("write a number from 1 to %d", c.most))
		}
	}
	for _, n := range f.ladder.Steps {
		if n < 1 || n > 500 {
			p.fault(f.ladderAt, fmt.Sprintf("a step of %d cannot be right", n), "write steps from 1 to 500")
			break
		}
	}
}

// most is the largest amount of each base unit that one line may ask for.
var most = [...]float64{roomful.Rep: 2000, roomful.Metre: 42195, roomful.Calorie: 1000, roomful.Second: 3 * 3600}

// checkElement says what is wrong with one element.
func (p *draft) checkElement(pt *part, d *drafted) {
	if d.Movement == "" {
		p.unknown(severity(pt.kind), d.nameOrPlace(), d.Words)
	}
	for _, v := range d.Amount.By {
		base := v * d.Amount.Unit.Size()
		if v <= 0 || base > most[d.Amount.Unit.Base()] {
			at := d.amountAt
			if at.isZero() {
				at = d.at
			}
			p.fault(at, figureOf(v, d.Amount.Unit)+" cannot be right", "write how much is meant: above nought, and what can be done in an hour")
			break
		}
	}
	for _, h := range d.Heights {
		if cm := h.Cm(); cm < 5 || cm > 500 {
			p.fault(d.at, "a height of "+h.String()+" cannot be right", "write a height such as 60 cm or 24 in")
			break
		}
	}
	p.checkLoad(pt, d)
}

// figureOf writes a figure with its unit in a sentence.
func figureOf(v float64, u roomful.Unit) string {
	if u == roomful.Rep {
		return roomful.Figure(v) + " repetitions"
	}
	return roomful.Figure(v) + " " + u.String()
}

// nameOrPlace returns where the name stands, or the whole element.
func (d *drafted) nameOrPlace() span {
	if d.nameAt.isZero() {
		return d.at
	}
	return d.nameAt
}

// heaviest is the heaviest load that is believed, in kilograms.
const heaviest = 500

// checkLoad says when a load is missing in main, or cannot be right.
func (p *draft) checkLoad(pt *part, d *drafted) {
	if m, ok := d.Load.(roomful.Masses); ok {
		for _, v := range m {
			if v.Value <= 0 || v.Kg() > heaviest {
				p.fault(d.loadAt, v.String()+" cannot be right", fmt.Sprintf("write a load above nought and up to %d kg", heaviest))
				return
			}
		}
	}
	if d.Load != nil && d.move != nil && !loaded(d.move) && d.move.Modality != roomful.Body && d.move.Modality != roomful.Carrying {
		p.warn(d.loadAt, d.move.Name+" takes no load", "delete it, or put it after ;")
	}
	missing := d.Load == nil && !d.noLoad && loaded(d.move) && pt.kind == roomful.Main && !emptyBar(d.Note) && !p.asSets(pt)
	if missing && p.session.Effort.FreshFor(d.Movement) == 0 {
		p.warn(d.nameOrPlace(), d.move.Name+" has no load", "write it after the movement, such as 40/30 kg or fresh 12+")
	}
}

// emptyBar reports whether a note says that the bar is empty.
func emptyBar(note string) bool { return note == "empty-bar" || note == "empty bar" }

// checkNamed says when a standard or an "instead" is for a movement that is not
// in the piece.
func (p *draft) checkNamed(pt *part) {
	here := map[roomful.MovementID]bool{}
	for _, list := range [...][]drafted{pt.once, pt.round, pt.last} {
		for _, d := range list {
			here[d.Movement] = true
		}
	}
	for i, in := range pt.instead {
		if !here[in.Movement] {
			p.warn(pt.insteadAt[i], p.name(in.Movement)+" is not in this piece", "name a movement of the piece, or delete the line")
		}
	}
	for i, s := range pt.standards {
		if !here[s.Movement] {
			p.warn(pt.standardAt[i], p.name(s.Movement)+" is not in this piece", "name a movement of the piece, or delete the line")
		}
	}
}

// checkFresh says when a fresh rule is for a movement that no part has.
func (p *draft) checkFresh() {
	here := map[roomful.MovementID]bool{}
	for _, part := range p.session.Parts {
		for _, list := range [...][]roomful.Element{part.Once, part.Round, part.Last} {
			for _, e := range list {
				here[e.Movement] = true
			}
		}
	}
	for i, f := range p.session.Effort.Fresh {
		if !here[f.Movement] {
			p.warn(p.freshAt[i], p.name(f.Movement)+" is in no piece", "name a movement of the day, or delete the line")
		}
	}
}

// name returns the name of a movement.
func (p *draft) name(id roomful.MovementID) string {
	if m := p.lex.Movement(id); m != nil {
		return m.Name
	}
	return string(id)
}

// severity is that of an unknown movement in a part of a kind.
func severity(kind roomful.PartKind) roomful.Severity {
	if scored(kind) {
		return roomful.Fault
	}
	return roomful.Hint
}
