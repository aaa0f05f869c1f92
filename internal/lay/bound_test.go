package lay_test

import (
	"math"
	"testing"

	"pgregory.net/rapid"

	"hembook/internal/lay"
)

// boundCases are bounds that can be worked out by hand on cloth 1000 wide.
var boundCases = []struct {
	name   string
	pieces []lay.Piece
	want   float64
	why    lay.Reason
}{
	{"area", []lay.Piece{{Outline: rect(600, 250), Quantity: 8}}, 1200, lay.ByArea},
	{"longest", []lay.Piece{{Outline: rect(600, 250), Quantity: 2}}, 600, lay.ByLongest},
	// two and two of four, the fifth beyond: three rows of 200, where the area gives 400
	{"five alike, two beside each other", []lay.Piece{{Outline: rect(200, 400), Quantity: 5}}, 600, lay.ByRows},
	// three beside each other: seven in three rows
	{"seven alike, three in a row", []lay.Piece{{Outline: rect(100, 300), Quantity: 7}}, 300, lay.ByRows},
	// 600 wide and 550 wide do not lie beside each other, whatever else there is
	{"two wide ones", []lay.Piece{{Outline: rect(500, 600)}, {Outline: rect(450, 550)}}, 950, lay.ByRows},
	// beside 800 there is no room for 300, of which three lie beside each other: 400 + 300
	{"nothing goes beside it", []lay.Piece{{Outline: rect(400, 800)}, {Outline: rect(300, 300), Quantity: 3}}, 700, lay.ByWidth},
	// a rhombus 800 long and 1000 across is wider than half of the cloth along 400, with 200
	// beyond at either end: 200 + 400 + 400 + 200, where the area gives 800
	{"rhombi", []lay.Piece{{Outline: []lay.Point{{Y: 500}, {X: 400}, {X: 800, Y: 500}, {X: 400, Y: 1000}}, Quantity: 2}}, 1200, lay.ByRows},
	{"across", []lay.Piece{{Outline: rect(600, 200), Quantity: 3, Turns: []float64{90, 270}}}, 600, lay.ByRows},
	// what may lie any way counts in the area alone
	{"any way", []lay.Piece{{Outline: rect(900, 100), Grain: lay.AnyWay}}, 90, lay.ByArea},
}

func TestBoundsByHand(t *testing.T) {
	for _, row := range boundCases {
		p := lay.Problem{Cloth: lay.Cloth{Width: 1000}, Pieces: row.pieces}
		if b := p.Bound(); math.Abs(b.Length-row.want) > 1e-5 || b.Why != row.why {
			t.Errorf("%s: %.6f by %d, want %g by %d", row.name, b.Length, b.Why, row.want, row.why)
		}
		if plan := made(t, p, 20_000); plan.Length < plan.Bound.Length*(1-1e-9) {
			t.Errorf("%s: a plan of %.6f, and none is to be shorter than %.6f", row.name, plan.Length, plan.Bound.Length)
		}
	}
}

// TestNoPlanIsShorterThanItsBound: of pieces of all forms, turned as they may be, on every
// fold. The verifier has looked at each plan.
func TestNoPlanIsShorterThanItsBound(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		whole := func(name string, from, to int) float64 { return float64(rapid.IntRange(from, to).Draw(r, name)) }
		p := lay.Problem{Cloth: lay.Cloth{Width: whole("width", 300, 1000), OneWay: rapid.Bool().Draw(r, "one way"),
			Fold: rapid.SampledFrom([]lay.Fold{lay.Open, lay.EitherWay}).Draw(r, "fold")}}
		for range rapid.IntRange(1, 5).Draw(r, "pieces") {
			long, wide := whole("long", 50, 600), whole("wide", 50, 280)
			notch := whole("notch", 1, 49)
			outline := rapid.SampledFrom([][]lay.Point{
				rect(long, wide), {{}, {X: long, Y: wide / 3}, {Y: wide}},
				{{}, {X: long}, {X: long, Y: wide}, {X: long - notch, Y: wide}, {X: long - notch, Y: wide - notch}, {Y: wide - notch}},
				{{}, {X: long, Y: notch}, {X: long, Y: wide}, {X: long / 2, Y: notch + (wide-notch)/4}, {Y: wide}},
			}).Draw(r, "outline")
			p.Pieces = append(p.Pieces, lay.Piece{Name: "piece", Outline: outline, Quantity: int(whole("many", 1, 4)), Mirrored: rapid.Bool().Draw(r, "mirrored"),
				Grain: rapid.SampledFrom([]lay.Grain{lay.Along, lay.Along, lay.Bias, lay.AnyWay}).Draw(r, "grain")})
		}
		plan, err := lay.Make(t.Context(), p, lay.Options{Tries: 3000})
		if err != nil {
			return // too wide when turned
		}
		for _, one := range []*lay.Plan{plan, plan.Other} {
			if one != nil && one.Length < p.Bound().Length*(1-1e-9) {
				r.Fatalf("%+v: %.9f, and none is to be shorter than %+v", one.Folding, one.Length, p.Bound())
			}
		}
	})
}

func BenchmarkBound(b *testing.B) {
	p := garmentOn(900)
	for b.Loop() {
		p.Bound()
	}
}
