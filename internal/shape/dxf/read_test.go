package dxf

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"hembook/internal/drawing"
	"hembook/internal/shape"
	"hembook/internal/shape/trace"
	"hembook/internal/shape/trace/tracetest"
)

// pairs writes group codes and values.
func pairs(list ...any) string {
	var b strings.Builder
	for i := 0; i+1 < len(list); i += 2 {
		fmt.Fprintf(&b, "%v\n%v\n", list[i], list[i+1])
	}
	return b.String()
}

// inMM wraps entities in a drawing in millimetres.
func inMM(entities string) []byte {
	return []byte(pairs(0, "SECTION", 2, "HEADER", 9, "$INSUNITS", 70, 4, 0, "ENDSEC", 0, "SECTION", 2, "ENTITIES") + entities + pairs(0, "ENDSEC", 0, "EOF"))
}

func pieceOf(t *testing.T, text []byte, opt trace.Options) *trace.Piece {
	t.Helper()
	d, fault := Read(text)
	if fault != nil {
		t.Fatal(fault)
	}
	if fault := d.Resize(0, 0); fault != nil {
		t.Fatal(fault)
	}
	if len(d.Pieces) != 1 {
		t.Fatalf("%d pieces", len(d.Pieces))
	}
	p, faults := d.Pieces[0].Assemble(opt)
	for _, f := range faults {
		t.Fatal(f)
	}
	return p
}

func vertices(list ...float64) string {
	out := ""
	for i := 0; i+2 < len(list); i += 3 {
		out += pairs(0, "VERTEX", 8, 0, 10, list[i], 20, list[i+1], 42, list[i+2])
	}
	return out + pairs(0, "SEQEND")
}

// TestBulge: a bulge is the tangent of a quarter of the angle; 1 is a half
// circle, tan 22.5° a quarter; positive turns against the clock. Areas by hand.
func TestBulge(t *testing.T) {
	quarter := math.Tan(math.Pi / 8)
	for _, c := range []struct {
		name         string
		bulge        float64
		area, length float64 // of a rectangle of 100 by 50 whose lower side is bent, and of that side
	}{
		{"straight", 0, 5000, 100},
		{"half circle outwards", 1, 5000 + math.Pi*2500/2, math.Pi * 50},
		{"quarter outwards", quarter, 5000 + math.Pi*5000/4 - 2500, math.Pi / 2 * math.Sqrt(5000)},
		{"quarter inwards", -quarter, 5000 - math.Pi*5000/4 + 2500, math.Pi / 2 * math.Sqrt(5000)},
	} {
		t.Run(c.name, func(t *testing.T) {
			for kind, text := range map[string]string{
				"POLYLINE":   pairs(0, "POLYLINE", 8, 14, 66, 1, 70, 1) + vertices(0, 0, c.bulge, 100, 0, 0, 100, 50, 0, 0, 50, 0),
				"LWPOLYLINE": pairs(0, "LWPOLYLINE", 8, 14, 90, 4, 70, 1, 10, 0, 20, 0, 42, c.bulge, 10, 100, 20, 0, 10, 100, 20, 50, 10, 0, 20, 50),
			} {
				p := pieceOf(t, inMM(text), trace.Options{})
				if a := p.Outline.Area(); math.Abs(a-c.area) > 1e-2 {
					t.Errorf("%s: area %.5f, want %.5f", kind, a, c.area)
				}
				if l := p.Outline.Perimeter() - 200; math.Abs(l-c.length) > 1e-3 {
					t.Errorf("%s: the bent side is %.5f long, want %.5f", kind, l, c.length)
				}
			}
		})
	}
}

func line(layer any, x1, y1, x2, y2 float64) string {
	return pairs(0, "LINE", 8, layer, 10, x1, 20, y1, 11, x2, 21, y2)
}

