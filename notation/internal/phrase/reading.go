package phrase

import (
	"strings"

	"roomful"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/vocab"
)

// Reading is what one stretch of a line says: clauses as facts, the rest as
// elements. Words that are neither are kept as notes.
type Reading struct {
	*Context
	C         scan.Cursor
	F         Facts
	head      bool // the line is a head: times are lengths, not amounts
	Scored    bool
	Counts    roomful.Unit // what "as many calories as possible" counts
	Elements  []Element
	cur       *Element // the element being read
	start     int      // where the clause or item being read begins
	left      int      // first token of the words that nothing has taken, -1 when none
	or        bool     // the next element may be done instead of the last
	Instead   []roomful.Instead
	joined    int  // how many plus signs stood between elements
	RepsKnown bool // the head says how many repetitions a set has
}

// Element is an element with what is needed to check it.
type Element struct {
	roomful.Element
	Move     *roomful.Movement // nil when the name is not known
	figures  []Figures         // not yet put to use
	remarks  []remark
	At       scan.Span // where it begins
	NameAt   scan.Span
	LoadAt   scan.Span
	AmountAt scan.Span
	HeightAt scan.Span
	FromHead bool // named by a heading, before the lines that say how much
	NoLoad   bool // a load was written and could not be read
	NoAmount bool // an amount was
	Indent   int  // of its line, in columns
	Label    int  // the number of "2)" before the line
}

// remark is a stretch of tokens that is kept as a note. Where text is empty it
// is the stretch as typed.
type remark struct {
	from, to int
	text     string
}

// Run reads to the end of the stretch. Every turn takes at least one token.
func (r *Reading) Run() {
	r.left = -1
	for !r.C.Done() {
		r.start = r.C.I
		switch {
		case r.separator():
		case r.Clause():
			r.closeRun(r.start)
		case r.item():
			if r.left < r.start {
				r.closeRun(r.start)
			}
		case r.C.Is("alt") && r.C.Peek(1).Text == ".":
			r.closeRun(r.start)
			r.element().remarks = append(r.cur.remarks, remark{from: r.C.I, to: r.C.I + 1})
			r.C.I += 2
		case scan.Idle(r.C.Peek(0)), r.C.Is("@"):
			r.closeRun(r.start)
			r.C.I++
		default:
			if r.left < 0 {
				r.left = r.C.I
			}
			r.C.I++
		}
	}
	r.closeRun(r.C.I)
	r.flush()
	r.shareLoad()
}

// shareLoad gives the load at the end of a complex, "1 clean + 1 jerk 60/40 kg",
// to all of it: the bar stays in the hands.
func (r *Reading) shareLoad() {
	n := len(r.Elements)
	for n > 0 && r.Elements[n-1].Movement == roomful.Rest {
		n--
	}
	if r.joined == 0 || r.joined != n-1 {
		return
	}
	last := &r.Elements[n-1]
	for i := range r.Elements[:n] {
		if d := &r.Elements[i]; d.Move == nil || d.Move.Implement != roomful.Barbell || d.Load != nil && i < n-1 || d.NoLoad {
			return
		}
	}
	if last.Load == nil || last.Move == nil {
		return
	}
	for i := range r.Elements[:n-1] {
		r.Elements[i].Load, r.Elements[i].LoadAt, r.Elements[i].Implements = last.Load, last.LoadAt, last.Implements
	}
	r.Hint(last.LoadAt, "read as the load of the whole complex", "write a load after each movement if they differ")
}

// open reports whether an element has begun.
func (r *Reading) open() bool { return r.cur != nil }

// naming reports whether an element has begun, perhaps with a name that is not
// known.
func (r *Reading) naming() bool { return r.open() || !r.head && r.left >= 0 }

// element returns the element being read, beginning one if need be.
func (r *Reading) element() *Element {
	if r.cur == nil {
		from := min(r.start, r.C.I)
		if r.left >= 0 {
			from = r.left
		}
		r.cur = &Element{At: r.C.Span(from, max(from+1, min(r.C.I, r.C.Last)))}
		r.cur.Line = r.C.No
	}
	return r.cur
}

// separator reads what divides elements: "+", a comma or "then" before another
// element, and ";", after which everything is a note.
func (r *Reading) separator() bool {
	before := r.C.I
	switch {
	case r.easier():
		return true
	case r.C.Mark(";"):
		return r.verbatim(before)
	case r.C.Is("+") && before > 0 && r.C.Tokens[before-1].Text == "rx":
		return false
	case r.C.Is("+") && r.openSet():
		r.closeRun(before)
		r.C.I++
		r.cur.remarks = append(r.cur.remarks, remark{from: before - 1, to: before + 1})
		return true
	case r.C.Mark("+"):
		r.closeRun(before)
		r.flush()
		r.joined++
		return true
	}
	return r.divides(before)
}

// easier keeps "(scale: 20 ring rows)" as a note: it is no work of its own.
func (r *Reading) easier() bool {
	from := r.C.I
	if !r.C.Is("(") || r.cur == nil || !vocab.Easier[r.C.Peek(1).Text] {
		return false
	}
	for !r.C.Done() && !r.C.Mark(")") {
		r.C.I++
	}
	stop := r.C.I
	if r.C.Tokens[stop-1].Text == ")" {
		stop--
	}
	r.closeRun(from)
	r.cur.remarks = append(r.cur.remarks, remark{from: from + 1, to: stop})
	r.Hint(r.C.Span(from+1, stop), "what may be done instead is kept as a note", "write it under instead: to have it offered")
	return true
}

