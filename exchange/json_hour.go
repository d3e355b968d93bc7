package exchange

import (
	"time"

	"roomful"
)

// Hour is a class minute by minute. Times of day are words, "17:42", or from the
// start of the class when nobody said when that is; the numbers beside them are
// seconds from the start.
type Hour struct {
	Fits        bool         `json:"fits"`    // speaks of minutes alone; tight is fits
	Verdict     string       `json:"verdict"` // fits, tight, over
	Minutes     float64      `json:"minutes"`
	Length      float64      `json:"length_minutes"`
	Lines       []HourLine   `json:"lines"`
	Heats       []Heat       `json:"heats"`
	Waves       []Wave       `json:"waves"`
	Stations    []Station    `json:"stations"`
	Short       []HourShort  `json:"short"`
	Fixes       []Fix        `json:"fixes"`
	Changes     []Fix        `json:"changes"`
	Dropped     []string     `json:"dropped"`
	NoMore      bool         `json:"nothing_more_to_drop"`
	Diagnostics []Diagnostic `json:"diagnostics"`
	Amber       float64      `json:"tight_beyond_minutes"`
	Red         float64      `json:"over_beyond_minutes"`
}

// HourLine is a stretch of the hour.
type HourLine struct {
	Start        string  `json:"start"`
	End          string  `json:"end"`
	What         string  `json:"what"`
	Kind         string  `json:"kind"`
	Part         *string `json:"part"`
	StartSeconds float64 `json:"start_seconds"`
	EndSeconds   float64 `json:"end_seconds"`
	From         string  `json:"from"`
}

// Heat is a part of the class that does a piece on its own.
type Heat struct {
	Part   string   `json:"part"`
	N      int      `json:"n"`
	Start  string   `json:"start"`
	People []string `json:"people"`
}

// Wave is a part of the class that starts a piece later.
type Wave struct {
	Part   string   `json:"part"`
	Heat   int      `json:"heat"` // 0 when all are in one
	N      int      `json:"n"`
	After  float64  `json:"after_seconds"`
	People []string `json:"people"`
}

// Station is a shared place that runs short in a piece. Load above 1 means that
// somebody waits in whatever order they start.
type Station struct {
	Part  string   `json:"part"`
	Name  string   `json:"name"`
	Have  int      `json:"have"`
	Need  int      `json:"need"`
	Wait  *float64 `json:"wait_mean_seconds"`
	Busy  *float64 `json:"busy"`
	Queue *float64 `json:"queue_mean"`
	Load  *float64 `json:"load"`
}

// HourShort is something the room has too little of.
type HourShort struct {
	Part string `json:"part"`
	Name string `json:"name"`
	Have int    `json:"have"`
	Need int    `json:"need"`
}

// Fix is a remedy with its cost.
type Fix struct {
	What    string   `json:"what"`
	Costs   float64  `json:"costs_minutes"`
	Touches []string `json:"touches"`
	Say     string   `json:"say"`
	Part    *string  `json:"part"`
	Wait    float64  `json:"wait_mean_seconds"`
	Why     string   `json:"why"`
}

// HourOf turns an hour that starts at a time of day, midnight when nobody said,
// into JSON; name gives the name of an id.
func HourOf(h roomful.Hour, start time.Duration, name func(id string) string) Hour {
	out := Hour{Fits: h.Fits(), Verdict: string(h.Verdict()), Amber: h.Amber.Minutes(), Red: h.Red.Minutes(), Minutes: h.Ends().Minutes(), Length: h.Length.Minutes(), Lines: []HourLine{}, Heats: []Heat{}, Waves: []Wave{},
		Stations: []Station{}, Short: []HourShort{}, Fixes: []Fix{}, Dropped: listed(h.Dropped), NoMore: h.NoMore, Diagnostics: []Diagnostic{}}
	at := func(d time.Duration) string { return TimeOfDay(start + d) }
	named := func(ids []string) []string {
		out := []string{}
		for _, id := range ids {
			out = append(out, name(id))
		}
		return out
	}
	for _, l := range h.Lines {
		out.Lines = append(out.Lines, HourLine{at(l.Start), at(l.End), l.What, l.Kind.String(), word(l.Part), l.Start.Seconds(), l.End.Seconds(), l.From})
	}
	for _, t := range h.Heats {
		out.Heats = append(out.Heats, Heat{t.Part, t.N, at(t.Start), named(t.People)})
	}
	for _, w := range h.Waves {
		out.Waves = append(out.Waves, Wave{w.Part, w.Heat, w.N, w.After.Seconds(), named(w.People)})
	}
	for _, p := range h.Places {
		out.Stations = append(out.Stations, Station{p.Part, p.Word, p.Count, p.Need, figure(p.WaitMean), figure(p.Busy), figure(p.Queue), figure(p.Load)})
	}
	for _, s := range h.Short {
		out.Short = append(out.Short, HourShort{s.Part, s.What, s.Have, s.Need})
	}
	out.Fixes, out.Changes = fixesOf(h.Fixes), fixesOf(h.Changes)
	return out
}

// fixesOf turns remedies into JSON.
func fixesOf(fixes []roomful.Fix) []Fix {
	out := []Fix{}
	for _, f := range fixes {
		out = append(out, Fix{f.What, f.Costs.Minutes(), listed(f.Touches), f.Say, word(f.Part), f.Wait.Seconds(), f.Why})
	}
	return out
}

// TimeOfDay writes a time from midnight: "17:42", and "17:42:30" off the minute.
func TimeOfDay(d time.Duration) string {
	t := time.Time{}.Add(d)
	if d%time.Minute == 0 {
		return t.Format("15:04")
	}
	return t.Format("15:04:05")
}
