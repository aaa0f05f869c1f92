package sewn

import (
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"hembook/internal/shape"
)

// garments are the plates that the properties are held against.
func garments() map[string]Plan {
	front := piece("front", pt(0, 0), "hem", pt(250, 0), "side", curve(pt(240, 100), pt(238, 200), pt(250, 300)), "armhole", curve(pt(200, 300), pt(165, 400), pt(180, 500)), "shoulder", pt(80, 540), "neck", curve(pt(70, 480), pt(40, 450), pt(0, 450)), "fold", pt(0, 0)).at("chest", 300).at("waist", 120)
	back := piece("back", pt(0, 0), "hem", pt(250, 0), "side", curve(pt(240, 100), pt(238, 200), pt(250, 300)), "armhole", curve(pt(215, 300), pt(185, 420), pt(190, 510)), "shoulder", pt(80, 545), "neck", pt(0, 520), "fold", pt(0, 0)).at("chest", 300).at("waist", 120)
	sleeve := piece("sleeve", pt(-130, 0), "wrist", pt(130, 0), "seam right", pt(200, 430), "cap front", curve(pt(130, 440), pt(90, 590), pt(0, 590)), "cap back", curve(pt(-90, 590), pt(-140, 440), pt(-200, 430)), "seam left", pt(-130, 0)).
		pairs(2).at("upper arm", 420)
	shirt := bodice(front, back)
	shirt.Pieces = append(shirt.Pieces, sleeve)
	shirt.Seams = append(shirt.Seams, seam("sleeves", "sleeve.seam right", "sleeve.seam left"), seam("armholes", "sleeve.cap front + sleeve.cap back", "front.armhole + back.armhole").full())
	dress := lined(bodice(bodiceHalf("front").dart("waist", 120, 24, 90).dart("side", 150, 10, 80).at("bust", 150), bodiceHalf("back").dart("waist", 110, 24, 90).at("bust", 150)))
	trousers := trousers()
	trousers.Closures = []Closure{zip("front.rise", 160)}
	trousers.Pieces = append(trousers.Pieces, box("band", 830, 40))
	trousers.Seams = append(trousers.Seams, seam("band", "band.bottom", "front.waist + back.waist").overlaps(30))
	whole := piece("front", pt(-300, 0), "hem", pt(300, 0), "right", pt(220, 800), "top", pt(-200, 800), "left", pt(-300, 0)).at("bust", 700)
	return map[string]Plan{
		"shirt": shirt, "dress": dress, "trousers": trousers,
		"bag":    plan(box("front", 400, 500), box("back", 400, 500), seam("bottom", "front.bottom", "back.bottom"), seam("side", "front.right", "back.left"), seam("left side", "front.left", "back.right")),
		"slip":   plan(whole, whole.called("back"), seam("right side", "front.right", "back.right"), seam("left side", "front.left", "back.left")),
		"panels": plan(box("panel", 100, 700).times(5).at("hip", 500), box("band", 500, 40), seam("seams", "panel.right", "panel.left"), seam("band", "band.left", "band.right"), seam("waist", "band.bottom", "panel.top")),
	}
}

// told is all that a surface tells of girths, lengths and openings.
func told(p Plan) string {
	s, questions, faults := Build(p)
	var b strings.Builder
	for _, layer := range s.Layers() {
		for _, level := range s.Levels(layer) {
			var list []string
			for _, g := range s.Walk(level, layer) {
				list = append(list, fmt.Sprintf("%.3f %v %v", g.Length+1e-9, g.Closed, g.Behind))
			}
			slices.Sort(list)
			fmt.Fprintln(&b, layer, level, list)
		}
		for _, closed := range []bool{true, false} {
			var list []string
			for _, l := range s.Loops(layer, closed) {
				list = append(list, fmt.Sprintf("%.3f", l.Length+1e-9))
			}
			slices.Sort(list)
			fmt.Fprintln(&b, layer, "openings", list)
		}
	}
	area := 0.0
	for _, c := range s.components() {
		area += c.Area
	}
	fmt.Fprintf(&b, "area %.2f, %d questions, %d faults\n", area, len(questions), len(faults))
	return b.String()
}

