package study

import "roomful"

// links are what goes along with what.
func links() []Study { return []Study{butcher2015(), bianco2015()} }

// butcher2015 orders two pieces by how far strength tells them: the heavy one
// more than the couplet. Its people's means have not been read; judged.
func butcher2015() Study {
	g := &Group{Words: "14 people who compete at this", N: 14, Mean: trained(man(28, 80), 36)}
	strength := []roomful.Capacity{roomful.OneRM(roomful.BackSquat), roomful.OneRM(roomful.Deadlift), roomful.OneRM(roomful.Press)}
	heavy := Link{Between: strength, Sheet: "main: for time, cap 20 min\n  30 clean and jerks 61/43 kg\n"}
	couplet := Link{Between: strength, Sheet: coupletSheet}
	return Study{
		Key: "butcher-2015", Source: "Butcher et al. 2015, Open Access J Sports Med 6:241", DOI: "10.2147/OAJSM.S88265", Read: Published,
		Findings: []Finding{
			{What: "r of summed maxima and 30 heavy repetitions' time", Unit: "r", Group: g, Mean: -0.88, Rule: told, Figure: heavy},
			{What: "r of summed maxima and the couplet's time", Unit: "r", Group: g, Mean: -0.65, Rule: told, Figure: couplet},
			{What: "the heavy piece goes more by strength", Unit: "r", Group: g, Mean: -0.23, Rule: between(-1, 0, "below 0"), Figure: Difference{heavy, couplet}},
		},
	}
}

func bianco2015() Study {
	g := &Group{Words: "people who train", Mean: trained(man(25, 75), 24)}
	s := Study{Key: "bianco-2015", Source: "Bianco et al. 2015, SpringerPlus 4:265", DOI: "10.1186/s40064-015-1023-6", Read: Copied}
	for _, c := range []struct{ a, b roomful.MovementID }{{"push-up", "pull-up"}, {"push-up", "sit-up"}} {
		s.Findings = append(s.Findings, Finding{
			What: "endurance of " + string(c.a) + " and " + string(c.b), Unit: "r", Group: g, Mean: 0.53,
			Rule: between(0.35, 0.70, "0.45 to 0.6, ± 0.1"), Figure: Together{roomful.OwnMax(c.a), roomful.OwnMax(c.b)},
		})
	}
	return s
}
