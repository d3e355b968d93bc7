package prep_test

import (
	"fmt"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"roomful"
	"roomful/catalogue"
	"roomful/notation"
	"roomful/version/internal/prep"
)

// part reads one part of a sheet and its lines, with an element's own time at
// two seconds a repetition.
func part(t *testing.T, text string) (roomful.Part, []prep.Line) {
	t.Helper()
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	s, _ := notation.Read("Test\n2027-03-04\n\n"+text, lex)
	if len(s.Parts) == 0 {
		t.Fatalf("no part in %q", text)
	}
	own := func(e roomful.Element) time.Duration {
		each := 2.0
		if e.Amount.Unit.Base() == roomful.Second {
			each = 1
		}
		d := time.Duration(e.Amount.For(roomful.DivisionA) * each * float64(time.Second))
		if prep.Sided(e.Note) {
			d *= 2
		}
		return d
	}
	return s.Parts[0], prep.Lines(s.Parts[0], lex, own)
}

// laid lays a part and writes it as "0:00 30 push-up".
func laid(t *testing.T, text string) (lines []string, note string) {
	t.Helper()
	p, ls := part(t, text)
	slots, _, note := prep.Lay(p, ls)
	for _, s := range slots {
		what := "rest"
		if s.Line >= 0 {
			what = string(ls[s.Line].Element.Movement)
		}
		lines = append(lines, fmt.Sprintf("%s %d %s", roomful.Clock(s.From.Seconds()), int(s.Length.Seconds()), what))
	}
	return lines, note
}

// TestLay lays parts out second by second, each worked by hand.
func TestLay(t *testing.T) {
	for name, c := range map[string]struct {
		sheet, want, note string
	}{
		"a switch at a round": {sheet: "warm-up: 2 rounds, 30 s each\n  easy bike\n  push-up; round 2 burpee\n",
			want: "0:00 30 bike, 0:30 30 push-up, 1:00 30 bike, 1:30 30 burpee"},
		"a switch at each of two rounds": {sheet: "warm-up: 3 rounds, 30 s each\n  ring row; round 2 pull-up; round 3 plank\n",
			want: "0:00 30 ring-row, 0:30 30 pull-up, 1:00 30 plank"},
		"a switch within the interval": {sheet: "warm-up: 1 round, 40 s each\n  lunge; at 15 s burpee\n",
			want: "0:00 15 lunge, 0:15 25 burpee"},
		"halfway": {sheet: "warm-up: 1 round, 40 s each\n  lunge; halfway burpee\n",
			want: "0:00 20 lunge, 0:20 20 burpee"},
		"two with their own times on one line": {sheet: "warm-up: 1 round, 30 s each\n  10 s plank then 20 s dead bug\n  burpee\n",
			want: "0:00 10 plank, 0:10 20 dead-bug, 0:30 30 burpee"},
		// 60 s a side is two minutes, wrist circles are half a minute, and the calf
		// has the two and a half that are left, at most two.
		"a length is divided": {sheet: "mobility: 5 min\n  couch stretch 60 s a side\n  calf stretch\n  wrist circle 30 s\n",
			want: "0:00 120 couch-stretch, 2:00 120 calf-stretch, 4:00 30 wrist-circle"},
		"lines without a time share it": {sheet: "warm-up: 4 min\n  inchworm\n  air squat\n  arm circle\n  plank\n",
			want: "0:00 60 inchworm, 1:00 60 air-squat, 2:00 60 arm-circle, 3:00 60 plank"},
		"too much for the length": {sheet: "mobility: 2 min\n  couch stretch 60 s a side\n  calf stretch 60 s\n",
			want: "0:00 120 couch-stretch, 2:00 60 calf-stretch", note: "the lines come to 3 minutes of 2 minutes"},
		"less than the length": {sheet: "mobility: 5 min\n  calf stretch 60 s\n",
			want: "0:00 60 calf-stretch", note: "the lines come to 1 minute of 5 minutes"},
		"repetitions take their own time": {sheet: "warm-up: 2 rounds\n  5 push-ups\n  10 air squats\n",
			want: "0:00 10 push-up, 0:10 20 air-squat, 0:30 10 push-up, 0:40 20 air-squat"},
		"a length without lines": {sheet: "mobility: 5 min\n"},
	} {
		t.Run(name, func(t *testing.T) {
			got, note := laid(t, c.sheet)
			if diff := cmp.Diff(c.want, strings.Join(got, ", ")); diff != "" {
				t.Error(diff)
			}
			if !strings.HasPrefix(note, c.note) || c.note == "" && note != "" {
				t.Errorf("note %q, want %q", note, c.note)
			}
		})
	}
}

