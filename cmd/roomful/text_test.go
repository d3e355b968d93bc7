package main

import (
	"bytes"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"roomful"
	"roomful/catalogue"
)

func TestStripsShareAnAxis(t *testing.T) {
	on := 0.82
	f := roomful.Forecast{Kind: roomful.RoundsScore, Athletes: []roomful.AthleteForecast{
		{Name: "Ada", Score: roomful.Quantiles{P05: 4, P50: 5, P95: 6}, Text: "5+0", OnIntent: &on},
		{Name: "Zoë", Score: roomful.Quantiles{P05: 6, P50: 8, P95: 8}, Text: "8+0", Capped: 0.31},
		{Name: "Lu", Score: roomful.Quantiles{P05: math.NaN(), P50: math.NaN(), P95: math.NaN()}, Cannot: 1},
	}}
	// The window of 4-5 rounds ends just before 6, so the axis runs from 4 to 8:
	// 44 columns, 43 steps over 4 rounds; 5 rounds stand in column 10.75.
	want := []string{
		"     4" + strings.Repeat(" ", 42) + "8",
		"Ada  ━━━━━━━━━━━●━━━━━━━━━━━·····················  5+0  4 to 6, as asked 8 in 10",
		"Zoë  ░░░░░░░░░░░░░░░░░░░░░░━━━━━━━━━━━━━━━━━━━━━●  8+0  6 to 8, cap 3 in 10",
		"Lu   ░░░░░░░░░░░░░░░░░░░░░░······················  -    cannot 10 in 10",
		"     ● middle of 300 runs, ━ nine in ten of them, ░ what is asked for",
		"     as asked: ends within the effort; cap: reaches it before the end; cannot: an element is beyond them that day",
	}
	got := strings.Split(strings.TrimSpace(strips(f, roomful.Effort{Low: 4, High: 5, Unit: "rounds"}, 300)), "\n")
	got[0] = "     " + strings.TrimLeft(got[0], " ")
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestExcerptMarksThePlace(t *testing.T) {
	at := func(line, from, to int) roomful.Range {
		return roomful.Range{Start: roomful.Position{Line: line, Column: from}, End: roomful.Position{Line: line, Column: to}}
	}
	long := strings.Repeat("x", 300) + " sqauts"
	cases := []struct {
		name, text string
		d          roomful.Diagnostic
		want       string
	}{
		{"a word behind a tab", "a\n\t9 sqauts", roomful.Diagnostic{Severity: roomful.Fault, Range: at(2, 4, 10), Summary: "x", Detail: "d", Hint: "h"},
			"f:2:4: error: x\n  2 |  9 sqauts\n    |    ^^^^^^\n  d\n  hint: h\n"},
		{"behind the end", "ab", roomful.Diagnostic{Severity: roomful.Warning, Range: at(1, 3, 3), Summary: "x"}, "f:1:3: warning: x\n  1 | ab\n    |   ^\n"},
		{"no such line", "ab", roomful.Diagnostic{Range: at(7, 1, 1), Summary: "x"}, "f:7:1: hint: x\n"},
		{"whole file", "", roomful.Diagnostic{Summary: "x"}, "f:1:1: hint: x\n"},
		{"whole file with text", "ab", roomful.Diagnostic{Summary: "x", Range: at(1, 1, 1)}, "f:1:1: hint: x\n"},
		{"control characters", "\x1b[31mred", roomful.Diagnostic{Range: at(1, 1, 2), Summary: "x"}, "f:1:1: hint: x\n  1 | ·[31mred\n    | ^\n"},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got := excerpts(file{name: "f", text: c.text, diagnostics: []roomful.Diagnostic{c.d}})
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Error(diff)
			}
		})
	}
	got := excerpts(file{name: "f", text: long, diagnostics: []roomful.Diagnostic{{Range: at(1, 302, 308), Summary: "x"}}})
	if lines := strings.Split(got, "\n"); len(lines[1]) > 120 || !strings.Contains(lines[1], "sqauts") || !strings.HasSuffix(lines[2], "^^^^^^") {
		t.Errorf("a long line is shown as\n%s", got)
	}
}

// TestProgress: nothing within a second, then a bar, and nothing left of it.
func TestProgress(t *testing.T) {
	var out bytes.Buffer
	now := time.Time{}
	p := &program{Main: &Main{Stderr: &out, Terminal: true, Now: func() time.Time { return now }}}
	show, done := p.progress()
	show(0.1)
	if out.Len() > 0 {
		t.Errorf("a bar at once: %q", out.String())
	}
	now = now.Add(1500 * time.Millisecond)
	show(0.5)
	if !strings.Contains(out.String(), "50 %") {
		t.Errorf("no bar after a second: %q", out.String())
	}
	done()
	if !strings.HasSuffix(out.String(), " \r") {
		t.Errorf("the bar is left behind: %q", out.String())
	}
	p.Terminal = false
	if show, _ := p.progress(); show != nil {
		t.Error("a bar where nobody watches")
	}
}

func TestTaskWords(t *testing.T) {
	p := &program{lexicon: movements(t)}
	for want, task := range map[string]roomful.Task{
		"8 deadlifts 55 kg":                  {Movement: "deadlift", Amount: 8, Load: roomful.Kg(55)},
		"deadlifts 95 lb":                    {Movement: "deadlift", Load: roomful.Lb(95)},
		"1 deadlift @ RPE 8":                 {Movement: "deadlift", Amount: 1, RPE: 8},
		"600 m run":                          {Movement: "run", Amount: 600, Unit: roomful.Metre},
		"8 box jumps 50 cm":                  {Movement: "box-jump", Amount: 8, HeightCm: 50},
		"15 wall balls 6 kg to 2.7 m":        {Movement: "wall-ball", Amount: 15, Load: roomful.Kg(6), HeightCm: 270},
		"10 dumbbell push presses 2 x 15 kg": {Movement: "dumbbell-push-press", Amount: 10, Load: roomful.Kg(15), Implements: 2},
	} {
		if got := p.taskWords(task); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

func movements(t *testing.T) *catalogue.Catalogue {
	t.Helper()
	c, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	return c
}
