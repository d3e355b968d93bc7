package score

import (
	"slices"
	"strings"

	"roomful"
)

// Asked is what a text is read against.
type Asked struct {
	Session  roomful.Session
	Piece    string // whose score it is first of all, "main"
	Division roomful.Division
	Unit     roomful.MassUnit // of loads without a unit, when the sheet names none
	Lexicon  roomful.Lexicon
}

// piece is a scored part with what a reading needs of it.
type piece struct {
	part  roomful.Part
	kind  roomful.ScoreKind
	count int  // intervals, bouts, stations or sets; 0 when it has none
	asked bool // it is the one asked about
	alone bool // the session has no other
}

// Read reads a text. The first reading is of the piece asked about; others
// follow for further pieces that the text also speaks of.
func Read(q Asked, text string) (roomful.Attempt, error) {
	out := roomful.Attempt{Text: text}
	if strings.TrimSpace(text) == "" {
		return out, &roomful.Error{Summary: "the score is empty", Hint: "write what was done, such as 5+20 or 7:13"}
	}
	asked, ok := q.Session.Piece(q.Piece)
	if !ok {
		return out, &roomful.Error{Summary: "the sheet has no scored piece called " + q.Piece, Hint: "name a part that is scored, such as main"}
	}
	pieces := piecesOf(q, asked)
	p := &parser{raw: text, toks: scan(text)}
	p.used = make([]bool, len(p.toks))
	p.multi, p.count = len(pieces) > 1, countIn(asked)
	p.lex = q.Lexicon
	p.rungs, p.barKg = rungsOf(pieces), bareBar(q.Division)
	p.pairs = roomful.KindOf(asked, q.Lexicon) != roomful.LoadScore
	p.aside()
	said := p.said(asked, pieces, q.Lexicon)
	p.collect()
	r := reader{q: q, p: p, said: said, pieces: pieces, got: p.assign(pieces)}
	for i := range pieces {
		if pieces[i].asked {
			out.Readings = append(out.Readings, r.read(i))
		}
	}
	for i := range pieces {
		if !pieces[i].asked && r.got[i] >= 0 {
			out.Readings = append(out.Readings, r.read(i))
		}
	}
	r.finish(out.Readings)
	return out, nil
}

// piecesOf lists the scored parts in the order of the sheet.
func piecesOf(q Asked, asked roomful.Part) []piece {
	var out []piece
	for _, part := range q.Session.Parts {
		if part.Scored {
			out = append(out, piece{part: part, kind: roomful.KindOf(part, q.Lexicon), count: countIn(part), asked: part.Name() == asked.Name()})
		}
	}
	for i := range out {
		out[i].alone = len(out) == 1
	}
	return out
}

// countIn returns how many intervals, bouts, rounds of stations or sets a part
// has, 0 when it has none.
func countIn(p roomful.Part) int {
	switch f := p.Format.(type) {
	case roomful.Every:
		return f.Count
	case roomful.Intervals:
		return f.Count
	case roomful.Stations:
		return f.Rounds
	case roomful.Sets:
		return max(f.Count, len(f.Reps))
	}
	return 0
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
	clauses           map[int]int // that speak of the body
}

// said reads the words of a text, which must come before its figures: a
// movement may be called by a body part, and a partner's half is no score.
func (p *parser) said(part roomful.Part, pieces []piece, lex roomful.Lexicon) remarks {
	var r remarks
	r.sameAs = p.same()
	r.asWritten = p.has("as", "written") || p.has("as", "rx'd") || p.has("rx'd") || p.has("rx") || p.has("as", "rx") || p.has("rxd")
	if p.has("not", "as", "written") || p.has("not", "rx") {
		r.asWritten, r.undone = false, true
	}
	if roomful.KindOf(part, lex) != roomful.TimeScore {
		r.stopped = p.stopped()
	}
	r.splits = p.splits()
	r.changes = p.changes(pieces, lex)
	r.clauses = p.hide()
	for _, w := range [][]string{{"i", "think"}, {"lost", "count"}, {"or", "so"}, {"and", "a", "bit"}, {"ish"}} {
		for i := range p.toks {
			r.approx = r.approx || p.at(i, w)
		}
	}
	r.undone = r.undone || p.mentionsAny("skipped", "stopped", "left", "only", "without", "no", "half", "walked") && !p.has("w", "o")
	r.undone = r.undone || r.stopped > 0
	r.partner = p.partner(part.Team.Size > 1)
	r.share = p.share()
	return r
}

