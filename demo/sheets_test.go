package demo_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/catalogue"
	"roomful/day"
	"roomful/demo"
	"roomful/exchange"
	"roomful/notation"
)

// sessions reads every sheet, by its file name without the ending.
func sessions(t *testing.T) map[string]roomful.Session {
	t.Helper()
	lex := movements(t)
	out := map[string]roomful.Session{}
	for name, text := range sheets(t) {
		out[name], _ = notation.Read(text, lex)
	}
	return out
}

// howMany people and sheets the README promises.
const (
	howManyPeople = 26
	howManySheets = 16
)

// TestSheets reads every sheet without a word of complaint, and finds it in the
// form that the program itself would write.
func TestSheets(t *testing.T) {
	lex := movements(t)
	all := sheets(t)
	if len(all) != howManySheets {
		t.Errorf("%d sheets, want %d", len(all), howManySheets)
	}
	days := map[roomful.Date]string{}
	for name, text := range all {
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
		if s.About == "" || s.Effort.Feel == "" {
			t.Errorf("%s has no story or no effort", name)
		}
	}
}

// TestFormats finds every format there is on some sheet. What there is, is read
// from the source of the root: a format added there is missed here.
func TestFormats(t *testing.T) {
	missing := formats(t)
	if len(missing) < 8 {
		t.Fatalf("found only the formats %v", missing)
	}
	for _, s := range sessions(t) {
		for _, p := range s.Parts {
			delete(missing, reflect.TypeOf(p.Format).Name())
		}
	}
	for name := range missing {
		t.Errorf("no sheet shows the format %s", name)
	}
}

// formats returns the types of the root that have the methods of a Format.
func formats(t *testing.T) map[string]bool {
	t.Helper()
	file, err := parser.ParseFile(token.NewFileSet(), "../part.go", nil, 0)
	if err != nil {
		t.Fatal(err)
	}
	out := map[string]bool{}
	for _, d := range file.Decls {
		f, ok := d.(*ast.FuncDecl)
		if !ok || f.Recv == nil || f.Name.Name != "Length" {
			continue
		}
		if receiver, ok := f.Recv.List[0].Type.(*ast.Ident); ok {
			out[receiver.Name] = true
		}
	}
	return out
}

// shown is what the sheets show besides formats, by the words of the notation.
// TestSheets holds them to the one form in which these are written.
var shown = map[string]string{
	"a buy-in":                 `^  once:$`,
	"a cash-out":               `^  last:$`,
	"standards":                `^  standards:$`,
	"what may be done instead": `^  instead:$`,
	"what is protected":        `^  protect: `,
	"a load by repetitions":    `^  .*: fresh \d+\+$`,
	"named divisions":          `^divisions: \w+, \w+$`,
	"a list for time":          `^main: for time, cap`,
	"rounds for time":          `^main: \d rounds for time, cap`,
	"a falling ladder":         `^main: 21-15-9 for time`,
	"a rising ladder":          `^main b: .*, 3-6-9-\.\.\.$`,
	"odd and even":             `^  odd: .*\n  even: `,
	"a longer interval":        `^main: every 2:30 x 5$`,
	"bouts of an amount":       `^main: 6 intervals, rest`,
	"work and rest":            `^main b: 8 x 20 s work / 10 s rest`,
	"partners who share":       `in pairs, share the work$`,
	"partners who take turns":  `in pairs, you go I go`,
	"a score by the slowest":   `score is slowest$`,
	"a score by the lowest":    `score is lowest$`,
	"a score by the total":     `score is total$`,
	"unbroken":                 `min, unbroken$`,
	"a heavy three":            `^strength: build to a heavy 3, in`,
	"a share of the maximum":   `^strength: 5 x 5.*\n.* @ 75 %$`,
	"an effort by feel":        ` RPE \d$`,
	"a tempo":                  ` tempo 32X1$`,
	"two figures of calories":  `\d+/\d+ cal row$`,
	"pounds":                   ` 95/65 lb$`,
	"a target":                 `wall balls 9/6 kg 3/2\.7 m$`,
	"a box in inches":          `box jumps 24/20 in$`,
	"a switch in a warm-up":    `^  ring row; round 2 pull-up$`,
}

// TestShown finds all of it.
func TestShown(t *testing.T) {
	all := strings.Join(slices.Collect(maps.Values(sheets(t))), "\n")
	for what, pattern := range shown {
		if !regexp.MustCompile("(?m)" + pattern).MatchString(all) {
			t.Errorf("no sheet shows %s: %s", what, pattern)
		}
	}
}

