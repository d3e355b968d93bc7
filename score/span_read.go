package score

import (
	"slices"

	"roomful"
)

// spoken is a span with the tokens that say it.
type spoken struct {
	span
	stretch
	figure  bool // it has a figure that could be taken for a score
	held    bool // a load was held for it
	claimed bool // something was done for it
	taken   bool // its words were taken before figures were read
}

// Words around the stretches of a piece.
var (
	// fromWords go before the round or the time that something changed at.
	fromWords = []string{"from", "after", "since", "ab", "in", "od", "nach", "starting"}
	// afterWords are those of them that leave out what they name.
	afterWords = []string{"after", "nach"}
	// untilWords go before where something ended.
	untilWords = []string{"until", "til", "till", "bis", "through", "thru"}
	firstWords = []string{"first", "erste", "ersten"}
	lastWords  = []string{"last", "final", "letzte", "letzten"}
	minWords   = []string{"min", "mins", "minute", "minutes"}
	halfWords  = wordSet("half halfway half-way")
	oneRound   = wordSet("round rd r rnd runde")
	// turnWords say that something was changed on the way.
	turnWords = []string{"dropped", "switched", "swapped", "changed", "lowered", "down", "then", "went", "moved", "scaled", "up", "bumped"}
	// restWords speak of all that no other stretch has.
	restWords = []string{"then", "rest", "after", "afterwards", "dann", "danach", "otherwise", "remaining", "thereafter", "onwards"}
	// overWords say that it was all over: the rounds beside them are the score.
	exceptWords = []string{"minus", "except", "but", "apart", "bar"}
	overWords   = []string{"cap", "capped", "tc", "dnf", "stopped", "stop", "quit", "out", "left"}
	atWords     = []string{"at", "@", "with", "w", "on", "using", "mit"}
)

// spanAt reads a stretch of the piece that begins at token i. The ones before it in the
// text are given, since a count of rounds goes on from the one before.
func (p *parser) spanAt(i int, turned bool, before []spoken) (spoken, bool) {
	for _, production := range []func() (span, int){
		func() (span, int) { return p.spanFrom(i, turned) },
		func() (span, int) { return p.spanUntil(i) },
		func() (span, int) { return p.spanFirst(i) },
		func() (span, int) { return p.spanLast(i) },
		func() (span, int) { return p.spanIn(i, before) },
		func() (span, int) { return p.spanCount(i, before) },
		func() (span, int) { return p.spanHalf(i, before) },
	} {
		if s, end := production(); end > i {
			out := spoken{span: s, stretch: stretch{i, end}}
			for k := i; k < end; k++ {
				out.figure = out.figure || p.isNumber(k) || p.isClock(k)
			}
			return out, true
		}
	}
	return spoken{}, false
}

// spanFrom reads "from rd 3", "after 10", "from about halfway", "from 10:00 on", and "at
// 6:00" and "in rd 3" where something turned.
func (p *parser) spanFrom(i int, turned bool) (span, int) {
	w := p.word(i)
	from := slices.Contains(fromWords, w) && (w != "in" || turned)
	after := slices.Contains(afterWords, w)
	at, long, end := p.pointAt(i + 1)
	switch whole := p.isNumber(i+1) && p.toks[i+1].decimals == 0 && !p.unitAt(i+2); {
	case w == "at" && (at.half || turned && at.seconds > 0):
		return span{since: at}, end
	case from && end == i+1 && whole && (after || p.asked.count > 0 || p.word(i+2) == "on" || from && w == "from" && p.countsRounds(i+1)):
		at, end = startOf(p.whole(i+1)), i+2+b2i(slices.Contains(roundWords, p.word(i+2)))
	case !from || end == i+1:
		return span{}, i
	}
	if after && at.last == 0 && !at.half && (at.seconds == 0 || long > 0) {
		at = at.later(long)
	}
	return span{since: at}, end + b2i(slices.Contains([]string{"on", "onwards", "onward"}, p.word(end)))
}

// spanUntil reads "until round 3" and "up to halfway". What "up to" names belongs to it.
func (p *parser) spanUntil(i int) (span, int) {
	j := i + 1
	through := p.word(i) == "up" && p.word(j) == "to"
	if through {
		j++
	} else if toPoint := halfWords[p.word(j)] || p.isNumber(j+1) && (slices.Contains(minWords, p.word(j)) || slices.Contains(roundWords, p.word(j))); !slices.Contains(untilWords, p.word(i)) && !(p.word(i) == "to" && toPoint) {
		return span{}, i
	}
	at, long, end := p.pointAt(j)
	if end == j && p.isNumber(j) && slices.Contains(roundWords, p.word(j+1)) {
		at, end, through = startOf(p.whole(j)), j+2, true
	}
	if end == j {
		return span{}, i
	}
	if through || p.word(i) == "through" || p.word(i) == "thru" || p.word(i) == "bis" {
		at = at.later(long)
	}
	return span{until: at}, end
}

