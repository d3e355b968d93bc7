package prior

import "math"

// The few operations on small dense matrices that conditioning needs. They are
// at most some 30 wide, where a general library costs more than it saves.

// matrix returns a zero matrix in one allocation of its cells.
func matrix(rows, columns int) [][]float64 {
	cells, m := make([]float64, rows*columns), make([][]float64, rows)
	for i := range m {
		m[i] = cells[i*columns : (i+1)*columns]
	}
	return m
}

// dot returns the scalar product.
func dot(a, b []float64) (sum float64) {
	for i, v := range a {
		sum += v * b[i]
	}
	return sum
}

// axpy adds k·x to y.
func axpy(k float64, x, y []float64) {
	for i, v := range x {
		y[i] += k * v
	}
}

// cholesky returns the lower triangle L of a symmetric matrix, L Lᵀ = m. The
// matrix may be singular: a direction without variance gets an empty column.
func cholesky(m [][]float64) [][]float64 {
	n := len(m)
	l := matrix(n, n)
	for j := range n {
		pivot := m[j][j] - dot(l[j][:j], l[j][:j])
		if pivot < 1e-9 {
			continue
		}
		root := math.Sqrt(pivot)
		l[j][j] = root
		for i := j + 1; i < n; i++ {
			l[i][j] = (m[i][j] - dot(l[i][:j], l[j][:j])) / root
		}
	}
	return l
}

// invert returns the inverse of a symmetric positive definite matrix.
func invert(m [][]float64) [][]float64 {
	n := len(m)
	l, inv := cholesky(m), matrix(n, n)
	x := make([]float64, n)
	for c := range n {
		for i := range n { // L y = e_c
			x[i] = -dot(l[i][:i], x[:i])
			if i == c {
				x[i]++
			}
			x[i] /= l[i][i]
		}
		for i := n - 1; i >= 0; i-- { // Lᵀ x = y
			for j := i + 1; j < n; j++ {
				x[i] -= l[j][i] * x[j]
			}
			x[i] /= l[i][i]
			inv[i][c] = x[i]
		}
	}
	return inv
}
