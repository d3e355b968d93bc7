package exchange

import (
	"math"
	"strings"
	"time"

	"roomful"
)

// Learnt is what is believed of people after their scores.
type Learnt struct {
	Athletes    []LearntAthlete `json:"athletes"`
	Left        []LeftOut       `json:"left_out"` // scores that nothing was learnt from
	Diagnostics []Diagnostic    `json:"diagnostics"`
}

// LearntAthlete is what is believed of one person.
type LearntAthlete struct {
	Name      string    `json:"name"`
	ID        string    `json:"id"`
	Abilities []Ability `json:"abilities"`
}

// Ability is one capacity with its interval, in its unit.
type Ability struct {
	Name       string   `json:"name"`
	Unit       string   `json:"unit"`
	Mean       *float64 `json:"mean"`
	P05        *float64 `json:"p05"`
	P95        *float64 `json:"p95"`
	InformedBy []string `json:"informed_by"`
}

// LeftOut is a score that nothing was learnt from.
type LeftOut struct {
	Name  string  `json:"name"`
	Date  *string `json:"date"`
	Title string  `json:"title"`
	Piece string  `json:"piece"`
	Line  int     `json:"line"`
	Why   string  `json:"why"`
}

// LeftOutOf turns an attempt with the reason into JSON.
func LeftOutOf(e roomful.Entry, why string) LeftOut {
	return LeftOut{e.Name, word(e.On.String()), e.Title, e.Reading.Piece, e.Line, why}
}

// AbilitiesOf turns what is believed of a person into JSON.
func AbilitiesOf(who roomful.Athlete, a *roomful.Abilities, lex roomful.Lexicon) LearntAthlete {
	out := LearntAthlete{Name: who.Name, ID: who.ID, Abilities: []Ability{}}
	if a == nil {
		return out
	}
	for i := range a.Dims {
		out.Abilities = append(out.Abilities, abilityOf(&a.Dims[i], lex))
	}
	return out
}

// unitOf is the unit of a capacity: seconds for the longest hold.
func unitOf(c roomful.Capacity, lex roomful.Lexicon) string {
	name, own := strings.CutPrefix(string(c), "max ")
	if m := lex.Movement(roomful.MovementID(name)); own && m != nil && len(m.Units) > 0 && m.Units[0] == roomful.Second {
		return "s"
	}
	return c.Unit()
}

// normal95 is the standard normal deviate that one in twenty exceeds.
const normal95 = 1.6448536269514722

// abilityOf gives the mean and the middle nine tenths of a capacity in its unit.
func abilityOf(d *roomful.Dim, lex roomful.Lexicon) Ability {
	at := func(v float64) *float64 {
		if !d.Capacity.Plain() {
			v = math.Exp(v)
		}
		return figure(v)
	}
	sd := d.SD()
	mean := d.Centre
	if !d.Capacity.Plain() {
		mean += sd * sd / 2 // the mean of a logarithmic normal
	}
	return Ability{Name: string(d.Capacity), Unit: unitOf(d.Capacity, lex), Mean: at(mean), P05: at(d.Centre - normal95*sd), P95: at(d.Centre + normal95*sd),
		InformedBy: listed(d.Informed)}
}

// Learning is how far learning from all scores of a gym is.
type Learning struct {
	Percent int        `json:"percent"`  // 100 when nothing is under way
	BeganAt *time.Time `json:"began_at"` // the last time; null when it never did
	DoneAt  *time.Time `json:"done_at"`
	Waiting int        `json:"waiting"` // people of whom scores have come since
}
