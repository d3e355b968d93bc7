package settle

import (
	"fmt"
	"strings"

	"roomful"
	"roomful/notation/internal/phrase"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/vocab"
)

// Draft is a sheet that has been read, before its parts have become those of a
// session.
type Draft struct {
	phrase.Context
	Lines   []scan.Line
	Session roomful.Session
	Parts   []*Part
	FreshAt []scan.Span // where each fresh rule of the effort stands
}

// Settle turns the parts that were read into those of the session.
func (p *Draft) Settle() {
	p.letters()
	for _, pt := range p.Parts {
		p.checkSlotted(pt)
		p.nameFromNotes(pt)
		p.fillHead(pt)
		p.baseSteps(pt)
		part := roomful.Part{Kind: pt.Kind, Letter: pt.Letter, Line: pt.Line, ScoreBy: pt.Facts.Score, Standards: pt.Standards, Instead: pt.Instead}
		part.Scored = vocab.Scored(pt.Kind) && !pt.Facts.NotScored
		part.Team = p.team(pt)
		part.Format = p.format(pt)
		if _, slots := part.Format.(roomful.Every); !slots {
			pt.dropSlots()
		}
		part.Once, part.Round, part.Last = elementsOf(pt.Once), elementsOf(pt.Round), elementsOf(pt.Last)
		part.Note = joinLines(append(pt.Facts.Notes, pt.Notes...))
		p.Session.Parts = append(p.Session.Parts, part)
	}
}

// nameFromNotes takes the words at the head of a piece without any movement for
// the name of one that is not known.
func (p *Draft) nameFromNotes(pt *Part) {
	f := &pt.Facts
	if !pt.Empty() || len(f.Notes) != 1 || !vocab.Scored(pt.Kind) {
		return
	}
	name := strings.Join(strings.Fields(f.Notes[0]), " ")
	if !p.CanName(name) {
		return
	}
	at := p.Lines[pt.Head.Line-1].Find(f.Notes[0])
	d := phrase.Element{At: at, NameAt: at}
	d.Words, d.Line = name, pt.Line
	if p.IsRemark(pt.Kind, &d) {
		return
	}
	pt.Round, f.Notes = []phrase.Element{d}, nil
}

