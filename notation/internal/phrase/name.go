package phrase

import (
	"strings"

	"roomful"
	"roomful/notation/internal/diag"
	"roomful/notation/internal/scan"
	"roomful/notation/internal/vocab"
)

// nameItem reads the name of a movement. Words before it that are no adjectives
// would change what it means, so that it is then not recognised.
func (r *Reading) nameItem() bool {
	if r.cur != nil && (r.cur.Move != nil || r.cur.Words != "") || !r.nameMayStand() {
		return false
	}
	from := r.C.I
	m, n := r.Match(r.C)
	if n == 0 {
		return r.restItem()
	}
	unit := r.unitBefore(from)
	d := r.element()
	r.closeLead(d)
	d.Move, d.Movement, d.Words = m, m.ID, r.C.Slice(from, from+n)
	d.NameAt = r.C.Span(from, from+n)
	r.C.I += n
	r.tail(d)
	odd := unit.Base() != roomful.Second && !vocab.Counts(m, unit.Base())
	switch measured := d.measured(); {
	case unit != roomful.Rep && (measured || odd): // 1 min max cal row
		d.remarks = append(d.remarks, remark{from: from - 1, to: from})
	case measured:
	case unit != roomful.Rep:
		d.Amount.Unit = unit
	default:
		d.Amount.Unit = r.unitAfter(d)
	}
	r.strayName(d, from)
	return true
}

// restItem reads "rest" where the lexicon has no such movement.
func (r *Reading) restItem() bool {
	from := r.C.I
	if !r.C.Take("rest") {
		return false
	}
	d := r.element()
	r.closeLead(d)
	d.Movement, d.Words, d.NameAt = roomful.Rest, r.C.Slice(from, r.C.I), r.C.Span(from, r.C.I)
	d.Move = &vocab.RestMovement
	return true
}

// closeLead keeps the adjectives before a name; units and little words there mean
// nothing by themselves.
func (r *Reading) closeLead(d *Element) {
	from := r.left
	r.left = -1
	for i := from; from >= 0 && i < r.start; i++ {
		if !vocab.Adjectives[r.C.Tokens[i].Text] {
			continue
		}
		first := i
		for i+1 < r.start && vocab.Adjectives[r.C.Tokens[i+1].Text] {
			i++
		}
		d.remarks = append(d.remarks, remark{from: first, to: i + 1})
	}
}

// nameMayStand reports whether only adjectives, unit words and little words
// stand before the place of a name.
func (r *Reading) nameMayStand() bool {
	if r.left < 0 {
		return true
	}
	for _, t := range r.C.Tokens[r.left:r.C.I] {
		u, unit := vocab.UnitWords[t.Text]
		if !vocab.Adjectives[t.Text] && !vocab.Little[t.Text] && !(unit && u.Class == vocab.Counted) {
			return false
		}
	}
	return true
}

// unitBefore returns the unit of "cal row" and "m run": a unit word without a
// figure, just before the name.
func (r *Reading) unitBefore(i int) roomful.Unit {
	if r.left < 0 || i <= r.left {
		return roomful.Rep
	}
	prev := r.C.Tokens[i-1]
	if prev.Text == "of" && i > r.left+1 {
		prev = r.C.Tokens[i-2]
	}
	return countedAlone(prev.Text)
}

// unitAfter reads the unit of "row cal" and "bike for max calories": a unit word
// without a figure, just after the name.
func (r *Reading) unitAfter(d *Element) roomful.Unit {
	from := r.C.I
	r.C.Mark(",")
	r.C.Mark("(")
	r.C.TakeAny("for max", "for", "max", "in")
	u := countedAlone(r.C.Peek(0).Text)
	if u == roomful.Rep || !vocab.Counts(d.Move, u.Base()) {
		r.C.I = from
		return roomful.Rep
	}
	r.C.I++
	r.C.Mark(")")
	return u
}

// measured reports whether a figure with a unit is there to be the amount.
func (d *Element) measured() bool {
	for i := range d.figures {
		if d.figures[i].Unit.Class == vocab.Counted {
			return true
		}
	}
	return false
}

// countedAlone returns the unit of a word that says what a movement is counted
// in without a figure; repetitions for any other word.
func countedAlone(word string) roomful.Unit {
	u, ok := vocab.UnitWords[word]
	switch {
	case !ok || u.Class != vocab.Counted:
		return roomful.Rep
	case u.Unit == roomful.Calorie, u.Unit == roomful.Metre, u.Unit == roomful.Second, u.Unit == roomful.Minute, u.Unit == roomful.Kilometre:
		return u.Unit
	}
	return roomful.Rep
}

// tail passes over words that only repeat the end of the name, "C2B pull-ups".
func (r *Reading) tail(d *Element) {
	if m, n := r.Match(r.C); n > 0 && m != d.Move && strings.HasSuffix(d.Move.Name, m.Name) {
		r.C.I += n
	}
}

// strayName speaks of words right after a name. They may make another movement
// of it, as in "snatch wobbles": unless they begin like a remark, the name is
// then that of a movement that is not known.
func (r *Reading) strayName(d *Element, from int) {
	before := r.C.I
	stop := r.strayEnd()
	if stop == before || r.modifiedBy(d, before, stop) {
		return
	}
	stray := r.C.Slice(before, stop)
	switch {
	case !vocab.Remarks[r.C.Peek(0).Text]:
		d.Move, d.Movement, d.Words, d.NameAt = nil, "", strings.Join(strings.Fields(r.C.Slice(from, stop)), " "), r.C.Span(from, stop)
		r.C.I = stop
	case r.Scored && !r.head:
		r.Hint(r.C.Span(before, stop), "read as "+d.Move.Name+"; "+diag.Quote(stray)+" is kept as a note", "put a note after ; to keep this quiet")
	}
}

