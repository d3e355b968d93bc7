package catalogue_test

import (
	"slices"
	"testing"

	"roomful"
)

// The rules below are said again in their own words rather than asked of the
// package, so that a slip there shows here.

// kitOf returns what a movement takes beyond a floor.
func kitOf(m *roomful.Movement) []string {
	kit := slices.Clone(m.Needs)
	if m.Implement != roomful.NoImplement {
		kit = append(kit, string(m.Implement))
	}
	return kit
}

// TestEveryMovementCanBeDoneWithNoKit holds that whoever has nothing at all still has something to do.
func TestEveryMovementCanBeDoneWithNoKit(t *testing.T) {
	c := load(t)
	nothing := &roomful.Kit{Home: true}
	for _, m := range c.All() {
		if len(kitOf(m)) == 0 {
			continue
		}
		found := false
		for _, s := range m.SwapsFor(roomful.ForNoKit) {
			found = found || nothing.Lacks(c.Movement(s.To)) == ""
		}
		if !found {
			t.Errorf("%s takes %v and has no swap that takes nothing", m.ID, kitOf(m))
		}
	}
}

// TestEverySwapSparesWhatIsSore holds that each area a movement loads has a swap for it, that
// the swap spares the area, and that it keeps the pattern or says what it turns
// into.
func TestEverySwapSparesWhatIsSore(t *testing.T) {
	c := load(t)
	for reason, area := range map[roomful.Reason][]roomful.Stress{
		roomful.ForBack:     {roomful.StressSpine},
		roomful.ForShoulder: {roomful.StressShoulder, roomful.StressOverhead},
		roomful.ForWrist:    {roomful.StressWrist},
		roomful.ForKnee:     {roomful.StressKnee},
		roomful.ForImpact:   {roomful.StressImpact},
		// Commonly left out late in pregnancy; the person's own clinician decides
		// (ACOG Committee Opinion 804, 2020).
		roomful.ForPregnancy: {roomful.StressBelly, roomful.StressSupine, roomful.StressFall, roomful.StressImpact, roomful.StressInversion},
	} {
		for _, m := range c.All() {
			swaps := m.SwapsFor(reason)
			if slices.ContainsFunc(area, m.Loads) && len(swaps) == 0 {
				t.Errorf("%s loads %v and has no swap for %s", m.ID, area, reason)
			}
			for _, s := range swaps {
				if to := c.Movement(s.To); slices.ContainsFunc(area, to.Loads) {
					t.Errorf("%s: for %s it becomes %s, which loads %v too", m.ID, reason, to.ID, to.Stress)
				}
			}
		}
	}
}

// TestEveryLimitHasAWayOut takes the limits that no reason to swap stands for: for
// each, some easier form or swap does not load the area.
func TestEveryLimitHasAWayOut(t *testing.T) {
	c := load(t)
	for _, limit := range roomful.LimitWords {
		stress := roomful.Stress(limit)
		if limit == "back" {
			stress = roomful.StressSpine
		}
		for _, m := range c.All() {
			if !m.Loads(stress) {
				continue
			}
			out := slices.Clone(m.Easier)
			for _, s := range m.Swaps {
				out = append(out, s.To)
			}
			if !slices.ContainsFunc(out, func(id roomful.MovementID) bool { return !c.Movement(id).Loads(stress) }) {
				t.Errorf("%s loads the %s and so does everything it may become: %v", m.ID, limit, out)
			}
		}
	}
}

// TestOneBellIsEnough: whoever owns one dumbbell or one kettlebell takes it for each usual
// lift of a bar before a backpack or no load at all (common practice, no source).
func TestOneBellIsEnough(t *testing.T) {
	c := load(t)
	for _, id := range []roomful.MovementID{"press", "push-press", "push-jerk", "thruster", "clean", "power-clean", "hang-power-clean", "clean-and-jerk", "snatch", "power-snatch", "front-squat", "back-squat"} {
		for _, swap := range c.Movement(id).SwapsFor(roomful.ForNoKit) {
			to := c.Movement(swap.To)
			if to.Implement == roomful.NoImplement {
				t.Errorf("%s: %s comes before what one bell can do", id, to.ID)
			}
			if (to.Implement == roomful.Dumbbell || to.Implement == roomful.Kettlebell) && !to.Pair {
				break
			}
		}
	}
}

// TestEveryNeedHasASwapForTheKitAtHand holds that somebody sore who has the kit for a movement has
// at least one swap that asks for no further kit.
func TestEveryNeedHasASwapForTheKitAtHand(t *testing.T) {
	c := load(t)
	for _, m := range c.All() {
		have := kitOf(m)
		for _, r := range []roomful.Reason{roomful.ForBack, roomful.ForShoulder, roomful.ForWrist, roomful.ForKnee,
			roomful.ForImpact, roomful.ForNoise, roomful.ForCeiling, roomful.ForPregnancy, roomful.ForSkill} {
			swaps := m.SwapsFor(r)
			ok := slices.ContainsFunc(swaps, func(s roomful.Swap) bool {
				return !slices.ContainsFunc(kitOf(c.Movement(s.To)), func(k string) bool { return !slices.Contains(have, k) })
			})
			if len(swaps) > 0 && !ok {
				t.Errorf("%s: every swap for %s asks for kit that its own does not include", m.ID, r)
			}
		}
	}
}

