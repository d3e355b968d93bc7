package exchange

import "roomful"

// Bars is how bars are loaded.
type Bars struct {
	Bars        []LoadedBar  `json:"bars"`
	Unit        string       `json:"unit"` // of the two figures that follow
	Deviation   float64      `json:"weighted_deviation"`
	Bound       float64      `json:"bound"`
	Proven      bool         `json:"proven"`
	Short       []Lack       `json:"short"`
	Questions   []string     `json:"questions"`
	Moved       int          `json:"moved"`
	Diagnostics []Diagnostic `json:"diagnostics"`
}

// LoadedBar is one bar with what is on it.
type LoadedBar struct {
	Name    string   `json:"name"`
	Load    float64  `json:"load"`
	Unit    string   `json:"unit"` // of the bar's figures
	Target  float64  `json:"target"`
	Bar     float64  `json:"bar"`
	BarUnit string   `json:"bar_unit"`
	PerSide []Disc   `json:"per_side"`
	With    []string `json:"with"` // who else lifts it
	Below   *float64 `json:"below"`
	Above   *float64 `json:"above"`
	Moved   int      `json:"moved"`
}

// Disc is one disc on a bar.
type Disc struct {
	Mass   float64 `json:"mass"`
	Unit   string  `json:"unit"`
	Colour *string `json:"colour"`
}

// Lack is something there is too little of.
type Lack struct {
	What string   `json:"what"`
	Mass float64  `json:"mass"`
	Unit string   `json:"unit"`
	Have int      `json:"have"`
	Need int      `json:"need"`
	For  []string `json:"for"`
}

// BarsOf turns an answer into JSON. Figures are exact, not rounded.
func BarsOf(a roomful.BarAnswer, unit roomful.MassUnit) Bars {
	out := Bars{
		Bars: []LoadedBar{}, Unit: unit.String(), Deviation: a.Deviation, Bound: a.Bound, Proven: a.Proven,
		Short: []Lack{}, Questions: listed(a.Questions), Moved: a.Moved, Diagnostics: []Diagnostic{},
	}
	for _, b := range a.Bars {
		bar := LoadedBar{
			Name: b.Name, Load: b.Load.Value, Unit: b.Load.Unit.String(), Target: b.Target.Value, PerSide: []Disc{},
			Bar: b.Bar.Value, BarUnit: b.Bar.Unit.String(), With: listed(b.With),
			Below: known(b.Below.Value), Above: known(b.Above.Value), Moved: b.Moved,
		}
		for _, m := range b.PerSide {
			bar.PerSide = append(bar.PerSide, Disc{m.Value, m.Unit.String(), word(m.DiscColour())})
		}
		out.Bars = append(out.Bars, bar)
	}
	for _, l := range a.Short {
		out.Short = append(out.Short, Lack{l.What, l.Mass.Value, l.Mass.Unit.String(), l.Have, l.Need, listed(l.For)})
	}
	return out
}
