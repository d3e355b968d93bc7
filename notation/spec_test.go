package notation_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/notation"
)

var update = flag.Bool("update", false, "write what was read into the cases")

// A case of the spec suite is a heading, the sheet, and what is expected:
//
//	# what it shows
//	| a line of the sheet
//	!   ^^^^ error: what is wrong with that stretch of the line above
//	!        hint: the next step
//	> a line of the canonical form
//	= a line of the session
//
// Carets stand under the stretch that a diagnostic points at; "." marks a
// stretch that is empty. The canonical form must read without an error that the
// sheet did not have, and print as itself.
type specCase struct {
	name   string
	lines  []string // as in the file, without the heading
	source string
}

func TestSpec(t *testing.T) { runSpec(t, newToy(), true) }

// runSpec runs every case with a lexicon. Short names of the lexicon's own may
// change the hints.
func runSpec(t *testing.T, lex roomful.Lexicon, write bool) {
	files, err := filepath.Glob("testdata/spec/*.txt")
	if err != nil || len(files) == 0 {
		t.Fatalf("no cases: %v", err)
	}
	total := 0
	for _, file := range files {
		cases := readCases(t, file)
		total += len(cases)
		for i := range cases {
			c := &cases[i]
			t.Run(strings.TrimSuffix(filepath.Base(file), ".txt")+"/"+c.name, func(t *testing.T) { c.run(t, lex, write) })
		}
		if *update && write {
			writeCases(t, file, cases)
		}
	}
	if total < 150 {
		t.Errorf("%d cases; the suite has at least 150", total)
	}
}

