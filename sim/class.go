package sim

import (
	"cmp"
	"slices"

	"roomful"
)

// class takes crews through their pieces on one clock. They meet only at places
// that are short: each is taken straight on from one such place to the next, and
// the first to come up to a place is the first to have it. Who waits recovers.
// Crews that never meet make a class each, with no places.
type class struct {
	runners []*runner // in the order of ids, which decides between those who come at once
	bays    []bay
	line    line
}

// bay is all the places of one kind, and how they are used in a run.
type bay struct {
	free []float64 // when each is free, the first first
	use
}

// use is what happened at a kind of place.
type use struct {
	visits, waited, busy float64 // s, the last two
}

// add adds another use.
func (u *use) add(o use) {
	u.visits += o.visits
	u.waited += o.waited
	u.busy += o.busy
}

// hold is how many places of a bay a step takes.
type hold struct{ bay, count int }

// watch has everybody note how far they are at the time of what is given.
func (c *class) watch(p *roomful.Progress) {
	if p == nil {
		return
	}
	for _, r := range c.runners {
		r.crew.watch = p.At.Seconds()
	}
}

// run takes everybody through one run.
func (c *class) run(quiet bool) {
	for i := range c.bays {
		clear(c.bays[i].free)
		c.bays[i].use = use{}
	}
	c.line = c.line[:0]
	for i, r := range c.runners {
		r.foresee()
		r.begin(quiet)
		if r.onward() {
			c.line.push(arrival{r.crew.clock, i})
		}
	}
	for len(c.line) > 0 {
		i := c.line[0].who
		r := c.runners[i]
		c.serve(r)
		if r.onward() {
			c.line.replace(arrival{r.crew.clock, i})
		} else {
			c.line.pop()
		}
	}
}

// onward takes a crew on until it comes up to a place that others want too, and
// returns false when it is done.
func (r *runner) onward() bool {
	for r.next() {
		r.crew.approach(&r.step)
		if len(r.squad.holds[r.step.act]) > 0 {
			return true
		}
		r.carryOut()
	}
	return false
}

// serve lets a crew have the places it has come up to as soon as they are free. A
// crew whose time is up before that leaves without them.
func (c *class) serve(r *runner) {
	crew, holds := &r.crew, r.squad.holds[r.step.act]
	came := crew.clock
	at := came
	for _, h := range holds {
		at = max(at, c.bays[h.bay].free[h.count-1])
	}
	if at >= r.step.until {
		crew.await(r.step.until - came)
		for _, h := range holds {
			c.bays[h.bay].use.add(use{1, crew.clock - came, 0})
		}
		r.carryOut()
		return
	}
	if at > came {
		crew.await(min(at+crew.c.Handover, r.step.until) - came)
	}
	waited, could := crew.clock-came, !crew.tally.cannot
	r.carryOut()
	until := crew.clock
	if could && crew.tally.cannot { // they put it down again
		until = at
	}
	for _, h := range holds {
		b := &c.bays[h.bay]
		b.take(h.count, until)
		b.use.add(use{1, waited, (until - at) * float64(h.count)})
	}
}

// take holds the places that are free first until a time.
func (b *bay) take(count int, until float64) {
	free := b.free[count:]
	to, _ := slices.BinarySearch(free, until)
	copy(b.free, free[:to])
	for i := range count {
		b.free[to+i] = until
	}
}

// await lets a crew rest until a place is free.
func (c *crew) await(seconds float64) {
	c.tally.waited += max(0, seconds)
	c.rest(seconds)
}

// arrival is when a crew has come up to a place.
type arrival struct {
	at  float64
	who int
}

// before reports whether an arrival is served before another.
func (a arrival) before(b arrival) bool { return a.at < b.at || a.at == b.at && a.who < b.who }

// line is a heap of arrivals, the first on top. It is written out because
// container/heap calls through an interface for every comparison, which costs as
// much as the step between two places.
type line []arrival

// push adds an arrival.
func (l *line) push(a arrival) {
	*l = append(*l, a)
	h := *l
	i := len(h) - 1
	for up := (i - 1) / 2; i > 0 && a.before(h[up]); up = (i - 1) / 2 {
		h[i] = h[up]
		i = up
	}
	h[i] = a
}