// spanFirst reads "first round", "for the first 3 rounds", "first 5", "first half".
func (p *parser) spanFirst(i int) (span, int) {
	if n, tokens := p.ordinal(i); n != 1 || tokens == 0 {
		return span{}, i
	} else if tokens == 2 && slices.Contains(roundWords, p.word(i+2)) { // "1st round"
		return span{until: startOf(2)}, i + 3
	}
	switch j := i + 1; {
	case slices.Contains(roundWords, p.word(j)), p.word(j) == "one":
		return span{until: startOf(2)}, j + 1
	case halfWords[p.word(j)]:
		return span{until: point{half: true}}, j + 1
	case p.isNumber(j) && slices.Contains(roundWords, p.word(j+1)):
		return span{until: startOf(p.whole(j) + 1)}, j + 2
	case p.isNumber(j) && slices.Contains(minWords, p.word(j+1)):
		return span{until: point{seconds: 60 * p.toks[j].value}}, j + 2
	case p.isClock(j):
		return span{until: point{seconds: p.toks[j].value}}, j + 1
	case p.countsRounds(j):
		return span{until: startOf(p.whole(j) + 1)}, j + 1
	}
	return span{}, i
}

// spanLast reads "last round", "last 2 rounds", "last 5", "second half".
func (p *parser) spanLast(i int) (span, int) {
	j := i + 1
	switch {
	case p.word(i) == "second" && halfWords[p.word(j)]:
		return span{since: point{half: true}}, j + 1
	case !slices.Contains(lastWords, p.word(i)):
		return span{}, i
	case slices.Contains(roundWords, p.word(j)), p.word(j) == "one":
		return span{since: point{last: 1}}, j + 1
	case p.word(i-1) == "the" && slices.Contains(atWords, p.word(j)) && p.asked.most() > 1: // "the last at 60"
		return span{since: point{last: 1}}, j
	case halfWords[p.word(j)]:
		return span{since: point{half: true}}, j + 1
	case p.isNumber(j) && slices.Contains(roundWords, p.word(j+1)):
		return span{since: point{last: p.whole(j)}}, j + 2
	case p.countsRounds(j):
		return span{since: point{last: p.whole(j)}}, j + 1
	}
	return span{}, i
}

// countsRounds reports whether a bare figure may count rounds: fewer than the piece has, and
// nothing stands behind it that says what else it counts.
func (p *parser) countsRounds(i int) bool {
	if !p.isNumber(i) || p.toks[i].decimals > 0 || p.whole(i) >= p.asked.most() {
		return false
	}
	j := i + 1
	return j >= len(p.toks) || p.toks[j].clause != p.toks[i].clause || p.isNumber(j) && !p.toks[j].glued ||
		slices.Contains(atWords, p.word(j)) || slices.Contains(restWords, p.word(j)) || p.word(j) == "and"
}

// spanIn reads "round 1", "rounds 1-3", "in the third round", and, where rounds were said
// before, "4-5".
func (p *parser) spanIn(i int, before []spoken) (span, int) {
	j := i + b2i(p.word(i) == "in")
	j += b2i(p.word(j) == "the")
	if n, tokens := p.ordinal(j); n > 0 && slices.Contains(roundWords, p.word(j+tokens)) {
		return span{startOf(n), startOf(n + 1)}, j + tokens + 1
	}
	if slices.Contains(minWords, p.word(j)) && p.isNumber(j+1) && (p.word(j+2) == "-" || p.word(j+2) == "to") && p.isNumber(j+3) {
		return span{point{seconds: 60 * (p.toks[j+1].value - 1)}, point{seconds: 60 * p.toks[j+3].value}}, j + 4
	}
	switch said := len(before) > 0 && p.isNumber(j) && p.word(j+1) == "-" && p.isNumber(j+2); {
	case slices.Contains(roundWords, p.word(j)) && p.isNumber(j+1) && (p.word(j+2) != "+" || !p.number(j+3) || p.asked.kind == roomful.TimeScore) && (!p.isNumber(j-1) || p.scoreElsewhere() && (p.word(j+2) == "-" || oneRound[p.word(j)])):
		j++
	case !said || p.whole(j) != before[len(before)-1].until.round:
		return span{}, i
	}
	n := p.whole(j)
	if w := p.word(j + 1); w == "on" || w == "onwards" || w == "+" && !p.number(j+2) {
		return span{since: startOf(n)}, j + 2
	}
	if w := p.word(j + 1); p.isNumber(j+2) && ((slices.Contains([]string{"-", "to", "and", "&"}, w) || w == "+" && p.asked.kind == roomful.TimeScore) || w == "," && p.whole(j+2) == n+1) && p.whole(j+2) > n {
		return span{startOf(n), startOf(p.whole(j+2) + 1)}, j + 3
	}
	if p.says(p.clause(i), "->") { // "24 -> 16 rd 2"
		return span{since: startOf(n)}, j + 1
	}
	return span{startOf(n), startOf(n + 1)}, j + 1
}

