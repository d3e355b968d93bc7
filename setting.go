package roomful

import (
	"strconv"
	"strings"
	"time"
)

// Setting describes one thing that a gym may like otherwise. Reading, printing
// and documenting the settings all follow from these.
type Setting struct {
	Key       string // as in gym.yaml, "hour.briefing"
	Default   string // as gym.yaml would write it; empty when there is none
	DefaultLb string // of a gym in pounds, when that is another
	Unit      string // of figures: min, s, h, days, weeks, %, elements; empty for words and masses
	Least     float64
	Most      float64 // the range in Unit, 0 for words
	AtMost    string  // the key of a setting that this one may not exceed; empty without
	Help      string  // what it is, in a few words
	Source    string  // of the default
	in        func(*Gym) any
}

// In returns the field of g that the setting is kept in: a *string, *[Zone],
// *[MassUnit], *[Mass], *[CapPolicy], *[Ratios], *[time.Duration], *int,
// *float64 or *[Span].
func (s Setting) In(g *Gym) any { return s.in(g) }

// DefaultIn returns the default of a gym whose unit is u.
func (s Setting) DefaultIn(u MassUnit) string {
	if u == Pound && s.DefaultLb != "" {
		return s.DefaultLb
	}
	return s.Default
}

// Usual returns the usual gym for this setting beside g: one in pounds where g is
// and where that makes a difference.
func (s Setting) Usual(g Gym) Gym {
	usual := DefaultGym()
	if s.DefaultLb != "" {
		usual.Unit = g.Unit
		_ = s.Set(&usual, s.DefaultIn(g.Unit)) // a default is never refused
	}
	return usual
}

// Range writes what the setting may be, "1 and 15 min"; empty for words.
func (s Setting) Range() string {
	if s.Most == 0 {
		return ""
	}
	return strings.TrimSpace(Figure(s.Least) + " and " + Figure(s.Most) + " " + s.Unit)
}

// Text writes what g has set, as gym.yaml would; empty when nothing is said.
func (s Setting) Text(g Gym) string {
	switch at := s.in(&g).(type) {
	case *string:
		return *at
	case *Zone:
		return string(*at)
	case *MassUnit:
		return at.String()
	case *Mass:
		return at.String()
	case *CapPolicy:
		return string(*at)
	case *Ratios:
		return at.String()
	case *time.Duration:
		return writeLength(*at, s.Unit)
	case *int:
		return strconv.Itoa(*at) + " " + unitFor(*at, s.Unit)
	case *float64:
		return Figure(*at) + " " + s.Unit
	case *Span:
		return at.String() + " " + unitFor(at.Most*at.Least, s.Unit) // "0-1 days"
	}
	return ""
}

// Figure returns what g has set as a number in the setting's unit, a mass in
// the gym's; ok is false for all that is no number.
func (s Setting) Figure(g Gym) (v float64, ok bool) {
	switch at := s.in(&g).(type) {
	case *Mass:
		return at.In(g.Unit).Value, true
	case *time.Duration:
		return float64(*at) / float64(timeUnits[s.Unit]), true
	case *int:
		return float64(*at), true
	case *float64:
		return *at, true
	}
	return 0, false
}

// unitFor is a unit's word behind a number.
func unitFor(n int, unit string) string {
	if n == 1 {
		return strings.TrimSuffix(unit, "s")
	}
	return unit
}

// String writes the span as a coach does, "1-2" or "2".
func (s Span) String() string {
	if s.Least == s.Most {
		return strconv.Itoa(s.Most)
	}
	return strconv.Itoa(s.Least) + "-" + strconv.Itoa(s.Most)
}

// writeLength writes a length of time in a unit, and in minutes and seconds when
// it is no whole number of those.
func writeLength(d time.Duration, unit string) string {
	size := timeUnits[unit]
	if d%size == 0 {
		return Figure(float64(d/size)) + " " + unit
	}
	var words []string
	if min := d / time.Minute; min > 0 {
		words = append(words, strconv.Itoa(int(min))+" min")
	}
	if s := d % time.Minute / time.Second; s > 0 {
		words = append(words, strconv.Itoa(int(s))+" s")
	}
	return strings.Join(words, " ")
}
