package rung_test

import (
	"testing"

	"roomful"
	"roomful/version/internal/piece"
	"roomful/version/internal/rung"
)

// brief is a rung over squats with a load, pull-ups and sit-ups, with the given
// picks.
func brief(loads rung.Loading, picks ...rung.Pick) *rung.Brief {
	b := &rung.Brief{Rung: rung.Rung{Picks: picks, Loads: loads}}
	ms := []*roomful.Movement{
		{ID: "squat", Name: "squat", Plural: "squats", Modality: roomful.Loaded, Implement: roomful.Barbell, Bound: &roomful.Bound{}},
		{ID: "pull-up", Name: "pull-up", Plural: "pull-ups", Modality: roomful.Body},
		{ID: "sit-up", Name: "sit-up", Plural: "sit-ups", Modality: roomful.Body},
	}
	row := &roomful.Movement{ID: "ring-row", Name: "ring row", Plural: "ring rows", Modality: roomful.Body}
	for i, m := range ms {
		e := roomful.Element{Movement: m.ID, Amount: roomful.Amount{By: []float64{12}}}
		l := piece.Line{Element: e, Movement: m, Forms: []piece.Form{{Element: e, Movement: m}}}
		l.Forms = append(l.Forms, piece.Form{Movement: row})
		b.Lines = append(b.Lines, l)
		task := roomful.Task{Movement: m.ID, Amount: 12 * picks[i].Factor}
		b.Tasks = append(b.Tasks, task)
		b.Cut, b.Alike = append(b.Cut, picks[i].Factor != 1), append(b.Alike, true)
	}
	return b
}

// TestName says what an option changes in words a coach would say.
func TestName(t *testing.T) {
	half, form := rung.Pick{Factor: 0.5}, rung.Pick{Form: 1, Factor: 1}
	for _, c := range []struct {
		want    string
		b       *rung.Brief
		lighter bool
	}{
		{"As written", brief(rung.Exact, rung.Plain, rung.Plain, rung.Plain), false},
		{"Own loads", brief(rung.Own, rung.Plain, rung.Plain, rung.Plain), false},
		{"Lighter", brief(rung.Own, rung.Plain, rung.Plain, rung.Plain), true},
		{"Heavier", brief(rung.More, rung.Plain, rung.Plain, rung.Plain), false},
		{"Lighter, ring rows", brief(rung.Own, rung.Plain, form, rung.Plain), true},
		{"6 pull-ups", brief(rung.Own, rung.Plain, half, rung.Plain), false},
		{"Half the amounts", brief(rung.Own, half, half, half), false},
	} {
		c.b.Lighter = c.lighter
		if got := c.b.Name(); got != c.want {
			t.Errorf("got %q, want %q", got, c.want)
		}
	}
	one := brief(rung.Own, half, half, half)
	one.Cut, one.Lighter = make([]bool, 3), true // a single repetition stays one
	if got := one.Name(); got != "Lighter" {
		t.Errorf("nothing was cut: %q", got)
	}
}

// TestRungs lays each combination once, the plain ones first, and asks nobody for
// more when it was not the sheet that set the window.
func TestRungs(t *testing.T) {
	lines := brief(rung.Own, rung.Plain, rung.Plain, rung.Plain).Lines
	l := rung.Layout{Lines: lines, Heights: make([]bool, 3), Slow: true, Fast: true}
	seen, last := map[string]bool{}, 0
	harder := 0
	for _, r := range l.Rungs() {
		key := ""
		for _, k := range r.Picks {
			key += string(rune('a'+k.Form)) + roomful.Figure(k.Factor)
		}
		if r.Harder() {
			harder++
			continue
		}
		if seen[key] || r.Steps() < last {
			t.Errorf("%s, %d steps after %d", key, r.Steps(), last)
		}
		seen[key], last = true, r.Steps()
	}
	if harder != 1 || len(seen) < 20 {
		t.Errorf("%d harder, %d others", harder, len(seen))
	}
	l.Proposed = true
	for _, r := range l.Rungs() {
		if r.Harder() {
			t.Errorf("more than written: %v", r)
		}
	}
	l.Shared = true
	for _, r := range l.Rungs() {
		for _, k := range r.Picks {
			if k.Factor != 1 {
				t.Errorf("partners' amounts cut: %v", r)
			}
		}
	}
}
