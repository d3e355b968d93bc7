package version

import (
	"math"
	"slices"
	"strings"

	"roomful"
	"roomful/version/internal/care"
	"roomful/version/internal/say"
)

// why writes the public line of one element of a plan: what anybody may read.
// It never speaks of a body, a state, an ability or a probability.
func (c *class) why(q *plan, li int) string {
	f, l := q.fits[li], &c.lines[li]
	if f.stuck {
		return "nothing here replaces " + say.Plural(l.movement) + " today: rest, and ask the coach"
	}
	w, t := q.p.written[li], q.tasks[li]
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
	if t.Load.Value > 0 {
		add(c.whyLoad(q.p, f, w, t))
	}
	if len(parts) == 0 {
		return "as written"
	}
	return strings.Join(parts, "; ")
}

// whyForm says why another movement stands in.
func (c *class) whyForm(p *person, f *fitted, li int, w, t roomful.Task) string {
	l := &c.lines[li]
	name, does := say.Plural(f.form.movement), "keep"
	if t.Unit != roomful.Rep {
		name, does = f.form.movement.Name, "keeps"
	}
	if t.Amount > 0 && (t.Amount != w.Amount || t.Unit != w.Unit) {
		name = say.Amount(t.Amount, t.Unit) + " " + name
	}
	kept := "the " + say.Family(say.Leads(l.movement))
	if w := say.Public(f.form.neighbour, say.Neighbour(l.movement, f.form.movement)); w != "" {
		kept = "the time, and " + w
	}
	keeps := name + " " + does + " " + kept
	behind := f.why
	if plainly := p.lines[li].fits[plain]; behind.form == byOption {
		behind = plainly.why
	}
	switch behind.form {
	case byKit:
		return say.Lack(behind.lacks, p.stock.Home()) + ": " + keeps
	case byLimit:
		return keeps + ", agreed for today"
	case bySkill, byStrength:
		return keeps + " while you build " + say.Plural(l.movement)
	default:
		return keeps + ", and " + c.aim() + " in reach"
	}
}

// whyAmount says why there is more or less of an element.
func (c *class) whyAmount(f *fitted, w, t roomful.Task) string {
	swap := say.Amount(t.Amount, t.Unit) + " instead of " + say.Amount(w.Amount, w.Unit)
	switch f.why.amount {
	case byState:
		if t.Amount > w.Amount {
			return swap + ": sets done well in the place of a heaviest one"
		}
		return swap + ": a shorter dose for now"
	case byLimit:
		return swap + ", agreed for today"
	case byLoadLost:
		return swap + ": more of it for the lighter load"
	}
	if t.Amount > w.Amount {
		return swap + " fills " + c.aim()
	}
	return swap + " keeps " + c.aim() + " in reach"
}