// replace puts an arrival in place of the first.
func (l line) replace(a arrival) {
	i := 0
	for {
		next := 2*i + 1
		if next >= len(l) {
			break
		}
		if next+1 < len(l) && l[next+1].before(l[next]) {
			next++
		}
		if !l[next].before(a) {
			break
		}
		l[i] = l[next]
		i = next
	}
	l[i] = a
}

// pop takes the first away.
func (l *line) pop() {
	last := len(*l) - 1
	a := (*l)[last]
	*l = (*l)[:last]
	if last > 0 {
		l.replace(a)
	}
}

// cast is everybody of a request, compiled, with the places that may run short.
type cast struct {
	squads []*squad
	places []roomful.PlaceForecast
	// groups are the squads that may have to wait for each other, each in the order
	// of ids.
	groups [][]*squad
}

// gather compiles a request.
func (m *Model) gather(q roomful.ForecastRequest) (cast, error) {
	squads, err := m.crews(q)
	if err != nil {
		return cast{}, err
	}
	c := cast{squads: squads, places: meet(q.Kit, squads)}
	if len(c.places) == 0 {
		for i := range squads {
			c.groups = append(c.groups, squads[i:i+1])
		}
		return c, nil
	}
	all := slices.Clone(squads)
	slices.SortStableFunc(all, func(a, b *squad) int { return cmp.Compare(a.entrants[0].ID, b.entrants[0].ID) })
	c.groups = [][]*squad{all}
	return c, nil
}

// class returns a class of one group, for one worker, in the place of one that they are
// through with, nil for none.
func (c *cast) class(m *Model, seed uint64, group []*squad, was *class) *class {
	out := cmp.Or(was, new(class))
	for i, s := range group {
		if i == len(out.runners) {
			out.runners = append(out.runners, nil)
		}
		out.runners[i] = newRunner(m, seed, s, out.runners[i])
	}
	out.runners, out.bays = out.runners[:len(group)], out.bays[:0]
	for _, p := range c.places {
		out.bays = append(out.bays, bay{free: make([]float64, p.Count)})
	}
	return out
}

// meet finds the places that may run short and what each crew holds of them at
// each of its actions. Of all others there are enough for everybody at once.
func meet(kit *roomful.Kit, squads []*squad) []roomful.PlaceForecast {
	var places []roomful.PlaceForecast
	for _, s := range squads {
		s.holds = slices.Grow(s.holds[:0], len(s.actions[0]))[:len(s.actions[0])]
		clear(s.holds)
	}
	if kit == nil || len(squads) < 2 {
		return nil
	}
	for _, s := range squads {
		most := map[string]int{}
		for k := range s.actions {
			for i := range s.actions[k] {
				for word, n := range s.held(kit, i) {
					most[word] = max(most[word], n)
				}
			}
		}
		for word, n := range most {
			i := slices.IndexFunc(places, func(p roomful.PlaceForecast) bool { return p.Word == word })
			if i < 0 {
				i = len(places)
				places = append(places, roomful.PlaceForecast{Place: roomful.Place{Word: word, Count: kit.Count(word)}})
			}
			places[i].Need += n
		}
	}
	places = slices.DeleteFunc(places, func(p roomful.PlaceForecast) bool { return p.Need <= p.Count })
	slices.SortFunc(places, func(a, b roomful.PlaceForecast) int { return cmp.Compare(a.Word, b.Word) })
	for _, s := range squads {
		for i := range s.holds {
			held := s.held(kit, i)
			for b, p := range places {
				if n := held[p.Word]; n > 0 {
					s.holds[i] = append(s.holds[i], hold{b, min(n, p.Count)})
				}
			}
		}
	}
	return places
}

// held returns how many of each place a squad holds at an action: partners who
// move together one each, others one between them.
func (s *squad) held(kit *roomful.Kit, act int) map[string]int {
	out := map[string]int{}
	for k := range s.actions {
		a := &s.actions[k][act]
		if a.movement == nil {
			continue
		}
		for _, p := range kit.Places(a.movement, a.task) {
			if s.style == roomful.Synchronised {
				out[p.Word] += p.Count
			} else {
				out[p.Word] = max(out[p.Word], p.Count)
			}
		}
	}
	return out
}