// verbatim keeps what stands after a semicolon as a note. Before anything was
// said at a head, a semicolon is a comma.
func (r *Reading) verbatim(before int) bool {
	named := r.left >= 0
	r.closeRun(before)
	if !named && r.cur == nil && len(r.Elements)+len(r.F.Notes) == 0 {
		return true
	}
	note := strings.TrimSpace(r.C.Slice(r.C.I, r.C.Last))
	switch {
	case note == "":
	case r.cur == nil && r.head:
		r.F.Notes = append(r.F.Notes, note)
	default:
		d := r.element()
		d.remarks = append(d.remarks, remark{r.C.I, r.C.Last, note})
	}
	r.C.I = r.C.Last
	return true
}

// divides reads a comma, "then", "or" or a slash before another element, or the
// figure that begins one.
func (r *Reading) divides(before int) bool {
	if !r.open() && r.left < 0 {
		return false
	}
	named := r.open() && r.cur.Move != nil
	joined := r.C.Mark(",") || r.C.Mark("&") || r.C.TakeAny("then", "and", "into") || r.dash()
	slash := named && !joined && r.C.Tokens[before-1].Text != "w" && r.C.Mark("/")
	or := named && r.C.Take("or")
	next := named && r.cur.amounted() && r.C.Peek(0).Kind == scan.Number
	if !joined && !slash && !or && !next || !r.beginsElement() {
		r.C.I = before
		return false
	}
	r.closeRun(before)
	r.flushAs(or || slash && r.cur.amounted() && (machine(r.cur) && !r.cur.timed() || !scan.FigureKind(r.C.Peek(0))))
	return true
}

// dash takes a dash that stands apart between two names.
func (r *Reading) dash() bool {
	if !r.C.Is("-") || r.C.Peek(0).Tight || r.C.Peek(1).Tight || r.cur == nil || r.cur.Move == nil {
		return false
	}
	r.C.I++
	if r.movementFollows() {
		return true
	}
	r.C.I--
	return false
}

// machine reports whether a movement is done on a machine or on foot, where a
// slash between two amounts means the one or the other.
func machine(d *Element) bool {
	return d.Move != nil && (d.Move.Modality == roomful.Machine || d.Move.Modality == roomful.Running)
}

// timed reports whether the amount is a time: "3 min row / 2 min bike" are one
// after the other.
func (d *Element) timed() bool {
	for i := range d.figures {
		if u := d.figures[i].Unit; u.Class == vocab.Counted && u.Unit.Base() == roomful.Second {
			return true
		}
	}
	return false
}

// flushAs ends the element being read; or says that the next one may be done
// instead of it.
func (r *Reading) flushAs(or bool) {
	r.flush()
	r.or = or
}

// openSet reports whether a plus belongs to the figure before it, as in "5+ @
// 85 %": as many as possible, five at least.
func (r *Reading) openSet() bool {
	t := r.C.Peek(0)
	if !t.Tight || r.C.I == 0 || r.C.Tokens[r.C.I-1].Kind != scan.Number || r.cur == nil {
		return false
	}
	r.C.I++
	defer func() { r.C.I-- }()
	return !r.C.Peek(0).Tight && !r.movementFollows() && !scan.FigureKind(r.C.Peek(0))
}

// beginsElement reports whether a new element begins here: a movement, or
// figures and then words.
func (r *Reading) beginsElement() bool {
	inner := r.C
	defer func() { r.C = inner }()
	r.C.TakeAny("then", "and", "max")
	if r.movementFollows() {
		return true
	}
	if _, ok := r.figures(); !ok {
		return false
	}
	if r.movementFollows() {
		return true
	}
	t := r.C.Peek(0)
	if t.Text == "@" && r.open() && r.cur.amounted() && (r.cur.Move != nil || r.cur.Load != nil) {
		return true // 5 @ 60 %, 3 @ 80 %
	}
	return t.Kind == scan.Word && !vocab.Little[t.Text] && !vocab.LeadIns[t.Text] && r.phrase() == 0 && r.open() && r.C.Tokens[inner.I-1].Text == ","
}

// item reads a figure, a load, a tempo or a name and reports whether there was
// one.
func (r *Reading) item() bool {
	from := r.C.I
	for _, production := range [...]func(*Reading) bool{
		(*Reading).loadItem,
		(*Reading).tempoItem,
		(*Reading).divisionItem,
		(*Reading).figuresItem,
		(*Reading).nameItem,
		(*Reading).phraseItem,
	} {
		if production(r) {
			return true
		}
		r.C.I = from
	}
	return false
}

// flush ends the element being read.
func (r *Reading) flush() {
	d := r.cur
	r.cur = nil
	if d == nil {
		return
	}
	r.assign(d)
	if n := len(r.Elements); r.or && n > 0 && d.Move != nil && r.Elements[n-1].Move != nil {
		r.or = false
		r.Hint(d.At, "read as what may be done instead of "+r.Elements[n-1].Move.Name, "write it under instead: to say so")
		r.Instead = append(r.Instead, roomful.Instead{Movement: r.Elements[n-1].Movement, Options: []roomful.Element{d.Element}})
		return
	}
	r.Elements = append(r.Elements, *d)
}

// NameOrPlace returns where the name stands, or the whole element.
func (d *Element) NameOrPlace() scan.Span {
	if d.NameAt.IsZero() {
		return d.At
	}
	return d.NameAt
}
