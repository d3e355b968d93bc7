package notation

import (
	"fmt"
	"strings"

	"roomful"
)

// draft is a sheet that has been read, before its parts have become those of a
// session.
type draft struct {
	context
	lines   []line
	session roomful.Session
	parts   []*part
	freshAt []span // where each fresh rule of the effort stands
}

// settle turns the parts that were read into those of the session.
func (p *draft) settle() {
	p.letters()
	for _, pt := range p.parts {
		p.checkSlotted(pt)
		p.nameFromNotes(pt)
		p.fillHead(pt)
		part := roomful.Part{Kind: pt.kind, Letter: pt.letter, Line: pt.line, ScoreBy: pt.facts.score, Standards: pt.standards, Instead: pt.instead}
		part.Scored = scored(pt.kind) && !pt.facts.notScored
		part.Team = p.team(pt)
		part.Format = p.format(pt)
		if _, slots := part.Format.(roomful.Every); !slots {
			pt.dropSlots()
		}
		part.Once, part.Round, part.Last = elementsOf(pt.once), elementsOf(pt.round), elementsOf(pt.last)
		part.Note = joinLines(append(pt.facts.notes, pt.notes...))
		p.session.Parts = append(p.session.Parts, part)
	}
}

// nameFromNotes takes the words at the head of sets without any movement for the
// name of one that is not known.
func (p *draft) nameFromNotes(pt *part) {
	f := &pt.facts
	if !pt.empty() || len(f.notes) != 1 || !scored(pt.kind) || !p.asSets(pt) {
		return
	}
	name := strings.Join(strings.Fields(f.notes[0]), " ")
	if !plainName(name) {
		return
	}
	d := drafted{at: pt.head, nameAt: pt.head}
	d.Words, d.Line = name, pt.line
	if p.isRemark(pt.kind, &d) {
		return
	}
	pt.round, f.notes = []drafted{d}, nil
}

func elementsOf(list []drafted) []roomful.Element {
	var out []roomful.Element
	for _, d := range list {
		out = append(out, d.Element)
	}
	return out
}

// joinLines joins notes, one to a line, without repeating one.
func joinLines(notes []string) string {
	text := ""
	for i, n := range notes {
		if n == "" || i > 0 && n == notes[i-1] {
			continue
		}
		if text != "" {
			text += "\n"
		}
		text += n
	}
	return text
}

// letters gives letters to pieces of one kind that have none, and speaks of two
// with the same name.
func (p *draft) letters() {
	for _, kind := range [...]roomful.PartKind{roomful.Strength, roomful.Main} {
		var same []*part
		for _, pt := range p.parts {
			if pt.kind == kind {
				same = append(same, pt)
			}
		}
		if len(same) > 1 {
			p.letter(kind, same)
		}
	}
}

// letter gives the pieces of one kind distinct letters.
func (p *draft) letter(kind roomful.PartKind, same []*part) {
	used := map[string]bool{}
	for i, pt := range same {
		name := kind.String()
		if pt.letter == "" && !used[pt.label] {
			pt.letter = pt.label
		}
		switch {
		case pt.letter != "" && used[pt.letter]:
			p.fault(pt.head, name+" "+pt.letter+" is there twice", "give each piece its own letter")
			pt.letter = ""
		case pt.letter == "" && i > 0 && pt.explicit && same[i-1].explicit:
			p.warn(pt.head, "a second "+name, "if they run on one clock, write "+name+" a: and "+name+" b:")
		case i > 0 && !pt.facts.then && (pt.letter == "" || pt.letter == pt.label):
			p.hint(pt.head, "a second "+name+": the two are read as "+name+" a and b, on one clock", "write "+name+" a: and "+name+" b: to say so")
		}
		if pt.letter != "" {
			used[pt.letter] = true
		}
	}
	next := 'a'
	for _, pt := range same {
		for used[string(next)] && pt.letter == "" {
			next++
		}
		if pt.letter == "" {
			pt.letter = string(next)
			used[pt.letter] = true
		}
	}
}

