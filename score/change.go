package score

import (
	"slices"
	"strings"

	"roomful"
)

// helps are words for help with a movement, by the pattern that they help.
var helps = []struct {
	words   []string
	assist  string
	pattern roomful.Pattern
}{
	{[]string{"band"}, "band", roomful.PullVertical}, {[]string{"banded"}, "band", roomful.PullVertical}, {[]string{"bands"}, "band", roomful.PullVertical},
	{[]string{"to", "box"}, "box", roomful.Squat}, {[]string{"to", "a", "box"}, "box", roomful.Squat},
	{[]string{"on", "a", "box"}, "box", ""}, {[]string{"on", "box"}, "box", ""}, {[]string{"on", "the", "box"}, "box", ""},
}

// bandWords may stand before a band and say which.
var bandWords = wordSet("red green purple blue black orange yellow grey thin thick thinner thicker heavy light small big")

// said is a change with where it was said and of which pieces it may be.
type saidChange struct {
	roomful.Change
	at int // token
	// of are the lines that it may replace, by piece; the pieces that fit it best.
	of map[int]roomful.MovementID
	// span is the stretch of the piece that it was made for, the whole when none is said;
	// then says that it came later, and not when.
	span span
	then bool
}

// changes reads departures from the pieces: another movement, help, a part left
// out. It uses the tokens it understands.
func (p *parser) changes(pieces []piece, lex roomful.Lexicon) []saidChange {
	var out []saidChange
	for k := 0; k < len(p.named.all); k++ {
		m := p.named.all[k]
		next := mention{}
		if k+1 < len(p.named.all) {
			next = p.named.all[k+1]
		}
		if here := piecesWith(pieces, m.id); len(here) > 0 {
			switch {
			case next.id != "" && p.word(m.to) == "->" && next.from == m.to+1, next.id != "" && p.word(m.to) == "as" && next.from == m.to+1:
				out = append(out, p.saidAt(roomful.Change{To: next.id}, m.from, lineIn(pieces, here, m.id)))
				p.use(m.from, next.to)
				k++
			case p.skips(m) > 0:
				out = append(out, p.saidAt(roomful.Change{}, m.from, lineIn(pieces, here, m.id)))
				p.use(m.from-p.skips(m), m.to)
			default:
				if c, _ := p.amountOf(roomful.Change{}, m); c.Amount > 0 && !asked(pieces[here[0]].lines, m.id, c) {
					out = append(out, p.saidAt(c, m.from, lineIn(pieces, here, m.id)))
					p.use(m.from, m.to)
				}
			}
			continue
		}
		c, end := p.amountOf(roomful.Change{To: m.id}, m)
		of := originals(pieces, m.id, lex)
		if next.id != "" && p.between(end, next.from) {
			if here := piecesWith(pieces, next.id); len(here) > 0 {
				of = lineIn(pieces, here, next.id)
				p.use(end, next.to)
				k++
			}
		} else if lines, n := p.forWord(pieces, end); n > 0 {
			of = lines
			p.use(end, end+n)
		}
		p.use(m.from, m.to)
		one := p.saidAt(c, m.from, of)
		if before := slices.Index(p.named.all, m) - 1; before >= 0 {
			one.then = p.follows(p.named.all[before], m, of) && one.span == span{}
		}
		out = append(out, one)
	}
	return append(out, p.help(pieces, lex)...)
}

// follows reports whether a movement came instead of the one named before it on the way, "t2b
// then knee raises", and takes that one's name.
func (p *parser) follows(before, m mention, of map[int]roomful.MovementID) bool {
	if p.toks[before.from].clause != p.toks[m.from].clause || !p.says(stretch{before.to, m.from}, restWords...) && p.count("half") < 2 {
		return false
	}
	for i, id := range of {
		if at := lineOf(p.pieces[i].lines, before.id); at >= 0 && p.pieces[i].lines[at].Movement == id {
			p.use(before.from, before.to)
			return true
		}
	}
	return false
}

