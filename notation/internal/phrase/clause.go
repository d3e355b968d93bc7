package phrase

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"

	"roomful"
	"roomful/notation/internal/diag"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/vocab"
)

// Clause reads one clause of a head and reports whether there was one. The
// order matters only where one clause is the beginning of another.
func (r *Reading) Clause() bool {
	if !r.mayBegin() {
		return false
	}
	for _, production := range [...]func(*Reading) bool{
		(*Reading).ratioClause,
		(*Reading).asManyClause,
		(*Reading).everyClause,
		(*Reading).ladderClause,
		(*Reading).forTimeClause,
		(*Reading).timesClause,
		(*Reading).roundsClause,
		(*Reading).buildClause,
		(*Reading).capClause,
		(*Reading).scoreClause,
		(*Reading).teamClause,
		(*Reading).wordClause,
		(*Reading).vestClause,
		(*Reading).workRestClause,
		(*Reading).restClause,
		(*Reading).windowClause,
	} {
		before, said := r.C.I, len(r.List)
		if production(r) {
			return true
		}
		r.C.I, r.List = before, r.List[:said]
	}
	return false
}

// leads are the words that a clause may begin with.
var leads = func() map[string]bool {
	m := vocab.Set("amrap amreps as max maximum most every emom e on sets ladder for ft against rft each x build work find establish heavy " +
		"time timecap cap tc capped your score slowest lowest team teams in unbroken alternating alternate alt stations not no unscored " +
		"rest resting change changeover transition within over a with wearing w")
	add := func(phrase string) {
		first, _, _ := strings.Cut(phrase, " ")
		m[first] = true
	}
	for _, t := range teams {
		add(t.phrase)
	}
	for _, s := range styles {
		add(s.phrase)
		m[strings.ReplaceAll(s.phrase, " ", "-")] = true // you-go-I-go
	}
	for w := range vocab.Numerals {
		m[w] = true
	}
	return m
}()

// mayBegin reports whether a clause may begin here, by its first words alone.
// Most words and figures begin none, and need not be tried.
func (r *Reading) mayBegin() bool {
	switch t := r.C.Peek(0); t.Kind {
	case scan.Word:
		return leads[t.Text] || vocab.EveryWord(t.Text)
	case scan.Number:
		next := r.C.Peek(1)
		return next.Kind != scan.Word || follows[next.Text] || vocab.FormatHints[next.Text]
	}
	return true
}

// follows are the words, beside those of formats, that may follow the figure of
// a clause: units of time, and what a ladder or a cap goes on with.
var follows = func() map[string]bool {
	m := vocab.Set("to works working m down up cap tc timecap rep hard rest off")
	for w, u := range vocab.UnitWords {
		if u.Class == vocab.Counted && u.Unit.Base() == roomful.Second {
			m[w] = true
		}
	}
	return m
}()

// asManyClause = "AMRAP" [ [ "in" ] time ] | ( "as many" | "max" | "most" ) what "in" time .
// A movement between is left for the element that follows.
func (r *Reading) asManyClause() bool {
	from := r.C.I
	switch {
	case r.C.TakeAny("amrap", "amreps"):
		r.F.AsMany = r.C.Span(from, r.C.I)
		r.C.TakeAny("in", "for", "of", "x")
		colon := r.C.Mark(":")
		if r.negativeFollows() || (colon || r.F.Total.Set()) && r.repsFollow() {
			return true
		}
		r.C.Mark("-")
		r.setTime(&r.F.Window, "window", true)
		return true
	case r.C.TakeAny("as many", "as much"):
		return r.asPossible(from)
	case r.C.TakeAny("max", "maximum", "most"):
		return r.mostClause(from)
	}
	return false
}

// repsFollow reports whether a bare figure and a movement stand here, "10
// push-ups".
func (r *Reading) repsFollow() bool {
	before := r.C.I
	defer func() { r.C.I = before }()
	r.C.I++
	return r.C.Tokens[min(before, len(r.C.Tokens)-1)].Kind == scan.Number && r.movementFollows()
}

