package crowd

import (
	"fmt"
	"math"
	"strings"

	"roomful"
	"roomful/score"
	"roomful/store"
)

// sheet is a day that comes again and again, and how its main piece goes for each of
// those whom members are like.
type sheet struct {
	name, text, date string
	session          roomful.Session
	piece            roomful.Part
	kind             roomful.ScoreKind
	goes             []roomful.Quantiles
	readings         map[string]*store.Read // of what was typed before
}

// typed is what somebody types who is so many standard deviations better than the
// middle of those they are like; "" when they cannot do the piece.
func (s sheet) typed(like int, d roomful.Division, better float64) string {
	q := s.goes[like]
	if math.IsNaN(q.P50) || q.P50 <= 0 {
		return ""
	}
	if !s.kind.HigherIsBetter() {
		better = -better
	}
	const reach = 1.645 // standard deviations from the middle to either end
	v := q.P50 + better*(q.P95-q.P50)/reach
	if better < 0 {
		v = q.P50 + better*(q.P50-q.P05)/reach
	}
	v = max(v, q.P05/2)
	switch s.kind {
	case roomful.RoundsScore:
		whole := int(v)
		return fmt.Sprintf("%d+%d", whole, int((v-float64(whole))*float64(score.RoundSize(s.piece, d, whole))))
	case roomful.TimeScore:
		return roomful.Clock(v)
	case roomful.LoadScore:
		return roomful.Figure(math.Round(v/2.5)*2.5) + " kg"
	case roomful.DistanceScore:
		return roomful.Figure(math.Round(v)) + " m"
	}
	return roomful.Figure(math.Round(v))
}

// read reads what somebody typed.
func (s sheet) read(lex roomful.Lexicon, who roomful.Athlete, text string) (*store.Read, error) {
	key := strings.Join([]string{fmt.Sprint(who.Division, who.Unit), text}, " ")
	if known, ok := s.readings[key]; ok {
		return known, nil
	}
	got, err := score.Read(score.Asked{Session: s.session, Piece: s.piece.Name(), Division: who.Division, Unit: who.Unit, Lexicon: lex}, text)
	if err != nil {
		return nil, fmt.Errorf("reading %q of %s: %w", text, s.name, err)
	}
	s.readings[key] = &store.Read{Readings: got.Readings}
	return s.readings[key], nil
}
