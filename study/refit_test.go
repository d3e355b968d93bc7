package study_test

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"math"
	"strings"
	"testing"

	"roomful/study"
)

// invented returns two studies whose published figures are the model's own by
// other constants than the defaults, with narrow bands.
func invented(t *testing.T, m study.Model) (studies []study.Study, truth map[string]float64) {
	truth = map[string]float64{"PhiLift": 0.72, "LocalSlow": 130}
	for name, v := range truth {
		if err := m.Constants.Set(name, v); err != nil {
			t.Fatal(err)
		}
	}
	for _, s := range study.Studies() {
		if s.Key == "mate-munoz-2017" || s.Key == "gomez-landero-2020" || s.Key == "willardson-2005" {
			studies = append(studies, s)
		}
	}
	r := study.Compare(context.Background(), m, studies)
	n := 0
	for i := range studies {
		all := studies[i].Findings
		studies[i].Findings = nil
		for _, f := range all {
			f.Mean, f.SD = r.Rows[n].Prediction.Value, 0
			half := 0.02 * math.Abs(f.Mean)
			f.Rule = study.Rule{Low: f.Mean - half, High: f.Mean + half, Words: "within 2 %"}
			n++
			if _, bout := f.Figure.(study.Bout); !bout && f.Unit != "r" && (f.Unit != "ratio" || studies[i].Key == "willardson-2005") {
				studies[i].Findings = append(studies[i].Findings, f)
			}
		}
	}
	return studies, truth
}

// A refit on figures that the model itself has made by other constants finds
// those, also without one of the studies, and tells the study left out better
// than the defaults do.
func TestRefitFindsTheTruth(t *testing.T) {
	m := model(t)
	m.People = 30
	studies, truth := invented(t, m)
	rs, err := study.Refit(context.Background(), m, studies, study.RefitOptions{Steps: 3})
	if err != nil {
		t.Fatal(err)
	}
	if len(rs) != len(studies)+1 || rs[0].LeftOut != nil {
		t.Fatalf("%d refits of %d studies", len(rs), len(studies))
	}
	for _, move := range rs[0].Moves {
		to, ok := truth[move.Constant]
		if ok && (move.To-move.From)*(to-move.From) <= 0 {
			t.Errorf("%s went from %v to %v, not towards %v", move.Constant, move.From, move.To, to)
		}
	}
	if !(rs[0].RestAfter < 0.5*rs[0].RestBefore) {
		t.Errorf("rms z %v by the defaults, %v by the refit", rs[0].RestBefore, rs[0].RestAfter)
	}
	for _, r := range rs[1:] {
		before, after := study.Report{Rows: r.Before}, study.Report{Rows: r.After}
		if !r.Bears || after.RMS() >= before.RMS() {
			t.Errorf("%s, left out: rms z %v by the defaults, %v by the refit", r.LeftOut.Key, before.RMS(), after.RMS())
		}
	}
}

// A study on which no free constant bears is refitted as with all.
func TestRefitWithoutBearing(t *testing.T) {
	m := model(t)
	m.People = 20
	var studies []study.Study
	for _, s := range study.Studies() {
		if s.Key == "willardson-2005" || s.Key == "failure-curves" {
			studies = append(studies, s)
		}
	}
	var told []string
	rs, err := study.Refit(context.Background(), m, studies, study.RefitOptions{Steps: 1, Progress: func(done, all int, what string) {
		told = append(told, what)
	}})
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rs[1:] {
		if r.Bears != (r.LeftOut.Key == "willardson-2005") {
			t.Errorf("%s: bears %v", r.LeftOut.Key, r.Bears)
		}
	}
	if len(told) != 3 || told[0] != "with every study" {
		t.Errorf("told of %q", told)
	}
	var text, js bytes.Buffer
	if err := errors.Join(rs.WriteText(&text), rs.WriteJSON(&js)); err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"no free constant bears on it", "by refits that have not seen the study", "bench, 4 sets of 8RM"} {
		if !strings.Contains(text.String(), want) {
			t.Errorf("the text lacks %q:\n%s", want, text.String())
		}
	}
	if !json.Valid(js.Bytes()) {
		t.Errorf("no JSON: %s", js.String())
	}
}

func TestRefitStops(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := study.Refit(ctx, model(t), study.Studies(), study.RefitOptions{Steps: 1}); !errors.Is(err, context.Canceled) {
		t.Errorf("a stopped refit says %v", err)
	}
}
