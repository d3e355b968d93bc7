package sim

import (
	"math"

	"roomful"
)

// Run does one run of a request's first crew, with noise, and returns what
// happened and the score.
func (m *Model) Run(q roomful.ForecastRequest, n int) ([]Event, float64, error) {
	c, err := m.gather(q)
	if err != nil {
		return nil, 0, err
	}
	first := c.class(m, q.Seed, c.groups[0], nil)
	r := first.runners[0]
	var events []Event
	r.crew.events = func(e Event) {
		if !e.Break {
			events = append(events, e)
		}
	}
	for _, r := range first.runners {
		r.draw(n)
	}
	first.run(false)
	return events, r.outcome().score, nil
}

// Class runs a request once without noise and returns what each crew did, by the
// name of its first member, and how long each waited.
func (m *Model) Class(q roomful.ForecastRequest) (did map[string][]Event, waited map[string]float64, err error) {
	c, err := m.gather(q)
	if err != nil {
		return nil, nil, err
	}
	did, waited = map[string][]Event{}, map[string]float64{}
	for _, g := range c.groups {
		class := c.class(m, q.Seed, g, nil)
		for _, r := range class.runners {
			name := r.squad.entrants[0].Name
			r.crew.events = func(e Event) { did[name] = append(did[name], e) }
			r.centre()
		}
		class.run(true)
		for _, r := range class.runners {
			waited[r.squad.entrants[0].Name] = r.crew.tally.waited
		}
	}
	return did, waited, nil
}

// OneByOne returns the model stepping one unit at a time.
func (m *Model) OneByOne() *Model {
	one := *m
	one.kept, one.free, one.paced = newKept(), grain{1, 1}, grain{1, 1}
	return &one
}

// Patient returns the model with a free pass that walks every window to its end.
func (m *Model) Patient() *Model {
	whole := *m
	whole.kept, whole.scouted = newKept(), math.Inf(1)
	return &whole
}
