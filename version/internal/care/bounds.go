// Package care is whom a coach holds back, and how far: limits that rule
// movements out, age, pregnancy, first months and first week back, with the
// cautions to print for each and their sources. It diagnoses nothing: a red flag
// ends the day and sends the person to a professional.
package care

import (
	"strings"

	"roomful"
)

// The ages, months, shares and repetitions that bounds are made of.
const (
	adultAge    = 18
	newMonths   = 3.0
	newShare    = 0.75 // of all amounts while new (common practice, no source)
	returnShare = 0.5  // of all amounts in the first week back (Caterisano et al. 2019; the half from memory)
	returnLoad  = 0.8  // of what is written, in the first week back (judgement: as easy again as it looks)
	expectLoad  = 0.8  // of what is written, when pregnant (common practice, no source: lighter)
	moderate    = 12   // repetitions a load must allow when new, back or pregnant (common practice, no source)

	// YoungReps is how many repetitions a load must allow under 18, the lower
	// end of sets of 6 to 15 (Faigenbaum et al. 2009).
	YoungReps = 6
)

// Bounds is what somebody may be asked to do on a day.
type Bounds struct {
	Young, Expecting, New, Returning bool
	// Stop is the limit that sends them to a professional, nil when none does.
	Stop      *roomful.Limit
	Acting    []roomful.Limit // limits that change what they do
	Noted     []roomful.Limit // limits that go ahead with a note
	Volume    float64         // at most this share of what is written, 1 for all
	Load      float64         // at most this share of a written load, 1 for all
	LeastReps int             // repetitions that any load must allow fresh
}

// Of reads the bounds of a person on a day.
func Of(a roomful.Athlete, on roomful.Date) Bounds {
	b := Bounds{Volume: 1, Load: 1}
	for _, l := range a.Limits {
		switch {
		case l.RefersOut():
			if b.Stop == nil || l.What == "stop" {
				b.Stop = &l
			}
		case l.What == "returning":
			b.Returning = true
		case acts(l):
			b.Acting = append(b.Acting, l)
			b.Expecting = b.Expecting || l.What == "pregnant"
		default:
			b.Noted = append(b.Noted, l)
		}
	}
	age, ok := a.Age(on)
	b.Young = ok && age < adultAge
	b.New = a.Months != nil && *a.Months < newMonths
	b.follow()
	return b
}

// follow sets what follows from the person's states.
func (b *Bounds) follow() {
	if b.Young {
		b.LeastReps = YoungReps
	}
	if b.Expecting || b.New || b.Returning {
		b.LeastReps = moderate
	}
	if b.New {
		b.Volume = newShare
	}
	if b.Expecting {
		b.Load = expectLoad
	}
	if b.Returning {
		b.Volume = min(b.Volume, returnShare)
		b.Load = returnLoad
	}
}

// Any reports whether something other than the effort rules their day.
func (b *Bounds) Any() bool { return b.Young || b.Expecting || b.New || b.Returning }

// Because names the states that rule their day, in private words.
func (b *Bounds) Because() string {
	var out []string
	for _, s := range []struct {
		is   bool
		word string
	}{{b.Returning, "first week back"}, {b.New, "first months"}, {b.Young, "under 18"}, {b.Expecting, "pregnant"}} {
		if s.is {
			out = append(out, s.word)
		}
	}
	return strings.Join(out, ", ")
}

// Sore lists the limits that hurt, those of pregnancy apart.
func (b *Bounds) Sore() []roomful.Limit {
	var out []roomful.Limit
	for _, l := range b.Acting {
		if l.What != "pregnant" {
			out = append(out, l)
		}
	}
	return out
}

// HeldBy returns the limit that rules a movement out, or nil.
func (b *Bounds) HeldBy(m *roomful.Movement) *roomful.Limit {
	for i := range b.Acting {
		if Forbids(b.Acting[i], m) {
			return &b.Acting[i]
		}
	}
	return nil
}

// Notes are the private words on a movement that goes ahead in spite of a limit.
func (b *Bounds) Notes(m *roomful.Movement) []string {
	var out []string
	for _, l := range b.Noted {
		if Forbids(l, m) {
			out = append(out, Told(l)+": go ahead, stop if it grows")
		}
	}
	return out
}
