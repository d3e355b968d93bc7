package phrase

import (
	"strconv"
	"strings"

	"roomful"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/vocab"
)

// ladderClause = n "-" n "-" n { "-" n } [ "-" "..." [ n ] ] [ "reps" ] | n "down to" n .
// Commas and slashes may stand for the dashes.
func (r *Reading) ladderClause() bool {
	from := r.C.I
	ofSets := r.C.Take("sets of")
	r.C.TakeAny("ladder of", "ladder")
	r.C.Mark(":")
	steps, ok := r.steps()
	if !ok {
		return false
	}
	open, filled := r.goesOn(&steps)
	if len(steps) == 2 && !open && !filled && !ofSets && r.countsDown(steps) {
		steps, filled = fill(steps[:1], steps[1]), true
	}
	if len(steps) < 2 || len(steps) == 2 && !open && !filled && !ofSets && !r.twoSteps() {
		return false
	}
	r.C.TakeAny("reps of", "reps", "repetitions", "rep scheme")
	if len(r.F.Ladder.Steps) > 0 {
		r.Fault(r.C.Span(from, r.C.I), "a second ladder in one piece", "write two pieces, main a: and main b:")
		return true
	}
	if d := r.cur; d != nil && d.Move != nil { // row 1000-750-500 m
		if u := countedAlone(r.C.Peek(0).Text); u != roomful.Rep && vocab.Counts(d.Move, u.Base()) {
			d.Amount.Unit = u
			r.C.I++
		}
	}
	r.checkOpen(steps, open, r.C.Span(from, r.C.I))
	r.F.Ladder, r.F.LadderAt, r.F.OfSets = roomful.Ladder{Steps: steps, Open: open}, r.C.Span(from, r.C.I), ofSets
	return true
}

// countsDown reports whether two figures are the ends of a ladder, "10-1" or
// "1-10 ladder": a range does not begin with its larger end.
func (r *Reading) countsDown(steps []int) bool {
	if r.C.Take("ladder") {
		return true
	}
	_, unit := vocab.UnitWords[r.C.Peek(0).Text]
	return steps[1] == 1 && steps[0] > 2 && !unit
}

// checkOpen says when it cannot be told how an open ladder goes on: it does so by
// the difference of its last two steps.
func (r *Reading) checkOpen(steps []int, open bool, at scan.Span) {
	k := len(steps)
	if !open || k < 3 || steps[k-1] != steps[k-2] && steps[k-1]-steps[k-2] == steps[k-2]-steps[k-3] {
		return
	}
	hint := "write out as many steps as anybody may get to"
	if each := repeated(steps); each > 1 {
		for range 4 {
			steps = append(steps, steps[len(steps)-each]+steps[k-1]-steps[k-1-each])
		}
		hint += ", such as " + joinSteps(steps)
	}
	r.Fault(at, "how this ladder goes on is not clear", hint)
}

// repeated returns how often each step of an even ladder is done, 2 for
// 3-3-6-6; 0 where the steps have no such order.
func repeated(steps []int) int {
	each := 1
	for each < len(steps) && steps[each] == steps[0] {
		each++
	}
	if each == 1 || each >= len(steps) {
		return 0
	}
	by := steps[each] - steps[0]
	for i, n := range steps {
		if n != steps[0]+i/each*by {
			return 0
		}
	}
	return each
}

// joinSteps writes steps with dashes between.
func joinSteps(steps []int) string {
	words := make([]string, len(steps))
	for i, n := range steps {
		words[i] = strconv.Itoa(n)
	}
	return strings.Join(words, "-")
}

// steps reads the figures of a ladder.
func (r *Reading) steps() (steps []int, ok bool) {
	sep := ""
	for {
		t := r.C.Peek(0)
		if t.Kind != scan.Number || t.Value != float64(int(t.Value)) {
			break
		}
		if r.stepUnit() {
			steps = append(steps, int(t.Value))
			sep = "-"
			continue
		}
		next := r.C.Peek(1)
		if len(steps) > 0 && vocab.UnitWords[next.Text].Class != vocab.Bare && vocab.UnitWords[next.Text].Unit != roomful.Rep && sep != "-" {
			return nil, false
		}
		r.C.I++
		steps = append(steps, int(t.Value))
		if sep == "" {
			sep = next.Text
		}
		after := r.C.Peek(1).Kind
		if next.Text != sep || sep != "-" && (r.open() && (sep != "," || r.cur.amounted()) || sep != "," && sep != "/") || after != scan.Number && after != scan.Dots {
			break
		}
		r.C.I++
	}
	return steps, len(steps) > 0 && (sep == "-" || len(steps) > 2 || r.downFollows())
}

