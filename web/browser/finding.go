package browser

import (
	"fmt"
	"strings"
)

// Finding is one fault that a judge has found.
type Finding struct {
	Judge string // who found it, and by which rule: axe/label
	Where string // on the page: a selector, a line, an address
	What  string // in words
}

// String is a line.
func (f Finding) String() string {
	if f.Where == "" {
		return fmt.Sprintf("%s: %s", f.Judge, f.What)
	}
	return fmt.Sprintf("%s: %s: %s", f.Judge, f.Where, f.What)
}

// Lines sets findings one below the other.
func Lines(all []Finding) string {
	var b strings.Builder
	for _, f := range all {
		fmt.Fprintf(&b, "\n  %s", f)
	}
	return b.String()
}
