package kernel

// Stream is a source of random numbers addressed by keys: the same keys give
// the same numbers whatever was drawn before. It implements [rand.Source] of
// math/rand/v2.
//
// It is SplitMix64 (Steele, Lea and
// Flood 2014, Fast splittable pseudorandom number generators, OOPSLA).
type Stream struct{ s uint64 }

// golden is the increment of SplitMix64, 2^64 divided by the golden ratio.
const golden = 0x9e3779b97f4a7c15

// Mix hashes two words into one, so that keys can be joined.
func Mix(a, b uint64) uint64 { return finish(a ^ (finish(b+golden) + golden)) }

func finish(z uint64) uint64 {
	z = (z ^ z>>30) * 0xbf58476d1ce4e5b9
	z = (z ^ z>>27) * 0x94d049bb133111eb
	return z ^ z>>31
}

// Seek moves the stream to the start of a key's numbers.
func (r *Stream) Seek(key uint64) { r.s = key }

// Uint64 returns the next word.
func (r *Stream) Uint64() uint64 {
	r.s += golden
	return finish(r.s)
}