// dump is a surface to the last byte.
func dump(p Plan) string {
	s, questions, faults := Build(p)
	var b strings.Builder
	for i := range s.Copies {
		fmt.Fprintf(&b, "%+v\n", s.Copies[i])
	}
	for i := range s.Sides {
		fmt.Fprintf(&b, "%+v\n", s.Sides[i])
	}
	fmt.Fprintf(&b, "%+v\n%+v\n%+v\n", s.Joins, questions, faults)
	for _, layer := range s.Layers() {
		fmt.Fprintf(&b, "%+v\n", s.Loops(layer, true))
		for _, level := range s.Levels(layer) {
			fmt.Fprintf(&b, "%+v\n", s.Walk(level, layer))
		}
	}
	return b.String()
}

func TestOrderChangesNothing(t *testing.T) {
	for name, p := range garments() {
		want := dump(p)
		rng := rand.New(rand.NewPCG(7, 7))
		for range 12 {
			q := Plan{Pieces: slices.Clone(p.Pieces), Seams: slices.Clone(p.Seams), Closures: slices.Clone(p.Closures)}
			rng.Shuffle(len(q.Pieces), func(i, j int) { q.Pieces[i], q.Pieces[j] = q.Pieces[j], q.Pieces[i] })
			rng.Shuffle(len(q.Seams), func(i, j int) { q.Seams[i], q.Seams[j] = q.Seams[j], q.Seams[i] })
			for i := range q.Seams {
				if s := &q.Seams[i]; s.Overlap == 0 && rng.IntN(2) == 0 {
					s.Sides = [][]EdgeRef{s.Sides[1], s.Sides[0]}
				}
			}
			if got := dump(q); got != want {
				t.Fatalf("%s: shuffled, it comes out otherwise:\n%s\n%s", name, want, got)
			}
		}
	}
}

func TestWhereAnOutlineBeginsChangesNothing(t *testing.T) {
	for name, p := range garments() {
		want := told(p)
		for shift := 1; shift < 5; shift++ {
			q := p
			q.Pieces = slices.Clone(p.Pieces)
			for i := range q.Pieces {
				o := &q.Pieces[i].Outline
				by := shift % len(o.Edges)
				*o = shape.Outline{From: o.Start(by), Edges: append(slices.Clone(o.Edges[by:]), o.Edges[:by]...)}
			}
			if got := told(q); got != want {
				t.Errorf("%s, begun %d edges later:\n%s\n%s", name, shift, want, got)
			}
		}
	}
}

func TestMirroringChangesNothing(t *testing.T) {
	for name, p := range garments() {
		want := told(p)
		q := p
		q.Pieces = slices.Clone(p.Pieces)
		for i := range q.Pieces {
			mirror(&q.Pieces[i])
		}
		if got := told(q); got != want {
			t.Errorf("%s, mirrored:\n%s\n%s", name, want, got)
		}
	}
}

// mirror draws a piece from its other side.
func mirror(p *Piece) {
	flip := func(q shape.Point) shape.Point { return shape.Point{X: -q.X, Y: q.Y} }
	p.Darts = slices.Clone(p.Darts)
	for i := range p.Darts {
		d := &p.Darts[i]
		length, _ := p.Outline.LengthOf(d.Edge)
		d.From, d.To = length-d.To, length-d.From
		d.Begin, d.End, d.Point = flip(d.End), flip(d.Begin), flip(d.Point)
	}
	p.Outline = p.Outline.Mirrored()
	p.Levels = slices.Clone(p.Levels)
	for i := range p.Levels {
		p.Levels[i].Corners = Corners(p.Outline, p.Levels[i].Y) // named by the edges that begin there now
	}
}

