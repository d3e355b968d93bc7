package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"roomful/demo"
)

// ask runs the program in-process with --json and returns its one object.
func ask(t *testing.T, want int, args ...string) map[string]any {
	t.Helper()
	var out, complaints bytes.Buffer
	m := &Main{
		Args: append(args, "--json"), Stdin: strings.NewReader(""), Stdout: &out, Stderr: &complaints,
		Now: func() time.Time { return time.Date(2027, 2, 1, 6, 0, 0, 0, time.UTC) },
	}
	if got := m.Run(t.Context()); got != want {
		t.Fatalf("%v: exit code %d, want %d: %s%s", args, got, want, out.String(), complaints.String())
	}
	if complaints.Len() > 0 {
		t.Errorf("%v: with --json stderr says %s", args, complaints.String())
	}
	var o map[string]any
	d := json.NewDecoder(&out)
	if err := d.Decode(&o); err != nil {
		t.Fatalf("%v: %v", args, err)
	}
	if d.More() {
		t.Errorf("%v: more than one object on stdout", args)
	}
	return o
}

// gymFolder writes the demo gym into a folder of its own.
func gymFolder(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.CopyFS(dir, demo.Files); err != nil {
		t.Fatal(err)
	}
	return dir
}

// The fields of every answer, by their path; [] goes into the elements of a
// list that must not be empty, and a question mark allows null on the way.
const (
	checkFields = `ok diagnostics session
session.title session.date session.minutes session.again session.about session.effort session.parts
session.effort.low session.effort.high session.effort.unit session.effort.feel session.effort.fresh session.effort.protect session.effort.proposed
session.parts[].kind session.parts[].format session.parts[].seconds session.parts[].rounds session.parts[].cap_seconds session.parts[].ladder
session.parts[].interval_seconds session.parts[].work_seconds session.parts[].rest_seconds session.parts[].team session.parts[].team_style
session.parts[].unbroken session.parts[].scored session.parts[].score_by session.parts[].standards session.parts[].instead
session.parts[].once session.parts[].round session.parts[].last
session.parts[].round?[].movement session.parts[].round?[].amount session.parts[].round?[].amounts session.parts[].round?[].unit
session.parts[].round?[].loads_kg session.parts[].round?[].implements session.parts[].round?[].heights_cm session.parts[].round?[].percent_1rm
session.parts[].round?[].body_fraction session.parts[].round?[].fresh session.parts[].round?[].slot session.parts[].round?[].note`
	forecastFields = `piece kind athletes
athletes[].name athletes[].score athletes[].total_reps athletes[].seconds athletes[].capped_probability athletes[].cannot_probability
athletes[].rounds athletes[].wait_seconds_mean athletes[].on_intent_probability athletes[].assumed
athletes[].score.p05 athletes[].score.p50 athletes[].score.p95 athletes[].score.text_p50
athletes[].total_reps.p05 athletes[].total_reps.p50 athletes[].total_reps.p95
athletes[].seconds.p05 athletes[].seconds.p50 athletes[].seconds.p95
athletes[].rounds?[].n athletes[].rounds?[].seconds_p50`
	versionsFields = `options athletes attention
options[].name options[].elements options[].elements[].movement
athletes[].name athletes[].option athletes[].as_written athletes[].one_off athletes[].elements athletes[].proof_set athletes[].confidence
athletes[].forecast athletes[].plates athletes[].cautions athletes[].stop
athletes[].elements?[].movement athletes[].elements?[].amount athletes[].elements?[].unit athletes[].elements?[].load_kg
athletes[].elements?[].load_low_kg athletes[].elements?[].load_high_kg athletes[].elements?[].height_cm athletes[].elements?[].changed
athletes[].elements?[].why athletes[].elements?[].why_private
athletes[].forecast?.score.p50 athletes[].forecast?.seconds.p50 attention[].name attention[].why
athletes[].day?[].part athletes[].day?[].kind athletes[].day?[].seconds athletes[].day?[].drills athletes[].day?[].ramp athletes[].day?[].elements
athletes[].day?[].score athletes[].day?[].note athletes[].day?[].drills?[].movement athletes[].day?[].drills?[].seconds athletes[].day?[].drills?[].from_seconds
athletes[].day?[].drills?[].round athletes[].day?[].drills?[].why athletes[].day?[].drills?[].why_private
athletes[].day?[].ramp?.movement athletes[].day?[].ramp?.seconds athletes[].day?[].ramp?.sets[].reps athletes[].day?[].ramp?.sets[].load_kg
athletes[].day?[].ramp?.sets[].per_side athletes[].day?[].ramp?.sets[].proof athletes[].day?[].ramp?.sets[].seconds athletes[].day?[].ramp?.sets[].rest_seconds
athletes[].day?[].score?.kind athletes[].day?[].score?.comparable athletes[].day?[].score?.note`
	readFields = `kind rounds reps total_reps seconds each_seconds capped loads_kg misses changes[].of changes[].to changes[].assist
		changes[].load_kg changes[].height_cm changes[].amount changes[].unit changes[].at_seconds as_written approximate private unread note question`
	heavyFields = `name id piece none movement amount unit load_kg load load_own implements load_low_kg load_high_kg changed why why_private
proof_set bar short found stop_rule ramp rests_on last confidence surer cautions stop diagnostics load.mass load.unit load_own.mass load_own.unit
proof_set.movement proof_set.reps proof_set.load_kg proof_set.say bar.load bar.bar bar.per_side[].mass bar.per_side[].colour
ramp?.sets[].reps last.date last.title last.load_kg last.load last.implements last.noted last.sets last.missed last.score last.effort`
	settingsFields = `settings diagnostics settings[].key settings[].value settings[].unit settings[].default settings[].own
settings[].least settings[].most settings[].source settings[].help`
	platesFields = `bars weighted_deviation bound proven short questions moved unit
bars[].name bars[].load bars[].unit bars[].target bars[].below bars[].above bars[].moved bars[].bar bars[].bar_unit bars[].with
bars[].per_side bars[].per_side?[].mass bars[].per_side?[].unit bars[].per_side?[].colour
short[].what short[].mass short[].unit short[].have short[].need short[].for`
	movementFields = `id name plural also patterns implement needs units standard cues faults easier swaps swaps[].to swaps[].for swaps[].ratio caution`
)