// TestRetests finds each retest eight to twelve weeks behind the sheet it
// repeats, and the same from the effort on: warm-up, kit and standard decide
// whether two scores can be compared.
func TestRetests(t *testing.T) {
	all, texts := sessions(t), sheets(t)
	byTitle := map[string]string{}
	for name, s := range all {
		byTitle[s.Title] = name
	}
	n := 0
	for name, s := range all {
		if s.Again == "" {
			continue
		}
		n++
		first, ok := byTitle[s.Again]
		if !ok {
			t.Errorf("%s repeats %q, which is no sheet", name, s.Again)
			continue
		}
		if weeks := midnight(s.Date).Sub(midnight(all[first].Date)).Hours() / 24 / 7; weeks < 8 || weeks > 12 {
			t.Errorf("%s comes %.1f weeks after %s, want 8 to 12", name, weeks, first)
		}
		_, earlier, _ := strings.Cut(texts[first], "\neffort:")
		_, later, _ := strings.Cut(texts[name], "\neffort:")
		if diff := cmp.Diff(earlier, later); diff != "" {
			t.Errorf("%s is not the same piece as %s (-first +again):\n%s", name, first, diff)
		}
	}
	if n < 3 {
		t.Errorf("%d retests, want 3 at least", n)
	}
}

// midnight returns the start of a date.
func midnight(d roomful.Date) time.Time {
	return time.Date(d.Year, d.Month, d.Day, 0, 0, 0, 0, time.UTC)
}

// TestHour lays out the hour for those who came on a sheet's own day, and finds
// that it fits, set-up, scores and all.
func TestHour(t *testing.T) {
	g := day.New(movements(t))
	g.Gym, _ = exchange.ReadGym(strings.NewReader(read(t, "gym.yaml")), g.Lexicon)
	people, kit := everybody(t), room(t)
	came := map[[2]string]bool{}
	for _, a := range attempts(t) {
		came[[2]string{a.date, a.name}] = true
	}
	for name, s := range sessions(t) {
		if s.Again != "" { // as long as what it repeats, word for word
			continue
		}
		q := day.HourQuestion{Question: day.Question{Session: s, Kit: kit, Runs: 32, Seed: 1}}
		for _, a := range people {
			if came[[2]string{midnight(s.Date).Format(time.DateOnly), a.Name}] {
				q.People = append(q.People, a)
			}
		}
		hour, err := g.Hour(t.Context(), q)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if end := hour.Lines[len(hour.Lines)-1].End; end > hour.Length || end < 40*time.Minute {
			t.Errorf("%s with %d people takes %v of %v", name, len(q.People), end, hour.Length)
		}
		for _, u := range hour.Places {
			if u.Busy > 1.001 || u.WaitMean < 0 {
				t.Errorf("%s: %s is in use %.2f of the time", name, u.Word, u.Busy)
			}
		}
		for _, f := range hour.Fixes {
			if f.Say == "" || strings.Contains(f.Say, ": 0 ") {
				t.Errorf("%s: %s, with nothing to say: %q", name, f.What, f.Say)
			}
		}
	}
}

// TestEverybody finds versions on every piece of every sheet, for a third of the
// people on each: something to do with an amount that is one, or a word to stop.
func TestEverybody(t *testing.T) {
	g := day.New(movements(t))
	everyone, kit, sheets := everybody(t), room(t), sessions(t)
	for n, name := range slices.Sorted(maps.Keys(sheets)) {
		s := sheets[name]
		if s.Again != "" { // a retest is what it repeats, word for word
			continue
		}
		var people []roomful.Athlete
		for i, a := range everyone {
			if (i+n)%3 == 0 {
				people = append(people, a)
			}
		}
		got, err := g.Versions(t.Context(), day.Question{Session: s, People: people, Kit: kit, Runs: 8, Seed: 1}, false)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		scored := slices.DeleteFunc(slices.Clone(s.Parts), func(p roomful.Part) bool { return !p.Scored })
		if len(got.Pieces) != len(scored) {
			t.Errorf("%s: versions of %d pieces, want %d", name, len(got.Pieces), len(scored))
		}
		for _, p := range got.Pieces {
			for _, a := range people {
				i := slices.IndexFunc(p.Versions, func(v roomful.Version) bool { return v.Athlete == a.ID })
				if i < 0 || p.Versions[i].Stop == "" && len(p.Versions[i].Choices) == 0 {
					t.Errorf("%s, %s: %s has nothing to do", name, p.Piece.Name(), a.Name)
				}
			}
		}
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