func (c *specCase) run(t *testing.T, lex roomful.Lexicon, write bool) {
	session, diags := notation.Read(c.source, lex)
	canonical := notation.Print(session, lex)
	again, _ := notation.Read(canonical, lex)
	if diff := cmp.Diff(canonical, notation.Print(again, lex)); diff != "" {
		t.Errorf("the canonical form is no fixed point (-printed +printed again):\n%s", diff)
	}
	if diff := cmp.Diff(dump(session, lex), dump(again, lex)); diff != "" {
		t.Errorf("the canonical form means something else (-sheet +canonical):\n%s", diff)
	}
	got := specCase{name: c.name, lines: render(c.source, diags, canonical, dump(session, lex))}
	if *update && write {
		c.lines = got.lines
		return
	}
	if diff := cmp.Diff(strings.Join(c.lines, "\n"), strings.Join(got.lines, "\n")); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func readCases(t *testing.T, file string) []specCase {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var cases []specCase
	for i, l := range strings.Split(strings.TrimSuffix(string(text), "\n"), "\n") {
		if strings.HasPrefix(l, "# ") {
			cases = append(cases, specCase{name: l[2:]})
			continue
		}
		if strings.TrimSpace(l) == "" {
			continue
		}
		if len(cases) == 0 || !strings.ContainsRune("|!>=", rune(l[0])) {
			t.Fatalf("%s:%d: a line must begin with #, |, !, > or =", file, i+1)
		}
		c := &cases[len(cases)-1]
		c.lines = append(c.lines, l)
		if l[0] == '|' {
			c.source += strings.TrimPrefix(l[1:], " ") + "\n"
		}
	}
	return cases
}

func writeCases(t *testing.T, file string, cases []specCase) {
	t.Helper()
	var b strings.Builder
	for i, c := range cases {
		if i > 0 {
			b.WriteString("\n")
		}
		fmt.Fprintf(&b, "# %s\n%s\n", c.name, strings.Join(c.lines, "\n"))
	}
	if err := os.WriteFile(file, []byte(b.String()), 0o644); err != nil {
		t.Fatal(err)
	}
}

// render writes a case as it stands in its file.
func render(source string, diags []roomful.Diagnostic, canonical string, dump []string) []string {
	var out []string
	for i, l := range strings.Split(strings.TrimSuffix(source, "\n"), "\n") {
		out = append(out, strings.TrimRight("| "+l, " "))
		for _, d := range diags {
			if d.Range.Start.Line == i+1 {
				out = append(out, marked(d)...)
			}
		}
	}
	for _, l := range strings.Split(strings.TrimSuffix(canonical, "\n"), "\n") {
		out = append(out, strings.TrimRight("> "+l, " "))
	}
	for _, l := range dump {
		out = append(out, "= "+l)
	}
	return out
}

// marked writes a diagnostic under its place.
func marked(d roomful.Diagnostic) []string {
	from := d.Range.Start.Column
	carets := strings.Repeat("^", d.Range.End.Column-from)
	if carets == "" {
		carets = "."
	}
	indent := "! " + strings.Repeat(" ", from-1)
	out := []string{indent + carets + " " + d.Severity.String() + ": " + d.Summary}
	if d.Hint != "" {
		out = append(out, indent+"  hint: "+d.Hint)
	}
	return out
}

// dump writes a session's meaning, one thing to a line, without places and
// words as typed.
func dump(s roomful.Session, lex roomful.Lexicon) []string {
	var out []string
	say := func(format string, args ...any) {
		out = append(out, strings.TrimRight(fmt.Sprintf(format, args...), " "))
	}
	if s.Title != "" || !s.Date.IsZero() || s.Minutes > 0 {
		say("session %q %s %d min again %q", s.Title, dateText(s.Date), s.Minutes, s.Again)
	}
	if s.DateText != "" {
		say("no date %q", s.DateText)
	}
	if s.Divisions != nil {
		say("divisions %q", s.Divisions)
	}
	if s.About != "" {
		say("about %q", s.About)
	}
	if e := s.Effort; e.Stated() || e.Feel != "" || e.Fresh != nil || e.Protect != "" {
		say("effort %g-%g %q feel %q fresh %v protect %q", e.Low, e.High, e.Unit, e.Feel, e.Fresh, e.Protect)
	}
	for _, p := range s.Parts {
		say("%s %s%s", p.Name(), strings.ReplaceAll(fmt.Sprintf("%s%+v", p.Format.Name(), p.Format), "Ladder:{Steps:[] Open:false} ", ""), traits(p))
		for _, b := range []struct {
			name string
			list []roomful.Element
		}{{"once", p.Once}, {"", p.Round}, {"last", p.Last}} {
			for _, e := range b.list {
				say("  %s", strings.TrimSpace(b.name+" "+elementDump(e)))
			}
		}
		for _, st := range p.Standards {
			say("  standard %s %q", st.Movement, st.Text)
		}
		for _, in := range p.Instead {
			for _, e := range in.Options {
				say("  instead %s %s", in.Movement, elementDump(e))
			}
		}
		if p.Note != "" {
			say("  note %q", p.Note)
		}
	}
	return out
}

func dateText(d roomful.Date) string {
	if d.IsZero() {
		return "no date"
	}
	return d.String()
}

func traits(p roomful.Part) string {
	text := ""
	if p.Team.Size > 0 {
		text += fmt.Sprintf(" team %d %s", p.Team.Size, p.Team.Style)
	}
	if p.ScoreBy != "" {
		text += " score " + p.ScoreBy
	}
	if !p.Scored {
		text += " unscored"
	}
	return text
}

func elementDump(e roomful.Element) string {
	name := string(e.Movement)
	if name == "" {
		name = fmt.Sprintf("%q", e.Words)
	}
	text := name
	if e.Amount.Stated() || e.Amount.Unit != roomful.Rep {
		text += fmt.Sprintf(" %v %s", e.Amount.By, e.Amount.Unit)
	}
	if e.Load != nil {
		text += fmt.Sprintf(" %s%v", strings.ToLower(strings.TrimPrefix(fmt.Sprintf("%T", e.Load), "roomful.")), e.Load)
	}
	if e.Implements > 0 {
		text += fmt.Sprintf(" implements %d", e.Implements)
	}
	if e.Heights != nil {
		text += fmt.Sprintf(" high %v", e.Heights)
	}
	if e.Slot > 0 {
		text += fmt.Sprintf(" slot %d", e.Slot)
	}
	if e.Tempo != nil {
		text += fmt.Sprintf(" tempo %v", *e.Tempo)
	}
	if e.Note != "" {
		text += fmt.Sprintf(" note %q", e.Note)
	}
	return text
}
