package drawing

// Rows lays drawings side by side without touching, in rows of about the width
// given, and says where the (0, 0) of each lies on a sheet and how large that
// is.
func Rows(list []*Drawing, wide, gap float64) (at []Point, w, h float64) {
	x, y, row := gap, gap, 0.0
	for _, d := range list {
		if x > gap && x+d.Wide()+gap > wide {
			x, y, row = gap, y+row+gap, 0
		}
		at = append(at, Point{X: x - d.Box.Left, Y: y - d.Box.Top})
		x += d.Wide() + gap
		row, w = max(row, d.High()), max(w, x)
	}
	return at, w, y + row + gap
}
