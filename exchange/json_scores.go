package exchange

import "roomful"

// Boards are what people scored on a sheet, a board to each piece. No private word
// stands in them.
type Boards struct {
	Boards      []Board      `json:"boards"`
	Diagnostics []Diagnostic `json:"diagnostics"`
}

// Board is what people scored on one piece, with who changed something beside who
// did it as written.
type Board struct {
	Piece   string   `json:"piece"`
	Kind    string   `json:"kind"`
	Written []Placed `json:"as_written"`
	Changed []Placed `json:"changed"`
	Without []Placed `json:"without_score"`
}

// Placed is an attempt on a board.
type Placed struct {
	Place      *int     `json:"place"` // on its side of the board; null for who is not ranked
	Tied       bool     `json:"tied"`
	Name       string   `json:"name"`
	With       []string `json:"with"`
	Date       *string  `json:"date"`
	Score      *float64 `json:"score"`
	Text       string   `json:"text"`
	Capped     bool     `json:"capped"`
	Changed    []string `json:"changed"`
	Equivalent *float64 `json:"as_written_about"` // an estimate; null when nothing can be said
}

// BoardOf turns a board into JSON; text writes a score.
func BoardOf(b roomful.Board, text func(roomful.Entry) string) Board {
	side := func(all []roomful.Placed) []Placed {
		out := []Placed{}
		for _, p := range all {
			out = append(out, Placed{Place: known(p.Place), Tied: p.Tied, Name: p.Name, With: listed(p.With), Date: word(p.On.String()),
				Score: figure(p.Done.Score), Text: text(p.Entry), Capped: p.Capped, Changed: listed(p.Done.Otherwise()), Equivalent: figure(p.Equivalent)})
		}
		return out
	}
	return Board{b.Piece.Name(), b.Kind.String(), side(b.Written), side(b.Changed), side(b.Without)}
}
