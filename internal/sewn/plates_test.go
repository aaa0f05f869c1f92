package sewn

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"hembook/internal/shape"
)

// piece is a piece of the shell cut once, its outline given by corners and
// names of edges in turn.
func piece(name string, edges ...any) Piece {
	p := Piece{Name: name, Count: 1, Layers: []string{"shell"}}
	p.Outline.From = edges[0].(shape.Point)
	for i := 1; i < len(edges); i += 2 {
		e := shape.Edge{Name: edges[i].(string)}
		switch to := edges[i+1].(type) {
		case shape.Point:
			e.To = to
		case [3]shape.Point:
			e.C1, e.C2, e.To, e.Curved = to[0], to[1], to[2], true
		}
		if e.Name == "fold" {
			e.Fold, p.OnFold = true, true
		}
		p.Outline.Edges = append(p.Outline.Edges, e)
	}
	return p
}

func pt(x, y float64) shape.Point { return shape.Point{X: x, Y: y} }

// box is a rectangle with edges bottom, right, top and left.
func box(name string, wide, high float64) Piece {
	return piece(name, pt(0, 0), "bottom", pt(wide, 0), "right", pt(wide, high), "top", pt(0, high), "left", pt(0, 0))
}

func (p Piece) times(n int) Piece         { p.Count = n; return p }
func (p Piece) pairs(n int) Piece         { p.Count, p.Mirrored = n, true; return p }
func (p Piece) in(layers ...string) Piece { p.Layers = layers; return p }
func (p Piece) like(other string) Piece   { p.Like = other; return p }
func (p Piece) at(level string, y float64) Piece {
	p.Levels = append(slices.Clip(p.Levels), Level{Name: level, Y: y, Corners: Corners(p.Outline, y)})
	return p
}
func (p Piece) edge(e Edge) Piece              { p.Edges = append(slices.Clip(p.Edges), e); return p }
func (p Piece) level(edge, level string) Piece { return p.edge(Edge{Name: edge, Level: level}) }
func (p Piece) called(name string) Piece       { p.Name = name; return p }

// dart opens on an edge, wide about a place along it, so deep.
func (p Piece) dart(edge string, at, wide, deep float64) Piece {
	plan, err := shape.Dart{Edge: edge, At: at, Width: wide, Length: deep}.Plan(p.Outline)
	if err != nil {
		panic(err)
	}
	p.Darts = append(slices.Clip(p.Darts), Dart{Edge: edge, From: at - wide/2, To: at + wide/2, Begin: plan.Begin, End: plan.End, Point: plan.Point})
	return p
}

// seam joins edges written "piece.edge", several to a side with + between; with ↑ of the
// copy that lies as drawn alone, with ↓ of its mirror image.
func seam(name string, sides ...string) Seam {
	s := Seam{Name: name}
	for _, side := range sides {
		var list []EdgeRef
		for _, r := range strings.Split(side, " + ") {
			p, e, _ := strings.Cut(strings.TrimSuffix(strings.TrimSuffix(r, " ↑"), " ↓"), ".")
			hand := int8(0)
			switch {
			case strings.HasSuffix(r, " ↑"):
				hand = 1
			case strings.HasSuffix(r, " ↓"):
				hand = -1
			}
			list = append(list, EdgeRef{p, e, hand})
		}
		s.Sides = append(s.Sides, list)
	}
	return s
}

func (s Seam) turns() Seam              { s.Turns = true; return s }
func (s Seam) full() Seam               { s.Full = true; return s }
func (s Seam) overlaps(by float64) Seam { s.Overlap = by; return s }

func zip(edge string, length float64) Closure {
	p, e, _ := strings.Cut(edge, ".")
	return Closure{Name: "zip", Edge: EdgeRef{Piece: p, Edge: e}, Length: length}
}

// plan puts pieces, seams and closures in one.
func plan(parts ...any) Plan {
	var p Plan
	for _, x := range parts {
		switch x := x.(type) {
		case Piece:
			p.Pieces = append(p.Pieces, x)
		case Seam:
			p.Seams = append(p.Seams, x)
		case Closure:
			p.Closures = append(p.Closures, x)
		}
	}
	return p
}

// clean builds a plan that leaves nothing open, and holds the surface against
// what must be true of every one.
func clean(t *testing.T, p Plan) *Surface {
	t.Helper()
	s, questions, faults := Build(p)
	if len(questions) > 0 || len(faults) > 0 {
		t.Errorf("questions %v, faults %v", questions, faults)
	}
	sound(t, s)
	return s
}

// girths tells how far round a level goes, each way that does not lie behind:
// "960 closed".
func girths(s *Surface, level string) []string {
	var out []string
	for _, g := range s.Walk(level, "shell") {
		if !g.Behind {
			how := "open"
			if g.Closed {
				how = "closed"
			}
			out = append(out, fmt.Sprintf("%.2f %s", g.Length, how))
		}
	}
	slices.Sort(out)
	return out
}

// openings are the lengths of the loops, zips open, least first.
func openings(s *Surface, layer string) []string {
	var out []string
	for _, l := range s.Loops(layer, false) {
		out = append(out, fmt.Sprintf("%.2f", l.Length))
	}
	slices.Sort(out)
	return out
}

func want(t *testing.T, what string, got []string, wanted ...string) {
	t.Helper()
	if !slices.Equal(got, wanted) {
		t.Errorf("%s: %v, not %v", what, got, wanted)
	}
}