// asPossible reads what follows "as many": a word for what is counted, or a
// movement, then "as possible". Words that are counted stay for the element.
func (r *Reading) asPossible(from int) bool {
	skip := r.C.I
	for n := 0; n < 6 && !r.C.Take("as possible"); n++ {
		if r.C.Peek(0).Kind != scan.Word {
			return false
		}
		r.C.I++
	}
	if r.C.Tokens[r.C.I-1].Text != "possible" {
		return false
	}
	r.F.AsMany = r.C.Span(from, r.C.I)
	what := r.C.Line.Words[skip : r.C.I-2]
	r.C.TakeAny("in", "for", "within")
	r.setTime(&r.F.Window, "window", true)
	r.countedWords(what, skip)
	return true
}

// countedWords opens an element for a movement named within the clause, "as
// many burpees as possible". General words count nothing of their own.
func (r *Reading) countedWords(what []string, from int) {
	if len(what) == 0 || what[0] == "rounds" || what[0] == "reps" && len(what) == 1 || what[0] == "rounds/reps" {
		return
	}
	if what[0] == "distance" {
		r.Counts, what, from = roomful.Metre, what[1:], from+1
		if len(what) == 0 {
			return
		}
	}
	inner := r.ReaderOf(scan.Cursor{Line: r.C.Line, I: from, Last: from + len(what)}, false)
	inner.Scored = r.Scored
	inner.Run()
	if len(inner.Elements) == 1 && (inner.Elements[0].Move != nil || len(what) > 1) {
		r.Elements = append(r.Elements, inner.Elements...)
	} else if u, ok := vocab.UnitWords[what[0]]; ok && u.Class == vocab.Counted {
		r.Counts = u.Unit
	}
}

// mostClause reads "max burpees in 5 min": only the time at the end makes it a
// format, and what is counted stays for the element.
func (r *Reading) mostClause(from int) bool {
	skip := r.C.I
	if r.head && r.F.Total.Set() && !r.F.Begins() && r.countedFollows() {
		r.F.AsMany = r.C.Span(from, skip) // 5 min of max burpees
		return true
	}
	for n := 0; n < 7; n++ {
		if r.C.Peek(0).Kind != scan.Word {
			return false
		}
		if r.C.I > skip && r.C.TakeAny("in", "within") {
			words := r.C.Line.Words[skip : r.C.I-1]
			if !r.setTime(&r.F.Window, "window", true) {
				return false
			}
			r.F.AsMany = r.C.Span(from, skip)
			r.countedWords(words, skip)
			return true
		}
		r.C.I++
	}
	return false
}

// everyClause = ( "every" time | "EMOM" | "E2MOM" | "E2:30" ) [ "on the minute" ] [ "x" n | [ "for" ] n ] .
func (r *Reading) everyClause() bool {
	from := r.C.I
	each := Timed{D: time.Minute}
	switch {
	case r.C.TakeAny("emom", "on the minute", "every minute"):
	case r.C.Take("every") || r.C.Take("on the"):
		var ok bool
		if each, ok = r.Time(false); !ok {
			return false
		}
	case r.emomWord(&each):
	default:
		return false
	}
	r.C.TakeAny("on the minute", "on the clock", "on the")
	each.At = r.C.Span(from, r.C.I)
	r.F.Interval = each
	r.C.Mark(":")
	r.everyLength(each)
	return true
}

// emomWord reads E2MOM and E90S.
func (r *Reading) emomWord(each *Timed) bool {
	t := r.C.Peek(0).Text
	n := scan.Digits(strings.TrimPrefix(t, "e"))
	if t == "e" && r.C.Peek(1).Tight && r.C.Peek(1).Kind == scan.Clock {
		each.D = time.Duration(r.C.Peek(1).Value) * time.Second
		r.C.I += 2
		r.C.Take("mom")
		return true
	}
	if !strings.HasPrefix(t, "e") || n == 0 || n > 4 {
		return false
	}
	_, value, _ := scan.Figure(t[1 : 1+n])
	switch t[1+n:] {
	case "mom", "min", "m":
		each.D = time.Duration(value) * time.Minute
	case "":
		// e2:30, which the scanner parts at the colon.
		colon, seconds := r.C.Peek(1), r.C.Peek(2)
		if colon.Text != ":" || !colon.Tight || seconds.Kind != scan.Number || !seconds.Tight || seconds.Value >= 60 {
			return false
		}
		each.D = time.Duration(value)*time.Minute + time.Duration(seconds.Value)*time.Second
		r.C.I += 2
	case "s", "sec":
		each.D = time.Duration(value) * time.Second
	default:
		return false
	}
	r.C.I++
	return true
}

