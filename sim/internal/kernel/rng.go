package kernel

import "math"

// Stream is a stream of random numbers addressed by keys: the same keys give
// the same numbers whatever was drawn before. It is SplitMix64 (Steele, Lea and
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

// NewStream returns the stream of a key.
func NewStream(key uint64) Stream { return Stream{key} }

// Uint64 returns the next word.
func (r *Stream) Uint64() uint64 {
	r.s += golden
	return finish(r.s)
}

// unit returns a number in (0, 1).
func (r *Stream) unit() float64 { return (float64(r.Uint64()>>11) + 0.5) / (1 << 53) }

// Exp returns a standard exponential variate.
func (r *Stream) Exp() float64 { return -math.Log(r.unit()) }

// Norm returns a standard normal variate by the polar method of Marsaglia and
// Bray (1964); the second of each pair is not kept, so that a stream holds no
// state but its place.
func (r *Stream) Norm() float64 {
	for {
		u, v := 2*r.unit()-1, 2*r.unit()-1
		if q := u*u + v*v; q < 1 && q > 0 {
			return u * math.Sqrt(-2*math.Log(q)/q)
		}
	}
}
