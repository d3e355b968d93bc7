package phrase

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"roomful"
	"roomful/notation/internal/diag"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/vocab"
)

// mostSets is how many sets are written out.
const mostSets = 60

// setReps reads "of 5" and ": 5 reps" after "5 sets".
func (r *Reading) setReps() {
	before := r.C.I
	r.C.Take("of")
	if reps, ok := r.cluster(); ok {
		r.F.Reps = reps
		return
	}
	if n, ok := r.Integer(); ok && (r.C.TakeAny("reps", "repetitions") || r.C.I > before+1 && r.plainNumber()) {
		r.F.Reps = Count{n, r.C.Span(before, r.C.I)}
		return
	}
	r.C.I = before
}

// plainNumber reports whether the number just taken counts repetitions: no unit
// and no dash follows.
func (r *Reading) plainNumber() bool {
	t := r.C.Peek(0)
	if t.Text == "-" && t.Tight && r.C.Peek(1).Kind == scan.Number || t.Text == "/" || t.Tight && (t.Text == "'" || t.Text == "\"") {
		return false
	}
	u, ok := vocab.UnitWords[t.Text]
	return !ok || u.Class == vocab.Counted && u.Unit == roomful.Rep || t.Text == "in"
}

// timesClause = n "x" [ n [ "reps" ] | "max" | time ] | "x" n .
func (r *Reading) timesClause() bool {
	from := r.C.I
	if r.C.Take("x") {
		n, ok := r.Integer()
		if !ok || !r.head && (r.open() && !(r.cur.Move != nil && r.cur.amounted()) || r.movementFollows()) || vocab.UnitWords[r.C.Peek(0).Text].Class != vocab.Bare || r.C.Is("/") {
			return false
		}
		r.C.TakeAny("rounds", "sets", "times")
		r.setCount(&r.F.Times, "number of times", n, from)
		return true
	}
	n, ok := r.Integer()
	if !ok || !r.C.Take("x") || r.massFollows() || r.bodyMass(false) || r.pairOfLoads(n) || !r.head && r.movementFollows() {
		return false
	}
	if r.moreSets(n, from) || r.halves(from) {
		return true
	}
	if r.F.Reps.Set() && (r.F.Times.Set() || !r.F.Build.IsZero()) || r.F.OfSets && len(r.F.Ladder.Steps) > 0 {
		return r.secondScheme(from)
	}
	r.setCount(&r.F.Times, "number of times", n, from)
	before := r.C.I
	if reps, ok := r.cluster(); ok {
		r.F.Reps = reps
		return true
	}
	switch reps, ok := r.Integer(); {
	case ok && (r.C.Is("sets") || r.C.Is("rounds")): // 3 x 5 sets
		r.C.I++
		r.F.Reps, r.F.Times = Count{n, r.F.Times.At}, Count{reps, r.C.Span(before, r.C.I)}
	case ok && r.plainNumber():
		r.C.TakeAny("reps", "rep", "repetitions")
		r.F.Reps = Count{reps, r.C.Span(before, r.C.I)}
	case ok && r.C.Is("-") && r.C.Peek(0).Tight && r.C.Peek(1).Kind == scan.Number && r.C.Peek(2).Text != "-":
		r.C.I += 2
		r.C.TakeAny("reps", "repetitions")
		r.F.Reps = Count{reps, r.C.Span(before, r.C.I)}
		r.F.Notes = append(r.F.Notes, r.C.Slice(before, r.C.I))
		r.Hint(r.F.Reps.At, diag.Quote(r.C.Slice(before, r.C.I))+" is read as "+roomful.Figure(float64(reps)), "the range is kept as a note")
	default:
		r.C.I = before
		r.afterTimes()
	}
	return true
}

// secondScheme says that a line has the sets of two movements.
func (r *Reading) secondScheme(from int) bool {
	if _, ok := r.Integer(); ok {
		r.C.TakeAny("reps", "rep")
	}
	at := r.C.Span(from, r.C.I)
	r.Fault(at, "a second number of sets on one line", "write each movement with its sets on a line of its own").Detail = "kept as a note"
	r.F.Notes = append(r.F.Notes, r.C.Slice(from, r.C.I))
	return true
}

// halves says that "6 x (1+1)" is not read: it does not say of what.
func (r *Reading) halves(from int) bool {
	if !r.C.Is("(") || r.C.Peek(1).Kind != scan.Number || r.C.Peek(2).Text != "+" || r.C.Peek(3).Kind != scan.Number {
		return false
	}
	for !r.C.Done() && !r.C.Is(")") && (r.C.Peek(0).Kind == scan.Number || r.C.Peek(0).Kind == scan.Mark) {
		r.C.I++
	}
	if !r.C.Mark(")") {
		return false
	}
	r.setCount(&r.F.Times, "number of times", int(r.C.Tokens[from].Value), from)
	at := r.C.Span(from, r.C.I)
	r.Fault(at, diag.Quote(r.C.Slice(from, r.C.I))+" does not say of what", "name each lift on a line below: 1 clean + 1 jerk").Detail = "kept as a note"
	r.F.Notes = append(r.F.Notes, r.C.Slice(from, r.C.I))
	return true
}