// TestFormats lays the other formats that a warm-up may have.
func TestFormats(t *testing.T) {
	line := func(id roomful.MovementID, slot int, own time.Duration) prep.Line {
		return prep.Line{Element: roomful.Element{Movement: id, Slot: slot}, Own: own}
	}
	two := []prep.Line{line("a", 0, 0), line("b", 0, 50*time.Second)}
	slotted := []prep.Line{line("a", 1, 0), line("b", 2, 0)}
	for _, c := range []struct {
		name   string
		format roomful.Format
		lines  []prep.Line
		want   string
	}{
		{"stations with changes and rest", roomful.Stations{Rounds: 2, Work: 40 * time.Second, Change: 10 * time.Second, Rest: time.Minute}, two,
			"0+40 a, 40+10 -, 50+40 b, 90+60 -, 150+40 a, 190+10 -, 200+40 b"},
		{"every minute by slots", roomful.Every{Interval: time.Minute, Count: 3}, slotted, "0+60 a, 60+60 b, 120+60 a"},
		{"intervals in turn", roomful.Intervals{Count: 3, Work: 20 * time.Second, Rest: 10 * time.Second}, two,
			"0+20 a, 20+10 -, 30+20 b, 50+10 -, 60+20 a"},
		// a takes the usual 30 s and b its own 50: a second a, and what is left of b
		{"round and round until the end", roomful.RoundsInTime{Window: 2 * time.Minute}, two, "0+30 a, 30+50 b, 80+30 a, 110+10 b"},
		{"rounds for time", roomful.ForTime{Rounds: 1}, two, "0+30 a, 30+50 b"},
	} {
		slots, length, _ := prep.Lay(roomful.Part{Format: c.format}, c.lines)
		var got []string
		end := time.Duration(0)
		for _, s := range slots {
			what := "-"
			if s.Line >= 0 {
				what = string(c.lines[s.Line].Element.Movement)
			}
			got = append(got, fmt.Sprintf("%d+%d %s", int(s.From.Seconds()), int(s.Length.Seconds()), what))
			end = s.From + s.Length
		}
		if diff := cmp.Diff(c.want, strings.Join(got, ", ")); diff != "" {
			t.Errorf("%s: %s", c.name, diff)
		}
		if end != length {
			t.Errorf("%s: ends at %v of %v", c.name, end, length)
		}
	}
}

// TestLayLeavesNoGap: whatever is asked, slots follow each other from 0 without a
// gap, none is empty, and intervals come to their sum.
func TestLayLeavesNoGap(t *testing.T) {
	seconds := rapid.IntRange(5, 120)
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 6).Draw(t, "lines")
		each := time.Duration(seconds.Draw(t, "each")) * time.Second
		rounds := rapid.IntRange(1, 4).Draw(t, "rounds")
		var lines []prep.Line
		groups := 0
		for i := range n {
			l := prep.Line{Beside: i > 0 && rapid.Bool().Draw(t, "beside")}
			if !l.Beside {
				groups++
			}
			if l.Beside && rapid.Bool().Draw(t, "switched") {
				l.At = time.Duration(seconds.Draw(t, "at")) * time.Second
			}
			if rapid.Bool().Draw(t, "stated") {
				l.Own = time.Duration(seconds.Draw(t, "own")) * time.Second
			}
			lines = append(lines, l)
		}
		slots, length, _ := prep.Lay(roomful.Part{Format: roomful.Unscored{Rounds: rounds, Each: each}}, lines)
		if want := time.Duration(rounds*groups) * each; length != want {
			t.Fatalf("%v, want %v", length, want)
		}
		at := time.Duration(0)
		for _, s := range slots {
			if s.From != at || s.Length <= 0 {
				t.Fatalf("a slot at %v of %v, want it at %v", s.From, s.Length, at)
			}
			at += s.Length
		}
		if at != length {
			t.Fatalf("slots end at %v of %v", at, length)
		}
	})
}

// TestLinesKeepNotes: whatever a note says, every line has a movement, and words
// that are no switch stay in it.
func TestLinesKeepNotes(t *testing.T) {
	lex, err := catalogue.Load()
	if err != nil {
		t.Fatal(err)
	}
	words := rapid.SampledFrom([]string{"round 2", "rounds 2", "at 15 s", "halfway", "burpee", "nothing known", ";", "round 99999999999999999999 plank", "at :20 plank", "a side", "then"})
	rapid.Check(t, func(t *rapid.T) {
		note := strings.Join(rapid.SliceOfN(words, 0, 6).Draw(t, "note"), " ")
		e := roomful.Element{Movement: "push-up", Words: "push-up", Note: note}
		lines := prep.Lines(roomful.Part{Format: roomful.Unscored{Rounds: 3, Each: 40 * time.Second}, Round: []roomful.Element{e}}, lex,
			func(roomful.Element) time.Duration { return 0 })
		for _, l := range lines {
			if l.Element.Movement == "" {
				t.Fatalf("%q: a line without a movement", note)
			}
		}
		if strings.Contains(note, "nothing known") && !strings.Contains(lines[0].Element.Note, "nothing") && len(lines) == 1 {
			t.Fatalf("%q became %q", note, lines[0].Element.Note)
		}
	})
}
