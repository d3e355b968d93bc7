package study

import "roomful"

// pieces are whole workouts with published means and spreads.
func pieces() []Study {
	return []Study{mateMunoz2017(), gomezLandero2020(), thomas2004()}
}

// mateMunoz2017 is three pieces of different kinds done by one group.
func mateMunoz2017() Study {
	students := man(22, 76.9)
	students.Skills = []roomful.SkillLevel{{Movement: "double-under", Level: roomful.SomeSkill}} // "low skill"
	g := &Group{Words: "34 trained adults of 22 years", N: 34, Mean: students}
	s := Study{
		Key: "mate-munoz-2017", Source: "Maté-Muñoz et al. 2017, PLoS ONE 12(7):e0181855", DOI: "10.1371/journal.pone.0181855", Read: Published,
		Findings: []Finding{
			{What: "20 min of 5 pull-ups, 10 push-ups, 15 air squats", Unit: "rounds", Group: g, Mean: 19.59, SD: 2.6, Rule: withinSD(19.59, 2.6),
				Figure: Median{Sheet: "main: as many rounds as possible in 20 min\n  5 pull-ups\n  10 push-ups\n  15 air squats\n"}},
			{What: "5 min of power cleans at 40 %", Unit: "reps", Group: g, Mean: 108.9, SD: 24.4, Rule: withinSD(108.9, 24.4),
				Figure: Median{Sheet: "main: as many as possible in 5 min\n  power cleans @ 40 %\n", Of: Reps}},
			{What: "largest share of the reserve spent in the cleans", Unit: "share", Group: g, Mean: 0.8, Rule: between(0.5, 0.95, "0.5 to 0.95, judged"),
				Figure: Mean{Sheet: "main: as many as possible in 5 min\n  power cleans @ 40 %\n", Of: Reserve}},
			{What: "largest share of the reserve spent in the 20 min", Unit: "share", Group: g, Mean: 0.7, Rule: between(0.5, 0.95, "0.5 to 0.95, judged"),
				Figure: Mean{Sheet: "main: as many rounds as possible in 20 min\n  5 pull-ups\n  10 push-ups\n  15 air squats\n", Of: Reserve}},
		},
	}
	rope := func(n int) Bout { return Bout{"main: {n} x 20 s work / 10 s rest\n  double-unders\n", n} }
	for i, mean := range []float64{13.9, 12.8, 11.7, 9.6, 10.7, 9.9, 10.2, 9.4} {
		s.Findings = append(s.Findings, Finding{
			What: "double-unders in 20 s, bout " + roomful.Figure(float64(i+1)), Unit: "reps", Group: g,
			Mean: mean, Rule: withinShare(mean, 0.30), Figure: rope(i + 1),
		})
	}
	s.Findings = append(s.Findings,
		Finding{What: "double-unders fall: bout 1 over bout 4", Unit: "ratio", Group: g, Mean: 13.9 / 9.6,
			Rule: between(1.1, 1.8, "falling, 1.1 to 1.8, judged"), Figure: Ratio{rope(1), rope(4)}},
		Finding{What: "then stay flat: bout 8 over bout 5", Unit: "ratio", Group: g, Mean: 9.4 / 10.7,
			Rule: between(0.85, 1.05, "flat, 0.85 to 1.05, judged"), Figure: Ratio{rope(8), rope(5)}})
	return s
}

// coupletSheet is a couplet of thrusters and pull-ups; its loads are from
// memory.
const coupletSheet = "main: 21-15-9 for time\n  thrusters 43/29 kg\n  pull-ups\n"

func gomezLandero2020() Study {
	men := man(0, 78.6, known(roomful.TestSquat, 137.6), known(roomful.TestBench, 101.7), known(roomful.TestPullUps, 18.9), known(roomful.TestVO2max, 47.7))
	g := &Group{Words: "15 men who train for this", N: 15, Mean: men}
	return Study{
		Key: "gomez-landero-2020", Source: "Gómez-Landero & Frías-Menacho 2020, J Hum Kinet 73:83", DOI: "10.2478/hukin-2019-0134", Read: Published,
		Findings: []Finding{
			{What: "21-15-9 thrusters 43 kg and pull-ups", Unit: "s", Group: g, Mean: 337, SD: 119, Rule: withinSD(337, 119), Figure: Median{Sheet: coupletSheet}},
			{What: "its reserve, largest share spent", Unit: "share", Group: g, Mean: 0.8, Rule: between(0.5, 0.95, "0.5 to 0.95, judged"),
				Figure: Mean{Sheet: coupletSheet, Of: Reserve}},
			{What: "r of squat and time", Unit: "r", Group: g, Mean: -0.53, Rule: correlated(-0.53, 15),
				Figure: Link{Between: []roomful.Capacity{roomful.OneRM(roomful.BackSquat)}, Sheet: coupletSheet}},
		},
	}
}

func thomas2004() Study {
	// Their age is from memory: cadets at a university.
	men := &Group{Words: "30 men, cadets", N: 30, Mean: man(21, 79.2, known(roomful.TestVO2max, 49.6), known(roomful.TestBench, 86.5))}
	women := &Group{Words: "13 women, cadets", N: 13, Mean: woman(21, 63.5, known(roomful.TestVO2max, 40.8), known(roomful.TestBench, 35.3))}
	s := Study{Key: "thomas-2004", Source: "Thomas et al. 2004, J Strength Cond Res 18:904", Read: Published}
	for _, c := range []struct {
		group              *Group
		pushUps, pushUpsSD float64
		sitUps, sitUpsSD   float64
		miles, milesSD     float64 // min
	}{
		{men, 60.2, 13.2, 70.5, 12.8, 13.97, 1.4},
		{women, 33.3, 11.2, 65.0, 12.9, 17.0, 1.6},
	} {
		add := func(what, unit string, mean, sd float64, f Figure) {
			s.Findings = append(s.Findings, Finding{What: what, Unit: unit, Group: c.group, Mean: mean, SD: sd, Rule: withinSD(mean, sd), Figure: f})
		}
		add("push-ups in 2 min", "reps", c.pushUps, c.pushUpsSD, Median{Sheet: "main: as many as possible in 2 min\n  push-ups\n", Of: Reps})
		add("sit-ups in 2 min", "reps", c.sitUps, c.sitUpsSD, Median{Sheet: "main: as many as possible in 2 min\n  sit-ups\n", Of: Reps})
		add("two miles", "s", c.miles*60, c.milesSD*60, Median{Sheet: "main: for time\n  2 mi run\n"})
	}
	return s
}
