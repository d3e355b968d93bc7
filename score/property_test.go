package score_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"roomful"
	"roomful/notation"
	"roomful/score"
)

// TestThereAndBack writes scores as they would be typed and reads them again.
func TestThereAndBack(t *testing.T) {
	lex := lexicon(t)
	rounds, _ := notation.Read("main: as many rounds as possible in 12 min\n  10 burpees\n  12 sit-ups\n", lex)
	timed, _ := notation.Read("main: for time, cap 90 min\n  50 burpees\n", lex)
	rapid.Check(t, func(t *rapid.T) {
		n, k := rapid.IntRange(0, 40).Draw(t, "rounds"), rapid.IntRange(0, 21).Draw(t, "reps")
		a, err := score.Read(score.Asked{Session: rounds, Piece: "main", Lexicon: lex}, fmt.Sprintf("%d+%d", n, k))
		if err != nil {
			t.Fatal(err)
		}
		if got := score.Words(a.Readings[0]); got != fmt.Sprintf("%d+%d", n, k) {
			t.Fatalf("%d+%d reads as %s", n, k, got)
		}
		if got := *a.Readings[0].TotalReps; got != n*22+k {
			t.Fatalf("%d+%d is %d in all", n, k, got)
		}
		clock := roomful.Clock(float64(rapid.IntRange(20, 5400).Draw(t, "seconds")))
		if a, err = score.Read(score.Asked{Session: timed, Piece: "main", Lexicon: lex}, clock); err != nil {
			t.Fatal(err)
		}
		if got := score.Words(a.Readings[0]); got != clock || a.Readings[0].Question != nil {
			t.Fatalf("%s reads as %s", clock, got)
		}
	})
}

// FuzzRead holds any text to what is promised: no panic, the text kept, and a
// body word in the private words and nowhere else.
func FuzzRead(f *testing.F) {
	lex := lexicon(f)
	s, _ := notation.Read("strength: 5 x 5\n  back squats\n\nmain: as many rounds as possible in 12 min\n  10 deadlifts 80/55 kg\n  12 toes-to-bar\n", lex)
	rows, _ := demoRows(f, lex)
	for _, r := range rows {
		f.Add(r[3])
	}
	f.Fuzz(func(t *testing.T, text string) {
		for _, words := range []string{text, text + ", sciatica again"} {
			a, err := score.Read(score.Asked{Session: s, Piece: "main", Lexicon: lex}, words)
			if err != nil {
				continue
			}
			for _, r := range a.Readings {
				if a.Text != words || r.Raw != words {
					t.Fatalf("%q is kept as %q", words, r.Raw)
				}
				r.Raw, r.Private = "", nil
				if said := fmt.Sprintf("%+v %+v", r, r.Question); words != text && strings.Contains(strings.ToLower(said), "sciatica") {
					t.Fatalf("%q: a private word stands in %s", words, said)
				}
			}
		}
	})
}

// BenchmarkRead reads every text of the invented gym; the bound is
// 100 µs a text.
func BenchmarkRead(b *testing.B) {
	lex := lexicon(b)
	rows, sheets := demoRows(b, lex)
	i := 0
	for b.Loop() {
		r := rows[i%len(rows)]
		i++
		if _, err := score.Read(score.Asked{Session: sheets[r[2]], Piece: "main", Lexicon: lex}, r[3]); err != nil {
			b.Fatal(err)
		}
	}
}
