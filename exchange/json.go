package exchange

import (
	"encoding/json"
	"errors"
	"io"
	"math"

	"roomful"
)

// Write writes one object as JSON, indented, with a line end.
func Write(w io.Writer, v any) error {
	enc := json.NewEncoder(w)
	enc.SetEscapeHTML(false)
	enc.SetIndent("", "  ")
	return enc.Encode(v)
}

// Diagnostic is one thing to say about a place in a file.
type Diagnostic struct {
	File      *string `json:"file"` // null for the sheet that was asked about
	Severity  string  `json:"severity"`
	Line      int     `json:"line"`
	Column    int     `json:"column"`
	EndLine   int     `json:"end_line"`
	EndColumn int     `json:"end_column"`
	Summary   string  `json:"summary"`
	Detail    *string `json:"detail"`
	Hint      *string `json:"hint"`
}

// DiagnosticsOf turns what is said about a file into JSON. The file's name is
// left out when empty.
func DiagnosticsOf(file string, ds []roomful.Diagnostic) []Diagnostic {
	out := []Diagnostic{}
	for _, d := range ds {
		start, end := d.Range.Start, d.Range.End
		start.Line, start.Column = max(start.Line, 1), max(start.Column, 1)
		if end.Line < start.Line || end.Line == start.Line && end.Column < start.Column {
			end = start
		}
		out = append(out, Diagnostic{
			File: word(file), Severity: d.Severity.String(),
			Line: start.Line, Column: start.Column, EndLine: end.Line, EndColumn: end.Column,
			Summary: d.Summary, Detail: word(d.Detail), Hint: word(d.Hint),
		})
	}
	return out
}

// Refusal is what stands on stdout when there is no answer.
type Refusal struct {
	Error       RefusalError `json:"error"`
	Diagnostics []Diagnostic `json:"diagnostics"`
}

// RefusalError says what was being done and the next step.
type RefusalError struct {
	Summary string  `json:"summary"`
	Hint    *string `json:"hint"`
}

// RefusalOf turns an error into a refusal, with the faults behind it if any.
func RefusalOf(err error, ds []Diagnostic) Refusal {
	if ds == nil {
		ds = []Diagnostic{}
	}
	r := Refusal{Error: RefusalError{Summary: err.Error()}, Diagnostics: ds}
	var e *roomful.Error
	if errors.As(err, &e) {
		r.Error.Hint = word(e.Hint)
	}
	return r
}

// word is null for nothing.
func word(s string) *string {
	if s == "" {
		return nil
	}
	return &s
}

// known is null for 0, which stands for unknown.
func known[T int | float64](v T) *T {
	if v == 0 {
		return nil
	}
	return &v
}

// figure is a computed figure; what is not finite is null.
func figure(v float64) *float64 {
	if math.IsNaN(v) || math.IsInf(v, 0) {
		return nil
	}
	v = rounded(v)
	return &v
}

// some is a figure that is null for 0, which stands for none.
func some(v float64) *float64 {
	if v == 0 {
		return nil
	}
	return figure(v)
}

// rounded takes the noise of binary fractions away.
func rounded(v float64) float64 { return math.Round(v*1e6) / 1e6 }

// listed is the list, never null.
func listed(s []string) []string {
	if s == nil {
		return []string{}
	}
	return s
}
