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

// guessWords say that a score is not known exactly.
var guessWords = [][]string{{"i", "think"}, {"think", "i"}, {"lost", "count"}, {"or", "so"}, {"and", "a", "bit"}, {"ish"}, {"approx"}, {"approximately"}, {"roughly"},
	{"may", "have", "been"}, {"might", "have"}, {"give", "or", "take"}, {"+", "/", "-"}, {"c", "."}, {"maybe"}, {"probably"}, {"not", "sure"}, {"guess"}}

// written reads "as written", "rx" and what turns it round: "not rx", "almost rx", "rx except",
// and "scaled".
func (p *parser) written() (yes, no bool) {
	for _, words := range [][]string{{"as", "written"}, {"as", "rx'd"}, {"as", "rx"}, {"rx'd"}, {"rx’d"}, {"rxd"}, {"rx"}} {
		for i := range p.toks {
			if !p.at(i, words) {
				continue
			}
			for j := max(0, i-3); j < i; j++ {
				if p.toks[j].clause == p.toks[i].clause && slices.Contains([]string{"not", "almost", "nearly", "mostly", "half", "isn't", "wasn't", "near"}, p.word(j)) {
					no = true
					p.use(j, i)
				}
			}
			end := i + len(words)
			no = no || slices.Contains(exceptWords, p.word(end)) || p.word(end) == "+" && !p.number(end+1)
			yes = true
			p.use(i, end)
		}
	}
	for i := range p.toks {
		if slices.Contains([]string{"scaled", "sc", "modified", "adapted"}, p.word(i)) {
			no = true
			p.use(i, i+1)
		}
	}
	return yes && !no, no
}

// nothingLost are words behind "no" and "without" that take nothing from the work.
var nothingLost = wordSet(`rep reps no-reps repped repping break breaks breaking rest rests resting stop stops stopping pause pauses pausing problem problems issue issues
 band bands miss misses missing drop drops dropping trouble idea watch clock doubt chalk belt grips music warm-up warmup coach help one shoes sleep wait dnf`)

// leftUndone reports whether a word says that something of the work was left out.
func (p *parser) leftUndone() bool {
	for i := range p.toks {
		switch p.word(i) {
		case "skipped", "stopped", "walked":
			return true
		case "only":
			if !p.isClock(i+1) && p.word(i+2) != "+" { // "only 5+20"
				return true
			}
		case "no", "without", "ohne":
			if i+1 < len(p.toks) && p.toks[i+1].kind == wordToken && !nothingLost[p.word(i+1)] {
				return true
			}
		case "half":
			if p.word(i-1) != "a" {
				return true
			}
		case "left":
			if w := p.word(i + 1); w == "early" || w == "after" {
				return true
			}
		}
	}
	return false
}

// same reads "same as last time" and, of who is known, "same as Marit".
func (p *parser) same() string {
	for i := range p.toks {
		if p.at(i, []string{"as", "last", "time"}) && p.word(i-1) != "same" && !p.digitsIn() {
			p.use(i, i+3)
			return "last time"
		}
		if !p.at(i, []string{"same", "as"}) {
			continue
		}
		if p.word(i+2) == "last" || p.word(i+2) == "before" {
			p.use(i, i+3+b2i(p.word(i+3) == "time" || p.word(i+3) == "week"))
			return "last time"
		}
		if name, end := p.nameAt(i + 2); end > i+2 {
			p.use(i, end)
			return name
		}
	}
	return ""
}

// partner reads "w/ a partner", and in a team piece "with Lorcan", "with dov" and "Calum
// and me", of who is known. Whoever works alone has no partner whose name others need.
func (p *parser) partner(team bool) string {
	for i := range p.toks {
		w := p.word(i)
		if p.used[i] || w != "with" && w != "w" && w != "mit" && w != "sa" && w != "avec" || i+1 >= len(p.toks) {
			continue
		}
		if p.word(i+1) == "a" && p.word(i+2) == "partner" {
			p.use(i, i+3)
			return "a partner"
		}
		if name, end := p.nameAt(i + 1); team && end > i+1 {
			for slices.Contains(joinWords, p.word(end)) || p.word(end) == "/" {
				_, next := p.nameAt(end + 1)
				if next == end+1 {
					break
				}
				end = next
				name = p.raw[p.toks[i+1].start:p.toks[end-1].end]
			}
			p.use(i, end)
			return name
		}
	}
	for i := range p.toks {
		if !team || !slices.Contains(joinWords, p.word(i)) {
			continue
		}
		if name, end := p.nameAt(i + 1); end > i+1 && p.word(i-1) == "me" {
			p.use(i-1, end)
			return name
		}
		if p.word(i+1) != "me" && p.word(i+1) != "i" {
			continue
		}
		for from := max(0, i-longestName); from < i; from++ {
			if name, end := p.nameAt(from); end == i {
				p.use(from, i+2)
				return name
			}
		}
	}
	return ""
}

// nameAt reads the name of somebody who trains here at token i, as typed, with the token
// behind it; i when there is none. A word that nobody knows may be an illness.
func (p *parser) nameAt(i int) (name string, end int) {
	for end = min(i+longestName, len(p.toks)); end > i; end-- {
		other := func(k token) bool { return k.kind != wordToken || bodyWord(k.text) || loneBody[k.text] }
		if !slices.Contains(p.used[i:end], true) && !slices.ContainsFunc(p.toks[i:end], other) && p.known(p.raw[p.toks[i].start:p.toks[end-1].end]) {
			return p.raw[p.toks[i].start:p.toks[end-1].end], end
		}
	}
	return "", i
}

// longestName is how many words a name may have.
const longestName = 3

// known reports whether somebody who trains here is called so, whole or by the first word.
func (p *parser) known(name string) bool {
	return slices.ContainsFunc(p.people, func(a roomful.Athlete) bool {
		first, _, _ := strings.Cut(a.Name, " ")
		return strings.EqualFold(a.Name, name) || strings.EqualFold(first, name)
	})
}

// share reads "my half 224", and in a team piece "me 224", "224 me" and "I did 224".
func (p *parser) share(team bool) *int {
	numbers := 0
	for i := range p.toks {
		numbers += b2i(p.isNumber(i))
	}
	team = team && numbers > 1
	for i := range p.toks {
		for _, words := range [][]string{{"me"}, {"me", ":"}, {"i", "did"}, {"my"}} {
			if j := i + len(words); team && p.at(i, words) && p.isNumber(j) && !slices.Contains(joinWords, p.word(i-1)) {
				n := p.whole(j)
				p.use(i, j+1)
				return &n
			}
		}
		if team && p.isNumber(i) && p.word(i+1) == "me" && i > 0 {
			n := p.whole(i)
			p.use(i, i+2)
			return &n
		}
		if p.word(i) == "my" && (p.word(i+1) == "half" || p.word(i+1) == "share" || p.word(i+1) == "part") && p.isNumber(i+2) {
			n := int(p.toks[i+2].value)
			p.use(i, i+3)
			return &n
		}
	}
	return nil
}
