package version

import (
	"strings"

	"roomful"
	"roomful/version/internal/piece"
	"roomful/version/internal/say"
)

// heldIn are the beginnings of names that say what a movement is held with; without
// any it is a bar's.
var heldIn = []string{"dumbbell-", "kettlebell-", ""}

// siblings are the same movement with something else in the hands, for whoever has
// not got what is asked for but owns another bell or a bar: before a backpack.
func (f *fitter) siblings(m *roomful.Movement) []piece.Form {
	if !m.TakesLoad() {
		return nil
	}
	stem := string(m.ID)
	for _, held := range heldIn {
		if rest, ok := strings.CutPrefix(stem, held); ok {
			stem = rest
			break
		}
	}
	var out []piece.Form
	for _, held := range heldIn {
		e := f.Lexicon.Movement(roomful.MovementID(held + stem))
		if e == nil || e == m || !say.Keeps(m, e) || !e.TakesLoad() || e.Skill.Needed && !m.Skill.Needed {
			continue
		}
		form := f.line.Swapped(e, 0, "")
		form.Element.Implements = 0 // as many as that movement has
		out = append(out, form)
	}
	return out
}
