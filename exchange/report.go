package exchange

import (
	"cmp"
	"fmt"
	"slices"

	"roomful"
)

// MaxBytes is the size from which a file of people or of kit is refused: a
// gym of ten thousand fits in a fifth of it.
const MaxBytes = 4 << 20

// mostReports bounds the diagnostics of one file; a person mends a few and
// asks again.
const mostReports = 100

// report collects diagnostics.
type report struct {
	all     []roomful.Diagnostic
	dropped int
}

// say adds a diagnostic at a range.
func (r *report) say(sev roomful.Severity, at roomful.Range, hint, format string, args ...any) {
	if len(r.all) >= mostReports {
		r.dropped++
		return
	}
	r.all = append(r.all, roomful.Diagnostic{Severity: sev, Range: at, Summary: fmt.Sprintf(format, args...), Hint: hint})
}

// fault adds an error at a range.
func (r *report) fault(at roomful.Range, hint, format string, args ...any) {
	r.say(roomful.Fault, at, hint, format, args...)
}

// warn adds a warning at a range.
func (r *report) warn(at roomful.Range, hint, format string, args ...any) {
	r.say(roomful.Warning, at, hint, format, args...)
}

// sorted returns the diagnostics in the order of the file.
func (r *report) sorted() []roomful.Diagnostic {
	slices.SortStableFunc(r.all, func(a, b roomful.Diagnostic) int {
		return cmp.Or(cmp.Compare(a.Range.Start.Line, b.Range.Start.Line), cmp.Compare(a.Range.Start.Column, b.Range.Start.Column))
	})
	if r.dropped > 0 {
		r.all = append(r.all, roomful.Diagnostic{
			Severity: roomful.Fault, Range: whole, Summary: fmt.Sprintf("%d more to say about this file, left out", r.dropped),
			Hint: "mend what is listed first",
		})
	}
	return r.all
}

// whole is where a fault of a whole file stands.
var whole = roomful.Range{Start: roomful.Position{Line: 1, Column: 1}, End: roomful.Position{Line: 1, Column: 1}}
