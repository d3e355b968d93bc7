package demo_test

import (
	"context"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"maps"
	"reflect"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/catalogue"
	"roomful/day"
	"roomful/demo"
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

// TestShown finds on the sheets everything else that a sheet can say and that
// its README promises.
func TestShown(t *testing.T) {
	shown := map[string]func(roomful.Session, roomful.Part) bool{
		"a buy-in":                func(_ roomful.Session, p roomful.Part) bool { return len(p.Once) > 0 },
		"a cash-out":              func(_ roomful.Session, p roomful.Part) bool { return len(p.Last) > 0 },
		"named divisions":         func(s roomful.Session, _ roomful.Part) bool { return len(s.Divisions) == 2 },
		"partners who share":      func(_ roomful.Session, p roomful.Part) bool { return p.Team.Style == roomful.Shared },
		"partners who take turns": func(_ roomful.Session, p roomful.Part) bool { return p.Team.Style == roomful.Alternating },
		"a score by the slowest":  func(_ roomful.Session, p roomful.Part) bool { return p.ScoreBy == "slowest" },
		"a score by the lowest":   func(_ roomful.Session, p roomful.Part) bool { return p.ScoreBy == "lowest" },
		"a second score":          func(_ roomful.Session, p roomful.Part) bool { return p.Scored && p.Letter == "b" },
		"standards":               func(_ roomful.Session, p roomful.Part) bool { return len(p.Standards) > 0 },
		"what may be done instead": func(_ roomful.Session, p roomful.Part) bool {
			return len(p.Instead) > 0
		},
		"what is protected": func(s roomful.Session, _ roomful.Part) bool { return s.Effort.Protect != "" },
		"a falling ladder": func(_ roomful.Session, p roomful.Part) bool {
			f, ok := p.Format.(roomful.ForTime)
			return ok && len(f.Ladder.Steps) > 0
		},
		"a rising ladder": func(_ roomful.Session, p roomful.Part) bool {
			f, ok := p.Format.(roomful.RoundsInTime)
			return ok && f.Ladder.Open
		},
		"a list for time": func(_ roomful.Session, p roomful.Part) bool {
			f, ok := p.Format.(roomful.ForTime)
			return ok && f.Rounds == 1
		},
		"rounds for time": func(_ roomful.Session, p roomful.Part) bool {
			f, ok := p.Format.(roomful.ForTime)
			return ok && f.Rounds > 1
		},
		"unbroken": func(_ roomful.Session, p roomful.Part) bool {
			f, ok := p.Format.(roomful.AmountInTime)
			return ok && f.Unbroken
		},
		"a heavy set": func(_ roomful.Session, p roomful.Part) bool { f, ok := p.Format.(roomful.Sets); return ok && f.Build },
		"work and rest": func(_ roomful.Session, p roomful.Part) bool {
			f, ok := p.Format.(roomful.Intervals)
			return ok && f.Work > 0
		},
		"bouts of an amount": func(_ roomful.Session, p roomful.Part) bool {
			f, ok := p.Format.(roomful.Intervals)
			return ok && f.Work == 0
		},
	}
	elements := map[string]func(roomful.Element) bool{
		"a share of the maximum": func(e roomful.Element) bool { _, ok := e.Load.(roomful.Percent); return ok },
		"an effort by feel":      func(e roomful.Element) bool { _, ok := e.Load.(roomful.RPE); return ok },
		"a tempo":                func(e roomful.Element) bool { return e.Tempo != nil },
		"two figures of calories": func(e roomful.Element) bool {
			return len(e.Amount.By) == 2 && e.Amount.Unit == roomful.Calorie
		},
		"pounds": func(e roomful.Element) bool {
			m, ok := e.Load.(roomful.Masses)
			return ok && m[0].Unit == roomful.Pound
		},
		"a target":              func(e roomful.Element) bool { return e.Movement == "wall-ball" && len(e.Heights) == 2 },
		"a box":                 func(e roomful.Element) bool { return e.Movement == "box-jump" && len(e.Heights) == 2 },
		"a switch in a warm-up": func(e roomful.Element) bool { return strings.HasPrefix(e.Note, "round 2 ") },
	}
	for _, s := range sessions(t) {
		for _, p := range s.Parts {
			maps.DeleteFunc(shown, func(_ string, is func(roomful.Session, roomful.Part) bool) bool { return is(s, p) })
			for _, e := range slices.Concat(p.Once, p.Round, p.Last) {
				maps.DeleteFunc(elements, func(_ string, is func(roomful.Element) bool) bool { return is(e) })
			}
		}
	}
	for what := range shown {
		t.Errorf("no sheet shows %s", what)
	}
	for what := range elements {
		t.Errorf("no sheet shows %s", what)
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

// What an hour costs besides its parts (common practice, no source).
const (
	briefing  = 4 * time.Minute
	setUp     = 3 * time.Minute // bars, boxes, water, before each piece that has a head of its own
	afterward = 6 * time.Minute // scores and reset
)

// TestHour adds up each sheet, caps and all, and finds that it fits.
func TestHour(t *testing.T) {
	for name, s := range sessions(t) {
		sum := briefing + afterward
		for _, p := range s.Parts {
			sum += onPaper(p)
			if p.Scored && p.Letter != "b" {
				sum += setUp
			}
		}
		if sum > time.Duration(s.Minutes)*time.Minute {
			t.Errorf("%s takes %v of %d minutes", name, sum, s.Minutes)
		}
		if sum < 40*time.Minute {
			t.Errorf("%s takes only %v", name, sum)
		}
	}
}

// onPaper returns how long a part may take: to its cap, where sets have no
// clock three quarters of a minute for each, and where bouts have none a minute.
func onPaper(p roomful.Part) time.Duration {
	switch f := p.Format.(type) {
	case roomful.ForTime:
		return f.Cap
	case roomful.Sets:
		if f.Every == 0 && f.Within == 0 {
			return time.Duration(f.Count) * (f.Rest + time.Duration(len(p.Round))*45*time.Second)
		}
	case roomful.Intervals:
		if f.Work == 0 {
			return time.Duration(f.Count) * (f.Rest + time.Minute)
		}
	}
	return p.Format.Length(len(p.Round))
}

// TestEverybody finds a version for everybody on every piece of every sheet:
// something to do with an amount that is one, or a word to stop.
func TestEverybody(t *testing.T) {
	g := day.New(movements(t))
	people, kit := everybody(t), room(t)
	for name, s := range sessions(t) {
		for _, p := range s.Parts {
			if !p.Scored {
				continue
			}
			// An answer takes half a second on an idle machine. Sixty times that means
			// that something is wrong, not that the machine is busy.
			ctx, cancel := context.WithTimeout(t.Context(), 30*time.Second)
			got, err := g.Versions(ctx, day.Question{Session: s, Piece: p.Name(), People: people, Kit: kit, Runs: 64, Seed: 1}, false)
			cancel()
			if err != nil {
				t.Errorf("%s, %s: %v", name, p.Name(), err)
				continue
			}
			for _, a := range people {
				i := slices.IndexFunc(got.Versions, func(v roomful.Version) bool { return v.Athlete == a.ID })
				if i < 0 || got.Versions[i].Stop == "" && len(got.Versions[i].Choices) == 0 {
					t.Errorf("%s, %s: %s has nothing to do", name, p.Name(), a.Name)
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
