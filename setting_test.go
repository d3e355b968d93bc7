package roomful_test

import (
	"fmt"
	"os"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"roomful"
)

// TestEveryFieldIsASetting walks the fields of a gym: each is kept by exactly
// one setting, apart from the list of what is its own.
func TestEveryFieldIsASetting(t *testing.T) {
	g := roomful.DefaultGym()
	kept := map[any]string{}
	for _, s := range roomful.Settings() {
		if at := s.In(&g); kept[at] != "" {
			t.Errorf("%s is kept where %s is", s.Key, kept[at])
		}
		kept[s.In(&g)] = s.Key
	}
	var walk func(v reflect.Value, path string)
	walk = func(v reflect.Value, path string) {
		_, found := kept[v.Addr().Interface()]
		switch {
		case found:
			delete(kept, v.Addr().Interface())
		case v.Kind() == reflect.Struct && path != "Gym.SmallestPair":
			for i := range v.NumField() {
				walk(v.Field(i), path+"."+v.Type().Field(i).Name)
			}
		case path != "Gym.Own":
			t.Errorf("%s is no setting", path)
		}
	}
	walk(reflect.ValueOf(&g).Elem(), "Gym")
	for _, key := range kept {
		t.Errorf("%s is kept outside the gym", key)
	}
}

// TestDefaultsAreWhatTheySay sets each default and reads it back: it is in its
// range, changes nothing, and says where it comes from.
func TestDefaultsAreWhatTheySay(t *testing.T) {
	usual := roomful.DefaultGym()
	for _, s := range roomful.Settings() {
		if s.Help == "" || s.Source == "" {
			t.Errorf("%s has no words or no source", s.Key)
		}
		if s.Default == "" {
			continue
		}
		g := roomful.DefaultGym()
		if err := s.Set(&g, s.Default); err != nil {
			t.Errorf("%s: %v", s.Key, err)
		}
		if err := s.Set(&g, s.Text(g)); err != nil {
			t.Errorf("%s as it is printed: %v", s.Key, err)
		}
		if diff := cmp.Diff(usual, g); diff != "" {
			t.Errorf("%s does not read back:\n%s", s.Key, diff)
		}
	}
	lb := roomful.Gym{Unit: roomful.Pound}
	for _, s := range roomful.Settings() {
		if s.Key == "smallest_pair" {
			if err := s.Set(&lb, s.DefaultIn(lb.Unit)); err != nil || lb.SmallestPair != roomful.Lb(5) {
				t.Errorf("in pounds: %v, %v", lb.SmallestPair, err)
			}
		}
	}
}

// TestDefaultGym holds a few defaults to what a coach would say: a class of 60
// minutes has 28 left for work when a briefing of 4, a warm-up of 8, 10 for the
// ramp, 4 for changing over and 6 for the end are paid (common practice, no
// source).
func TestDefaultGym(t *testing.T) {
	h := roomful.DefaultGym().Hour
	ramp := 4*(h.RampSet+h.RampRest) + h.RampSet + h.Practice
	paid := h.Briefing + h.WarmUp + ramp + 2*h.Changeover + h.Scores + h.Reset
	if left := h.Length - paid; left != 28*time.Minute {
		t.Errorf("%v left for work, want 28 min", left)
	}
}

// TestStopRule adds a gym's words to the signs and takes none away.
func TestStopRule(t *testing.T) {
	for _, own := range []string{"", "Ring Una."} {
		got := roomful.Emergency{Stop: own}.StopRule()
		if !strings.HasPrefix(got, roomful.StopSigns) || !strings.HasSuffix(got, own) || got != strings.TrimSpace(got) {
			t.Errorf("%q gives %q", own, got)
		}
	}
}

// settingCalled finds a setting.
func settingCalled(t *testing.T, key string) roomful.Setting {
	t.Helper()
	for _, s := range roomful.Settings() {
		if s.Key == key {
			return s
		}
	}
	t.Fatalf("there is no %s", key)
	return roomful.Setting{}
}

