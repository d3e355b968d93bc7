package exchange

import (
	"math"
	"strings"

	"roomful"
)

// Work is a piece resolved for one person: what is done once, in each round, and last.
type Work struct {
	Once  []Task `json:"once"`
	Round []Task `json:"round"`
	Last  []Task `json:"last"`
}

// WorkOf turns resolved work into JSON.
func WorkOf(w roomful.Work) Work {
	of := func(tasks []roomful.Task) []Task {
		out := []Task{}
		for _, t := range tasks {
			out = append(out, taskOf(t, false))
		}
		return out
	}
	return Work{of(w.Once), of(w.Round), of(w.Last)}
}

// Bounds of what one line of a version may ask, so that a slip of the pen is seen: more
// than anybody does in an hour, lifts, or jumps onto.
const (
	mostTasks    = 50
	mostAmount   = 100_000
	mostLoadKg   = 700
	mostHeightCm = 400
)

// Read reads work that somebody sends.
func (w Work) Read(lex roomful.Lexicon) (out roomful.Work, err error) {
	if n := len(w.Once) + len(w.Round) + len(w.Last); n == 0 || n > mostTasks {
		return out, &roomful.Error{Summary: "reading a version: it has no line, or too many", Hint: "send what is done once, in each round and last, a line to a movement"}
	}
	for _, part := range []struct {
		in  []Task
		out *[]roomful.Task
	}{{w.Once, &out.Once}, {w.Round, &out.Round}, {w.Last, &out.Last}} {
		for _, t := range part.in {
			task, err := t.Read(lex)
			if err != nil {
				return out, err
			}
			*part.out = append(*part.out, task)
		}
	}
	return out, nil
}

// Read reads one line of a version.
func (t Task) Read(lex roomful.Lexicon) (out roomful.Task, err error) {
	out = roomful.Task{Movement: t.Movement, Amount: or(t.Amount, 0), Implements: or(t.Implements, 0), HeightCm: or(t.HeightCm, 0),
		RPE: or(t.RPE, 0), Percent: or(t.Percent1RM, 0), Fresh: or(t.Fresh, 0), Slot: or(t.Slot, 0), Load: roomful.Kg(or(t.LoadKg, 0))}
	if t.Load != nil {
		out.Load = roomful.Mass{Value: t.Load.Mass}
		if t.Load.Unit == roomful.Pound.String() {
			out.Load.Unit = roomful.Pound
		}
	}
	known := false
	for _, u := range []roomful.Unit{roomful.Rep, roomful.Metre, roomful.Calorie, roomful.Second} {
		if u.String() == t.Unit {
			out.Unit, known = u, true
		}
	}
	switch {
	case lex.Movement(t.Movement) == nil:
		hint := "roomful movement NAME says what one is called"
		if near := lex.Suggest(strings.ReplaceAll(string(t.Movement), "-", " ")); len(near) > 0 {
			hint = "did you mean " + string(near[0].ID) + "?"
		}
		return out, &roomful.Error{Summary: "reading a version: there is no such movement", Hint: hint}
	case !known:
		return out, &roomful.Error{Summary: "reading a version: " + string(t.Movement) + " has no unit", Hint: "unit is rep, m, cal or s"}
	case t.Load != nil && t.Load.Unit != roomful.Pound.String() && t.Load.Unit != roomful.Kilogram.String():
		return out, &roomful.Error{Summary: "reading a version: a load is in kg or lb", Hint: "look at the load of " + string(t.Movement)}
	case !within(out.Amount, mostAmount) || !within(out.Load.Kg(), mostLoadKg) || !within(out.HeightCm, mostHeightCm) || !within(out.Percent, 200) || !within(out.RPE, 10) ||
		!within(float64(out.Implements), 2) || !within(float64(out.Fresh), 1000) || !within(float64(out.Slot), mostTasks):
		return out, &roomful.Error{Summary: "reading a version: a figure of " + string(t.Movement) + " cannot be", Hint: "look at its amount, load and height"}
	}
	return out, nil
}

// or is what is known, or something else.
func or[T any](known *T, otherwise T) T {
	if known == nil {
		return otherwise
	}
	return *known
}

// within reports whether a figure lies between nothing and a bound.
func within(v, most float64) bool { return v >= 0 && v <= most && !math.IsNaN(v) }
