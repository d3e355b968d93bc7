package exchange_test

import (
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/catalogue"
	"roomful/exchange"
)

// usualBut is a gym of the defaults with a few settings of its own.
func usualBut(change func(*roomful.Gym), own ...string) roomful.Gym {
	g := roomful.DefaultGym()
	change(&g)
	g.Own = own
	return g
}

// TestReadGym reads settings as a coach writes them.
func TestReadGym(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       roomful.Gym
	}{
		{"a few", "name: The Boat Shed\nzone: Europe/London\nunit: kg\nsmallest_pair: 1\n", usualBut(func(g *roomful.Gym) {
			g.Name, g.Zone, g.SmallestPair = "The Boat Shed", "Europe/London", roomful.Kg(1)
		}, "name", "zone", "unit", "smallest_pair")},
		{"pounds have their own pair", "unit: lb\n", usualBut(func(g *roomful.Gym) {
			g.Unit, g.SmallestPair = roomful.Pound, roomful.Lb(5)
		}, "unit")},
		{"the unit holds wherever it stands", "smallest_pair: 10\nunit: lb\n", usualBut(func(g *roomful.Gym) {
			g.Unit, g.SmallestPair = roomful.Pound, roomful.Lb(10)
		}, "unit", "smallest_pair")},
		{"sections", "weeks:\n  impact_days: 3\n  windows: {heavy: 2-3}\nhour:\n  briefing: 3:30\n  taught: 60 s\n  scores: 2 min\n", usualBut(func(g *roomful.Gym) {
			g.Hour.Briefing, g.Hour.Taught, g.Hour.Scores = 210*time.Second, time.Minute, 2*time.Minute
			g.Weeks.ImpactDays, g.Weeks.Windows.Heavy = 3, roomful.Span{Least: 2, Most: 3}
		}, "hour.briefing", "hour.taught", "hour.scores", "weeks.impact_days", "weeks.windows.heavy")},
		{"ratios by any name", "ratios: {row: {ski: 1, Running: 0.8}, pull-ups: {ring-row: 1.5}}\n", usualBut(func(g *roomful.Gym) {
			g.Ratios = roomful.Ratios{"row": {"ski": 1, "run": 0.8}, "pull-up": {"ring-row": 1.5}}
		}, "ratios")},
		{"the same as usual is its own all the same", "cap_policy: repetitions done\n", usualBut(func(*roomful.Gym) {}, "cap_policy")},
		{"words over several lines", "emergency:\n  number: 112\n  calls: >\n    Whoever\n    coaches.\n", usualBut(func(g *roomful.Gym) {
			g.Emergency.Number, g.Emergency.Calls = "112", "Whoever coaches."
		}, "emergency.number", "emergency.calls")},
		{"cautions", "cautions:\n  add: {pain: Tell Una.}\n  replace: {new: Ask first.}\n", usualBut(func(g *roomful.Gym) {
			g.Cautions.Add.Pain, g.Cautions.Replace.New = "Tell Una.", "Ask first."
		}, "cautions.add.pain", "cautions.replace.new")},
		{"nothing below a section", "hour:\nratios: {}\n", roomful.DefaultGym()},
	} {
		got, ds := exchange.ReadGym(strings.NewReader(c.text), movements(t))
		if len(ds) > 0 {
			t.Errorf("%s: %s", c.name, spots(ds))
		}
		if diff := cmp.Diff(c.want, got); diff != "" {
			t.Errorf("%s: %s", c.name, diff)
		}
	}
}

