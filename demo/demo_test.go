package demo_test

import (
	"encoding/csv"
	"io/fs"
	"os"
	"path"
	"strings"
	"testing"

	"roomful"
	"roomful/catalogue"
	"roomful/demo"
	"roomful/exchange"
)

// read returns a file of the gym.
func read(t *testing.T, name string) string {
	t.Helper()
	text, err := fs.ReadFile(demo.Files, name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// sheets returns the text of every sheet by its file name without the ending.
func sheets(t *testing.T) map[string]string {
	t.Helper()
	names, err := fs.Glob(demo.Files, "sheets/*.txt")
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]string{}
	for _, n := range names {
		out[strings.TrimSuffix(path.Base(n), ".txt")] = read(t, n)
	}
	return out
}

// TestStory checks that the README tells of everyone and of every sheet, and of
// nobody else.
func TestStory(t *testing.T) {
	story := readme(t)
	rows, err := csv.NewReader(strings.NewReader(read(t, "people.csv"))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	people := rows[1:]
	if got := strings.Count(section(story, "## Who comes"), "\n| ") - 1; got != len(people) {
		t.Errorf("the README tells of %d people, people.csv has %d", got, len(people))
	}
	for _, p := range people {
		if !strings.Contains(story, "\n| "+p[1]+" | ") {
			t.Errorf("the README does not tell of %s", p[1])
		}
	}
	all := sheets(t)
	if got := strings.Count(section(story, "## The sheets"), "](sheets/"); got != len(all) {
		t.Errorf("the README links %d sheets, there are %d", got, len(all))
	}
	for name, s := range sessions(t) {
		when := midnight(s.Date).Format("2006-01-02 Mon")
		if row := "| " + when + " | [" + s.Title + "](sheets/" + name + ".txt) |"; !strings.Contains(story, row) {
			t.Errorf("the README has no row %q", row)
		}
	}
}

// readme returns the story of the gym.
func readme(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// section returns the text under a heading, up to the next of its kind.
func section(text, heading string) string {
	_, rest, _ := strings.Cut(text, heading+"\n")
	body, _, _ := strings.Cut(rest, "\n## ")
	return body
}

func movements(t *testing.T) *catalogue.Catalogue {
	t.Helper()
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	return lex
}

// TestKit reads the room without a complaint.
func TestKit(t *testing.T) {
	if kit := room(t); kit == nil || kit.Name != "The Drying Floor" {
		t.Errorf("got %+v", kit)
	}
}

// room reads the kit without a complaint.
func room(t *testing.T) *roomful.Kit {
	t.Helper()
	kit, ds := exchange.ReadKit(strings.NewReader(read(t, "kit.yaml")))
	for _, d := range ds {
		t.Errorf("kit.yaml:%d:%d: %s: %s", d.Range.Start.Line, d.Range.Start.Column, d.Summary, d.Hint)
	}
	return kit
}

// TestGym reads the settings without a complaint, with a whole emergency card.
func TestGym(t *testing.T) {
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	gym, ds := exchange.ReadGym(strings.NewReader(read(t, "gym.yaml")), lex)
	for _, d := range ds {
		t.Errorf("gym.yaml:%d:%d: %s: %s", d.Range.Start.Line, d.Range.Start.Column, d.Summary, d.Hint)
	}
	for _, s := range roomful.Settings() {
		if strings.HasPrefix(s.Key, "emergency.") && s.Text(gym) == "" {
			t.Errorf("nobody says %s", s.Key)
		}
	}
}
