package lay_test

import (
	"context"
	"encoding/binary"
	"math"
	"testing"

	"hembook/internal/lay"
	"hembook/internal/lay/verify"
)

// points reads an outline from raw bytes: small whole numbers times a size,
// which makes collinear, repeated and crossing edges likely.
func points(data []byte, size float64) []lay.Point {
	var out []lay.Point
	for len(data) >= 2 {
		out = append(out, lay.Point{X: float64(int8(data[0])) * size, Y: float64(int8(data[1])) * size})
		data = data[2:]
	}
	return out
}

func FuzzMake(f *testing.F) {
	square := []byte{0, 0, 9, 0, 9, 9, 0, 9}
	f.Add(square, square, 1.0, uint8(0))
	f.Add([]byte{0, 0, 100, 1, 100, 2}, square, 1e-3, uint8(1))              // a needle
	f.Add([]byte{0, 0, 9, 9, 9, 0, 0, 8}, square, 1e6, uint8(2))             // crosses itself
	f.Add([]byte{0, 0, 5, 0, 9, 0, 9, 9, 9, 9, 0, 9}, square, 1.0, uint8(3)) // collinear, repeated
	f.Add([]byte{0, 0, 9, 0, 18, 0}, square, 1.0, uint8(4))                  // no area
	f.Add([]byte{0, 0, 100, 0, 100, 100, 51, 100, 50, 1, 49, 100, 0, 100}, []byte{0, 0, 1, 0, 0, 90}, 1.0, uint8(5))
	f.Fuzz(func(t *testing.T, a, b []byte, size float64, kind uint8) {
		if len(a) > 60 || len(b) > 60 || math.Abs(size) > 1e6 || math.Abs(size) < 1e-3 {
			return
		}
		p := lay.Problem{Cloth: lay.Cloth{Width: 300 * math.Abs(size)}, Pieces: []lay.Piece{
			{Name: "a", Outline: points(a, size), Quantity: 2, Mirrored: kind&1 != 0, Grain: lay.Grain(kind >> 1 & 1)},
			{Name: "b", Outline: points(b, size), Stage: int(kind >> 2 & 1), OnFold: kind&8 != 0, FoldEdge: int(kind >> 4)},
		}}
		p.Cloth.OneWay = kind&16 != 0
		p.Cloth.Reversible = kind&32 != 0
		if kind&64 != 0 {
			p.Cloth.Flaws = [][]lay.Point{points(b, size/2)}
		}
		if kind&128 != 0 {
			p.Cloth.Fold = lay.EitherWay
		}
		plan, err := lay.Make(context.Background(), p, lay.Options{Tries: 3000, Cores: 1})
		if err != nil {
			return
		}
		for q := plan; q != nil; q = q.Other {
			for _, fault := range verify.Check(&p, q, 1e-6*p.Cloth.Width) {
				t.Errorf("fold %v: %s", q.Fold, fault)
			}
		}
	})
}

// Thousands of points, slivers and hair-thin teeth are laid or refused, and
// what is laid is valid.
func TestTroublesomeOutlines(t *testing.T) {
	wheel := func(n int, r, dent float64) []lay.Point {
		var out []lay.Point
		for k := range n {
			a := 2 * math.Pi * float64(k) / float64(n)
			q := r + dent*float64(k%2)
			out = append(out, lay.Point{X: q * math.Cos(a), Y: q * math.Sin(a)})
		}
		return out
	}
	rows := []struct {
		name  string
		pts   []lay.Point
		width float64
		want  bool // laid
	}{
		{"three thousand points", wheel(3000, 300, 0), 1500, true},
		{"three hundred teeth", wheel(300, 300, 1), 1500, true},
		{"a needle", []lay.Point{{}, {X: 1000, Y: 0.01}, {X: 0, Y: 0.02}}, 1500, true},
		{"thinner than anything", []lay.Point{{}, {X: 1e6, Y: 1e-7}, {X: 0, Y: 2e-7}}, 1500, false},
		{"nearly collinear", []lay.Point{{}, {X: 100, Y: 1e-9}, {X: 200, Y: -1e-9}, {X: 300}, {X: 300, Y: 50}, {Y: 50}}, 1500, true},
		{"tiny", []lay.Point{{}, {X: 1e-3}, {X: 1e-3, Y: 1e-3}, {Y: 1e-3}}, 1500, true},
		{"huge", []lay.Point{{}, {X: 1e6}, {X: 1e6, Y: 1e6}, {Y: 1e6}}, 1.5e6, true},
		{"far from its own origin", []lay.Point{{X: 1e6, Y: 1e6}, {X: 1e6 + 10, Y: 1e6}, {X: 1e6 + 10, Y: 1e6 + 10}}, 1500, true},
	}
	for _, row := range rows {
		t.Run(row.name, func(t *testing.T) {
			if len(row.pts) > 100 {
				long(t)
			}
			p := lay.Problem{Cloth: lay.Cloth{Width: row.width}, Pieces: []lay.Piece{{Outline: row.pts, Quantity: 3}}}
			plan, err := lay.Make(context.Background(), p, lay.Options{Tries: 20_000})
			if (err == nil) != row.want {
				t.Fatalf("laid %v, want %v: %v", err == nil, row.want, err)
			}
			if err != nil {
				return
			}
			for _, fault := range verify.Check(&p, plan, 1e-9*row.width) {
				t.Error(fault)
			}
		})
	}
}

// Doubles straight from bits: NaN, infinities and the very small.
func FuzzCheck(f *testing.F) {
	f.Add(make([]byte, 48))
	f.Fuzz(func(t *testing.T, raw []byte) {
		var pts []lay.Point
		for len(raw) >= 16 && len(pts) < 50 {
			pts = append(pts, lay.Point{X: math.Float64frombits(binary.LittleEndian.Uint64(raw)), Y: math.Float64frombits(binary.LittleEndian.Uint64(raw[8:]))})
			raw = raw[16:]
		}
		p := lay.Problem{Cloth: lay.Cloth{Width: 1000}, Pieces: []lay.Piece{{Outline: pts}}}
		_, _ = lay.Make(context.Background(), p, lay.Options{Tries: 500, Cores: 1})
	})
}
