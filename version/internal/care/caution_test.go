package care_test

import (
	"regexp"
	"strings"
	"testing"

	"roomful"
	"roomful/version/internal/care"
)

// cited is a caution with its source: an author or body and a year, or the word
// that there is none but the trade.
var cited = regexp.MustCompile(`^[A-Z].*[a-z0-9] \(.*(?:\b(?:19|20)\d\d\b|common practice).*\)\. Local rules and licensed practice come first\.$`)

// TestCautionsAreCited holds that whatever is printed to keep somebody safe says
// where it comes from and gives way to local rules and licensed practice.
func TestCautionsAreCited(t *testing.T) {
	held := care.Bounds{Young: true, Expecting: true, New: true, Returning: true, Volume: 0.5,
		Acting: []roomful.Limit{{What: "pregnant", Pain: -1}, {What: "back", Pain: 4}}}
	all := append(held.Cautions(true, roomful.HouseCautions{}), care.StopCautions(roomful.HouseCautions{})...)
	for _, c := range all {
		if !cited.MatchString(c) {
			t.Errorf("no source, or no deference at the end: %q", c)
		}
		if n := strings.Count(c, "Local rules"); n != 1 {
			t.Errorf("defers %d times: %q", n, c)
		}
	}
	// Pain, youth, pregnancy, return, first months, muscle, shared work, red flag.
	if len(all) != 8 {
		t.Errorf("%d cautions for somebody held back in every way, want 8", len(all))
	}
	for _, bare := range []string{"Stop. Local rules and licensed practice come first.", "Stop (a friend). Local rules and licensed practice come first.",
		"Stop (common practice)."} {
		if cited.MatchString(bare) {
			t.Errorf("taken for cited: %q", bare)
		}
	}
}
