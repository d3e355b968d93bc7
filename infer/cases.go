package infer

import "slices"

// Cases are results by their structure, for an emulator to be made of each.
type Cases struct {
	// Most bounds how many are held of a structure, when it is not nought: as many again
	// have every other one go. Emulators try a few hundred people of them.
	Most int

	order []string // of the structures, as they came
	of    map[string]*sample
}

// sample is what is held of a structure.
type sample struct {
	kept   []Case
	odd    []bool // whether a load or a body mass was the least or the most so far: such stay
	reach  reach
	seen   int
	stride int
}

// Add adds the results of a person that an emulator is needed for.
func (c *Cases) Add(p Person) {
	for _, j := range inOrder(p.Results) {
		if r := &p.Results[j]; r.scored() {
			c.add(Case{p.Prior, r})
		}
	}
}

// add adds one case.
func (c *Cases) add(one Case) {
	key := one.Result.Structure()
	s := c.of[key]
	if s == nil {
		if c.of == nil {
			c.of = map[string]*sample{}
		}
		s = &sample{stride: 1}
		c.of[key] = s
		c.order = append(c.order, key)
	}
	odd := s.reach.take(one)
	if s.seen++; !odd && (s.seen-1)%s.stride != 0 {
		return
	}
	if c.Most > 0 { // the others of its record must not stay in memory with it
		alone := *one.Result
		one.Result = &alone
	}
	s.kept, s.odd = append(s.kept, one), append(s.odd, odd)
	if c.Most > 0 && len(s.kept) > c.Most {
		s.thin()
	}
}

// thin lets every other case go, but for the odd ones.
func (s *sample) thin() {
	kept, odd := s.kept[:0], s.odd[:0]
	for i := range s.kept {
		if s.odd[i] || i%2 == 0 {
			kept, odd = append(kept, s.kept[i]), append(odd, s.odd[i])
		}
	}
	s.kept, s.odd = kept, odd
	s.stride *= 2
}

// Structures lists the structures of the cases, as they came.
func (c *Cases) Structures() []string { return slices.Clone(c.order) }

// Lacking returns the cases that no entry of some emulators serves.
func (c *Cases) Lacking(by Emulators) *Cases {
	out := &Cases{Most: c.Most, of: map[string]*sample{}}
	for _, key := range c.order {
		s := c.of[key]
		entry, made := by[key]
		if made && !slices.ContainsFunc(s.kept, func(k Case) bool { return !entry.Serves(k) }) {
			continue
		}
		out.order, out.of[key] = append(out.order, key), s
	}
	return out
}
