package exchange_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/exchange"
)

// object encodes a value and reads it back as a caller in another language
// would.
func object(t *testing.T, v any) map[string]any {
	t.Helper()
	var b bytes.Buffer
	if err := exchange.Write(&b, v); err != nil {
		t.Fatal(err)
	}
	var out map[string]any
	if err := json.Unmarshal(b.Bytes(), &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// has fails unless every key is there, whatever its value.
func has(t *testing.T, where string, o any, keys string) {
	t.Helper()
	m, ok := o.(map[string]any)
	if !ok {
		t.Errorf("%s is %v, not an object", where, o)
		return
	}
	for key := range strings.FieldsSeq(keys) {
		if _, ok := m[key]; !ok {
			t.Errorf("%s lacks %q", where, key)
		}
	}
}

// none fails unless a key is there and null.
func none(t *testing.T, where string, o any, keys string) {
	t.Helper()
	has(t, where, o, keys)
	for key := range strings.FieldsSeq(keys) {
		if v := o.(map[string]any)[key]; v != nil {
			t.Errorf("%s: %q is %v, want null", where, key, v)
		}
	}
}

const (
	elementKeys  = "movement amount amounts unit loads_kg implements heights_cm percent_1rm body_fraction fresh slot note"
	partKeys     = "kind format seconds rounds cap_seconds ladder interval_seconds work_seconds rest_seconds team team_style unbroken scored score_by standards instead once round last"
	forecastKeys = "name score total_reps seconds capped_probability cannot_probability rounds wait_seconds_mean on_intent_probability assumed"
	versionKeys  = "name option as_written one_off elements proof_set confidence forecast plates cautions stop"
)

func TestEmptyAnswersKeepTheirShape(t *testing.T) {
	check := object(t, exchange.CheckOf(roomful.Session{}, nil, newToy()))
	has(t, "check", check, "ok diagnostics session")
	none(t, "session", check["session"], "title date minutes again about")
	effort := check["session"].(map[string]any)["effort"]
	none(t, "effort", effort, "low high unit feel protect")
	has(t, "effort", effort, "fresh proposed")

	part := roomful.Part{Kind: roomful.Main, Format: roomful.ForTime{}, Round: []roomful.Element{{}}}
	session := object(t, exchange.SessionOf(roomful.Session{Parts: []roomful.Part{part}}, newToy()))
	p := session["parts"].([]any)[0].(map[string]any)
	has(t, "part", p, partKeys)
	none(t, "part", p, "seconds cap_seconds ladder interval_seconds work_seconds rest_seconds team_style score_by")
	e := p["round"].([]any)[0]
	has(t, "element", e, elementKeys)
	none(t, "element", e, "movement amount amounts loads_kg implements heights_cm percent_1rm body_fraction fresh slot note")

	nan := math.NaN()
	f := object(t, exchange.ForecastOf("main", roomful.Effort{}, roomful.Forecast{Athletes: []roomful.AthleteForecast{{Score: roomful.Quantiles{P05: nan, P50: nan, P95: nan}}}}))
	has(t, "forecast", f, "piece kind athletes")
	a := f["athletes"].([]any)[0].(map[string]any)
	has(t, "athlete", a, forecastKeys)
	none(t, "athlete", a, "on_intent_probability")
	none(t, "score", a["score"], "p05 p50 p95 text_p50")
	for _, list := range []string{"rounds", "assumed"} {
		if a[list] == nil {
			t.Errorf("%s is null, want an empty list", list)
		}
	}

	l := object(t, exchange.LineupOf(roomful.Part{Format: roomful.ForTime{}}, roomful.Effort{}, roomful.Lineup{
		Options:  []roomful.Option{{Name: "as written", Elements: []roomful.Task{{}}}},
		Versions: []roomful.Version{{Choices: []roomful.Choice{{}}}, {Stop: "see a professional"}},
	}))
	has(t, "versions", l, "options athletes attention")
	v := l["athletes"].([]any)[0].(map[string]any)
	has(t, "version", v, versionKeys)
	has(t, "version element", v["elements"].([]any)[0], "movement amount unit load_kg load_low_kg load_high_kg height_cm changed why why_private")
	has(t, "version forecast", v["forecast"], forecastKeys)
	stopped := l["athletes"].([]any)[1].(map[string]any)
	none(t, "stopped", stopped, "forecast option proof_set confidence")
}

// encoded encodes one part and returns it.
func encoded(t *testing.T, p roomful.Part) map[string]any {
	t.Helper()
	return object(t, exchange.SessionOf(roomful.Session{Parts: []roomful.Part{p}}, newToy()))["parts"].([]any)[0].(map[string]any)
}

func TestFormats(t *testing.T) {
	s, m := time.Second, time.Minute
	three := make([]roomful.Element, 3)
	cases := []struct {
		name   string
		format roomful.Format
		want   map[string]any // what is not null
	}{
		{"rounds in a window", roomful.RoundsInTime{Window: 14 * m}, map[string]any{"seconds": 840.0}},
		{"open ladder", roomful.RoundsInTime{Window: 7 * m, Ladder: roomful.Ladder{Steps: []int{3, 6, 9}, Open: true}},
			map[string]any{"seconds": 420.0, "ladder": []any{3.0, 6.0, 9.0}, "ladder_open": true}},
		{"ladder for time", roomful.ForTime{Rounds: 3, Ladder: roomful.Ladder{Steps: []int{21, 15, 9}}, Cap: 10 * m},
			map[string]any{"rounds": 3.0, "cap_seconds": 600.0, "ladder": []any{21.0, 15.0, 9.0}}},
		{"rest in rounds for time", roomful.ForTime{Rounds: 5, Rest: 90 * s}, map[string]any{"rounds": 5.0, "rest_seconds": 90.0, "rest_after": "round"}},
		{"every", roomful.Every{Interval: 150 * s, Count: 5}, map[string]any{"seconds": 750.0, "rounds": 5.0, "interval_seconds": 150.0}},
		// Eight bouts of 20 s and 10 s are four minutes, as the trade counts.
		{"intervals", roomful.Intervals{Count: 8, Work: 20 * s, Rest: 10 * s}, map[string]any{"seconds": 240.0, "rounds": 8.0, "work_seconds": 20.0, "rest_seconds": 10.0, "rest_after": "interval"}},
		{"bouts of an amount", roomful.Intervals{Count: 4, Rest: 2 * m}, map[string]any{"rounds": 4.0, "rest_seconds": 120.0, "rest_after": "interval"}},
		// 3 x (3 x 40 s + 2 x 20 s) + 2 x 60 s.
		{"stations with a change and a rest", roomful.Stations{Rounds: 3, Work: 40 * s, Change: 20 * s, Rest: m},
			map[string]any{"seconds": 600.0, "rounds": 3.0, "work_seconds": 40.0, "change_seconds": 20.0, "rest_seconds": 60.0, "rest_after": "round"}},
		// 3 x 3 x (40 s + 20 s).
		{"stations with rest between", roomful.Stations{Rounds: 3, Work: 40 * s, Change: 20 * s, Resting: true},
			map[string]any{"seconds": 540.0, "rounds": 3.0, "work_seconds": 40.0, "rest_seconds": 20.0, "rest_after": "station"}},
		{"sets on a clock", roomful.Sets{Count: 5, Every: 2 * m}, map[string]any{"seconds": 600.0, "rounds": 5.0, "interval_seconds": 120.0}},
		{"build", roomful.Sets{Count: 1, Reps: []int{3}, Build: true}, map[string]any{"rounds": 1.0, "reps": []any{3.0}, "build": true}},
		{"one movement, unbroken", roomful.AmountInTime{Window: m, Unbroken: true}, map[string]any{"seconds": 60.0, "unbroken": true}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got := encoded(t, roomful.Part{Kind: roomful.Main, Scored: true, Format: c.format, Round: three})
			if got["format"] != c.format.Name() {
				t.Errorf("format %v, want %s", got["format"], c.format.Name())
			}
			for _, key := range []string{"seconds", "rounds", "cap_seconds", "ladder", "interval_seconds", "work_seconds",
				"rest_seconds", "rest_after", "change_seconds", "reps"} {
				if diff := cmp.Diff(c.want[key], got[key]); diff != "" {
					t.Errorf("%s: %s", key, diff)
				}
			}
			for _, key := range []string{"ladder_open", "build", "unbroken"} {
				if want := c.want[key] == true; got[key] != want {
					t.Errorf("%s is %v, want %v", key, got[key], want)
				}
			}
		})
	}
}

func TestElements(t *testing.T) {
	cases := []struct {
		name string
		e    roomful.Element
		want map[string]any // what is not null
	}{
		{"loads", roomful.Element{Movement: "front-squat", Amount: roomful.Amount{By: []float64{9}}, Load: roomful.Masses{roomful.Kg(60), roomful.Kg(42.5)}},
			map[string]any{"amount": 9.0, "unit": "rep", "loads_kg": []any{60.0, 42.5}}},
		{"calories for two divisions", roomful.Element{Movement: "pull-up", Amount: roomful.Amount{By: []float64{14, 11}, Unit: roomful.Calorie}},
			map[string]any{"amount": 14.0, "amounts": []any{14.0, 11.0}, "unit": "cal"}},
		{"kilometres", roomful.Element{Movement: "pull-up", Amount: roomful.Amount{By: []float64{1.5}, Unit: roomful.Kilometre}}, map[string]any{"amount": 1500.0, "unit": "m"}},
		// 95 lb is 43.091275 kg and 24 in is 60.96 cm by definition.
		{"pounds and inches", roomful.Element{Movement: "front-squat", Load: roomful.Masses{roomful.Lb(95)}, Heights: []roomful.Length{{Value: 24, Unit: roomful.Inch}}, Implements: 2},
			map[string]any{"unit": "rep", "loads_kg": []any{43.091275}, "heights_cm": []any{60.96}, "implements": 2.0}},
		{"percent", roomful.Element{Movement: "front-squat", Load: roomful.Percent(75), Slot: 2, Note: "pause"}, map[string]any{"unit": "rep", "percent_1rm": 75.0, "slot": 2.0, "note": "pause"}},
		{"body", roomful.Element{Movement: "front-squat", Load: roomful.BodyFraction{0.75, 0.5}}, map[string]any{"unit": "rep", "body_fraction": 0.75}},
		{"fresh", roomful.Element{Movement: "front-squat", Load: roomful.Fresh(12)}, map[string]any{"unit": "rep", "fresh": 12.0}},
		{"not known", roomful.Element{Words: "flying squat"}, map[string]any{"unit": "rep"}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got := encoded(t, roomful.Part{Format: roomful.ForTime{Rounds: 1}, Round: []roomful.Element{c.e}})["round"].([]any)[0].(map[string]any)
			if c.e.Movement != "" {
				c.want["movement"] = string(c.e.Movement)
			}
			for key := range strings.FieldsSeq(elementKeys) {
				if diff := cmp.Diff(c.want[key], got[key]); diff != "" {
					t.Errorf("%s: %s", key, diff)
				}
			}
		})
	}
}

