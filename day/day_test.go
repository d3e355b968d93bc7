package day_test

import (
	"context"
	"errors"
	"io/fs"
	"path"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/catalogue"
	"roomful/day"
	"roomful/demo"
	"roomful/exchange"
)

// gym is the demo gym with a day to ask.
type gym struct {
	*day.Day
	people []roomful.Athlete
	kit    *roomful.Kit
	sheets map[string]string
}

func open(t testing.TB) gym {
	t.Helper()
	c, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	g := gym{Day: day.New(c), sheets: map[string]string{}}
	read := func(name string) string {
		text, err := fs.ReadFile(demo.Files, name)
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	var ds, more []roomful.Diagnostic
	g.people, ds = exchange.ReadPeople(strings.NewReader(read("people.csv")), c, roomful.Date{Year: 2027, Month: 2, Day: 1})
	g.kit, more = exchange.ReadKit(strings.NewReader(read("kit.yaml")))
	var settings []roomful.Diagnostic
	g.Gym, settings = exchange.ReadGym(strings.NewReader(read("gym.yaml")), g.Lexicon)
	for _, d := range slices.Concat(ds, more, settings) {
		t.Errorf("the demo's own files: %d:%d %s", d.Range.Start.Line, d.Range.Start.Column, d.Summary)
	}
	names, _ := fs.Glob(demo.Files, "sheets/*.txt")
	for _, n := range names {
		g.sheets[strings.TrimSuffix(path.Base(n), ".txt")] = read(n)
	}
	return g
}

// session reads a sheet that must be right.
func (g gym) session(t testing.TB, text string) roomful.Session {
	t.Helper()
	s, ds := g.Check(t.Context(), text)
	for _, d := range ds {
		if d.Severity == roomful.Fault {
			t.Fatalf("line %d: %s", d.Range.Start.Line, d.Summary)
		}
	}
	return s
}

func (g gym) question(s roomful.Session) day.Question {
	return day.Question{Session: s, People: g.people, Kit: g.kit, Runs: 64, Seed: 1}
}

// withoutEffort takes the effort and its lines out of a sheet.
func withoutEffort(sheet string) string {
	before, after, found := strings.Cut(sheet, "effort:")
	if !found {
		return sheet
	}
	_, after, _ = strings.Cut(after, "\n\n")
	return before + after
}

func TestProposedEffort(t *testing.T) {
	g := open(t)
	unit := map[roomful.ScoreKind]string{roomful.RoundsScore: "rounds", roomful.TimeScore: "minutes", roomful.RepsScore: "reps"}
	for name, text := range g.sheets {
		t.Run(name, func(t *testing.T) {
			s := g.session(t, withoutEffort(text))
			e := s.Effort
			if !e.Stated() || !e.Proposed || e.Low <= 0 || e.High < e.Low {
				t.Fatalf("effort %+v, want a proposed window", e)
			}
			p, _ := s.Piece("main")
			want := unit[roomful.KindOf(p, g.Lexicon)]
			if want == "minutes" && e.High < 300 && e.Low >= 30 { // no sheet here lasts half an hour
				want = "s"
			}
			if e.Unit != want {
				t.Errorf("window %v-%v %s, want %s", e.Low, e.High, e.Unit, want)
			}
		})
	}
}

// TestProposedWindows: what a coach would write for each kind of piece.
func TestProposedWindows(t *testing.T) {
	g := open(t)
	capped := func(e roomful.Effort) bool { return e.Unit == "minutes" && e.High <= 24 }
	for name, c := range map[string]struct {
		sheet string
		holds func(roomful.Effort) bool
	}{
		"every minute is meant to be held": {"EMOM 12\nodd: 12/10 cal row\neven: 10 burpees\n",
			func(e roomful.Effort) bool { return e.Low >= 10 && e.High == 12 }},
		"however hard it is": {"every 90 s x 8\n2 snatches 60/42.5 kg\n",
			func(e roomful.Effort) bool { return !e.Stated() || e.Low >= 7 && e.High == 8 }},
		"a minute of rest is held too": {"EMOM 30\n1: 8 cal row\n2: 10 air squats\n3: 6 burpees\n4: 30 s plank\n5: rest\n",
			func(e roomful.Effort) bool { return e.Low == 27 && e.High == 30 }},
		"not past the cap": {"4 rounds for time, cap 24 min\n500 m ski\n1000 m bike\n20/16 cal fan bike\n", capped},
		"none where the cap stops them": {"3 rounds for time, cap 4 min\n500 m row\n21 burpees\n",
			func(e roomful.Effort) bool { return !e.Stated() }},
		"short work in seconds": {"for time\n30 burpees\n",
			func(e roomful.Effort) bool { return e.Unit == "s" && e.Low >= 60 && e.High < 300 }},
		"one effort, not two": {"every 4 min x 4\n400 m run\n12 pull-ups\nmax push-ups\n",
			func(e roomful.Effort) bool { return e.High <= 1.6*e.Low }},
	} {
		t.Run(name, func(t *testing.T) {
			if e := g.session(t, c.sheet).Effort; e.Low > e.High || !c.holds(e) {
				t.Errorf("proposed %v-%v %s", e.Low, e.High, e.Unit)
			}
		})
	}
}

func TestStatedEffortIsKept(t *testing.T) {
	g := open(t)
	e := g.session(t, g.sheets["eight-ribs"]).Effort
	want := roomful.Effort{Low: 5, High: 7, Unit: "rounds", Feel: "steady", Protect: "pace",
		Fresh: []roomful.FreshRule{{Movement: "deadlift", Reps: 15}}}
	if diff := cmp.Diff(want, e); diff != "" {
		t.Error(diff)
	}
}

// TestProposalIsNotHeldAgainstAnybody: intent is absent when the effort is only
// proposed, and when its window counts something else than the piece scores.
func TestProposalIsNotHeldAgainstAnybody(t *testing.T) {
	g := open(t)
	proposed := g.session(t, withoutEffort(g.sheets["eight-ribs"]))
	stated := g.session(t, g.sheets["eight-ribs"])
	other := stated
	other.Effort.Unit = "minutes"
	for name, c := range map[string]struct {
		session roomful.Session
		held    bool
	}{"stated": {stated, true}, "proposed": {proposed, false}, "of another kind": {other, false}} {
		t.Run(name, func(t *testing.T) {
			f, err := g.Forecast(t.Context(), g.question(c.session), false)
			if err != nil {
				t.Fatal(err)
			}
			for _, a := range f.Athletes {
				if held := a.OnIntent != nil; held != c.held {
					t.Errorf("%s: held to the effort %v, want %v", a.Name, held, c.held)
				}
			}
		})
	}
}

// TestAlone: a person's forecast alone does not depend on who else is asked
// about, and equals that of a list of one.
func TestAlone(t *testing.T) {
	g := open(t)
	q := g.question(g.session(t, g.sheets["eight-ribs"]))
	all, err := g.Forecast(t.Context(), q, true)
	if err != nil {
		t.Fatal(err)
	}
	for i, a := range q.People {
		if a.Like != "" {
			continue
		}
		one := q
		one.People = []roomful.Athlete{a}
		f, err := g.Forecast(t.Context(), one, true)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(all.Athletes[i].Score, f.Athletes[0].Score); diff != "" {
			t.Errorf("%s: %s", a.Name, diff)
		}
	}
}

func TestWorkersDoNotShow(t *testing.T) {
	g := open(t)
	q := g.question(g.session(t, g.sheets["eight-ribs"]))
	q.Runs = 600
	var got [2]day.Forecast
	for i := range got {
		q.Workers = i + 1
		var err error
		if got[i], err = g.Forecast(t.Context(), q, false); err != nil {
			t.Fatal(err)
		}
	}
	for i, a := range got[0].Athletes {
		b := got[1].Athletes[i]
		if a.Score != b.Score || a.Seconds != b.Seconds || !slices.Equal(a.Rounds, b.Rounds) {
			t.Errorf("%s differs between one worker and two", a.Name)
		}
	}
}

// TestLike: somebody of whom nothing is measured leans towards the friend they
// are said to be like.
func TestLike(t *testing.T) {
	g := open(t)
	s := g.session(t, "strength: 5 x 1, every 2 min\n  back squat @ 100 %\n")
	months := 24.0
	friend := roomful.Athlete{ID: "f", Name: "Friend", Division: roomful.DivisionA, Months: &months, Known: []roomful.Known{{Test: roomful.TestSquat, Value: 220}}}
	alike := roomful.Athlete{ID: "x", Name: "Alike", Division: roomful.DivisionA, Months: &months, Like: "friend"}
	plain := alike
	plain.ID, plain.Name, plain.Like = "y", "Plain", ""
	// Two who are like each other must not ask each other for ever.
	friend.Like = "Alike"
	q := g.question(s)
	q.People, q.Kit = []roomful.Athlete{friend, alike, plain}, nil
	f, err := g.Forecast(t.Context(), q, false)
	if err != nil {
		t.Fatal(err)
	}
	if a, p := f.Athletes[1].Score.P50, f.Athletes[2].Score.P50; a <= p {
		t.Errorf("like a friend who squats 220 kg: %v kg, without: %v kg", a, p)
	}
}

func TestRefusals(t *testing.T) {
	g := open(t)
	s := g.session(t, g.sheets["eight-ribs"])
	rowing := g.session(t, "main: for time\n  2000 m row\n")
	warm := g.session(t, "Warm\nwarm-up: 5 min\n  air squat\n")
	cases := []struct {
		name   string
		change func(*day.Question)
		want   string
		hint   string
	}{
		{"nobody", func(q *day.Question) { q.People = nil }, "nobody to forecast", "one line per person"},
		{"no such piece", func(q *day.Question) { q.Piece = "mian" }, `no piece called "mian"`, "main"},
		{"nothing scored", func(q *day.Question) { q.Session = warm }, "no scored piece", "main:"},
		{"no rower", func(q *day.Question) { q.Session, q.Kit = rowing, &roomful.Kit{} }, "the kit has no row", "versions"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			q := g.question(s)
			c.change(&q)
			_, err := g.Forecast(t.Context(), q, false)
			if err == nil || !strings.Contains(err.Error(), c.want) || !strings.Contains(roomful.HintOf(err), c.hint) {
				t.Errorf("got %v (%s), want %s (%s)", err, roomful.HintOf(err), c.want, c.hint)
			}
		})
	}
}

