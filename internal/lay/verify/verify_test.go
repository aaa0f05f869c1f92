package verify_test

import (
	"context"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/peterstace/simplefeatures/geom"

	"hembook/internal/lay"
	"hembook/internal/lay/verify"
)

type point = lay.Point

func ring(xy ...float64) []point {
	var out []point
	for i := 0; i < len(xy); i += 2 {
		out = append(out, point{X: xy[i], Y: xy[i+1]})
	}
	return out
}

func at(pts []point, x, y float64) []point {
	out := make([]point, len(pts))
	for i, q := range pts {
		out[i] = point{X: q.X + x, Y: q.Y + y}
	}
	return out
}

// A square of side 4 and a hook, placed by hand.
var (
	square = ring(0, 0, 4, 0, 4, 4, 0, 4)
	hook   = ring(0, 0, 6, 0, 6, 2, 2, 2, 2, 6, 0, 6)
)

func TestPenetrationByHand(t *testing.T) {
	rows := []struct {
		name string
		a, b []point
		want float64
	}{
		{"apart", square, at(square, 5, 0), 0},
		{"sharing an edge", square, at(square, 4, 0), 0},
		{"sharing a corner", square, at(square, 4, 4), 0},
		{"nested in the hook", hook, at(square, 2, 2), 0},
		{"side in by one", square, at(square, 3, 0), 1},
		{"corner in by a half each way", square, at(square, 3.5, 3.5), 0.5},
		{"in the hook's corner by a quarter", hook, at(square, 1.75, 2), 0.25},
		{"the same place", square, square, 1.5}, // the square's inner point lies within 1.5 and 2 of its border
		{"one inside the other", square, ring(1, 1, 3, 1, 3, 3, 1, 3), 1},
	}
	for _, row := range rows {
		for _, swap := range []bool{false, true} {
			a, b := row.a, row.b
			if swap {
				a, b = b, a
			}
			got := verify.Penetration(a, b)
			if row.name == "the same place" {
				if got < row.want {
					t.Errorf("%s: %g, want at least %g", row.name, got, row.want)
				}
			} else if math.Abs(got-row.want) > 1e-9 && !(row.name == "one inside the other" && got >= row.want) {
				t.Errorf("%s (swapped %v): %g, want %g", row.name, swap, got, row.want)
			}
		}
	}
}

// good is a valid lay of two squares and a hook on cloth 8 wide.
func good() (lay.Problem, lay.Plan) {
	p := lay.Problem{Cloth: lay.Cloth{Width: 8}, Pieces: []lay.Piece{
		{Name: "square", Outline: square, Quantity: 2, Turns: []float64{0, 90}},
		{Name: "hook", Outline: hook, Turns: []float64{0, 180}},
	}}
	plan := lay.Plan{Length: 10, Width: 8, Placements: []lay.Placement{
		{Piece: 1},
		{Piece: 0, Copy: 0, X: 2, Y: 2},
		{Piece: 0, Copy: 1, Turn: 90, X: 10, Y: 2},
	}}
	return p, plan
}

