package lay

import (
	"math"
	"math/rand/v2"
	"testing"
)

// hook is an L with a slot, so that its fields have slits and hollows.
var hook = []Point{{0, 0}, {6, 0}, {6, 1.5}, {2, 1.5}, {2, 3}, {5, 3}, {5, 4}, {2, 4}, {2, 6}, {0, 6}}
var blade = []Point{{-1, -0.5}, {2, -0.75}, {3, 0}, {2, 0.75}, {-1, 0.5}, {-2, 0}}

func TestFieldAgreesWithTheSlowAnswer(t *testing.T) {
	for _, cells := range []int{16, 40} {
		for _, gap := range []float64{0, 0.2} {
			f := newField(convexParts(blade), convexParts(hook), gap, cells)
			rng := rand.New(rand.NewPCG(1, uint64(cells)))
			inside := 0
			for range 20_000 {
				x := f.box.minX + rng.Float64()*f.box.width()
				y := f.box.minY + rng.Float64()*f.box.height()
				want, got := f.exactDepth(x, y), f.depth(x, y)
				if want > 0 {
					inside++
				}
				if (want == 0) != (got == 0) {
					t.Fatalf("at (%g, %g): depth %g, want %g", x, y, got, want)
				}
				if math.Abs(want-got) > f.h { // interpolation may cut a ridge
					t.Fatalf("at (%g, %g): depth %g, want %g", x, y, got, want)
				}
			}
			if inside < 1000 {
				t.Fatalf("only %d places inside", inside)
			}
		}
	}
}

// Two unit squares at distance d along x overlap by 1-d, whichever way the
// field is asked.
func TestDepthOfSquares(t *testing.T) {
	unit := [][]Point{{{0, 0}, {1, 0}, {1, 1}, {0, 1}}}
	f := newField(unit, unit, 0, 32)
	for _, row := range []struct{ x, y, want float64 }{
		{0.75, 0, 0.25}, {0, -0.9, 0.1}, {1, 0, 0}, {-1, 0.3, 0}, {1, 1, 0}, {0.875, 0.5, 0.125},
	} {
		if got := f.exactDepth(row.x, row.y); math.Abs(got-row.want) > 1e-12 {
			t.Errorf("depth at (%g, %g) is %g, want %g", row.x, row.y, got, row.want)
		}
	}
}

// A square in a slot of its own width may slide in and out: the slit.
func TestExactSlotStaysOpen(t *testing.T) {
	comb := []Point{{0, 0}, {3, 0}, {3, 2}, {2, 2}, {2, 1}, {1, 1}, {1, 2}, {0, 2}}
	f := newField([][]Point{{{0, 0}, {1, 0}, {1, 1}, {0, 1}}}, convexParts(comb), 0, 40)
	for _, y := range []float64{1, 1.25, 1.9} {
		if d := f.depth(1, y); d != 0 {
			t.Errorf("the slot is shut at height %g by %g", y, d)
		}
		if d := f.depth(1.01, y); math.Abs(d-0.01) > 1e-9 {
			t.Errorf("beside the slot the depth is %g, want 0.01", d)
		}
	}
}

// All eight ways a pair can be turned and mirrored must read the same field
// as the outlines themselves.
func TestFieldsAreSharedRightly(t *testing.T) {
	p := Problem{Cloth: Cloth{Width: 10, Reversible: true}, Pieces: []Piece{
		{Outline: hook, Turns: []float64{0, 90, 180, 270, 30, 200}},
		{Outline: []Point{{0, 0}, {3, 0}, {1, 2}}, Turns: []float64{0, 90, 180, 270, 30}}}}
	m, err := newModel(&p, bed{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	partsOf := func(s *shape) [][]Point {
		var out [][]Point
		for _, q := range m.bases[s.base].parts {
			out = append(out, s.way.applyAll(q))
		}
		return out
	}
	rng := rand.New(rand.NewPCG(3, 3))
	for range 400 {
		a, b := rng.IntN(len(m.shapes)), rng.IntN(len(m.shapes))
		s, r := &m.shapes[a], &m.shapes[b]
		direct := newField(partsOf(s), partsOf(r), 0, 16)
		dx, dy := rng.Float64()-0.5, rng.Float64()-0.5
		want := direct.exactDepth(dx, dy)
		got := m.depthAt(s.base, s.way, r.base, r.way, dx, dy)
		if math.Abs(want-got) > 0.05 || (want == 0) != (got == 0) && math.Max(want, got) > 1e-9 {
			t.Fatalf("%+v against %+v at (%g, %g): depth %g, want %g", s, r, dx, dy, got, want)
		}
	}
}

func BenchmarkPriceAt(b *testing.B) {
	var p Problem
	p.Cloth.Width = 20
	p.Pieces = []Piece{{Outline: hook, Quantity: 10}, {Outline: blade, Quantity: 10}}
	m, err := newModel(&p, bed{}, nil)
	if err != nil {
		b.Fatal(err)
	}
	at := start(m, m.items, nil, -1)
	bd := newBoard(m, m.items, nil, 1)
	bd.set(at, usedBy(m, at)*0.9)
	h := bd.hoodOf(0, 0)
	b.ReportAllocs()
	for b.Loop() {
		bd.priceAt(h, bd.rng.within(h.domain.minX, h.domain.maxX), bd.rng.within(h.domain.minY, h.domain.maxY), math.Inf(1))
	}
}

func BenchmarkNewField(b *testing.B) {
	for b.Loop() {
		newField(convexParts(blade), convexParts(hook), 0, 40)
	}
}

// The linear programme on a case solved by hand: least x+2y with x+y ≥ 3,
// y ≥ 1, x ≤ 1.5 is x = 1.5, y = 1.5.
func TestProgrammeByHand(t *testing.T) {
	p := program{cost: []float64{1, 2}, lo: []float64{0, 1}, hi: []float64{1.5, 10},
		rows: []programRow{{term: []term{{0, 1}, {1, 1}}, bound: 3}}}
	z, _ := p.solve(50)
	if z == nil || math.Abs(z[0]-1.5) > 1e-12 || math.Abs(z[1]-1.5) > 1e-12 {
		t.Errorf("got %v, want [1.5 1.5]", z)
	}
	p.hi[1] = 1
	if z, _ := p.solve(50); z != nil {
		t.Errorf("got %v for a programme without solution", z)
	}
}

func TestMovesDoNotAllocate(t *testing.T) {
	var p Problem
	p.Cloth.Width = 20
	p.Pieces = []Piece{{Outline: hook, Quantity: 6}, {Outline: blade, Quantity: 6}}
	m, err := newModel(&p, bed{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	at := start(m, m.items, nil, -1)
	b := newBoard(m, m.items, nil, 1)
	b.set(at, usedBy(m, at)*0.8)
	for range 50 {
		b.pass()
	}
	if n := testing.AllocsPerRun(20, b.pass); n > 0 {
		t.Errorf("a pass allocates %g times", n)
	}
}

func newField(moving, fixed [][]Point, clearance float64, cells int) *field {
	f := partsField(moving, fixed, clearance)
	f.fill(cells)
	return f
}

// exactDepth is the slow, obvious answer.
func (f *field) exactDepth(x, y float64) float64 {
	for i := range f.parts {
		if f.parts[i].inside(x, y) > tolerance {
			return f.toBorder(x, y)
		}
	}
	return 0
}

func (f *field) toBorder(x, y float64) float64 {
	best := math.Inf(1)
	for i := range f.borders {
		if d := f.borders[i].dist2(x, y); d < best {
			best = d
		}
	}
	return math.Sqrt(best)
}
