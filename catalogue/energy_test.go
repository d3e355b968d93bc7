package catalogue_test

import (
	"math"
	"testing"

	"roomful"
)

// The energy of one repetition, J per kg of body mass (doc/model.md, rule 1):
// 50 J/(kg·m) lifted and lowered, 37.6 dropped.
func energy(m *roomful.Movement, bodyKg, loadKg, heightM float64) float64 {
	t := m.Travel
	c, lift := 50.0, t.BodyTravelM
	if t.Dropped {
		c = 37.6
	}
	if t.OverHeight {
		lift += heightM
	}
	return c*(loadKg*t.LoadTravelM/bodyKg+lift) + t.JoulesPerKg
}

// netOfMET turns metabolic equivalents into W per kg above rest: 1 MET is 3.5
// mL/kg/min and a millilitre of oxygen 20.9 J (ACSM).
func netOfMET(met float64) float64 { return (met - 1) * 3.5 * 20.9 / 60 }

// netOfVO2 does so for a gross oxygen uptake in mL/kg/min.
func netOfVO2(v float64) float64 { return (v - 3.5) * 20.9 / 60 }

// TestEveryCostIsNearTheMeasured compares the cost of a minute at a usual cadence with what was
// measured. Compendium: Herrmann et al. 2024, doi 10.1016/j.jshs.2023.10.010, by
// code; its rows without a cadence are taken at one that is common practice.
func TestEveryCostIsNearTheMeasured(t *testing.T) {
	c := load(t)
	for _, k := range []struct {
		of                    roomful.MovementID
		perMinute             float64
		bodyKg, loadKg, highM float64
		want, within          float64 // W/kg net, share
		source                string
	}{
		{"single-under", 140, 75, 0, 0, netOfMET(12.3), .25, "Compendium 15550, 120-160 a minute"},
		{"single-under", 110, 75, 0, 0, netOfMET(11.8), .25, "Compendium 15551, 100-120 a minute"},
		{"double-under", 90, 75, 0, 0, netOfMET(10), .25, "Compendium 15554, cadence common practice"},
		{"kettlebell-swing", 22.1, 77.3, 16, 0, netOfVO2(34.31), .05, "Farrar et al. 2010, doi 10.1519/JSC.0b013e3181d15516"},
		{"kettlebell-swing", 20, 75, 20, 0, netOfMET(9.8), .25, "Compendium 02058, cadence and load common practice"},
		{"burpee", 15, 75, 0, 0, netOfMET(11), .25, "Compendium 02214, cadence common practice"},
		{"burpee-without-push-up", 17, 75, 0, 0, netOfMET(11), .25, "Compendium 02214, cadence common practice"},
		{"box-step-up", 30, 75, 0, .3048, netOfVO2(31.4), .02, "ACSM step equation, worked example"},
		{"box-step-up", 24, 75, 0, .381, netOfVO2(30.2), .02, "ACSM step equation, worked example"},
		{"box-step-up", 30, 75, 0, .28, netOfMET(9), .25, "Compendium 02003, 10-12 in, cadence common practice"},
		{"stair-step-up", 30, 75, 0, 0, netOfMET(7.3), .25, "Compendium 02002, 6-8 in, cadence common practice"},
		{"push-up", 20, 75, 0, 0, netOfMET(6.91), .25, "Vezina et al. 2014, doi 10.1519/JSC.0000000000000375"},
		{"pull-up", 20, 75, 0, 0, netOfMET(8.03), .25, "Vezina et al. 2014"},
		{"strict-pull-up", 20, 75, 0, 0, netOfMET(8.03), .25, "Vezina et al. 2014"},
		{"lunge", 20, 75, 0, 0, netOfMET(7.52), .25, "Vezina et al. 2014"},
		{"box-jump", 50, 75, 0, .45, netOfVO2(80.1), .25, "90-second box jump, J Athl Enhanc: 75 in 90 s; bench of 0.45 m from Ferland et al. 2020"},
		{"walk", 93.8, 75, 0, 0, netOfVO2(3.5 + .1*93.8), .02, "ACSM walking equation, level, 3.5 mph"},
		{"jog", 134, 75, 0, 0, netOfMET(8.5), .25, "Compendium 12030, 5 mph"},
	} {
		m := c.Movement(k.of)
		got := k.perMinute / 60 * energy(m, k.bodyKg, k.loadKg, k.highM)
		if off := math.Abs(got/k.want - 1); off > k.within {
			t.Errorf("%s at %g a minute costs %.2f W/kg, %.2f measured, %.0f %% off (%s)", k.of, k.perMinute, got, k.want, 100*off, k.source)
		}
	}
}