// TestSet reads what people write, and writes it as gym.yaml would.
func TestSet(t *testing.T) {
	for _, c := range []struct{ key, text, want string }{
		{"hour.briefing", "5 min", "5 min"},
		{"hour.briefing", "90 s", "1 min 30 s"},
		{"hour.briefing", "4:30", "4 min 30 s"},
		{"hour.briefing", "1 min 30 s", "1 min 30 s"},
		{"hour.briefing", "2,5 minutes", "2 min 30 s"},
		{"hour.taught", "1 min", "60 s"},
		{"hour.scores", "45 s", "45 s"},
		{"hour.ramp_rest", "2 min", "120 s"},
		{"weeks.heavy_gap", "3 days", "72 h"},
		{"weeks.heavy_gap", "90 min", "90 min"},
		{"weeks.impact_days", "1 day", "1 day"},
		{"weeks.retest_latest", "12", "12 weeks"},
		{"weeks.windows.heavy", "1 to 3 days", "1-3 days"},
		{"weeks.windows.heavy", "2–2", "2 days"},
		{"weeks.new_eccentric", "40", "40 %"},
		{"smallest_pair", "1", "1 kg"},
		{"smallest_pair", "1.25 kg", "1.25 kg"},
		{"cap_policy", "No score", "no score"},
		{"zone", "Europe/London", "Europe/London"},
		{"emergency.number", " 112 ", "112"},
	} {
		g, s := roomful.DefaultGym(), settingCalled(t, c.key)
		if err := s.Set(&g, c.text); err != nil || s.Text(g) != c.want {
			t.Errorf("%s %q is %q, want %q; %v", c.key, c.text, s.Text(g), c.want, err)
		}
	}
}

// TestSetRefuses says what is wrong with what cannot be meant, and leaves the
// gym alone.
func TestSetRefuses(t *testing.T) {
	for _, c := range []struct{ key, text, want, hint string }{
		{"hour.briefing", "4", `hour.briefing "4" is no length of time`, "write it as 4 min"},
		{"hour.briefing", "4 parsecs", `hour.briefing "4 parsecs" is no length of time`, "write it as 4 min"},
		{"hour.briefing", "4:70", `hour.briefing "4:70" is no length of time`, "write it as 4 min"},
		{"hour.briefing", "", `hour.briefing "" is no length of time`, "write it as 4 min"},
		{"hour.briefing", "16 min", "hour.briefing 16 min cannot be right", "it lies between 0 and 15 min"},
		{"hour.length", "5 min", "hour.length 5 min cannot be right", "it lies between 20 and 180 min"},
		{"hour.briefing", strings.Repeat("9999 days ", 200), "", "write it as 4 min"},
		{"weeks.impact_days", "1.5", `weeks.impact_days "1.5" is not a whole number`, "write a whole number"},
		{"weeks.impact_days", "-1", "weeks.impact_days -1 cannot be right", "it lies between 1 and 7 days"},
		{"weeks.windows.heavy", "3-1", `weeks.windows.heavy "3-1" is no span of whole numbers`, "write it as 1-2, or as 2"},
		{"weeks.windows.heavy", "1-9", "weeks.windows.heavy 1-9 cannot be right", "it lies between 0 and 7 days"},
		{"smallest_pair", "5 lb", `smallest_pair "5 lb" is no number`, "write it as 2.5 kg"},
		{"smallest_pair", "1e1", `smallest_pair "1e1" is no number`, "write it as 2.5 kg"},
		{"cap_policy", "no", `cap_policy "no" is none of the policies`, "write repetitions done, no score or finish anyway"},
		{"unit", "stone", `unit "stone" is neither kg nor lb`, "write kg or lb"},
		{"zone", "Europe/Londn", `zone "Europe/Londn" is no time zone I know`, "write its continent and city, such as Europe/London"},
		{"ratios", "2", `ratios "2" is no list of ratios`, "write row: {ski: 1, bike: 2} below it"},
	} {
		g := roomful.DefaultGym()
		err := settingCalled(t, c.key).Set(&g, c.text)
		if err == nil || c.want != "" && err.Error() != c.want || roomful.HintOf(err) != c.hint {
			t.Errorf("%s %q: %v (%s)", c.key, c.text, err, roomful.HintOf(err))
		}
		if diff := cmp.Diff(roomful.DefaultGym(), g); diff != "" {
			t.Errorf("%s %q changed the gym:\n%s", c.key, c.text, diff)
		}
	}
}

