package exchange

import "roomful"

// CutBack is the answer about somebody in the middle of a piece.
type CutBack struct {
	Name        string          `json:"name"`
	Piece       string          `json:"piece"`
	AtSeconds   float64         `json:"at_seconds"`
	Done        float64         `json:"done"` // repetitions and calories
	Expected    Quantiles       `json:"expected"`
	Ends        AthleteForecast `json:"ends"`
	Meets       bool            `json:"meets"` // the effort, as it is
	Cuts        []Cut           `json:"cuts"`
	Diagnostics []Diagnostic    `json:"diagnostics"`
}

// Cut is one change to go on with.
type Cut struct {
	What    string          `json:"what"`
	Say     string          `json:"say"`
	Ends    AthleteForecast `json:"ends"`
	Segment Segment         `json:"segment"`
}

// CutBackOf turns an answer into JSON.
func CutBackOf(piece roomful.Part, c roomful.CutBack) CutBack {
	out := CutBack{Name: c.Name, Piece: piece.Name(), AtSeconds: c.At.Seconds(), Done: c.Done, Expected: quantilesOf(c.Expected),
		Ends: athleteForecastOf(c.Ends), Meets: c.Meets, Cuts: []Cut{}, Diagnostics: []Diagnostic{}}
	for _, cut := range c.Cuts {
		out.Cuts = append(out.Cuts, Cut{cut.What, cut.Say, athleteForecastOf(cut.Ends), segmentOf(cut.Segment, false)})
	}
	return out
}
