package shape

import "testing"

// A line through the middle of a side, square to it, turns an outline onto itself
// or does not: what is drawn here can be folded in paper.
func TestOwnImages(t *testing.T) {
	ring := func(points ...Point) Outline {
		o := Outline{From: points[0]}
		for i := range points {
			o.Edges = append(o.Edges, Edge{To: points[(i+1)%len(points)]})
		}
		return o
	}
	square := ring(Point{0, 0}, Point{10, 0}, Point{10, 20}, Point{0, 20})
	bent := square
	bent.Edges = append([]Edge(nil), square.Edges...)
	bent.Edges[1].Curved, bent.Edges[1].C1, bent.Edges[1].C2 = true, Point{14, 5}, Point{14, 15}
	leaning := bent
	leaning.Edges = append([]Edge(nil), bent.Edges...)
	leaning.Edges[1].C2 = Point{12, 15}
	for name, c := range map[string]struct {
		o    Outline
		onto [][]int
	}{
		"rectangle":              {square, [][]int{{0, 3, 2, 1}, {2, 1, 0, 3}}}, // left for right, bottom for top
		"bent on one side":       {bent, [][]int{{2, 1, 0, 3}}},
		"bent towards one end":   {leaning, nil},
		"flared":                 {ring(Point{0, 0}, Point{30, 0}, Point{20, 20}, Point{10, 20}), [][]int{{0, 3, 2, 1}}},
		"leaning":                {ring(Point{0, 0}, Point{30, 0}, Point{25, 20}, Point{10, 20}), nil},
		"leaning by a hundredth": {ring(Point{0, 0}, Point{30, 0}, Point{20.009, 20}, Point{10, 20}), [][]int{{0, 3, 2, 1}}},
		"parallelogram":          {ring(Point{0, 0}, Point{30, 0}, Point{40, 20}, Point{10, 20}), nil}, // turned, it is itself; mirrored it is not
	} {
		got := c.o.OwnImages()
		if len(got) != len(c.onto) {
			t.Errorf("%s: %v, want %v", name, got, c.onto)
			continue
		}
		for i := range got {
			for k := range got[i].Onto {
				if got[i].Onto[k] != c.onto[i][k] {
					t.Errorf("%s: %v, want %v", name, got, c.onto)
				}
			}
		}
	}
}