// TestPlainDrawing: lines and an arc on layers that bear names, and the marks
// on layers that name them.
func TestPlainDrawing(t *testing.T) {
	half := math.Atan2(300, 400) // of the arc's angle: 400 across, 300 up, 500 away
	degrees := half * 180 / math.Pi
	text := line("front", 0, 0, 240, 0) + line("front", 240, 600, 0, 600) + line("front", 0, 600, 0, 0) +
		pairs(0, "ARC", 8, "front", 10, -160, 20, 300, 40, 500, 50, 360-degrees, 51, degrees) +
		line("front grain", 50, 100, 50, 500) + line("front level hip", 0, 400, 20, 400) +
		pairs(0, "POINT", 8, "front notch", 10, 240, 20, 0) +
		line("front dart", 100, 600, 110, 500) + line("front dart", 110, 500, 120, 600)
	p := pieceOf(t, inMM(text), trace.Options{Names: []string{"hem", "side", "waist", "centre"}})
	if l, _ := p.Outline.LengthOf("side"); math.Abs(l-1000*half) > 1e-3 {
		t.Errorf("the side is %.4f long, want %.4f", l, 1000*half)
	}
	if len(p.Darts) != 1 || p.Darts[0].Edge != "waist" || math.Abs(p.Darts[0].At-130) > 1e-3 || math.Abs(p.Darts[0].Width-20) > 1e-3 || math.Abs(p.Darts[0].Length-100) > 1e-3 {
		t.Errorf("the dart is %+v", p.Darts)
	}
	if p.Grain != "along" || len(p.Notches) != 1 || len(p.Levels) > 1 {
		t.Errorf("grain %q, notches %+v, levels %+v", p.Grain, p.Notches, p.Levels)
	}
}

// TestExchange reads a piece as pattern exchange has it: a block, its boundary
// and sewing line as points on numbered layers, corners said by turn points.
func TestExchange(t *testing.T) {
	ring := []float64{300, 400, 0, 0, 400, 0, 0, -100, 0, 100, -100, 0}
	for i := 0; i <= 60; i++ { // from (100, 0) to (300, 200), hollow
		a := float64(i) / 60 * math.Pi / 2
		ring = append(ring, 300-200*math.Cos(a), 200*math.Sin(a), 0)
	}
	turn := func(x, y float64) string { return pairs(0, "POINT", 8, 2, 10, x, 20, y) }
	block := pairs(0, "SECTION", 2, "BLOCKS", 0, "BLOCK", 8, 1, 2, "B-01-38", 10, 0, 20, 0) +
		pairs(0, "TEXT", 8, 1, 10, 0, 20, 0, 40, 5, 1, "Piece Name: back") +
		pairs(0, "POLYLINE", 8, 14, 66, 1, 70, 1) + vertices(ring...) +
		turn(300, 400) + turn(0, 400) + turn(0, -100) + turn(100, -100) + turn(100, 0) + turn(300, 200) +
		line(6, 0, 400, 0, -100) + line(7, 20, 0, 20, 300) + pairs(0, "ENDBLK")
	for _, c := range []struct {
		units string
		mm    float64
	}{{"METRIC", 1}, {"ENGLISH", 25.4}} {
		text := block + pairs(0, "ENDSEC", 0, "SECTION", 2, "ENTITIES", 0, "TEXT", 8, 1, 1, "UNITS: "+c.units, 0, "INSERT", 8, 1, 2, "B-01-38", 10, 900, 20, 50, 0, "ENDSEC", 0, "EOF")
		p := pieceOf(t, []byte(text), trace.Options{})
		sides := p.Outline.Sides()
		if len(sides) != 6 || p.Name != "back" || p.Grain != "along" {
			t.Fatalf("%d edges of %q, grain %q: %+v", len(sides), p.Name, p.Grain, sides)
		}
		folds := 0
		for _, s := range sides {
			if s.Fold {
				folds++
				if math.Abs(s.Length-500*c.mm) > 1e-3 {
					t.Errorf("the fold is %.3f long", s.Length)
				}
			}
		}
		if folds != 1 {
			t.Errorf("%d folds", folds)
		}
		arc := math.Pi * 100 * c.mm
		found := false
		for _, s := range sides {
			found = found || math.Abs(s.Length-arc) < 0.02*c.mm
		}
		if !found {
			t.Errorf("no edge is %.3f long: %+v", arc, sides)
		}
	}
}