// TestGymDiagnostics says what is wrong at its place and keeps the usual there.
func TestGymDiagnostics(t *testing.T) {
	for _, c := range []struct {
		text string
		want []string
	}{
		{"", []string{"1:1-1 error: the file of settings is empty | start with name: and unit: kg"}},
		{"hello", []string{"1:1-6 error: a list of keys was expected here | write key: value lines"}},
		{"zones: x", []string{`1:1-6 error: key "zones" is not known | did you mean zone?`}},
		{"hour:\n  breifing: 4 min", []string{`2:3-11 error: key "breifing" is not known | did you mean briefing?`}},
		{"weeks: {windows: {light: 2}}", []string{`1:19-24 error: key "light" is not known | keys here are heavy, under_5, 5_to_10, 10_to_20, over_20`}},
		{"smallest_pair: -2", []string{"1:16-18 error: smallest_pair -2 cannot be right | it lies between 0.25 and 50"}},
		{"hour: {briefing: 4}", []string{`1:18-19 error: hour.briefing "4" is no length of time | write it as 4 min`}},
		{"hour: {briefing: }", []string{`1:8-16 error: hour.briefing "" is no length of time | write it as 4 min`}},
		{"hour: [4 min]", []string{"1:7-8 error: a list of keys was expected here | write key: value lines"}},
		{"name: [a]", []string{"1:7-8 error: a word was expected here | write a word"}},
		{"cautions: {replace: {stop: Carry on.}}", []string{
			"1:22-26 error: the caution stop says when to seek help or what is published, and cannot be replaced | write your words under add, they stand after ours"}},
		{"hour:\n  amber: 61 min", []string{"2:10-16 error: hour.amber 61 min is more than hour.red 60 min | mend one of the two"}},
		{"weeks:\n  retest_latest: 6", []string{"2:18-19 error: weeks.retest_soonest 8 weeks is more than weeks.retest_latest 6 weeks | mend one of the two"}},
		{"ratios: 2", []string{`1:9-10 error: ratios "2" is no list of ratios | write row: {ski: 1, bike: 2} below it`}},
		{"ratios: {row: 2}", []string{"1:15-16 error: ratios were expected here | write them as {ski: 1, bike: 2}"}},
		{"ratios: {thruter: {row: 1}}", []string{`1:10-17 error: "thruter" is not a movement | did you mean thruster?`}},
		{"ratios: {pull-up: {ring-row: 1}, pullups: {ring-row: 2}}", []string{"1:34-41 error: pull-up is given twice | put all its ratios in one place"}},
		{"ratios: {row: {bikke: 1}}", []string{`1:16-21 error: "bikke" is not a movement | did you mean bike?`}},
		{"ratios: {row: {bike: 0, ski: two}}", []string{
			"1:22-23 error: bike 0 cannot be right | it lies between 0.01 and 100", "1:30-33 error: ski is not a number | write a plain number"}},
		{"ratios: {row: {row: 1}}", []string{"1:16-19 error: row stands for itself | leave it out"}},
		{"ratios: {pull-up: {ring-row: 1, ring rows: 2}}", []string{"1:33-42 error: ring-row is given twice for pull-up | keep the right one"}},
		{"ratios: {run: {double-under: 0.2}}", []string{
			"1:16-28 warning: run and double-under are not counted alike, so this ratio is never used | a ratio is of repetitions or of metres; leave it out, and they take the same time"}},
	} {
		got, ds := exchange.ReadGym(strings.NewReader(c.text), movements(t))
		if diff := cmp.Diff(c.want, spots(ds)); diff != "" {
			t.Errorf("%q: %s", c.text, diff)
		}
		if got.Unit != roomful.Kilogram || got.SmallestPair != roomful.Kg(2.5) || got.Hour.Briefing != 4*time.Minute {
			t.Errorf("%q: what is usual is gone: %+v", c.text, got)
		}
	}
}

// TestReadGymWithoutLexicon takes the movements of the ratios as written.
func TestReadGymWithoutLexicon(t *testing.T) {
	got, ds := exchange.ReadGym(strings.NewReader("ratios: {row: {Sledge: 3}}"), nil)
	if want := (roomful.Ratios{"row": {"sledge": 3}}); len(ds) > 0 || !cmp.Equal(want, got.Ratios) {
		t.Errorf("got %v, %s", got.Ratios, spots(ds))
	}
}

// movements is the catalogue, loaded once.
func movements(t testing.TB) roomful.Lexicon {
	t.Helper()
	c, err := loaded()
	if err != nil {
		t.Fatal(err)
	}
	return c
}

var loaded = sync.OnceValues(catalogue.Load)

// FuzzReadGym holds that whatever is read stays in its range, so that nobody
// after this has to ask again.
func FuzzReadGym(f *testing.F) {
	f.Add("name: x\nhour: {briefing: 4:00}\nratios: {row: {ski: 1}}\n")
	f.Add("unit: lb\nsmallest_pair: 2\nweeks:\n  windows: {heavy: 1-2}\n")
	f.Add("cautions: {replace: {stop: x}}\nemergency: {number: 112}")
	f.Add("- &a [*a]\n!!x y")
	lex := movements(f)
	f.Fuzz(func(t *testing.T, text string) {
		g, _ := exchange.ReadGym(strings.NewReader(text), lex)
		for _, s := range roomful.Settings() {
			if v, ok := s.Figure(g); ok && (v < s.Least || v > s.Most) {
				t.Errorf("%s is %v", s.Key, v)
			}
			if _, isList := s.In(&g).(*roomful.Ratios); s.Text(g) != "" && !isList {
				again := g
				if err := s.Set(&again, s.Text(g)); err != nil || s.Text(again) != s.Text(g) {
					t.Errorf("%s %q does not read back: %q, %v", s.Key, s.Text(g), s.Text(again), err)
				}
			}
		}
		for from, to := range g.Ratios {
			for id, v := range to {
				if v < 0.01 || v > 100 || lex.Movement(from) == nil || lex.Movement(id) == nil {
					t.Errorf("ratio %s to %s is %v", from, id, v)
				}
			}
		}
	})
}
