package sim

import (
	"hash/fnv"
	"math"
	"slices"

	"roomful"
	"roomful/sim/internal/kernel"
)

// squad is a crew as compiled: who, and what they do. It is shared by workers
// and never written to after it is made.
type squad struct {
	at       int               // its place among the squads of its request
	entrants []roomful.Entrant // as asked for, or with a copy to fill a pair
	ids      []uint64          // hashes that key the random numbers
	actions  [][]action        // by member
	plans    []plan            // leading pieces, then the piece
	style    roomful.TeamStyle
	wait     float64   // s after the others that they start
	holds    [][]hold  // of places that may run short, by action
	from     []float64 // s from the start of the piece, when they go over to other work
	shift    int       // how much further on its actions stand, each time
}

// crews groups the entrants of a request in file order and compiles each group.
func (m *Model) crews(q roomful.ForecastRequest) ([]*squad, error) {
	out := make([]*squad, crewsIn(q))
	for n := range out {
		out[n] = new(squad)
		if err := m.crew(q, n, out[n]); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// crewsIn counts the crews of a request.
func crewsIn(q roomful.ForecastRequest) int {
	size := max(1, q.Piece.Team.Size)
	return (len(q.Entrants) + size - 1) / size
}

// crew compiles one group of entrants, in the memory of a squad that nobody needs any more.
func (m *Model) crew(q roomful.ForecastRequest, n int, s *squad) error {
	*s = squad{at: n, style: q.Piece.Team.Style, entrants: s.entrants[:0], ids: s.ids[:0], actions: s.actions, plans: s.plans[:0], holds: s.holds[:0]}
	size := max(1, q.Piece.Team.Size)
	for k := range size {
		i := n*size + k
		copies := i >= len(q.Entrants)
		if copies {
			// A partner who is missing is a copy of the last one there.
			i = len(q.Entrants) - 1
		}
		e := q.Entrants[i]
		id := hash(e.ID)
		if copies {
			id = kernel.Mix(id, uint64(k))
		}
		s.entrants, s.ids = append(s.entrants, e), append(s.ids, id)
		s.wait = max(s.wait, e.Wait.Seconds())
	}
	return m.compileSquad(s, q)
}

// compileSquad fills in a squad's actions and plans.
func (m *Model) compileSquad(s *squad, q roomful.ForecastRequest) error {
	if len(s.actions) != len(s.entrants) {
		s.actions = make([][]action, len(s.entrants))
	}
	for k := range s.actions {
		s.actions[k] = s.actions[k][:0]
	}
	for pi := range len(q.Lead) + 1 {
		p := q.Piece
		if pi < len(q.Lead) {
			p = q.Lead[pi]
		}
		var at places
		for k, e := range s.entrants {
			w := e.Work
			if pi < len(q.Lead) {
				if pi >= len(e.Lead) {
					return refuse(p, "no work given for "+e.Name)
				}
				w = e.Lead[pi]
			}
			if !counted(w.Once) || !counted(w.Round) || !counted(w.Last) {
				return refuse(p, "an amount below nought")
			}
			s.actions[k] = slices.Grow(s.actions[k], len(w.Once)+len(w.Round)+len(w.Last))
			at = places{}
			add := func(list []roomful.Task) (idx []int) {
				if len(list) > 0 {
					idx = make([]int, 0, len(list))
				}
				for i := range list {
					s.actions[k] = append(s.actions[k], m.compile(list[i], e.Abilities, e.Division))
					idx = append(idx, len(s.actions[k])-1)
				}
				return idx
			}
			at.once, at.round, at.last = add(w.Once), add(w.Round), add(w.Last)
			if pi == len(q.Lead) {
				if err := s.changes(p, e, add); err != nil {
					return err
				}
			}
		}
		if len(at.once)+len(at.round)+len(at.last) == 0 {
			return refuse(p, "nothing to do")
		}
		if pi == len(q.Lead) && len(s.entrants) == 1 {
			p = s.entrants[0].Dose.Of(p)
		}
		c, err := newCourse(p, at, s.actions[0])
		if err != nil {
			return err
		}
		s.plans = append(s.plans, plan{piece: p, course: c, kind: roomful.KindOf(p, m.lex), round: at.round})
	}
	return nil
}

// changes compiles what an entrant goes over to on the way: action for action as
// many as before, right behind them.
func (s *squad) changes(p roomful.Part, e roomful.Entrant, add func([]roomful.Task) []int) error {
	s.shift = len(e.Work.Once) + len(e.Work.Round) + len(e.Work.Last)
	s.from = s.from[:0]
	for _, g := range e.Segments {
		if len(g.Work.Once) != len(e.Work.Once) || len(g.Work.Round) != len(e.Work.Round) || len(g.Work.Last) != len(e.Work.Last) {
			return refuse(p, "a change of how many elements there are")
		}
		add(g.Work.Once)
		add(g.Work.Round)
		add(g.Work.Last)
		s.from = append(s.from, g.From.Seconds())
	}
	return nil
}

// counted reports whether all amounts are numbers from nought.
func counted(tasks []roomful.Task) bool {
	for i := range tasks {
		if n := tasks[i].Amount; !(n >= 0) || math.IsInf(n, 1) {
			return false
		}
	}
	return true
}

// totals returns the total loads that exist for a task whose load is found on
// the day, by usual steps when none are listed.
func totals(t *roomful.Task) []float64 {
	if len(t.Exists) == 0 {
		if t.Load.Kg() == 0 {
			return usualTotals
		}
		return nil
	}
	n := float64(max(t.Implements, 1))
	out := make([]float64, len(t.Exists))
	for i, l := range t.Exists {
		out[i] = l.Kg() * n
	}
	return out
}

// usualTotals are loads from a light bar up, in steps of 2.5 kg. Nobody writes to them.
var usualTotals = func() (out []float64) {
	for kg := 15.0; kg <= 350; kg += 2.5 {
		out = append(out, kg)
	}
	return out
}()

// hash returns the key of an id.
func hash(id string) uint64 {
	h := fnv.New64a()
	h.Write([]byte(id)) // never fails
	return h.Sum64()
}
