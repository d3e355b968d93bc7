// Package rung is the complete pieces that could be briefed as options of a day,
// and what they are called.
package rung

import (
	"cmp"
	"fmt"
	"slices"

	"roomful"
	"roomful/version/internal/care"
	"roomful/version/internal/piece"
)

// Pick is what an option asks of one line.
type Pick struct {
	Form   int     // of the line
	Factor float64 // of the amount
	Lower  bool    // a lower box or target
}

// Plain is a line as written.
var Plain = Pick{Factor: 1}

// Loading says how loads stand to what is written.
type Loading uint8

// The loadings.
const (
	Exact Loading = iota // as written
	Own                  // at or under it, each person's own
	More                 // over it
)

// Rung is a complete piece that could be briefed as an option.
type Rung struct {
	Picks []Pick // one for each line
	Loads Loading
}

// Harder reports whether the rung asks more than is written.
func (r Rung) Harder() bool {
	return r.Loads == More || slices.ContainsFunc(r.Picks, func(k Pick) bool { return k.Factor > 1 })
}

// Steps counts the axes and lines a rung changes, to prefer plain ones.
func (r Rung) Steps() int {
	n := 0
	cut := false
	for _, k := range r.Picks {
		if k.Form > 0 {
			n++
		}
		if k.Lower {
			n++
		}
		cut = cut || k.Factor != 1
	}
	if cut {
		n++
	}
	return n
}

// mostRungs bounds how many rungs are screened; those that change least are
// kept.
const mostRungs = 60

// Layout is a piece to lay rungs for, and what the class needs of them.
type Layout struct {
	Lines   []piece.Line
	Heights []bool // by line: done at a height that could be lower
	// Slow and Fast say that somebody misses the window on that side.
	Slow, Fast bool
	Home       bool // each trains with their own kit
	Shared     bool // partners share the amounts
	Proposed   bool // it was not the sheet that set the window
}

// Written is the piece as the sheet says.
func Written(lines []piece.Line) Rung {
	return Rung{Picks: (&Layout{Lines: lines}).plain(), Loads: Exact}
}

// Rungs lists the rungs worth screening beside as written: every combination of
// the forms people need, cuts and lower heights, at own loads, and what is more
// than written.
func (l *Layout) Rungs() []Rung {
	seen := map[string]bool{}
	var easier []Rung
	for _, forms := range l.formPicks() {
		for _, lower := range []bool{false, true} {
			if lower && !l.Slow {
				continue
			}
			for _, cut := range l.cuts() {
				picks := make([]Pick, len(l.Lines))
				for i := range l.Lines {
					picks[i] = Pick{Form: forms[i], Factor: cut[i], Lower: lower && l.Heights[i]}
				}
				if key := fmt.Sprint(picks); !seen[key] {
					seen[key] = true
					easier = append(easier, Rung{Picks: picks, Loads: Own})
				}
			}
		}
	}
	slices.SortStableFunc(easier, func(a, b Rung) int { return cmp.Compare(a.Steps(), b.Steps()) })
	out := easier[:min(len(easier), mostRungs)]
	if l.Fast {
		out = append(out, l.harder()...)
	}
	return out
}

// plain asks every line as written.
func (l *Layout) plain() []Pick {
	out := make([]Pick, len(l.Lines))
	for i := range out {
		out[i] = Plain
	}
	return out
}

// formPicks lists combinations of the lines' forms: nine that change least, and
// the one that changes every line that can be.
func (l *Layout) formPicks() [][]int {
	const most = 9
	all := make([]int, len(l.Lines))
	for li := range l.Lines {
		all[li] = min(1, len(l.Lines[li].Forms)-1)
	}
	out := [][]int{make([]int, len(l.Lines))}
	for li := range l.Lines {
		var grown [][]int
		for n := range l.Lines[li].Forms {
			for _, base := range out {
				next := slices.Clone(base)
				next[li] = n
				grown = append(grown, next)
			}
		}
		slices.SortStableFunc(grown, func(a, b []int) int { return cmp.Compare(sum(a), sum(b)) })
		out = grown[:min(len(grown), most)]
	}
	return append(out, all)
}

func sum(v []int) (n int) {
	for _, x := range v {
		n += x
	}
	return n
}

// cuts lists the shares of the amounts worth trying, line by line: all of it,
// everything cut alike, the body-weight movements alone (50 to 60 % of the
// repetitions of a skill is common practice, no source), or the machines and
// running alone.
func (l *Layout) cuts() [][]float64 {
	every := func(li int) bool { return true }
	body := func(li int) bool {
		m := l.Lines[li].Movement
		return m != nil && m.Modality == roomful.Body
	}
	cyclic := func(li int) bool {
		m := l.Lines[li].Movement
		return m != nil && (m.Modality == roomful.Machine || m.Modality == roomful.Running)
	}
	out := [][]float64{l.cut(every, 1)}
	if l.Slow && !l.Shared { // partners share the amounts
		out = append(out, l.cut(every, 0.75), l.cut(every, care.TwoThirds), l.cut(every, 0.5),
			l.cut(body, care.TwoThirds), l.cut(body, 0.5), l.cut(cyclic, 0.75), l.cut(cyclic, 0.5))
	}
	return out
}

// cut gives the chosen lines a share of their amounts; rest is never cut.
func (l *Layout) cut(on func(li int) bool, share float64) []float64 {
	out := make([]float64, len(l.Lines))
	for li := range out {
		out[li] = 1
		if l.Lines[li].Cuttable() && on(li) {
			out[li] = share
		}
	}
	return out
}

// harder are the steps up: heavier, or more where nothing is lifted. At
// home, where loads are missing, more keeps the time (common practice, no
// source). Nobody is asked for more than is written when it was not the sheet
// that set the window.
func (l *Layout) harder() []Rung {
	switch {
	case l.Proposed:
		return nil
	case l.lifts() && !l.Home:
		return []Rung{{Picks: l.plain(), Loads: More}}
	case l.Shared:
		return nil
	}
	forms := [][]int{make([]int, len(l.Lines))}
	if l.Home {
		all := l.formPicks()
		forms = append(forms, all[len(all)-1])
	}
	var out []Rung
	for _, form := range forms {
		for _, share := range []float64{1.25, 1.5, 2} {
			picks := l.plain()
			for i, f := range l.cut(func(int) bool { return true }, share) {
				picks[i].Form, picks[i].Factor = form[i], f
			}
			out = append(out, Rung{Picks: picks, Loads: Own})
		}
	}
	return out
}

// lifts reports whether the piece as written has a load to raise.
func (l *Layout) lifts() bool {
	return slices.ContainsFunc(l.Lines, func(l piece.Line) bool {
		return l.Movement != nil && l.Movement.TakesLoad() && l.Movement.Bound != nil
	})
}
