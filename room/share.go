package room

import (
	"cmp"
	"math"
	"slices"

	"roomful"
)

// Who may share a bar (common practice, no source): loads within so much of the
// heavier, or one disc a side apart; heights within so much.
const (
	similarLoad     = 0.15
	similarHeightCm = 15
	mostSharers     = 3
)

// rack gives everybody a bar: who lifts each, as places in the question, and
// which bars are short all the same.
func rack(q *roomful.BarQuestion) (lifted [][]int, short []roomful.Lack, err error) {
	for i := range q.Wanted {
		lifted = append(lifted, []int{i})
	}
	if q.Rack == nil {
		return lifted, nil, nil
	}
	if err := hand(q); err != nil {
		return nil, nil, err
	}
	done := map[roomful.Mass]bool{}
	for _, w := range q.Wanted {
		if done[w.Bar] {
			continue
		}
		done[w.Bar] = true
		have, need := owned(q.Rack, w.Bar), 0
		for _, on := range lifted {
			if q.Wanted[on[0]].Bar == w.Bar {
				need++
			}
		}
		for need > have && pair(q, &lifted, w.Bar) {
			need--
		}
		if need > have {
			short = append(short, roomful.Lack{What: "bar", Mass: w.Bar, Have: have, Need: need, For: waiting(q, lifted, w.Bar)})
		}
	}
	return lifted, short, nil
}

// hand gives a bar to all who named none: the heaviest loads choose first among
// those left. When none is left they count on one that they will have to share or
// wait for.
func hand(q *roomful.BarQuestion) error {
	q.Wanted = slices.Clone(q.Wanted)
	left := slices.Clone(q.Rack)
	take := func(bar roomful.Mass) {
		for i := range left {
			if left[i].Count > 0 && exact(left[i].Mass).Cmp(exact(bar)) == 0 {
				left[i].Count--
				return
			}
		}
	}
	var open []int
	for i, w := range q.Wanted {
		if w.Bar.Value == 0 {
			open = append(open, i)
		} else {
			take(w.Bar)
		}
	}
	slices.SortStableFunc(open, func(a, b int) int { return cmp.Compare(q.Wanted[b].Target.Kg(), q.Wanted[a].Target.Kg()) })
	for _, i := range open {
		w := &q.Wanted[i]
		w.Bar = suits(left, w.Target, w.Ceiling)
		if w.Bar.Value == 0 || w.Ceiling.Value > 0 && w.Bar.Kg() > w.Ceiling.Kg() {
			w.Bar = suits(q.Rack, w.Target, w.Ceiling) // none left that suits: one to wait for
		}
		if w.Bar.Value == 0 {
			return &roomful.Error{Summary: w.Name + ": there is no bar in the rack", Hint: "list the bars there are, or leave the rack out"}
		}
		take(w.Bar)
	}
	return nil
}

// suits returns the heaviest bar that is not above the target and the ceiling,
// else the lightest there is.
func suits(rack []roomful.Stock, target, ceiling roomful.Mass) roomful.Mass {
	top := target.Kg()
	if ceiling.Value > 0 {
		top = min(top, ceiling.Kg())
	}
	var best, lightest roomful.Mass
	for _, s := range rack {
		if s.Count > 0 && s.Mass.Kg() <= top && s.Mass.Kg() > best.Kg() {
			best = s.Mass
		}
		if s.Count > 0 && (lightest.Value == 0 || s.Mass.Kg() < lightest.Kg()) {
			lightest = s.Mass
		}
	}
	if best.Value > 0 {
		return best
	}
	return lightest
}

// owned counts the bars of one mass.
func owned(rack []roomful.Stock, m roomful.Mass) int {
	n := 0
	for _, s := range rack {
		if exact(s.Mass).Cmp(exact(m)) == 0 {
			n += s.Count
		}
	}
	return n
}

// waiting names those who are on bars of a mass.
func waiting(q *roomful.BarQuestion, lifted [][]int, m roomful.Mass) []string {
	var names []string
	for _, on := range lifted {
		for _, i := range on {
			if q.Wanted[i].Bar == m {
				names = append(names, q.Wanted[i].Name)
			}
		}
	}
	return names
}

// pair puts the two groups that are most alike on one bar; false when no two
// may share.
func pair(q *roomful.BarQuestion, lifted *[][]int, bar roomful.Mass) bool {
	l := *lifted
	a, b, least := -1, -1, math.Inf(1)
	for i := range l {
		for j := i + 1; j < len(l); j++ {
			if q.Wanted[l[i][0]].Bar != bar || q.Wanted[l[j][0]].Bar != bar || len(l[i])+len(l[j]) > mostSharers {
				continue
			}
			if d := apart(q, l[i], l[j]); d < least {
				a, b, least = i, j, d
			}
		}
	}
	if a < 0 {
		return false
	}
	l[a] = append(l[a], l[b]...)
	*lifted = slices.Delete(l, b, b+1)
	return true
}

// apart is how unlike the people of two groups are; infinite when two of them
// may not share.
func apart(q *roomful.BarQuestion, a, b []int) float64 {
	most := 0.0
	for _, i := range a {
		for _, j := range b {
			most = max(most, unlike(q, &q.Wanted[i], &q.Wanted[j]))
		}
	}
	return most
}

// unlike compares two people.
func unlike(q *roomful.BarQuestion, a, b *roomful.WantedBar) float64 {
	if !a.MayShare || !b.MayShare {
		return math.Inf(1)
	}
	gap := math.Abs(a.Target.Kg() - b.Target.Kg())
	load := gap / max(a.Target.Kg(), b.Target.Kg())
	one := slices.ContainsFunc(q.Plates, func(p roomful.Stock) bool {
		return p.Count >= 2 && math.Abs(2*p.Mass.Kg()-gap) < 1e-6
	})
	height := 0.0
	if a.HeightCm > 0 && b.HeightCm > 0 {
		height = math.Abs(a.HeightCm - b.HeightCm)
	}
	if load > similarLoad && !one || height > similarHeightCm {
		return math.Inf(1)
	}
	// The limits weigh the two against each other.
	return load/similarLoad + height/similarHeightCm
}
