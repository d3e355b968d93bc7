package room

import (
	"cmp"
	"fmt"
	"math/big"
	"slices"

	"roomful"
	"roomful/room/internal/bars"
)

// UsualSteps is how long Plates searches so many bars when nobody says otherwise. It is
// counted and not timed, so that everybody gets the same answer; it is a second or two of
// work, of which most questions need a hundredth. A step of a large room takes longer.
func UsualSteps(bars int) int {
	if bars > 30 {
		return 12_000_000
	}
	return 20_000_000
}

// MostBars is how many bars a question may ask for: more than a class ever lifts, and as
// many as are answered in a second or two.
const MostBars = 200

// The largest question that is answered, its bars apart.
const (
	mostKinds = 32
	mostDiscs = 10_000
)

// Plates loads the wanted bars from the discs there are. It comes as near to
// the targets as can be, each deviation counted by its weight, never above a
// ceiling, and says how near that is to the best possible. When bars are short it
// lets similar people share one. It refuses a question that cannot be meant with
// a [roomful.Error].
func Plates(q roomful.BarQuestion, steps int) (roomful.BarAnswer, error) {
	if err := check(&q); err != nil {
		return roomful.BarAnswer{}, err
	}
	lifted, lacks, err := rack(&q)
	if err != nil {
		return roomful.BarAnswer{}, err
	}
	r, err := newRuler(&q)
	if err != nil {
		return roomful.BarAnswer{}, err
	}
	t := &table{q: &q, ruler: r, lifted: lifted, lacks: lacks}
	t.discs = kinds(q.Plates)
	if err := t.pose(); err != nil {
		return roomful.BarAnswer{}, err
	}
	t.steps = steps
	t.answer = bars.Solve(t.problem, steps)
	out := t.loaded()
	out.Short = append(lacks, t.short(&out)...)
	return out, nil
}

// table is a question on its way to an answer.
type table struct {
	q       *roomful.BarQuestion
	ruler   ruler
	lifted  [][]int         // the wanted bars that go on each bar of the problem
	lacks   []roomful.Lack  // of bars
	discs   []roomful.Stock // kinds of disc, largest first
	steps   int             // how long each search may be
	problem bars.Problem
	answer  bars.Answer
	weights []int64 // of the wanted bars, as the problem has them
	unit    *big.Rat
	rounded bool // weights had to be rounded
}

// check says what cannot be meant.
func check(q *roomful.BarQuestion) error {
	switch {
	case len(q.Wanted) == 0:
		return &roomful.Error{Summary: "no bar is asked for", Hint: "say who lifts what"}
	case len(q.Wanted) > MostBars:
		return &roomful.Error{Summary: fmt.Sprintf("%d bars are asked for, more than %d", len(q.Wanted), MostBars), Hint: "ask about one heat at a time"}
	case q.SleevePlates < 0 || !(q.Collars.Value >= 0 && q.Collars.Kg() <= 20) || !(q.MostUnder.Value >= 0 && q.MostUnder.Kg() <= 1000):
		return &roomful.Error{Summary: "the discs of a sleeve, the collars or the most a bar may be under cannot be right", Hint: "none of them is below zero"}
	}
	if err := cmp.Or(checkStock("discs", q.Plates), checkStock("bars", q.Rack)); err != nil {
		return err
	}
	type whose struct{ athlete, name string }
	seen := map[whose]bool{}
	for i := range q.Wanted {
		w := &q.Wanted[i]
		if err := w.Check(); err != nil {
			return err
		}
		lifter := whose{athlete: w.Athlete}
		if w.Athlete == "" {
			lifter.name = w.Name
		}
		if seen[lifter] {
			return &roomful.Error{Summary: fmt.Sprintf("two bars are called %q", w.Name), Hint: "give each bar its own name"}
		}
		seen[lifter] = true
	}
	if n := len(kinds(q.Plates)); n > mostKinds {
		return &roomful.Error{Summary: fmt.Sprintf("there are %d kinds of disc, more than %d", n, mostKinds), Hint: "leave out those that nobody uses"}
	}
	return nil
}

// checkStock says which count or mass cannot be right.
func checkStock(what string, stock []roomful.Stock) error {
	for _, p := range stock {
		if !(p.Mass.Value > 0 && p.Mass.Kg() <= 1000) || p.Count < 0 || p.Count > mostDiscs {
			return &roomful.Error{Summary: fmt.Sprintf("%d %s of %s cannot be right", p.Count, what, p.Mass), Hint: "count single pieces, and give their mass in kg or lb"}
		}
	}
	return nil
}

