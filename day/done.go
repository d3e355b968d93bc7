package day

import (
	"math"
	"slices"

	"roomful"
)

// DoneQuestion asks what somebody did of a piece, given what they typed of it.
type DoneQuestion struct {
	Who     roomful.Athlete
	People  []roomful.Athlete // whom Who may be like
	Session roomful.Session
	Reading roomful.Reading
	On      roomful.Date
	// ByHand are the versions of the sheet that were set: a score that says nothing of it
	// is of theirs.
	ByHand []ByHand
}

// Done resolves what somebody did of a piece: the sheet as written for them, with
// what they said was otherwise. What they did not say is taken as written, with the
// load that the sheet or their maximum gives, and is told among what was assumed.
func (d *Day) Done(q DoneQuestion) (roomful.Done, error) {
	part, err := pieceOf(q.Session, q.Reading.Piece)
	if err != nil {
		return roomful.Done{}, err
	}
	on := q.On
	if on.IsZero() {
		on = q.Session.Date
	}
	abilities := d.abilities(q.Who, q.People, nil, on)
	noted := false
	if set, ok := setFor(q.ByHand, q.Who.ID, q.Session, part); ok {
		q.Reading, noted = noting(q.Reading, set, part, q.Who.Division)
	}
	before := q.Session.Lead(part)
	e := d.entrant(q.Who, abilities, part, before, q.Session.Effort)
	r := redo{day: d, question: q, abilities: abilities, on: on, part: part}
	r.out = roomful.Done{Piece: part, Before: before, Lead: e.Lead, Work: e.Work, Score: math.NaN(), Counted: math.NaN()}
	r.changes()
	r.beyond()
	r.loads()
	r.score()
	if noted {
		r.out.Assumed = append(r.out.Assumed, "as it was set for the day: nothing else was said of it")
	} else if q.Reading.AsWritten == nil && len(r.out.Changed) == 0 {
		r.out.Assumed = append(r.out.Assumed, "as written: nothing else was said")
	}
	return r.out, nil
}

// redo is the state of resolving one reading.
type redo struct {
	day       *Day
	question  DoneQuestion
	abilities *roomful.Abilities
	on        roomful.Date
	part      roomful.Part
	out       roomful.Done
	sheet     roomful.Work // as it was written for them
}

// loads gives stated loads that are no change to the lines they are nearest to:
// what the sheet has for the other division, and the weight of the sets.
func (r *redo) loads() {
	read := r.question.Reading
	if read.Kind == roomful.LoadScore {
		r.sets()
		return
	}
	for _, kg := range read.LoadsKg {
		known := slices.ContainsFunc(read.Changes, func(c roomful.Change) bool { return math.Abs(c.LoadKg-kg) < 0.01 })
		i, ok := r.place(r.out.Work, roomful.Change{LoadKg: kg})
		if known || !ok {
			continue
		}
		r.out.Work = withLoad(r.out.Work, i, roomful.Kg(kg))
	}
}

// sets has the sets done at the heaviest load that was made, unless the sheet
// builds up to one.
func (r *redo) sets() {
	best := heaviest(r.question.Reading)
	for _, n := range r.question.Reading.Misses {
		if kg := r.question.Reading.LoadsKg; n <= len(kg) && kg[n-1] > best && (r.out.MissedKg == 0 || kg[n-1] < r.out.MissedKg) {
			r.out.MissedKg = kg[n-1]
		}
	}
	if f, ok := r.part.Format.(roomful.Sets); math.IsNaN(best) || ok && f.Build {
		return
	}
	tasks := r.out.Work.All()
	for i, t := range tasks {
		m := r.day.Lexicon.Movement(t.Movement)
		if m == nil || !m.TakesLoad() {
			continue
		}
		t.Load, t.RPE, t.Percent, t.Fresh = roomful.Kg(best), 0, 0, 0
		r.out.Work = r.out.Work.With(i, t)
		return
	}
}

// heaviest is the greatest load of a reading that was not missed, NaN when there is
// none.
func heaviest(r roomful.Reading) float64 {
	best := math.NaN()
	for i, kg := range r.LoadsKg {
		if !slices.Contains(r.Misses, i+1) && !(kg <= best) {
			best = kg
		}
	}
	return best
}
