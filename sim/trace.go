package sim

import (
	"roomful"
)

// Event is one stretch of a run: a step done, or a break.
type Event struct {
	Start, End float64 // s on the clock
	Movement   roomful.MovementID
	Done       float64 // in the task's unit
	Round      int     // of rounds or bouts, from 0
	Person     int     // who did it, by place in the crew
	Break      bool
}

// Trace runs a piece once without noise for the first crew of a request, with
// everybody at the centre of their abilities, and returns what happened and the
// score. Breaks are left out unless asked for.
func (m *Model) Trace(q roomful.ForecastRequest, breaks bool) ([]Event, float64, error) {
	c, err := m.gather(q)
	if err != nil {
		return nil, 0, err
	}
	first := c.class(m, q.Seed, c.groups[0], nil)
	r := first.runners[0]
	var events []Event
	r.crew.events = func(e Event) {
		if !e.Break || breaks {
			events = append(events, e)
		}
	}
	for _, r := range first.runners {
		r.centre()
	}
	first.run(true)
	return events, r.outcome().score, nil
}
