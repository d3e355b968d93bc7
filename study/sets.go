package study

import (
	"fmt"
	"math"

	"roomful"
	"roomful/equation"
)

// sets are repetitions to failure, and what rest between sets gives back.
func sets() []Study {
	return []Study{failure(), richmond2004(), willardson2005(), senna2009(), hardee2012()}
}

// lifters are men who lift, with whatever the prior makes of them.
func lifters(words string, n, age int, massKg float64) *Group {
	return &Group{Words: words, N: n, Mean: trained(man(age, massKg), 36)}
}

// failure holds the repetitions possible fresh between the two published
// curves, the chart of the National Strength and Conditioning Association and
// Wolfe's table, within half a repetition.
func failure() Study {
	g := lifters("anyone who lifts", 0, 25, 80)
	s := Study{
		Key: "failure-curves", Source: "NSCA training load chart; Wolfe 2024, Int J Strength Cond 4(1)", DOI: "10.47206/ijsc.v4i1.266", Read: Copied,
	}
	for _, c := range []struct {
		movement roomful.MovementID
		lift     equation.WolfeLift
	}{{"back-squat", equation.WolfeSquat}, {"bench-press", equation.WolfeBench}, {"deadlift", equation.WolfeDeadlift}} {
		for _, percent := range []float64{75, 85, 95} {
			// The chart gives 2 repetitions at 95 % and 10 at 75 %.
			chart, table := equation.NSCAReps(percent/100), equation.WolfeReps(c.lift, percent/100)
			low, high := math.Min(chart, table), math.Max(chart, table)
			s.Findings = append(s.Findings, Finding{
				What: fmt.Sprintf("%s to failure at %.0f %%", c.movement, percent), Unit: "reps", Group: g, Mean: (low + high) / 2,
				Rule: between(low-0.5, high+0.5, "between the curves, ± 0.5"), Figure: Failure{c.movement, percent},
			})
		}
	}
	return s
}

// benchSets is some sets to failure on the bench, with minutes of rest.
func benchSets(count int, percent, rest float64) Mean {
	return Mean{Sheet: fmt.Sprintf("strength: %d sets, rest %.0f min\n  bench press @ %s %%\n", count, rest, roomful.Figure(percent)), Of: Reps}
}

func richmond2004() Study {
	g := lifters("28 men who lift for recreation", 28, 0, 80)
	rest := func(min float64) Mean { return benchSets(2, 75, min) }
	return Study{
		Key: "richmond-2004", Source: "Richmond & Godard 2004, J Strength Cond Res 18:846", DOI: "10.1519/14833.1", Read: Published,
		Findings: []Finding{
			{What: "bench, 2 sets at 75 %: work at 1 min rest over 5 min", Unit: "ratio", Group: g, Mean: 1389.1 / 1711.4,
				Rule: withinShare(1389.1/1711.4, 0.15), Figure: Ratio{rest(1), rest(5)}},
			{What: "and at 3 min over 5 min", Unit: "ratio", Group: g, Mean: 1494.9 / 1711.4,
				Rule: withinShare(1494.9/1711.4, 0.15), Figure: Ratio{rest(3), rest(5)}},
		},
	}
}

// eightRM is the share of the maximum that allows eight repetitions by the
// model's own reckoning and by the chart alike (80 %).
const eightRM, tenRM = 80, 75

func willardson2005() Study {
	g := lifters("15 men who lift", 15, 21, 84)
	rest := func(min float64) Mean { return benchSets(4, eightRM, min) }
	return Study{
		Key: "willardson-2005", Source: "Willardson & Burkett 2005, J Strength Cond Res 19:23", Read: Copied,
		Findings: []Finding{
			{What: "bench, 4 sets of 8RM: repetitions at 2 min rest over 1 min", Unit: "ratio", Group: g, Mean: 1.26,
				Rule: withinShare(1.26, 0.15), Figure: Ratio{rest(2), rest(1)}},
			{What: "and at 5 min over 1 min", Unit: "ratio", Group: g, Mean: 1.50,
				Rule: withinShare(1.50, 0.15), Figure: Ratio{rest(5), rest(1)}},
		},
	}
}

// senna2009 gives the repetitions left of three sets of ten at a load good for
// ten. The model's own first set stands for the ten.
func senna2009() Study {
	g := lifters("14 trained men", 14, 23, 74.9)
	kept := func(min float64) Figure {
		return Ratio{benchSets(3, tenRM, min), Sum{benchSets(1, tenRM, 1), benchSets(1, tenRM, 1), benchSets(1, tenRM, 1)}}
	}
	return Study{
		Key: "senna-2009", Source: "Senna et al. 2009, J Sports Sci Med 8:197", Read: Published,
		Findings: []Finding{
			{What: "3 sets of 10RM, 2 min rest: share of 30 repetitions kept", Unit: "share", Group: g, Mean: 0.765,
				Rule: withinShare(0.765, 0.15), Figure: kept(2)},
			{What: "and with 5 min rest", Unit: "share", Group: g, Mean: 0.915, Rule: withinShare(0.915, 0.15), Figure: kept(5)},
		},
	}
}

func hardee2012() Study {
	g := lifters("10 men who lift well", 10, 21, 80)
	s := Study{Key: "hardee-2012", Source: "Hardee et al. 2012, J Strength Cond Res 26:883", DOI: "10.1519/JSC.0b013e3182474370", Read: Published}
	for _, c := range []struct {
		what, sheet string
		loss        float64
	}{
		{"straight", "strength: 1 set\n  {n} power cleans @ 80 %\n", 0.102},
		{"with 20 s between", "strength: 6 sets, rest 20 s\n  1 power clean @ 80 %\n", 0.038},
		{"with 40 s between", "strength: 6 sets, rest 40 s\n  1 power clean @ 80 %\n", 0.017},
	} {
		s.Findings = append(s.Findings, Finding{
			What: "speed lost over 6 power cleans at 80 %, " + c.what, Unit: "share", Group: g, Mean: c.loss,
			Rule: withinPoints(c.loss, 0.03), Figure: Slowing{c.sheet, 6},
		})
	}
	return s
}
