package infer

import "math"

// The sums here are plain loops. Those of a numerics library may change, in the
// last bits, with the machine and with where memory happens to lie, and the same
// seed is to give the same bytes.

// dot returns the sum of products, as long as the shorter of the two.
func dot(a, b []float64) float64 {
	n := min(len(a), len(b))
	a, b = a[:n], b[:n]
	var even, odd float64
	i := 0
	for ; i+1 < n; i += 2 { // two sums at once, for speed
		even += a[i] * b[i]
		odd += a[i+1] * b[i+1]
	}
	if i < n {
		even += a[i] * b[i]
	}
	return even + odd
}

// addTo adds a multiple of a row to another.
func addTo(to []float64, by float64, row []float64) {
	for i, v := range row {
		to[i] += by * v
	}
}

// norm returns the length of a row.
func norm(a []float64) float64 { return math.Sqrt(dot(a, a)) }

// matrix returns a square of zeros.
func matrix(n int) [][]float64 {
	all, rows := make([]float64, n*n), make([][]float64, n)
	for i := range rows {
		rows[i] = all[i*n : (i+1)*n : (i+1)*n]
	}
	return rows
}

// root returns the lower Cholesky factor of a matrix of which the lower half is
// read; ok is false when the matrix has none.
func root(a [][]float64) (l [][]float64, ok bool) {
	l = matrix(len(a))
	for i := range a {
		for j := range i {
			l[i][j] = (a[i][j] - dot(l[i][:j], l[j][:j])) / l[j][j]
		}
		left := a[i][i] - dot(l[i][:i], l[i][:i])
		if !(left > 0) {
			return nil, false
		}
		l[i][i] = math.Sqrt(left)
	}
	return l, true
}

// solve returns x with L Lᵀ x = b.
func solve(l [][]float64, b []float64) []float64 {
	n := len(b)
	x := make([]float64, n)
	for i := range n {
		x[i] = (b[i] - dot(l[i][:i], x[:i])) / l[i][i]
	}
	return backward(l, x)
}

// backward returns x with Lᵀ x = b, in the place of b.
func backward(l [][]float64, b []float64) []float64 {
	for i := len(b) - 1; i >= 0; i-- {
		b[i] /= l[i][i]
		addTo(b[:i], -b[i], l[i][:i])
	}
	return b
}

// inverse returns the inverse of L Lᵀ.
func inverse(l [][]float64) [][]float64 {
	out := matrix(len(l))
	one := make([]float64, len(l))
	for i := range l {
		clear(one)
		one[i] = 1
		copy(out[i], solve(l, one))
	}
	return out
}

// meanVariance returns the mean of values and their variance about it.
func meanVariance(values []float64) (mean, variance float64) {
	for _, v := range values {
		mean += v
	}
	mean /= float64(len(values))
	for _, v := range values {
		variance += (v - mean) * (v - mean)
	}
	return mean, variance / float64(max(1, len(values)-1))
}
