package study

import (
	"roomful"
	"roomful/equation"
)

// energies are what a minute of a movement costs, and how much of a hard
// piece's energy oxygen pays for.
func energies() []Study { return []Study{compendium(), rios2024(), rios2023()} }

// compendium compares the energy of steady work with the 2024 Compendium. Where
// it gives no cadence, one from elsewhere stands in the finding.
func compendium() Study {
	g := &Group{Words: "an adult of 80 kg", Mean: man(35, 80)}
	s := Study{
		Key: "compendium-2024", Source: "Herrmann et al. 2024, J Sport Health Sci 13(1):6", DOI: "10.1016/j.jshs.2023.10.010", Read: Copied,
	}
	for _, c := range []struct {
		what, code string
		of         Energy
	}{
		{"rope, singles at 110 a minute", "15551", Energy{Movement: "single-under", PerMinute: 110}},
		{"rope, singles at 130 a minute", "15550", Energy{Movement: "single-under", PerMinute: 130}},
		// The row gives no cadence; 80 passes a minute in 60 jumps is judged.
		{"rope, double-unders at 70 a minute", "15554", Energy{Movement: "double-under", PerMinute: 70}},
		{"row at 125 W", "02072", Energy{Movement: "row", Watts: 125}},
		{"row at 175 W", "02073", Energy{Movement: "row", Watts: 175}},
		{"row at 200 W", "02074", Energy{Movement: "row", Watts: 200}},
		{"bike at 138 W", "01228", Energy{Movement: "bike", Watts: 138}},
		{"bike at 175 W", "01232", Energy{Movement: "bike", Watts: 175}},
		// 16 kg, 22 a minute: Farrar et al. 2010, J Strength Cond Res 24:1034, from
		// memory: 265 swings in 12 min, 34 mL/kg/min.
		{"swings of 16 kg at 22 a minute", "02058", Energy{Movement: "kettlebell-swing", PerMinute: 22, LoadKg: 16}},
		// An ordinary member's cadence in a long piece, common practice.
		{"burpees at 12 a minute", "02214", Energy{Movement: "burpee", PerMinute: 12}},
		{"run at 6 mph", "12050", Energy{Movement: "run", PerMinute: 6 * 26.8}},
		{"run at 8 mph", "12090", Energy{Movement: "run", PerMinute: 8 * 26.8}},
	} {
		row, _ := equation.FindActivity(equation.Compendium2024, c.code)
		s.Findings = append(s.Findings, Finding{
			What: c.what + " (" + c.code + ")", Unit: "MET", Group: g, Mean: row.METs, Rule: withinShare(row.METs, 0.25), Figure: c.of,
		})
	}
	return s
}

// able are men strong enough for a piece. The sources' own inputs have not been
// read: oxygen uptake is that of the men of Gómez-Landero 2020, who train alike,
// and strength is judged by the time or the unbroken sets that are reported. So
// only the share of oxygen is checked.
func able(words string, massKg float64, strength ...roomful.Known) *Group {
	return &Group{Words: words, Mean: trained(man(28, massKg, append(strength, known(roomful.TestVO2max, 47.7))...), 60)}
}

func rios2024() Study {
	// It takes a snatch of 120 kg before the model is as fast as they were, which
	// is more than such men are likely to have.
	g := able("men who snatch 61 kg 30 times in about 2 min", 85,
		known(roomful.TestSquat, 180), known(roomful.TestClean, 150), known(roomful.TestSnatch, 120))
	g.Spread = map[roomful.Capacity]float64{roomful.OneRM(roomful.Snatch): 0.08} // judged: all of them could
	sheet := "main: for time\n  30 power snatches 61 kg\n"                       // the load is from memory
	return Study{
		Key: "rios-2024", Source: "Rios et al. 2024, Sensors 24:513", DOI: "10.3390/s24020513", Read: Published,
		Findings: []Finding{
			{What: "30 snatches of 61 kg: share of oxygen, strength judged by the time", Unit: "share", Group: g, Mean: 0.40,
				Rule: withinPoints(0.40, 0.08), Figure: Aerobic{sheet}},
			{What: "their time, which their strength was judged by", Unit: "s", Group: g, Mean: 117, Rule: told, Figure: Median{Sheet: sheet}},
			{What: "largest share of the reserve spent", Unit: "share", Group: g, Mean: 0.8, Rule: told, Figure: Mean{Sheet: sheet, Of: Reserve}},
		},
	}
}

func rios2023() Study {
	g := able("men who do 21-15-9 unbroken", 78.6,
		known(roomful.TestSquat, 160), known(roomful.TestClean, 120), known(roomful.TestPullUps, 40))
	g.Spread = map[roomful.Capacity]float64{roomful.OwnMax("pull-up"): 0.12} // judged: all of them could
	return Study{
		Key: "rios-2023", Source: "Int J Sports Physiol Perform 2023", DOI: "10.1123/ijspp.2023-0201", Read: Published,
		Findings: []Finding{
			{What: "21-15-9 thrusters and pull-ups: share of oxygen, strength judged by unbroken sets", Unit: "share", Group: g, Mean: 0.62,
				Rule: withinPoints(0.62, 0.08), Figure: Aerobic{coupletSheet}},
			{What: "breaks in it, of somebody at their centre", Unit: "breaks", Group: g, Mean: 0, Rule: told, Figure: Breaks{coupletSheet}},
			{What: "largest share of the reserve spent", Unit: "share", Group: g, Mean: 0.8, Rule: told, Figure: Mean{Sheet: coupletSheet, Of: Reserve}},
		},
	}
}