// saidAt is a change said at a token, with what stretch of the piece it was for.
func (p *parser) saidAt(c roomful.Change, at int, of map[int]roomful.MovementID) saidChange {
	s := saidChange{Change: c, at: at, of: of}
	s.span, _ = p.spanOf(stretch{at, at + 1}, false)
	return s
}

// skips returns how many words before a movement say that it was left out, "skipped
// the", "no"; 0 when none do.
func (p *parser) skips(m mention) int {
	n := 1
	if w := p.word(m.from - 1); w == "the" || w == "all" || w == "any" {
		n = 2
	}
	if !slices.Contains([]string{"skipped", "without", "no", "ohne", "dropped", "missed", "minus"}, p.word(m.from-n)) {
		return 0
	}
	return n
}

// piecesWith lists the pieces that have a movement.
func piecesWith(pieces []piece, id roomful.MovementID) []int {
	var out []int
	for i := range pieces {
		if lineOf(pieces[i].lines, id) >= 0 {
			out = append(out, i)
		}
	}
	return out
}

// lineIn names the line that a movement is in each of some pieces.
func lineIn(pieces []piece, in []int, id roomful.MovementID) map[int]roomful.MovementID {
	out := map[int]roomful.MovementID{}
	for _, i := range in {
		es := pieces[i].lines
		out[i] = es[lineOf(es, id)].Movement
	}
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

// help reads bands and boxes.
func (p *parser) help(pieces []piece, lex roomful.Lexicon) []saidChange {
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
			of := map[int]roomful.MovementID{}
			for n := range pieces {
				for _, e := range pieces[n].lines {
					if m := lex.Movement(e.Movement); h.pattern != "" && m != nil && m.Is(h.pattern) {
						of[n] = m.ID
						break
					}
				}
			}
			p.use(from, i+len(h.words))
			if len(of) > 0 && p.word(i+len(h.words)) == "pu" { // "banded pu" is no push-up
				p.use(i+len(h.words), i+len(h.words)+1)
			}
			return []saidChange{p.saidAt(c, i, of)}
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

// unuse gives tokens back.
func (p *parser) unuse(from, to int) {
	for k := from; k < to; k++ {
		p.used[k] = false
	}
}

// lineOf returns which line has a movement, by its name or the last words of it
// ("cleans" for hang power cleans), -1 when none.
func lineOf(es []roomful.Element, id roomful.MovementID) int {
	return slices.IndexFunc(es, func(e roomful.Element) bool {
		return e.Movement == id || strings.HasSuffix(string(e.Movement), "-"+string(id))
	})
}

// originals finds the lines that a movement was done in place of, in the pieces that
// fit it best: by the sheet's own alternatives, by the catalogue's easier forms and
// swaps, by the pattern.
func originals(pieces []piece, id roomful.MovementID, lex roomful.Lexicon) map[int]roomful.MovementID {
	to := lex.Movement(id)
	for _, fits := range []func(part roomful.Part, m *roomful.Movement) bool{
		func(part roomful.Part, m *roomful.Movement) bool {
			return slices.ContainsFunc(part.Instead, func(in roomful.Instead) bool {
				return in.Movement == m.ID && slices.ContainsFunc(in.Options, func(e roomful.Element) bool { return e.Movement == id })
			})
		},
		func(_ roomful.Part, m *roomful.Movement) bool { return slices.Contains(m.Easier, id) },
		func(_ roomful.Part, m *roomful.Movement) bool {
			return slices.ContainsFunc(m.Swaps, func(s roomful.Swap) bool { return s.To == id })
		},
		func(_ roomful.Part, m *roomful.Movement) bool {
			return to != nil && len(m.Patterns) > 0 && len(to.Patterns) > 0 && m.Patterns[0] == to.Patterns[0]
		},
	} {
		out := map[int]roomful.MovementID{}
		for i := range pieces {
			for _, e := range pieces[i].lines {
				if m := lex.Movement(e.Movement); m != nil && fits(pieces[i].part, m) {
					out[i] = m.ID
					break
				}
			}
		}
		if len(out) > 0 {
			return out
		}
	}
	return nil
}
