package catalogue_test

import (
	"os"
	"slices"
	"strings"
	"testing"

	"roomful"
)

// What swaps promise beyond what swap_test.go holds; said again in other words
// than the package's own checks.

// needs are the reasons that a movement gives for being swapped.
func needs(m *roomful.Movement) map[roomful.Reason]bool {
	loads := func(some ...roomful.Stress) bool { return slices.ContainsFunc(some, m.Loads) }
	return map[roomful.Reason]bool{
		roomful.ForNoKit:     len(kitOf(m)) > 0,
		roomful.ForNoMachine: m.Modality == roomful.Machine || m.Modality == roomful.Running,
		roomful.ForCeiling:   m.Space.CeilingM > 2.1,
		roomful.ForNoise:     m.Noisy,
		roomful.ForBack:      loads(roomful.StressSpine),
		roomful.ForShoulder:  loads(roomful.StressShoulder, roomful.StressOverhead),
		roomful.ForWrist:     loads(roomful.StressWrist),
		roomful.ForKnee:      loads(roomful.StressKnee),
		roomful.ForImpact:    loads(roomful.StressImpact),
		roomful.ForPregnancy: loads(roomful.StressBelly, roomful.StressSupine, roomful.StressFall, roomful.StressImpact, roomful.StressInversion),
		roomful.ForSkill:     m.Skill.Needed,
	}
}

// TestEveryNeedEndsInASwapThatSettlesIt takes the last swap for each need of each
// movement: it does not have that need any more.
func TestEveryNeedEndsInASwapThatSettlesIt(t *testing.T) {
	c := load(t)
	for _, m := range c.All() {
		for r, need := range needs(m) {
			swaps := m.SwapsFor(r)
			switch {
			case !need && len(swaps) > 0:
				t.Errorf("%s has swaps for %s and no need of them", m.ID, r)
			case need && len(swaps) == 0:
				t.Errorf("%s has no swap for %s", m.ID, r)
			case need && needs(c.Movement(swaps[len(swaps)-1].To))[r]:
				t.Errorf("%s for %s ends with %s, which needs one itself", m.ID, r, swaps[len(swaps)-1].To)
			}
		}
	}
}

// TestEverySwapForNoKitTakesLess holds that such a swap leaves out something that
// the movement takes.
func TestEverySwapForNoKitTakesLess(t *testing.T) {
	c := load(t)
	for _, m := range c.All() {
		for _, s := range m.SwapsFor(roomful.ForNoKit) {
			has := kitOf(c.Movement(s.To))
			if !slices.ContainsFunc(kitOf(m), func(k string) bool { return !slices.Contains(has, k) }) {
				t.Errorf("%s takes %v; without kit it becomes %s, which takes %v", m.ID, kitOf(m), s.To, has)
			}
		}
	}
}

// TestEverySwapForQuietIsQuiet and low rooms alike: nothing that bangs, nothing
// higher than before.
func TestEverySwapForQuietIsQuiet(t *testing.T) {
	c := load(t)
	for _, m := range c.All() {
		for _, s := range m.SwapsFor(roomful.ForNoise) {
			if c.Movement(s.To).Noisy {
				t.Errorf("%s for quiet becomes %s, which is not", m.ID, s.To)
			}
		}
		for _, s := range m.SwapsFor(roomful.ForCeiling) {
			if h := c.Movement(s.To).Space.CeilingM; h >= m.Space.CeilingM {
				t.Errorf("%s wants %g m and becomes %s for a low room, which wants %g", m.ID, m.Space.CeilingM, s.To, h)
			}
		}
	}
}

// TestEverySwapIsNoHarderToLearn holds that nobody is sent to a skill from a
// movement that needs none, and nobody for want of skill to any.
func TestEverySwapIsNoHarderToLearn(t *testing.T) {
	c := load(t)
	for _, m := range c.All() {
		for _, s := range m.Swaps {
			if c.Movement(s.To).Skill.Needed && (!m.Skill.Needed || slices.Contains(s.For, roomful.ForSkill)) {
				t.Errorf("%s becomes %s for %v, which has to be learnt", m.ID, s.To, s.For)
			}
		}
	}
}

// TestEverySwapForSomethingSoreAddsNoDanger holds that sparing one area brings no
// landing, fall or hanging upside down that was not there.
func TestEverySwapForSomethingSoreAddsNoDanger(t *testing.T) {
	c := load(t)
	sore := []roomful.Reason{roomful.ForBack, roomful.ForShoulder, roomful.ForWrist, roomful.ForKnee, roomful.ForImpact, roomful.ForPregnancy}
	for _, m := range c.All() {
		for _, s := range m.Swaps {
			if !slices.ContainsFunc(s.For, func(r roomful.Reason) bool { return slices.Contains(sore, r) }) {
				continue
			}
			for _, danger := range []roomful.Stress{roomful.StressImpact, roomful.StressFall, roomful.StressInversion} {
				if c.Movement(s.To).Loads(danger) && !m.Loads(danger) {
					t.Errorf("%s becomes %s for %v, which adds %s", m.ID, s.To, s.For, danger)
				}
			}
		}
	}
}

