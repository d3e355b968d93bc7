package study

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
	return []Study{s}
}
