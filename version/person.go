package version

import (
	"strings"

	"roomful"
	"roomful/version/internal/care"
	"roomful/version/internal/rack"
)

// person is somebody with everything that bounds them.
type person struct {
	Person
	id      string // of the athlete, their name when they have none
	stock   *rack.Stock
	written []roomful.Task // what the sheet says for their division
	lead    []roomful.Work
	lines   []*lineOf // per line of the piece
	plans   []*plan   // once decided, best first

	dose     roomful.Dose // how much of the piece their bounds allow
	amounts  float64      // the share of each amount that is theirs
	care     care.Bounds
	stranger bool // nothing at all is known of them
}

// newPerson reads what bounds somebody on a day.
func newPerson(p Person, on roomful.Date) *person {
	q := &person{Person: p, id: p.Athlete.ID, care: care.Of(p.Athlete, on)}
	if q.id == "" {
		q.id = p.Athlete.Name
	}
	if q.Abilities == nil {
		q.Abilities = &roomful.Abilities{}
	}
	q.stranger = !q.anything()
	return q
}

// lacksSkill reports whether somebody cannot do a movement that has to be
// learnt: they said so, or they are new, or nothing is known of them, and said
// nothing.
func (p *person) lacksSkill(m *roomful.Movement) bool {
	switch p.Athlete.Skill(m.ID) {
	case roomful.NoSkill:
		return true
	case roomful.UnknownLevel:
		return m.Skill.Needed && (p.care.New || p.stranger) && !p.informed(roomful.OwnMax(m.ID))
	}
	return false
}

// informed reports whether a capacity rests on something told or seen.
func (p *person) informed(c roomful.Capacity) bool {
	i := p.Abilities.Index(c)
	return i >= 0 && len(p.Abilities.Dims[i].Informed) > 0
}

// anything reports whether there is any history of the person at all.
func (p *person) anything() bool {
	if p.Athlete.Months != nil || len(p.Athlete.Known) > 0 || len(p.Athlete.Skills) > 0 {
		return true
	}
	for i := range p.Abilities.Dims {
		if len(p.Abilities.Dims[i].Informed) > 0 {
			return true
		}
	}
	return false
}

// knowsMax reports whether the maximum that bounds a movement's load rests on
// anything. A movement without such a maximum needs none.
func (p *person) knowsMax(m *roomful.Movement) bool {
	if m.Bound == nil || !m.TakesLoad() {
		return true
	}
	if m.Bound.Lift != "" {
		return p.informed(roomful.OneRM(m.Bound.Lift))
	}
	return p.informed(roomful.OwnMax(m.Bound.Own))
}

// measured reports whether the maximum of a movement, or of its near kin, was
// told.
func (p *person) measured(m *roomful.Movement) bool {
	if m.Bound == nil || m.Bound.Lift == "" {
		return true
	}
	t, ok := liftTests[m.Bound.Lift]
	if !ok {
		return false
	}
	_, told := p.Athlete.Measured(t)
	return told
}

// liftTests are the figures that tell a reference lift itself or its near kin.
var liftTests = map[roomful.Lift]roomful.Test{
	roomful.BackSquat: roomful.TestSquat, roomful.FrontSquat: roomful.TestSquat, roomful.Deadlift: roomful.TestDeadlift,
	roomful.BenchPress: roomful.TestBench, roomful.Press: roomful.TestPress, roomful.PushPress: roomful.TestPress,
	roomful.Clean: roomful.TestClean, roomful.CleanAndJerk: roomful.TestClean, roomful.Snatch: roomful.TestSnatch,
}

// cautious returns the person's abilities with every strength and unbroken
// maximum at the low end of belief, 1.28 standard deviations below the centre:
// nine in ten such people can do more.
func (p *person) cautious() *roomful.Abilities {
	a := *p.Abilities
	a.Dims = append([]roomful.Dim(nil), a.Dims...)
	for i := range a.Dims {
		d := &a.Dims[i]
		if c := string(d.Capacity); strings.HasPrefix(c, "1rm ") || strings.HasPrefix(c, "max ") {
			d.Centre -= 1.28 * d.SD()
		}
	}
	return &a
}
