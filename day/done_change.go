package day

import (
	"cmp"
	"math"
	"slices"
	"strings"
	"time"

	"roomful"
	"roomful/version"
)

// changes makes each change that was said, from the start or from a time on.
func (r *redo) changes() {
	r.sheet = r.out.Work
	work := r.out.Work
	all := slices.Clone(r.question.Reading.Changes)
	// by time, and what was left out last, so that the other lines keep their places
	slices.SortStableFunc(all, func(a, b roomful.Change) int {
		return cmp.Or(cmp.Compare(a.AtSeconds, b.AtSeconds), cmp.Compare(b2i(leftOut(a)), b2i(leftOut(b))))
	})
	for _, c := range roomful.Joined(all) {
		i, ok := r.place(work, c)
		if !ok {
			r.out.Assumed = append(r.out.Assumed, "which line was changed is not known, so it counts as written: "+r.words(c))
			continue
		}
		from := time.Duration(c.AtSeconds * float64(time.Second))
		work = r.changed(work, i, c, from > 0)
		if from == 0 {
			r.out.Work = work
		} else if n := len(r.out.Segments); n > 0 && r.out.Segments[n-1].From == from {
			r.out.Segments[n-1].Work = work
		} else {
			if n == 0 {
				r.out.Segments = []roomful.Segment{{Work: r.out.Work}}
			}
			r.out.Segments = append(r.out.Segments, roomful.Segment{From: from, Work: work, Say: r.words(c)})
		}
		r.out.Changed = append(r.out.Changed, r.words(c))
	}
}

// place finds the line that a change is of, counted over once, round and last: the
// movement named, else the only one, or the nearest, that the change can be of.
func (r *redo) place(w roomful.Work, c roomful.Change) (int, bool) {
	tasks := w.All()
	if c.Of != "" {
		lines := r.part.All()
		if len(lines) == len(tasks) {
			i := slices.IndexFunc(lines, func(e roomful.Element) bool { return e.Movement == c.Of })
			return i, i >= 0
		}
		i := slices.IndexFunc(tasks, func(t roomful.Task) bool { return t.Movement == c.Of })
		return i, i >= 0
	}
	best, at := math.Inf(1), -1
	for i, t := range tasks {
		off := math.Inf(1)
		switch {
		case c.LoadKg > 0 && t.Load.Value > 0:
			off = math.Abs(math.Log(c.LoadKg / t.Load.Kg()))
		case c.HeightCm > 0 && t.HeightCm > 0:
			off = math.Abs(math.Log(c.HeightCm / t.HeightCm))
		}
		if off < best {
			best, at = off, i
		}
	}
	return at, at >= 0
}

// changed returns the work with one line done otherwise; late says that it was not
// from the start, so that no line may go.
func (r *redo) changed(w roomful.Work, i int, c roomful.Change, late bool) roomful.Work {
	t := w.All()[i]
	if again(c) && len(r.sheet.All()) == len(w.All()) {
		return w.With(i, r.sheet.All()[i])
	}
	if c.To == "" && c.Assist != "" {
		c.To = r.helped(t.Movement, c.Assist)
	}
	switch {
	case c.To != "" && c.To != t.Movement:
		t = r.instead(t, i, c.To)
	case leftOut(c):
		if !late {
			return w.Without(i)
		}
		t = roomful.Task{Movement: roomful.Rest, Amount: 1, Unit: roomful.Second, Slot: t.Slot}
	}
	if c.LoadKg > 0 {
		t = r.laden(t, c.LoadKg)
	}
	if c.HeightCm > 0 {
		t.HeightCm = c.HeightCm
	}
	if c.Amount > 0 {
		t.Amount, t.Unit = c.Amount*c.Unit.Size(), c.Unit.Base()
	}
	return w.With(i, t)
}

// laden puts a load on a line. One that is done without any is done in its weighted form;
// where the catalogue has none the load is kept, to compare by, and nothing feels it.
func (r *redo) laden(t roomful.Task, kg float64) roomful.Task {
	t.Load, t.RPE, t.Percent, t.Fresh = roomful.Kg(kg), 0, 0, 0
	m := r.day.Lexicon.Movement(t.Movement)
	if m == nil || m.TakesLoad() {
		return t
	}
	if weighted := r.day.Lexicon.Movement("weighted-" + t.Movement); weighted != nil {
		t.Movement = weighted.ID
		return t
	}
	with := t.Load.Near(r.question.Who.Unit).String()
	r.out.Assumed = append(r.out.Assumed, m.Plural+" with "+with+" are reckoned as without it")
	return t
}