// TestRatios converts by what a gym says. The distances are the chart that many
// gyms have on the wall: a row of 500 m, a ski of 500, a bike of 1000, a run of
// 400 (common practice, no source).
func TestRatios(t *testing.T) {
	r := roomful.Ratios{
		"row":          {"ski": 1, "bike": 2, "fan-bike": 2.4, "run": 0.8},
		"double-under": {"single-under": 2},
		"muscle-up":    {"pull-up": 3, "ring-dip": 2},
	}
	for _, c := range []struct {
		from, to roomful.MovementID
		unit     roomful.Unit
		want     float64
	}{
		{"row", "bike", roomful.Metre, 2},
		{"row", "bike", roomful.Kilometre, 2},
		{"bike", "row", roomful.Metre, 0.5},
		{"run", "bike", roomful.Metre, 2.5},
		{"ski", "run", roomful.Metre, 0.8},
		{"row", "bike", roomful.Calorie, 0},
		{"row", "bike", roomful.Second, 0},
		{"double-under", "single-under", roomful.Rep, 2},
		{"single-under", "double-under", roomful.Rep, 0.5},
		{"pull-up", "ring-dip", roomful.Rep, 0}, // three pulls and two pushes: a pull is no push
		{"pull-up", "ring-row", roomful.Rep, 0},
	} {
		if got := r.For(c.from, c.to, c.unit); got != c.want {
			t.Errorf("%s for %s in %s: %v, want %v", c.to, c.from, c.unit, got, c.want)
		}
	}
	if got := (roomful.Ratios)(nil).For("row", "bike", roomful.Metre); got != 0 {
		t.Errorf("a gym without ratios says %v", got)
	}
}

// TestSettingsDocument holds doc/settings.md to the table.
func TestSettingsDocument(t *testing.T) {
	const name = "doc/settings.md"
	want := settingsDocument()
	if *update {
		if err := os.WriteFile(name, []byte(want), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	got, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	if diff := cmp.Diff(want, string(got)); diff != "" {
		t.Errorf("%s is not what the program reads; go test -run TestSettingsDocument -update . writes it:\n%s", name, diff)
	}
}

// settingsDocument is the table as Markdown.
func settingsDocument() string {
	var b strings.Builder
	b.WriteString(`# The settings of a gym

Everything that your gym may like otherwise than another stands in one file,
` + "`gym.yaml`" + `. All of it is optional. What you leave out is as usual, and this page
says what that is and where it comes from. "Common practice, no source" is a
habit that many coaches share and nobody has measured.

` + "```" + `
roomful settings --gym gym.yaml
roomful versions --sheet tomorrow.txt --people people.csv --gym gym.yaml
` + "```" + `

The first prints every setting and marks your own. A key with dots is a path:
` + "`hour.briefing`" + ` stands as ` + "`briefing`" + ` below ` + "`hour`" + `, as in
[the demo's file](../demo/gym.yaml).

- Lengths of time are written ` + "`4 min`, `90 s`, `4:30`, `48 h` or `2 days`" + `.
- Ratios are so much of another movement for one of the first, in repetitions or
  metres: ` + "`row: {ski: 1, bike: 2}`" + `. They hold both ways. What the sheet says under
  ` + "`instead`" + ` comes first, then these, then the catalogue's own. Where nobody says
  anything, the swap takes the same time for the person.
- Your words on cautions stand beside ours. They never take away when to seek
  help, nor that local rules and licensed practice come first.

`)
	b.WriteString("| key | usual | between | what it is | source |\n|---|---|---|---|---|\n")
	for _, s := range roomful.Settings() {
		g := roomful.DefaultGym()
		usual := s.Text(g)
		if s.DefaultLb != "" {
			usual += ", " + s.DefaultLb + " in a gym in pounds"
		}
		fmt.Fprintf(&b, "| `%s` | %s | %s | %s | %s |\n", s.Key, usual, s.Range(), s.Help, s.Source)
	}
	return b.String()
}
