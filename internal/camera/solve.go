package camera

import "math"

// solve goes from a state to the one with the least sum of squared residuals near it
// (Levenberg and Marquardt's damped least squares), in so many rounds at most. It
// returns that sum too; +Inf where there is none.
func (a *adjustment) solve(st state, rounds int) (state, float64) {
	r := a.residuals(&st, nil)
	cost := squares(r)
	n := a.unknowns(&st)
	damp := 1e-3
	for range rounds {
		normal, slope := a.normal(st, r, n)
		better := false
		for range 10 {
			by := step(normal, slope, damp, n)
			if by == nil {
				damp *= 10
				continue
			}
			next := a.moved(st, by)
			nr := a.residuals(&next, nil)
			nc := squares(nr)
			if nc < cost {
				small := cost-nc < 1e-9*(1+cost)
				st, r, cost, better = next, nr, nc, !small
				damp = max(damp/5, 1e-12)
				break
			}
			damp *= 6
		}
		if !better {
			break
		}
	}
	if math.IsNaN(cost) {
		return st, math.Inf(1)
	}
	return st, cost
}

func squares(r []float64) (sum float64) {
	for _, v := range r {
		sum += v * v
	}
	return sum
}

// normal are the normal equations at a state, by central differences: the matrix, lower
// half, and the way down.
func (a *adjustment) normal(st state, r []float64, n int) (m, slope []float64) {
	rows := make([][]float64, n)
	by := make([]float64, n)
	for i := range n {
		by[i] = 1
		ahead := a.moved(st, by)
		by[i] = -1
		behind := a.moved(st, by)
		by[i] = 0
		up, down := a.residuals(&ahead, nil), a.residuals(&behind, nil)
		for k := range up {
			up[k] = (up[k] - down[k]) / 2
		}
		rows[i] = up
	}
	m, slope = make([]float64, n*n), make([]float64, n)
	for i := range n {
		for j := range i + 1 {
			sum := 0.0
			for k, v := range rows[i] {
				sum += v * rows[j][k]
			}
			m[i*n+j] = sum
		}
		for k, v := range rows[i] {
			slope[i] -= v * r[k]
		}
	}
	return m, slope
}

// step solves the damped normal equations by Cholesky's method; nil where they have no
// answer. What moves nothing is left where it is.
func step(m, slope []float64, damp float64, n int) []float64 {
	l := make([]float64, n*n)
	for i := range n {
		for j := range i + 1 {
			sum := m[i*n+j]
			if i == j {
				sum += damp*m[i*n+i] + 1e-30
				if m[i*n+i] == 0 {
					sum = 1
				}
			}
			for k := range j {
				sum -= l[i*n+k] * l[j*n+k]
			}
			if i != j {
				l[i*n+j] = sum / l[j*n+j]
				continue
			}
			if !(sum > 0) {
				return nil
			}
			l[i*n+i] = math.Sqrt(sum)
		}
	}
	x := make([]float64, n)
	for i := range n {
		sum := slope[i]
		for k := range i {
			sum -= l[i*n+k] * x[k]
		}
		x[i] = sum / l[i*n+i]
	}
	for i := n - 1; i >= 0; i-- {
		for k := i + 1; k < n; k++ {
			x[i] -= l[k*n+i] * x[k]
		}
		x[i] /= l[i*n+i]
	}
	return x
}
