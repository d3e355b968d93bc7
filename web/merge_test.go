package web

import (
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// TestMerge: what one coach changed and the other did not is theirs, what both changed is
// asked, and what both changed alike is settled.
func TestMerge(t *testing.T) {
	for _, one := range []struct {
		name, base, mine, theirs string
		want                     []change
	}{
		{"nothing", "a b c", "a b c", "a b c", []change{nobody}},
		{"I changed a line", "a b c", "a x c", "a b c", []change{nobody, byMe, nobody}},
		{"they added one at the end", "a b", "a b", "a b c", []change{nobody, byThem}},
		{"they took one away", "a b c", "a b c", "a c", []change{nobody, byThem, nobody}},
		{"each another line", "a b c d e", "x b c d e", "a b c d y", []change{byMe, nobody, byThem}},
		{"both the same line", "a b c", "a x c", "a y c", []change{nobody, byBoth, nobody}},
		{"both alike", "a b c", "a x c", "a x c", []change{nobody}},
		{"from nothing", "", "a", "b", []change{byBoth}},
	} {
		t.Run(one.name, func(t *testing.T) {
			var got []change
			for _, h := range merge(strings.Fields(one.base), strings.Fields(one.mine), strings.Fields(one.theirs)) {
				got = append(got, h.changed)
			}
			if !slices.Equal(got, one.want) {
				t.Errorf("got %v, want %v", got, one.want)
			}
		})
	}
}

// TestMergeLosesNothing: whoever takes their own side throughout gets their text back, line
// for line.
func TestMergeLosesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SliceOfN(rapid.SampledFrom([]string{"", "a", "b", "c", "d"}), 0, 12)
		base, mine, theirs := text.Draw(t, "base"), text.Draw(t, "mine"), text.Draw(t, "theirs")
		var me, them []string
		for _, h := range merge(base, mine, theirs) {
			me, them = append(append(me, h.same...), h.mine...), append(append(them, h.same...), h.theirs...)
			if h.changed != nobody && slices.Equal(h.mine, h.theirs) {
				t.Fatalf("a stretch is asked about that is the same: %v", h)
			}
		}
		if !slices.Equal(me, mine) || !slices.Equal(them, theirs) {
			t.Fatalf("mine %q came back as %q, theirs %q as %q", mine, me, theirs, them)
		}
	})
}
