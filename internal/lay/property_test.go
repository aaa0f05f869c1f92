package lay_test

import (
	"context"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"hembook/internal/lay"
)

// garment is an invented blouse: curved pieces such as a maker would cut.
func garment(curve int) []lay.Piece {
	arc := func(cx, cy, rx, ry, from, to float64) []lay.Point {
		var out []lay.Point
		for k := 0; k <= curve; k++ {
			a := (from + (to-from)*float64(k)/float64(curve)) * math.Pi / 180
			out = append(out, lay.Point{X: cx + rx*math.Cos(a), Y: cy + ry*math.Sin(a)})
		}
		return out
	}
	body := append([]lay.Point{{X: 0, Y: 0}, {X: 600, Y: 0}}, arc(600, 90, 70, 70, 270, 180)[1:]...)
	body = append(body, lay.Point{X: 600, Y: 210})
	body = append(body, arc(470, 300, 130, 90, 325, 215)...)
	body = append(body, lay.Point{X: 0, Y: 270})
	sleeve := append([]lay.Point{{X: 0, Y: 40}, {X: 420, Y: 0}}, arc(420, 190, 130, 190, -90, 90)[1:]...)
	sleeve = append(sleeve, lay.Point{X: 0, Y: 340})
	collar := append([]lay.Point{{X: 0, Y: 0}, {X: 210, Y: 0}, {X: 240, Y: 90}}, arc(105, 20, 120, 60, 40, 140)...)
	return []lay.Piece{
		{Name: "front", Outline: body, Quantity: 2, Mirrored: true},
		{Name: "back", Outline: body, OnFold: true, FoldEdge: 0},
		{Name: "sleeve", Outline: sleeve, Quantity: 2, Mirrored: true},
		{Name: "collar", Outline: collar, Quantity: 2, Mirrored: true},
		{Name: "cuff", Outline: rect(250, 110), Quantity: 4, Grain: lay.AnyWay},
	}
}

func garmentOn(width float64) lay.Problem {
	return lay.Problem{Cloth: lay.Cloth{Width: width}, Pieces: garment(24)}
}

func TestSamePlanOnAnyNumberOfCores(t *testing.T) {
	p, tries := garmentOn(900), 120_000
	if testing.Short() {
		tries = 20_000
	}
	var plans []*lay.Plan
	for _, cores := range []int{1, 2, 7} {
		plan, err := lay.Make(context.Background(), p, lay.Options{Tries: tries, Seed: 3, Cores: cores})
		if err != nil {
			t.Fatal(err)
		}
		plans = append(plans, plan)
	}
	for _, q := range plans[1:] {
		if !reflect.DeepEqual(plans[0], q) {
			t.Fatalf("plans differ: %v and %v", plans[0].Length, q.Length)
		}
	}
	other, _ := lay.Make(context.Background(), p, lay.Options{Tries: tries, Seed: 4})
	if reflect.DeepEqual(plans[0].Placements, other.Placements) {
		t.Error("another seed gives the same plan")
	}
}

func TestGarmentOnDefaultWork(t *testing.T) {
	long(t)
	plan := made(t, garmentOn(900), 0)
	t.Logf("length %.1f, utilisation %.4f", plan.Length, plan.Utilisation)
	if plan.Utilisation < 0.86 {
		t.Errorf("utilisation %.3f", plan.Utilisation)
	}
}

func TestFoldedGarment(t *testing.T) {
	long(t)
	p := garmentOn(1400)
	p.Cloth.Fold = lay.EitherWay
	plan := made(t, p, 300_000)
	if plan.Other == nil {
		t.Fatalf("one lay only: %s", plan.NotFolded)
	}
	if plan.Length > plan.Other.Length {
		t.Error("the longer lay is named first")
	}
}

// Turning all cloth and pieces half round, or mirroring everything, is the
// same problem for the maker.
func TestTurningOrMirroringEverythingChangesLittle(t *testing.T) {
	long(t)
	p := garmentOn(1400)
	base := made(t, p, 2_500_000).Length
	change := func(f func(lay.Point) lay.Point) lay.Problem {
		q := lay.Problem{Cloth: p.Cloth}
		for _, piece := range p.Pieces {
			pts := make([]lay.Point, len(piece.Outline))
			for i, v := range piece.Outline {
				pts[i] = f(v)
			}
			piece.Outline = pts
			q.Pieces = append(q.Pieces, piece)
		}
		return q
	}
	half := made(t, change(func(v lay.Point) lay.Point { return lay.Point{X: -v.X, Y: -v.Y} }), 2_500_000).Length
	mirror := made(t, change(func(v lay.Point) lay.Point { return lay.Point{X: v.X, Y: -v.Y} }), 2_500_000).Length
	t.Logf("as drawn %.2f, half round %.2f, mirrored %.2f", base, half, mirror)
	for _, l := range []float64{half, mirror} {
		if math.Abs(l-base) > 0.005*base {
			t.Errorf("length %.2f, as drawn %.2f", l, base)
		}
	}
}

