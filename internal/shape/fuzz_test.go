package shape

import (
	"encoding/binary"
	"math"
	"testing"
)

// outlineFrom reads any bytes as an outline: eight bytes a coordinate, one
// for the kind of an edge.
func outlineFrom(data []byte) (Outline, []float64, []Corner) {
	next := func() float64 {
		if len(data) < 8 {
			data = nil
			return 0
		}
		v := math.Float64frombits(binary.LittleEndian.Uint64(data))
		data = data[8:]
		return v
	}
	o := Outline{From: Point{next(), next()}}
	var allow []float64
	var corners []Corner
	for len(data) > 0 && len(o.Edges) < 24 {
		kind := data[0]
		data = data[1:]
		e := Edge{Name: string(rune('a' + kind%26)), To: Point{next(), next()}, Fold: kind&32 != 0}
		if kind&64 != 0 {
			e.Curved, e.C1, e.C2 = true, Point{next(), next()}, Point{next(), next()}
		}
		o.Edges = append(o.Edges, e)
		allow = append(allow, next())
		corners = append(corners, someCorners[int(kind)%len(someCorners)])
	}
	return o, allow, corners
}

// bytesOf is outlineFrom the other way round, for seeds.
func bytesOf(o Outline, allow []float64) []byte {
	var data []byte
	put := func(list ...float64) {
		for _, v := range list {
			data = binary.LittleEndian.AppendUint64(data, math.Float64bits(v))
		}
	}
	put(o.From.X, o.From.Y)
	for i, e := range o.Edges {
		kind := byte(i * 3 % 26)
		if e.Fold {
			kind |= 32
		}
		if e.Curved {
			kind |= 64
		}
		data = append(data, kind)
		put(e.To.X, e.To.Y)
		if e.Curved {
			put(e.C1.X, e.C1.Y, e.C2.X, e.C2.Y)
		}
		put(allow[i])
	}
	return data
}

// FuzzOutline: whatever the numbers, nothing panics or runs on, and what
// has no faults has sound figures.
func FuzzOutline(f *testing.F) {
	allow := []float64{15, 15, 10, 15, 6, 0}
	f.Add(bytesOf(bodice(), allow))
	f.Add(bytesOf(straightBodice(), allow))
	for _, odd := range []float64{math.NaN(), math.Inf(1), 1e300, 5e-324, math.Copysign(0, -1), 1e5} {
		o := bodice()
		o.Edges[2].C1.X = odd
		f.Add(bytesOf(o, allow))
		o = straightBodice()
		o.Edges[1].To.Y = odd
		f.Add(bytesOf(o, []float64{odd, odd, odd, odd, odd, odd}))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		o, allow, corners := outlineFrom(data)
		faults := o.Flaws()
		exercise(o, allow)
		if b, ok := cutBorder(o, allow); ok && len(b.base) > 200 {
			b.offset() // the union takes too long for fuzzing
			return
		}
		c, err := o.CutOutline(allow, corners)
		if err != nil {
			return
		}
		if !(c.Area >= 0 && c.AllowanceArea > -1) || len(c.Ring) < 3 || len(c.Ring) != len(c.Of) {
			t.Fatalf("%v %v: area %g, allowances %g, ring %v (%v)", o, allow, c.Area, c.AllowanceArea, c.Ring, faults)
		}
	})
}

// cutBorder is the border of an outline that may be cut.
func cutBorder(o Outline, allow []float64) (*border, bool) {
	if o.cuttable(allow, nil) != nil {
		return nil, false
	}
	return o.border(allow, nil)
}

// exercise calls everything else that reads an outline.
func exercise(o Outline, numbers []float64) {
	v := 1.0
	if len(numbers) > 0 {
		v = numbers[0]
	}
	o.Bounds()
	o.Area()
	o.Sides()
	o.WidthsAt(v)
	o.Contains(Point{v, v})
	_, _ = o.Flatten(v)
	_ = o.oriented().Mirrored().shifted(v, v).turned(v).Check()
	_, _ = o.unfolded(o.FoldEdge())
	if len(o.Edges) > 0 {
		o.PointAt(0, v)
		o.Split(0, v, "x", "y")
		_, _ = Dart{o.Edges[0].Name, v, v, v}.Plan(o)
	}
}

func FuzzStandardPieces(f *testing.F) {
	f.Add(1.0, 700.0, 600.0, 1500.0, 4)
	f.Add(math.NaN(), math.Inf(1), 1e300, 5e-324, -1)
	f.Add(0.01, 1e-3, 1e5, 1.0, 360)
	f.Add(0.001, 0.0015555555555555557, 25000.0, 76.0, 378) // a cone that is nearly a thread
	f.Fuzz(func(t *testing.T, a, b, c, d float64, n int) {
		outlines := make([]Outline, 0, 8)
		keep := func(o Outline, err error) {
			if err == nil {
				outlines = append(outlines, o)
			}
		}
		keep(Rectangle(a, b))
		keep(Trapezoid(a, b, c))
		keep(Godet(b, a))
		if s, err := NewRingSkirt(a, b, c, n); err == nil {
			if s.PanelAngle < 2*math.Pi-1e-3 {
				keep(s.Panel, nil)
			}
			if !(s.InnerRadius > 0 && s.Area > 0 && s.Hem > 0) {
				t.Errorf("%v", s)
			}
		}
		for _, o := range outlines {
			for _, f := range o.unmeasurable() {
				t.Errorf("%v: %v", o, f)
			}
		}
		_, _ = GodetAngle(a, b)
	})
}

func FuzzAppendNumber(f *testing.F) {
	f.Add(1.5, 2)
	f.Add(-0.004, 2)
	f.Add(math.NaN(), 6)
	f.Add(1e300, -1)
	f.Fuzz(func(t *testing.T, v float64, decimals int) {
		checkNumber(t, v, decimals)
	})
}