// TestEveryRelativeIsInOrder holds the order between relatives: what has less of a lift in it
// costs less, and an easier form is no harder.
func TestEveryRelativeIsInOrder(t *testing.T) {
	c := load(t)
	cost := func(id roomful.MovementID) float64 { return energy(c.Movement(id), 75, 30, .5) }
	lift := func(id roomful.MovementID) float64 { return c.Movement(id).Travel.LoadTravelM }
	share := func(id roomful.MovementID) float64 { return c.Movement(id).Bound.Share }
	time := func(id roomful.MovementID) float64 { return c.Movement(id).Pace.Skilled }
	for _, k := range []struct {
		what       string
		of         func(roomful.MovementID) float64
		less, more roomful.MovementID
	}{
		{"travel", lift, "hang-power-clean", "power-clean"},
		{"travel", lift, "hang-power-snatch", "power-snatch"},
		{"travel", lift, "hang-dumbbell-snatch", "dumbbell-snatch"},
		{"energy", cost, "power-clean", "clean-and-jerk"},
		{"energy", cost, "power-snatch", "snatch"},
		{"energy", cost, "single-under", "double-under"},
		{"energy", cost, "press", "push-press"},
		{"energy", cost, "kettlebell-swing", "overhead-kettlebell-swing"},
		{"energy", cost, "squat-to-box", "air-squat"},
		{"energy", cost, "air-squat", "squat-jump"},
		{"energy", cost, "ring-row", "pull-up"},
		{"energy", cost, "pull-up", "chest-to-bar-pull-up"},
		{"energy", cost, "incline-push-up", "knee-push-up"},
		{"energy", cost, "knee-push-up", "push-up"},
		{"energy", cost, "burpee-without-push-up", "burpee"},
		{"energy", cost, "burpee", "burpee-box-jump-over"},
		{"energy", cost, "box-step-up", "box-jump"},
		{"share", share, "hang-power-clean", "power-clean"},
		{"share", share, "power-clean", "clean"},
		{"share", share, "hang-power-snatch", "power-snatch"},
		{"share", share, "power-snatch", "snatch"},
		{"share", share, "dumbbell-thruster", "thruster"},
		{"share", share, "goblet-squat", "front-squat"},
		{"share", share, "ring-row", "banded-pull-up"},
		{"share", share, "banded-pull-up", "pull-up"},
		{"share", share, "pull-up", "strict-pull-up"},
		{"share", share, "incline-push-up", "knee-push-up"},
		{"share", share, "pike-push-up", "box-pike-push-up"},
		{"share", share, "knee-raise", "toes-to-bar"},
		{"share", share, "crunch", "sit-up"},
		{"share", share, "push-press", "push-jerk"},
		{"time", time, "single-under", "double-under"},
		{"time", time, "pull-up", "strict-pull-up"},
		{"time", time, "burpee-without-push-up", "burpee"},
		{"time", time, "burpee", "bar-facing-burpee"},
		{"time", time, "power-clean", "clean-and-jerk"},
		{"time", time, "kettlebell-swing", "thruster"},
	} {
		if less, more := k.of(k.less), k.of(k.more); less >= more {
			t.Errorf("%s: %s has %.3g and %s %.3g", k.what, k.less, less, k.more, more)
		}
	}
}

// TestEveryPaceIsWhatCoachesReckonWith holds the seconds per repetition of an ordinary member within what
// coaches reckon with, and a skilled person's in the quicker half or below
// (common practice, no source).
func TestEveryPaceIsWhatCoachesReckonWith(t *testing.T) {
	c := load(t)
	for id, band := range map[roomful.MovementID][2]float64{
		"double-under": {0.6, 0.8}, "single-under": {0.45, 0.5}, "air-squat": {1.3, 2}, "push-up": {1.3, 2.5}, "sit-up": {2, 2.5},
		"burpee": {3, 6}, "box-jump": {2, 3.5}, "box-step-up": {2.5, 3.5}, "kettlebell-swing": {1.6, 2}, "wall-ball": {2, 2.8},
		"thruster": {2, 3}, "deadlift": {1.8, 3}, "power-clean": {2.3, 3.5}, "power-snatch": {2.3, 3.5}, "front-squat": {2.5, 3.5},
		"back-squat": {2.5, 3.5}, "walking-lunge": {1.5, 2}, "pull-up": {1.4, 2.2}, "strict-pull-up": {2.5, 4}, "ring-row": {1.8, 2.5},
		"toes-to-bar": {1.7, 2.8}, "handstand-push-up": {2, 4}, "ring-dip": {2, 3}, "muscle-up": {4, 8}, "rope-climb": {12, 25},
	} {
		p := c.Movement(id).Pace
		if p.Ordinary < band[0] || p.Ordinary > band[1] {
			t.Errorf("%s takes an ordinary member %g s, not %g to %g", id, p.Ordinary, band[0], band[1])
		}
		if middle := (band[0] + band[1]) / 2; p.Skilled > middle {
			t.Errorf("%s takes a skilled person %g s, in the slower half beyond %g", id, p.Skilled, middle)
		}
	}
}

// TestEveryOwnMaximumIsHuman holds what an ordinary member of a year could do in one go of
// every movement that an own maximum bounds: something, and not everything. N
// follows doc/model.md, rule 4.
func TestEveryOwnMaximumIsHuman(t *testing.T) {
	c := load(t)
	trained := 1 - math.Exp(-1) // twelve months
	for _, m := range c.All() {
		if m.Bound == nil || m.Bound.Own == "" {
			continue
		}
		ref := c.Movement(m.Bound.Own).Bound
		for division, name := range []string{"a", "b"} {
			most := ref.Most[division] * math.Exp(ref.Growth[division]*trained)
			n := 1 + 28*((1+(most-1)/28)/m.Bound.Share-1)
			if n > 600 || n < 1 && !m.Skill.Needed {
				t.Errorf("%s, division %s: %.1f in one go", m.ID, name, n)
			}
		}
	}
}
