package notation

import (
	"strings"

	"roomful"
)

// reading is what one stretch of a line says: clauses as facts, the rest as
// elements. Words that are neither are kept as notes.
type reading struct {
	*context
	c         cursor
	f         facts
	head      bool // the line is a head: times are lengths, not amounts
	scored    bool
	counts    roomful.Unit // what "as many calories as possible" counts
	elements  []drafted
	cur       *drafted // the element being read
	start     int      // where the clause or item being read begins
	left      int      // first token of the words that nothing has taken, -1 when none
	or        bool     // the next element may be done instead of the last
	instead   []roomful.Instead
	repsKnown bool // the head says how many repetitions a set has
}

// drafted is an element with what is needed to check it.
type drafted struct {
	roomful.Element
	move     *roomful.Movement
	figures  []figures
	remarks  []remark
	at       span
	nameAt   span
	loadAt   span
	amountAt span
	fromHead bool // named by a heading, before the lines that say how much
	noLoad   bool // a load was written and could not be read
	indent   int
	label    int // the number of "2)" before the line
}

// remark is a stretch of tokens that is kept as a note. Where text is empty it
// is the stretch as typed.
type remark struct {
	from, to int
	text     string
}

// run reads to the end of the stretch. Every turn takes at least one token.
func (r *reading) run() {
	r.left = -1
	for !r.c.done() {
		r.start = r.c.i
		switch {
		case r.separator():
		case r.clause():
			r.closeRun(r.start)
		case r.item():
			if r.left < r.start {
				r.closeRun(r.start)
			}
		case idle(r.c.peek(0)), r.c.is("@"):
			r.closeRun(r.start)
			r.c.i++
		default:
			if r.left < 0 {
				r.left = r.c.i
			}
			r.c.i++
		}
	}
	r.closeRun(r.c.i)
	r.flush()
}

// open reports whether an element has begun.
func (r *reading) open() bool { return r.cur != nil }

// naming reports whether an element has begun, perhaps with a name that is not
// known.
func (r *reading) naming() bool { return r.open() || !r.head && r.left >= 0 }

// element returns the element being read, beginning one if need be.
func (r *reading) element() *drafted {
	if r.cur == nil {
		r.cur = &drafted{at: r.c.span(r.c.i, r.c.i+1)}
		r.cur.Line = r.c.no
	}
	return r.cur
}

// separator reads what divides elements: "+", a comma or "then" before another
// element, and ";", after which everything is a note.
func (r *reading) separator() bool {
	before, named := r.c.i, r.left >= 0
	switch {
	case r.c.mark(";"):
		r.closeRun(before)
		if !named && r.cur == nil && len(r.elements) == 0 {
			return true
		}
		if note := strings.TrimSpace(r.c.slice(r.c.i, r.c.last)); note != "" && r.cur == nil && r.head {
			r.f.notes = append(r.f.notes, note)
		} else if note != "" {
			d := r.element()
			d.remarks = append(d.remarks, remark{r.c.i, r.c.last, note})
		}
		r.c.i = r.c.last
	case r.c.is("+") && r.openSet():
		r.closeRun(before)
		r.c.i++
		r.cur.remarks = append(r.cur.remarks, remark{from: before - 1, to: before + 1})
	case r.c.mark("+"):
		r.closeRun(before)
		r.flush()
	case (r.open() || r.left >= 0) && (r.c.mark(",") || r.c.takeAny("then", "and", "into")) && r.beginsElement(),
		r.open() && r.cur.move != nil && r.c.mark("/") && r.beginsElement():
		r.closeRun(before)
		r.flush()
	case r.open() && r.cur.move != nil && r.c.take("or") && r.beginsElement():
		r.closeRun(before)
		r.flush()
		r.or = true
	case r.open() && r.cur.move != nil && r.c.peek(0).kind == number && r.cur.amounted() && r.beginsElement():
		r.closeRun(before)
		r.flush()
	default:
		r.c.i = before
		return false
	}
	return true
}

// openSet reports whether a plus belongs to the figure before it, as in "5+ @
// 85 %": as many as possible, five at least.
func (r *reading) openSet() bool {
	t := r.c.peek(0)
	if !t.tight || r.c.i == 0 || r.c.tokens[r.c.i-1].kind != number || r.cur == nil {
		return false
	}
	r.c.i++
	defer func() { r.c.i-- }()
	return !r.c.peek(0).tight && !r.movementFollows() && !figureKind(r.c.peek(0))
}

// beginsElement reports whether a new element begins here: a movement, or
// figures and then words.
func (r *reading) beginsElement() bool {
	inner := r.c
	defer func() { r.c = inner }()
	r.c.takeAny("then", "and", "max")
	if r.movementFollows() {
		return true
	}
	if _, ok := r.figures(); !ok {
		return false
	}
	if r.movementFollows() {
		return true
	}
	t := r.c.peek(0)
	if t.text == "@" && r.open() && r.cur.amounted() && (r.cur.move != nil || r.cur.Load != nil) {
		return true // 5 @ 60 %, 3 @ 80 %
	}
	return t.kind == word && !little[t.text] && !leadIns[t.text] && r.phrase() == 0 && r.open() && r.c.tokens[inner.i-1].text == ","
}

// item reads a figure, a load, a tempo or a name and reports whether there was
// one.
func (r *reading) item() bool {
	from := r.c.i
	for _, production := range [...]func(*reading) bool{
		(*reading).loadItem,
		(*reading).tempoItem,
		(*reading).divisionItem,
		(*reading).figuresItem,
		(*reading).nameItem,
		(*reading).phraseItem,
	} {
		if production(r) {
			return true
		}
		r.c.i = from
	}
	return false
}

// flush ends the element being read.
func (r *reading) flush() {
	d := r.cur
	r.cur = nil
	if d == nil {
		return
	}
	r.assign(d)
	if n := len(r.elements); r.or && n > 0 && d.move != nil {
		r.or = false
		r.hint(d.at, "read as what may be done instead of "+r.elements[n-1].move.Name, "write it under instead: to say so")
		r.instead = append(r.instead, roomful.Instead{Movement: r.elements[n-1].Movement, Options: []roomful.Element{d.Element}})
		return
	}
	r.elements = append(r.elements, *d)
}
