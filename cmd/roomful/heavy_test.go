package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"roomful"
)

// TestRememberedSet reads sets as people say them.
func TestRememberedSet(t *testing.T) {
	for text, want := range map[string]string{
		"5x50kg": "5 x 50 kg", "5 x 50": "5 x 50 lb", " 3 × 42,5 kg ": "3 x 42.5 kg", "8 @ 110 lb": "8 x 110 lb", "1x225#": "1 x 225 lb", "10X20KG": "10 x 20 kg",
		"": "nothing", "five": "", "5x": "", "x50": "", "0x50kg": "", "60x20kg": "", "5x0kg": "", "5x900kg": "", "5x50kgs": "5 x 50 kg", "5x50 stone": "", "-5x50": "",
	} {
		s, err := roomful.ReadKnownSet(text, roomful.Pound)
		got := "nothing"
		switch {
		case err != nil:
			got = ""
			if roomful.HintOf(err) == "" {
				t.Errorf("%q is refused without a hint: %v", text, err)
			}
		case s != nil:
			got = s.String()
		}
		if got != want {
			t.Errorf("%q is %q, want %q", text, got, want)
		}
	}
}

// TestHeavyIsShort: an answer between two sets stands on five lines of the usual
// width, cautions apart, for everybody and for every sort of load in the demo.
func TestHeavyIsShort(t *testing.T) {
	dir := gymFolder(t)
	rows, err := os.ReadFile(filepath.Join(dir, "people.csv"))
	if err != nil {
		t.Fatal(err)
	}
	head, rest, _ := strings.Cut(string(rows), "\n")
	for n, row := range strings.Split(strings.TrimSpace(rest), "\n") {
		name, alone := strings.Split(row, ",")[1], row[:strings.LastIndex(row, ",")+1] // like nobody
		one := filepath.Join(dir, "one.csv")
		if err := os.WriteFile(one, []byte(head+"\n"+alone+"\n"), 0o600); err != nil {
			t.Fatal(err)
		}
		sheets := []string{"the-tall-gamp-again", "crook-handle", "lost-property", "eight-ribs-again", "came-with-the-bench"}
		sheet := filepath.Join(dir, "sheets", sheets[n%len(sheets)]+".txt")
		var out, complaints bytes.Buffer
		m := &Main{Args: []string{"heavy", "--sheet", sheet, "--people", one, "--kit", filepath.Join(dir, "kit.yaml"), "--who", name},
			Stdout: &out, Stderr: &complaints, Now: func() time.Time { return time.Date(2027, 2, 1, 6, 0, 0, 0, time.UTC) }}
		if got := m.Run(t.Context()); got != exitDone {
			t.Errorf("%s: exit code %d: %s", name, got, complaints.String())
			continue
		}
		answer, _, _ := strings.Cut(out.String(), "  caution: ")
		lines := strings.Split(strings.TrimSuffix(answer, "\n"), "\n")
		if len(lines) > mostAnswerLines && !strings.Contains(answer, "  stop: ") {
			t.Errorf("%s on %s has %d lines:\n%s", name, sheets[n%len(sheets)], len(lines), answer)
		}
		for _, l := range lines {
			if width(l) > lineWidth {
				t.Errorf("%s: %d characters: %s", name, width(l), l)
			}
		}
	}
}
