package roomful

import (
	"math"
	"strconv"
)

// ScoreKind is what a piece's score counts. It follows the piece, never the
// outcome.
type ScoreKind uint8

// The kinds of score. RepsScore counts calories too.
const (
	RoundsScore ScoreKind = iota
	RepsScore
	TimeScore
	LoadScore
	DistanceScore
	HoldScore
)

// String returns the word used in JSON.
func (k ScoreKind) String() string {
	return [...]string{"rounds", "reps", "time", "load", "distance", "hold"}[k]
}

// HigherIsBetter reports whether more is better; only for time it is not.
func (k ScoreKind) HigherIsBetter() bool { return k != TimeScore }

// KindOf returns the kind of score a piece has.
func KindOf(p Part, lex Lexicon) ScoreKind {
	switch p.ScoreBy {
	case "load":
		return LoadScore
	case "time":
		return TimeScore
	case "reps":
		return RepsScore
	}
	switch f := p.Format.(type) {
	case RoundsInTime:
		if p.ScoreBy == "total" {
			return RepsScore
		}
		return RoundsScore
	case ForTime:
		return TimeScore
	case Sets:
		return LoadScore
	case Every:
		if firstOpen(p.Round) != nil {
			return kindOfOpen(p.Round, lex)
		}
		if p.ScoreBy == "slowest" {
			return TimeScore
		}
		return RoundsScore
	case Intervals:
		if f.Work == 0 {
			return TimeScore
		}
		if len(p.Round) > 1 && firstOpen(p.Round) == nil {
			return RoundsScore
		}
	case Stations, AmountInTime:
	}
	if firstOpen(p.Round) != nil {
		return kindOfOpen(p.Round, lex)
	}
	if len(p.Round) > 0 {
		return kindOfUnit(&p.Round[0], lex)
	}
	return RepsScore
}

// kindOfOpen returns what open amounts count together: repetitions and
// calories when any does, since metres and seconds do not add to them.
func kindOfOpen(es []Element, lex Lexicon) ScoreKind {
	kind := kindOfUnit(firstOpen(es), lex)
	for i := range es {
		e := &es[i]
		if !e.Amount.Stated() && e.Movement != Rest && kindOfUnit(e, lex) == RepsScore {
			return RepsScore
		}
	}
	return kind
}

// firstOpen returns the first element without an amount, or nil.
func firstOpen(es []Element) *Element {
	for i := range es {
		if !es[i].Amount.Stated() && es[i].Movement != Rest {
			return &es[i]
		}
	}
	return nil
}

// kindOfUnit returns the kind of score counted in an element's unit, or in
// its movement's usual one when no amount is given.
func kindOfUnit(e *Element, lex Lexicon) ScoreKind {
	u := e.Amount.Unit.Base()
	if m := lex.Movement(e.Movement); u == Rep && m != nil && len(m.Units) > 0 && !e.Amount.Stated() {
		u = m.Units[0]
	}
	switch u {
	case Metre:
		return DistanceScore
	case Second:
		return HoldScore
	default:
		return RepsScore
	}
}

// Text writes a score of this kind as a person would, in kilograms, metres and
// m:ss. Rounds are written with perRound, the repetitions and calories of a
// round, as "5+12"; with none, as a decimal.
func (k ScoreKind) Text(score, perRound float64) string {
	switch k {
	case RoundsScore:
		whole := math.Floor(score)
		if perRound <= 0 {
			return Figure(math.Round(score*10) / 10)
		}
		done := (score - whole) * perRound
		part := math.Round(done)
		if part >= perRound && done < perRound-1e-6 {
			part-- // only what is all done reads so
		}
		return strconv.Itoa(int(whole)) + "+" + strconv.Itoa(int(part))
	case TimeScore:
		return Clock(score)
	case LoadScore:
		return Figure(PlainKg(score)) + " kg"
	case DistanceScore:
		return Figure(math.Round(score)) + " m"
	case HoldScore:
		return Clock(score)
	default:
		return Figure(math.Round(score))
	}
}
