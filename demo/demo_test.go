package demo_test

import (
	"encoding/csv"
	"io/fs"
	"os"
	"path"
	"strings"
	"testing"

	"roomful/demo"
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
	text, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	story := string(text)
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
	if got := strings.Count(section(story, "## The week"), "](sheets/"); got != len(all) {
		t.Errorf("the README links %d sheets, there are %d", got, len(all))
	}
	for name, sheet := range all {
		title, _, _ := strings.Cut(sheet, "\n")
		if !strings.Contains(story, "["+title+"](sheets/"+name+".txt)") {
			t.Errorf("the README does not link %q to sheets/%s.txt", title, name)
		}
	}
}

// section returns the text under a heading, up to the next of its kind.
func section(text, heading string) string {
	_, rest, _ := strings.Cut(text, heading+"\n")
	body, _, _ := strings.Cut(rest, "\n## ")
	return body
}