// follow returns where a path into a JSON value breaks, or "".
func follow(v any, path string) string {
	if path == "" {
		return ""
	}
	path = strings.TrimPrefix(path, ".")
	if rest, ok := strings.CutPrefix(path, "[]"); ok {
		list, ok := v.([]any)
		if !ok || len(list) == 0 {
			return "no list at [] before " + rest
		}
		for _, e := range list {
			if broken := follow(e, rest); broken != "" {
				return broken
			}
		}
		return ""
	}
	end := strings.IndexAny(path, ".[?")
	if end < 0 {
		end = len(path)
	}
	o, ok := v.(map[string]any)
	if !ok {
		return "no object at " + path
	}
	next, there := o[path[:end]]
	if !there {
		return "no field " + path[:end]
	}
	rest := path[end:]
	if rest != "" && rest[0] == '?' {
		rest = rest[1:]
		if list, isList := next.([]any); next == nil || isList && len(list) == 0 {
			return ""
		}
	}
	return follow(next, rest)
}

func TestEveryFieldIsThere(t *testing.T) {
	dir := gymFolder(t)
	sheets, err := filepath.Glob(filepath.Join(dir, "sheets", "*.txt"))
	if err != nil || len(sheets) == 0 {
		t.Fatal("the demo has no sheets: ", err)
	}
	people, kit := filepath.Join(dir, "people.csv"), filepath.Join(dir, "kit.yaml")
	for i, sheet := range sheets {
		t.Run(filepath.Base(sheet), func(t *testing.T) {
			type question struct {
				fields string
				args   []string
			}
			questions := []question{
				{checkFields, []string{"check", sheet}},
				{forecastFields, []string{"forecast", "--sheet", sheet, "--people", people, "--runs", "50"}},
			}
			if i == 0 {
				questions = append(questions, question{versionsFields, []string{"versions", "--sheet", sheet, "--people", people, "--kit", kit}})
			}
			for _, c := range questions {
				o := ask(t, exitDone, c.args...)
				for field := range strings.FieldsSeq(c.fields) {
					if broken := follow(o, field); broken != "" {
						t.Errorf("%s: %s: %s", c.args[0], field, broken)
					}
				}
			}
		})
	}
	bars := filepath.Join(dir, "bars.json")
	if err := os.WriteFile(bars, []byte(`{"plates":[{"mass":20,"count":2}],"bars":[{"name":"Odo","bar":20,"target":60},{"name":"Pia","bar":20,"target":60}]}`), 0o600); err != nil {
		t.Fatal(err)
	}
	for fields, args := range map[string][]string{
		platesFields:   {"plates", bars},
		movementFields: {"movement", "pull-up"},
		readFields:     {"read", "--sheet", filepath.Join(dir, "sheets", "eight-ribs.txt"), "5+20 w/ singles, back tight"},
		heavyFields: {"heavy", "--sheet", filepath.Join(dir, "sheets", "eight-ribs-again.txt"), "--people", people, "--kit", kit, "--who", "Marit",
			"--attempts", filepath.Join(dir, "attempts.csv")},
		settingsFields: {"settings", "--gym", filepath.Join(dir, "gym.yaml")},
	} {
		o := ask(t, exitDone, args...)
		for field := range strings.FieldsSeq(fields) {
			if broken := follow(o, field); broken != "" {
				t.Errorf("%s: %s: %s", args[0], field, broken)
			}
		}
	}
}

func TestRefusalsAreOneObject(t *testing.T) {
	dir := gymFolder(t)
	sheet, people := filepath.Join(dir, "sheets", "ferrule.txt"), filepath.Join(dir, "people.csv")
	for name, c := range map[string]struct {
		exit int
		args []string
	}{
		"missing file":  {exitOutside, []string{"check", filepath.Join(dir, "none.txt")}},
		"missing piece": {exitFaults, []string{"forecast", "--sheet", sheet, "--people", people, "--piece", "x"}},
		"bad people":    {exitFaults, []string{"forecast", "--sheet", sheet, "--people", sheet}},
		"empty score":   {exitFaults, []string{"read", "--sheet", sheet, ""}},
		"no movement":   {exitFaults, []string{"movement", "thruter"}},
	} {
		t.Run(name, func(t *testing.T) {
			o := ask(t, c.exit, c.args...)
			for _, field := range []string{"error.summary", "error.hint"} {
				if broken := follow(o, field); broken != "" {
					t.Errorf("%s: %s", field, broken)
				}
			}
			if hint, _ := o["error"].(map[string]any)["hint"].(string); hint == "" {
				t.Error("no hint")
			}
		})
	}
}