// sound holds a surface against what must be true of every one: each place of a
// side is joined once in its layer, what meets is of one layer, and each
// component with its openings shut is a sphere (V − E + F = 2).
func sound(t *testing.T, s *Surface) {
	t.Helper()
	for id := range s.Sides {
		at := -1.0
		for _, st := range s.taken(SideID(id), nil) {
			if st.From < at-1e-3 {
				t.Errorf("%s.%s is joined twice at %.2f", s.Copies[s.Sides[id].Copy].Name, s.Sides[id].Edge, st.From)
			}
			if st.From < -1e-3 || st.To > s.Sides[id].Closed+1e-3 {
				t.Errorf("a join of %s lies beyond it: %v", s.Sides[id].Edge, st)
			}
			at = st.To
		}
	}
	for i := range s.Joins {
		j := &s.Joins[i]
		if a, b := s.Copies[s.Sides[j.A.Side].Copy], s.Copies[s.Sides[j.B.Side].Copy]; j.Kind.surface() && a.Layer != b.Layer {
			t.Errorf("a seam joins %s to %s", a.Layer, b.Layer)
		}
	}
	for _, c := range s.components() {
		if n := euler(s, &c); n != 2 {
			t.Errorf("the part of %s has V − E + F = %d with its openings shut, not 2", s.Copies[c.Copies[0]].Name, n)
		}
	}
}

// euler is V − E + F of a component with its openings shut. Edges are counted
// as the stretches between all places where a join begins or ends.
func euler(s *Surface, c *component) int {
	in := map[CopyID]bool{}
	for _, id := range c.Copies {
		in[id] = true
	}
	type corner struct {
		side SideID
		at   int
	}
	key := func(id SideID, at float64) corner {
		if at >= s.Sides[id].Closed-1e-3 {
			id, at = s.next(id), 0
		}
		return corner{id, int(math.Round(at * 100))}
	}
	number := map[corner]int{}
	var up []int
	of := func(k corner) int {
		n, ok := number[k]
		if !ok {
			n = len(up)
			number[k], up = n, append(up, n)
		}
		for up[n] != n {
			n = up[n]
		}
		return n
	}
	edges := 0
	for id := range s.Sides {
		if !in[s.Sides[id].Copy] {
			continue
		}
		of(key(SideID(id), 0))
		open := func(j JoinID) bool { return s.Joins[j].Kind == Closing }
		for _, st := range s.taken(SideID(id), open) {
			of(key(SideID(id), st.From))
			of(key(SideID(id), st.To))
			edges++ // counted from both sides
		}
	}
	edges /= 2
	for i := range s.Joins {
		j := &s.Joins[i]
		if j.Kind.surface() && in[s.Sides[j.A.Side].Copy] {
			a, b := of(key(j.A.Side, j.A.From)), of(key(j.B.Side, j.B.To))
			up[max(a, b)] = min(a, b)
			a, b = of(key(j.A.Side, j.A.To)), of(key(j.B.Side, j.B.From))
			up[max(a, b)] = min(a, b)
		}
	}
	loops := 0
	for _, l := range s.Loops(s.Copies[c.Copies[0]].Layer, false) {
		if in[s.Sides[l.Spans[0].Side].Copy] {
			loops++
			edges += len(l.Spans)
		}
	}
	vertices := 0
	for n := range up {
		if up[n] == n {
			vertices++
		}
	}
	return vertices - edges + len(c.Copies) + loops
}

func TestTube(t *testing.T) {
	// A strip 800 wide joined to itself: one way round, two openings of 800.
	s := clean(t, plan(box("tube", 800, 300).at("hip", 120), seam("back", "tube.right", "tube.left")))
	want(t, "hip", girths(s, "hip"), "800.00 closed")
	want(t, "openings", openings(s, "shell"), "800.00", "800.00")
}

func TestTwoPanels(t *testing.T) {
	// Front and back, each half of 240 on the fold, sides joined: 4 × 240.
	half := piece("front", pt(0, 0), "hem", pt(240, 0), "side", pt(240, 600), "waist", pt(0, 600), "fold", pt(0, 0)).at("hip", 400)
	s := clean(t, plan(half, half.called("back"), seam("sides", "front.side", "back.side")))
	want(t, "hip", girths(s, "hip"), "960.00 closed")
	want(t, "openings", openings(s, "shell"), "960.00", "960.00")
}

func TestPanels(t *testing.T) {
	// n panels of 100, right to left, the last to the first.
	for _, n := range []int{3, 4, 7, 12} {
		s := clean(t, plan(box("panel", 100, 700).times(n).at("hip", 500), seam("seams", "panel.right", "panel.left")))
		want(t, fmt.Sprint(n, " panels"), girths(s, "hip"), fmt.Sprintf("%d.00 closed", 100*n))
		want(t, "openings", openings(s, "shell"), fmt.Sprintf("%d.00", 100*n), fmt.Sprintf("%d.00", 100*n))
	}
}

func TestCone(t *testing.T) {
	// A ring of three quarters of a turn in three panels, waist 700, length 500:
	// inner radius 700 ÷ (2π · 3/4) = 148.545, so 200 below the waist
	// 2π · 3/4 · 348.545 = 1642.48, and at the hem 3056.19. Openings: 700 and
	// 3056.19.
	ring, err := shape.NewRingSkirt(0.75, 700, 500, 3)
	if err != nil {
		t.Fatal(err)
	}
	panel := Piece{Name: "skirt", Count: 3, Layers: []string{"shell"}, Outline: ring.Panel, Arc: ring.PanelAngle}
	s := clean(t, plan(panel.at("hip", -348.545).level("hem", "hem"), seam("seams", "skirt.right", "skirt.left")))
	want(t, "hip", girths(s, "hip"), "1642.48 closed")
	want(t, "hem", girths(s, "hem"), "3056.19 closed")
	want(t, "openings", openings(s, "shell"), "3056.19", "700.00")
}
