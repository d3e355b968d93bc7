package study

import (
	"math"

	"roomful"
)

// usual are times and totals that an ordinary trained man and woman usually
// reach on plain pieces: common practice, no source. They are printed and decide
// nothing.
func usual() []Study {
	skills := []roomful.SkillLevel{{Movement: "double-under", Level: roomful.SolidSkill}}
	him := trained(man(32, 80, known(roomful.TestSquat, 125), known(roomful.TestPullUps, 14), known(roomful.TestVO2max, 48)), 24)
	her := trained(woman(32, 63, known(roomful.TestSquat, 80), known(roomful.TestPullUps, 6), known(roomful.TestVO2max, 41)), 24)
	him.Skills, her.Skills = skills, skills
	men := &Group{Words: "a man who trains: 80 kg, squat 125 kg, 14 pull-ups", Mean: him}
	women := &Group{Words: "a woman who trains: 63 kg, squat 80 kg, 6 pull-ups", Mean: her}
	return []Study{
		{Key: "usual-man", Source: men.Words, Read: Habit, Findings: habits(men, 0)},
		{Key: "usual-woman", Source: women.Words, Read: Habit, Findings: habits(women, 1)},
	}
}

// habit is a plain piece and the ranges in which the results of most ordinary
// trained men and women lie.
type habit struct {
	what, unit, sheet string
	usual             [2][2]float64
	of                Measure
}

// habits returns the pieces for a group; k is 0 for men and 1 for women.
func habits(g *Group, k int) []Finding {
	var out []Finding
	for _, h := range plainPieces {
		low, high := h.usual[k][0], h.usual[k][1]
		out = append(out, Finding{What: h.what, Unit: h.unit, Group: g, Mean: math.Sqrt(low * high), Rule: usually(low, high),
			Figure: Median{Sheet: "main: " + h.sheet + "\n", Of: h.of}})
	}
	return out
}

var plainPieces = []habit{
	{"500 m row", "s", "for time\n  500 m row", [2][2]float64{{97, 112}, {114, 135}}, Score},
	{"2 km row", "s", "for time\n  2 km row", [2][2]float64{{440, 500}, {500, 580}}, Score},
	{"2 km bike", "s", "for time\n  2 km bike", [2][2]float64{{170, 215}, {195, 255}}, Score},
	{"400 m run", "s", "for time\n  400 m run", [2][2]float64{{70, 95}, {84, 112}}, Score},
	{"mile run", "s", "for time\n  1 mi run", [2][2]float64{{385, 470}, {450, 570}}, Score},
	{"5 km run", "s", "for time\n  5 km run", [2][2]float64{{1350, 1650}, {1560, 1950}}, Score},
	{"2 min of push-ups", "reps", "as many as possible in 2 min\n  push-ups", [2][2]float64{{45, 70}, {20, 42}}, Reps},
	{"100 burpees", "s", "for time\n  100 burpees", [2][2]float64{{420, 660}, {480, 780}}, Score},
	{"21-15-9 thrusters 43/29 kg, pull-ups", "s", "21-15-9 for time\n  thrusters 43/29 kg\n  pull-ups", [2][2]float64{{270, 480}, {420, 780}}, Score},
	{"20 min of 5 pull-ups, 10 push-ups, 15 air squats", "rounds", "as many rounds as possible in 20 min\n  5 pull-ups\n  10 push-ups\n  15 air squats",
		[2][2]float64{{14, 20}, {9, 15}}, Score},
	{"30 clean and jerks 61/43 kg", "s", "for time\n  30 clean and jerks 61/43 kg", [2][2]float64{{180, 420}, {180, 480}}, Score},
	{"3 rounds of 400 m run, 21 swings 24/16 kg, 12 pull-ups", "s",
		"3 rounds for time\n  400 m run\n  21 kettlebell swings 24/16 kg\n  12 pull-ups", [2][2]float64{{600, 840}, {720, 1080}}, Score},
	{"150 wall balls 9/6 kg", "s", "for time\n  150 wall balls 9/6 kg", [2][2]float64{{420, 720}, {450, 780}}, Score},
	{"1 km row, 50 thrusters 20/15 kg, 30 pull-ups", "s", "for time\n  1 km row\n  50 thrusters 20/15 kg\n  30 pull-ups",
		[2][2]float64{{420, 630}, {540, 840}}, Score},
	{"50-40-30-20-10 double-unders and sit-ups", "s", "50-40-30-20-10 for time\n  double-unders\n  sit-ups", [2][2]float64{{420, 690}, {450, 750}}, Score},
}
