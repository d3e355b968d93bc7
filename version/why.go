package version

import (
	"math"
	"strings"

	"roomful"
	"roomful/version/internal/care"
	"roomful/version/internal/rung"
	"roomful/version/internal/say"
)

// asWritten is the reason of a line that nothing changes.
const asWritten = "as written"

// why writes the public line of one element of a plan: what anybody may read.
// It never speaks of a body, a state, an ability or a probability.
func (c *class) why(q *plan, li int) string {
	f, l := q.fits[li], &c.lines[li]
	if f.stuck {
		return "nothing here replaces " + say.Plural(l.Movement) + " today: rest, and ask the coach"
	}
	w, t := q.p.written[li], q.tasks[li]
	if f.why.amount == byLimit { // less of the same
		return c.whyLess(q.p, f, t)
	}
	var parts []string
	add := func(s string) {
		if s != "" {
			parts = append(parts, s)
		}
	}
	if t.Movement != w.Movement {
		add(c.whyForm(q.p, f, li, w, t))
	} else if t.Amount != w.Amount {
		add(c.whyAmount(f, w, t))
	}
	if math.Abs(t.HeightCm-w.HeightCm) > tiny && t.Movement == w.Movement {
		add(whyHeight(f, t))
	}
	if t.Implements != w.Implements && t.Movement == w.Movement && max(t.Implements, w.Implements) > 1 {
		add(say.Count(max(t.Implements, 1), say.Tool(f.form.Movement)))
	}
	if t.Load.Value > 0 {
		add(c.whyLoad(q.p, f, w, t))
	}
	add(whySlower(f, w, t))
	if len(parts) == 0 {
		return asWritten
	}
	return strings.Join(parts, "; ")
}

// behind is why a person's line is as it is. An option may ask of all what a limit, the
// kit or a skill would have asked of this person in any case.
func (c *class) behind(p *person, li int, f *fitted) reasons {
	if f.why.form == byOption {
		return c.fit(p, li, rung.Plain).why
	}
	return f.why
}

// private writes what only the person and their coaches may read of a line.
func (c *class) private(q *plan, li int) string {
	words := q.fits[li].why.private
	if limit := c.behind(q.p, li, q.fits[li]).limit; limit != nil && q.fits[li].why.limit == nil {
		words = append([]string{care.Avoid(*limit)}, words...)
	}
	return strings.Join(words, "; ")
}

// whyLess names what is left of an element, and no more.
func (c *class) whyLess(p *person, f *fitted, t roomful.Task) string {
	words := say.Many(f.form.Movement, t)
	if t.Amount > 0 {
		words = say.Amount(t.Amount, t.Unit) + " " + words
	}
	if t.Load.Value > 0 {
		words += " at " + say.Load(t.Load, p.Athlete.Unit)
	}
	return words + " today"
}

// whyForm says why another movement stands in.
func (c *class) whyForm(p *person, f *fitted, li int, w, t roomful.Task) string {
	l := &c.lines[li]
	name, does := say.Many(f.form.Movement, t), "keep"
	if t.Unit != roomful.Rep {
		does = "keeps"
	}
	if t.Amount > 0 && (t.Amount != w.Amount || t.Unit != w.Unit) {
		name = say.Amount(t.Amount, t.Unit) + " " + name
	}
	kept, turn := say.Kept(say.Leads(l.Movement)), ""
	if w := say.Public(f.form.Neighbour, say.Neighbour(l.Movement, f.form.Movement)); w != "" {
		kept, turn = "the time ("+w+")", ": "+w
	}
	keeps := name + " " + does + " " + kept
	switch behind := c.behind(p, li, f); behind.form {
	case byKit:
		return say.Lack(behind.lacks, p.stock.Home()) + ": " + keeps
	case byLimit:
		return name + " today" + turn
	case bySkill, byStrength:
		return keeps + " while you build " + say.Plural(l.Movement)
	default:
		return keeps + ", and " + c.aim() + " in reach"
	}
}

// whyAmount says why there is more or less of an element.
func (c *class) whyAmount(f *fitted, w, t roomful.Task) string {
	swap := say.Amount(t.Amount, t.Unit) + " instead of " + say.Amount(w.Amount, w.Unit)
	switch f.why.amount {
	case byState:
		return say.Amount(t.Amount, t.Unit) + " today"
	case byLoadLost:
		return swap + ": more of it for the lighter load"
	}
	if t.Amount > w.Amount {
		return swap + " fills " + c.aim()
	}
	return swap + " keeps " + c.aim() + " in reach"
}

// aim is the window in words; one that the sheet did not set has no figures.
func (c *class) aim() string {
	if !c.windowed || c.Effort.Proposed {
		return "the intended effort"
	}
	low, high := roomful.Figure(c.Effort.Low), roomful.Figure(c.Effort.High)
	if low == high {
		return low + " " + c.Effort.Unit
	}
	return low + "-" + high + " " + c.Effort.Unit
}

// whyHeight says why a box or target is another.
func whyHeight(f *fitted, t roomful.Task) string {
	cm := roomful.Figure(t.HeightCm) + " cm"
	if f.why.height {
		return cm + " keeps it quick and sure"
	}
	return cm + " is the nearest height there is"
}

// whyLoad says why a load is what it is.
func (c *class) whyLoad(p *person, f *fitted, w, t roomful.Task) string {
	kg := say.Load(t.Load, p.Athlete.Unit)
	switch {
	case t.LoadKg() < f.task.LoadKg()-tiny:
		return kg + " keeps " + c.aim() + " in reach"
	case t.LoadKg() > f.task.LoadKg()+tiny:
		return kg + ": more load keeps you inside " + c.aim()
	}
	switch f.why.load {
	case byFresh, byState:
		return kg + ": you can move it " + roomful.Figure(float64(f.why.fresh)) + " times fresh"
	case byUnknown:
		return kg + " to start: the proof set decides"
	case byEase:
		return kg + " today"
	case byOwned:
		if w.Load.Value == 0 && w.Movement == t.Movement {
			return kg + ": your own choice"
		}
		if p.stock.Home() {
			return "your " + say.Tool(f.form.Movement) + " at home is " + kg
		}
		if t.Implements > 1 {
			return kg + " is the nearest pair here"
		}
		return kg + " is the nearest load here"
	}
	if w.Load.Value == 0 || t.Movement != w.Movement {
		return kg
	}
	return ""
}
