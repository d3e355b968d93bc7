package exchange

import "roomful"

// AfterClass is what was meant beside what came of it, piece by piece; for coaches.
type AfterClass struct {
	Pieces      []After      `json:"pieces"`
	Diagnostics []Diagnostic `json:"diagnostics"`
}

// After is what came of one piece.
type After struct {
	Piece  string     `json:"piece"`
	Effort Effort     `json:"effort"`
	Scored int        `json:"scored"`
	Within int        `json:"within"`
	Middle *float64   `json:"middle"`
	Text   *string    `json:"text_middle"`
	Far    []FarOff   `json:"far_off"`
	Open   []OpenText `json:"to_ask"`
}

// FarOff is somebody who ended far from what was meant.
type FarOff struct {
	Name       string  `json:"name"`
	Score      string  `json:"score"`
	Off        float64 `json:"off"` // outside the window, as a share of its nearer end; below 0 is too little done
	Why        string  `json:"why"`
	WhyPrivate *string `json:"why_private"`
}

// OpenText is a score that a question is open about.
type OpenText struct {
	Name string `json:"name"`
	Ask  string `json:"ask"`
}

// AfterOf turns what came of a piece into JSON; text writes a score.
func AfterOf(a roomful.After, middle string, text func(roomful.Entry) string) After {
	out := After{Piece: a.Piece.Name(), Effort: effortOf(a.Effort), Scored: a.Scored, Within: a.Within, Middle: figure(a.Middle), Text: word(middle), Far: []FarOff{}, Open: []OpenText{}}
	for _, f := range a.Far {
		out.Far = append(out.Far, FarOff{f.Name, text(f.Entry), rounded(f.Off), f.Why, word(f.Private)})
	}
	for _, e := range a.Open {
		out.Open = append(out.Open, OpenText{e.Name, e.Reading.Question.Ask})
	}
	return out
}
