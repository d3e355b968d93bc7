package version

import (
	"strings"

	"roomful"
)

// Bounds on what somebody may be asked to do.
const (
	adultAge      = 18
	newMonths     = 3.0
	newShare      = 0.75 // of all amounts while new (common practice, no source)
	returnShare   = 0.5  // of all amounts in the first week back (Caterisano et al. 2019; the half from memory)
	youngFresh    = 6    // repetitions a load must allow under 18: the lower end of sets of 6-15 (Faigenbaum et al. 2009)
	moderateFresh = 12   // and when new, back or pregnant: moderate (common practice, no source)
)

// person is somebody with everything that bounds them.
type person struct {
	Person
	order   int    // place in the request
	id      string // of the athlete, their name when they have none
	stock   *stock
	written []roomful.Task // what the sheet says for their division
	lead    []roomful.Work
	lines   []*lineOf // per line of the piece
	plans   []*plan   // once decided, best first

	young, expecting, fresher, returning bool
	stranger                             bool // nothing at all is known of them
	stop                                 *roomful.Limit
	acting                               []roomful.Limit // limits that change what they do
	noted                                []roomful.Limit // limits that go ahead with a note
	volume                               float64         // at most this share of what is written
	leastFresh                           int             // repetitions any load must allow
	doubts                               []string        // who they are remains unclear
}

// newPerson reads what bounds somebody on a day.
func newPerson(p Person, order int, on roomful.Date) *person {
	q := &person{Person: p, order: order, id: p.Athlete.ID, volume: 1, doubts: p.Doubts}
	if q.id == "" {
		q.id = p.Athlete.Name
	}
	if q.Abilities == nil {
		q.Abilities = &roomful.Abilities{}
	}
	for _, l := range p.Athlete.Limits {
		switch {
		case l.RefersOut():
			if q.stop == nil || l.What == "stop" {
				q.stop = &l
			}
		case l.What == "returning":
			q.returning = true
		case acts(l):
			q.acting = append(q.acting, l)
			q.expecting = q.expecting || l.What == "pregnant"
		default:
			q.noted = append(q.noted, l)
		}
	}
	age, ok := p.Athlete.Age(on)
	q.young = ok && age < adultAge
	q.fresher = p.Athlete.Months != nil && *p.Athlete.Months < newMonths
	q.stranger = !q.anything()
	q.bound()
	return q
}

// bound sets what follows from the person's states.
func (p *person) bound() {
	least := func(n int) { p.leastFresh = max(p.leastFresh, n) }
	if p.young {
		least(youngFresh)
	}
	if p.expecting {
		least(moderateFresh)
	}
	if p.fresher {
		p.volume = min(p.volume, newShare)
		least(moderateFresh)
	}
	if p.returning {
		p.volume = min(p.volume, returnShare)
		least(moderateFresh)
	}
}

// bounded reports whether something other than the window rules their day.
func (p *person) bounded() bool {
	return p.young || p.expecting || p.fresher || p.returning
}

// heldBy returns the limit that rules a movement out, or nil.
func (p *person) heldBy(m *roomful.Movement) *roomful.Limit {
	for i := range p.acting {
		if forbids(p.acting[i], m) {
			return &p.acting[i]
		}
	}
	return nil
}

// lacksSkill reports whether somebody cannot do a movement that has to be
// learnt: they said so, or they are new and said nothing.
func (p *person) lacksSkill(m *roomful.Movement) bool {
	switch p.Athlete.Skill(m.ID) {
	case roomful.NoSkill:
		return true
	case roomful.UnknownLevel:
		return m.Skill.Needed && p.fresher && !p.informed(roomful.OwnMax(m.ID))
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