// fillHead gives the elements what the head said for all: repetitions of a set,
// a load, a tempo, what is counted.
func (p *draft) fillHead(pt *part) {
	f := &pt.facts
	for i := range pt.round {
		d := &pt.round[i]
		if d.Movement == roomful.Rest {
			continue
		}
		if !d.Amount.Stated() && f.reps.set() {
			p.fillReps(pt, d, f.reps)
		}
		if !d.Amount.Stated() && d.Amount.Unit == roomful.Rep && pt.counts != roomful.Rep && counts(d.move, pt.counts.Base()) {
			d.Amount.Unit = pt.counts
		}
		if d.Load == nil && f.load != nil && (d.move == nil || loaded(d.move)) {
			d.Load = f.load
		}
		if d.Tempo == nil {
			d.Tempo = f.tempo
		}
	}
}

// fillReps gives an element the repetitions of a set.
func (p *draft) fillReps(pt *part, d *drafted, reps count) {
	if d.move == nil && !p.takesReps(d) {
		return
	}
	if !p.takesReps(d) {
		p.fault(reps.at, fmt.Sprintf("what %d counts is not said", reps.n), d.move.Name+" is counted in "+unitList(d.move)+": add the unit")
		pt.keep(p.textAt(reps.at))
		return
	}
	d.Amount = roomful.Amount{By: []float64{float64(reps.n)}}
}

// takesReps reports whether an element can be counted in repetitions. An unknown
// one can, unless its last words name a movement that cannot.
func (p *draft) takesReps(d *drafted) bool {
	if d.move == nil {
		return counts(p.within(d.Words), roomful.Rep)
	}
	return counts(d.move, roomful.Rep)
}

// team settles how many work together and how.
func (p *draft) team(pt *part) roomful.Team {
	t, at := pt.facts.team, pt.facts.teamAt
	switch {
	case at.isZero():
		return roomful.Team{}
	case t.Size == 0:
		t.Size = 2
		p.warn(at, "how many work together is not said: read as pairs", "write in pairs, or in threes")
	case t.Size < 2 || t.Size > 12:
		p.fault(at, fmt.Sprintf("a team of %d cannot be right", t.Size), "write in pairs, in threes or in teams of 4")
	}
	if t.Style == roomful.Alone {
		t.Style = roomful.Shared
		p.warn(at, "how the work is shared is not said: read as shared", "write share the work, you go I go, or synchronised")
	}
	return t
}

// isRemark reports whether an unknown name within a line of a piece is rather a
// remark: several words, no figure, like no name.
func (p *draft) isRemark(kind roomful.PartKind, d *drafted) bool {
	bare := !d.Amount.Stated() && d.Load == nil && len(d.Heights) == 0 && d.Note == ""
	return bare && scored(kind) && strings.Count(d.Words, " ") > 1 && len(p.near(d.Words)) == 0
}

// textAt returns what is written at a place of the sheet.
func (p *draft) textAt(at span) string {
	if at.line < 1 || at.line > len(p.lines) {
		return ""
	}
	return p.lines[at.line-1].textAt(at)
}

// keep adds a note to the part.
func (pt *part) keep(text string) { pt.notes = append(pt.notes, text) }

// part is a part while it is read.
type part struct {
	kind     roomful.PartKind
	letter   string
	label    string // the letter of a list before it, as in "B) AMRAP 12"
	facts    facts
	head     span
	line     int
	explicit bool // a head was written
	counts   roomful.Unit

	once, round, last []drafted
	standards         []roomful.Standard
	instead           []roomful.Instead
	standardAt        []span
	insteadAt         []span
	notes             []string

	slotted bool // a slot was written
	oddEven span // the first slot called odd or even
}

// empty reports whether no line of the part was read yet.
func (pt *part) empty() bool { return len(pt.once)+len(pt.round)+len(pt.last) == 0 }
