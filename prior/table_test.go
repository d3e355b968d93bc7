package prior_test

import (
	"flag"
	"fmt"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"roomful/prior"
)

var update = flag.Bool("update", false, "write the population's part of doc/constants.md anew")

const (
	document = "../doc/constants.md"
	from     = "<!-- population: written by go test ./prior -update -->\n"
	to       = "<!-- population: end -->\n"
)

// The document states every figure as the code reads it.
func TestConstantsDocument(t *testing.T) {
	text, err := os.ReadFile(document)
	if err != nil && !os.IsNotExist(err) {
		t.Fatal(err)
	}
	before, rest, found := strings.Cut(string(text), from)
	got, after, ended := strings.Cut(rest, to)
	if *update {
		if !found || !ended {
			before, after = string(text), ""
		}
		if err := os.WriteFile(document, []byte(before+from+written()+to+after), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if diff := cmp.Diff(written(), got); diff != "" {
		t.Errorf("doc/constants.md is not what the code computes with; run go test ./prior -update (-code +document):\n%s", diff)
	}
}

// written is the population table as Markdown.
func written() string {
	var b strings.Builder
	b.WriteString("\n## The population\n\n" +
		"What is believed of a person before anything is measured. Division a uses published men's figures, b women's;\n" +
		"g = 1 − exp(−months/12). \"Judged\" means that no source was at hand; \"chosen on\" is the data a figure was fitted to.\n\n" +
		"| figure | a | b | unit | source | chosen on |\n|---|---|---|---|---|---|\n")
	for _, c := range prior.Population {
		b2 := exact(c.Value[1])
		if c.Value[1] == c.Value[0] {
			b2 = "="
		}
		row := fmt.Sprintf("%s\x00%s\x00%s\x00%s\x00%s\x00%s", c.Name, exact(c.Value[0]), b2, c.Unit, c.Source, c.ChosenOn)
		b.WriteString("| " + strings.ReplaceAll(strings.ReplaceAll(row, "|", "/"), "\x00", " | ") + " |\n")
	}
	b.WriteString("\n")
	return b.String()
}

// exact writes a figure with all its digits, up to four decimals.
func exact(v float64) string {
	s := fmt.Sprintf("%.4f", v)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}