// cutLine says where a piece of a plan is cut in two: from so far along one edge
// to so far along another, in parts of their length.
type cutLine struct {
	piece    string
	from, to string
	a, b     float64
}

func TestCuttingInTwoChangesNothing(t *testing.T) {
	lines := map[string][]cutLine{
		"shirt":    {{"front", "side", "fold", 0.6, 0.5}, {"front", "hem", "shoulder", 0.5, 0.5}, {"back", "side", "fold", 0.3, 0.8}, {"back", "hem", "shoulder", 0.4, 0.6}, {"sleeve", "wrist", "cap back", 0.5, 0.01}, {"sleeve", "seam right", "seam left", 0.5, 0.5}},
		"dress":    {{"front", "armhole", "fold", 0.5, 0.2}, {"back", "armhole", "fold", 0.5, 0.25}, {"back", "waist", "shoulder", 0.8, 0.5}},
		"trousers": {{"back", "side", "inseam", 0.3, 0.7}, {"back", "hem", "waist", 0.5, 0.5}, {"back", "side", "rise", 0.9, 0.3}},
		"slip":     {{"front", "right", "left", 0.5, 0.5}, {"back", "hem", "top", 0.5, 0.5}},
		"panels":   {{"panel", "right", "left", 0.5, 0.5}, {"band", "bottom", "top", 0.43, 0.57}},
	}
	plans := garments()
	tried := 0
	for name, list := range lines {
		for _, line := range list {
			want := told(plans[name])
			q := cutInTwo(t, plans[name], line)
			s, _, _ := Build(q)
			sound(t, s)
			if got := told(q); got != want {
				t.Errorf("%s, %s cut from %s to %s:\n%s\n%s", name, line.piece, line.from, line.to, want, got)
			}
			tried++
		}
	}
	if tried < 15 {
		t.Errorf("only %d cuts were tried", tried)
	}
}

// cutInTwo cuts a piece in two along a straight line and sews it together again.
// What was sewn to an edge that is cut is sewn to both parts end to end.
func cutInTwo(t *testing.T, p Plan, line cutLine) Plan {
	t.Helper()
	out := Plan{Closures: p.Closures}
	at := slices.IndexFunc(p.Pieces, func(q Piece) bool { return q.Name == line.piece })
	old := p.Pieces[at]
	one, two, split := parts(t, old, line)
	for i, q := range p.Pieces {
		if i != at {
			out.Pieces = append(out.Pieces, q)
		}
	}
	out.Pieces = append(out.Pieces, one, two)
	has := func(p *Piece, edge string) bool {
		return slices.ContainsFunc(p.Outline.Edges, func(e shape.Edge) bool { return e.Name == edge })
	}
	for _, s := range p.Seams {
		s.Sides = slices.Clone(s.Sides)
		for k := range s.Sides {
			var list []EdgeRef
			for _, r := range s.Sides[k] {
				if r.Piece != line.piece {
					list = append(list, r)
					continue
				}
				for _, part := range split(r.Edge) {
					if has(part, r.Edge) {
						list = append(list, EdgeRef{Piece: part.Name, Edge: r.Edge})
					}
				}
			}
			s.Sides[k] = list
		}
		out.Seams = append(out.Seams, s)
	}
	out.Seams = append(out.Seams, seam("joined again", one.Name+".cut", two.Name+".cut"))
	for i := range out.Closures {
		if c := &out.Closures[i]; c.Edge.Piece == line.piece {
			t.Fatal("a zip lies on the piece that is cut")
		}
	}
	return out
}