// TestPlacing: what a block placed turned, mirrored or stretched comes to.
func TestPlacing(t *testing.T) {
	box := line(14, 0, 0, 100, 0) + line(14, 100, 0, 100, 50) + line(14, 100, 50, 0, 0)
	for _, c := range []struct {
		insert     []any
		wide, high float64
	}{
		{nil, 100, 50},
		{[]any{50, 90}, 50, 100},
		{[]any{41, 2, 42, 2}, 200, 100},
		{[]any{41, -1}, 100, 50},
		{[]any{50, 90, 41, 2}, 50, 200},
	} {
		text := pairs(0, "SECTION", 2, "HEADER", 9, "$MEASUREMENT", 70, 1, 0, "ENDSEC", 0, "SECTION", 2, "BLOCKS", 0, "BLOCK", 2, "A") + box + pairs(0, "ENDBLK", 0, "ENDSEC", 0, "SECTION", 2, "ENTITIES", 0, "INSERT", 2, "A", 10, 7, 20, 8) +
			pairs(c.insert...) + pairs(0, "ENDSEC", 0, "EOF")
		p := pieceOf(t, []byte(text), trace.Options{})
		least, most := p.Outline.Bounds()
		if d := most.Sub(least); math.Abs(d.X-c.wide) > 1e-6 || math.Abs(d.Y-c.high) > 1e-6 || least != (shape.Point{}) {
			t.Errorf("%v: it lies from %v to %v, want %g by %g", c.insert, least, most, c.wide, c.high)
		}
	}
}

func TestRefused(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"binary", "Any Binary DXF\r\n\x1a\x00", "binary"},
		{"50 MB", strings.Repeat(" ", 50<<20), "at most 32 MB"},
		{"empty", " \n", "empty"},
		{"a spline", string(inMM(pairs(0, "SPLINE", 8, 14))), "SPLINE"},
		{"a mesh", string(inMM(pairs(0, "POLYLINE", 8, 14, 70, 16) + vertices(0, 0, 0))), "mesh"},
		{"a block that places itself", pairs(0, "SECTION", 2, "BLOCKS", 0, "BLOCK", 2, "A", 0, "INSERT", 2, "A", 0, "ENDBLK", 0, "ENDSEC", 0, "EOF"), "nested"},
		{"a code that is none", "0\nSECTION\n2\nENTITIES\nx\ny\n", "group code"},
		{"a value that is missing", "0\nSECTION\n2\nENTITIES\n0", "ends in the middle"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, fault := Read([]byte(c.text))
			if fault == nil || !strings.Contains(fault.Placed(), c.want) {
				t.Errorf("it is answered with %v, want %q", fault, c.want)
			}
		})
	}
	d, fault := Read([]byte(strings.Replace(string(inMM(line("front", 0, 0, 1, 1))), "$INSUNITS", "$NOTHING", 1)))
	if fault != nil || d.Resize(0, 0) == nil {
		t.Errorf("a unit was made up: %v", fault)
	}
}

func FuzzRead(f *testing.F) {
	f.Add(string(inMM(pairs(0, "POLYLINE", 8, 14, 66, 1, 70, 1) + vertices(0, 0, 1, 100, 0, 0, 100, 50, 0))))
	f.Add(string(inMM(line("front", 0, 0, 9, 0) + pairs(0, "ARC", 8, "front", 10, 2, 20, 3, 40, 3, 50, 270, 51, 90))))
	triangle := shape.Outline{Edges: []shape.Edge{{Name: "x", To: shape.Point{X: 9}}, {Name: "y", To: shape.Point{X: 9, Y: 9}}, {Name: "z", Fold: true}}}
	f.Add(string(Pieces([]*drawing.Drawing{tracetest.Drawing(trace.Piece{Name: "a", Grain: "bias", Outline: triangle})})))
	f.Fuzz(func(t *testing.T, text string) {
		d, fault := Read([]byte(text))
		if (d == nil) == (fault == nil) {
			t.Fatalf("%v and %v", d, fault)
		}
		if fault != nil || d.Resize(0, 1) != nil {
			return
		}
		for i := range d.Pieces {
			_, _ = d.Pieces[i].Assemble(trace.Options{})
		}
	})
}
