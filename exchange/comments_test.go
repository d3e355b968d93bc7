package exchange_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"roomful/exchange"
)

// TestKeepComments: a comment goes with its line though figures change and lines move, and
// none is lost with its line.
func TestKeepComments(t *testing.T) {
	was := "# What stands here.\n\nname: The \"#1\" hall # not our words\nbars:\n  # heavy ones first\n  - {mass: 20, count: 7} # two are bent\n  - {mass: 15, count: 7}\nspace: {length_m: 24}\n# the end\n"
	now := "name: The hall\nspace: {length_m: 25}\nbars:\n  - {mass: 15, count: 8}\n  - {mass: 20, count: 6}\n"
	want := "# What stands here.\n\nname: The hall # not our words\nspace: {length_m: 25}\nbars:\n  - {mass: 15, count: 8}\n  # heavy ones first\n  - {mass: 20, count: 6} # two are bent\n# the end\n"
	if got := exchange.KeepComments(was, now); got != want {
		t.Errorf("got\n%s", got)
	}
	if got := exchange.KeepComments(was, "name: X\n"); !strings.Contains(got, "# heavy ones first\n# two are bent\n# the end\n") {
		t.Errorf("with the bars gone:\n%s", got)
	}
}

// TestNoCommentIsLost: whatever two texts say, every comment of the first is in the second.
func TestNoCommentIsLost(t *testing.T) {
	line := rapid.StringMatching(`( {0,3})([a-c]: |- \{mass: [1-3]|# [a-z]{3}|)([0-9a-c'",}]{0,4})( # [d-f]{4})?`)
	rapid.Check(t, func(t *rapid.T) {
		was := strings.Join(rapid.SliceOfN(line, 0, 8).Draw(t, "was"), "\n")
		now := strings.Join(rapid.SliceOfN(rapid.StringMatching(`( {0,3})([a-c]: |- \{mass: [1-3])([0-9]{1,2})`), 0, 8).Draw(t, "now"), "\n")
		got := exchange.KeepComments(was, now)
		for one := range strings.Lines(was) {
			if bare := strings.TrimSpace(one); strings.HasPrefix(bare, "#") && !strings.Contains(got, bare) {
				t.Fatalf("%q is lost of\n%s\nin\n%s", bare, was, got)
			}
		}
	})
}