// spanCount reads "24 for 3 rounds", "24 x 3 rounds" and, where the rounds are no score, "3 rounds at 24, 2
// at 16": so many from where the ones before them ended.
func (p *parser) spanCount(i int, before []spoken) (span, int) {
	j := i + b2i(p.word(i) == "for" || p.word(i) == "x")
	end := j + 1
	again := len(before) > 0 && before[len(before)-1].counts(p)
	switch {
	case j > i && i > 0 && p.toks[i-1].kind == clockToken, !p.isNumber(j) || p.toks[j].decimals > 0 || p.whole(j) >= p.asked.most() || p.word(j-1) == "+" || j == i && !p.scoreElsewhere():
		return span{}, i
	case slices.Contains(roundWords, p.word(end)):
		end++
	case !again || !slices.Contains(atWords, p.word(end)) && j == i || p.word(i) == "x":
		return span{}, i
	}
	k := end
	for slices.Contains(atWords, p.word(k)) {
		k++
	}
	_, named := p.named.from(k)
	behind := p.isMass(j-1) || p.word(j-1) == "(" && p.isMass(j-2) // "16 kg 4 rounds"
	if j == i && !(p.isNumber(k) && p.toks[k].clause == p.toks[i].clause) && !named && !behind {
		return span{}, i
	}
	s := span{until: startOf(p.whole(j) + 1)}
	if again {
		s.since = before[len(before)-1].until
		s.until = startOf(max(1, s.since.round) + p.whole(j))
	}
	return s, end
}

// counts reports whether a span is said by a count of rounds.
func (s *spoken) counts(p *parser) bool {
	return s.until.round > 0 && (p.toks[s.from].kind == numberToken || p.word(s.from) == "for" || p.word(s.from) == "x")
}

// scoreElsewhere reports whether a count of rounds is no score: the piece has none, or
// "6+3" stands somewhere.
func (p *parser) scoreElsewhere() bool {
	if p.asked.kind != roomful.RoundsScore {
		return true
	}
	for i := range p.toks {
		if p.word(i) == "+" && p.number(i-1) && p.number(i+1) {
			return true
		}
	}
	return false
}

// spanHalf reads "half at 24, half at 16", and "halfway" alone, which is from there on.
func (p *parser) spanHalf(i int, before []spoken) (span, int) {
	half := point{half: true}
	j := i + b2i(p.word(i) == "for")
	j += b2i(p.word(j) == "the" || p.word(j) == "other")
	switch {
	case !halfWords[p.word(j)] || p.word(j-1) == "my":
		return span{}, i
	case p.word(j) == "half" && j == i && !p.isNumber(j+1) && !slices.Contains(atWords, p.word(j+1)) && p.count("half") < 2:
		return span{}, i // "half of the pull-ups"
	case p.word(j) != "half", p.word(j-1) == "other", len(before) > 0 && before[len(before)-1].until == half:
		return span{since: half}, j + 1
	}
	return span{until: half}, j + 1
}

// count is how often a word stands in the text.
func (p *parser) count(word string) (n int) {
	for _, t := range p.toks {
		n += b2i(t.text == word)
	}
	return n
}

// isMass reports whether a token is a unit of mass.
func (p *parser) isMass(i int) bool {
	return slices.Contains(kgWords, p.word(i)) || slices.Contains(lbWords, p.word(i))
}

// isClock reports whether token i is an unused clock time.
func (p *parser) isClock(i int) bool {
	return i >= 0 && i < len(p.toks) && p.toks[i].kind == clockToken && !p.used[i]
}

// whole is the figure of token i as a count.
func (p *parser) whole(i int) int { return int(p.toks[i].value) }
