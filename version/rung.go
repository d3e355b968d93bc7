package version

import (
	"cmp"
	"fmt"
	"maps"
	"slices"

	"roomful"
	"roomful/version/internal/care"
)

// loading says how loads stand to what is written.
type loading uint8

const (
	exact loading = iota // as written
	own                  // at or under it, each person's own
	more                 // over it
)

// rung is a complete piece that could be briefed as an option.
type rung struct {
	picks []pick // one for each line
	loads loading
}

// harder reports whether the rung asks more than is written.
func (r rung) harder() bool {
	return r.loads == more || slices.ContainsFunc(r.picks, func(k pick) bool { return k.factor > 1 })
}

// steps counts the axes and lines a rung changes, to prefer plain ones.
func (r rung) steps() int {
	n := 0
	cut := false
	for _, k := range r.picks {
		if k.form > 0 {
			n++
		}
		if k.lower {
			n++
		}
		cut = cut || k.factor != 1
	}
	if cut {
		n++
	}
	return n
}

// mostRungs bounds how many rungs are screened; those that change least are
// kept.
const mostRungs = 60

// demand is what the class needs beyond the piece as written: somebody misses
// the window on that side.
type demand struct{ slow, fast bool }

// layRungs lists the rungs worth screening beside as written, the first: every
// combination of the forms people need, cuts and lower heights, at own loads.
func (c *class) layRungs(d demand) {
	seen := map[string]bool{}
	var easier []rung
	for _, forms := range c.formPicks() {
		for _, lower := range []bool{false, true} {
			if lower && !d.slow {
				continue
			}
			for _, cut := range c.cuts(d) {
				picks := make([]pick, len(c.lines))
				for i := range c.lines {
					picks[i] = pick{form: forms[i], factor: cut[i], lower: lower && c.hasHeight(i)}
				}
				if key := fmt.Sprint(picks); !seen[key] {
					seen[key] = true
					easier = append(easier, rung{picks: picks, loads: own})
				}
			}
		}
	}
	slices.SortStableFunc(easier, func(a, b rung) int { return cmp.Compare(a.steps(), b.steps()) })
	c.rungs = append(c.rungs, easier[:min(len(easier), mostRungs)]...)
	if d.fast {
		c.rungs = append(c.rungs, c.harderRungs()...)
	}
}

// plainPicks asks every line as written.
func (c *class) plainPicks() []pick {
	out := make([]pick, len(c.lines))
	for i := range out {
		out[i] = plain
	}
	return out
}

// hasHeight reports whether a line is done at a height that could be lower.
func (c *class) hasHeight(i int) bool {
	return len(c.going) > 0 && c.going[0].written[i].HeightCm > 0
}

// gatherForms collects, line by line, the forms that an option could ask for:
// first what people without the skill, the strength or the kit need, the most
// needed first, then what the sheet and the catalogue put next.
func (c *class) gatherForms(slow bool) {
	const most = 3
	for li := range c.lines {
		l := &c.lines[li]
		needed, forms := map[roomful.MovementID]int{}, map[roomful.MovementID]form{}
		for _, p := range c.going {
			f := c.fit(p, li, plain)
			if f.form.movement == nil || f.form.movement == l.movement || f.stuck {
				continue
			}
			if w := f.why.form; w == bySkill || w == byStrength || w == byKit {
				needed[f.form.movement.ID]++
				forms[f.form.movement.ID] = f.form
			}
		}
		ids := slices.Collect(maps.Keys(needed))
		slices.SortFunc(ids, func(a, b roomful.MovementID) int {
			return cmp.Or(cmp.Compare(needed[b], needed[a]), cmp.Compare(a, b))
		})
		for _, id := range ids[:min(len(ids), 2)] {
			l.addForm(forms[id])
		}
		if slow && l.movement != nil && (len(ids) > 0 || l.movement.Skill.Needed || !l.element.Amount.Stated()) {
			c.addNext(l)
		}
		l.forms = l.forms[:min(len(l.forms), most)]
	}
}

