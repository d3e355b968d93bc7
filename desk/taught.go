package desk

import (
	"maps"
	"slices"
	"time"

	"roomful"
	"roomful/day"
	"roomful/store"
)

// taught is what the scores of a gym have shown, held between questions.
type taught struct {
	at time.Time // of the learning that it came of
	day.Taught
}

// mostTaught is of how many gyms that is held.
const mostTaught = 8

// Taught returns what learning from all scores has shown. Emulators of another edition
// of the model, and those that cannot be read, are left out.
func (g *Gym) Taught() (day.Taught, error) {
	l, err := g.books.Learning()
	if err != nil {
		return day.Taught{}, err
	}
	d, gym := g.desk, g.books.ID()
	d.mu.Lock()
	held, known := d.taught[gym]
	d.mu.Unlock()
	if known && held.at.Equal(l.DoneAt) {
		return held.Taught, nil
	}
	all, err := g.books.Emulators()
	if err != nil {
		return day.Taught{}, err
	}
	kept := map[string][]byte{}
	for _, e := range all {
		if e.Model == day.ModelEdition {
			kept[e.Structure] = e.Kept
		}
	}
	held = taught{at: l.DoneAt}
	held.By = g.Recall(kept)
	if l.Model == day.ModelEdition {
		held.Shift = l.Shift
	}
	d.mu.Lock()
	defer d.mu.Unlock()
	if len(d.taught) >= mostTaught {
		clear(d.taught)
	}
	d.taught[gym] = held
	return held.Taught, nil
}

// Emulators are what was taught in the form in which it is kept.
func Emulators(t day.Taught) ([]store.Emulator, error) {
	kept, err := t.Keep()
	if err != nil {
		return nil, err
	}
	var out []store.Emulator
	for _, structure := range slices.Sorted(maps.Keys(kept)) {
		out = append(out, store.Emulator{Structure: structure, Model: day.ModelEdition, Kept: kept[structure]})
	}
	return out, nil
}

// seed is what forecasts and learning begin from: the same always shows the same.
const seed = 1

// Asks asks what one person's scores say, by what all scores of the gym have shown:
// [day.Day.LearnPerson] answers, and needs the books no more.
func (g *Gym) Asks(person string, record roomful.Record) (day.PersonQuestion, error) {
	q := day.PersonQuestion{People: g.all, Record: record, Today: g.Today, Seed: seed}
	at := slices.IndexFunc(g.all, func(a roomful.Athlete) bool { return a.ID == person })
	if at < 0 {
		return q, store.ErrMissing
	}
	q.Who = g.all[at]
	var err error
	if q.Taught, err = g.Taught(); err != nil {
		return q, err
	}
	before, err := g.books.Learnt(person)
	if err != nil {
		return q, err
	}
	if len(before) > 0 && before[0].Model == day.ModelEdition && before[0].Shift != nil {
		q.Taught.Shift = before[0].Shift // of the others: the gym's holds their own scores too
	}
	return q, nil
}

// AsksAll asks what everybody's scores say, which record gives one person at a time:
// [day.Day.LearnGym] answers, and needs the books no more.
func (g *Gym) AsksAll(record func(person string) (roomful.Record, error), progress func(share float64)) (day.GymQuestion, error) {
	taught, err := g.Taught()
	return day.GymQuestion{People: g.all, Record: record, Today: g.Today, Seed: seed, Workers: 1, By: taught.By, Most: mostCases, Progress: progress}, err
}

// mostCases is how many results of a structure an emulator is made of: it tries no more
// people than that.
const mostCases = 400

// Everybody lists who ever came, by id.
func (g *Gym) Everybody() []roomful.Athlete { return g.all }
