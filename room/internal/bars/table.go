package bars

// table finds states by key.
type table struct {
	states []state
	slots  []int32 // 1 + index of a state; 0 is free
}

// newTable makes room for a few states for each of from.
func newTable(from int) *table {
	size := 256
	for size < 4*from {
		size *= 2
	}
	return &table{slots: make([]int32, size)}
}

// offer adds a state, or betters the one with the same key.
func (t *table) offer(s state) {
	if 2*len(t.states) >= len(t.slots) {
		t.grow()
	}
	slot := t.find(s.left)
	if at := t.slots[slot]; at > 0 {
		if old := &t.states[at-1]; s.regret < old.regret {
			*old = s
		}
		return
	}
	t.states = append(t.states, s)
	t.slots[slot] = int32(len(t.states))
}

// find returns the slot of a key, or the free one where it belongs.
func (t *table) find(k key) int {
	mask := len(t.slots) - 1
	h := (k[0]*0x9e3779b97f4a7c15 ^ k[1]) * 0xbf58476d1ce4e5b9
	for i := int(h>>32) & mask; ; i = (i + 1) & mask {
		if at := t.slots[i]; at == 0 || t.states[at-1].left == k {
			return i
		}
	}
}

// grow doubles the slots.
func (t *table) grow() {
	t.slots = make([]int32, 2*len(t.slots))
	for i := range t.states {
		t.slots[t.find(t.states[i].left)] = int32(i + 1)
	}
}
