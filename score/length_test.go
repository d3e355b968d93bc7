package score_test

import (
	"strings"
	"testing"
	"time"

	"roomful/score"
)

// TestLongTexts pastes far too much: the beginning is read, it asks, all of the text is
// kept, and it takes no longer than a blink (50 ms, a bound of ours).
func TestLongTexts(t *testing.T) {
	lex := lexicon(t)
	q := score.Asked{Session: specSheet(t, "main: as many rounds as possible in 12 min\n  10 deadlifts 80/55 kg\n", lex), Piece: "main", Lexicon: lex}
	for _, unit := range []string{"5+20 ", "band, ", "knee sore. ", "(f) 1:20 / ", "1.2.3,", "🔥", "//", "5,1:/", "5 5 5 5 5 kg ", "dl 5 ", "60kg last rd ", "cap +", "after 3 rds ", "at 1:0 ", "with Al ", "a"} {
		text := strings.Repeat(unit, 100_000/len(unit))
		fastest := time.Hour // of several: others may be at work on the machine
		for range 5 {
			began := time.Now()
			a, err := score.Read(q, text)
			fastest = min(fastest, time.Since(began))
			if err != nil || a.Text != text || a.Readings[0].Raw != text || a.Readings[0].Question == nil {
				t.Fatalf("100 kB of %q: %v, %d bytes kept, question %+v", unit, err, len(a.Text), a.Readings[0].Question)
			}
		}
		if fastest > 50*time.Millisecond {
			t.Errorf("100 kB of %q take %v", unit, fastest)
		}
	}
}
