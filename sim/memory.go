package sim

import (
	"hash/maphash"
	"sync"
)

// kept is what a model remembers of requests that are asked again.
type kept struct {
	seeds   [2]maphash.Seed // of the keys
	runs    memory[*sheaf]  // of crews
	typical memory[float64] // their scores without noise
}

// What is kept at most, twice: of a class of 26 whose versions are looked for it is some
// fifteen thousand runs and three thousand scores without noise. A run is a hundred and
// fifty bytes.
const (
	mostRuns    = 20_000
	mostTypical = 6000
)

// newKept returns a memory with nothing in it.
func newKept() *kept {
	return &kept{[2]maphash.Seed{maphash.MakeSeed(), maphash.MakeSeed()}, memory[*sheaf]{most: mostRuns}, memory[float64]{most: mostTypical}}
}

// memory keeps what was worked out, by a key that names all that it depends on, as long as
// it is asked for now and then: what has not been, while as much as fits came in, is gone.
type memory[T any] struct {
	most int // how much fits twice, in what put counts

	mu         sync.Mutex
	young, old map[key]T
	size       int // of the young
}

// get returns what is kept.
func (m *memory[T]) get(k key, size func(T) int) (v T, ok bool) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if v, ok = m.young[k]; ok {
		return v, true
	}
	if v, ok = m.old[k]; ok {
		m.put(k, v, size(v))
	}
	return v, ok
}

// keep keeps something.
func (m *memory[T]) keep(k key, v T, size int) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.put(k, v, size)
}

// put is keep; the lock is held.
func (m *memory[T]) put(k key, v T, size int) {
	if m.young == nil || m.size+size > m.most {
		m.young, m.old, m.size = map[key]T{}, m.young, 0
	}
	m.young[k] = v
	m.size += size
}
