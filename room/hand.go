package room

import (
	"cmp"
	"math"
	"slices"

	"roomful"
	"roomful/room/internal/deal"
)

// Handing asks who gets what of a piece, when things are wanted by more people than
// there are.
type Handing struct {
	Kit      *roomful.Kit
	Versions []roomful.Version
	Scarce   []Scarce
	Ask      bool // somebody may be asked to take what they would not choose
	Lexicon  roomful.Lexicon
}

// Scarce is a thing that people wait for, and how many of them may count on it: as
// many as there are of what is held throughout, more of what is taken in turn.
type Scarce struct {
	Word string // as a kit counts it: "dumbbell 15 kg", "row"
	For  int
}

// Hands is who takes what instead of their first choice.
type Hands struct {
	Given    []Given
	Switched []Switched
	InTurn   []int // versions, by place, that keep what they wanted and share it
	Loss     int   // in all
	Bound    int   // no other way loses less; equal to Loss when proven
}

// Given is another weight than the first choice.
type Given struct {
	Version, Choice int // by place
	From, To        roomful.Mass
	Asked           bool // lighter than what would do: only if the person agrees
}

// Switched is another version than the first.
type Switched struct {
	Version, Candidate int  // by place, in the shortlist
	Asked              bool // it suits the person less: only if they agree
}

// What giving way loses (judgement): the square of the steps within what would do,
// so that two move one step before one moves two; for another version of the
// shortlist what it changes, a small change as much as a step; what suits somebody
// less more than any way that does as well, the more the less it suits; and most of
// all to wait for a turn.
const (
	askedLoss  = 25
	dropLoss   = 100 // for all of the probability to meet the effort
	inTurnLoss = 60
)

// doesAsWell is how much less probable to meet the effort a version may be that does
// as well: no forecast is surer than that.
const doesAsWell = 0.05

// HandOut chooses jointly: everybody in the piece holds what they have throughout,
// nobody is heavier than their version allows, and nobody more than one weight
// below what would do. The first choice is kept by all whom it costs nothing.
func HandOut(q Handing) Hands {
	h := hander{Handing: q, things: map[string]int{}}
	people := make([][]deal.Option, len(q.Versions))
	ways := make([][]Hands, len(q.Versions))
	for i := range q.Versions {
		people[i], ways[i] = h.options(i)
	}
	got := deal.Out(h.counts(people), people)
	out := Hands{Loss: got.Loss, Bound: got.Bound}
	for i, j := range got.Chosen {
		out.Given = append(out.Given, ways[i][j].Given...)
		out.Switched = append(out.Switched, ways[i][j].Switched...)
		out.InTurn = append(out.InTurn, ways[i][j].InTurn...)
	}
	return out
}

// hander is the work in hand: the things that are dealt out, by number.
type hander struct {
	Handing
	things map[string]int
	have   []int
	tight  []bool // too few of it, or of another weight on its shelf
}

// options lists what a person may hold, each with how they give way in it, their
// first choice first. Who holds nothing that is tight has no other.
func (h *hander) options(i int) (out []deal.Option, ways []Hands) {
	v := h.Versions[i]
	if v.Stop != "" {
		return []deal.Option{{}}, []Hands{{}}
	}
	sets := []hold{{}}
	for k, c := range v.Choices {
		var grown []hold
		for _, set := range sets {
			for _, w := range h.weights(c, v.Dose.Whole() && !v.ByHand) {
				grown = append(grown, set.with(c.Task, Given{i, k, c.Load, w.mass, w.asked}, w.loss))
			}
		}
		sets = grown
	}
	add := func(o deal.Option, way Hands) { out, ways = append(out, o), append(ways, way) }
	for _, set := range sets {
		add(deal.Option{Takes: h.takes(set.tasks), Loss: set.loss}, Hands{Given: set.given})
	}
	own := out[0].Takes
	loose := slices.DeleteFunc(slices.Clone(own), func(t deal.Take) bool { return h.tight[t.Thing] })
	if len(loose) == len(own) {
		return out, ways
	}
	for n, c := range v.Shortlist {
		if v.Forecast.OnIntent == nil {
			break // with no effort to keep nothing says that another does as well
		}
		loss, asked := loses(v, c)
		takes := h.takes(c.Work.All())
		if asked && !h.Ask || heavier(v, c) || !h.relieves(takes, own) {
			continue
		}
		add(deal.Option{Takes: takes, Loss: loss}, Hands{Switched: []Switched{{i, n, asked}}})
	}
	add(deal.Option{Takes: loose, Loss: inTurnLoss}, Hands{InTurn: []int{i}})
	return out, ways
}

