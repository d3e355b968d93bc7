package score

import "roomful"

// piece is a scored part with what a reading needs of it.
type piece struct {
	part  roomful.Part
	lines []roomful.Element // all of them, in order
	kind  roomful.ScoreKind
	count int  // intervals, bouts, stations or sets; 0 when it has none
	asked bool // it is the one asked about
	alone bool // the session has no other
}

// piecesOf lists the scored parts in the order of the sheet.
func piecesOf(q Asked, asked roomful.Part) []piece {
	var out []piece
	for _, part := range q.Session.Pieces() {
		out = append(out, piece{part: part, lines: part.All(), kind: roomful.KindOf(part, q.Lexicon), count: countIn(part), asked: part.Name() == asked.Name()})
	}
	for i := range out {
		out[i].alone = len(out) == 1
	}
	return out
}

// window reports whether a piece counts rounds in a time: two figures behind each other
// may then be rounds and repetitions.
func (s *piece) window() bool {
	_, ok := s.part.Format.(roomful.RoundsInTime)
	return ok && s.part.ScoreBy == ""
}

// most is how many rounds a piece has, or may have in its time.
func (s *piece) most() int {
	switch f := s.part.Format.(type) {
	case roomful.ForTime:
		return max(f.Rounds, len(f.Ladder.Steps))
	case roomful.RoundsInTime:
		return mostTyped
	}
	return s.count
}

// sums reports whether figures with + between them are to be added up.
func (s *piece) sums() bool {
	return s.alone && s.kind != roomful.RoundsScore && s.kind != roomful.LoadScore
}

// countIn returns how many intervals, bouts, rounds of stations or sets a part
// has, 0 when it has none.
func countIn(p roomful.Part) int {
	switch f := p.Format.(type) {
	case roomful.Every:
		return f.Count
	case roomful.Intervals:
		return f.Count
	case roomful.Stations:
		return f.Rounds
	case roomful.Sets:
		return max(f.Count, len(f.Reps))
	}
	return 0
}

// bareBar is the mass of a bare bar in kg: 20, and 15 for division b (the usual bars
// of weightlifting).
func bareBar(d roomful.Division) float64 {
	if d == roomful.DivisionB {
		return 15
	}
	return 20
}

// rungsOf is which round of a ladder has which step.
func rungsOf(pieces []piece) map[int]int {
	out := map[int]int{}
	for _, s := range pieces {
		f, ok := s.part.Format.(roomful.RoundsInTime)
		for n := range mostRungs {
			if step, more := f.Ladder.Step(n); ok && more && step > 0 && len(f.Ladder.Steps) > 0 {
				out[step] = n + 1
			}
		}
	}
	return out
}

// mostRungs is how far a ladder is looked up.
const mostRungs = 30
