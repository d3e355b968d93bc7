package score

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"unicode"

	"roomful"
)

// unsure asks about what a coach would stop at in a reading that has no question yet:
// the first of these that holds.
func (r *reader) unsure(out *roomful.Reading) {
	for _, doubt := range []func(*roomful.Reading) *roomful.Question{r.oddSeconds, r.tooLarge, r.noScore, r.tooLong, r.inMarkup, r.oddMinutes, r.missedRounds, r.average, r.oneOfMore, r.otherFigure, r.instead} {
		if out.Question == nil {
			out.Question = doubt(out)
		}
	}
}

// oddSeconds asks about 60 seconds and more behind a colon, "18:75".
func (r *reader) oddSeconds(out *roomful.Reading) *roomful.Question {
	if at := r.got[r.asked()]; at >= 0 && r.p.facts[at].oddSeconds {
		f := &r.p.facts[at]
		return question("is "+f.text+" a time of "+Words(*out)+"?", "yes, "+Words(*out), "no, something else")
	}
	return nil
}

// tooLarge asks about a figure that counts nothing that anybody does.
func (r *reader) tooLarge(*roomful.Reading) *roomful.Question {
	if !r.p.huge {
		return nil
	}
	return question("one of the figures is beyond all that anybody scores; what was it?", "another figure", "none")
}

// noScore asks for the score where there are figures, or nothing but signs, and none was
// made of them. Words alone are left to the coach.
func (r *reader) noScore(out *roomful.Reading) *roomful.Question {
	if !scoreless(*out) || out.SameAs != "" {
		return nil
	}
	for i := range r.p.facts {
		if f := &r.p.facts[i]; f.kind == plainFact && !r.taken[f.from] && !r.private(f) {
			return question("is "+roomful.Figure(f.a)+" the score?", "yes", "no, something else")
		}
	}
	if r.elsewhereOnly() {
		return nil
	}
	if len(r.p.facts) > 0 || r.figures() || !strings.ContainsFunc(r.p.raw, unicode.IsLetter) {
		return question("what was the score?", "a score", "none was kept")
	}
	return nil
}

// figures reports whether the text has a figure that does not speak of the body.
func (r *reader) figures() bool {
	return slices.ContainsFunc(r.p.toks, func(t token) bool {
		_, body := r.said.clauses[t.clause]
		return isDigit(r.p.raw[t.start]) && !body
	})
}

// elsewhereOnly reports whether the text is no more than the scores of other pieces.
func (r *reader) elsewhereOnly() bool {
	said := 0
	for i, at := range r.got {
		if at >= 0 && i != r.asked() {
			said += r.p.facts[at].to - r.p.facts[at].from
		}
	}
	return said > 0 && said == len(r.p.toks)
}

// tooLong asks about a score in a text of which only the beginning was read.
func (r *reader) tooLong(out *roomful.Reading) *roomful.Question {
	if len(r.p.typed) <= mostBytes {
		return nil
	}
	return theScore(out)
}

// theScore asks whether what was read is the score.
func theScore(out *roomful.Reading) *roomful.Question {
	return question("is "+Words(*out)+" the score?", "yes", "no, something else")
}

// inMarkup asks about a bare figure in a text with tags.
func (r *reader) inMarkup(out *roomful.Reading) *roomful.Question {
	at := r.got[r.asked()]
	if at < 0 || r.p.facts[at].kind != plainFact {
		return nil
	}
	for i, t := range r.p.toks {
		if t.text == "<" && i+1 < len(r.p.toks) && r.p.toks[i+1].glued {
			return theScore(out)
		}
	}
	return nil
}

// instead asks where one thing is said to have been done instead of another and no change
// was made of it, "ran 200 instead of 400": else it would stand among what was as written.
func (r *reader) instead(out *roomful.Reading) *roomful.Question {
	if len(out.Changes) > 0 || out.AsWritten != nil || out.Kind == roomful.LoadScore || len(out.LoadsKg) > 0 {
		return nil
	}
	for i, t := range r.p.toks {
		if _, body := r.said.clauses[t.clause]; !body && r.p.at(i, []string{"instead", "of"}) {
			return question("was something done otherwise than as written?", "yes", "no")
		}
	}
	return nil
}

// oddMinutes asks about a bare figure taken for minutes that something speaks against: a
// minus before it, "-5", or that it is a part of something, "15 pull-ups in the set of 15".
func (r *reader) oddMinutes(out *roomful.Reading) *roomful.Question {
	at := r.got[r.asked()]
	if at < 0 || out.Kind != roomful.TimeScore || r.p.facts[at].kind != plainFact {
		return nil
	}
	switch r.p.word(r.p.facts[at].from - 1) {
	case "-", "of", "last", "first":
		return theScore(out)
	}
	return nil
}

// missedRounds asks about a bare figure after intervals behind a word of missing: "failed
// round 9", "didn't make min 7".
func (r *reader) missedRounds(*roomful.Reading) *roomful.Question {
	at := r.got[r.asked()]
	if at < 0 || r.p.asked.count == 0 || r.p.asked.kind != roomful.RoundsScore {
		return nil
	}
	f := &r.p.facts[at]
	if f.kind == plainFact && r.p.says(stretch{r.p.clause(f.from).from, f.from}, "failed", "fail", "missed", "miss", "didn't", "didn’t", "lost", "dropped", "died", "out", "until", "dead") {
		return question("does that count what was held or what was missed?", "held", "missed")
	}
	return nil
}

