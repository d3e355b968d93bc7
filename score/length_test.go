package score_test

import (
	"strings"
	"testing"
	"time"

	"roomful/score"
)

// TestLongTexts pastes far too much: all of it is kept, the beginning is read, it asks,
// and it takes no longer than a blink (a bound of ours).
func TestLongTexts(t *testing.T) {
	lex := lexicon(t)
	q := score.Asked{Session: specSheet(t, "main: as many rounds as possible in 12 min\n  10 deadlifts 80/55 kg\n", lex), Piece: "main", Lexicon: lex}
	for _, unit := range []string{"5+20 ", "band, ", "knee sore. ", "(f) 1:20 / ", "1.2.3,", "🔥", "//", "5,1:/", "5+20 deadlifts 60 kg then 40 from round 3, "} {
		text := strings.Repeat(unit, 100_000/len(unit))
		began := time.Now()
		a, err := score.Read(q, text)
		if err != nil || a.Text != text || a.Readings[0].Raw != text {
			t.Errorf("100 kB of %q: %v, or not all of it is kept", unit, err)
		}
		if len(a.Readings) > 0 && a.Readings[0].Question == nil {
			t.Errorf("100 kB of %q are read without a question", unit)
		}
		if took := time.Since(began); took > 200*time.Millisecond {
			t.Errorf("100 kB of %q take %v", unit, took)
		}
	}
}