// TestEveryMachineStandsInForTheOthers holds that each machine, and running, has a swap without one, and
// that machines stand in for one another.
func TestEveryMachineStandsInForTheOthers(t *testing.T) {
	c := load(t)
	for _, id := range []roomful.MovementID{"row", "ski", "bike", "fan-bike", "run"} {
		m := c.Movement(id)
		var to []roomful.MovementID
		without := false
		for _, s := range m.SwapsFor(roomful.ForNoMachine) {
			to = append(to, s.To)
			without = without || c.Movement(s.To).Modality == roomful.Body
			if s.Ratio != 0 {
				t.Errorf("%s to %s has a ratio: charts disagree, and equal time is the default", id, s.To)
			}
		}
		if !without {
			t.Errorf("%s has no swap without a machine: %v", id, to)
		}
		for _, other := range []roomful.MovementID{"row", "ski", "bike", "fan-bike"} {
			if m.Modality == roomful.Machine && other != id && !slices.Contains(to, other) {
				t.Errorf("%s does not go over to %s", id, other)
			}
		}
	}
}

// TestEverySwapKeepsThePatternOrSaysSo holds that nothing turns into another pattern silently, and that
// neither push for pull nor squat for hinge happens within easier forms.
func TestEverySwapKeepsThePatternOrSaysSo(t *testing.T) {
	c := load(t)
	opposite := map[roomful.Pattern][]roomful.Pattern{
		roomful.PushHorizontal: {roomful.PullHorizontal, roomful.PullVertical},
		roomful.PushVertical:   {roomful.PullHorizontal, roomful.PullVertical},
		roomful.PullHorizontal: {roomful.PushHorizontal, roomful.PushVertical},
		roomful.PullVertical:   {roomful.PushHorizontal, roomful.PushVertical},
		roomful.Squat:          {roomful.Hinge},
		roomful.Hinge:          {roomful.Squat},
	}
	for _, m := range c.All() {
		for _, s := range m.Swaps {
			to := c.Movement(s.To)
			if changes := m.Patterns[0] != to.Patterns[0]; changes != (s.Neighbour != "") {
				t.Errorf("%s (%s) to %s (%s) says %q", m.ID, m.Patterns[0], to.ID, to.Patterns[0], s.Neighbour)
			}
		}
		for _, id := range m.Easier {
			e := c.Movement(id)
			if slices.Contains(opposite[m.Patterns[0]], e.Patterns[0]) && !m.Is(e.Patterns[0]) {
				t.Errorf("%s (%v) gets easier as %s (%v)", m.ID, m.Patterns, id, e.Patterns)
			}
		}
	}
}

// TestEveryWalkThroughSwapsEnds follows every swap for one reason, and every easier form, as far
// as they go; only among the machines may a walk come round.
func TestEveryWalkThroughSwapsEnds(t *testing.T) {
	c := load(t)
	machine := func(id roomful.MovementID) bool { return c.Movement(id).Modality == roomful.Machine }
	var walk func(path []roomful.MovementID, next func(*roomful.Movement) []roomful.MovementID)
	walk = func(path []roomful.MovementID, next func(*roomful.Movement) []roomful.MovementID) {
		last := path[len(path)-1]
		for _, id := range next(c.Movement(last)) {
			switch {
			case machine(last) && machine(id):
			case slices.Contains(path, id) || len(path) > 12:
				t.Errorf("this walk does not end: %v, %s", path, id)
			default:
				walk(append(path, id), next)
			}
		}
	}
	for _, m := range c.All() {
		start := []roomful.MovementID{m.ID}
		walk(start, func(m *roomful.Movement) []roomful.MovementID { return m.Easier })
		for _, r := range roomful.Reasons {
			walk(start, func(m *roomful.Movement) []roomful.MovementID {
				var to []roomful.MovementID
				for _, s := range m.SwapsFor(r) {
					to = append(to, s.To)
				}
				return to
			})
		}
	}
}

// TestEveryRatioOfTheTradeIsKept holds the few ratios the trade has (common practice, no source).
func TestEveryRatioOfTheTradeIsKept(t *testing.T) {
	c := load(t)
	for _, want := range []struct {
		of, to roomful.MovementID
		ratio  float64
	}{
		{"double-under", "single-under", 2},
		{"pull-up", "ring-row", 1},
		{"toes-to-bar", "knee-raise", 1},
		{"toes-to-bar", "v-up", 1.5},
		{"box-jump", "box-step-up", 1},
		{"wall-ball", "dumbbell-thruster", 1},
		{"handstand-push-up", "pike-push-up", 1},
		{"ring-dip", "push-up", 2},
		{"rope-climb", "lying-rope-pull", 3},
	} {
		i := slices.IndexFunc(c.Movement(want.of).Swaps, func(s roomful.Swap) bool { return s.To == want.to })
		if i < 0 {
			t.Errorf("%s has no swap %s", want.of, want.to)
		} else if got := c.Movement(want.of).Swaps[i].Ratio; got != want.ratio {
			t.Errorf("%s to %s is %g for 1, want %g", want.of, want.to, got, want.ratio)
		}
	}
}

// TestEveryUsualSwapForASoreBackComesFirst holds what coaches often choose when bending or landing
// hurts (common practice, no source).
func TestEveryUsualSwapForASoreBackComesFirst(t *testing.T) {
	c := load(t)
	for id, want := range map[roomful.MovementID]roomful.MovementID{
		"box-jump":         "box-step-up",
		"box-jump-over":    "box-step-over",
		"broad-jump":       "stair-step-up",
		"double-under":     "step-jack",
		"muscle-up":        "ring-row",
		"rope-climb":       "ring-row",
		"toes-to-bar":      "dead-bug",
		"kettlebell-swing": "hip-bridge",
	} {
		if swaps := c.Movement(id).SwapsFor(roomful.ForBack); len(swaps) == 0 || swaps[0].To != want {
			t.Errorf("%s for a sore back: %v, want %s first", id, swaps, want)
		}
	}
}