// aim is the window in words.
func (c *class) aim() string {
	if !c.windowed {
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
	kg := t.Load.String()
	switch {
	case t.LoadKg() < f.task.LoadKg()-tiny:
		return kg + " keeps " + c.aim() + " in reach"
	case t.LoadKg() > f.task.LoadKg()+tiny:
		return kg + ": more load keeps you inside " + c.aim()
	}
	switch f.why.load {
	case byFresh, byState:
		return kg + ": a load you can move " + roomful.Figure(float64(f.why.fresh)) + " times fresh"
	case byUnknown:
		return kg + " to start: the proof set decides"
	case byLimit:
		return kg + ", agreed for today"
	case byOwned:
		if w.Load.Value == 0 && w.Movement == t.Movement {
			return kg + ": your own choice"
		}
		if p.stock.Home() {
			return "your " + say.Tool(f.form.movement) + " at home is " + kg
		}
		return kg + " is the nearest load here"
	}
	if w.Load.Value == 0 || t.Movement != w.Movement {
		return kg
	}
	return ""
}

// optionName names a rung in plain words by what it changes.
func (c *class) optionName(r int, tasks []roomful.Task, people []*person) string {
	if r == 0 {
		return "As written"
	}
	var parts []string
	switch lighter := c.mostLighter(people); {
	case c.rungs[r].loads == more:
		parts = append(parts, "heavier")
	case lighter:
		parts = append(parts, "lighter")
	}
	parts = append(parts, c.nameForms(r, tasks, people)...)
	if cut := c.nameCut(r); cut != "" {
		parts = append(parts, cut)
	}
	for li, k := range c.rungs[r].picks {
		if k.lower && k.form == 0 {
			parts = append(parts, roomful.Figure(tasks[li].HeightCm)+" cm "+say.Plural(c.lines[li].movement))
		}
	}
	if len(parts) == 0 {
		parts = []string{"own loads"}
	}
	name := strings.Join(parts, ", ")
	return strings.ToUpper(name[:1]) + name[1:]
}

// mostLighter reports whether most people on an option lift less than written.
func (c *class) mostLighter(people []*person) bool {
	n := 0
	for _, p := range people {
		for li, t := range p.plans[0].tasks {
			if w := p.written[li]; t.Movement == w.Movement && t.LoadKg() < w.LoadKg()-tiny {
				n++
				break
			}
		}
	}
	return 2*n > len(people)
}

// shares are the words for a common share of all amounts.
var shares = map[float64]string{
	0.75: "three quarters of the amounts", care.TwoThirds: "two thirds of the amounts", 0.5: "half the amounts",
	1.25: "a quarter more", 1.5: "half as much again", 2: "twice the amounts",
}

// unloaded are the words for a share of everything that is not lifted.
var unloaded = map[float64]string{care.TwoThirds: "two thirds of the unloaded work", 0.5: "half the unloaded work"}

// nameCut names a share that all amounts have in common.
func (c *class) nameCut(r int) string {
	common := 0.0
	for li, k := range c.rungs[r].picks {
		if !c.cuttable(li) {
			continue
		}
		if common != 0 && k.factor != common {
			return ""
		}
		common = k.factor
	}
	return shares[common]
}

// cuttable reports whether a line states an amount that can be cut.
func (c *class) cuttable(li int) bool {
	l := &c.lines[li]
	return l.element.Movement != roomful.Rest && l.element.Amount.Stated()
}

// nameForms names the lines with another form or, if not all are cut alike, a
// smaller amount.
func (c *class) nameForms(r int, tasks []roomful.Task, people []*person) []string {
	words := c.nameUnloaded(r)
	cut := words == "" && c.nameCut(r) == ""
	var out []string
	for li, k := range c.rungs[r].picks {
		m := c.lines[li].forms[k.form].movement
		name := say.Plural(m)
		if tasks[li].Unit != roomful.Rep && m != nil {
			name = m.Name
		}
		switch {
		case cut && k.factor != 1 && tasks[li].Amount > 0:
			name = c.few(li, tasks[li], people) + " " + name
		case k.form == 0:
			continue
		}
		if !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	if words != "" {
		out = append(out, words)
	}
	return out
}

// few is the amount of a line in figures, if it is one for everybody on the
// option.
func (c *class) few(li int, t roomful.Task, people []*person) string {
	for _, p := range people {
		if q := p.plans[0]; !q.fits[li].oneOff && q.tasks[li].Amount != t.Amount {
			return "fewer"
		}
	}
	return say.Amount(t.Amount, t.Unit)
}

// nameUnloaded names a share that three or more lines without a load have in
// common, which would be long to list.
func (c *class) nameUnloaded(r int) string {
	n, share := 0, 1.0
	for li, k := range c.rungs[r].picks {
		m := c.lines[li].movement
		switch {
		case k.factor == 1:
		case m == nil || m.Modality != roomful.Body:
			return ""
		default:
			n, share = n+1, k.factor
		}
	}
	if n < 3 || c.nameCut(r) != "" {
		return ""
	}
	return unloaded[share]
}