// strayEnd returns where the words end that stand here and are neither a unit, a
// phrase, a division, a load nor a clause; this place when there are none.
func (r *Reading) strayEnd() int {
	from, t := r.C.I, r.C.Peek(0)
	if t.Kind != scan.Word || vocab.Little[t.Text] || vocab.Adjectives[t.Text] || vocab.LeadIns[t.Text] || vocab.UnitWords[t.Text].Class != vocab.Bare || r.phrase() > 0 || r.Division(t.Text, true) > 0 || r.bodyMass(false) {
		return from
	}
	said, facts := len(r.List), r.F
	clause := r.Clause()
	r.C.I, r.List, r.F = from, r.List[:said], facts
	if clause {
		return from
	}
	stop := from
	for stop < r.C.Last && r.C.Tokens[stop].Kind == scan.Word && vocab.UnitWords[r.C.Tokens[stop].Text].Class == vocab.Bare {
		stop++
	}
	return stop
}

// modifiedBy reads "burpees no push-up" as the movement of that name.
func (r *Reading) modifiedBy(d *Element, from, stop int) bool {
	other := r.together(d.Move, r.C.Words[from:stop])
	if other == nil {
		return false
	}
	r.Context.Hint(d.NameAt, "read as "+other.Name, "write "+other.Plural+" to say so")
	d.Move, d.Movement, r.C.I = other, other.ID, stop
	return true
}

// together returns the movement that words and a name make, in either order.
func (r *Reading) together(m *roomful.Movement, words []string) *roomful.Movement {
	name := strings.Fields(m.Name)
	for _, run := range [...][]string{append(append([]string{}, words...), name...), append(name, words...)} {
		if other, n := r.Lex.Match(run); other != nil && n == len(run) && other != m {
			return other
		}
	}
	return nil
}

// phrase returns how many tokens a phrase that may follow a movement takes.
func (r *Reading) phrase() int {
	for _, p := range vocab.Phrases {
		if n := r.C.Reach(p); n > 0 {
			return n
		}
	}
	return 0
}

// phraseItem reads a phrase such as "a side", which is kept as a note.
func (r *Reading) phraseItem() bool {
	n := r.phrase()
	if n == 0 || !r.open() && r.left < 0 {
		return false
	}
	r.closeRun(r.start)
	d := r.element()
	d.remarks = append(d.remarks, remark{from: r.C.I, to: r.C.I + n})
	r.C.I += n
	return true
}

// closeRun ends the words that nothing has taken and keeps them: as the name of
// an element that has none, as its note, or as a note of the head.
func (r *Reading) closeRun(stop int) {
	from := r.left
	r.left = -1
	if from < 0 {
		return
	}
	for from < stop && trimmed(r.C.Tokens[from], r.cur == nil || r.cur.Move == nil) {
		from++
	}
	for stop > from && r.C.Tokens[stop-1].Kind != scan.Word && r.C.Tokens[stop-1].Kind != scan.Number {
		stop--
	}
	if from >= stop || r.onlyLittle(from, stop) {
		return
	}
	text := r.C.Slice(from, stop)
	switch {
	case r.cur == nil && r.head:
		if r.C.I < r.C.Last && r.openingNext(from, stop) {
			d := r.element()
			d.remarks = append(d.remarks, remark{from: from, to: stop})
			return
		}
		r.F.Notes = append(r.F.Notes, text)
	case r.cur != nil && r.cur.Words != "" || r.onlyAdjectives(from, stop):
		d := r.element()
		d.remarks = append(d.remarks, remark{from: from, to: stop})
	default:
		d := r.element()
		for ; stop > from+1; from++ {
			if u, ok := vocab.UnitWords[r.C.Tokens[from].Text]; ok && u.Class == vocab.Counted && len(d.figures) == 0 && (u.Unit == roomful.Rep || u.Unit.Base() != roomful.Metre || u.Unit == roomful.Metre) {
				d.Amount.Unit = u.Unit
			} else if !trimmed(r.C.Tokens[from], true) {
				break
			}
		}
		d.Words, d.NameAt = strings.Join(strings.Fields(r.C.Slice(from, stop)), " "), r.C.Span(from, stop)
	}
}

// openingNext reports whether the words stand right before a name.
func (r *Reading) openingNext(from, stop int) bool {
	_, n := r.Match(r.C)
	return r.onlyAdjectives(from, stop) && (n > 0 || r.C.Is("rest"))
}

func (r *Reading) onlyAdjectives(from, stop int) bool {
	for _, t := range r.C.Tokens[from:stop] {
		if !vocab.Adjectives[t.Text] {
			return false
		}
	}
	return true
}

// onlyLittle reports whether nothing but little words and units stand there, as
// in "cal of".
func (r *Reading) onlyLittle(from, stop int) bool {
	for _, t := range r.C.Tokens[from:stop] {
		u, unit := vocab.UnitWords[t.Text]
		if t.Kind == scan.Number || t.Kind == scan.Word && !vocab.Little[t.Text] && !vocab.LeadIns[t.Text] && !(unit && u.Class == vocab.Counted && !(r.open() && r.cur.Move != nil)) {
			return false
		}
	}
	return true
}

// trimmed reports whether a word at the start of a run means nothing.
func trimmed(t scan.Token, beforeName bool) bool {
	switch t.Text {
	case "of", "then", "and", "":
		return true
	}
	return t.Kind == scan.Junk || t.Kind == scan.Mark || beforeName && vocab.Little[t.Text]
}
