package notation

import (
	"roomful"
)

// ladderClause = n "-" n "-" n { "-" n } [ "-" "..." [ n ] ] [ "reps" ] | n "down to" n .
// Commas and slashes may stand for the dashes.
func (r *reading) ladderClause() bool {
	from := r.c.i
	ofSets := r.c.take("sets of")
	steps, ok := r.steps()
	if !ok {
		return false
	}
	open, filled := r.goesOn(&steps)
	if len(steps) < 2 || len(steps) == 2 && !open && !filled && !ofSets && !r.twoSteps() {
		return false
	}
	r.c.takeAny("reps of", "reps", "repetitions", "rep scheme")
	if len(r.f.ladder.Steps) > 0 {
		r.fault(r.c.span(from, r.c.i), "a second ladder in one piece", "write two pieces, main a: and main b:")
		return true
	}
	r.f.ladder, r.f.ladderAt, r.f.ofSets = roomful.Ladder{Steps: steps, Open: open}, r.c.span(from, r.c.i), ofSets
	return true
}

// steps reads the figures of a ladder.
func (r *reading) steps() (steps []int, ok bool) {
	sep := ""
	for {
		t := r.c.peek(0)
		if t.kind != number || t.value != float64(int(t.value)) {
			break
		}
		next := r.c.peek(1)
		if len(steps) > 0 && unitWords[next.text].class != bare && unitWords[next.text].unit != roomful.Rep && sep != "-" {
			return nil, false
		}
		r.c.i++
		steps = append(steps, int(t.value))
		if sep == "" {
			sep = next.text
		}
		after := r.c.peek(1).kind
		if next.text != sep || sep != "-" && (r.open() || sep != "," && sep != "/") || after != number && after != dots {
			break
		}
		r.c.i++
	}
	return steps, len(steps) > 0 && (sep == "-" || len(steps) > 2 || r.downFollows())
}

// downFollows reports whether "down to" or "to" continues a ladder of one step.
func (r *reading) downFollows() bool { return r.c.is("down") || r.c.is("up") }

// goesOn reads an ellipsis, "and so on" or "down to 1". Open means that it has
// no end; filled means that steps were put in up to a last one.
func (r *reading) goesOn(steps *[]int) (open, filled bool) {
	n := len(*steps)
	from := r.c.i
	r.c.mark("-")
	r.c.mark(",")
	switch {
	case r.c.peek(0).kind == dots:
		r.c.i++
	case r.c.takeAny("down to", "up to"):
		*steps = fill(*steps, r.last(steps))
		return false, len(*steps) > n
	case r.c.takeAny("and so on", "etc", "and up"):
		r.c.mark(".")
		return n > 1, false
	default:
		r.c.i = from
		return false, false
	}
	before := r.c.i
	r.c.mark("-")
	if t := r.c.peek(0); t.kind == number && n > 1 && unitWords[r.c.peek(1).text].class == bare {
		*steps = fill(*steps, r.last(steps))
		return false, len(*steps) > n
	}
	r.c.i = before
	return true, false
}

// last reads the last step of a ladder.
func (r *reading) last(steps *[]int) int {
	if n, ok := r.integer(); ok {
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
func (r *reading) twoSteps() bool {
	return r.c.done() || r.c.is("reps") || r.c.is("for") || r.c.is("of") || r.c.is(":")
}

// buildClause = ( "build" | "work up" | "find" | "establish" ) [ "to" ] [ "a" ] [ "heavy" ] ( n | word ) [ "RM" ] .
func (r *reading) buildClause() bool {
	from := r.c.i
	if n, ok := r.integer(); ok { // 3RM
		if !r.head || !r.c.takeAny("rm", "rep max") {
			return false
		}
		r.f.build = r.c.span(from, r.c.i)
		r.f.reps = count{n, r.f.build}
		return true
	}
	if !r.c.takeAny("build up to", "build to", "build", "work up to", "work to", "find", "establish", "heavy", "max out") {
		return false
	}
	said := r.c.tokens[r.c.i-1].text
	r.c.takeAny("a", "an", "the", "your")
	heavy := r.c.takeAny("heavy", "max", "heaviest") || said == "heavy"
	reps, ok := r.integer()
	switch {
	case ok:
		rm := r.c.takeAny("rm", "rep max")
		r.c.takeAny("reps", "rep")
		ok = rm || heavy
	case heavy && r.c.take("set"):
	case r.c.takeAny("single", "singles"):
		reps, ok = 1, true
	case r.c.takeAny("double", "doubles"):
		reps, ok = 2, true
	case r.c.takeAny("triple", "triples"):
		reps, ok = 3, true
	}
	if !ok && (said == "heavy" || said == "find" || !heavy) {
		return false
	}
	r.f.build = r.c.span(from, r.c.i)
	if ok {
		r.f.reps = count{reps, r.f.build}
	}
	r.c.takeAny("for the day", "of the day")
	before := r.c.i
	if r.c.takeAny("in", "within") {
		if t, ok := r.time(false); ok {
			r.f.total = t
		} else {
			r.c.i = before
		}
	}
	return true
}
