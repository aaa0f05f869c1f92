package lay

// A square is one of the eight ways to put a square back on itself: quarter
// turns, with or without a mirror. Fields are kept once for all of them,
// since x and y only change places and signs.
type square struct{ a, b, c, d float64 } // x' = ax + by, y' = cx + dy

var squares = [8]square{
	{1, 0, 0, 1}, {0, -1, 1, 0}, {-1, 0, 0, -1}, {0, 1, -1, 0}, // quarter turns
	{1, 0, 0, -1}, {0, 1, 1, 0}, {-1, 0, 0, 1}, {0, -1, -1, 0}, // after y → -y
}

func (s square) apply(x, y float64) (float64, float64) {
	return dot(s.a, s.b, x, y), dot(s.c, s.d, x, y)
}

func (s square) applyAll(pts []Point) []Point {
	out := make([]Point, len(pts))
	for i, p := range pts {
		out[i].X, out[i].Y = s.apply(p.X, p.Y)
	}
	if cross(s.a, s.c, s.b, s.d) < 0 {
		return reversed(out)
	}
	return out
}

// after is s applied after t.
func (s square) after(t square) square {
	return square{
		dot(s.a, s.b, t.a, t.c), dot(s.a, s.b, t.b, t.d),
		dot(s.c, s.d, t.a, t.c), dot(s.c, s.d, t.b, t.d),
	}
}

func (s square) inverse() square { return square{s.a, s.c, s.b, s.d} }

func (s square) negative() square { return square{-s.a, -s.b, -s.c, -s.d} }

func (s square) index() int {
	for i, t := range squares {
		if s == t {
			return i
		}
	}
	return 0
}

// applyBox is the box of the applied box.
func (s square) applyBox(b box) box {
	x0, y0 := s.apply(b.minX, b.minY)
	x1, y1 := s.apply(b.maxX, b.maxY)
	return box{min(x0, x1), min(y0, y1), max(x0, x1), max(y0, y1)}
}