// everyLength reads how often or how long: "x 5", "for 12 min", or a figure
// alone, which is minutes.
func (r *Reading) everyLength(each Timed) {
	before := r.C.I
	if r.C.Take("x") {
		if n, ok := r.Integer(); ok && vocab.UnitWords[r.C.Peek(0).Text].Class == vocab.Bare {
			if r.C.TakeAny("rounds", "rds") {
				r.F.Rounds = Count{n, r.C.Span(before, r.C.I)}
				return
			}
			r.C.TakeAny("sets", "times", "intervals")
			r.F.Times = Count{n, r.C.Span(before, r.C.I)}
			return
		}
		r.C.I = before
		r.C.Take("x")
	}
	r.C.Take("for")
	start := r.C.I
	if r.countFollows("rounds", "rds", "sets", "times", "intervals", "x") {
		r.C.I = start
		return
	}
	if t, ok := r.Time(true); ok && !(r.C.I == start+1 && start == before && r.C.Tokens[start].Kind == scan.Number && r.movementFollows()) {
		r.F.Total = t
		return
	}
	r.C.I = before
}

// countFollows reports whether a whole number and one of the words stand here.
func (r *Reading) countFollows(words ...string) bool {
	before := r.C.I
	defer func() { r.C.I = before }()
	_, ok := r.Integer()
	return ok && r.C.TakeAny(words...)
}

// forTimeClause = "for time" | "FT" | [ n ] "RFT" [ n ] | "each for time" .
func (r *Reading) forTimeClause() bool {
	from := r.C.I
	if n, ok := r.Integer(); ok {
		if !r.C.TakeAny("rft", "rfts", "rds ft", "rounds ft") {
			return false
		}
		r.F.ForTime = r.C.Span(from, r.C.I)
		r.F.Rounds = Count{n, r.F.ForTime}
		return true
	}
	switch {
	case r.C.TakeAny("each for time", "each round for time", "every round for time"):
		r.F.EachForTime = r.C.Span(from, r.C.I)
	case r.C.TakeAny("for time", "ft", "against the clock"):
		r.F.ForTime = r.C.Span(from, r.C.I)
	case r.C.Take("rft"):
		r.F.ForTime = r.C.Span(from, r.C.I)
		if n, ok := r.Integer(); ok {
			r.F.Rounds = Count{n, r.C.Span(from, r.C.I)}
		}
	default:
		return false
	}
	return true
}

// roundsClause = n ( "rounds" | "sets" | "intervals" | "stations" | "slots" ) [ "of" ] [ reps ] .
func (r *Reading) roundsClause() bool {
	from := r.C.I
	n, ok := r.Integer()
	if !ok {
		return false
	}
	low := n
	if r.C.Mark("-") {
		if _, ok = r.Integer(); !ok {
			return false
		}
	}
	named := r.C.I
	ranged := named > from+1
	switch {
	case r.C.TakeAny("rounds", "round", "rds", "rd", "rnds", "rounds through"):
		r.setCount(&r.F.Rounds, "number of rounds", low, from)
	case r.C.TakeAny("rnft", "rounds nft", "rds nft"):
		r.setCount(&r.F.Rounds, "number of rounds", low, from)
		r.F.NotScored = true
	case r.C.TakeAny("sets", "set"):
		r.setCount(&r.F.Sets, "number of sets", low, from)
		r.setReps()
	case r.C.TakeAny("intervals", "interval", "bouts", "efforts", "repeats"):
		r.setCount(&r.F.Intervals, "number of intervals", low, from)
	case r.C.TakeAny("times through", "times"):
		r.setCount(&r.F.Rounds, "number of rounds", low, from)
	default:
		return false
	}
	if ranged {
		r.Hint(r.C.Span(from, r.C.I), diag.Quote(r.C.Slice(from, r.C.I))+" is read as "+roomful.Figure(float64(low)), "say one number to have it planned")
		r.F.Notes = append(r.F.Notes, r.C.Slice(from, r.C.I))
	}
	return true
}

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

// mostSets is how many sets are written out.
const mostSets = 60

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
