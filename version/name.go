package version

import (
	"slices"
	"strings"

	"roomful"
	"roomful/version/internal/care"
	"roomful/version/internal/say"
)

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