func TestLadderAmounts(t *testing.T) {
	p := encoded(t, roomful.Part{Format: roomful.ForTime{Rounds: 2, Ladder: roomful.Ladder{Steps: []int{9, 6}}},
		Once: []roomful.Element{{Movement: "pull-up"}}, Round: []roomful.Element{{Movement: "pull-up"}}})
	if got := p["round"].([]any)[0].(map[string]any)["amount"]; got != 0.0 {
		t.Errorf("amount in a ladder is %v, want 0", got)
	}
	if got := p["once"].([]any)[0].(map[string]any)["amount"]; got != nil {
		t.Errorf("amount outside the ladder is %v, want null", got)
	}
}

func TestDiagnosticsHaveAPlace(t *testing.T) {
	ds := exchange.DiagnosticsOf("", []roomful.Diagnostic{{Severity: roomful.Fault, Summary: "x"}})
	want := exchange.Diagnostic{Severity: "error", Line: 1, Column: 1, EndLine: 1, EndColumn: 1, Summary: "x"}
	if diff := cmp.Diff([]exchange.Diagnostic{want}, ds); diff != "" {
		t.Error(diff)
	}
}

func TestRefusal(t *testing.T) {
	got := object(t, exchange.RefusalOf(&roomful.Error{Summary: "reading x: no such file", Hint: "check the name"}, nil))
	want := map[string]any{"error": map[string]any{"summary": "reading x: no such file", "hint": "check the name"}, "diagnostics": []any{}}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	none(t, "plain error", object(t, exchange.RefusalOf(errors.New("x"), nil))["error"], "hint")
}

