package study

import "roomful"

// swaps are the trade's equal-time exchanges between machines, running and
// rope, for an ordinary member, each within a quarter. Charts disagree by more;
// they are habits, and decide because the trade lives by them.
func swaps() []Study {
	g := &Group{Words: "an ordinary member", Mean: trained(man(35, 80), 18)}
	time := func(line string) Median { return Median{Sheet: "main: for time\n  " + line + "\n"} }
	s := Study{Key: "swaps", Source: "equal-time swaps of the trade", Read: Habit}
	row := time("450 m row")
	for _, c := range []string{"450 m ski", "900 m bike", "400 m run"} {
		s.Findings = append(s.Findings, Finding{
			What: c + ": its time over a 450 m row's", Unit: "ratio", Group: g, Mean: 1, Rule: withinShare(1, 0.25), Figure: Ratio{time(c), row},
		})
	}
	s.Findings = append(s.Findings, Finding{
		What: "450 m row against 2 min of rope", Unit: "s", Group: g, Mean: 120, Rule: withinShare(120, 0.25), Figure: row,
	})
	return []Study{s, ramp()}
}

// rampSheet is a ramp to a heavy working weight: from the empty bar upwards, with
// 45 s to change plates and breathe. Sets and rests are the trade's; the model
// says how long the sets take, and that nobody tires on the way.
const rampSheet = `strength: 1 set
  8 back squats 20 kg
  rest 45 s
  5 back squats @ 40 %
  rest 45 s
  3 back squats @ 60 %
  rest 45 s
  2 back squats @ 75 %
  rest 45 s
  1 back squat @ 85 %
`

// ramp holds that a ramp to a heavy working weight takes 3 to 5 minutes beyond
// the general warm-up.
func ramp() Study {
	g := &Group{Words: "an ordinary member who squats", Mean: trained(man(35, 80, known(roomful.TestSquat, 125)), 18)}
	return Study{Key: "ramp", Source: "ramps of the trade", Read: Habit, Findings: []Finding{
		{What: "a ramp to a heavy back squat, beyond the general warm-up", Unit: "s", Group: g, Mean: 240,
			Rule: between(180, 300, "3 to 5 minutes"), Figure: Median{Sheet: rampSheet, Of: Seconds}},
		{What: "load of its last set, 85 % of a maximum of 125 kg", Unit: "kg", Group: g, Mean: 106.25,
			Rule: between(100, 107.5, "the last set is done"), Figure: Median{Sheet: rampSheet}},
	}}
}
