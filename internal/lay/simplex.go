package lay

import "math"

// A program is a linear programme: least cost·z with lo ≤ z ≤ hi and every
// row·z ≥ its bound. All ranges are finite.
type program struct {
	cost, lo, hi []float64
	rows         []programRow
}

type programRow struct {
	term  []term
	bound float64
}

type term struct {
	at int
	k  float64
}

const (
	feasible = 1e-12
	tiny     = 1e-9
)

// solve runs the dual simplex method with bounded variables on a dense
// tableau (Lemke 1954; the textbook form). Costs must not be negative, so
// that all variables at their lower ends are a dual feasible start. It
// returns nil when there is no solution or the steps run out.
func (p *program) solve(mostSteps int) (z []float64, steps int) {
	n := len(p.cost)
	t := newTableau(p)
	for steps = 0; steps < mostSteps; steps++ {
		r, below := t.leaving()
		if r < 0 {
			return t.solution(n), steps
		}
		c := t.entering(r, below)
		if c < 0 {
			return nil, steps
		}
		t.pivot(r, c, below)
	}
	return nil, steps
}

// tableau: basic variables in terms of the others. Variables 0…n-1 are z,
// the rest the rows' slacks.
type tableau struct {
	n, m   int
	a      []float64 // m×n: basic i = … + a[i*n+j] · (nonbasic j)
	value  []float64 // of basic i
	basic  []int
	other  []int  // nonbasic variables
	atHigh []bool // nonbasic j lies at its upper end
	cost   []float64
	lo, hi []float64 // of every variable
}

func newTableau(p *program) *tableau {
	n, m := len(p.cost), len(p.rows)
	t := &tableau{n: n, m: m, a: make([]float64, n*m), value: make([]float64, m), basic: make([]int, m),
		other: make([]int, n), atHigh: make([]bool, n), cost: append([]float64(nil), p.cost...)}
	t.lo = append(append([]float64(nil), p.lo...), make([]float64, m)...)
	t.hi = append([]float64(nil), p.hi...)
	for i, r := range p.rows {
		t.basic[i] = n + i
		t.hi = append(t.hi, math.Inf(1))
		v := -r.bound
		for _, q := range r.term {
			t.a[i*n+q.at] += q.k
			v += float64(q.k * p.lo[q.at])
		}
		t.value[i] = v
	}
	for j := range n {
		t.other[j] = j
	}
	return t
}

// leaving picks the basic variable furthest outside its range.
func (t *tableau) leaving() (row int, below bool) {
	row = -1
	worst := feasible
	for i, v := range t.value {
		k := t.basic[i]
		if d := t.lo[k] - v; d > worst {
			row, below, worst = i, true, d
		}
		if d := v - t.hi[k]; d > worst {
			row, below, worst = i, false, d
		}
	}
	return row, below
}

// entering picks the nonbasic variable that can mend the row at least cost.
func (t *tableau) entering(r int, below bool) int {
	best, bestRatio, bestSize := -1, math.Inf(1), 0.0
	row := t.a[r*t.n : (r+1)*t.n]
	for j, a := range row {
		if t.lo[t.other[j]] == t.hi[t.other[j]] {
			continue
		}
		s := a
		if !below {
			s = -s
		}
		if t.atHigh[j] {
			s = -s
		}
		if s < tiny {
			continue
		}
		ratio := math.Abs(t.cost[j]) / s
		if ratio < bestRatio-1e-15 || ratio <= bestRatio+1e-15 && s > bestSize {
			best, bestRatio, bestSize = j, math.Min(ratio, bestRatio), s
		}
	}
	return best
}

func (t *tableau) pivot(r, c int, below bool) {
	n := t.n
	row := t.a[r*n : (r+1)*n]
	leave, enter := t.basic[r], t.other[c]
	target := t.hi[leave]
	if below {
		target = t.lo[leave]
	}
	step := (target - t.value[r]) / row[c]
	from := t.lo[enter]
	if t.atHigh[c] {
		from = t.hi[enter]
	}
	// rewrite row r for the entering variable
	inv := 1 / row[c]
	for j := range row {
		row[j] *= -inv
	}
	row[c] = inv
	for i := range t.m {
		if i == r {
			continue
		}
		line := t.a[i*n : (i+1)*n]
		k := line[c]
		if k == 0 {
			continue
		}
		t.value[i] += float64(k * step)
		line[c] = 0
		for j, v := range row {
			if v != 0 {
				line[j] += float64(k * v)
			}
		}
	}
	k := t.cost[c]
	t.cost[c] = 0
	if k != 0 {
		for j, v := range row {
			t.cost[j] += float64(k * v)
		}
	}
	t.value[r] = from + step
	t.basic[r], t.other[c] = enter, leave
	t.atHigh[c] = !below
}

func (t *tableau) solution(n int) []float64 {
	z := make([]float64, n)
	for j, k := range t.other {
		if k < n {
			z[k] = t.lo[k]
			if t.atHigh[j] {
				z[k] = t.hi[k]
			}
		}
	}
	for i, k := range t.basic {
		if k < n {
			z[k] = t.value[i]
		}
	}
	return z
}
