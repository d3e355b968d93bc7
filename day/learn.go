package day

import (
	"context"
	"math"
	"slices"

	"roomful"
	"roomful/infer"
)

// LearnQuestion asks what scores say of the people of a gym.
type LearnQuestion struct {
	People  []roomful.Athlete
	Record  roomful.Record
	Today   roomful.Date
	Seed    uint64
	Workers int
	// Progress, when set, is called now and then with the share done, from several
	// goroutines.
	Progress func(share float64)
}

// Learnt is what scores say of everybody, by id.
type Learnt struct {
	Abilities map[string]*roomful.Abilities
	Left      []LeftOut
	told      map[string]*roomful.Abilities // what they told alone
}

// LeftOut is an attempt that nothing was learnt from.
type LeftOut struct {
	Entry roomful.Entry
	Why   string
}

// Learn turns everybody's record into abilities. Scores that come after today are
// left out, as are those that a question is still open about.
func (d *Day) Learn(ctx context.Context, q LearnQuestion) (Learnt, error) {
	out := Learnt{Abilities: map[string]*roomful.Abilities{}, told: map[string]*roomful.Abilities{}}
	own := map[string]roomful.Record{}
	for _, e := range q.Record {
		own[e.Athlete] = append(own[e.Athlete], e)
	}
	_, err := d.LearnGym(ctx, GymQuestion{
		People: q.People, Today: q.Today, Seed: q.Seed, Workers: q.Workers, Progress: q.Progress,
		Record: func(person string) (roomful.Record, error) { return own[person], nil },
	}, func(l Lesson) error {
		out.Abilities[l.Person], out.told[l.Person] = l.Abilities, l.Told
		out.Left = append(out.Left, l.Left...)
		return nil
	})
	slices.SortStableFunc(out.Left, func(a, b LeftOut) int { return a.Entry.Line - b.Entry.Line })
	return out, err
}

// GymQuestion asks what scores say of the people of a gym, one after the other.
type GymQuestion struct {
	People []roomful.Athlete
	// Record gives the scores of a person. It is asked of everybody a few times, so that
	// a gym of any size can be learnt from with one record at hand.
	Record  func(person string) (roomful.Record, error)
	Today   roomful.Date
	Seed    uint64
	Workers int
	// By are emulators that were made before. What they serve is not made anew.
	By infer.Emulators
	// Most bounds how many results an emulator is made of; 0 for all.
	Most     int
	Progress func(share float64)
}

// Lesson is what scores say of one person.
type Lesson struct {
	Person    string
	Abilities *roomful.Abilities
	Told      *roomful.Abilities // what they told alone
	// Shift is how the others of the gym moved what was believed of them beforehand.
	Shift infer.Shift
	Left  []LeftOut
}

// Taught is what the scores of a gym have shown that the next one is read by.
type Taught struct {
	By    infer.Emulators
	Shift infer.Shift // for who comes new
}

// LearnGym turns the record of each person of a gym into abilities and tells keep of
// everybody in turn.
func (d *Day) LearnGym(ctx context.Context, q GymQuestion, keep func(Lesson) error) (Taught, error) {
	told := make([]*roomful.Abilities, len(q.People))
	all := &infer.Cases{Most: q.Most}
	of := func(i int) (pupil, error) {
		if err := ctx.Err(); err != nil {
			return pupil{}, err
		}
		record, err := q.Record(q.People[i].ID)
		return pupilOf(told[i], record, q.Today), err
	}
	for i, a := range q.People {
		told[i] = d.abilities(a, q.People, nil, q.Today)
		p, err := of(i)
		if err != nil {
			return Taught{}, err
		}
		all.Add(p.Person)
	}
	s := infer.Simulator{Forecaster: d.Forecaster, Seed: q.Seed, Workers: q.Workers, Progress: q.Progress}
	by, err := d.make(ctx, s, all, q.By)
	if err != nil {
		return Taught{}, err
	}
	all = nil // hundreds of results of each structure
	shift, err := s.LearnTogether(len(q.People), func(i int) (infer.Person, error) {
		p, err := of(i)
		return p.Person, err
	}, q.Today, by, func(i int, l infer.Learnt, shift infer.Shift) error {
		p, err := of(i)
		if err != nil {
			return err
		}
		return keep(p.lesson(q.People[i].ID, told[i], l, shift))
	})
	return Taught{by, shift}, err
}

// make makes the emulators that are lacking.
func (d *Day) make(ctx context.Context, s infer.Simulator, all *infer.Cases, by infer.Emulators) (infer.Emulators, error) {
	made, err := s.Make(ctx, all.Lacking(by))
	if err != nil {
		return nil, err
	}
	for key, e := range by {
		if _, again := made[key]; !again {
			made[key] = e
		}
	}
	return made, nil
}

// PersonQuestion asks what scores say of one person.
type PersonQuestion struct {
	Who    roomful.Athlete
	People []roomful.Athlete // whom they may be like
	Record roomful.Record    // theirs
	Today  roomful.Date
	Seed   uint64
	// Taught is what the gym's scores have shown; Shift in it how its others are.
	Taught Taught
}

// LearnPerson turns one person's record into abilities. An emulator that is lacking is
// made for them alone.
func (d *Day) LearnPerson(ctx context.Context, q PersonQuestion) (Lesson, error) {
	told := d.abilities(q.Who, q.People, nil, q.Today)
	p := pupilOf(told, q.Record, q.Today)
	var all infer.Cases
	all.Add(p.Person)
	s := infer.Simulator{Forecaster: d.Forecaster, Seed: q.Seed, Workers: 1}
	by, err := d.make(ctx, s, &all, q.Taught.By)
	if err != nil {
		return Lesson{}, err
	}
	p.Prior = q.Taught.Shift.Of(told)
	return p.lesson(q.Who.ID, told, s.Learn(p.Person, q.Today, by), q.Taught.Shift), nil
}

// pupil is somebody who is learnt of, and the scores that their results are.
type pupil struct {
	infer.Person
	from []roomful.Entry
	left []LeftOut
}

// pupilOf sorts a record into what can be learnt from up to a day, and the rest.
func pupilOf(told *roomful.Abilities, record roomful.Record, today roomful.Date) pupil {
	p := pupil{Person: infer.Person{Prior: told}}
	for _, e := range record {
		if e.On.String() > today.String() && !today.IsZero() {
			continue
		}
		if why := unlearnt(e); why != "" {
			p.left = append(p.left, LeftOut{e, why})
			continue
		}
		p.Results = append(p.Results, infer.Result{Title: e.Title, On: e.On, Done: e.Done})
		p.from = append(p.from, e)
	}
	return p
}

// lesson says what was learnt.
func (p pupil) lesson(id string, told *roomful.Abilities, l infer.Learnt, shift infer.Shift) Lesson {
	out := Lesson{Person: id, Abilities: l.Abilities, Told: told, Shift: shift, Left: p.left}
	for _, left := range l.Left {
		out.Left = append(out.Left, LeftOut{p.from[left.Result], left.Why})
	}
	return out
}

// unlearnt says why nothing is learnt from an attempt, or "".
func unlearnt(e roomful.Entry) string {
	switch q := e.Reading.Question; {
	case q != nil:
		return "a question is open: " + q.Ask
	case math.IsNaN(e.Done.Score):
		return "no score"
	case e.Done.Score <= 0 && e.Reading.Kind != roomful.RoundsScore:
		return "a score of nothing"
	}
	return ""
}
