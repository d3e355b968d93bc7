package score

import (
	"slices"

	"roomful"
)

// finish adds to the readings what belongs to the whole text: stated loads, changes,
// whether it was as written, private words and the note. The first reading is of the
// piece asked about; words that belong to no piece stand there.
func (r *reader) finish(out []roomful.Reading) {
	for i := range r.pieces {
		if r.got[i] >= 0 {
			r.take(&r.p.facts[r.got[i]])
		}
	}
	r.inAll(&out[0])
	said := r.amounts(r.heights(r.stated(out)))
	for _, c := range r.said.changes {
		r.give(out, r.pieceOf(c), c)
	}
	for _, c := range said {
		r.give(out, c.piece, c.saidChange)
	}
	r.counted(out)
	first := &out[0]
	first.Partner, first.Share, first.SameAs = r.said.partner, r.said.share, r.said.sameAs
	first.Approximate = first.Approximate || r.said.approx
	if f, ok := r.p.asked.part.Format.(roomful.ForTime); ok && scoreless(*first) && f.Rounds > 1 && f.Rounds == len(r.said.splits) && grows(r.said.splits) {
		first.Seconds, r.said.onClock = &r.said.splits[f.Rounds-1], true // "rounds at 3:20 6:55 10:45" of three
	}
	first.StoppedSeconds, first.Splits = r.said.stopped, r.lengths(first)
	for k := range out {
		one := &out[k]
		switch {
		case len(one.Changes) > 0 || k == 0 && r.said.undone:
			one.AsWritten = new(bool)
		case k == 0 && r.said.asWritten || r.matched[one.Piece]:
			yes := true
			one.AsWritten = &yes
		}
	}
	for k := range out {
		r.doubt(&out[k])
	}
	r.release()
	r.unsure(first)
	first.Private, first.Unread, first.Note = r.p.split(r.said.clauses)
	first.Body = len(r.said.clauses) > 0
}

// give adds a change to the reading of a piece, the first when the piece has none.
func (r *reader) give(out []roomful.Reading, piece int, c saidChange) {
	at := 0
	for k := range out {
		if out[k].Piece == r.pieces[piece].part.Name() {
			at = k
		}
	}
	if of := c.of[piece]; of != "" {
		c.Change.Of = of
	}
	one, s := &out[at], &r.pieces[piece]
	if c.Change.AtSeconds == 0 {
		c.Change.AtSeconds = r.begins(one, s, c)
	}
	one.Changes = append(one.Changes, c.Change)
	if until, known := r.clock(c.span.until, s, one); until > 0 && known && c.Change.Of != "" {
		one.Changes = append(one.Changes, roomful.Change{Of: c.Change.Of, To: c.Change.Of, AtSeconds: until}) // as written again
	}
}

// begins is when in s on the clock a change began. Where that is not known it asks.
func (r *reader) begins(out *roomful.Reading, s *piece, c saidChange) float64 {
	at, known := r.clock(c.span.since, s, out)
	if known && !c.then {
		return at
	}
	ask(out, "when did "+r.named(c.Change)+" begin?", "about halfway", "another time")
	at, _ = r.clock(point{half: true}, s, out)
	return at
}

// named says a change in a question.
func (r *reader) named(c roomful.Change) string {
	m := r.q.Lexicon.Movement(c.To)
	switch {
	case c.LoadKg > 0:
		return roomful.Figure(c.LoadKg) + " kg"
	case m != nil:
		return m.Plural
	case c.Assist != "":
		return "the " + c.Assist
	}
	return "that"
}

// asked is the piece asked about.
func (r *reader) asked() int {
	return slices.IndexFunc(r.pieces, func(s piece) bool { return s.asked })
}

// pieceOf finds the piece that a change is of: the one whose line it can be, the
// nearest of several.
func (r *reader) pieceOf(c saidChange) int {
	if len(c.of) == 1 {
		for i := range c.of {
			return i
		}
	}
	near := r.owner(c.at)
	if _, ok := c.of[near]; ok || len(c.of) == 0 {
		return near
	}
	if _, ok := c.of[r.asked()]; ok {
		return r.asked()
	}
	for i := range r.pieces {
		if _, ok := c.of[i]; ok {
			return i
		}
	}
	return r.asked()
}

// owner is the piece that a token speaks of by where it stands: the one whose score
// stands in the same sentence, else the one whose score came last, else the one asked
// about.
func (r *reader) owner(at int) int {
	here, alone, last := -1, true, -1
	for i := range r.pieces {
		if r.got[i] < 0 {
			continue
		}
		from := r.p.facts[r.got[i]].from
		if r.p.sentences[from] == r.p.sentences[at] {
			alone = here < 0
			here = i
		}
		if from <= at {
			last = i
		}
	}
	switch {
	case here >= 0 && alone:
		return here
	case last >= r.asked() && last >= 0: // what is said behind the score of an earlier one may speak of either
		return last
	}
	return r.asked()
}

// release gives figures that no reading took, and moments that nothing began at, back
// to the note.
func (r *reader) release() {
	for i := range r.p.facts {
		if f := &r.p.facts[i]; !r.taken[f.from] {
			r.p.unuse(f.from, f.to)
		}
	}
	r.p.unclaim()
}

// scoreless reports whether a reading has no score.
func scoreless(r roomful.Reading) bool {
	return r.Rounds == nil && r.Reps == nil && r.Seconds == nil && r.Metres == nil && (len(r.LoadsKg) == 0 || r.Kind != roomful.LoadScore) && !r.Capped
}

// counted reads "sevens": where every line of the rounds asks for as many, that many
// of each instead.
func (r *reader) counted(out []roomful.Reading) {
	part := r.pieces[r.asked()].part
	asks := 0.0
	for _, e := range part.Round {
		n := e.Amount.For(r.q.Division)
		if e.Amount.Unit.Base() != roomful.Rep || asks != 0 && n != asks || n == 0 {
			return
		}
		asks = n
	}
	for i := range r.p.toks {
		n, ok := eachWords[r.p.word(i)]
		if !ok || r.p.used[i] || n == asks || slices.Contains([]string{"the", "two"}, r.p.word(i-1)) || i > 0 && r.p.toks[i-1].kind == numberToken {
			continue
		}
		r.p.use(i, i+1)
		for _, e := range part.Round {
			out[0].Changes = append(out[0].Changes, roomful.Change{Of: e.Movement, Amount: n, Unit: roomful.Rep})
		}
		return
	}
}

// eachWords are counts of every line of a round.
var eachWords = map[string]float64{"threes": 3, "fours": 4, "fives": 5, "sixes": 6, "sevens": 7, "eights": 8, "nines": 9, "tens": 10}

// question is one short question with its two answers, the likelier first.
func question(ask, likelier, other string) *roomful.Question {
	return &roomful.Question{Ask: ask, Answers: [2]string{likelier, other}}
}

// ask puts a question to a reading that has none yet.
func ask(out *roomful.Reading, words, likelier, other string) {
	if out.Question == nil {
		out.Question = question(words, likelier, other)
	}
}