// TestEverySwapStandsInTheTradesOrder reads what coaches turn to, and in which
// order, from testdata/trade.txt.
func TestEverySwapStandsInTheTradesOrder(t *testing.T) {
	c := load(t)
	text, err := os.ReadFile("testdata/trade.txt")
	if err != nil {
		t.Fatal(err)
	}
	for line := range strings.Lines(string(text)) {
		if line = strings.TrimSpace(line); line == "" || line[0] == '#' {
			continue
		}
		part := strings.Split(line, ": ")
		m := c.Movement(roomful.MovementID(part[0]))
		if len(part) != 3 || m == nil {
			t.Fatalf("no movement, reason and order: %q", line)
		}
		swaps := m.SwapsFor(roomful.Reason(part[1]))
		from := 0
		for _, want := range strings.Fields(part[2]) {
			i := slices.IndexFunc(swaps[from:], func(s roomful.Swap) bool { return string(s.To) == want })
			if i < 0 {
				t.Errorf("%s: %s is missing or out of turn in %v", line, want, swaps)
				break
			}
			from += i + 1
		}
	}
}

// unsaid are what no screen beside a name may show, in any word: parts of the
// body, ailments, age. Package version falls back on plainer words at any of them.
var unsaid = []string{"pain", "sore", "hurt", "injur", "pregnan", "belly", "body", "back", "shoulder", "elbow", "wrist", "neck",
	"hip", "knee", "ankle", "weak", "old", "young", "heavy for", "probab", "%"}

// TestEveryNeighbourMayBeReadAloud holds that what a swap changes can stand on the
// screen.
func TestEveryNeighbourMayBeReadAloud(t *testing.T) {
	for _, s := range sentences(load(t).All()) {
		for _, u := range unsaid {
			if s.kind == "neighbour" && strings.Contains(strings.ToLower(s.text), u) {
				t.Errorf("%s: %q says %q", s.of, s.text, u)
			}
		}
	}
}

// TestEveryNeighbourIsSaidOnce holds that no two swaps explain themselves with
// the same words.
func TestEveryNeighbourIsSaidOnce(t *testing.T) {
	seen := map[string]string{}
	for _, s := range sentences(load(t).All()) {
		if s.kind == "neighbour" && seen[s.text] != "" {
			t.Errorf("%s and %s both say %q", seen[s.text], s.of, s.text)
		}
		seen[s.text] = s.of
	}
}

// TestEveryMovementOwnsUpToWhatItLoads holds what cannot be left out, since a
// limit only forbids what a movement lists.
func TestEveryMovementOwnsUpToWhatItLoads(t *testing.T) {
	for _, m := range load(t).All() {
		lists := func(some ...roomful.Stress) bool {
			return !slices.ContainsFunc(some, func(s roomful.Stress) bool { return !m.Loads(s) })
		}
		ground := m.Modality == roomful.Body || m.Modality == roomful.Loaded
		for what, sound := range map[string]bool{
			"a load overhead without shoulder":    !m.TakesLoad() || !lists(roomful.StressOverhead) || lists(roomful.StressShoulder),
			"a load overhead without a ceiling":   !m.TakesLoad() || !lists(roomful.StressOverhead) || m.Space.CeilingM > 0,
			"a high bar without grip":             !slices.Contains(m.Needs, "pull-up-bar") || lists(roomful.StressGrip) && m.Space.CeilingM > 0,
			"upside down, not saying so":          !m.Is(roomful.Invert) || lists(roomful.StressInversion, roomful.StressShoulder, roomful.StressWrist),
			"a landing that makes no noise":       !ground || !lists(roomful.StressImpact) || m.Noisy,
			"a dropped load that makes no noise":  !m.Travel.Dropped || m.Noisy,
			"a high jump without landing or room": !m.Is(roomful.Jump) || m.Travel.BodyTravelM <= 0.5 && !m.Travel.OverHeight || lists(roomful.StressImpact) && m.Space.CeilingM > 0,
			"a barbell hinge off the back":        m.Implement != roomful.Barbell || m.Patterns[0] != roomful.Hinge || lists(roomful.StressSpine) || lists(roomful.StressSupine),
		} {
			if !sound {
				t.Errorf("%s: %s (%v)", m.ID, what, m.Stress)
			}
		}
	}
}
