package score

import (
	"math"
	"slices"

	"roomful"
)

// moment is a point of a piece in words: from a time, a round or half way on.
type moment struct {
	seconds float64
	round   int // from the start of this one
	half    bool
	last    int  // from the start of the last so many
	until   bool // it ends there: nothing is known of from when on
}

// spoken is a moment with the tokens that say it.
type spoken struct {
	moment
	stretch
	figure  bool // it has a figure that could be taken for a score
	ahead   bool // it speaks of what comes behind it: "first 3 rounds at 80 then 60"
	claimed bool // something began then
}

// fromWords go before the round or the time that something changed at.
var fromWords = []string{"from", "after", "since", "ab", "in", "od", "nach"}

// momentAt reads a moment that begins at token i: "from rd 3", "after 10", "from about
// halfway", "last 2 rounds", "from 10:00 on", and "at 6:00" where something turned.
func (p *parser) momentAt(i int, turned bool) (s spoken, ok bool) {
	w, j := p.word(i), i+1
	if p.word(j) == "about" || p.word(j) == "the" {
		j++
	}
	from := slices.Contains(fromWords, w)
	s = spoken{stretch: stretch{i, j + 1}, figure: true, ahead: w == "after" || w == "nach"}
	switch {
	case halfWords[w] && w != "half":
		s.half, s.figure, s.to = true, false, i+1
	case halfWords[p.word(j)] && (from || slices.Contains([]string{"at", "until", "to"}, w)):
		s.half, s.figure, s.until = true, false, w == "until" || w == "to"
	case (from && w != "in" || w == "at" && turned) && p.isClock(j):
		s.seconds = p.toks[j].value
	case from && slices.Contains(roundWords, p.word(j)) && p.isNumber(j+1):
		s.round, s.to = p.whole(j+1)+b2i(s.ahead), j+2
	case s.ahead && p.isNumber(j) && p.toks[j].decimals == 0 && !p.unitAt(j+1):
		s.round, s.to = p.whole(j)+1, j+1+b2i(slices.Contains(roundWords, p.word(j+1)))
	case (w == "first" || w == "for") && p.isNumber(j) && slices.Contains(roundWords, p.word(j+1)) && p.thenFigure(j):
		s.round, s.to, s.ahead = p.whole(j)+1, j+2, true
	case w == "last" && slices.Contains(roundWords, p.word(j)):
		s.last, s.figure = 1, false
	case w == "last" && p.isNumber(j) && slices.Contains(roundWords, p.word(j+1)):
		s.last, s.to = p.whole(j), j+2
	default:
		return spoken{}, false
	}
	s.to += b2i(p.word(s.to) == "on")
	return s, true
}

// halfWords are the middle of a piece.
var halfWords = wordSet("half halfway half-way")

// turnWords say that something was changed on the way.
var turnWords = []string{"dropped", "switched", "swapped", "changed", "lowered", "down", "then"}

// overWords say that it was all over: the rounds beside them are the score.
var overWords = []string{"cap", "capped", "tc", "dnf", "stopped", "stop", "quit", "out", "left"}

// isClock reports whether token i is an unused clock time.
func (p *parser) isClock(i int) bool {
	return i >= 0 && i < len(p.toks) && p.toks[i].kind == clockToken && !p.used[i]
}

// whole is the figure of token i as a count.
func (p *parser) whole(i int) int { return int(p.toks[i].value) }

// thenFigure reports whether "then" and another figure come behind a token in its clause.
func (p *parser) thenFigure(at int) bool {
	for k := at; k+1 < p.clause(at).to; k++ {
		if p.word(k) == "then" {
			return p.toks[k+1].kind == numberToken
		}
	}
	return false
}

// moments finds what each clause says of when. Where a clause has a further figure, the
// figures of its moments are taken before they can be read as scores: "60 from round 3",
// "dropped to 70 at 6:00", "first 3 rounds at 80 then 60".
func (p *parser) moments() {
	p.when = make([][]spoken, len(p.clauses))
	for c, clause := range p.clauses {
		figures, turned := 0, p.says(clause, turnWords...) // beside those of the moments
		for i := clause.from; i < clause.to; i++ {
			s, ok := p.momentAt(i, turned)
			if p.used[i] || !ok || s.to > clause.to {
				figures += b2i(p.isNumber(i) || p.isClock(i))
				continue
			}
			p.when[c] = append(p.when[c], s)
			i = s.to - 1
		}
		if figures == 0 || p.says(clause, overWords...) {
			continue
		}
		for _, s := range p.when[c] {
			if s.figure {
				p.use(s.from, s.to)
			}
		}
	}
}

// momentOf is when the change or the load said by some tokens began, and takes its
// words: what is said behind it and before the next figure, else right before it.
func (p *parser) momentOf(said stretch) (m moment, ok bool) {
	spoken := p.when[p.toks[said.from].clause]
	for k := range spoken {
		s := &spoken[k]
		if s.from >= said.to && !(s.ahead && p.figureIn(s.to, p.clause(said.from).to)) && !p.figureIn(said.to, s.from) {
			p.claim(s)
			return s.moment, !s.until
		}
	}
	for k := range slices.Backward(spoken) {
		s := &spoken[k]
		then := p.says(stretch{s.to, max(s.to, said.from)}, "then")
		if s.to <= said.from && (then || !p.figureIn(s.to, said.from)) {
			p.claim(s)
			return s.moment, !s.until && (then || !p.thenFigure(s.from))
		}
	}
	return moment{}, false
}

// claim takes the words of a moment that something began at.
func (p *parser) claim(s *spoken) {
	s.claimed = true
	p.use(s.from, s.to)
}

// unclaim gives the moments that nothing began at back to the note.
func (p *parser) unclaim() {
	for _, spoken := range p.when {
		for _, s := range spoken {
			if !s.claimed {
				p.unuse(s.from, s.to)
			}
		}
	}
}

// figureIn reports whether a number stands between two tokens.
func (p *parser) figureIn(from, to int) bool {
	for k := from; k < to; k++ {
		if p.toks[k].kind == numberToken {
			return true
		}
	}
	return false
}

// clock is a moment in s on the clock of a piece with this reading, to five seconds,
// as if all rounds were of one length; 0 when it cannot be known.
func (m moment) clock(part roomful.Part, r roomful.Reading) float64 {
	if m.seconds > 0 {
		return m.seconds
	}
	var whole, rounds float64
	if r.Rounds != nil {
		rounds = float64(*r.Rounds)
		if size := RoundSize(part, roomful.AnyDivision, *r.Rounds); r.Reps != nil && size > 0 {
			rounds += float64(*r.Reps) / float64(size)
		}
	}
	switch f := part.Format.(type) {
	case roomful.RoundsInTime:
		whole = f.Window.Seconds()
	case roomful.ForTime:
		rounds = float64(max(f.Rounds, len(f.Ladder.Steps)))
		if r.Seconds != nil {
			whole = *r.Seconds
		}
	case roomful.Every:
		whole, rounds = f.Interval.Seconds()*float64(f.Count), float64(f.Count)
	}
	at := 0.0
	switch {
	case m.half:
		at = whole / 2
	case rounds < 1:
	case m.last > 0:
		at = whole * max(0, rounds-float64(m.last)) / rounds
	case m.round > 1 && float64(m.round-1) < rounds:
		at = whole * float64(m.round-1) / rounds
	}
	return math.Round(at/5) * 5
}
