package day

import (
	"slices"
	"strings"

	"roomful"
)

// Believed is what a day's question rests on. A maximum of which only scores speak is
// believed, but not known: nobody is handed a bar by it, so that the proof set decides
// as it does for whoever told nothing. How heavy somebody goes who noted what they
// lifted is for [Day.OwnLoad] to say.
func (l Learnt) Believed() map[string]*roomful.Abilities {
	out := map[string]*roomful.Abilities{}
	for id, a := range l.Abilities {
		told, copied := l.told[id], *a
		copied.Dims = slices.Clone(a.Dims)
		for i := range copied.Dims {
			d := &copied.Dims[i]
			if at := told.Index(d.Capacity); strings.HasPrefix(string(d.Capacity), "1rm ") && (at < 0 || len(told.Dims[at].Informed) == 0) {
				d.Informed = nil
			}
		}
		out[id] = &copied
	}
	return out
}