// TestShortages: where fewer can start than come, what is short is named and
// somebody waits; without a kit and alone nobody does.
func TestShortages(t *testing.T) {
	g := open(t)
	q := g.question(g.session(t, "main: 3 rounds for time, in pairs, share the work\n  500 m row\n  10 air squats\n"))
	q.People = g.people[:12]
	q.Kit = &roomful.Kit{Stations: map[string]int{"row": 5, "rig": 8}}
	f, err := g.Forecast(t.Context(), q, false)
	if err != nil {
		t.Fatal(err)
	}
	if len(f.Places) != 1 || f.Places[0].Place != (roomful.Place{Word: "row", Count: 5}) || f.Places[0].Need != 6 || f.Places[0].Busy <= 0 {
		t.Errorf("short of %+v, want 5 rowers for 6 pairs", f.Places)
	}
	var waited float64
	for _, a := range f.Athletes {
		waited += a.WaitMean
	}
	if waited <= 0 {
		t.Error("nobody waits")
	}
	for name, change := range map[string]func(*day.Question) bool{
		"alone":  func(*day.Question) bool { return true },
		"no kit": func(q *day.Question) bool { q.Kit = nil; return false },
	} {
		q := q
		alone := change(&q)
		f, err := g.Forecast(t.Context(), q, alone)
		if err != nil {
			t.Fatal(err)
		}
		if w := f.Athletes[0].WaitMean; w != 0 || f.Places != nil {
			t.Errorf("%s: waits %v s, short of %v", name, w, f.Places)
		}
	}
}

func TestVersionsOfTheDemo(t *testing.T) {
	g := open(t)
	for _, name := range []string{"ferrule", "lost-property"} {
		t.Run(name, func(t *testing.T) {
			v, err := g.Versions(t.Context(), g.question(g.session(t, g.sheets[name])), false)
			if err != nil {
				t.Fatal(err)
			}
			if len(v.Versions) != len(g.people) || len(v.Options) == 0 || len(v.Options) > 4 {
				t.Errorf("%d versions of %d people on %d options", len(v.Versions), len(g.people), len(v.Options))
			}
		})
	}
}

func TestStops(t *testing.T) {
	g := open(t)
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	q := g.question(g.session(t, g.sheets["eight-ribs"]))
	if _, err := g.Forecast(ctx, q, false); !errors.Is(err, context.Canceled) {
		t.Errorf("forecast of a cancelled question: %v", err)
	}
	if _, err := g.Versions(ctx, q, false); !errors.Is(err, context.Canceled) {
		t.Errorf("versions of a cancelled question: %v", err)
	}
}
