package study

import (
	"fmt"
	"io"
	"strings"
	"text/tabwriter"
)

// table is cells of words with a head.
type table struct {
	head []string
	rows [][]string
}

// text prints the table in columns.
func (t table) text(w io.Writer) error {
	tw := tabwriter.NewWriter(w, 0, 0, 2, ' ', 0)
	fmt.Fprintln(tw, strings.Join(t.head, "\t")+"\t")
	for _, r := range t.rows {
		fmt.Fprintln(tw, strings.Join(r, "\t")+"\t")
	}
	return tw.Flush()
}

// markdown prints the table as Markdown.
func (t table) markdown(w io.Writer) error {
	line := func(cells []string) string {
		out := make([]string, len(cells))
		for i, c := range cells {
			out[i] = strings.ReplaceAll(c, "|", "/")
		}
		return strings.TrimRight("| "+strings.Join(out, " | "), " ") + " |\n"
	}
	rule := "|" + strings.Repeat("---|", len(t.head)) + "\n"
	text := line(t.head) + rule
	for _, r := range t.rows {
		text += line(r)
	}
	_, err := io.WriteString(w, text)
	return err
}
