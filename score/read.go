package score

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"roomful"
)

// Asked is what a text is read against.
type Asked struct {
	Session  roomful.Session
	Piece    string // whose score it is first of all, "main"
	Division roomful.Division
	Unit     roomful.MassUnit  // of loads without a unit, when the sheet names none
	People   []roomful.Athlete // who trains here: no other word is read as a name
	Lexicon  roomful.Lexicon
}

// Read reads a text. The first reading is of the piece asked about; others
// follow for further pieces that the text also speaks of.
func Read(q Asked, text string) (roomful.Attempt, error) {
	out := roomful.Attempt{Text: text}
	if strings.TrimSpace(text) == "" {
		return out, &roomful.Error{Summary: "the score is empty", Hint: "write what was done, such as 5+20 or 7:13"}
	}
	part, ok := q.Session.Piece(q.Piece)
	if !ok {
		return out, &roomful.Error{Summary: "the sheet has no scored piece called " + q.Piece, Hint: "name a part that is scored, such as main"}
	}
	p := newParser(q, piecesOf(q, part), text)
	p.aside()
	said := p.said()
	p.collect()
	r := reader{q: q, p: p, said: said, pieces: p.pieces, got: p.assign(p.pieces)}
	r.outOfOrder()
	for i := range p.pieces {
		if p.pieces[i].asked {
			out.Readings = append(out.Readings, r.read(i))
		}
	}
	for i := range p.pieces {
		if !p.pieces[i].asked && r.got[i] >= 0 {
			out.Readings = append(out.Readings, r.read(i))
		}
	}
	r.finish(out.Readings)
	return out, nil
}

// mostBytes is how much of a text is read: a page and a half, where a score is a line or
// two. What stands beyond is kept as typed, and asked about.
const mostBytes = 4000

// beginning is the part of a text that is read: all of it, or whole words up to so much.
func beginning(text string) string {
	if len(text) <= mostBytes {
		return text
	}
	end := mostBytes
	for !utf8.RuneStart(text[end]) && end > 0 {
		end--
	}
	if word := strings.LastIndexFunc(text[:end], unicode.IsSpace); word > 0 {
		end = word
	}
	return text[:end]
}

// newParser cuts a text into tokens, as far as it is read.
func newParser(q Asked, pieces []piece, text string) *parser {
	raw := folded(beginning(text))
	toks := scan(raw)
	for i := range pieces {
		if pieces[i].asked && pieces[i].alone && pieces[i].kind == roomful.DistanceScore {
			toks = grouped(toks)
		}
	}
	p := &parser{typed: text, raw: raw, toks: toks, lex: q.Lexicon, pieces: pieces, people: q.People, barKg: bareBar(q.Division), rungs: rungsOf(pieces)}
	p.strokes()
	p.used, p.places = make([]bool, len(p.toks)), placesOf(raw, p.toks)
	for i := range pieces {
		if pieces[i].asked {
			p.asked = &pieces[i]
		}
	}
	return p
}

// strokes makes inches of the two strokes behind a figure where the sheet has heights, and
// seconds elsewhere.
func (p *parser) strokes() {
	heights := slices.ContainsFunc(p.pieces, func(s piece) bool {
		return slices.ContainsFunc(s.lines, func(e roomful.Element) bool { return len(e.Heights) > 0 })
	})
	for i := range p.toks {
		if t := &p.toks[i]; t.glued && i > 0 && p.toks[i-1].kind == numberToken && (t.text == "\"" || t.text == "″" || t.text == "”") {
			t.kind, t.text = wordToken, map[bool]string{true: "in", false: "s"}[heights]
		}
	}
}

// remarks are what a text says beside figures.
type remarks struct {
	changes           []saidChange
	asWritten, undone bool
	approx            bool
	partner, sameAs   string
	share             *int
	stopped           float64 // s on the clock
	splits            []float64
	onClock           bool        // the splits are times on the clock
	clauses           map[int]int // that speak of the body
}

// said reads the words of a text, which must come before its figures: a
// movement may be called by a body part, and a partner's half is no score.
func (p *parser) said() remarks {
	var r remarks
	p.named = p.mentions(p.lex)
	p.numbered()
	p.spans()
	r.sameAs = p.same()
	r.asWritten, r.undone = p.written()
	if p.asked.kind != roomful.TimeScore {
		r.stopped = p.stopped()
	}
	r.splits, r.onClock = p.splits()
	r.changes = p.changes(p.pieces, p.lex)
	r.clauses = p.hide()
	for i := range p.toks {
		r.approx = r.approx || slices.ContainsFunc(guessWords, func(w []string) bool { return p.at(i, w) })
	}
	r.undone = r.undone || p.leftUndone()
	r.undone = r.undone || r.stopped > 0
	r.partner = p.partner(p.asked.part.Team.Size > 1)
	r.share = p.share(p.asked.part.Team.Size > 1)
	r.undone = r.undone || p.asked.part.Team.Size > 1 && (p.count("solo") > 0 || p.count("alone") > 0)
	return r
}
