package score_test

import (
	"strings"
	"testing"
	"time"

	"roomful/score"
)

// TestLongTexts pastes far too much: the beginning is read, it asks, all of the text is
// kept, and what is not read takes no time to speak of. The times are compared in one
// run, since machines differ; a text of 100 kB takes under 50 ms on ours.
func TestLongTexts(t *testing.T) {
	lex := lexicon(t)
	q := score.Asked{Session: specSheet(t, "main: as many rounds as possible in 12 min\n  10 deadlifts 80/55 kg\n", lex), Piece: "main", Lexicon: lex}
	for _, unit := range []string{"5+20 ", "band, ", "knee sore. ", "(f) 1:20 / ", "1.2.3,", "🔥", "//", "5,1:/", "5 5 5 5 5 kg ", "dl 5 ", "60kg last rd ", "cap +", "after 3 rds ", "at 1:0 ", "with Al ", "a"} {
		fastest := func(bytes int) time.Duration { // of several: others may be at work on the machine
			text := strings.Repeat(unit, bytes/len(unit))
			least := time.Hour
			for range 7 {
				began := time.Now()
				a, err := score.Read(q, text)
				least = min(least, time.Since(began))
				if err != nil || a.Text != text || a.Readings[0].Raw != text || bytes > 10_000 && a.Readings[0].Question == nil {
					t.Fatalf("%d bytes of %q: %v, %d bytes kept, question %+v", bytes, unit, err, len(a.Text), a.Readings[0].Question)
				}
			}
			return least
		}
		page, long := fastest(4000), fastest(100_000)
		if long > 500*time.Millisecond { // with room for a busy machine and the race detector
			t.Errorf("100 kB of %q take %v", unit, long)
		}
		if long > 3*page+5*time.Millisecond {
			t.Errorf("100 kB of %q take %v, 4 kB %v", unit, long, page)
		}
	}
}
