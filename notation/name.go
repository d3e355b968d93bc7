package notation

import (
	"strings"

	"roomful"
)

// nameItem reads the name of a movement. Words before it that are no adjectives
// would change what it means, so that it is then not recognised.
func (r *reading) nameItem() bool {
	if r.cur != nil && (r.cur.move != nil || r.cur.Words != "") || !r.nameMayStand() {
		return false
	}
	from := r.c.i
	m, n := r.match(r.c)
	if n == 0 {
		return r.restItem()
	}
	unit := r.unitBefore(from)
	r.closeRun(r.start)
	d := r.element()
	d.move, d.Movement, d.Words = m, m.ID, r.c.slice(from, from+n)
	d.nameAt = r.c.span(from, from+n)
	r.c.i += n
	if unit != roomful.Rep {
		d.Amount.Unit = unit
	}
	r.adopt(d)
	r.tail(d)
	r.strayName(d)
	return true
}

// restItem reads "rest" where the lexicon has no such movement.
func (r *reading) restItem() bool {
	from := r.c.i
	if !r.c.take("rest") {
		return false
	}
	r.closeRun(r.start)
	d := r.element()
	d.Movement, d.Words, d.nameAt = roomful.Rest, r.c.slice(from, r.c.i), r.c.span(from, r.c.i)
	d.move = &restMovement
	r.adopt(d)
	return true
}

// nameMayStand reports whether only adjectives, unit words and little words
// stand before the place of a name.
func (r *reading) nameMayStand() bool {
	if r.left < 0 {
		return true
	}
	for _, t := range r.c.tokens[r.left:r.c.i] {
		u, unit := unitWords[t.text]
		if !adjectives[t.text] && !little[t.text] && !(unit && u.class == counted) {
			return false
		}
	}
	return true
}

// unitBefore returns the unit of "cal row" and "m run": a unit word without a
// figure, just before the name.
func (r *reading) unitBefore(i int) roomful.Unit {
	if r.left < 0 || i <= r.left {
		return roomful.Rep
	}
	prev := r.c.tokens[i-1]
	if prev.text == "of" && i > r.left+1 {
		prev = r.c.tokens[i-2]
	}
	u, ok := unitWords[prev.text]
	if !ok || u.class != counted || u.unit != roomful.Calorie && u.unit != roomful.Metre {
		return roomful.Rep
	}
	return u.unit
}

// adopt gives an element what the head said before it was opened.
func (r *reading) adopt(d *drafted) {
	d.at.col = min(d.at.col, d.nameAt.col)
}

// tail passes over words that only repeat the end of the name, "C2B pull-ups".
func (r *reading) tail(d *drafted) {
	if m, n := r.match(r.c); n > 0 && m != d.move && strings.HasSuffix(d.move.Name, m.Name) {
		r.c.i += n
	}
}

// strayName says that words right after a name were kept as a note, since they
// may have changed what it means.
func (r *reading) strayName(d *drafted) {
	t := r.c.peek(0)
	if !r.scored || r.head || t.kind != word || little[t.text] || adjectives[t.text] || leadIns[t.text] || unitWords[t.text].class != bare || r.phrase() > 0 || r.division(t.text, true) > 0 {
		return
	}
	before, said := r.c.i, len(r.list)
	facts := r.f
	clause := r.clause()
	r.c.i, r.list, r.f = before, r.list[:said], facts
	if clause {
		return
	}
	stop := before
	for stop < r.c.last && r.c.tokens[stop].kind == word && unitWords[r.c.tokens[stop].text].class == bare {
		stop++
	}
	r.hint(r.c.span(before, stop), "read as "+d.move.Name+"; "+quote(r.c.slice(before, stop))+" is kept as a note", "put a note after ; to keep this quiet")
}

// phrase returns how many tokens a phrase that may follow a movement takes.
func (r *reading) phrase() int {
	for _, p := range phrases {
		if n := r.c.reach(p); n > 0 {
			return n
		}
	}
	return 0
}

// phraseItem reads a phrase such as "a side", which is kept as a note.
func (r *reading) phraseItem() bool {
	n := r.phrase()
	if n == 0 || !r.open() && r.left < 0 {
		return false
	}
	r.closeRun(r.start)
	d := r.element()
	d.remarks = append(d.remarks, remark{from: r.c.i, to: r.c.i + n})
	r.c.i += n
	return true
}

// closeRun ends the words that nothing has taken and keeps them: as the name of
// an element that has none, as its note, or as a note of the head.
func (r *reading) closeRun(stop int) {
	from := r.left
	r.left = -1
	if from < 0 {
		return
	}
	for from < stop && trimmed(r.c.tokens[from], r.cur == nil || r.cur.move == nil) {
		from++
	}
	for stop > from && r.c.tokens[stop-1].kind != word && r.c.tokens[stop-1].kind != number {
		stop--
	}
	if from >= stop || r.onlyLittle(from, stop) {
		return
	}
	text := r.c.slice(from, stop)
	switch {
	case r.cur == nil && r.head:
		if r.c.i < r.c.last && r.openingNext(from, stop) {
			d := r.element()
			d.remarks = append(d.remarks, remark{from: from, to: stop})
			return
		}
		r.f.notes = append(r.f.notes, text)
	case r.cur != nil && r.cur.Words != "" || r.onlyAdjectives(from, stop):
		d := r.element()
		d.remarks = append(d.remarks, remark{from: from, to: stop})
	default:
		d := r.element()
		for ; stop > from+1; from++ {
			if u, ok := unitWords[r.c.tokens[from].text]; ok && u.class == counted && len(d.figures) == 0 && (u.unit == roomful.Rep || u.unit.Base() != roomful.Metre || u.unit == roomful.Metre) {
				d.Amount.Unit = u.unit
			} else if !trimmed(r.c.tokens[from], true) {
				break
			}
		}
		d.Words, d.nameAt = strings.Join(strings.Fields(r.c.slice(from, stop)), " "), r.c.span(from, stop)
	}
}

// openingNext reports whether the words stand right before a name.
func (r *reading) openingNext(from, stop int) bool {
	_, n := r.match(r.c)
	return r.onlyAdjectives(from, stop) && (n > 0 || r.c.is("rest"))
}

func (r *reading) onlyAdjectives(from, stop int) bool {
	for _, t := range r.c.tokens[from:stop] {
		if !adjectives[t.text] {
			return false
		}
	}
	return true
}

// onlyLittle reports whether nothing but little words and units stand there, as
// in "cal of".
func (r *reading) onlyLittle(from, stop int) bool {
	for _, t := range r.c.tokens[from:stop] {
		u, unit := unitWords[t.text]
		if t.kind == number || t.kind == word && !little[t.text] && !leadIns[t.text] && !(unit && u.class == counted && !(r.open() && r.cur.move != nil)) {
			return false
		}
	}
	return true
}

// trimmed reports whether a word at the start of a run means nothing.
func trimmed(t token, beforeName bool) bool {
	switch t.text {
	case "of", "then", "and", "":
		return true
	}
	return t.kind == junk || t.kind == mark || beforeName && little[t.text]
}
