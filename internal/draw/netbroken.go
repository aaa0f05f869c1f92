package draw

import (
	"cmp"
	"slices"

	"hembook/internal/drawing"
	"hembook/internal/sewn"
	"hembook/internal/shape"
)

// Of lines that are broken where words stand, mm.
const (
	brokenFree  = 0.4 // how far before a word a line ends
	brokenLeast = 0.8 // shorter ends are left out
)

// broken adds a line to a path, broken where words and numbers stand.
func (d *netDrawing) broken(p *drawing.Path, line []drawing.Point) {
	on := false // the path goes on from where it is
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		ux, uy, long := toward2(a, b)
		from := 0.0
		for _, c := range append(d.full.covered(a, b), [2]float64{1, 2}) {
			begin, end := from*long, c[0]*long
			from = c[1]
			if end-begin < brokenLeast && (begin > 0 || end < long) {
				on = false
				continue
			}
			if !on {
				p.Move(a.X+ux*begin, a.Y+uy*begin)
			}
			p.Line(a.X+ux*end, a.Y+uy*end)
			on = c[0] == 1
		}
	}
}

// covered are the parts of a stretch over which words stand, in their order, those that
// run into each other as one. They last until the next are asked for.
func (l *netFull) covered(a, b drawing.Point) [][2]float64 {
	out := l.over[:0]
	for _, w := range l.boxes {
		from, to := 0.0, 1.0
		if clip(a.X, b.X-a.X, w.Left-brokenFree, w.Right+brokenFree, &from, &to) && clip(a.Y, b.Y-a.Y, w.Top-brokenFree, w.Bottom+brokenFree, &from, &to) && from < to {
			out = append(out, [2]float64{from, to})
		}
	}
	slices.SortFunc(out, func(x, y [2]float64) int { return cmp.Compare(x[0], y[0]) })
	l.over = out
	merged := out[:0] // which never overtakes what is read
	for _, c := range out {
		if n := len(merged); n > 0 && c[0] <= merged[n-1][1] {
			merged[n-1][1] = max(merged[n-1][1], c[1])
			continue
		}
		merged = append(merged, c)
	}
	return merged
}

// clip narrows the part of a stretch, from its beginning at and going on by, to what lies
// between two values; false where nothing does.
func clip(at, by, low, high float64, from, to *float64) bool {
	if by == 0 {
		return at > low && at < high
	}
	x, y := (low-at)/by, (high-at)/by
	*from, *to = max(*from, min(x, y)), min(*to, max(x, y))
	return *from < *to
}

// onPaper are points of a copy's outline as they lie on paper.
func (d *netDrawing) onPaper(l *sewn.Laid, points []shape.Point) []drawing.Point {
	out := make([]drawing.Point, len(points))
	for i, p := range points {
		out[i].X, out[i].Y = d.f.At(l.At(p))
	}
	return out
}

// folds draws where pieces were cut on the fold.
func (d *netDrawing) folds() {
	for i := range d.s.Joins {
		if j := &d.s.Joins[i]; j.Kind == sewn.Fold {
			if line := d.onDrawing(j.A); len(line) > 1 {
				d.broken(d.Draw(drawing.NetFold), []drawing.Point{line[0], line[len(line)-1]})
			}
		}
	}
}