// moreSets reads the second part of "3 x 5, 2 x 3": the sets then differ, and
// are written out.
func (r *Reading) moreSets(n, from int) bool {
	f := &r.F
	written := f.OfSets && len(f.Ladder.Steps) > 0
	last := f.Reps.At.Stop
	if written {
		last = f.LadderAt.Stop
	}
	if i := from - 1; i < 1 || r.left >= 0 || r.C.Tokens[i].Text != "," && r.C.Tokens[i].Text != "then" || r.C.Tokens[i-1].Stop != last {
		return false
	}
	if !written && !(f.Times.Set() && f.Reps.Set() && f.LadderAt.IsZero()) {
		return false
	}
	before := r.C.I
	reps, ok := r.Integer()
	if !ok || n < 1 || !written && f.Times.N < 1 || !r.plainNumber() || n+len(f.Ladder.Steps)+f.Times.N > mostSets {
		r.C.I = before
		return false
	}
	r.C.TakeAny("reps", "rep", "repetitions")
	if !written {
		f.LadderAt, f.OfSets = f.Times.At, true
		f.Ladder.Steps = slices.Repeat([]int{f.Reps.N}, f.Times.N)
		f.Times, f.Reps = Count{}, Count{}
	}
	f.Ladder.Steps = append(f.Ladder.Steps, slices.Repeat([]int{reps}, n)...)
	f.LadderAt.Stop = r.C.Span(from, r.C.I).Stop
	return true
}

// cluster reads "1.1.1" for the repetitions of a set: bouts with a short pause
// between, which a set here cannot hold. It is read as all of them at once.
func (r *Reading) cluster() (reps Count, ok bool) {
	from, n := r.C.I, 0
	if r.C.Peek(0).Kind != scan.Number {
		return reps, false
	}
	stop := from + 1
	for stop < r.C.Last && r.C.Tokens[stop].Tight && (r.C.Tokens[stop].Kind == scan.Number || r.C.Tokens[stop].Text == ".") {
		stop++
	}
	text := r.C.Slice(from, stop)
	bouts := strings.Split(text, ".")
	for _, bout := range bouts {
		k, err := strconv.Atoi(bout)
		if err != nil || k > 99 || bout != bouts[0] {
			return reps, false
		}
		n += k
	}
	if len(bouts) < 3 {
		return reps, false
	}
	r.C.I = stop
	reps = Count{n, r.C.Span(from, stop)}
	r.Warn(reps.At, fmt.Sprintf("%s is read as %d repetitions: pauses within a set are not timed", diag.Quote(text), n), "write the repetitions of a whole set, and how they are broken after note:")
	r.F.Notes = append(r.F.Notes, text)
	return reps, true
}

// afterTimes reads "max" or a time after "5 x".
func (r *Reading) afterTimes() {
	before := r.C.I
	if r.C.TakeAny("max", "amrap") && !r.timeFollows(r.C.Tokens[before].Text == "amrap") {
		r.F.Open = r.C.Span(before, r.C.I)
		r.C.TakeAny("effort", "reps", "set")
		return
	}
	r.C.I = before
	if r.workRestClause() {
		return
	}
	r.C.I = before
	if t, ok := r.Time(false); ok && !r.movementFollows() && !r.eachFollows() {
		r.F.Work = t
		return
	}
	r.C.I = before
}

// massFollows reports whether figures with a unit of mass stand here, as in
// "2 x 24/16 kg".
func (r *Reading) massFollows() bool {
	before := r.C.I
	defer func() { r.C.I = before }()
	q, ok := r.figures()
	return ok && q.Unit.Class == vocab.Massed
}

// pairOfLoads reports whether "2x15/10" after a name is two implements rather
// than sets: their loads have no unit.
func (r *Reading) pairOfLoads(n int) bool {
	if n > 2 || !r.open() && r.left < 0 || !scan.FigureKind(r.C.Peek(0)) {
		return false
	}
	t := r.C.Peek(0)
	return r.C.Peek(1).Text == "/" && scan.FigureKind(r.C.Peek(2)) || t.Value != float64(int(t.Value)) || r.open() && r.cur.amounted()
}

// countedFollows reports whether a movement is named here, perhaps after what is
// counted of it, "cal bike".
func (r *Reading) countedFollows() bool {
	before := r.C.I
	defer func() { r.C.I = before }()
	if countedAlone(r.C.Peek(0).Text) != roomful.Rep || r.C.Is("reps") {
		r.C.I++
		r.C.Take("of")
	}
	return r.movementFollows()
}

// movementFollows reports whether a movement is named here, after little words.
func (r *Reading) movementFollows() bool {
	c := r.C
	for c.Peek(0).Kind == scan.Word && (vocab.Little[c.Peek(0).Text] || vocab.Adjectives[c.Peek(0).Text]) {
		c.I++
	}
	_, n := r.Match(c)
	return n > 0 || c.Is("rest")
}
