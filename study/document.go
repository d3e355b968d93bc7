package study

import (
	"fmt"
	"strings"
)

// ReplaceSection returns the document with another text in a section, between
// the line that opens it and the one that ends it.
func ReplaceSection(document, name, text string) (string, error) {
	from, to := "<!-- "+name+": written by go run ./cmd/study", "<!-- "+name+": end -->"
	start, end := strings.Index(document, from), strings.Index(document, to)
	if start < 0 || end < start {
		return "", fmt.Errorf("no section that opens with %q and ends with %q", from, to)
	}
	start += strings.Index(document[start:], "\n") + 1
	return document[:start] + "\n" + text + "\n" + document[end:], nil
}