func TestFaultsAreNamed(t *testing.T) {
	rows := []struct {
		name   string
		change func(*lay.Problem, *lay.Plan)
		want   string // empty: no fault
	}{
		{"as it is", func(*lay.Problem, *lay.Plan) {}, ""},
		{"a hair's breadth", func(_ *lay.Problem, q *lay.Plan) { q.Placements[1].X -= 1e-9 }, ""},
		{"overlap", func(_ *lay.Problem, q *lay.Plan) { q.Placements[1].X = 1.9 }, "overlap by 0.1"},
		{"inside another", func(_ *lay.Problem, q *lay.Plan) { q.Placements[1] = lay.Placement{X: 6, Y: 2} }, "overlap"},
		{"off the end", func(_ *lay.Problem, q *lay.Plan) { q.Length = 9.9 }, "leaves the cloth by 0.1"},
		{"off the selvedge", func(_ *lay.Problem, q *lay.Plan) { q.Placements[2].Y = 5 }, "leaves the cloth"},
		{"a turn too many", func(_ *lay.Problem, q *lay.Plan) { q.Placements[1].Turn = 45 }, "turned by 45"},
		{"mirrored", func(_ *lay.Problem, q *lay.Plan) { q.Placements[1].Mirrored = true }, "wrong side"},
		{"one missing", func(_ *lay.Problem, q *lay.Plan) { q.Placements = q.Placements[:2] }, "laid 0 times"},
		{"one twice", func(_ *lay.Problem, q *lay.Plan) { q.Placements[2].Copy = 0 }, "laid 2 times"},
		{"too close", func(p *lay.Problem, _ *lay.Plan) { p.Cloth.Clearance = 0.5 }, "0 apart, not 0.5"},
		{"on a flaw", func(p *lay.Problem, _ *lay.Plan) { p.Cloth.Flaws = [][]point{ring(1, 1, 2, 1, 2, 2)} }, "covers hole or flaw 1"},
		{"off the repeat", func(p *lay.Problem, q *lay.Plan) {
			p.Cloth.RepeatAlong = 3
			q.Placements[2] = lay.Placement{Piece: 0, Copy: 1, X: 6, Y: 2} // 4 beyond the other: 1 off
			p.Ties = []lay.Tie{{A: lay.TiedPoint{Piece: 0}, B: lay.TiedPoint{Piece: 0, Copy: 1}}}
		}, "off the pattern"},
		{"no such piece", func(p *lay.Problem, q *lay.Plan) {
			q.Placements[0].Piece = 7
			p.Cloth.RepeatAlong = 3
		}, "there is no piece 7"},
		{"nowhere", func(_ *lay.Problem, q *lay.Plan) { q.Placements[1].X = math.NaN() }, "a place is not a number"},
		{"endless", func(_ *lay.Problem, q *lay.Plan) { q.Length = math.Inf(1) }, "length is not a number"},
		{"no such fold edge", func(p *lay.Problem, _ *lay.Plan) { p.Pieces[0].OnFold, p.Pieces[0].FoldEdge = true, 99 }, "no edge 99"},
		{"cloth of another width", func(_ *lay.Problem, q *lay.Plan) { q.Width = 50 }, "50 wide"},
		{"a pair on one layer", func(_ *lay.Problem, q *lay.Plan) {
			q.Placements[0].Pair = true
			q.Placements = append(q.Placements[:1], q.Placements[2:]...)
		}, "pair on open cloth"},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			p, plan := good()
			row.change(&p, &plan)
			got := strings.Join(verify.Check(&p, &plan, 1e-6), "; ")
			if row.want == "" && got != "" || !strings.Contains(got, row.want) {
				t.Errorf("got %q, want %q", got, row.want)
			}
		})
	}
}

// area of what two outlines share, by an independent library.
func shared(t *testing.T, a, b []point) float64 {
	t.Helper()
	poly := func(pts []point) geom.Geometry {
		var xy []float64
		for _, q := range append(append([]point(nil), pts...), pts[0]) {
			xy = append(xy, q.X, q.Y)
		}
		return geom.NewPolygon([]geom.LineString{geom.NewLineString(geom.NewSequence(xy, geom.DimXY))}).AsGeometry()
	}
	g, err := geom.Intersection(poly(a), poly(b))
	if err != nil {
		t.Fatal(err)
	}
	return g.Area()
}

func star(rng *rand.Rand, n int) []point {
	var out []point
	for k := range n {
		a := 2 * math.Pi * float64(k) / float64(n)
		r := 2 + 8*rng.Float64()
		out = append(out, point{X: r * math.Cos(a), Y: r * math.Sin(a)})
	}
	return out
}

// Random stars: an area is shared exactly where a depth is measured, and the
// area is never more than the depth allows.
func TestPenetrationAgainstIndependentAreas(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 5))
	apart, over := 0, 0
	for range 600 {
		a, b := star(rng, 9), at(star(rng, 7), 24*rng.Float64()-12, 24*rng.Float64()-12)
		area, depth := shared(t, a, b), verify.Penetration(a, b)
		switch {
		case area > 1e-6 && depth < 1e-6, area < 1e-12 && depth > 1e-6:
			t.Fatalf("shared area %g, depth %g\n%v\n%v", area, depth, a, b)
		case depth > 0:
			over++
		default:
			apart++
		}
	}
	if over < 100 || apart < 100 {
		t.Errorf("%d overlapping and %d separate pairs prove little", over, apart)
	}
}

// Plans of random stars share no area by the independent library either.
func TestPlansAgainstIndependentAreas(t *testing.T) {
	for seed := range uint64(4) {
		rng := rand.New(rand.NewPCG(seed, 9))
		p := lay.Problem{Cloth: lay.Cloth{Width: 40}}
		for range 5 {
			p.Pieces = append(p.Pieces, lay.Piece{Outline: star(rng, 8), Quantity: 2, Mirrored: true, Turns: []float64{0, 90, 180, 37}})
		}
		plan, err := lay.Make(context.Background(), p, lay.Options{Tries: 60_000, Seed: seed})
		if err != nil {
			t.Fatal(err)
		}
		for _, fault := range verify.Check(&p, plan, 1e-6) {
			t.Error(fault)
		}
		for i, q := range plan.Placements {
			for _, r := range plan.Placements[:i] {
				if area := shared(t, p.Placed(q), p.Placed(r)); area > 1e-7 {
					t.Errorf("seed %d: %v and %v share %g", seed, q, r, area)
				}
			}
		}
	}
}

