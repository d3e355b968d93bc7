package demo_test

import (
	"encoding/csv"
	"io/fs"
	"os"
	"path"
	"strings"
	"testing"
	"time"

	"github.com/goccy/go-yaml"
	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/catalogue"
	"roomful/demo"
	"roomful/exchange"
	"roomful/notation"
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

func movements(t *testing.T) *catalogue.Catalogue {
	t.Helper()
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	return lex
}

// TestSheets reads every sheet without a word of complaint, and finds it in the
// form that the program itself would write.
func TestSheets(t *testing.T) {
	lex := movements(t)
	formats, days := map[string]bool{}, map[roomful.Date]string{}
	for name, text := range sheets(t) {
		s, ds := notation.Read(text, lex)
		for _, d := range ds {
			t.Errorf("%s:%d:%d: %s: %s", name, d.Range.Start.Line, d.Range.Start.Column, d.Summary, d.Hint)
		}
		if diff := cmp.Diff(text, notation.Print(s, lex)); diff != "" {
			t.Errorf("%s is not in canonical form (-it +canonical):\n%s", name, diff)
		}
		if other, taken := days[s.Date]; taken {
			t.Errorf("%s and %s are on one day", name, other)
		}
		days[s.Date] = name
		for _, p := range s.Parts {
			formats[p.Format.Name()] = true
		}
	}
	for _, f := range []string{"rounds-in-time", "for-time", "every", "stations", "sets", "unscored"} {
		if !formats[f] {
			t.Errorf("no sheet shows the format %s", f)
		}
	}
}

// TestPeople reads everyone without a complaint and finds the difficulties that
// the demo is there to show.
func TestPeople(t *testing.T) {
	today := roomful.Date{Year: 2027, Month: time.February, Day: 1}
	people, ds := exchange.ReadPeople(strings.NewReader(read(t, "people.csv")), movements(t), today)
	for _, d := range ds {
		t.Errorf("people.csv:%d:%d: %s: %s", d.Range.Start.Line, d.Range.Start.Column, d.Summary, d.Hint)
	}
	shown := map[string]func(roomful.Athlete) bool{
		"a sore back":      func(a roomful.Athlete) bool { return a.Has("back") },
		"a sore knee":      func(a roomful.Athlete) bool { return a.Has("knee") },
		"a pregnancy":      func(a roomful.Athlete) bool { return a.Has("pregnant") },
		"a return":         func(a roomful.Athlete) bool { return a.Has("returning") },
		"someone under 18": func(a roomful.Athlete) bool { years, ok := a.Age(today); return ok && years < 18 },
		"someone over 65":  func(a roomful.Athlete) bool { years, ok := a.Age(today); return ok && years > 65 },
		"pounds":           func(a roomful.Athlete) bool { return a.Unit == roomful.Pound },
		"a home":           func(a roomful.Athlete) bool { return a.Home != nil },
		"a likeness":       func(a roomful.Athlete) bool { return a.Like != "" },
		"nothing but a name": func(a roomful.Athlete) bool {
			return a.Born.Year == 0 && a.MassKg == 0 && a.Months == nil && len(a.Known) == 0 && a.Like == ""
		},
	}
	for _, a := range people {
		for what, is := range shown {
			if is(a) {
				delete(shown, what)
			}
		}
	}
	for what := range shown {
		t.Errorf("nobody in people.csv shows %s", what)
	}
}

// TestKit reads the room without a complaint.
func TestKit(t *testing.T) {
	kit, ds := exchange.ReadKit(strings.NewReader(read(t, "kit.yaml")))
	for _, d := range ds {
		t.Errorf("kit.yaml:%d:%d: %s: %s", d.Range.Start.Line, d.Range.Start.Column, d.Summary, d.Hint)
	}
	if kit == nil || kit.Name != "The Drying Floor" {
		t.Errorf("got %+v", kit)
	}
}

// TestGym holds the settings to the keys that there are.
func TestGym(t *testing.T) {
	var gym struct {
		Name, Zone, Unit string
		SmallestPair     float64 `yaml:"smallest_pair"`
	}
	err := yaml.UnmarshalWithOptions([]byte(read(t, "gym.yaml")), &gym, yaml.Strict())
	if err != nil {
		t.Fatal(err)
	}
	if _, err := time.LoadLocation(gym.Zone); err != nil || gym.SmallestPair <= 0 {
		t.Errorf("zone %q: %v, smallest pair %g", gym.Zone, err, gym.SmallestPair)
	}
}

// BenchmarkRead reads the week; the figure of interest is µs/sheet.
func BenchmarkRead(b *testing.B) {
	lex, err := catalogue.Load()
	if err != nil {
		b.Fatal(err)
	}
	names, err := fs.Glob(demo.Files, "sheets/*.txt")
	if err != nil {
		b.Fatal(err)
	}
	var texts []string
	for _, n := range names {
		text, err := fs.ReadFile(demo.Files, n)
		if err != nil {
			b.Fatal(err)
		}
		texts = append(texts, string(text))
	}
	for b.Loop() {
		for _, text := range texts {
			notation.Read(text, lex)
		}
	}
	b.ReportMetric(float64(b.Elapsed().Microseconds())/float64(b.N*len(texts)), "µs/sheet")
}
