package day

import (
	"context"
	"math"
	"slices"

	"roomful"
	"roomful/infer"
	"roomful/prior"
)

// mostResults is how many earlier scores a load is learnt from: each takes a good
// tenth of a second, and an answer between two sets has one.
const mostResults = 3

// believe returns what is believed of who asks: what they told, the set that they
// remember, and what the earlier scores that say most make of it.
func (l *loading) believe(ctx context.Context) (*roomful.Abilities, error) {
	m := l.Lexicon.Movement(l.Movement)
	told := l.abilities(l.Who, l.People, l.Believed, l.on)
	if l.Set != nil {
		set := *l.Set
		set.Movement = m.ID
		with, err := prior.WithSet(told, set, m, l.Forecaster)
		if err != nil {
			return nil, err
		}
		told = with
	}
	known := m.Bound == nil || len(informed(told, m)) > 0
	if set := l.shown(); !known && set != nil {
		if with, err := prior.WithSet(told, *set, m, l.Forecaster); err == nil {
			told = with
		}
	}
	person := infer.Person{Prior: told}
	for _, e := range l.past {
		if !e.Reading.Approximate && (known || l.noted(e)) {
			person.Results = append(person.Results, infer.Result{Title: e.Title, On: e.On, Done: e.Done})
		}
	}
	by := infer.Simulator{Forecaster: l.Forecaster, Seed: l.Seed, Workers: l.Workers}
	var all infer.Cases
	all.Add(person)
	emulators, err := l.make(ctx, by, &all, l.By)
	if err != nil {
		return nil, err
	}
	learnt := by.Learn(person, l.on, emulators).Abilities
	if !known {
		l.holdBack(learnt, m)
	}
	return learnt, nil
}

// shown is the set that the most telling score with a load noted stands for, where
// nobody told a maximum; nil when there is none. A load that went as meant is one for
// the sheet's repetition test; one that was too hard is one for what the line asks at
// a time (common practice, no source).
func (l *loading) shown() *roomful.KnownSet {
	for _, e := range l.past {
		t := loaded(e.Done.Work, l.Movement)
		if t == nil || !l.noted(e) || t.Unit != roomful.Rep {
			continue
		}
		reps := max(int(t.Amount), 1)
		if l.before != nil && l.samePiece(e) && l.before.Off >= 0 {
			reps = max(reps, l.fresh())
		}
		return &roomful.KnownSet{Movement: l.Movement, Reps: reps, Load: t.Load, From: labelOf(e)}
	}
	return nil
}

// labelOf names a score as what is learnt from it is named.
func labelOf(e roomful.Entry) string { return e.Title + ", " + e.On.String() }

// How far scores alone are trusted with a load, where nobody told a maximum (common
// practice, no source): a tenth above the heaviest load that was noted, or without one
// as far as nine in ten of such people can go.
const (
	stepOver = 1.1
	lowEnd   = 1.28
)

// holdBack bounds a maximum that rests on scores alone.
func (l *loading) holdBack(a *roomful.Abilities, m *roomful.Movement) {
	d := &a.Dims[a.Index(boundOf(m))]
	var most float64
	for _, e := range l.past {
		t := loaded(e.Done.Work, m.ID)
		if t == nil || !l.noted(e) {
			continue
		}
		most = max(most, t.LoadKg())
	}
	switch {
	case most > 0:
		task := roomful.Task{Movement: m.ID, Amount: 1, Unit: roomful.Rep, Load: roomful.Kg(most)}
		if over := l.Forecaster.LoadFor(a, task, float64(max(l.fresh(), 1))) / (stepOver * most); over > 1 {
			d.Centre -= math.Log(over)
		}
	case len(d.Informed) > 0:
		d.Centre -= lowEnd * d.SD()
	}
}

// boundOf is the capacity that bounds a movement's load; empty when none does.
func boundOf(m *roomful.Movement) roomful.Capacity {
	switch {
	case m == nil || m.Bound == nil:
		return ""
	case m.Bound.Lift != "":
		return roomful.OneRM(m.Bound.Lift)
	}
	return roomful.OwnMax(m.Bound.Own)
}

// informed is what the maximum that bounds a movement came from.
func informed(a *roomful.Abilities, m *roomful.Movement) []string {
	if i := a.Index(boundOf(m)); i >= 0 {
		return a.Dims[i].Informed
	}
	return nil
}

// noted reports whether somebody wrote down the load of the movement, or that all was
// as written.
func (l *loading) noted(e roomful.Entry) bool {
	r := e.Reading
	return len(r.LoadsKg) > 0 || r.AsWritten != nil && *r.AsWritten ||
		slices.ContainsFunc(r.Changes, func(c roomful.Change) bool { return c.LoadKg > 0 && (c.Of == "" || c.Of == l.Movement) })
}

// telling returns the few entries of the record that say most about the load: of the
// piece itself first, then of others that have the movement with a load; of each kind
// the latest. What is not before the day asked about does not count.
func (l *loading) telling() roomful.Record {
	var same, others roomful.Record
	for _, e := range slices.Backward(l.Past) {
		switch {
		case e.Athlete != l.Who.ID || !l.on.IsZero() && e.On.String() >= l.on.String():
		case l.samePiece(e):
			same = append(same, e)
		case loaded(e.Done.Work, l.Movement) != nil:
			others = append(others, e)
		}
	}
	all := append(same, others...)
	return all[:min(len(all), mostResults)]
}

// samePiece reports whether an entry is of the piece asked about, on this sheet or
// one that it repeats.
func (l *loading) samePiece(e roomful.Entry) bool {
	s := l.Session
	return e.Done.Piece.Name() == l.piece.Name() && e.Title != "" &&
		(e.Title == s.Title || e.Title == s.Again || e.Again != "" && (e.Again == s.Title || e.Again == s.Again))
}

// loaded returns the task of a movement that has a load, nil when there is none.
func loaded(w roomful.Work, m roomful.MovementID) *roomful.Task {
	for _, t := range w.All() {
		if t.Movement == m && t.Load.Value > 0 {
			return &t
		}
	}
	return nil
}
