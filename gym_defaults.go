package roomful

import "sync"

// NoSource is the source of a rule of thumb.
const NoSource = "common practice, no source"

// Yours stands in the place of a source where there is no default.
const Yours = "yours to say"

// oursStays says why a caution cannot be replaced.
const oursStays = Yours + ": ours tells when to seek help and stays"

// settings are all there are, in the order in which they are read, printed and
// documented. The unit stands before everything that is written in it.
var settings = []Setting{
	{Key: "name", in: func(g *Gym) any { return &g.Name }, Help: "what the gym is called", Source: Yours},
	{Key: "zone", in: func(g *Gym) any { return &g.Zone }, Help: "the time zone of its clock, such as Europe/London", Source: Yours},
	{Key: "unit", Default: "kg", in: func(g *Gym) any { return &g.Unit }, Help: "the unit of its bars and plates, kg or lb",
		Source: "the International System of Units"},
	{Key: "smallest_pair", Default: "2.5 kg", DefaultLb: "5 lb", Least: 0.25, Most: 50, in: func(g *Gym) any { return &g.SmallestPair },
		Help: "the two smallest plates together, for loads when no kit is given", Source: NoSource},
	{Key: "cap_policy", Default: string(CapCounts), in: func(g *Gym) any { return &g.CapPolicy },
		Help: "what stands when the cap comes first: repetitions done, no score, or finish anyway", Source: NoSource + ": gyms differ; this way nothing is lost"},
	{Key: "ratios", in: func(g *Gym) any { return &g.Ratios }, Least: leastRatio, Most: mostRatio,
		Help: "so many of another movement for one of the first", Source: Yours + ": without one, the catalogue's or the same time for the person"},

	{Key: "hour.length", Default: "60 min", Unit: "min", Least: 20, Most: 180, in: func(g *Gym) any { return &g.Hour.Length },
		Help: "how long a class is when its sheet does not say", Source: NoSource},
	{Key: "hour.amber", Default: "56 min", Unit: "min", Least: 20, Most: 180, AtMost: "hour.red", in: func(g *Gym) any { return &g.Hour.Amber },
		Help: "planned minutes beyond which a class of that length is tight", Source: NoSource},
	{Key: "hour.red", Default: "60 min", Unit: "min", Least: 20, Most: 180, AtMost: "hour.length", in: func(g *Gym) any { return &g.Hour.Red },
		Help: "planned minutes beyond which a class of that length will run over", Source: NoSource},
	{Key: "hour.briefing", Default: "4 min", Unit: "min", Least: 0, Most: 15, in: func(g *Gym) any { return &g.Hour.Briefing },
		Help: "the briefing at the start", Source: NoSource + ": 3 to 4 min, at most 7"},
	{Key: "hour.briefing_held", Default: "4", Unit: "elements", Least: 0, Most: 20, in: func(g *Gym) any { return &g.Hour.BriefingHeld },
		Help: "elements that the briefing has time for", Source: "judgement: eight with their options take more than 5 min"},
	{Key: "hour.taught", Default: "75 s", Unit: "s", Least: 0, Most: 600, in: func(g *Gym) any { return &g.Hour.Taught },
		Help: "teaching each further element", Source: NoSource + ": 60 to 90 s"},
	{Key: "hour.part_briefing", Default: "2 min", Unit: "min", Least: 0, Most: 15, in: func(g *Gym) any { return &g.Hour.PartBriefing },
		Help: "the words before each further scored part", Source: NoSource + ": 2 to 3 min with the set-up"},
	{Key: "hour.warm_up", Default: "8 min", Unit: "min", Least: 0, Most: 30, in: func(g *Gym) any { return &g.Hour.WarmUp },
		Help: "the general warm-up, when the sheet has none", Source: NoSource + ": 6 to 10 min"},
	{Key: "hour.ramp_set", Default: "30 s", Unit: "s", Least: 5, Most: 300, in: func(g *Gym) any { return &g.Hour.RampSet },
		Help: "one set of a ramp", Source: "judgement: 1 to 10 repetitions"},
	{Key: "hour.ramp_rest", Default: "90 s", Unit: "s", Least: 0, Most: 600, in: func(g *Gym) any { return &g.Hour.RampRest },
		Help: "the rest before the next set of a ramp", Source: NoSource + ": sets begin about 2 min apart"},
	{Key: "hour.practice", Default: "90 s", Unit: "s", Least: 0, Most: 600, in: func(g *Gym) any { return &g.Hour.Practice },
		Help: "half a round of every movement, slowly, to end the ramp", Source: NoSource + ": 1 to 2 min"},
	{Key: "hour.bar_set_up", Default: "2 min", Unit: "min", Least: 0, Most: 10, in: func(g *Gym) any { return &g.Hour.BarSetUp },
		Help: "finding a bar and loading it", Source: NoSource},
	{Key: "hour.bar_strip", Default: "1 min", Unit: "min", Least: 0, Most: 10, in: func(g *Gym) any { return &g.Hour.BarStrip },
		Help: "stripping a bar and putting it away", Source: "judgement: 5 min to strip, set up and brief again, less those two"},
	{Key: "hour.changeover", Default: "2 min", Unit: "min", Least: 0, Most: 15, in: func(g *Gym) any { return &g.Hour.Changeover },
		Help: "from one part to the next", Source: NoSource + ": 2 to 3 min with water"},
	{Key: "hour.heat_change", Default: "2 min", Unit: "min", Least: 0, Most: 10, in: func(g *Gym) any { return &g.Hour.HeatChange },
		Help: "from one heat to the next", Source: NoSource + ": 1 to 2 min"},
	{Key: "hour.scores", Default: "3 min", Unit: "min", Least: 0, Most: 15, in: func(g *Gym) any { return &g.Hour.Scores },
		Help: "taking everybody's score", Source: NoSource},
	{Key: "hour.mobility", Default: "5 min", Unit: "min", Least: 0, Most: 30, in: func(g *Gym) any { return &g.Hour.Mobility },
		Help: "mobility to end with, when the sheet has none", Source: NoSource + ": 0 to 7 min"},
	{Key: "hour.reset", Default: "3 min", Unit: "min", Least: 0, Most: 15, in: func(g *Gym) any { return &g.Hour.Reset },
		Help: "leaving the room as it was found", Source: NoSource},

	{Key: "weeks.heavy_gap", Default: "48 h", Unit: "h", Least: 0, Most: 336, in: func(g *Gym) any { return &g.Weeks.HeavyGap },
		Help: "between two heavy days of one pattern", Source: NoSource + ": 48 to 72 h"},
	{Key: "weeks.main_lift_gap", Default: "48 h", Unit: "h", Least: 0, Most: 336, in: func(g *Gym) any { return &g.Weeks.MainLiftGap },
		Help: "between two days of the same main lift", Source: NoSource + ": 48 to 72 h"},
	{Key: "weeks.movement_gap", Default: "48 h", Unit: "h", Least: 0, Most: 336, in: func(g *Gym) any { return &g.Weeks.MovementGap },
		Help: "before any other movement comes back, unless a plan says so", Source: NoSource + ": 2 days"},
	{Key: "weeks.impact_days", Default: "2", Unit: "days", Least: 1, Most: 7, in: func(g *Gym) any { return &g.Weeks.ImpactDays },
		Help: "at most so many days in a row with jumping, rope or running", Source: NoSource},
	{Key: "weeks.grip_days", Default: "1", Unit: "days", Least: 1, Most: 7, in: func(g *Gym) any { return &g.Weeks.GripDays },
		Help: "at most so many days in a row with much grip", Source: NoSource},
	{Key: "weeks.overhead_days", Default: "2", Unit: "days", Least: 1, Most: 14, AtMost: "weeks.overhead_span", in: func(g *Gym) any { return &g.Weeks.OverheadDays },
		Help: "at most so many days with much hanging or overhead", Source: NoSource},
	{Key: "weeks.overhead_span", Default: "4", Unit: "days", Least: 1, Most: 14, in: func(g *Gym) any { return &g.Weeks.OverheadSpan },
		Help: "the days in which those overhead days are counted", Source: NoSource},
	{Key: "weeks.new_eccentric", Default: "50 %", Unit: "%", Least: 0, Most: 300, in: func(g *Gym) any { return &g.Weeks.NewEccentric },
		Help: "how much more lowering than over the last four weeks, at most", Source: NoSource},
	{Key: "weeks.retest_soonest", Default: "8", Unit: "weeks", Least: 1, Most: 104, AtMost: "weeks.retest_latest", in: func(g *Gym) any { return &g.Weeks.RetestSoonest },
		Help: "the soonest that a benchmark comes back", Source: NoSource + ": 8 to 16 weeks"},
	{Key: "weeks.retest_latest", Default: "16", Unit: "weeks", Least: 1, Most: 104, in: func(g *Gym) any { return &g.Weeks.RetestLatest },
		Help: "the latest that a benchmark comes back", Source: NoSource + ": 8 to 16 weeks"},
	{Key: "weeks.cycle", Default: "12", Unit: "weeks", Least: 2, Most: 52, in: func(g *Gym) any { return &g.Weeks.Cycle },
		Help: "a cycle with its easy week: half the volume, and lighter", Source: NoSource + ": an easy week every 4 to 12"},
	{Key: "weeks.windows.heavy", Default: "1-2", Unit: "days", Least: 0, Most: 7, in: func(g *Gym) any { return &g.Weeks.Windows.Heavy },
		Help: "days a week with a heavy part", Source: NoSource + ": of five or six"},
	{Key: "weeks.windows.under_5", Default: "0-1", Unit: "days", Least: 0, Most: 7, in: func(g *Gym) any { return &g.Weeks.Windows.Under5 },
		Help: "days a week with a piece under 5 min", Source: NoSource + ": of five or six"},
	{Key: "weeks.windows.5_to_10", Default: "1-2", Unit: "days", Least: 0, Most: 7, in: func(g *Gym) any { return &g.Weeks.Windows.From5To10 },
		Help: "days a week with a piece of 5 to 10 min", Source: NoSource + ": of five or six"},
	{Key: "weeks.windows.10_to_20", Default: "2", Unit: "days", Least: 0, Most: 7, in: func(g *Gym) any { return &g.Weeks.Windows.From10To20 },
		Help: "days a week with a piece of 10 to 20 min", Source: NoSource + ": of five or six"},
	{Key: "weeks.windows.over_20", Default: "1", Unit: "days", Least: 0, Most: 7, in: func(g *Gym) any { return &g.Weeks.Windows.Over20 },
		Help: "days a week with a longer piece, or with intervals", Source: NoSource + ": of five or six"},

	{Key: "cautions.add.stop", in: func(g *Gym) any { return &g.Cautions.Add.Stop }, Help: "your words after ours, for somebody who is sent to a professional", Source: oursStays},
	{Key: "cautions.add.pain", in: func(g *Gym) any { return &g.Cautions.Add.Pain }, Help: "your words after ours when something is sore", Source: oursStays},
	{Key: "cautions.add.muscle", in: func(g *Gym) any { return &g.Cautions.Add.Muscle }, Help: "your words after ours on the days after hard new work", Source: oursStays},
	{Key: "cautions.add.pregnant", in: func(g *Gym) any { return &g.Cautions.Add.Pregnant }, Help: "your words after ours in pregnancy", Source: oursStays},
	{Key: "cautions.add.youth", in: func(g *Gym) any { return &g.Cautions.Add.Youth }, Help: "your words after ours under 18", Source: Yours + ": ours is published and stays"},
	{Key: "cautions.add.alone", in: func(g *Gym) any { return &g.Cautions.Add.Alone }, Help: "your words after ours for training alone", Source: Yours + ": ours keeps a phone within reach and stays"},
	{Key: "cautions.add.returning", in: func(g *Gym) any { return &g.Cautions.Add.Returning }, Help: "your words after ours in the first week back", Source: Yours},
	{Key: "cautions.add.new", in: func(g *Gym) any { return &g.Cautions.Add.New }, Help: "your words after ours in the first months", Source: Yours},
	{Key: "cautions.add.shared", in: func(g *Gym) any { return &g.Cautions.Add.Shared }, Help: "your words after ours when amounts are shared with a partner", Source: Yours},
	{Key: "cautions.replace.returning", in: func(g *Gym) any { return &g.Cautions.Replace.Returning }, Help: "your words in place of ours in the first week back", Source: Yours},
	{Key: "cautions.replace.new", in: func(g *Gym) any { return &g.Cautions.Replace.New }, Help: "your words in place of ours in the first months", Source: Yours},
	{Key: "cautions.replace.shared", in: func(g *Gym) any { return &g.Cautions.Replace.Shared }, Help: "your words in place of ours when amounts are shared with a partner", Source: Yours},

	{Key: "emergency.address", in: func(g *Gym) any { return &g.Emergency.Address }, Help: "the address to tell the ambulance, with the door to use", Source: Yours},
	{Key: "emergency.number", in: func(g *Gym) any { return &g.Emergency.Number }, Help: "the number to call", Source: Yours + ": it differs between countries"},
	{Key: "emergency.calls", in: func(g *Gym) any { return &g.Emergency.Calls }, Help: "who calls", Source: Yours},
	{Key: "emergency.fetches", in: func(g *Gym) any { return &g.Emergency.Fetches }, Help: "who fetches the defibrillator", Source: Yours},
	{Key: "emergency.defibrillator", in: func(g *Gym) any { return &g.Emergency.Defibrillator }, Help: "where the defibrillator hangs", Source: Yours},
	{Key: "emergency.meets", in: func(g *Gym) any { return &g.Emergency.Meets }, Help: "who meets the ambulance, and where", Source: Yours},
	{Key: "emergency.stop", in: func(g *Gym) any { return &g.Emergency.Stop }, Help: "your words after ours on when to stop and call", Source: oursStays},
}

// Settings describes everything that a gym may set, in the order of the file.
// The slice is the caller's own.
func Settings() []Setting { return append([]Setting(nil), settings...) }

// DefaultGym returns the usual settings of a gym in kilograms.
func DefaultGym() Gym { return usualGym() }

// usualGym sets every default once.
var usualGym = sync.OnceValue(func() Gym {
	var g Gym
	for _, s := range settings {
		if s.Default != "" {
			_ = s.Set(&g, s.Default) // a test sets them all
		}
	}
	return g
})
