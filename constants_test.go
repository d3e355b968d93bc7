package roomful_test

import (
	"fmt"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"roomful/prior"
	"roomful/sim"
)

// TestConstants holds doc/constants.md to the figures that the code reads: each
// section stands between two marks, and -update writes it anew.
func TestConstants(t *testing.T) {
	const file = "doc/constants.md"
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	document := string(text)
	for _, s := range []struct{ name, text string }{
		{"population", population()},
		{"model", model()},
	} {
		from := "<!-- " + s.name + ": written by go test -run TestConstants -update . -->\n"
		before, rest, begun := strings.Cut(document, from)
		got, _, ended := strings.Cut(rest, "<!-- "+s.name+": end -->\n")
		switch {
		case !begun || !ended:
			t.Errorf("%s has no section %s", file, s.name)
		case *update:
			document = before + from + s.text + strings.TrimPrefix(rest, got)
		case got != s.text:
			t.Errorf("%s is not what the code computes with; go test -run TestConstants -update . writes it (-code +document):\n%s", file, cmp.Diff(s.text, got))
		}
	}
	if *update {
		if err := os.WriteFile(file, []byte(document), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

// population is the section of what is believed of a person.
func population() string {
	var b strings.Builder
	b.WriteString("\n## The population\n\n" +
		"What is believed of a person before anything is measured. Division a uses published men's figures, b women's;\n" +
		"g = 1 − exp(−months/12). \"Judged\" means that no source was at hand; \"chosen on\" is the data a figure was fitted to.\n\n" +
		"| figure | a | b | unit | source | chosen on |\n|---|---|---|---|---|---|\n")
	for _, c := range prior.Population {
		second := exact(c.Value[1])
		if c.Value[1] == c.Value[0] {
			second = "="
		}
		b.WriteString(row(c.Name, exact(c.Value[0]), second, c.Unit, c.Source, c.ChosenOn))
	}
	return b.String() + "\n"
}

// model is the section of the constants that serve everybody.
func model() string {
	var b strings.Builder
	b.WriteString("\n## The model\n\n" +
		"One value of each serves everybody. [model.md](model.md) says what each does, and [calibration.md](calibration.md) how far\n" +
		"the model stands from what was published. \"Judgement\" means that no source was at hand; \"chosen on\" is what a figure was\n" +
		"chosen to agree with, empty when it is taken as it is.\n\n" +
		"| constant | value | unit | source | chosen on |\n|---|---|---|---|---|\n")
	c := sim.Defaults()
	for _, k := range sim.Table() {
		b.WriteString(row(k.Name, strconv.FormatFloat(k.Value(&c), 'g', -1, 64), k.Unit, k.Source, k.Chosen))
	}
	return b.String() + "\n"
}

// row is a line of a table, in whose cells a bar would end the cell.
func row(cells ...string) string {
	for i, c := range cells {
		cells[i] = strings.ReplaceAll(c, "|", "/")
	}
	return "| " + strings.Join(cells, " | ") + " |\n"
}

// exact writes a figure with all its digits, up to four decimals.
func exact(v float64) string {
	s := fmt.Sprintf("%.4f", v)
	return strings.TrimSuffix(strings.TrimRight(s, "0"), ".")
}
