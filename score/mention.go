package score

import (
	"slices"
	"strings"

	"roomful"
)

// nicknames are what people call an easier form in a score and nowhere else.
var nicknames = map[string]roomful.MovementID{
	"knees": "knee-raise", "singles": "single-under", "single": "single-under", "bridges": "hip-bridge", "steps": "box-step-up", "stepups": "box-step-up",
	"step-ups": "box-step-up", "steps-ups": "box-step-up", "stairs": "stair-step-up", "marched": "march", "goblet": "goblet-squat", "goblets": "goblet-squat", "marching": "march", "step-overs": "box-step-over", "stepovers": "box-step-over", "biked": "bike", "rowed": "row", "crunches": "crunch", "deads": "deadlift",
}

// roundish are words of scores that a lexicon might take for a movement.
var roundish = wordSet("with then and for at as cap all left band banded box rounds round rd rds r w x the a then on to each")

// onKnees reports whether "knees" are those of push-ups: the piece has push-ups, and nothing
// that is hung from a bar.
func (p *parser) onKnees(lex roomful.Lexicon) bool {
	has := func(easier roomful.MovementID) bool {
		return slices.ContainsFunc(p.pieces, func(s piece) bool {
			return slices.ContainsFunc(s.lines, func(e roomful.Element) bool {
				m := lex.Movement(e.Movement)
				return m != nil && slices.Contains(m.Easier, easier)
			})
		})
	}
	return has("knee-push-up") && !has("knee-raise")
}

// lineCalled is the line whose name ends in a word, "squats" where the sheet has front squats;
// m when there is none.
func (p *parser) lineCalled(word string, m *roomful.Movement) *roomful.Movement {
	for _, s := range p.pieces {
		for _, e := range s.lines {
			for _, end := range []string{"s", "es", ""} {
				if one, ok := strings.CutSuffix(word, end); ok && strings.HasSuffix(string(e.Movement), "-"+one) && p.lex.Movement(e.Movement) != nil {
					return p.lex.Movement(e.Movement)
				}
			}
		}
	}
	return m
}

// ordinalEnds stand behind the figure of a place, "4th".
var ordinalEnds = wordSet("st nd rd th")

// mention is a movement that a text names.
type mention struct {
	id       roomful.MovementID
	from, to int
}

// names are the movements that a text names, in order and by where they begin and end.
type names struct {
	all              []mention
	starting, ending map[int]int // by token, which of all
	tokens           map[int]bool
}

// add takes one more movement.
func (n *names) add(m mention) {
	if n.starting == nil {
		n.starting, n.ending, n.tokens = map[int]int{}, map[int]int{}, map[int]bool{}
	}
	n.starting[m.from], n.ending[m.to] = len(n.all), len(n.all)
	n.all = append(n.all, m)
	for i := m.from; i < m.to; i++ {
		n.tokens[i] = true
	}
}

// inside reports whether a token stands in the name of a movement.
func (n *names) inside(at int) bool { return n.tokens[at] }

// from is the movement whose name begins at a token.
func (n *names) from(at int) (m mention, ok bool) {
	if k, ok := n.starting[at]; ok {
		return n.all[k], true
	}
	return mention{}, false
}

// to is the movement whose name ends right before a token.
func (n *names) to(at int) (m mention, ok bool) {
	if k, ok := n.ending[at]; ok {
		return n.all[k], true
	}
	return mention{}, false
}

// mentions finds the movements named, longest names first. A nickname holds
// when the piece has something that it is an easier form of.
func (p *parser) mentions(lex roomful.Lexicon) (out names) {
	for i := 0; i < len(p.toks); {
		t := p.toks[i]
		if t.kind != wordToken || i+1 < len(p.toks) && isSecond(t.text) || roundish[t.text] && lexLength(p, lex, i) < 2 || t.glued && ordinalEnds[t.text] {
			i++
			continue
		}
		if p.oneByOne(i) || (t.text == "arm" || t.text == "leg") && oneSided[p.word(i-1)] {
			i++
			continue
		}
		if t.text == "knees" && p.onKnees(lex) {
			out.add(mention{"knee-push-up", i, i + 1})
			i++
			continue
		}
		if id, ok := nicknames[t.text]; ok && lex.Movement(id) != nil && (t.text != "knees" || !bodyWords[p.word(i+1)] && (!backWords[p.word(i-1)] || p.word(i-1) == "with")) {
			if n := lexLength(p, lex, i); n <= 1 {
				out.add(mention{id, i, i + 1})
				i++
				continue
			}
		}
		if t.text == "pu" && strings.HasPrefix(p.word(i-1), "band") {
			i++ // "banded pu" is a pull-up
			continue
		}
		m, n := lex.Match(p.run(i))
		if m == nil || m.ID == roomful.Rest || n == 1 && (bodyWords[t.text] || loneBody[t.text]) {
			i++
			continue
		}
		if n == 1 && len(piecesWith(p.pieces, m.ID)) == 0 {
			m = p.lineCalled(t.text, m)
		}
		out.add(mention{m.ID, i, i + n})
		i += n
	}
	return out
}

// oneSided stand before an arm or a leg that works alone: "1 arm swings".
var oneSided = wordSet("1 2 one single two")

// oneByOne reports whether "singles" at token i are repetitions of a movement, one at a time,
// "toes-to-bar in singles", where the piece has no rope.
func (p *parser) oneByOne(i int) bool {
	if w := p.word(i); w != "singles" && w != "single" || slices.ContainsFunc(p.pieces, func(s piece) bool { return lineOf(s.lines, "double-under") >= 0 }) {
		return false
	}
	c := p.clause(i)
	return p.word(i-1) == "in" || slices.ContainsFunc(p.toks[c.from:c.to], func(t token) bool {
		m, _ := p.lex.Match([]string{t.text})
		return m != nil && len(piecesWith(p.pieces, m.ID)) > 0
	})
}

// lexLength returns how many words from i on name a movement.
func lexLength(p *parser, lex roomful.Lexicon, i int) int {
	_, n := lex.Match(p.run(i))
	return n
}

// run returns the words from token i to the end of its clause, at most six.
func (p *parser) run(i int) []string {
	var out []string
	for k := i; k < len(p.toks) && len(out) < 6 && p.toks[k].kind == wordToken && p.toks[k].clause == p.toks[i].clause; k++ {
		out = append(out, p.toks[k].text)
	}
	return out
}