// counts is how many there are of each thing: of what nobody waits for as many as
// are held at first, if there are no more.
func (h *hander) counts(people [][]deal.Option) []int {
	held := make([]int, len(h.have))
	for _, options := range people {
		for _, t := range options[0].Takes {
			held[t.Thing] += t.Count
		}
	}
	have := slices.Clone(h.have)
	for t := range have {
		if !h.tight[t] {
			have[t] = max(have[t], held[t])
		}
	}
	return have
}

// loses is what somebody loses by another version of their shortlist, and whether
// they have to be asked.
func loses(v roomful.Version, c roomful.Candidate) (loss int, asked bool) {
	loss = 1 + int(math.Ceil(2*max(0, c.Change)))
	if asked = c.Drop > doesAsWell || c.OneOff && !v.OneOff; asked {
		loss += askedLoss + int(math.Ceil(dropLoss*max(0, c.Drop)))
	}
	return loss, asked
}

// heavier reports whether a candidate has more on a movement of the version than
// would do.
func heavier(v roomful.Version, c roomful.Candidate) bool {
	return slices.ContainsFunc(v.Choices, func(own roomful.Choice) bool {
		return slices.ContainsFunc(c.Choices, func(t roomful.Choice) bool {
			return t.Movement == own.Movement && t.Load.Kg() > max(own.High.Kg(), own.Load.Kg())+tinyKg
		})
	})
}

// relieves reports whether something tight is left to others of what was held.
func (h *hander) relieves(takes, own []deal.Take) bool {
	return slices.ContainsFunc(own, func(o deal.Take) bool {
		return h.tight[o.Thing] && !slices.ContainsFunc(takes, func(t deal.Take) bool { return t.Thing == o.Thing && t.Count >= o.Count })
	})
}

// takes is what is dealt out of what somebody holds who does some tasks.
func (h *hander) takes(tasks []roomful.Task) (out []deal.Take) {
	for _, p := range h.Kit.Held(tasks, h.Lexicon) {
		out = append(out, deal.Take{Thing: h.thing(p.Word), Count: p.Count})
	}
	return out
}

// thing numbers a thing by its word.
func (h *hander) thing(word string) int {
	n, known := h.things[word]
	if known {
		return n
	}
	n = len(h.have)
	have, tight, im := h.Kit.Count(word), false, roomful.WeightOf(word)
	for _, s := range h.Scarce {
		if s.Word == word {
			have, tight = s.For, true
		}
		tight = tight || im != roomful.NoImplement && roomful.WeightOf(s.Word) == im
	}
	h.things[word], h.have, h.tight = n, append(h.have, have), append(h.tight, tight)
	return n
}

// weight is one that somebody may take, and what they lose by it.
type weight struct {
	mass  roomful.Mass
	loss  int
	asked bool
}

// weights lists what would do for a choice, the first choice first, and the next
// one below; the first alone where its kind is not tight.
func (h *hander) weights(c roomful.Choice, free bool) []weight {
	out := []weight{{mass: c.Load}}
	m := h.Lexicon.Movement(c.Movement)
	if m == nil || !free || c.Low.Value == 0 || c.RPE > 0 || !h.tight[h.thing(string(m.Implement)+" "+c.Load.String())] {
		return out
	}
	all := h.Kit.Loads(m.Implement)
	own := slices.IndexFunc(all, func(m roomful.Mass) bool { return m == c.Load })
	if own < 0 {
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

// hold is somebody's elements, some with another weight than the first.
type hold struct {
	tasks []roomful.Task
	given []Given
	loss  int
}

// with returns a hold with one task more, with the weight that is given for it.
func (s hold) with(t roomful.Task, g Given, loss int) hold {
	out := hold{slices.Clone(s.tasks), slices.Clone(s.given), s.loss + loss}
	if g.From != g.To {
		out.given, t.Load = append(out.given, g), g.To
	}
	out.tasks = append(out.tasks, t)
	return out
}
