package settle

import (
	"fmt"
	"math"
	"slices"
	"time"

	"roomful"
	"roomful/notation/internal/phrase"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/vocab"
)

// Check says what could not be run, or cannot be meant.
func (p *Draft) Check() {
	if len(p.Parts) == 0 {
		p.Fault(scan.Place(1, 1, 1), "there is no part to do", `write a piece, such as "AMRAP 12" with its movements below`)
	}
	for i, pt := range p.Parts {
		p.checkTimes(pt)
		p.checkRest(pt, p.Session.Parts[i].Format)
		for _, list := range [...][]phrase.Element{pt.Once, pt.Round, pt.Last} {
			for j := range list {
				p.checkElement(pt, &list[j], p.Session.Parts[i].Format)
			}
		}
		p.checkNamed(pt)
	}
	p.checkFresh()
}

// checkRest says when a part has nothing in it.
func (p *Draft) checkRest(pt *Part, f roomful.Format) {
	switch {
	case !pt.Empty():
	case vocab.Scored(pt.Kind):
		p.Fault(pt.Head, pt.Kind.String()+" has no movements", "write them on the lines below, one to a line")
	case f == roomful.Unscored{} && len(pt.Notes)+len(pt.Facts.Notes) == 0:
		p.Hint(pt.Head, pt.Kind.String()+" is empty", "write what is done, or delete the line")
	}
}

// The longest that a piece and its parts may take, in minutes; beyond that a
// figure is a slip.
const (
	longestPiece = 180 * time.Minute
	longestRest  = 30 * time.Minute
)

// checkTimes says when a time or a count cannot be right.
func (p *Draft) checkTimes(pt *Part) {
	f := &pt.Facts
	for _, c := range [...]struct {
		t    phrase.Timed
		what string
		most time.Duration
	}{
		{f.Window, "a window", longestPiece}, {f.Cap, "a cap", longestPiece}, {f.Total, "a length", longestPiece},
		{f.Interval, "an interval", longestPiece}, {f.Work, "a work time", longestPiece}, {f.Each, "a time for each", longestRest},
		{f.Rest, "a rest", longestRest}, {f.Between, "a rest", longestRest}, {f.Change, "a change", longestRest},
	} {
		switch {
		case c.t.Set() && c.t.D <= 0:
			p.Fault(c.t.At, c.what+" of nothing", "write a time such as 12 min")
		case c.t.D > c.most:
			p.Fault(c.t.At, fmt.Sprintf("%s of %s cannot be right", c.what, vocab.Length(c.t.D)), fmt.Sprintf("write a time up to %s", vocab.Length(c.most)))
		}
	}
	for _, c := range [...]struct {
		n    phrase.Count
		what string
		most int
	}{{f.Rounds, "rounds", 200}, {f.Times, "times", 200}, {f.Sets, "sets", 60}, {f.Intervals, "intervals", 200}, {f.Reps, "repetitions", 500}} {
		if c.n.Set() && (c.n.N < 1 || c.n.N > c.most) {
			p.Fault(c.n.At, fmt.Sprintf("%d %s cannot be right", c.n.N, c.what), fmt.Sprintf("write a number from 1 to %d", c.most))
		}
	}
	largest := pt.largestStep()
	for _, n := range f.Ladder.Steps {
		if n < 1 || n > largest {
			p.Fault(f.LadderAt, fmt.Sprintf("a step of %d cannot be right", n), fmt.Sprintf("write steps from 1 to %d", largest))
			break
		}
	}
}

// largestStep is the largest step of a ladder that every movement without an
// amount of its own can be done for.
func (pt *Part) largestStep() int {
	const mostReps = 500
	largest, open := 10000, false
	for _, d := range pt.Round {
		if d.Amount.Stated() || d.Movement == roomful.Rest {
			continue
		}
		open = true
		if base := d.Amount.Unit.Base(); base == roomful.Rep || base == roomful.Calorie {
			return mostReps
		}
	}
	if !open {
		return mostReps
	}
	return largest
}

// most is the largest amount of each base unit that one line may ask for.
var most = [...]float64{roomful.Rep: 2000, roomful.Metre: 42195, roomful.Calorie: 1000, roomful.Second: 3 * 3600}

// checkElement says what is wrong with one element.
func (p *Draft) checkElement(pt *Part, d *phrase.Element, f roomful.Format) {
	if d.Movement == "" {
		p.Unknown(Severity(pt.Kind), d.NameOrPlace(), d.Words)
	}
	p.checkOpen(pt, d, f)
	for _, v := range d.Amount.By {
		if d.Amount.Unit == roomful.Rep && v != math.Trunc(v) {
			p.Fault(d.AmountAt, figureOf(v, d.Amount.Unit)+" cannot be right", "write a whole number")
			break
		}
		base := v * d.Amount.Unit.Size()
		if v <= 0 || base > most[d.Amount.Unit.Base()] {
			at := d.AmountAt
			if at.IsZero() {
				at = d.At
			}
			p.Fault(at, figureOf(v, d.Amount.Unit)+" cannot be right", "write how much is meant: above nought, and what can be done in an hour")
			break
		}
	}
	for _, h := range d.Heights {
		if cm := h.Cm(); cm < 5 || cm > 500 {
			p.Fault(d.HeightAt, "a height of "+h.String()+" cannot be right", heightHint(d.Move))
			break
		}
	}
	p.checkLoad(pt, d)
}