func elementsOf(list []phrase.Element) []roomful.Element {
	if len(list) == 0 {
		return nil
	}
	out := make([]roomful.Element, 0, len(list))
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
func (p *Draft) letters() {
	for _, kind := range [...]roomful.PartKind{roomful.Strength, roomful.Main} {
		var same []*Part
		for _, pt := range p.Parts {
			if pt.Kind == kind {
				same = append(same, pt)
			}
		}
		if len(same) > 1 {
			p.letter(kind, same)
		}
	}
}

// letter gives the pieces of one kind distinct letters.
func (p *Draft) letter(kind roomful.PartKind, same []*Part) {
	used := map[string]bool{}
	for i, pt := range same {
		name := kind.String()
		if pt.Letter == "" && !used[pt.Label] {
			pt.Letter = pt.Label
		}
		switch {
		case pt.Letter != "" && used[pt.Letter]:
			p.Fault(pt.Head, name+" "+pt.Letter+" is there twice", "give each piece its own letter")
			pt.Letter = ""
		case pt.Letter == "" && i > 0 && pt.Explicit && same[i-1].Explicit:
			p.Warn(pt.Head, "a second "+name, "if they run on one clock, write "+name+" a: and "+name+" b:")
		case i > 0 && !pt.Facts.Then && (pt.Letter == "" || pt.Letter == pt.Label):
			p.Hint(pt.Head, "a second "+name+": the two are read as "+name+" a and b, on one clock", "write "+name+" a: and "+name+" b: to say so").Detail = "b begins the moment that a ends"
		}
		if pt.Letter != "" {
			used[pt.Letter] = true
		}
	}
	next := 'a'
	for _, pt := range same {
		for used[string(next)] && pt.Letter == "" {
			next++
		}
		if pt.Letter == "" {
			pt.Letter = string(next)
			used[pt.Letter] = true
		}
	}
}

// fillHead gives the elements what the head said for all: repetitions of a set,
// a load, a tempo, what is counted.
func (p *Draft) fillHead(pt *Part) {
	f := &pt.Facts
	for i := range pt.Round {
		d := &pt.Round[i]
		if d.Movement == roomful.Rest {
			continue
		}
		if !d.Amount.Stated() && f.Reps.Set() {
			p.fillReps(pt, d, f.Reps)
		}
		if !d.Amount.Stated() && d.Amount.Unit == roomful.Rep && pt.Counts != roomful.Rep && vocab.Counts(d.Move, pt.Counts.Base()) {
			d.Amount.Unit = pt.Counts
		}
		if d.Load == nil && f.Load != nil && (d.Move == nil || vocab.Loaded(d.Move)) {
			d.Load = f.Load
		}
		if d.Tempo == nil {
			d.Tempo = f.Tempo
		}
		if d.Tempo != nil && strings.EqualFold(d.Note, "tempo") {
			d.Note = ""
		}
	}
}

// fillReps gives an element the repetitions of a set.
func (p *Draft) fillReps(pt *Part, d *phrase.Element, reps phrase.Count) {
	if d.Move == nil && !p.TakesReps(d) {
		pt.Keep(p.TextAt(reps.At))
		return
	}
	if !p.TakesReps(d) {
		p.Fault(reps.At, fmt.Sprintf("what %d counts is not said", reps.N), d.Move.Name+" is counted in "+vocab.UnitList(d.Move)+": add the unit")
		pt.Keep(p.TextAt(reps.At))
		return
	}
	d.Amount = roomful.Amount{By: []float64{float64(reps.N)}}
}

// TakesReps reports whether an element can be counted in repetitions. An unknown
// one can, unless its last words name a movement that cannot.
func (p *Draft) TakesReps(d *phrase.Element) bool {
	if d.Move == nil {
		return vocab.Counts(p.Within(d.Words), roomful.Rep)
	}
	return vocab.Counts(d.Move, roomful.Rep)
}

// team settles how many work together and how.
func (p *Draft) team(pt *Part) roomful.Team {
	t, at := pt.Facts.Team, pt.Facts.TeamAt
	switch {
	case at.IsZero():
		return roomful.Team{}
	case t.Size == 0:
		t.Size = 2
		p.Warn(at, "how many work together is not said: read as pairs", "write in pairs, or in threes")
	case t.Size < 2 || t.Size > 12:
		p.Fault(at, fmt.Sprintf("a team of %d cannot be right", t.Size), "write in pairs, in threes or in teams of 4")
	}
	if t.Style == roomful.Alone {
		t.Style = roomful.Shared
		p.Warn(at, "how the work is shared is not said: read as shared", "write share the work, you go I go, or synchronised").Detail = "with shared work one person works at a time"
	}
	return t
}

// IsRemark reports whether an unknown name within a line of a piece is rather a
// remark: several words, no figure, like no name.
func (p *Draft) IsRemark(kind roomful.PartKind, d *phrase.Element) bool {
	bare := !d.Amount.Stated() && d.Load == nil && len(d.Heights) == 0 && d.Note == ""
	return bare && vocab.Scored(kind) && strings.Count(d.Words, " ") > 1 && len(p.Near(d.Words)) == 0
}

// TextAt returns what is written at a place of the sheet.
func (p *Draft) TextAt(at scan.Span) string {
	if at.Line < 1 || int(at.Line) > len(p.Lines) {
		return ""
	}
	return p.Lines[at.Line-1].TextAt(at)
}

// Keep adds a note to the part.
func (pt *Part) Keep(text string) { pt.Notes = append(pt.Notes, text) }

// Part is a part while it is read.
type Part struct {
	Kind     roomful.PartKind
	Letter   string
	Label    string // the letter of a list before it, as in "B) AMRAP 12"
	Facts    phrase.Facts
	Head     scan.Span
	Line     int
	Explicit bool // a head was written
	Counts   roomful.Unit

	Once, Round, Last []phrase.Element
	Standards         []roomful.Standard
	Instead           []roomful.Instead
	StandardAt        []scan.Span
	InsteadAt         []scan.Span
	Notes             []string

	Slotted bool      // a slot was written
	OddEven scan.Span // the first slot called odd or even
}

// Empty reports whether no line of the part was read yet.
func (pt *Part) Empty() bool { return len(pt.Once)+len(pt.Round)+len(pt.Last) == 0 }
