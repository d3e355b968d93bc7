package room

import (
	"cmp"
	"slices"

	"roomful"
	"roomful/room/internal/deal"
)

// Handing asks who gets which weight of a piece, when some are wanted by more
// people than there are.
type Handing struct {
	Kit      *roomful.Kit
	Versions []roomful.Version
	Short    []string // what people wait for, as a kit counts it: "dumbbell 15 kg"
	Ask      bool     // somebody may be asked to take less than would do
	Lexicon  roomful.Lexicon
}

// Hands is who takes what instead of their first choice.
type Hands struct {
	Given  []Given
	InTurn []int // versions, by place, that keep what they wanted and share it
	Loss   int   // in all
	Bound  int   // no other way loses less; equal to Loss when proven
}

// Given is another weight than the first choice.
type Given struct {
	Version, Choice int // by place
	From, To        roomful.Mass
	Asked           bool // lighter than what would do: only if the person agrees
}

// What giving way loses (judgement): the square of the steps within what would do,
// so that two move one step before one moves two; below that more than any way
// within; and most of all to wait for a turn.
const (
	askedLoss  = 25
	inTurnLoss = 60
)

// HandOut chooses jointly: everybody in the piece holds what they have throughout,
// nobody is heavier than their version allows, and nobody more than one weight
// below what would do. The first choice is kept by all whom it costs nothing.
func HandOut(q Handing) Hands {
	h := hander{Handing: q, things: map[string]int{}}
	people := make([][]deal.Option, len(q.Versions))
	given := make([][][]Given, len(q.Versions))
	for i := range q.Versions {
		people[i], given[i] = h.options(i)
	}
	got := deal.Out(h.have, people)
	out := Hands{Loss: got.Loss, Bound: got.Bound}
	for i, j := range got.Chosen {
		out.Given = append(out.Given, given[i][j]...)
		if people[i][j].Loss == inTurnLoss && len(people[i][j].Takes) == 0 {
			out.InTurn = append(out.InTurn, i)
		}
	}
	return out
}

// hander is the work in hand: the things that are dealt out, and their numbers.
type hander struct {
	Handing
	things map[string]int
	have   []int
}

// options lists what a person may hold, each with what they give way in. Who holds
// nothing of a kind that is short has one option that takes nothing.
func (h *hander) options(i int) (out []deal.Option, given [][]Given) {
	v := h.Versions[i]
	sets := []hold{{}}
	for k, c := range v.Choices {
		if v.Stop != "" || !h.short(c) {
			continue
		}
		var grown []hold
		for _, set := range sets {
			for _, w := range h.weights(c, v.Dose.Whole()) {
				grown = append(grown, set.with(h, c, Given{i, k, c.Load, w.mass, w.asked}, w.loss))
			}
		}
		sets = grown
	}
	for _, set := range sets {
		out, given = append(out, deal.Option{Takes: set.takes, Loss: set.loss}), append(given, set.given)
	}
	if len(sets[0].takes) > 0 {
		out, given = append(out, deal.Option{Loss: inTurnLoss}), append(given, nil)
	}
	return out, given
}

// short reports whether a choice is a weight of a kind that is short.
func (h *hander) short(c roomful.Choice) bool {
	m := h.Lexicon.Movement(c.Movement)
	return m != nil && c.Load.Value > 0 && slices.ContainsFunc(h.Short, func(word string) bool {
		return slices.ContainsFunc(stockOf(h.Kit, m.Implement), func(s roomful.Stock) bool { return word == string(m.Implement)+" "+s.Mass.String() })
	})
}

// stockOf is the shelf of an implement that comes in weights.
func stockOf(k *roomful.Kit, im roomful.Implement) []roomful.Stock {
	switch im {
	case roomful.Dumbbell:
		return k.Dumbbells
	case roomful.Kettlebell:
		return k.Kettlebells
	case roomful.Ball:
		return k.Balls
	}
	return nil
}

// weight is one that somebody may take, and what they lose by it.
type weight struct {
	mass  roomful.Mass
	loss  int
	asked bool
}

// weights lists what would do for a choice, the first choice first, and the next
// one below.
func (h *hander) weights(c roomful.Choice, free bool) []weight {
	all := h.Kit.Loads(h.Lexicon.Movement(c.Movement).Implement)
	own := slices.IndexFunc(all, func(m roomful.Mass) bool { return m == c.Load })
	out := []weight{{mass: c.Load}}
	if own < 0 || !free || c.Low.Value == 0 || c.RPE > 0 {
		return out
	}
	below := false
	for i := own - 1; i >= 0 && !below; i-- {
		if below = all[i].Kg() < c.Low.Kg()-tinyKg; below && !h.Ask {
			break
		}
		w := weight{all[i], (own - i) * (own - i), below}
		if below {
			w.loss += askedLoss
		}
		out = append(out, w)
	}
	for i := own + 1; i < len(all) && all[i].Kg() <= c.High.Kg()+tinyKg; i++ {
		out = append(out, weight{all[i], (i - own) * (i - own), false})
	}
	slices.SortStableFunc(out, func(a, b weight) int { return cmp.Compare(a.loss, b.loss) })
	return out
}

// tinyKg absorbs rounding.
const tinyKg = 1e-6

// hold is what somebody holds of all their elements.
type hold struct {
	takes []deal.Take
	given []Given
	loss  int
}

// with returns what is held with one element more: of one weight for two elements
// the greater number.
func (s hold) with(h *hander, c roomful.Choice, g Given, loss int) hold {
	out := hold{slices.Clone(s.takes), slices.Clone(s.given), s.loss + loss}
	if g.From != g.To {
		out.given = append(out.given, g)
	}
	word := string(h.Lexicon.Movement(c.Movement).Implement) + " " + g.To.String()
	thing, ok := h.things[word]
	if !ok {
		thing = len(h.have)
		h.things[word], h.have = thing, append(h.have, h.Kit.Count(word))
	}
	count := max(c.Implements, 1)
	if at := slices.IndexFunc(out.takes, func(t deal.Take) bool { return t.Thing == thing }); at >= 0 {
		out.takes[at].Count = max(out.takes[at].Count, count)
		return out
	}
	out.takes = append(out.takes, deal.Take{Thing: thing, Count: count})
	return out
}
