package catalogue

import (
	"fmt"
	"slices"

	"roomful"
)

// easierForms holds that an easier form shares a pattern, or else that a swap
// says in words what changes.
func easierForms(c *Catalogue, m *roomful.Movement) string {
	for i, id := range m.Easier {
		e := c.byID[id]
		switch {
		case e == nil:
			return fmt.Sprintf("easier form %q does not exist", id)
		case slices.Contains(m.Easier[:i], id):
			return fmt.Sprintf("easier form %q comes twice", id)
		case !slices.ContainsFunc(e.Patterns, m.Is) && !slices.ContainsFunc(m.Swaps, func(s roomful.Swap) bool { return s.To == id }):
			return fmt.Sprintf("easier form %q shares no pattern, and no swap says what changes", id)
		}
	}
	return ""
}

func swapTargets(c *Catalogue, m *roomful.Movement) string {
	for i, s := range m.Swaps {
		to := c.byID[s.To]
		switch {
		case to == nil:
			return fmt.Sprintf("swap %q does not exist", s.To)
		case to == m, slices.ContainsFunc(m.Swaps[:i], func(t roomful.Swap) bool { return t.To == s.To }):
			return fmt.Sprintf("swap %q comes twice or is the movement itself", s.To)
		case len(s.For) == 0:
			return fmt.Sprintf("swap %q gives no reason", s.To)
		case s.Ratio < 0 || s.Ratio > 10:
			return fmt.Sprintf("swap %q has a ratio out of any reasonable range", s.To)
		case keepsPattern(m, to) && s.Neighbour != "":
			return fmt.Sprintf("swap %q keeps the pattern and needs no neighbour", s.To)
		case !keepsPattern(m, to) && s.Neighbour == "":
			return fmt.Sprintf("swap %q changes the leading pattern: say in words to what, as neighbour", s.To)
		}
	}
	return ""
}

func keepsPattern(m, to *roomful.Movement) bool {
	return len(m.Patterns) > 0 && len(to.Patterns) > 0 && m.Patterns[0] == to.Patterns[0]
}

// swapReasons holds that a swap answers the need it is given for, and that the
// need is one that the movement raises.
func swapReasons(c *Catalogue, m *roomful.Movement) string {
	for _, s := range m.Swaps {
		to := c.byID[s.To]
		if what := unknown("reason", s.For, roomful.Reasons); what != "" {
			return what
		}
		if to.Skill.Needed && !m.Skill.Needed {
			return fmt.Sprintf("swap %q has to be learnt, and this has not", s.To)
		}
		for _, r := range s.For {
			switch {
			case !Raises(m, r):
				return fmt.Sprintf("swap %q is for %s, but nothing here raises that need", s.To, r)
			case Raises(to, r) && !mayStillRaise(r, m, to):
				return fmt.Sprintf("swap %q is for %s, but raises that need itself", s.To, r)
			case r == roomful.ForNoKit && takesAll(to, m):
				return fmt.Sprintf("swap %q is for %s, but takes all the kit that this does", s.To, r)
			case bodily(r) && addsTo(to, m):
				return fmt.Sprintf("swap %q is for %s, but adds a landing, a fall or being upside down", s.To, r)
			}
		}
	}
	return ""
}

// mayStillRaise reports whether a swap may raise the need it is for: other kit
// may stand in for missing kit, and a lower ceiling for a high one, as long as
// a later swap settles it.
func mayStillRaise(r roomful.Reason, m, to *roomful.Movement) bool {
	switch r {
	case roomful.ForNoKit, roomful.ForNoMachine:
		return true
	case roomful.ForCeiling:
		return to.Space.CeilingM < m.Space.CeilingM
	}
	return false
}

// kitOf lists what a movement takes beyond a floor.
func kitOf(m *roomful.Movement) []string {
	kit := m.Needs
	if m.Implement != roomful.NoImplement {
		kit = append(slices.Clone(kit), string(m.Implement))
	}
	return kit
}

// takesAll reports whether a movement takes every piece of kit another does.
func takesAll(to, m *roomful.Movement) bool {
	has := kitOf(to)
	return !slices.ContainsFunc(kitOf(m), func(k string) bool { return !slices.Contains(has, k) })
}

// bodily reports whether a reason is about a body that has to be spared.
func bodily(r roomful.Reason) bool { return stressOf[r] != nil }

// addsTo reports whether a movement can hurt in a way that another cannot.
func addsTo(to, m *roomful.Movement) bool {
	for _, s := range []roomful.Stress{roomful.StressImpact, roomful.StressFall, roomful.StressInversion} {
		if to.Loads(s) && !m.Loads(s) {
			return true
		}
	}
	return false
}

// swapCover holds that each need a movement raises has a swap, and that the last
// one settles it.
func swapCover(c *Catalogue, m *roomful.Movement) string {
	for _, r := range roomful.Reasons {
		if !Raises(m, r) {
			continue
		}
		swaps := m.SwapsFor(r)
		switch {
		case len(swaps) == 0:
			return fmt.Sprintf("it needs a swap for %s", r)
		case Raises(c.byID[swaps[len(swaps)-1].To], r):
			return fmt.Sprintf("the last swap for %s raises that need again", r)
		}
	}
	return ""
}

// next gives where a walk goes on from a movement.
type next func(*roomful.Movement) []roomful.MovementID

func easier(m *roomful.Movement) []roomful.MovementID { return m.Easier }

// swapsFor follows the swaps for a reason. From machine to machine it does not
// go: they stand in for one another both ways.
func swapsFor(r roomful.Reason) next {
	return func(m *roomful.Movement) []roomful.MovementID {
		var ids []roomful.MovementID
		for _, s := range m.SwapsFor(r) {
			if !(m.Modality == roomful.Machine && machines[s.To]) {
				ids = append(ids, s.To)
			}
		}
		return ids
	}
}

var machines = map[roomful.MovementID]bool{"row": true, "ski": true, "bike": true, "fan-bike": true}

// loop returns a movement that a walk comes back to, or nil.
func (c *Catalogue) loop(step next) *roomful.Movement {
	const open, done = 1, 2
	state := map[*roomful.Movement]int{}
	var walk func(*roomful.Movement) *roomful.Movement
	walk = func(m *roomful.Movement) *roomful.Movement {
		switch state[m] {
		case open:
			return m
		case done:
			return nil
		}
		state[m] = open
		for _, id := range step(m) {
			if found := walk(c.byID[id]); found != nil {
				return found
			}
		}
		state[m] = done
		return nil
	}
	for _, m := range c.all {
		if found := walk(m); found != nil {
			return found
		}
	}
	return nil
}