// mentionsAny reports whether one of the words stands in the text.
func (p *parser) mentionsAny(words ...string) bool {
	for _, t := range p.toks {
		if t.text == "left" {
			continue
		}
		if slices.Contains(words, t.text) {
			return true
		}
	}
	for i := range p.toks {
		if p.at(i, []string{"left", "early"}) || p.at(i, []string{"left", "after"}) {
			return true
		}
	}
	return false
}

// bareBar is the mass of a bare bar in kg: 20, and 15 for division b (the usual bars
// of weightlifting).
func bareBar(d roomful.Division) float64 {
	if d == roomful.DivisionB {
		return 15
	}
	return 20
}

// rungsOf is which round of a ladder has which step.
func rungsOf(pieces []piece) map[int]int {
	out := map[int]int{}
	for _, s := range pieces {
		f, ok := s.part.Format.(roomful.RoundsInTime)
		for n := range mostRungs {
			if step, more := f.Ladder.Step(n); ok && more && step > 0 && len(f.Ladder.Steps) > 0 {
				out[step] = n + 1
			}
		}
	}
	return out
}

// mostRungs is how far a ladder is looked up.
const mostRungs = 30

// same reads "same as last time" and "same as Marit".
func (p *parser) same() string {
	for i := range p.toks {
		if !p.at(i, []string{"same", "as"}) {
			continue
		}
		if p.word(i+2) == "last" || p.word(i+2) == "before" {
			p.use(i, i+3+b2i(p.word(i+3) == "time" || p.word(i+3) == "week"))
			return "last time"
		}
		if i+2 < len(p.toks) && p.toks[i+2].kind == wordToken {
			p.use(i, i+3)
			return p.raw[p.toks[i+2].start:p.toks[i+2].end]
		}
	}
	return ""
}

// partner reads "with Lorcan", "w/ a partner", in a team piece also "with dov" and
// "Calum and me".
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
		t := p.toks[i+1]
		if t.kind == wordToken && !p.used[i+1] && (p.capital(t) || team && !notNames[t.text] && (i+2 >= len(p.toks) || p.toks[i+2].clause != t.clause)) {
			p.use(i, i+2)
			return p.raw[t.start:t.end]
		}
	}
	for i := range p.toks {
		if team && p.capital(p.toks[i]) && p.word(i+1) == "and" && (p.word(i+2) == "me" || p.word(i+2) == "i") {
			p.use(i, i+3)
			return p.raw[p.toks[i].start:p.toks[i].end]
		}
	}
	return ""
}

// capital reports whether a word was typed with a capital.
func (p *parser) capital(t token) bool {
	return t.kind == wordToken && t.start < len(p.raw) && p.raw[t.start] >= 'A' && p.raw[t.start] <= 'Z'
}

// notNames are words that may follow "with" at the end of a clause and name nobody.
var notNames = wordSet("band bands breaks rest pauses ease help singles knees db dbs kb bell ball box")

// share reads "my half 224".
func (p *parser) share() *int {
	for i := range p.toks {
		if p.word(i) == "my" && (p.word(i+1) == "half" || p.word(i+1) == "share" || p.word(i+1) == "part") && p.isNumber(i+2) {
			n := int(p.toks[i+2].value)
			p.use(i, i+3)
			return &n
		}
	}
	return nil
}
