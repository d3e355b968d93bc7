package sim

import (
	"math"
	"slices"

	"roomful/sim/internal/kernel"
)

// runner carries one squad through runs. Each worker has its own.
type runner struct {
	m        *Model
	squad    *squad
	crew     crew
	samplers []*sampler
	seed     uint64

	at     int       // the plan they are in
	step   step      // what they do next
	whole  float64   // when the work is expected to end, in s
	cannot bool      // somebody cannot do an element of a piece
	lost   bool      // and no window ends that piece
	lasted []float64 // memory of how long rounds took
}

// newRunner returns a runner of a squad. It takes over the memory of one that is needed
// no more, nil for none.
func newRunner(m *Model, seed uint64, s *squad, was *runner) *runner {
	r := was
	if r == nil {
		r = &runner{crew: crew{rng: newNoise()}}
	}
	members, samplers, spells := r.crew.members, r.samplers, r.crew.tally.spells
	n := len(s.actions[0])
	*r = runner{m: m, squad: s, seed: seed, lasted: r.lasted, crew: crew{c: &m.constants, style: s.style, rng: r.crew.rng, shift: s.shift, watch: math.Inf(1), tally: r.crew.tally}}
	r.crew.tally.spells = slices.Grow(spells[:0], n)[:n]
	for k, e := range s.entrants {
		acts := s.actions[k]
		if s.finds() {
			acts = slices.Clone(acts)
		}
		if k == len(members) {
			members, samplers = append(members, new(member)), append(samplers, &sampler{noise: newNoise()})
		}
		*members[k] = member{actions: acts, acts: slices.Grow(members[k].acts[:0], len(acts))[:len(acts)]}
		clear(members[k].acts)
		samplers[k].learn(e.Abilities, acts)
	}
	r.crew.members, r.samplers = members[:len(s.entrants)], samplers[:len(s.entrants)]
	return r
}

// finds reports whether a walk may change the load of an action, so that each runner
// needs their own.
func (s *squad) finds() bool {
	if slices.ContainsFunc(s.plans, func(p plan) bool { _, builds := p.course.(*build); return builds }) {
		return true
	}
	return slices.ContainsFunc(s.actions, func(acts []action) bool {
		return slices.ContainsFunc(acts, func(a action) bool { return a.found() })
	})
}

// draw makes everybody who they are in a run.
func (r *runner) draw(n int) {
	seedRun := kernel.Mix(r.seed, uint64(n))
	for k, m := range r.crew.members {
		key := kernel.Mix(seedRun, r.squad.ids[k])
		r.samplers[k].draw(key)
		m.prepare(r.samplers[k], r.samplers[k].day(&r.m.constants, key, seedRun), &r.m.constants)
	}
	r.crew.key = kernel.Mix(kernel.Mix(seedRun, r.squad.ids[0]), keySteps)
}

// centre makes everybody who they are at the centre of their abilities.
func (r *runner) centre() {
	for k, m := range r.crew.members {
		m.prepare(r.samplers[k], calm, &r.m.constants)
	}
}

// foresee walks the pieces freely and without noise, to learn what they ask and
// set the pace of the real walk.
func (r *runner) foresee() {
	c := &r.crew
	guess := r.guess()
	l, inOrder := r.last().course.(*linear)
	c.scouting = inOrder && l.team < 2 && len(r.squad.plans) == 1
	events := c.events
	c.quiet, c.paced, c.ratio, c.events, c.grain = true, false, 1, nil, r.m.free
	c.hour, c.horizon, c.lasts = r.hour(guess), guess, 0
	r.walk()
	ratio := 1.0
	if c.tally.idealSeconds > 0 {
		ratio = max(1, c.tally.station/c.tally.idealSeconds)
	}
	took := min(c.clock, c.end)
	c.hour, c.horizon, c.lasts = r.hour(took), took, 0
	if !inOrder || l.team > 1 {
		c.lasts = c.tally.sum() / float64(max(1, len(c.tally.groups)))
	}
	if !inOrder {
		c.hour = r.hour(c.lasts)
	}
	c.scouting, c.paced, c.ratio, c.events, c.grain = false, true, ratio, events, r.m.paced
}

// hour returns the length that pacing goes by, from the piece or from how long
// it is expected to take.
func (r *runner) hour(expected float64) float64 {
	h := r.last().course.hour()
	if h == 0 {
		h = expected
	}
	return max(60, min(h, 1800))
}

