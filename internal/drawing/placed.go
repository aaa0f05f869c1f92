package drawing

import "math"

// Placed adds another drawing with its upper left corner at (x, y), so many times as
// large, and standing on its head where turned is said: its corner is then the lower
// right one.
func (d *Drawing) Placed(other *Drawing, x, y, k float64, turned bool) {
	w, h := other.Wide()*k, other.High()*k
	at := func(q Point) Point {
		px, py := (q.X-other.Box.Left)*k, (q.Y-other.Box.Top)*k
		if turned {
			px, py = w-px, h-py
		}
		return Point{X: x + px, Y: y + py}
	}
	for i, m := range other.Marks {
		m.again, m.ID, m.Thick = nil, "", Print.Pen(&m).Weight*k
		if m.Label != nil {
			l := *m.Label
			q := at(Point{X: l.X, Y: l.Y})
			l.X, l.Y, l.Size = q.X, q.Y, l.Size*k
			if turned {
				l.Turn = math.Mod(l.Turn+180, 360)
			}
			m.Label = &l
		}
		p := other.Path(i)
		d.add(m).Ops = append(d.path.Ops, p.Ops...)
		for _, q := range p.Points {
			d.path.Points = append(d.path.Points, at(q))
		}
	}
}