// heightHint says how the height of a movement is written.
func heightHint(m *roomful.Movement) string {
	if m != nil && m.Implement == roomful.Ball {
		return "write the height of the target, such as 3 m or 10 ft"
	}
	return "write a height such as 60 cm or 24 in"
}

// checkOpen says when how much is left open where the piece cannot say it.
func (p *Draft) checkOpen(pt *Part, d *phrase.Element, f roomful.Format) {
	if d.Amount.Stated() || d.NoAmount || !vocab.Scored(pt.Kind) {
		return
	}
	ladder := len(pt.Facts.Ladder.Steps) > 0
	switch f.(type) {
	case roomful.RoundsInTime, roomful.ForTime:
		if d.Movement == roomful.Rest {
			p.Warn(d.NameOrPlace(), "no time is said for the rest: none is planned", "write rest 1 min")
		} else if d.Move != nil && !(ladder && slices.ContainsFunc(pt.Round, func(e phrase.Element) bool { return e.At == d.At })) {
			p.Warn(d.NameOrPlace(), "how much "+d.Move.Name+" is not said", "write an amount before it").Detail = "the piece cannot be forecast with an amount left open"
		}
	}
}

// figureOf writes a figure with its unit in a sentence.
func figureOf(v float64, u roomful.Unit) string {
	if u == roomful.Rep {
		return roomful.Figure(v) + " repetitions"
	}
	return roomful.Figure(v) + " " + u.String()
}

// heaviest is the heaviest load that is believed, in kilograms.
const heaviest = 500

// checkLoad says when a load is missing in main, or cannot be right.
func (p *Draft) checkLoad(pt *Part, d *phrase.Element) {
	if m, ok := d.Load.(roomful.Masses); ok {
		for _, v := range m {
			if v.Value <= 0 || v.Kg() > heaviest {
				p.Fault(d.LoadAt, v.String()+" cannot be right", fmt.Sprintf("write a load above nought and up to %d kg", heaviest)).Detail = "kept as typed"
				return
			}
		}
	}
	if d.Load != nil && d.Move != nil && !vocab.Loaded(d.Move) && d.Move.Modality != roomful.Body && d.Move.Modality != roomful.Carrying {
		p.Warn(d.LoadAt, d.Move.Name+" takes no load", "delete it, or put it after ;")
	}
	missing := d.Load == nil && !d.NoLoad && vocab.Loaded(d.Move) && pt.Kind == roomful.Main && !emptyBar(d.Note) && !p.asSets(pt)
	if missing && p.Session.Effort.FreshFor(d.Movement) == 0 {
		p.Warn(d.NameOrPlace(), d.Move.Name+" has no load", "write it after the movement, such as 40/30 kg or fresh 12+").Detail = "everybody would choose their own, and no bar can be planned"
	}
}

// emptyBar reports whether a note says that the bar is empty.
func emptyBar(note string) bool { return note == "empty-bar" || note == "empty bar" }

// checkNamed says when a standard or an "instead" is for a movement that is not
// in the piece.
func (p *Draft) checkNamed(pt *Part) {
	here := map[roomful.MovementID]bool{}
	for _, list := range [...][]phrase.Element{pt.Once, pt.Round, pt.Last} {
		for _, d := range list {
			here[d.Movement] = true
		}
	}
	for i, in := range pt.Instead {
		if !here[in.Movement] {
			p.Warn(pt.InsteadAt[i], p.name(in.Movement)+" is not in this piece", "name a movement of the piece, or delete the line")
		}
	}
	for i, s := range pt.Standards {
		if !here[s.Movement] {
			p.Warn(pt.StandardAt[i], p.name(s.Movement)+" is not in this piece", "name a movement of the piece, or delete the line")
		}
	}
}

// checkFresh says when a fresh rule is for a movement that no part has.
func (p *Draft) checkFresh() {
	here := map[roomful.MovementID]bool{}
	for _, part := range p.Session.Parts {
		for _, list := range [...][]roomful.Element{part.Once, part.Round, part.Last} {
			for _, e := range list {
				here[e.Movement] = true
			}
		}
	}
	for i, f := range p.Session.Effort.Fresh {
		if !here[f.Movement] {
			p.Warn(p.FreshAt[i], p.name(f.Movement)+" is in no piece", "name a movement of the day, or delete the line")
		}
	}
}

// name returns the name of a movement.
func (p *Draft) name(id roomful.MovementID) string {
	if m := p.Lex.Movement(id); m != nil {
		return m.Name
	}
	return string(id)
}

// Severity is that of an unknown movement in a part of a kind.
func Severity(kind roomful.PartKind) roomful.Severity {
	if vocab.Scored(kind) {
		return roomful.Fault
	}
	return roomful.Hint
}
