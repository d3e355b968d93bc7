package score

import (
	"slices"
	"strings"

	"roomful"
)

// nicknames are what people call an easier form in a score and nowhere else.
var nicknames = map[string]roomful.MovementID{
	"knees": "knee-raise", "singles": "single-under", "single": "single-under", "bridges": "hip-bridge", "steps": "box-step-up", "stepups": "box-step-up",
	"step-ups": "box-step-up", "step-overs": "box-step-over", "stepovers": "box-step-over", "biked": "bike", "rowed": "row", "crunches": "crunch",
}

// helps are words for help with a movement, by the pattern that they help.
var helps = []struct {
	words   []string
	assist  string
	pattern roomful.Pattern
}{
	{[]string{"band"}, "band", roomful.PullVertical}, {[]string{"banded"}, "band", roomful.PullVertical}, {[]string{"bands"}, "band", roomful.PullVertical},
	{[]string{"to", "box"}, "box", roomful.Squat}, {[]string{"to", "a", "box"}, "box", roomful.Squat},
	{[]string{"on", "box"}, "box", ""}, {[]string{"on", "the", "box"}, "box", ""},
}

// bandWords may stand before a band and say which.
var bandWords = wordSet("red green purple blue black orange yellow grey thin thick thinner thicker heavy light small big")

// elements returns the lines of a piece in order.
func elements(p roomful.Part) []roomful.Element {
	return slices.Concat(p.Once, p.Round, p.Last)
}

// mention is a movement that a text names.
type mention struct {
	id       roomful.MovementID
	from, to int
}

// mentions finds the movements named, longest names first. A nickname holds
// when the piece has something that it is an easier form of.
func (p *parser) mentions(lex roomful.Lexicon) []mention {
	var out []mention
	for i := 0; i < len(p.toks); {
		t := p.toks[i]
		if t.kind != wordToken || i+1 < len(p.toks) && isSecond(t.text) || roundish[t.text] {
			i++
			continue
		}
		if id, ok := nicknames[t.text]; ok && lex.Movement(id) != nil && (t.text != "knees" || !bodyWords[p.word(i+1)] && (!backWords[p.word(i-1)] || p.word(i-1) == "with")) {
			if n := lexLength(p, lex, i); n <= 1 {
				out = append(out, mention{id, i, i + 1})
				i++
				continue
			}
		}
		m, n := lex.Match(p.run(i))
		if m == nil || m.ID == roomful.Rest || n == 1 && (bodyWords[t.text] || loneBody[t.text]) {
			i++
			continue
		}
		out = append(out, mention{m.ID, i, i + n})
		i += n
	}
	return out
}

// roundish are words of scores that a lexicon might take for a movement.
var roundish = wordSet("with then and for at as cap all left band banded box rounds round rd rds r w x the a then on to each")

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

// changes reads departures from a piece: another movement, help, a part left
// out. It uses the tokens it understands.
func (p *parser) changes(piece roomful.Part, others []roomful.Element, lex roomful.Lexicon) []roomful.Change {
	var out []roomful.Change
	es := elements(piece)
	ms := p.mentions(lex)
	for k := 0; k < len(ms); k++ {
		m := ms[k]
		if lineOf(es, m.id) >= 0 {
			if k+1 < len(ms) && p.word(m.to) == "->" && ms[k+1].from == m.to+1 {
				out = append(out, roomful.Change{Of: m.id, To: ms[k+1].id})
				p.use(m.from, ms[k+1].to)
				k++
			}
			continue
		}
		if lineOf(others, m.id) >= 0 {
			continue
		}
		c := roomful.Change{Of: original(es, piece, m.id, lex), To: m.id}
		if k+1 < len(ms) && p.between(m.to, ms[k+1].from) && lineOf(es, ms[k+1].id) >= 0 {
			c.Of = ms[k+1].id
			p.use(m.to, ms[k+1].to)
			k++
		}
		p.use(m.from, m.to)
		out = append(out, p.amountOf(c, m))
	}
	out = append(out, p.help(es, lex)...)
	return out
}

// between reports whether the tokens between two mentions are "for the".
func (p *parser) between(from, to int) bool {
	if to <= from {
		return false
	}
	words := make([]string, 0, 3)
	for k := from; k < to; k++ {
		words = append(words, p.word(k))
	}
	s := strings.Join(words, " ")
	return s == "for" || s == "for the" || s == "instead of" || s == "instead of the" || s == "not"
}

// amountOf takes an amount right before a movement: "600 m runs".
func (p *parser) amountOf(c roomful.Change, m mention) roomful.Change {
	i := m.from
	if i >= 2 && p.toks[i-2].kind == numberToken && p.toks[i-2].clause == p.toks[m.from].clause {
		if u, ok := measureUnits[p.word(i-1)]; ok {
			c.Amount, c.Unit = p.toks[i-2].value, u
			p.use(i-2, i)
		}
	}
	return c
}

// help reads bands and boxes.
func (p *parser) help(es []roomful.Element, lex roomful.Lexicon) []roomful.Change {
	for _, h := range helps {
		for i := range p.toks {
			if p.used[i] || !p.at(i, h.words) || p.word(i-1) == "ohne" || p.word(i-1) == "without" || p.word(i-1) == "no" {
				continue
			}
			c := roomful.Change{Assist: h.assist}
			from := i
			if i > 0 && bandWords[p.word(i-1)] {
				from, c.Assist = i-1, p.word(i-1)+" "+h.assist
			}
			for k := range es {
				if m := lex.Movement(es[k].Movement); h.pattern != "" && m != nil && m.Is(h.pattern) {
					c.Of = m.ID
					break
				}
			}
			p.use(from, i+len(h.words))
			return []roomful.Change{c}
		}
	}
	return nil
}

// at reports whether the words stand at token i.
func (p *parser) at(i int, words []string) bool {
	for k, w := range words {
		if p.word(i+k) != w {
			return false
		}
	}
	return true
}

// use marks tokens as understood.
func (p *parser) use(from, to int) {
	for k := max(from, 0); k < to && k < len(p.toks); k++ {
		p.used[k] = true
	}
}

// lineOf returns which line has a movement, by its name or the last words of it
// ("cleans" for hang power cleans), -1 when none.
func lineOf(es []roomful.Element, id roomful.MovementID) int {
	return slices.IndexFunc(es, func(e roomful.Element) bool {
		return e.Movement == id || strings.HasSuffix(string(e.Movement), "-"+string(id))
	})
}

// original finds the line that a movement was done in place of: by the sheet's
// own alternatives, by the catalogue's easier forms and swaps, by the pattern.
func original(es []roomful.Element, piece roomful.Part, id roomful.MovementID, lex roomful.Lexicon) roomful.MovementID {
	for _, in := range piece.Instead {
		if slices.ContainsFunc(in.Options, func(e roomful.Element) bool { return e.Movement == id }) {
			return in.Movement
		}
	}
	for _, e := range es {
		if m := lex.Movement(e.Movement); m != nil && slices.Contains(m.Easier, id) {
			return m.ID
		}
	}
	for _, e := range es {
		if m := lex.Movement(e.Movement); m != nil && slices.ContainsFunc(m.Swaps, func(s roomful.Swap) bool { return s.To == id }) {
			return m.ID
		}
	}
	to := lex.Movement(id)
	for _, e := range es {
		if m := lex.Movement(e.Movement); m != nil && to != nil && len(m.Patterns) > 0 && len(to.Patterns) > 0 && m.Patterns[0] == to.Patterns[0] {
			return m.ID
		}
	}
	return ""
}
