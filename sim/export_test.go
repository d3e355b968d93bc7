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
	first := c.class(m, q.Seed, c.groups[0])
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

// OneByOne returns the model stepping one unit at a time.
func (m *Model) OneByOne() *Model {
	one := *m
	one.free, one.paced = grain{1, 1}, grain{1, 1}
	return &one
}

// Patient returns the model with a free pass that walks every window to its end.
func (m *Model) Patient() *Model {
	whole := *m
	whole.scouted = math.Inf(1)
	return &whole
}