// stepUnit passes over a step with a unit of its own, "800 m - 600 m - 400 m run",
// and the dash after it. The unit of the last one stays for the movement.
func (r *Reading) stepUnit() bool {
	unit, dash := r.C.Peek(1), r.C.Peek(2)
	u, ok := vocab.UnitWords[unit.Text]
	if !ok || u.Class != vocab.Counted || u.Unit == roomful.Rep || dash.Text != "-" || r.C.Peek(3).Kind != scan.Number || r.C.Peek(4).Text != unit.Text {
		return false
	}
	r.C.I += 3
	return true
}

// downFollows reports whether "down to" or "to" continues a ladder of one step.
func (r *Reading) downFollows() bool { return r.C.Is("down") || r.C.Is("up") || r.C.Is("to") }

// goesOn reads an ellipsis, "and so on" or "down to 1". Open means that it has
// no end; filled means that steps were put in up to a last one.
func (r *Reading) goesOn(steps *[]int) (open, filled bool) {
	n := len(*steps)
	from := r.C.I
	r.C.Mark("-")
	r.C.Mark(",")
	switch {
	case r.C.Peek(0).Kind == scan.Dots:
		r.C.I++
	case r.C.TakeAny("down to", "up to"), n == 1 && r.C.Is("to") && r.C.Peek(1).Kind == scan.Number && r.C.Peek(1).Value < float64((*steps)[0]) && r.C.Take("to"):
		*steps = fill(*steps, r.last(steps))
		return false, len(*steps) > n
	case r.C.TakeAny("and so on", "etc", "and up"):
		r.C.Mark(".")
		return n > 1, false
	default:
		r.C.I = from
		return false, false
	}
	before := r.C.I
	r.C.Mark("-")
	if t := r.C.Peek(0); t.Kind == scan.Number && n > 1 && vocab.UnitWords[r.C.Peek(1).Text].Class == vocab.Bare {
		*steps = fill(*steps, r.last(steps))
		return false, len(*steps) > n
	}
	r.C.I = before
	return true, false
}

// last reads the last step of a ladder.
func (r *Reading) last(steps *[]int) int {
	if n, ok := r.Integer(); ok {
		return n
	}
	return (*steps)[len(*steps)-1]
}

// fill puts in the steps up to the last, by the difference of the two before.
func fill(steps []int, last int) []int {
	k := len(steps)
	by := 1
	if k > 1 {
		by = steps[k-1] - steps[k-2]
	} else if last < steps[0] {
		by = -1
	}
	const most = 100
	for n := steps[k-1] + by; by != 0 && len(steps) < most && (by > 0 && n <= last || by < 0 && n >= last); n += by {
		steps = append(steps, n)
	}
	return steps
}

// twoSteps reports whether two figures are a ladder, "12-9 for time", rather
// than a range.
func (r *Reading) twoSteps() bool {
	return r.C.Done() || r.C.Is("reps") || r.C.Is("for") || r.C.Is("of") || r.C.Is(":")
}

// buildClause = ( "build" | "work up" | "find" | "establish" ) [ "to" ] [ "a" ] [ "heavy" ] ( n | word ) [ "RM" ] .
func (r *Reading) buildClause() bool {
	from := r.C.I
	if n, ok := r.Integer(); ok { // 3RM
		if !r.head || !r.C.TakeAny("rm", "rep max") {
			return false
		}
		r.F.Build = r.C.Span(from, r.C.I)
		r.F.Reps = Count{n, r.F.Build}
		return true
	}
	if !r.C.TakeAny("build up to", "build to", "build", "work up to", "work to", "find", "establish", "heavy", "max out") {
		return false
	}
	said := r.C.Tokens[r.C.I-1].Text
	r.C.TakeAny("a", "an", "the", "your")
	heavy := r.C.TakeAny("heavy", "max", "heaviest") || said == "heavy"
	reps, ok := r.Integer()
	switch {
	case ok:
		rm := r.C.TakeAny("rm", "rep max")
		r.C.TakeAny("reps", "rep")
		ok = rm || heavy
	case heavy && r.C.Take("set"):
	case r.C.TakeAny("single", "singles"):
		reps, ok = 1, true
	case r.C.TakeAny("double", "doubles"):
		reps, ok = 2, true
	case r.C.TakeAny("triple", "triples"):
		reps, ok = 3, true
	}
	if !ok && (said == "heavy" || said == "find" || !heavy) {
		return false
	}
	r.F.Build = r.C.Span(from, r.C.I)
	if ok {
		r.F.Reps = Count{reps, r.F.Build}
	}
	r.C.TakeAny("for the day", "of the day")
	before := r.C.I
	if r.C.TakeAny("in", "within") {
		if t, ok := r.Time(false); ok {
			r.F.Total = t
		} else {
			r.C.I = before
		}
	}
	return true
}
