package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// TestSpellingSees plants one fault of each kind: the check must find it.
func TestSpellingSees(t *testing.T) {
	for _, c := range []struct {
		name         string
		text         sentence
		trade, craft string
		good         bool
	}{
		{"right", sentence{lore, "a", "Knees over toes in the burpee."}, "burpee\n", "", true},
		{"misspelt", sentence{lore, "a", "Knees ovver toes."}, "", "", false},
		{"American", sentence{prose, "a", "The color of the plates."}, "", "", false},
		{"possessive", sentence{lore, "a", "Odo's burpee's jump."}, "burpee\n", "", true},
		{"in a document", sentence{prose, "a", "A goroutine each."}, "", "goroutine\n", true},
		{"not for members", sentence{lore, "a", "A goroutine each."}, "", "goroutine\n", false},
		{"not used", sentence{lore, "a", "Knees over toes."}, "burpee\n", "", false},
		{"a symbol", sentence{prose, "a", "BodyCurve, T2B and 40kg"}, "", "", true},
	} {
		dir := t.TempDir()
		from := lists{filepath.Join(dir, "trade"), filepath.Join(dir, "craft"), filepath.Join(dir, "people.csv")}
		write(t, from.trade, c.trade)
		write(t, from.craft, c.craft)
		write(t, from.names, "name\nOdo\n")
		good, err := spelling([]sentence{c.text}, from)
		if err != nil || good != c.good {
			t.Errorf("%s: good %v, %v; want %v", c.name, good, err, c.good)
		}
	}
}

func TestListsAreSorted(t *testing.T) {
	file := filepath.Join(t.TempDir(), "list")
	write(t, file, "scap\nburpee\n")
	if _, err := listed(file); err == nil {
		t.Error("a list out of order was taken")
	}
}

// TestReadingSees plants sentences beyond each bound.
func TestReadingSees(t *testing.T) {
	long := strings.Repeat("lift it and ", 11) + "rest"                                                                  // 34 short words
	hard := "Considerable implement acceleration necessitates anticipatory deceleration preceding subsequent repetition" // 10 long ones
	for _, c := range []struct {
		text string
		good bool
	}{
		{"stand tall and let the bar hang", true},
		{long, false},
		{strings.Replace(long, "and ", "and: ", 1), false}, // a colon is no full stop
		{hard, false},
		{"Considerable acceleration necessitates deceleration", false}, // by the grade of the whole
	} {
		good, err := readKind(filepath.Join(t.TempDir(), "texts"), lore, []sentence{{lore, "a", c.text}})
		if err != nil || good != c.good {
			t.Errorf("%q: good %v, %v; want %v", c.text, good, err, c.good)
		}
	}
}

func TestAsProse(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"as written", "As written."},
		{"15 deadlifts at 65 kg. If it is a fight, take 57.5 kg", "Some deadlifts at 65 kg. If it is a fight, take 57.5 kg."},
		{"knee 3 of 10 today: no deep bending", "Knee 3 of 10 today; no deep bending."},
		{"who comes?", "Who comes?"},
		{"13-10-7-4 today", "Some-10-7-4 today."},
	} {
		if got := asProse(c.in); got != c.want {
			t.Errorf("%q: %q, want %q", c.in, got, c.want)
		}
	}
}

// TestPlain leaves out what no dictionary has: code, paths and citations.
func TestPlain(t *testing.T) {
	got := strings.Fields(plain("Lift `x.Y` as [the model](doc/model.md) says (Caterisano et al. 2019, J Strength Cond Res 23:5), see notation/spec.md and gomez-landero-2020."))
	want := []string{"Lift", "as", "[the", "model", "says", "(", ",", "),", "see", "and", "."}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

// TestHelpLines joins what the help wraps and leaves out what it lists.
func TestHelpLines(t *testing.T) {
	const text = `Usage: roomful tidy <sheet> [flags]

Print a sheet in
canonical form.

Arguments:
  <sheet>    The sheet, or - for standard input.

Flags:
  -h, --help         Show context-sensitive
                     help.
      --json         Answer with one JSON object.
`
	var got []string
	for _, s := range helpLines("x", text) {
		got = append(got, s.text)
	}
	want := []string{"Print a sheet in canonical form.", "The sheet, or - for standard input.", "Show context-sensitive help.", "Answer with one JSON object."}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

func write(t *testing.T, file, text string) {
	t.Helper()
	if err := os.WriteFile(file, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
}

// TestTemplateWords: what stands in a template is read as people read it, without its
// markup, and what is said instead is a sentence of its own.
func TestTemplateWords(t *testing.T) {
	got := templateWords(`<p class="soft"
title="x">{{if .Name}}This is for <b>{{.Name}}</b>.{{else}}It is for anybody.{{end}}</p><nav aria-label="Where to"><a href="/">{{.X}}</a></nav>`)
	if want := []string{"This is for this .", "It is for anybody.", "Where to"}; len(got) != 2 || !slices.Equal(got[1], want) {
		t.Errorf("%q, want %q", got, want)
	}
}
