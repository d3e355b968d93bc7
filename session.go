package roomful

import "cmp"

// Session is a day's sheet once it has been read.
type Session struct {
	Title    string
	Date     Date
	DateText string // what stands where the date should, when it is none
	Minutes  int    // length of the class; 0 when the sheet does not say
	Again    string // title of the earlier session this one repeats, or empty
	About    string // the story of the theme
	Effort   Effort
	// Divisions are the words this sheet uses for the two divisions, in order,
	// or nil when it uses none.
	Divisions []string
	Parts     []Part
}

// Piece returns the first scored part called name ("main", "strength",
// "main b"); ok is false when there is none.
func (s Session) Piece(name string) (p Part, ok bool) {
	for _, p := range s.Pieces() {
		if p.Name() == name || p.Kind.String() == name {
			return p, true
		}
	}
	return Part{}, false
}

// Asked returns the piece that a name asks for: without one the main piece, or the first
// that is scored.
func (s Session) Asked(name string) (p Part, ok bool) {
	if p, ok = s.Piece(cmp.Or(name, Main.String())); ok || name != "" {
		return p, ok
	}
	if pieces := s.Pieces(); len(pieces) > 0 {
		return pieces[0], true
	}
	return Part{}, false
}

// Pieces returns the scored parts in order.
func (s Session) Pieces() []Part {
	var pieces []Part
	for _, p := range s.Parts {
		if p.Scored {
			pieces = append(pieces, p)
		}
	}
	return pieces
}

// Lead returns the pieces that are done on one running clock before p: a
// piece lettered b follows its a without a pause.
func (s Session) Lead(p Part) []Part {
	var lead []Part
	for _, q := range s.Parts {
		if q.Name() == p.Name() {
			break
		}
		if q.Scored && q.Kind == p.Kind && q.Letter != "" && p.Letter != "" && q.Letter < p.Letter {
			lead = append(lead, q)
		}
	}
	return lead
}