// kinds joins discs of one mass and sorts them, largest first.
func kinds(plates []roomful.Stock) []roomful.Stock {
	var out []roomful.Stock
	for _, p := range plates {
		if at := slices.IndexFunc(out, func(o roomful.Stock) bool { return exact(o.Mass).Cmp(exact(p.Mass)) == 0 }); at >= 0 {
			out[at].Count += p.Count
			continue
		}
		out = append(out, p)
	}
	slices.SortStableFunc(out, func(a, b roomful.Stock) int { return exact(b.Mass).Cmp(exact(a.Mass)) })
	return out
}

// roomySleeve is how many discs are imagined on a sleeve that nothing limits,
// when it is told what more discs would do.
const roomySleeve = 12

// pose turns the question into whole numbers.
func (t *table) pose() error {
	t.problem = bars.Problem{Sleeve: t.q.SleevePlates}
	pairs := 0
	for _, d := range t.discs {
		t.problem.Sizes = append(t.problem.Sizes, bars.Size{Mass: t.ruler.grains(d.Mass), Pairs: d.Count / 2})
		pairs += d.Count / 2
	}
	if t.q.SleevePlates == 0 {
		t.problem.Sleeve = max(pairs, roomySleeve)
	}
	for _, on := range t.lifted {
		b, err := t.bar(on)
		if err != nil {
			return err
		}
		t.problem.Bars = append(t.problem.Bars, b)
	}
	return t.weigh()
}

// bar is one bar for everybody who lifts it.
func (t *table) bar(on []int) (bars.Bar, error) {
	first := &t.q.Wanted[on[0]]
	b := bars.Bar{Bare: t.ruler.grains(first.Bar) + t.ruler.grains(t.q.Collars), Ceiling: t.ruler.most}
	for k, i := range on {
		w := &t.q.Wanted[i]
		b.Wants = append(b.Wants, bars.Want{Target: t.ruler.grains(w.Target)})
		if w.Ceiling.Value > 0 {
			b.Ceiling = min(b.Ceiling, t.ruler.grains(w.Ceiling))
		}
		if b.Ceiling < b.Bare {
			return b, &roomful.Error{
				Summary: fmt.Sprintf("%s: the bare bar of %s with its collars is above the ceiling of %s", w.Name, w.Bar, w.Ceiling),
				Hint:    "take a lighter bar or raise the ceiling",
			}
		}
		if t.q.MostUnder.Value > 0 {
			floor := max(0, t.ruler.grains(w.Target)-t.ruler.grains(t.q.MostUnder))
			if b.Floor = min(b.Floor, floor); k == 0 {
				b.Floor = floor
			}
		}
	}
	if first.Previous != nil {
		b.Previous = make([]int, len(t.discs))
		for _, m := range first.Previous {
			at := t.kind(m)
			if at < 0 {
				return b, &roomful.Error{Summary: fmt.Sprintf("%s: %s was on the bar and is not among the discs", first.Name, m), Hint: "list it among the plates"}
			}
			b.Previous[at]++
		}
	}
	return b, nil
}

// kind returns which disc a mass is, -1 when there is none.
func (t *table) kind(m roomful.Mass) int {
	return slices.IndexFunc(t.discs, func(d roomful.Stock) bool { return exact(d.Mass).Cmp(exact(m)) == 0 })
}

// weigh turns the weights into whole numbers, rounded only if the sums would
// not fit otherwise.
func (t *table) weigh() error {
	all := make([]*big.Rat, len(t.q.Wanted))
	for i, w := range t.q.Wanted {
		all[i] = decimal(w.Weight)
	}
	t.unit = common(all)
	for fine := 24; ; fine -= 4 {
		if t.put(all) && t.problem.Fits() && (t.atOnce() || t.turns().fits()) {
			return nil
		}
		if fine < 8 {
			return &roomful.Error{Summary: "the masses are written too finely to be added up exactly", Hint: "round them to a gram or to a hundredth of a pound"}
		}
		t.rounded = true
		t.unit = new(big.Rat).Quo(slices.MaxFunc(all, (*big.Rat).Cmp), big.NewRat(1<<fine, 1))
	}
}

// put gives the bars their weights in the present unit, and reports whether
// they are whole numbers of a sensible size.
func (t *table) put(all []*big.Rat) bool {
	t.weights = make([]int64, len(all))
	for b, on := range t.lifted {
		for k, i := range on {
			n, ok := whole(new(big.Rat).Quo(all[i], t.unit))
			if !ok {
				return false
			}
			t.weights[i] = n
			t.problem.Bars[b].Wants[k].Weight = n
		}
	}
	return true
}
