package score_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"roomful"
	"roomful/notation"
	"roomful/score"
)

// TestSaidManyWays says one thing in every order and form that people do: so many rounds of five
// with one bell and the rest with another. All are the first bell and, from the round after
// on, the second; rounds are of one length, so that it is n fifths of the time, to 5 s.
func TestSaidManyWays(t *testing.T) {
	lex := lexicon(t)
	s, _ := notation.Read("main: for time, 5 rounds\n  400 m run\n  15 kettlebell swings 24/16 kg\n", lex)
	forms := []string{
		"T A first N rounds then B", "T, A first N rds, then B", "T A for the first N rounds and B after", "T A for N rounds then B",
		"T B, A first N rounds", "T B (A first N rounds)", "T (A for N rounds, B after)", "T first N rounds at A, rest at B", "T first N rounds A / B the rest",
		"T N rounds at A, rest B", "T N rounds at A, M at B", "T A rounds 1-N, B after", "T A until round O then B", "T A up to round N, B after",
		"T A, B from round O", "T A, from round O B", "T A then B from round O on", "T A dropped to B after N rounds", "A first N rounds then B. T", "B, A first N rounds. T",
		"T A; last M rounds B", "T\nA first N rounds\nB after",
	}
	// Six rounds of 32 and three more in twelve minutes are 6.094 rounds.
	window, _ := notation.Read("main: as many rounds as possible in 12 min\n  10 deadlifts 80/55 kg\n  10 box jumps 60/50 cm\n  12 toes-to-bar\n", lex)
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 5).Draw(t, "rounds with the first")
		form := rapid.SampledFrom(forms).Filter(func(f string) bool { return !strings.Contains(f, "M") }).Draw(t, "form")
		text := strings.NewReplacer("T", "6+3", "A", "80", "B", "60", "N", fmt.Sprint(n), "O", fmt.Sprint(n+1)).Replace(form)
		a, err := score.Read(score.Asked{Session: window, Piece: "main", Division: roomful.DivisionA, Lexicon: lex}, text)
		if err != nil {
			t.Fatal(err)
		}
		r, at := a.Readings[0], math.Round(720*float64(n)/(6+3.0/32)/5)*5
		if r.Question != nil || score.Words(r) != "6+3" || len(r.Changes) != 1 || r.Changes[0] != (roomful.Change{Of: "deadlift", LoadKg: 60, AtSeconds: at}) {
			t.Fatalf("%q: %s, %+v, question %+v; want 60 kg from %v s", text, score.Words(r), r.Changes, r.Question, at)
		}
	})
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(2, 3).Draw(t, "rounds with the first") // "2 rounds", "last 2 rounds"
		seconds := rapid.IntRange(10*60, 25*60).Draw(t, "seconds")
		unit := rapid.SampledFrom([]string{"", " kg", "kg", "KG"}).Draw(t, "unit")
		form := rapid.SampledFrom(forms).Draw(t, "form")
		text := strings.NewReplacer("T", roomful.Clock(float64(seconds)), "A", "24"+unit, "B", "16"+unit, "N", fmt.Sprint(n), "O", fmt.Sprint(n+1), "M", fmt.Sprint(5-n)).Replace(form)
		a, err := score.Read(score.Asked{Session: s, Piece: "main", Division: roomful.DivisionA, Lexicon: lex}, text)
		if err != nil {
			t.Fatal(err)
		}
		r := a.Readings[0]
		at := math.Round(float64(seconds)*float64(n)/5/5) * 5
		if r.Question != nil || *r.Seconds != float64(seconds) || len(r.Changes) != 1 || r.Changes[0] != (roomful.Change{Of: "kettlebell-swing", LoadKg: 16, AtSeconds: at}) {
			t.Fatalf("%q: %+v, question %+v; want 16 kg from %v s", text, r.Changes, r.Question, at)
		}
	})
}

// TestDigitsOfAllScripts types a time in the digits of other scripts, whose noughts are from the
// Unicode character database (UnicodeData.txt, from memory).
func TestDigitsOfAllScripts(t *testing.T) {
	for name, nought := range map[string]rune{"fullwidth": 0xFF10, "Arabic": 0x0660, "Persian": 0x06F0, "Devanagari": 0x0966, "Bengali": 0x09E6, "Thai": 0x0E50, "bold": 0x1D7CE} {
		typed := strings.Map(func(r rune) rune {
			if r >= '0' && r <= '9' {
				return nought + r - '0'
			}
			return r
		}, "21:58")
		if r := privateReading(t, typed); *r.Seconds != 21*60+58 || r.Raw != typed {
			t.Errorf("%s: %q is %v s, kept as %q", name, typed, *r.Seconds, r.Raw)
		}
	}
}
