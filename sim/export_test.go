package sim

import (
	"math"

	"roomful"
)

// Run does one run of a request's first crew, with noise, and returns what
// happened and the score.
func (m *Model) Run(q roomful.ForecastRequest, n int) ([]Event, float64, error) {
	crews, err := m.crews(q)
	if err != nil {
		return nil, 0, err
	}
	r := newRunner(m, q, crews[0])
	var events []Event
	r.draw(n)
	r.passes(false, func(e Event) {
		if !e.Break {
			events = append(events, e)
		}
	})
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
