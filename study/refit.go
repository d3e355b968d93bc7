package study

import (
	"context"
	"fmt"
	"math"
)

// Freedom is a constant that a refit may move and how far off it may well be.
type Freedom struct {
	Constant string
	SD       float64 // judged: of the logarithm, or of the value itself when Plain
	Plain    bool
}

// Free lists the constants that a refit moves: those that no source gives and
// that whole pieces speak of.
var Free = []Freedom{
	{"PhiLift", 0.10, false},
	{"LocalFast", 0.30, false},
	{"LocalSlow", 0.30, false},
	{"SlowGrowth", 0.30, false},
	{"BreakBase", 1, true},
	{"BreakSeconds", 0.40, false},
	{"TripFatigue", 0.30, false},
	{"Sprint", 0.40, false},
}

// from returns the constant's value so many SDs from a base.
func (f Freedom) from(base, sds float64) float64 {
	if f.Plain {
		return base + sds*f.SD
	}
	return base * math.Exp(sds*f.SD)
}

// Move is what a refit did with a constant.
type Move struct {
	Constant string  `json:"constant"`
	From     float64 `json:"from"`
	To       float64 `json:"to"`
	SDs      float64 `json:"judged_sds"`
}

// Refitted is a refit, with one study left out or with all.
type Refitted struct {
	LeftOut *Study // nil when none was
	// Bears is false when none of the free constants bears on the study left
	// out: then this is the refit with all.
	Bears bool
	Moves []Move
	// Before and After are what was left out, or all when nothing was, by the
	// defaults and by the refit; Rest is the rms z of the others.
	Before, After         []Row
	RestBefore, RestAfter float64
}

// Refits are the refit with all studies and those without each.
type Refits []Refitted

// RefitOptions say how thoroughly to refit, and whom to tell.
type RefitOptions struct {
	Steps    int                              // of the search, at most; 4 settle it
	Progress func(done, all int, what string) // called before each refit; may be nil
}

// Refit moves the constants of [Free] on all findings with a rule, then again
// with each study left out, and compares that study by the defaults and by the
// refit.
//
// What is made small is the sum over studies of the mean of z² over a study's
// findings, growing no faster than straight from z = 2 on, and, as if the
// defaults were one study more, the mean over constants of the square of the
// judged SDs that each has moved. The search is Gauss and Newton's. Its
// differences are wide, since medians of people are stepped; the people are the
// same throughout.
func Refit(ctx context.Context, m Model, studies []Study, o RefitOptions) (Refits, error) {
	f := &fitter{bench: newBench(ctx, m), studies: gated(studies)}
	if err := f.start(); err != nil {
		return nil, err
	}
	var out Refits
	for i := none; i < len(f.studies); i++ {
		what := "with every study"
		if i != none {
			what = "without " + f.studies[i].Key
		}
		if o.Progress != nil {
			o.Progress(i-none, len(f.studies)-none, what)
		}
		r, err := f.without(i, o.Steps)
		if err != nil {
			return nil, fmt.Errorf("refitting %s: %w", what, err)
		}
		out = append(out, r)
	}
	return out, nil
}

// gated returns the findings that have a rule, and the studies that have one.
func gated(studies []Study) []Study {
	var out []Study
	for _, s := range studies {
		all := s.Findings
		s.Findings = nil
		for _, f := range all {
			if f.Rule.Gates() {
				s.Findings = append(s.Findings, f)
			}
		}
		if len(s.Findings) > 0 {
			out = append(out, s)
		}
	}
	return out
}

// without refits with study i left out; none leaves out none.
func (f *fitter) without(i, steps int) (Refitted, error) {
	out := Refitted{Bears: i == none || f.bears(i)}
	to := f.all
	if out.Bears {
		var err error
		if to, err = f.search(i, steps); err != nil {
			return out, err
		}
	}
	if i == none {
		f.all = to
	} else {
		out.LeftOut = &f.studies[i]
	}
	for k, c := range Free {
		base := f.base(c)
		out.Moves = append(out.Moves, Move{c.Constant, base, c.from(base, to.x[k]), to.x[k]})
	}
	split := func(r Report) (asked []Row, rest float64) {
		var others Report
		for n, row := range r.Rows {
			if i == none || f.owner[n] == i {
				asked = append(asked, row)
			}
			if f.owner[n] != i {
				others.Rows = append(others.Rows, row)
			}
		}
		return asked, others.RMS()
	}
	out.Before, out.RestBefore = split(f.origin.report)
	out.After, out.RestAfter = split(to.report)
	return out, nil
}
