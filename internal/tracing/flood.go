package tracing

import "math"

// neighbours calls visit with the squares that share a side with one.
func (f *field) neighbours(i int, visit func(n int)) {
	if x := i % f.wide; x > 0 {
		visit(i - 1)
	}
	if x := i % f.wide; x+1 < f.wide {
		visit(i + 1)
	}
	if i >= f.wide {
		visit(i - f.wide)
	}
	if i+f.wide < len(f.is) {
		visit(i + f.wide)
	}
}

// keepCore leaves of what is paper or table for sure only what is so a few squares about
// it too.
func (f *field) keepCore() {
	for range 3 {
		was := append([]ground(nil), f.is...)
		for i, g := range was {
			if g != paper && g != table {
				continue
			}
			f.neighbours(i, func(n int) {
				if was[n] != g && was[n] != unseen && was[n] != cardboard {
					f.is[i] = unsure
				}
			})
		}
	}
}

// flood makes every unsure square what it is reached from over the lowest change of
// tone: a watershed (F. Meyer, "Color image segmentation", 1992). A soft shadow changes
// tone slowly, the rim of paper at once.
func (f *field) flood() {
	const heights = 256
	change := f.changes()
	var queue [heights][]int
	put := func(i, least int) {
		h := max(min(int(change[i]*heights), heights-1), least)
		queue[h] = append(queue[h], i)
	}
	waits := make([]bool, len(f.is))
	from := func(i, height int) {
		f.neighbours(i, func(n int) {
			if f.is[n] == unsure && !waits[n] {
				waits[n] = true
				put(n, height)
			}
		})
	}
	for i, g := range f.is {
		if g == paper || g == table {
			from(i, 0)
		}
	}
	for h := 0; h < heights; h++ {
		for len(queue[h]) > 0 {
			i := queue[h][0]
			queue[h] = queue[h][1:]
			best, least := unsure, math.Inf(1)
			f.neighbours(i, func(n int) {
				if g := f.is[n]; g == paper || g == table {
					if d := size(f.of[n].less(f.of[i])); d < least {
						best, least = g, d
					}
				}
			})
			f.is[i] = best
			from(i, h)
		}
	}
}

// changes are how much the tone changes at each square, 0 to 1 for the most there may be.
func (f *field) changes() []float64 {
	out := make([]float64, len(f.of))
	const most = 12.0
	for i := range f.of {
		x, y := i%f.wide, i/f.wide
		if x == 0 || y == 0 || x+1 == f.wide || y+1 == f.high {
			continue
		}
		a, b := size(f.of[i+1].less(f.of[i-1])), size(f.of[i+f.wide].less(f.of[i-f.wide]))
		out[i] = min(math.Sqrt(math.Hypot(a, b)/most), 1)
	}
	return out
}

// parts are the stretches of paper that hang together, largest first by their squares.
func (f *field) parts() (out [][]int) {
	seen := make([]bool, len(f.is))
	for start := range f.is {
		if f.is[start] != paper || seen[start] {
			continue
		}
		seen[start] = true
		in := []int{start}
		for k := 0; k < len(in); k++ {
			f.neighbours(in[k], func(n int) {
				if f.is[n] == paper && !seen[n] {
					seen[n] = true
					in = append(in, n)
				}
			})
		}
		out = append(out, in)
	}
	return out
}