// addNext adds what the sheet, or else the catalogue, puts next to a line.
func (c *class) addNext(l *line) {
	if len(l.instead) > 0 {
		l.addForm(l.instead[0])
	} else if len(l.movement.Easier) > 0 {
		if m := c.Lexicon.Movement(l.movement.Easier[0]); m != nil {
			l.addForm(l.swapped(m, easierRatio(l.movement, m.ID), ""))
		}
	}
}

// formPicks lists combinations of the lines' forms: nine that change least, and
// the one that changes every line that can be.
func (c *class) formPicks() [][]int {
	const most = 9
	all := make([]int, len(c.lines))
	for li := range c.lines {
		all[li] = min(1, len(c.lines[li].forms)-1)
	}
	out := [][]int{make([]int, len(c.lines))}
	for li := range c.lines {
		var grown [][]int
		for n := range c.lines[li].forms {
			for _, base := range out {
				next := slices.Clone(base)
				next[li] = n
				grown = append(grown, next)
			}
		}
		slices.SortStableFunc(grown, func(a, b []int) int { return cmp.Compare(sum(a), sum(b)) })
		out = grown[:min(len(grown), most)]
	}
	return append(out, all)
}

func sum(v []int) (n int) {
	for _, x := range v {
		n += x
	}
	return n
}

// cuts lists the shares of the amounts worth trying, line by line: all of it,
// everything cut alike, the body-weight movements alone (50 to 60 % of the
// repetitions of a skill is common practice, no source), or the machines and
// running alone.
func (c *class) cuts(d demand) [][]float64 {
	every := func(li int) bool { return true }
	body := func(li int) bool {
		m := c.lines[li].movement
		return m != nil && m.Modality == roomful.Body
	}
	cyclic := func(li int) bool {
		m := c.lines[li].movement
		return m != nil && (m.Modality == roomful.Machine || m.Modality == roomful.Running)
	}
	out := [][]float64{c.cut(every, 1)}
	if d.slow && c.Piece.Team.Size <= 1 { // partners share the amounts
		out = append(out, c.cut(every, 0.75), c.cut(every, care.TwoThirds), c.cut(every, 0.5),
			c.cut(body, care.TwoThirds), c.cut(body, 0.5), c.cut(cyclic, 0.75), c.cut(cyclic, 0.5))
	}
	return out
}

// cut gives the chosen lines a share of their amounts; rest is never cut.
func (c *class) cut(on func(li int) bool, share float64) []float64 {
	out := make([]float64, len(c.lines))
	for li := range out {
		out[li] = 1
		if l := &c.lines[li]; l.element.Movement != roomful.Rest && l.element.Amount.Stated() && on(li) {
			out[li] = share
		}
	}
	return out
}

// harderRungs are the steps up: heavier, or more where nothing is lifted. At
// home, where loads are missing, more keeps the time (common practice, no
// source). Nobody is asked for more than is written when it was not the sheet
// that set the window.
func (c *class) harderRungs() []rung {
	switch {
	case c.Effort.Proposed:
		return nil
	case c.lifts() && !c.Home:
		return []rung{{picks: c.plainPicks(), loads: more}}
	case c.Piece.Team.Size > 1:
		return nil
	}
	forms := [][]int{make([]int, len(c.lines))}
	if c.Home {
		all := c.formPicks()
		forms = append(forms, all[len(all)-1])
	}
	var out []rung
	for _, form := range forms {
		for _, share := range []float64{1.25, 1.5, 2} {
			picks := c.plainPicks()
			for i, f := range c.cut(func(int) bool { return true }, share) {
				picks[i].form, picks[i].factor = form[i], f
			}
			out = append(out, rung{picks: picks, loads: own})
		}
	}
	return out
}

// lifts reports whether the piece as written has a load to raise.
func (c *class) lifts() bool {
	return slices.ContainsFunc(c.lines, func(l line) bool {
		return l.movement != nil && l.movement.TakesLoad() && l.movement.Bound != nil
	})
}
