package infer

import (
	"cmp"
	"context"
	"errors"
	"math"
	"slices"
	"sync"
	"sync/atomic"

	"roomful"
)

// Person is somebody whose abilities are asked for.
type Person struct {
	Prior   *roomful.Abilities // what is believed without results; figures told are in it
	Results []Result           // in any order
}

// Learnt is what results say of a person.
type Learnt struct {
	Abilities *roomful.Abilities
	Left      []Left // results that could not be used
}

// Left is a result that nothing was learnt from.
type Left struct {
	Result int // its place in the person's results
	Why    string
}

// Emulators are emulators by structure; a refused one says why.
type Emulators map[string]Entry

// Entry is an emulator that was checked, or why there is none.
type Entry struct {
	*Emulator
	Off     float64 // mean absolute error of the log-score at fresh people
	Refused string
}

// Prepare makes and checks an emulator for every structure that people's results
// have.
func (s Simulator) Prepare(ctx context.Context, people []Person) (Emulators, error) {
	var all Cases
	for i := range people {
		all.Add(people[i])
	}
	return s.Make(ctx, &all)
}

// Make makes and checks an emulator for every structure of the cases.
func (s Simulator) Make(ctx context.Context, c *Cases) (Emulators, error) {
	entries, failed := make([]Entry, len(c.order)), make([]error, len(c.order))
	one := s
	one.Workers = 1 // a structure to each
	var next, done atomic.Int64
	var wg sync.WaitGroup
	for range min(s.workers(), len(c.order)) {
		wg.Go(func() {
			for i := int(next.Add(1)) - 1; i < len(c.order); i = int(next.Add(1)) - 1 {
				entries[i], failed[i] = one.entry(ctx, c.of[c.order[i]].kept)
				if n := done.Add(1); s.Progress != nil {
					s.Progress(float64(n) / float64(len(c.order)))
				}
			}
		})
	}
	wg.Wait()
	all := Emulators{}
	for i, key := range c.order {
		if failed[i] != nil {
			return nil, failed[i]
		}
		all[key] = entries[i]
	}
	return all, nil
}

// entry makes and checks the emulator of one structure. One that is not good
// enough is made again from more points before it is refused.
func (s Simulator) entry(ctx context.Context, cases []Case) (entry Entry, err error) {
	for _, points := range []int{pointsOf, morePoints} {
		e, err := s.emulate(ctx, cases, points)
		var refused *roomful.Error
		switch {
		case errors.As(err, &refused):
			return Entry{Refused: refused.Summary}, nil
		case err != nil:
			return Entry{}, err
		}
		off, ok, err := s.Check(ctx, e)
		switch {
		case err != nil:
			return Entry{}, err
		case ok:
			e.cases = nil // what it was made from is needed no more
			return Entry{Emulator: e, Off: off}, nil
		}
		entry = Entry{Off: off, Refused: "scores of this piece change too abruptly with ability to learn from"}
	}
	return entry, nil
}

// scored reports whether the result's score says something, and not only which
// element could not be done. Partners' scores are not one person's.
func (r *Result) scored() bool {
	return len(r.Cannot) == 0 && r.Piece.Team.Size < 2 && r.Score >= 0 && !math.IsInf(r.Score, 1) && !r.full()
}

// full reports whether a result says that all was done of what could be done and
// nothing about how much more: sets at a load, every interval held.
func (r *Result) full() bool {
	switch f := r.Dose.Of(r.Piece).Format.(type) {
	case roomful.Sets:
		return !f.Build
	case roomful.Every:
		return r.Score >= float64(f.Count)
	}
	return false
}

// Learn returns what is believed of a person on a day after all their results.
func (s Simulator) Learn(p Person, today roomful.Date, by Emulators) Learnt {
	var out Learnt
	var all []evidence
	times := map[*Emulator]int{}
	for _, i := range inOrder(p.Results) {
		r := &p.Results[i]
		ev := evidence{label: r.label(), weeks: r.weeks(today)}
		if why := by.refuse(Case{p.Prior, r}); why != "" {
			out.Left = append(out.Left, Left{i, why})
			continue
		}
		if r.scored() {
			ev.score(by[r.Structure()].Emulator, p.Prior, r)
			times[ev.emulator]++
			// What the piece does not feel cannot be near its edge.
			ev.margins = s.margins(p.Prior, r, sorted(slices.DeleteFunc(slices.Clone(ev.dims), func(d int) bool { return d < 0 })))
		} else {
			ev.margins = s.margins(p.Prior, r, everyDim(p.Prior))
		}
		all = append(all, ev)
	}
	for i := range all {
		all[i].shared = float64(times[all[i].emulator])
	}
	out.Abilities = newPosterior(p.Prior, all).abilities()
	return out
}

// refuse says why nothing can be learnt from a result, or "".
func (by Emulators) refuse(c Case) string {
	r := c.Result
	switch {
	case r.Piece.Team.Size > 1:
		return "done with a partner: the score is not one person's"
	case len(r.Cannot) > 0, r.full():
		return ""
	case !r.scored():
		return "the score is not a number"
	}
	entry, made := by[r.Structure()]
	if !made || !entry.Serves(c) {
		return "nothing was prepared for this piece"
	}
	return entry.Refused
}

// inOrder returns the places of results by date, title and score, so that sums
// come out the same to the last bit however the results are ordered.
func inOrder(rs []Result) []int {
	order := make([]int, len(rs))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		a, b := &rs[i], &rs[j]
		return cmp.Or(cmp.Compare(a.On.String(), b.On.String()), cmp.Compare(a.Title, b.Title), cmp.Compare(a.Score, b.Score))
	})
	return order
}

// everyDim returns the places of all dims.
func everyDim(a *roomful.Abilities) []int {
	out := make([]int, len(a.Dims))
	for i := range out {
		out[i] = i
	}
	return out
}

// sorted returns numbers ascending, each once.
func sorted(v []int) []int {
	slices.Sort(v)
	return slices.Compact(v)
}