// TestFaultsOfFolds spoils sound plans on folded cloth, each in one way.
func TestFaultsOfFolds(t *testing.T) {
	wedge := ring(0, 0, 4, 0, 4, 1, 0, 3)
	pair := lay.Piece{Name: "pair", Outline: wedge, Quantity: 2, Mirrored: true}
	half := lay.Piece{Name: "half", Outline: ring(0, 0, 4, 0, 4, 3, 0, 3), OnFold: true}
	once := lay.Piece{Name: "once", Outline: square}
	part := lay.Plan{Folding: lay.Folding{Fold: lay.PartWidth, Near: 3}, Length: 8, Width: 9, Placements: []lay.Placement{
		{Piece: 0}, {Piece: 1, Pair: true, X: 4}, {Piece: 2, Y: 3}}}
	across := lay.Plan{Folding: lay.Folding{Fold: lay.Crosswise}, Length: 8, Width: 12, Placements: []lay.Placement{{Piece: 0, Pair: true}}}
	meet := lay.Plan{Folding: lay.Folding{Fold: lay.BothSelvedges, Near: 3, Far: 3}, Length: 4, Width: 6, Placements: []lay.Placement{{Piece: 0}, {Piece: 1, Pair: true, Y: 3}}}
	long := lay.Plan{Folding: lay.Folding{Fold: lay.PartLength, Near: 6, Long: 4}, Length: 8, Width: 12, Placements: []lay.Placement{
		{Piece: 0}, {Piece: 1, Pair: true, Y: 3}, {Piece: 2, X: 4, Y: 8}}}
	rows := []struct {
		name   string
		pieces []lay.Piece
		plan   lay.Plan
		change func(*lay.Problem, *lay.Plan)
		want   string
	}{
		{"part of the width", []lay.Piece{half, pair, once}, part, nil, ""},
		{"a half off the fold", []lay.Piece{half, pair, once}, part, func(_ *lay.Problem, q *lay.Plan) {
			q.Placements[0].Y, q.Near = 1, 4
			q.Width = 8
			q.Placements[2].Y = 4
		}, "fold edge on the fold"},
		{"a pair in a single layer", []lay.Piece{half, pair, once}, part, func(_ *lay.Problem, q *lay.Plan) { q.Placements[1].Y = 3 }, "pair in a single layer"},
		{"over where the fold ends", []lay.Piece{half, pair, once}, part, func(_ *lay.Problem, q *lay.Plan) { q.Placements[2].Y, q.Placements[2].X = 2, 4 }, "within one part"},
		{"folded too deep", []lay.Piece{half, pair, once}, part, func(_ *lay.Problem, q *lay.Plan) { q.Near, q.Width = 7, 5 }, "cannot be folded so"},
		{"on a flaw of the layer below", []lay.Piece{half, pair, once}, part, func(p *lay.Problem, _ *lay.Plan) {
			p.Cloth.Flaws = [][]point{ring(1, 1, 2, 1, 2, 2)} // lies at 1 to 2 from the fold, under the half
		}, "covers hole or flaw 1"},
		{"crosswise", []lay.Piece{pair}, across, nil, ""},
		{"crosswise, one way", []lay.Piece{pair}, across, func(p *lay.Problem, _ *lay.Plan) { p.Cloth.OneWay = true }, "one-way cloth is folded crosswise"},
		{"longer than half the cloth", []lay.Piece{pair}, across, func(_ *lay.Problem, q *lay.Plan) { q.Placements[0].X = 1 }, "leaves the cloth by 1"},
		{"no pair", []lay.Piece{pair}, across, func(p *lay.Problem, _ *lay.Plan) { p.Pieces[0].Mirrored = false }, "no pair"},
		{"both selvedges", []lay.Piece{half, pair}, meet, nil, ""},
		{"where the selvedges meet", []lay.Piece{half, pair}, meet, func(_ *lay.Problem, q *lay.Plan) { q.Placements[1].Y = 2.5 }, "within one part"},
		{"selvedges that do not meet", []lay.Piece{half, pair}, meet, func(_ *lay.Problem, q *lay.Plan) { q.Far = 2 }, "cannot be folded so"},
		{"part of the length", []lay.Piece{half, pair, once}, long, nil, ""},
		{"before the fold ends", []lay.Piece{half, pair, once}, long, func(_ *lay.Problem, q *lay.Plan) { q.Placements[2].X = 3 }, "within one part"},
	}
	for _, row := range rows {
		p, q := lay.Problem{Cloth: lay.Cloth{Width: 12}, Pieces: append([]lay.Piece(nil), row.pieces...)}, row.plan
		q.Placements = append([]lay.Placement(nil), row.plan.Placements...)
		if row.change != nil {
			row.change(&p, &q)
		}
		faults := strings.Join(verify.Check(&p, &q, 1e-6), "; ")
		if row.want == "" && faults != "" || !strings.Contains(faults, row.want) {
			t.Errorf("%s: %q, want %q", row.name, faults, row.want)
		}
	}
}
