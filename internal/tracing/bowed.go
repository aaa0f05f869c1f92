package tracing

// A parabola is what points lie along in the least squares: off = k0 + k1 u + k2 u².
type parabola [][]float64

func newParabola() parabola {
	return parabola{make([]float64, 4), make([]float64, 4), make([]float64, 4)}
}

// add takes a point in.
func (p parabola) add(u, off float64) {
	row := [3]float64{1, u, u * u}
	for r := range 3 {
		for c := range 3 {
			p[r][c] += row[r] * row[c]
		}
		p[r][3] += row[r] * off
	}
}

// solved are k0, k1 and k2; nothing can be added after.
func (p parabola) solved() (k [3]float64) {
	solveRows(p)
	return [3]float64{p[0][3], p[1][3], p[2][3]}
}
