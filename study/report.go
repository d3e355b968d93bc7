package study

import (
	"context"
	"fmt"
	"math"
	"slices"

	"roomful"
)

// Row is one finding beside what the model makes of it.
type Row struct {
	Study      *Study
	Finding    Finding
	Prediction Prediction
	Z          float64 // in published SDs, or in half bands
	Pass       bool    // true when the rule holds or there is none
	Err        error
	// BySeed is the model's figure for this seed and others; nil when only one
	// was asked for.
	BySeed []float64
}

// Report is every finding compared.
type Report struct {
	Rows []Row
}

// Compare asks the model for every finding of some studies.
func Compare(ctx context.Context, m Model, studies []Study) Report {
	return newBench(ctx, m).compare(studies)
}

// compare asks the model for every finding of some studies.
func (b *bench) compare(studies []Study) (r Report) {
	for i := range studies {
		for _, f := range studies[i].Findings {
			r.Rows = append(r.Rows, b.row(&studies[i], f))
		}
	}
	return r
}

// CompareSeeds is [Compare] with the figures of as many seeds as are asked for,
// the model's own first and then those that follow it.
func CompareSeeds(ctx context.Context, m Model, studies []Study, seeds int) Report {
	r := Compare(ctx, m, studies)
	for s := range seeds {
		again := r
		if s > 0 {
			next := m
			next.Seed += uint64(s)
			again = Compare(ctx, next, studies)
		}
		for i := range r.Rows {
			r.Rows[i].BySeed = append(r.Rows[i].BySeed, again.Rows[i].Prediction.Value)
		}
	}
	return r
}

// row compares one finding.
func (b *bench) row(s *Study, f Finding) Row {
	p, err := f.Figure.predict(b, f.Group)
	r := Row{Study: s, Finding: f, Prediction: p, Err: err}
	if err != nil {
		r.Z, r.Pass = math.NaN(), false
		return r
	}
	r.Z = f.z(p.Value)
	r.Pass = f.Rule.Holds(p.Value) || !f.Rule.Gates()
	return r
}

// Misses returns the rows whose rule is broken.
func (r Report) Misses() []Row {
	var out []Row
	for _, row := range r.Rows {
		if !row.Pass {
			out = append(out, row)
		}
	}
	return out
}

// RMS is the root mean square of z over the findings that have a rule and a
// published figure.
func (r Report) RMS() float64 {
	var sum, n float64
	for _, row := range r.Rows {
		if row.Finding.Rule.Gates() && !math.IsNaN(row.Finding.Mean) && !math.IsNaN(row.Z) {
			sum += row.Z * row.Z
			n++
		}
	}
	return math.Sqrt(sum / n)
}

// Gated is how many findings have a rule that can be broken.
func (r Report) Gated() int {
	n := 0
	for _, row := range r.Rows {
		if row.Finding.Rule.Gates() {
			n++
		}
	}
	return n
}

// seeded reports whether the rows have figures of several seeds.
func (r Report) seeded() bool { return len(r.Rows) > 0 && len(r.Rows[0].BySeed) > 1 }

// table is the report with a line for each finding.
func (r Report) table() table {
	t := table{head: []string{"study", "figure", "published", "model", "p05-p95", "unit", "z", "rule", "verdict"}}
	if r.seeded() {
		t.head = slices.Insert(t.head, 5, "by seed")
	}
	last := ""
	for _, row := range r.Rows {
		key := row.Study.Key
		if key == last {
			key = ""
		}
		last = row.Study.Key
		line := []string{key, row.Finding.What, row.published(), row.model(), row.band(), row.Finding.Unit, zed(row.Z), row.Finding.Rule.Words, row.verdict()}
		if r.seeded() {
			line = slices.Insert(line, 5, row.seeds())
		}
		t.rows = append(t.rows, line)
	}
	return t
}

// sentence sums the report up.
func (r Report) sentence() string {
	return fmt.Sprintf("%d findings with a rule, %d missed; rms z %.2f", r.Gated(), len(r.Misses()), r.RMS())
}

// figures writes a number with three figures or so.
func figures(v float64) string {
	switch a := math.Abs(v); {
	case math.IsNaN(v):
		return "-"
	case a >= 100:
		return fmt.Sprintf("%.0f", v)
	case a >= 10:
		return fmt.Sprintf("%.1f", v)
	case a >= 1:
		return fmt.Sprintf("%.2f", v)
	}
	return fmt.Sprintf("%.3f", v)
}

func (r Row) published() string {
	if r.Finding.SD > 0 {
		return figures(r.Finding.Mean) + " ± " + roomful.Figure(r.Finding.SD)
	}
	return figures(r.Finding.Mean)
}

func (r Row) model() string {
	if r.Err != nil {
		return "none"
	}
	s := figures(r.Prediction.Value)
	if r.Prediction.SD > 0 {
		s += " ± " + figures(r.Prediction.SD)
	}
	return s
}

func (r Row) band() string {
	if math.IsNaN(r.Prediction.P05) || r.Prediction.OutOf == 0 {
		return ""
	}
	s := figures(r.Prediction.P05) + "-" + figures(r.Prediction.P95)
	if n := r.Prediction.Unable; n > 0 {
		s += fmt.Sprintf(" (%d of %d cannot)", n, r.Prediction.OutOf)
	}
	return s
}

// seeds is the lowest and the highest figure of some seeds, empty when they do
// not differ.
func (r Row) seeds() string {
	low, high := figures(slices.Min(r.BySeed)), figures(slices.Max(r.BySeed))
	if low == high {
		return ""
	}
	return low + " to " + high
}

func zed(z float64) string {
	if math.IsNaN(z) {
		return "-"
	}
	return fmt.Sprintf("%+.2f", z)
}

func (r Row) verdict() string {
	rule := r.Finding.Rule
	switch {
	case r.Err != nil:
		return "MISS: " + r.Err.Error()
	case rule.Loose && !rule.Holds(r.Prediction.Value):
		return "outside"
	case !rule.Gates():
		return ""
	case r.Pass:
		return "pass" + r.agreeing()
	}
	return "MISS" + r.agreeing()
}

// agreeing says for how many of some seeds the verdict is the same, when it is
// not for all.
func (r Row) agreeing() string {
	n := 0
	for _, v := range r.BySeed {
		if r.Finding.Rule.Holds(v) == r.Pass {
			n++
		}
	}
	if n == len(r.BySeed) {
		return ""
	}
	return fmt.Sprintf(" (with %d of %d seeds)", n, len(r.BySeed))
}
