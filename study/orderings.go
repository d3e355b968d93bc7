package study

import "roomful"

// The pieces between which strength and oxygen uptake are weighed. What the rounds
// with runs held beside them is from memory.
const (
	heavySheet     = "main: for time\n  30 clean and jerks 61/43 kg\n"
	runRoundsSheet = "main: 5 rounds for time\n  400 m run\n  15 overhead squats 43/29 kg\n"
)

// summed is what the papers add up for strength.
var summed = []roomful.Capacity{roomful.OneRM(roomful.BackSquat), roomful.OneRM(roomful.Deadlift), roomful.OneRM(roomful.Press)}

// orderings holds what tells which piece against a population: people of all ages
// and masses who have trained three years. A paper's few people differ in those
// too, and a strong one is often a heavy one who is no better at pull-ups. Beside
// them stand men for whom the loads are lighter.
func orderings() []Study {
	men := &Group{Words: "men of a gym", Mean: trained(man(32, 80), 36), Mixed: true}
	women := &Group{Words: "women of a gym", Mean: trained(woman(32, 65), 36), Mixed: true}
	strong := &Group{
		Words: "men who squat as those of Gómez-Landero 2020 do", Mean: trained(man(25, 78.6, known(roomful.TestSquat, 137.6)), 36),
	}
	return []Study{strengthOrders(men, women), oxygenOrders(men, women, strong)}
}

// strengthOrders: summed maxima tell a heavy piece better than a couplet, by about
// as much as in the 14 people that were read of.
func strengthOrders(groups ...*Group) Study {
	s := Study{
		Key: "butcher-2015-gym", Source: "Butcher et al. 2015, Open Access J Sports Med 6:241", DOI: "10.2147/OAJSM.S88265", Read: Published,
	}
	heavy := Link{Between: summed, Sheet: heavySheet, Ranked: true}
	couplet := Link{Between: summed, Sheet: coupletSheet, Ranked: true}
	for _, g := range groups {
		s.Findings = append(s.Findings,
			Finding{What: g.Words + ": r of summed maxima and 30 heavy repetitions", Unit: "r", Group: g, Mean: -0.88, Rule: correlated(-0.88, 14), Figure: heavy},
			Finding{What: g.Words + ": r of summed maxima and the couplet", Unit: "r", Group: g, Mean: -0.65, Rule: correlated(-0.65, 14), Figure: couplet},
			Finding{What: g.Words + ": the heavy piece goes more by strength", Unit: "r", Group: g, Mean: -0.23, Rule: between(-1, 0, "below 0"), Figure: Difference{heavy, couplet}},
		)
	}
	return s
}

// oxygenOrders: oxygen uptake tells rounds with much running better than strength
// does, and better than it tells a heavy piece. Its figures have not been read.
func oxygenOrders(groups ...*Group) Study {
	s := Study{
		Key: "dexheimer-2019-gym", Source: "Dexheimer et al. 2019, Sports 7(4):93", DOI: "10.3390/sports7040093", Read: Published,
	}
	link := func(of []roomful.Capacity, sheet string) Link { return Link{Between: of, Sheet: sheet, Ranked: true} }
	oxygen := []roomful.Capacity{roomful.CapVO2max}
	runs := link(oxygen, runRoundsSheet)
	for _, g := range groups {
		s.Findings = append(s.Findings,
			Finding{What: g.Words + ": r of oxygen uptake and rounds with runs", Unit: "r", Group: g, Mean: Unread, Rule: told, Figure: runs},
			Finding{What: g.Words + ": rounds with runs go more by oxygen than by strength", Unit: "r", Group: g, Mean: Unread, Rule: between(-1, 0, "below 0"),
				Figure: Difference{runs, link(summed, runRoundsSheet)}},
			Finding{What: g.Words + ": rounds with runs go more by oxygen than 30 heavy repetitions do", Unit: "r", Group: g, Mean: Unread, Rule: between(-1, 0, "below 0"),
				Figure: Difference{runs, link(oxygen, heavySheet)}},
		)
	}
	return s
}