// average asks about a figure that is said to be one of several intervals.
func (r *reader) average(out *roomful.Reading) *roomful.Question {
	at := r.got[r.asked()]
	if at < 0 || r.p.facts[at].kind == listFact {
		return nil
	}
	f := &r.p.facts[at]
	if w := []string{r.p.word(f.from - 1), r.p.word(f.to)}; slices.Contains(w, "avg") || slices.Contains(w, "average") {
		return question("is "+f.text+" the score, or the average?", "the average", "the score")
	}
	return nil
}

// oneOfMore asks about the figure of an interval that has others like it in its clause, "52 51
// skipped 50".
func (r *reader) oneOfMore(out *roomful.Reading) *roomful.Question {
	at := r.got[r.asked()]
	if at < 0 || r.p.asked.count < 2 || r.p.asked.kind == roomful.RoundsScore || r.p.facts[at].kind != plainFact {
		return nil
	}
	one := &r.p.facts[at]
	if worstWords[r.p.word(one.from-1)] {
		return nil
	}
	for i := range r.p.facts {
		f := &r.p.facts[i]
		if !r.taken[f.from] && f.kind == plainFact && r.p.toks[f.from].clause == r.p.toks[one.from].clause && math.Abs(math.Log(f.a/one.a)) < math.Ln2 {
			return question("which is the score?", Words(*out), f.text)
		}
	}
	return nil
}

// otherFigure asks about a figure beside the score that nothing was made of. Where words
// stand beside it that say what it is, "19:30 last time", it is left to the coach.
func (r *reader) otherFigure(out *roomful.Reading) *roomful.Question {
	score := plainFact
	if at := r.got[r.asked()]; at >= 0 {
		score = r.p.facts[at].kind
	}
	for i := range r.p.facts {
		f := &r.p.facts[i]
		if q := r.eachRound(f); q != nil {
			return q
		}
		if r.before(f) || out.Kind == roomful.LoadScore && r.p.word(f.from-1) == "+" || f.kind == plainFact && r.p.word(f.from-1) == "not" {
			continue
		}
		if loads := r.alsoLoads(f, out); loads && !r.taken[f.from] && !r.private(f) {
			return question("what does "+f.text+" count?", "a load", "something else")
		}
		if s := r.p.clause(f.from); r.taken[f.from] || r.private(f) || !r.p.bare(stretch{s.from, f.from}, choiceWords) || !r.p.bare(stretch{f.to, max(s.to, f.to)}, choiceWords) {
			continue
		}
		switch f.kind {
		case score, plusFact, clockFact:
			return question("which is the score?", Words(*out), f.text)
		case plainFact, ofFact, listFact, setsFact:
			at := r.got[r.asked()]
			if w := r.p.word(f.from - 1); f.kind == plainFact && score == plusFact && f.from == r.p.facts[at].to+1 && (choiceWords[w] || w == "/" || w == "-") {
				return question("which is the score?", Words(*out), fmt.Sprintf("%d+%d", *out.Rounds, int(f.a)))
			}
			if choiceWords[r.p.word(f.from-1)] {
				return question("which is the score?", Words(*out), f.text)
			}
			return question("what does "+f.text+" count?", "a load", "something else")
		}
	}
	return nil
}

// before reports whether a figure in brackets is what a best was before, "18:42 pb (19:30)".
func (r *reader) before(f *fact) bool {
	return r.p.word(r.p.clause(f.from).from) == "(" && r.p.count("pb")+r.p.count("pr") > 0
}

// alsoLoads reports whether a figure is one of the sheet's loads beside another, "24 kg mostly,
// 16 at the end" and "a mix of 24 and 16".
func (r *reader) alsoLoads(f *fact, out *roomful.Reading) bool {
	second := fact{a: f.b, from: f.from}
	switch {
	case out.Kind == roomful.LoadScore || r.p.elsewhen(f.from):
	case f.kind == plusFact:
		return out.Kind == roomful.TimeScore && r.apart(f) <= onePair && r.apart(&second) <= onePair
	case r.p.unmeant(f):
	case f.kind == plainFact:
		return len(out.LoadsKg) > 0 && r.apart(f) <= onePair && !r.counts(f) && !r.share(f)
	}
	return false
}

// eachRound asks about a count of a line's movement that is not the sheet's and says no more,
// "12 swings".
func (r *reader) eachRound(f *fact) *roomful.Question {
	m, ok := r.p.named.from(f.to)
	c := r.p.clause(f.from)
	if !ok || r.taken[f.from] || r.private(f) || f.kind != plainFact || f.decimals > 0 || !r.p.bare(stretch{c.from, f.from}, nil) || !r.p.bare(stretch{m.to, max(m.to, c.to)}, nil) {
		return nil
	}
	for _, i := range piecesWith(r.pieces, m.id) {
		e := r.pieces[i].lines[lineOf(r.pieces[i].lines, m.id)]
		if r.pieces[i].kind != roomful.LoadScore && e.Amount.Unit == roomful.Rep && e.Amount.Stated() && !slices.Contains(e.Amount.By, f.a) {
			return question("what does "+roomful.Figure(f.a)+" count?", r.q.Lexicon.Movement(e.Movement).Plural+" each round", "something else")
		}
	}
	return nil
}

// private reports whether a figure stands in a clause that speaks of the body.
func (r *reader) private(f *fact) bool {
	_, ok := r.said.clauses[r.p.toks[f.from].clause]
	return ok
}

// choiceWords stand between two figures of which one is meant, and say nothing else.
var choiceWords = wordSet("or no wait actually sorry mean think maybe either not sure make that correction oder ou oppure ili eller")