func TestOneWayIsNeverShorter(t *testing.T) {
	long(t)
	for _, width := range []float64{1140, 1500} {
		p := garmentOn(width)
		two := made(t, p, 200_000).Length
		p.Cloth.OneWay = true
		one := made(t, p, 200_000).Length
		t.Logf("width %g: two-way %.1f, one-way %.1f", width, two, one)
		if one < two*0.995 {
			t.Errorf("width %g: one-way %.1f is shorter than two-way %.1f", width, one, two)
		}
	}
}

func TestStagesLoseNoPiece(t *testing.T) {
	seeds := uint64(6)
	if testing.Short() {
		seeds = 1
	}
	for seed := range seeds {
		rng := rand.New(rand.NewPCG(seed, 1))
		p := garmentOn(1400)
		for i := range p.Pieces {
			p.Pieces[i].Stage = rng.IntN(3)
		}
		plan := made(t, p, 30_000) // the verifier counts the copies
		if len(plan.Placements) != 11 {
			t.Errorf("seed %d: %d pieces laid, want 11", seed, len(plan.Placements))
		}
		for k := 1; k < len(plan.Stages); k++ {
			if plan.Stages[k] < plan.Stages[k-1] {
				t.Errorf("stage %d ends before the one before it", k)
			}
		}
	}
}

// jigsaw cuts a rectangle by slanted lines, always the largest part.
func jigsaw(rng *rand.Rand, w, h float64, count int) [][]lay.Point {
	parts := [][]lay.Point{rect(w, h)}
	for len(parts) < count {
		big := 0
		for i := range parts {
			if areaOf(parts[i]) > areaOf(parts[big]) {
				big = i
			}
		}
		c := middle(parts[big])
		a := rng.Float64() * math.Pi
		left, right := split(parts[big], c, lay.Point{X: math.Cos(a), Y: math.Sin(a)})
		parts[big] = left
		parts = append(parts, right)
	}
	return parts
}

func areaOf(pts []lay.Point) float64 {
	s := 0.0
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		s += a.X*b.Y - b.X*a.Y
	}
	return s / 2
}

func middle(pts []lay.Point) lay.Point {
	var c lay.Point
	for _, q := range pts {
		c.X += q.X / float64(len(pts))
		c.Y += q.Y / float64(len(pts))
	}
	return c
}

// split cuts a convex ring along the line through c.
func split(pts []lay.Point, c, dir lay.Point) (left, right []lay.Point) {
	side := func(q lay.Point) float64 { return dir.X*(q.Y-c.Y) - dir.Y*(q.X-c.X) }
	for i, a := range pts {
		b := pts[(i+1)%len(pts)]
		sa, sb := side(a), side(b)
		if sa >= 0 {
			left = append(left, a)
		} else {
			right = append(right, a)
		}
		if sa >= 0 != (sb >= 0) {
			t := sa / (sa - sb)
			x := lay.Point{X: a.X + t*(b.X-a.X), Y: a.Y + t*(b.Y-a.Y)}
			left, right = append(left, x), append(right, x)
		}
	}
	return left, right
}

func TestJigsawComesBack(t *testing.T) {
	long(t)
	for seed := range uint64(4) {
		rng := rand.New(rand.NewPCG(seed, 7))
		p := lay.Problem{Cloth: lay.Cloth{Width: 1000}}
		for _, part := range jigsaw(rng, 1200, 1000, 10) {
			c := middle(part)
			for i := range part {
				part[i].X -= c.X
				part[i].Y -= c.Y
			}
			p.Pieces = append(p.Pieces, lay.Piece{Outline: part, Turns: []float64{0}})
		}
		plan := made(t, p, 8_000_000)
		t.Logf("seed %d: length %.3f of 1200", seed, plan.Length)
		if plan.Utilisation < 0.97 {
			t.Errorf("seed %d: %.4f dense, want 0.97", seed, plan.Utilisation)
		}
	}
}

func TestCancelKeepsTheBestSoFar(t *testing.T) {
	long(t)
	ctx, cancel := context.WithCancel(context.Background())
	calls := 0
	plan, err := lay.Make(ctx, garmentOn(1400), lay.Options{Tries: 1 << 40, Progress: func(lay.Progress) {
		if calls++; calls == 1 {
			cancel()
		}
	}})
	if err != nil || len(plan.Placements) != 11 {
		t.Fatalf("plan %v, error %v", plan, err)
	}
}