// parts are the two parts of a piece that is cut; split lists the parts that
// have a piece of an edge, in its order.
func parts(t *testing.T, p Piece, line cutLine) (one, two Piece, split func(edge string) []*Piece) {
	t.Helper()
	o := p.Outline
	for _, c := range []struct {
		edge string
		part float64
	}{{line.from, line.a}, {line.to, line.b}} {
		i := slices.IndexFunc(o.Edges, func(e shape.Edge) bool { return e.Name == c.edge })
		o = o.Split(i, o.EdgeLength(i)*c.part, c.edge, c.edge+"|")
	}
	// The outline runs from the cut in the first edge to that in the second, and
	// on to the first again.
	index := func(name string) int {
		return slices.IndexFunc(o.Edges, func(e shape.Edge) bool { return e.Name == name })
	}
	n := len(o.Edges)
	take := func(from, to int) shape.Outline { // edges from … to, then the cut
		out := shape.Outline{From: o.Start(from)}
		for i := from; ; i = (i + 1) % n {
			e := o.Edges[i]
			e.Name = strings.TrimSuffix(e.Name, "|")
			out.Edges = append(out.Edges, e)
			if i == to {
				break
			}
		}
		out.Edges = append(out.Edges, shape.Edge{Name: "cut", To: out.From})
		return out
	}
	first, second := p, p
	first.Name, second.Name = p.Name+" one", p.Name+" two"
	first.Outline = take(index(line.from+"|"), index(line.to))
	second.Outline = take(index(line.to+"|"), index(line.from))
	for _, q := range []*Piece{&first, &second} {
		q.OnFold = slices.ContainsFunc(q.Outline.Edges, func(e shape.Edge) bool { return e.Fold })
		if p.OnFold && !q.OnFold { // what is cut off a half is cut twice
			q.Count, q.Mirrored = 2*p.Count, true
		}
		var darts []Dart
		for _, d := range q.Darts {
			if q.Outline.Contains(d.Point) {
				darts = append(darts, reset(q.Outline, p.Outline, d))
			}
		}
		q.Darts = darts
	}
	return first, second, func(edge string) []*Piece {
		if edge == line.to {
			return []*Piece{&first, &second}
		}
		return []*Piece{&second, &first} // of the first edge the second part comes last
	}
}

// reset measures a dart's mouth anew along its edge, of which a part was cut off.
func reset(now, was shape.Outline, d Dart) Dart {
	a, _ := now.LengthOf(d.Edge)
	b, _ := was.LengthOf(d.Edge)
	i := slices.IndexFunc(now.Edges, func(e shape.Edge) bool { return e.Name == d.Edge })
	if old := slices.IndexFunc(was.Edges, func(e shape.Edge) bool { return e.Name == d.Edge }); now.Start(i) != was.Start(old) {
		d.From, d.To = d.From-(b-a), d.To-(b-a)
	}
	return d
}

func BenchmarkBuild(b *testing.B) {
	// Twelve pieces: the shirt with collar, band, cuffs and a lining.
	p := garments()["shirt"]
	p.Pieces = append(p.Pieces, box("cuff", 260, 60).pairs(2), box("cuff facing", 260, 60).pairs(2), box("pocket", 120, 140))
	for _, q := range slices.Clone(p.Pieces) {
		p.Pieces = append(p.Pieces, q.called(q.Name+" lining").like(q.Name).in("lining"))
	}
	p.Seams = append(p.Seams, seam("cuffs", "cuff.left", "cuff.right"), seam("cuffs on", "cuff.top", "sleeve.wrist"), seam("edges", "cuff.bottom", "cuff facing.bottom").turns(),
		seam("lining sides", "front lining.side", "back lining.side"), seam("lining shoulders", "front lining.shoulder", "back lining.shoulder"), seam("lining sleeves", "sleeve lining.seam right", "sleeve lining.seam left"),
		seam("lining armholes", "sleeve lining.cap front + sleeve lining.cap back", "front lining.armhole + back lining.armhole").full(),
		seam("neck", "front.neck + back.neck", "front lining.neck + back lining.neck").turns())
	if n := len(p.Pieces); n != 12 {
		b.Fatalf("%d pieces", n)
	}
	for b.Loop() {
		Build(p)
	}
}
