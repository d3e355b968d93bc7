package room

import (
	"fmt"
	"slices"
	"strings"

	"roomful"
)

// words is what one person is told. Those with the same swap are told together.
type words struct {
	swap  string // "bike instead of the row"; empty when it is more than that
	share string // of it: "12 cal"
	whole string // "12 cal bike instead of the row"
}

// told is what people are told, and who is told the same.
type told struct {
	groups []group // in the order in which they were first added
}

// group is people who are told the same but for their share.
type group struct {
	swap   string
	shares []shared
}

// shared is people who are told the very same.
type shared struct {
	words
	names []string
}

// add has somebody told something.
func (t *told) add(name string, w words) {
	key := w.swap
	if key == "" {
		key = w.whole
	}
	g := slices.IndexFunc(t.groups, func(g group) bool { return g.swap == key })
	if g < 0 {
		g, t.groups = len(t.groups), append(t.groups, group{swap: key})
	}
	shares := &t.groups[g].shares
	s := slices.IndexFunc(*shares, func(s shared) bool { return s.words == w })
	if s < 0 {
		s, *shares = len(*shares), append(*shares, shared{words: w})
	}
	(*shares)[s].names = append((*shares)[s].names, name)
}

// sentences returns a sentence for all who are told the same, or the same but for
// their share: "Bike instead of the row: Ann 12 cal; Ben and Cai 9 cal."
func (t *told) sentences() []string {
	var out []string
	for _, g := range t.groups {
		if len(g.shares) == 1 {
			out = append(out, list(g.shares[0].names)+": "+g.shares[0].whole+".")
			continue
		}
		var each []string
		for _, s := range g.shares {
			each = append(each, strings.TrimSpace(list(s.names)+" "+s.share))
		}
		out = append(out, strings.ToUpper(g.swap[:1])+g.swap[1:]+": "+strings.Join(each, "; ")+".")
	}
	return out
}

// swap is what somebody is told who does a task in the place of a movement.
func (h *house) swap(t roomful.Task, was roomful.MovementID) words {
	of := " instead of the " + h.named(was)
	share := measure(t)
	if load := held(t); load != "" {
		share = strings.TrimSpace(share + " at " + load)
	}
	return words{swap: h.named(t.Movement) + of, share: share, whole: h.amount(t) + of}
}

// amount writes a task: "1200 m bike", "5 goblet squats at 12 kg".
func (h *house) amount(t roomful.Task) string {
	name := h.named(t.Movement)
	if m := h.Lexicon.Movement(t.Movement); m != nil && t.Unit == roomful.Rep && t.Amount != 1 && m.Plural != "" {
		name = m.Plural
	}
	if load := held(t); load != "" {
		name += " at " + load
	}
	return strings.TrimSpace(measure(t) + " " + name)
}

// measure writes how much of a task: "1200 m", "5"; nothing when it is as many as
// possible, or as the ladder says.
func measure(t roomful.Task) string {
	switch {
	case t.Amount == 0:
		return ""
	case t.Unit == roomful.Rep:
		return roomful.Figure(t.Amount)
	}
	return roomful.Figure(t.Amount) + " " + t.Unit.String()
}

// held writes what is held or lifted: "2 x 12.5 kg", nothing for nothing.
func held(t roomful.Task) string {
	switch {
	case t.Load.Value <= 0:
		return ""
	case t.Implements > 1:
		return fmt.Sprintf("%d x %s", t.Implements, t.Load)
	}
	return t.Load.String()
}