// again reports whether a change says that a line was done as written from then on.
func again(c roomful.Change) bool { return c.To != "" && c.To == c.Of }

// leftOut reports whether a change says no more than that a line was not done.
func leftOut(c roomful.Change) bool {
	return c.To == "" && c.LoadKg == 0 && c.HeightCm == 0 && c.Amount == 0 && c.Assist == ""
}

// b2i is 1 for true.
func b2i(b bool) int {
	if b {
		return 1
	}
	return 0
}

// instead resolves another movement in the place of a line.
func (r *redo) instead(t roomful.Task, i int, to roomful.MovementID) roomful.Task {
	lines := r.part.All()
	of := lines[min(i, len(lines)-1)]
	did, ok := version.Did(version.InsteadQuestion{
		Of: of, Person: version.Person{Athlete: r.question.Who, Abilities: r.abilities},
		Gym: r.day.Gym, On: r.on, Lexicon: r.day.Lexicon, Forecaster: r.day.Forecaster,
	}, r.part.Instead, to)
	if !ok {
		t.Movement = to
		return t
	}
	if !of.Amount.Stated() {
		did.Amount = t.Amount // a ladder's steps stay the ladder's
	}
	did.Slot = t.Slot
	return did
}

// helped is the form of a movement with help, "band" or "green band" or "box";
// empty when the catalogue has none.
func (r *redo) helped(of roomful.MovementID, assist string) roomful.MovementID {
	m := r.day.Lexicon.Movement(of)
	words := strings.Fields(assist)
	if m == nil || len(words) == 0 {
		return ""
	}
	help := words[len(words)-1]
	for _, id := range m.Easier {
		if strings.Contains(string(id), help) || help == "box" && strings.Contains(string(id), "incline") {
			return id
		}
	}
	r.out.Assumed = append(r.out.Assumed, "with a "+help+" counts as without one")
	return ""
}

// now is what a line was done as, when a change said so.
func (r *redo) now(line roomful.MovementID) roomful.MovementID {
	for _, c := range r.question.Reading.Changes {
		if c.Of == line && c.To != "" && !again(c) {
			return c.To
		}
	}
	return line
}

// inPlaceOf names the movement that another is done for.
func (r *redo) inPlaceOf(id roomful.MovementID) string {
	if m := r.day.Lexicon.Movement(id); m != nil {
		return m.For()
	}
	return "for " + string(id)
}

// words says a change, "bike for the row", "pull-ups with a green band", "7 push presses".
func (r *redo) words(c roomful.Change) string {
	name := func(id roomful.MovementID) string {
		m := r.day.Lexicon.Movement(id)
		switch {
		case m == nil:
			return string(id)
		case c.Amount == 1 && c.Unit == roomful.Rep:
			return m.Name
		}
		return m.Several()
	}
	var b []string
	if c.Amount > 0 {
		b = append(b, strings.TrimSuffix(roomful.Figure(c.Amount)+" "+c.Unit.String(), " rep"))
	}
	switch {
	case again(c):
		b = append(b, name(c.To)+" as written")
	case c.To != "" && c.Of != "":
		b = append(b, name(c.To)+" "+r.inPlaceOf(c.Of))
	case c.To != "":
		b = append(b, name(c.To))
	case c.Of != "":
		b = append(b, name(r.now(c.Of)))
	}
	if c.LoadKg > 0 {
		b = append(b, "at "+roomful.Kg(c.LoadKg).Near(r.question.Who.Unit).String())
	}
	if c.HeightCm > 0 {
		b = append(b, "at "+roomful.Figure(c.HeightCm)+" cm")
	}
	if c.Assist != "" {
		b = append(b, "with a "+c.Assist)
	}
	if leftOut(c) {
		b = append(b, "left out")
	}
	if c.AtSeconds > 0 {
		b = append(b, "from "+roomful.Clock(c.AtSeconds))
	}
	return strings.Join(b, " ")
}
