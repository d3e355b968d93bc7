package study

import (
	"context"
	"fmt"
	"io"
	"math"
	"strings"
	"text/tabwriter"

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
}

// Report is every finding compared.
type Report struct {
	Rows []Row
}

// Compare asks the model for every finding of some studies.
func Compare(ctx context.Context, m Model, studies []Study) Report {
	var r Report
	b := newBench(ctx, m)
	for i := range studies {
		for _, f := range studies[i].Findings {
			r.Rows = append(r.Rows, b.row(&studies[i], f))
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
	r.Z = (p.Value - f.Mean) / f.scale()
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

// RMS is the root mean square of z over the findings that have a rule.
func (r Report) RMS() float64 {
	var sum, n float64
	for _, row := range r.Rows {
		if row.Finding.Rule.Gates() && !math.IsNaN(row.Z) {
			sum += row.Z * row.Z
			n++
		}
	}
	return math.Sqrt(sum / n)
}

// WriteText prints the report as a table with a line for each finding.
func (r Report) WriteText(w io.Writer) error {
	t := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(t, "study\tfigure\tpublished\tmodel\tp05-p95\tunit\tz\trule\t")
	last := ""
	for _, row := range r.Rows {
		key := row.Study.Key
		if key == last {
			key = ""
		}
		last = row.Study.Key
		fmt.Fprintf(t, "%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\t%s\n", key, row.Finding.What, row.published(), row.model(), row.band(),
			row.Finding.Unit, row.zed(), row.Finding.Rule.Words, row.verdict())
	}
	if err := t.Flush(); err != nil {
		return err
	}
	gated := 0
	for _, row := range r.Rows {
		if row.Finding.Rule.Gates() {
			gated++
		}
	}
	_, err := fmt.Fprintf(w, "\n%d findings with a rule, %d missed; rms z %.2f\n", gated, len(r.Misses()), r.RMS())
	return err
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

func (r Row) zed() string {
	if math.IsNaN(r.Z) {
		return "-"
	}
	return strings.TrimPrefix(fmt.Sprintf("%+.2f", r.Z), "")
}

func (r Row) verdict() string {
	switch {
	case r.Err != nil:
		return "MISS: " + r.Err.Error()
	case !r.Finding.Rule.Gates():
		return ""
	case r.Pass:
		return "pass"
	}
	return "MISS"
}
