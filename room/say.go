package room

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"roomful"
)

// say writes the words for the room: what is otherwise than with nothing changed.
func (h *house) say(p Piece, o outcome) string {
	var words []string
	switch asked := h.asked(p); {
	case len(o.moved) > 0:
		words = h.sayMoved(p, o.moved)
	case o.heats > asked.heats:
		for n, g := range o.heat {
			words = append(words, fmt.Sprintf("Heat %d: %s.", n+1, p.block(p.names(g.people))))
		}
		words = append(words, "Who is not on counts for a partner.")
	case o.waves > 1 && o.turns > 1:
		words = h.sayTurns(p, o)
		var later []string
		for _, w := range o.wave {
			if w.After > 0 {
				later = append(later, w.People...)
			}
		}
		words = append(words, p.block(p.names(later))+": "+startWords(o.gap)+".")
	case o.turns > 1:
		words = h.sayTurns(p, o)
	case o.back:
		words = append(words, list(o.touched)+": start at the last thing on the list, the "+h.named(p.Round[len(p.Round)-1].Movement)+", and work towards the first.")
	case o.waves > 1:
		for _, w := range o.wave {
			who := p.block(p.names(w.People))
			if w.Heat > 0 {
				who = fmt.Sprintf("Heat %d, %s", w.Heat, who)
			}
			words = append(words, who+": "+startWords(w.After)+".")
		}
	}
	return joined(words)
}

// startWords says when a wave starts.
func startWords(after time.Duration) string {
	if after == 0 {
		return "start on three"
	}
	return "start " + clock(after) + " later, and end as much later"
}

// joined writes sentences one after the other.
func joined(sentences []string) string { return strings.Join(sentences, " ") }

// sayMoved says what those do who leave a place to others.
func (h *house) sayMoved(p Piece, moved []move) []string {
	var said told
	for _, m := range moved {
		e := p.Entrants[m.who]
		said.add(e.Name, h.swap(m.choice.Task, e.Work.All()[m.task].Movement))
	}
	return said.sentences()
}

// sayTurns says who starts where.
func (h *house) sayTurns(p Piece, o outcome) []string {
	crews := crewsOf(p.Entrants, p.Team.Size)
	groups := make([][]string, o.turns)
	for i, e := range inOrder(p.Entrants, o.order, max(1, p.Team.Size)) {
		n := o.spot(i/max(1, p.Team.Size), crews).turn
		groups[n] = append(groups[n], e.Name)
	}
	var words []string
	for n, g := range groups {
		first := p.Round[n*len(p.Round)/o.turns].Movement
		words = append(words, fmt.Sprintf("%s: start at the %s and go round from there.", p.block(g), h.named(first)))
	}
	return words
}

// names returns the names to ids, in the order of the ids.
func (p Piece) names(ids []string) []string {
	of := make(map[string]string, len(p.Entrants))
	for _, e := range p.Entrants {
		of[e.ID] = e.Name
	}
	var out []string
	for _, id := range ids {
		out = append(out, of[id])
	}
	return out
}

// mostNames is how many names in a row people still hear their own in.
const mostNames = 8

// block writes names: from whom to whom when they are many and stand together on
// the list, else every one of them.
func (p Piece) block(names []string) string {
	if len(names) <= mostNames {
		return list(names)
	}
	at := slices.IndexFunc(p.Entrants, func(e roomful.Entrant) bool { return e.Name == names[0] })
	for i, name := range names {
		if at < 0 || at+i >= len(p.Entrants) || p.Entrants[at+i].Name != name {
			return list(names)
		}
	}
	return fmt.Sprintf("%s to %s on the list, %d of you", names[0], names[len(names)-1], len(names))
}

// list writes names with an and before the last.
func list(names []string) string {
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " and " + names[len(names)-1]
}
