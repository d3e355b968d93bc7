package study

import "roomful"

// recalled are laws and outcomes given from memory. They are printed, and
// decide nothing.
func recalled() []Study {
	return []Study{cooper1968(), runTest(), daniels1979(), mayhew1999(), farrar2010()}
}

// runner is a young man whose oxygen uptake alone is known.
func runner(vo2max float64) *Group {
	return &Group{Words: "men of VO2max " + roomful.Figure(vo2max), Mean: trained(man(25, 75, known(roomful.TestVO2max, vo2max)), 24)}
}

// cooper1968: VO2max = (metres in 12 min − 504.9) / 44.73.
func cooper1968() Study {
	s := Study{Key: "cooper-1968", Source: "Cooper 1968, JAMA 203:201", Read: Memory}
	for _, v := range []float64{40, 50, 60} {
		s.Findings = append(s.Findings, Finding{What: "metres run in 12 min", Unit: "m", Group: runner(v), Mean: 504.9 + 44.73*v, Rule: told,
			Figure: Median{Sheet: "main: as many metres as possible in 12 min\n  run\n"}})
	}
	return s
}

// runTest is the guidelines' mile and a half: VO2max = 3.5 + 483 / minutes.
func runTest() Study {
	s := Study{Key: "acsm-run-test", Source: "ACSM's Guidelines for Exercise Testing and Prescription, 1.5-mile run", Read: Memory}
	for _, v := range []float64{40, 50, 60} {
		s.Findings = append(s.Findings, Finding{What: "a mile and a half", Unit: "s", Group: runner(v), Mean: 60 * 483 / (v - 3.5), Rule: told,
			Figure: Median{Sheet: "main: for time\n  1.5 mi run\n"}})
	}
	return s
}

// daniels1979 gives the times of good runners, whose economy is better than
// most people's: 5 km in 24:08 at 40, 19:57 at 50, 17:03 at 60.
func daniels1979() Study {
	s := Study{Key: "daniels-1979", Source: "Daniels & Gilbert 1979, Oxygen Power", Read: Memory}
	for _, c := range []struct{ v, seconds float64 }{{40, 1448}, {50, 1197}, {60, 1023}} {
		s.Findings = append(s.Findings, Finding{What: "5 km run", Unit: "s", Group: runner(c.v), Mean: c.seconds, Rule: told,
			Figure: Median{Sheet: "main: for time\n  5 km run\n"}})
	}
	return s
}

// mayhew1999: bench maximum in lb = 226.7 + 7.1 x repetitions with 225 lb, of
// college football players.
func mayhew1999() Study {
	g := lifters("football players", 142, 20, 100)
	s := Study{Key: "mayhew-1999", Source: "Mayhew et al. 1999, J Strength Cond Res 13:95", Read: Memory}
	for _, pounds := range []float64{280, 315, 350} {
		s.Findings = append(s.Findings, Finding{What: "225 lb to failure, maximum " + roomful.Figure(pounds) + " lb", Unit: "reps", Group: g,
			Mean: (pounds - 226.7) / 7.1, Rule: told, Figure: Failure{"bench-press", 100 * 225 / pounds}})
	}
	return s
}

// farrar2010: ten college men swung 16 kg 265 ± 68 times in 12 minutes at 65 %
// of VO2max.
func farrar2010() Study {
	g := &Group{Words: "10 college men", N: 10, Mean: man(21, 77, known(roomful.TestVO2max, 52.8))}
	return Study{Key: "farrar-2010", Source: "Farrar et al. 2010, J Strength Cond Res 24:1034", Read: Memory, Findings: []Finding{
		{What: "swings of 16 kg in 12 min", Unit: "reps", Group: g, Mean: 265, SD: 68, Rule: told,
			Figure: Median{Sheet: "main: as many as possible in 12 min\n  kettlebell swings 16 kg\n", Of: Reps}},
	}}
}
