package day

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"roomful"
)

// MostLoad bounds a load that somebody types, in kg per implement: more is a slip.
const MostLoad = 500

// Reload puts another load on a movement of what somebody does, on every line of it. The
// load has to be one that the kit has; nil means that nothing is short.
func (d *Day) Reload(w roomful.Work, id roomful.MovementID, load roomful.Mass, kit *roomful.Kit) (roomful.Work, error) {
	m := d.Lexicon.Movement(id)
	var lifted []string
	found := false
	for i, t := range w.All() {
		of := d.Lexicon.Movement(t.Movement)
		if of == nil || !of.TakesLoad() {
			continue
		}
		lifted = append(lifted, of.Name)
		if t.Movement == id {
			t.Load, t.RPE, t.Percent, t.Fresh = load, 0, 0, 0
			w, found = w.With(i, t), true
		}
	}
	switch {
	case !found && len(lifted) == 0:
		return w, &roomful.Error{Summary: "setting a load: nothing in it has one", Hint: "choose another option"}
	case !found:
		return w, &roomful.Error{Summary: "setting a load: it has no " + d.nameOf(id) + " with one", Hint: "what has a load is " + strings.Join(lifted, ", ")}
	case !(load.Value > 0) || load.Kg() > MostLoad:
		return w, &roomful.Error{Summary: "setting a load: that is none that is lifted", Hint: "send kilograms or pounds, per implement"}
	}
	return w, owned(kit, m, load)
}

// owned refuses a load that a kit does not have, and names the nearest.
func owned(kit *roomful.Kit, m *roomful.Movement, load roomful.Mass) error {
	if kit == nil {
		return nil
	}
	have := kit.Loads(m.Implement)
	if len(have) == 0 {
		return nil // what the kit does not list is not loaded from it
	}
	off := func(a roomful.Mass) float64 { return math.Abs(a.Kg() - load.Kg()) }
	nearest := slices.MinFunc(have, func(a, b roomful.Mass) int {
		switch x, y := off(a), off(b); {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	if off(nearest) < 0.01 {
		return nil
	}
	return &roomful.Error{Summary: fmt.Sprintf("setting a load: no %s here is %s", m.Implement, load), Hint: fmt.Sprintf("the nearest is %s", nearest)}
}
