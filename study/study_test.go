package study_test

import (
	"bytes"
	"context"
	"encoding/json"
	"math"
	"os"
	"strings"
	"testing"

	"roomful/catalogue"
	"roomful/sim"
	"roomful/study"
)

// model is what doc/calibration.md was written with.
func model(t *testing.T) study.Model {
	t.Helper()
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	return study.Model{Lexicon: lex, Constants: sim.Defaults(), People: 300, Seed: 1}
}

// document reads doc/calibration.md.
func document(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile("../doc/calibration.md")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// id names a finding by its study and its words.
type id struct{ study, figure string }

// knownMisses reads the table under "Known misses": study, figure, what is
// thought of it.
func knownMisses(t *testing.T) map[id]bool {
	_, text, _ := strings.Cut(document(t), "\n## Known misses\n")
	text, _, _ = strings.Cut(text, "\n## ")
	known := map[id]bool{}
	for _, row := range readTable(text) {
		if len(row) != 3 || len(row[2]) < 40 {
			t.Errorf("known misses: say what is thought of %q", row)
			continue
		}
		known[id{row[0], row[1]}] = true
	}
	return known
}

// readTable returns the cells of the first Markdown table of a text, without its
// head.
func readTable(text string) (rows [][]string) {
	n := 0
	for line := range strings.Lines(text) {
		line = strings.TrimSpace(line)
		if !strings.HasPrefix(line, "|") {
			if n > 0 {
				break
			}
			continue
		}
		if n++; n <= 2 {
			continue // the head and the rule below it
		}
		cells := strings.Split(strings.TrimSuffix(strings.TrimPrefix(line, "|"), "|"), "|")
		for i := range cells {
			cells[i] = strings.TrimSpace(cells[i])
		}
		rows = append(rows, cells)
	}
	return rows
}

// The model beside every published figure.
func TestPublishedOutcomes(t *testing.T) {
	r := study.Compare(context.Background(), model(t), study.Studies())
	t.Run("rules", func(t *testing.T) { keepsRules(t, r) })
	t.Run("document", func(t *testing.T) { isShown(t, r) })
}

// keepsRules: the model keeps every rule, each from the source beside it, but
// for the misses that doc/calibration.md names and explains; and those are
// misses.
func keepsRules(t *testing.T, r study.Report) {
	known := knownMisses(t)
	for _, row := range r.Rows {
		f, at := row.Finding, id{row.Study.Key, row.Finding.What}
		switch {
		case row.Err != nil:
			t.Errorf("%s: %s: %v", at.study, at.figure, row.Err)
		case math.IsNaN(row.Prediction.Value) || math.IsInf(row.Prediction.Value, 0):
			t.Errorf("%s: %s: the model has no figure", at.study, at.figure)
		case !row.Pass && !known[at]:
			t.Errorf("%s: the model says %.4g %s, published %.4g; the rule is %s [%.4g, %.4g] (%s, %s)", at.figure, row.Prediction.Value, f.Unit,
				f.Mean, f.Rule.Words, f.Rule.Low, f.Rule.High, row.Study.Source, row.Study.Read)
		case row.Pass && known[at]:
			t.Errorf("%s: %s is no longer a miss: strike it from doc/calibration.md", at.study, at.figure)
		}
		delete(known, at)
	}
	for at := range known {
		t.Errorf("doc/calibration.md knows a miss of %s, %q: there is no such finding", at.study, at.figure)
	}
	if rms := r.RMS(); rms > 1 {
		t.Errorf("rms z %.2f: on the whole the model is off by more than what was published spreads", rms)
	}
}

// isShown: doc/calibration.md shows what the model does now, to a fifth of a z.
func isShown(t *testing.T, r study.Report) {
	_, section, _ := strings.Cut(document(t), "<!-- comparison:")
	_, section, _ = strings.Cut(section, "rms z")
	rows := readTable(section)
	if len(rows) != len(r.Rows) {
		t.Fatalf("%d figures in doc/calibration.md, %d in the studies: go run ./cmd/study --write", len(rows), len(r.Rows))
	}
	for i, row := range r.Rows {
		shown := rows[i]
		z, err := number(shown[7])
		if err != nil || shown[1] != row.Finding.What || math.Abs(z-row.Z) > 0.2 {
			t.Errorf("doc/calibration.md shows z %s of %q, now %+.2f of %q: go run ./cmd/study --write", shown[7], shown[1], row.Z, row.Finding.What)
		}
	}
}

// What has to be checked from outside is among the findings and decides, by
// these rules.
func TestRequiredChecks(t *testing.T) {
	rules := map[id]int{}
	for _, s := range study.Studies() {
		for _, f := range s.Findings {
			if f.Rule.Gates() {
				rules[id{s.Key, f.Rule.Words}]++
			}
		}
	}
	for _, c := range []struct {
		study, rule string
		figures     int
	}{
		{"mate-munoz-2017", "within one SD", 2}, // rounds in 20 min, cleans in 5 min
		{"mate-munoz-2017", "within 30 %", 8},   // rope bouts
		{"mate-munoz-2017", "falling, 1.1 to 1.8, judged", 1},
		{"mate-munoz-2017", "flat, 0.85 to 1.05, judged", 1},
		{"gomez-landero-2020", "within one SD", 1},         // couplet
		{"thomas-2004", "within one SD", 6},                // push-ups, sit-ups, two miles; men and women
		{"failure-curves", "between the curves, ± 0.5", 9}, // three lifts at 75, 85, 95 %
		{"richmond-2004", "within 15 %", 2},                // rest between sets
		{"willardson-2005", "within 15 %", 2},
		{"senna-2009", "within 15 %", 2},
		{"compendium-2024", "within 25 %", 12}, // rope, rowing, bike, swings, burpees, running
		{"rios-2024", "within 0.08", 1},        // share of oxygen
		{"rios-2023", "within 0.08", 1},
		{"butcher-2015", "below 0", 1},                               // strength tells the heavy piece more than the couplet
		{"butcher-2015-gym", "below 0", 2},                           // and in a gym of men and of women
		{"butcher-2015-gym", "within the sample's 95 % interval", 4}, // by so much
		{"dexheimer-2019-gym", "below 0", 6},                         // oxygen uptake tells rounds with runs more than strength does
		{"swaps", "within 25 %", 4},                                  // equal time: ski, bike, run, rope; common practice, no source
		{"ramp", "3 to 5 minutes", 1},                                // common practice, no source
	} {
		if got := rules[id{c.study, c.rule}]; got != c.figures {
			t.Errorf("%s has %d figures %s, want %d", c.study, got, c.rule, c.figures)
		}
	}
}

// Each study has a source and says how it was read; what is from memory decides
// nothing, nor does a habit but for the swaps and the ramp, which the trade asks for.
func TestSources(t *testing.T) {
	keys, findings := map[string]bool{}, map[id]bool{}
	for _, s := range study.Studies() {
		if keys[s.Key] || s.Source == "" || s.Read == "" || len(s.Findings) == 0 {
			t.Errorf("%s: twice, without a source or its reading, or empty", s.Key)
		}
		keys[s.Key] = true
		for _, f := range s.Findings {
			at := id{s.Key + f.Group.Words, f.What}
			if findings[at] {
				t.Errorf("%s: two figures %q of one group", s.Key, f.What)
			}
			findings[at] = true
			if f.Rule.Gates() && (s.Read == study.Memory || s.Read == study.Habit && s.Key != "swaps" && s.Key != "ramp") {
				t.Errorf("%s: %s is %s and decides", s.Key, f.What, s.Read)
			}
			if f.Rule.Gates() && !f.Rule.Holds(f.Mean) && !math.IsNaN(f.Mean) {
				t.Errorf("%s: %s: the published figure breaks its own rule", s.Key, f.What)
			}
		}
	}
}

func number(s string) (v float64, err error) {
	err = json.Unmarshal([]byte(strings.TrimPrefix(s, "+")), &v)
	return v, err
}

// The same seed gives the same figures on any number of workers, another seed
// other ones.
func TestSameSeedSameFigures(t *testing.T) {
	m := model(t)
	m.People = 20
	text := func(m study.Model) string {
		var b bytes.Buffer
		if err := study.CompareSeeds(context.Background(), m, study.Studies()[:2], 2).WriteText(&b); err != nil {
			t.Fatal(err)
		}
		return b.String()
	}
	one, many, other := m, m, m
	one.Workers, many.Workers, other.Seed = 1, 3, 2
	if text(one) != text(many) {
		t.Error("the number of workers shows in the figures")
	}
	if text(one) == text(other) {
		t.Error("another seed gives the same figures")
	}
}

// Both forms for other programs hold every figure, and no number that is none.
func TestForms(t *testing.T) {
	m := model(t)
	m.People = 20
	r := study.CompareSeeds(context.Background(), m, study.Studies(), 2)
	var js, md bytes.Buffer
	if err := r.WriteJSON(&js); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Rows []struct {
			Study, Figure string
			Model         *float64
			BySeed        []float64 `json:"by_seed"`
		}
		Decide, Missed int
	}
	if err := json.Unmarshal(js.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	if len(got.Rows) != len(r.Rows) || got.Missed != len(r.Misses()) || got.Decide != r.Gated() {
		t.Errorf("JSON holds %d figures, %d misses of %d", len(got.Rows), got.Missed, got.Decide)
	}
	for i, row := range got.Rows {
		if row.Figure != r.Rows[i].Finding.What || row.Model == nil || *row.Model != r.Rows[i].Prediction.Value || len(row.BySeed) != 2 {
			t.Errorf("JSON has %+v for %q", row, r.Rows[i].Finding.What)
		}
	}
	if err := r.WriteMarkdown(&md); err != nil {
		t.Fatal(err)
	}
	_, figures, _ := strings.Cut(md.String(), "rms z")
	if rows := readTable(figures); len(rows) != len(r.Rows) {
		t.Errorf("Markdown holds %d figures of %d", len(rows), len(r.Rows))
	}
}

func TestSections(t *testing.T) {
	const whole = "a\n<!-- comparison: written by go run ./cmd/study --write -->\nold\n<!-- comparison: end -->\nz\n"
	got, err := study.ReplaceSection(whole, "comparison", "new")
	if err != nil {
		t.Fatal(err)
	}
	if want := strings.Replace(whole, "old\n", "\nnew\n", 1); got != want {
		t.Errorf("the document became %q, want %q", got, want)
	}
	if _, err := study.ReplaceSection(whole, "refit", "new"); err == nil {
		t.Error("a section that is not there was replaced")
	}
}