// last returns the plan of the piece itself, after any leading ones.
func (r *runner) last() *plan { return &r.squad.plans[len(r.squad.plans)-1] }

// guess returns roughly how long fixed work takes, in seconds: repetitions at
// one and a third of their rested time, engines at the oxygen supply alone.
func (r *runner) guess() float64 {
	l, ok := r.last().course.(*linear)
	if !ok || l.rounds < 0 {
		return r.last().course.window()
	}
	m := r.crew.members[0]
	total := 0.0
	for _, list := range [][]int{l.once, l.round, l.last} {
		for _, i := range list {
			a, times := &m.actions[i], 1.0
			amount := a.amount
			if len(list) > 0 && len(l.round) > 0 && &list[0] == &l.round[0] {
				times = float64(l.rounds)
				if amount == 0 {
					amount = l.mean()
				}
			}
			total += times * (a.timed + m.seconds(i, amount) + r.m.constants.Transition)
		}
	}
	return max(60, total)
}

// mean returns the mean step of a course's ladder.
func (l *linear) mean() float64 {
	var sum float64
	for _, s := range l.ladder.Steps {
		sum += float64(s)
	}
	return sum / float64(max(1, len(l.ladder.Steps)))
}

// seconds returns roughly how long a member takes for an amount of an action.
func (m *member) seconds(i int, amount float64) float64 {
	switch a := &m.actions[i]; a.kind {
	case engineAction:
		return amount * m.acts[i].Seconds
	case repsAction:
		return amount * m.acts[i].Seconds * 4 / 3
	case restAction:
		return amount
	default:
		return amount * a.seconds
	}
}

// walk takes the crew through every piece freely. It goes past a cap, so that a
// cap changes nothing before it.
func (r *runner) walk() {
	r.start()
	if r.crew.scouting {
		r.open()
		r.crew.scout(r.last().course, r.m.scouted)
		r.close()
		return
	}
	for r.next() {
		r.crew.approach(&r.step)
		r.carryOut()
	}
}

// begin puts the crew at the start of the real walk, as long after the others
// as they wait.
func (r *runner) begin(quiet bool) {
	r.crew.quiet = quiet
	r.start()
	r.crew.clock += r.squad.wait
	r.whole += r.squad.wait
}

// start puts the crew at rest before the first piece.
func (r *runner) start() {
	r.crew.reset()
	r.crew.settle()
	r.at, r.whole, r.cannot, r.lost = -1, r.crew.horizon, false, false
}

// next finds what the crew does next, and returns false when all is done.
func (r *runner) next() bool {
	for {
		if r.at >= 0 {
			if !r.crew.over && r.squad.plans[r.at].course.next(&r.crew.cursor, &r.crew, &r.step) {
				return true
			}
			if !r.close() {
				return false
			}
		}
		r.open()
	}
}

// carryOut does what the crew has come up to.
func (r *runner) carryOut() { r.crew.over = !r.crew.carryOut(&r.step) }

// open begins the next piece.
func (r *runner) open() {
	r.at++
	c, p := &r.crew, &r.squad.plans[r.at]
	c.cursor, c.over = cursor{offset: c.clock}, false
	c.tally.reset()
	c.tally.roundBegan = c.clock
	c.end = c.clock + p.course.window()
	final := r.at+1 == len(r.squad.plans)
	if c.from = nil; final && c.paced { // nobody paces themselves by a change to come
		c.from = r.squad.from
	}
	if l, ok := p.course.(*linear); ok && l.rounds >= 0 && !c.paced && final {
		c.end = math.Inf(1)
	}
	// A lead's effort is spread over the lead itself.
	if c.horizon = r.whole; !final && !math.IsInf(c.end, 1) {
		c.horizon = c.end
	}
}

// close ends a piece and returns whether another follows.
func (r *runner) close() bool {
	c := &r.crew
	c.tally.complete = !c.over
	r.cannot = r.cannot || c.tally.cannot
	r.lost = c.tally.cannot && math.IsInf(c.end, 1)
	if r.lost || r.at+1 == len(r.squad.plans) {
		return false
	}
	if !math.IsInf(c.end, 1) {
		c.rest(c.end - c.clock)
	}
	return true
}