func TestMovementJSON(t *testing.T) {
	m := &roomful.Movement{ID: "front-squat", Name: "front squat", Easier: []roomful.MovementID{"hip-lift"},
		Swaps: []roomful.Swap{{To: "hip-lift", For: []roomful.Reason{roomful.ForKnee}, Neighbour: "squat becomes hinge"}, {To: "pull-up", For: []roomful.Reason{roomful.ForBack}}}}
	standIns := []roomful.StandIn{
		{Choice: roomful.Choice{Task: roomful.Task{Movement: "hip-lift", Amount: 18, Load: roomful.Kg(20)}, Why: "hip lifts today"}, Basis: roomful.ByTime, Possible: true},
		{Choice: roomful.Choice{Task: roomful.Task{Movement: "pull-up"}, Why: "not today"}},
	}
	got := exchange.MovementOf(m, newToy(), standIns, "not medical advice")
	if len(got.Swaps) != 2 || got.Swaps[0].Name != "hip lift" || *got.Swaps[0].Amount != 18 || *got.Swaps[0].LoadKg != 20 || *got.Swaps[0].RatioFrom != "time" ||
		got.Swaps[1].Amount != nil || *got.Swaps[1].Why != "not today" || !slices.Equal(got.Easier, []exchange.Named{{ID: "hip-lift", Name: "hip lift"}}) {
		t.Errorf("got %+v", got)
	}
	has(t, "movement", object(t, got), "id name plural also family patterns modality stress implement needs noisy units standard cues faults easier swaps caution")
	has(t, "swap", object(t, got)["swaps"].([]any)[0], "to name for ratio neighbour amount unit load_kg load implements height_cm ratio_from why why_private")
}
