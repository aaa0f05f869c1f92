package svg

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hembook/internal/shape"
	"hembook/internal/shape/trace"
)

// file wraps elements in a drawing whose unit is a millimetre.
func file(body string) []byte {
	return []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="1000mm" height="1000mm" viewBox="0 0 1000 1000">` + body + `</svg>`)
}

// strokesOf reads the lines of a drawing in millimetres, y up.
func strokesOf(t *testing.T, text []byte) []trace.Stroke {
	t.Helper()
	d, fault := Read(text)
	if fault != nil {
		t.Fatal(fault)
	}
	if fault := d.Resize(0, 0); fault != nil {
		t.Fatal(fault)
	}
	out := d.Loose
	for _, p := range d.Pieces {
		out = append(out, p.Strokes...)
	}
	return out
}

// path writes a stroke with y down again, to two decimals.
func path(s trace.Stroke) string {
	var b strings.Builder
	put := func(before string, q shape.Point) {
		b.WriteString(before)
		b.Write(append(append(shape.AppendNumber(nil, q.X, 2), ','), shape.AppendNumber(nil, -q.Y, 2)...))
	}
	put("M", s.From)
	for _, e := range s.Parts {
		if !e.Curved {
			put("L", e.To)
			continue
		}
		put("C", e.C1)
		put(" ", e.C2)
		put(" ", e.To)
	}
	return b.String()
}

// TestPaths holds every path command against what it must draw, worked out by
// hand from SVG 2, section 9.3.
func TestPaths(t *testing.T) {
	for _, c := range []struct{ name, d, want string }{
		{"lines", "M10 20L30,40", "M10,20L30,40"},
		{"lines repeated, relative", "m10 20 5 5 5-5", "M10,20L15,25L20,20"},
		{"across and up", "M1 2H10V20h-3v-4", "M1,2L10,2L10,20L7,20L7,16"},
		{"numbers that touch", "M1.5.5L-1-1.5", "M1.5,0.5L-1,-1.5"},
		{"powers of ten", "M1e1 2E0L.3e2,4e-1", "M10,2L30,0.4"},
		{"cubic", "M0 0C1 2 3 4 5 6", "M0,0C1,2 3,4 5,6"},
		{"cubic, relative, twice", "M10 10c1 0 2 0 3 0 1 1 2 1 3 0", "M10,10C11,10 12,10 13,10C14,11 15,11 16,10"},
		{"smooth cubic mirrors the control point", "M0 0C0 10 10 20 20 20S40 10 40 0", "M0,0C0,10 10,20 20,20C30,20 40,10 40,0"},
		{"smooth cubic after a line starts where it is", "M0 0L10 0S20 10 30 0", "M0,0L10,0C10,0 20,10 30,0"},
		{"quadratic: control points two thirds of the way", "M0 0Q15 30 30 0", "M0,0C10,20 20,20 30,0"},
		{"smooth quadratic", "M0 0Q15 30 30 0T60 0", "M0,0C10,20 20,20 30,0C40,-20 50,-20 60,0"},
		{"a command after z goes on from the start", "M10 10H20V20zl5 5", "M10,10L20,10L20,20"},
		{"an arc without a radius is a line", "M0 0A0 5 0 0 1 10 0", "M0,0L10,0"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := strokesOf(t, file(`<path d="`+c.d+`"/>`))
			if got := path(s[0]); got != c.want {
				t.Errorf("%s is %s, want %s", c.d, got, c.want)
			}
		})
	}
}

// TestArcs: every point of a circular arc lies at its radius from its centre,
// and the arc is as long as radius × angle.
func TestArcs(t *testing.T) {
	half := math.Sqrt(2) * 50
	for _, c := range []struct {
		name, d   string
		x, y, r   float64
		length    float64
		topOrFoot float64 // y of the middle, y down
	}{
		{"half, clockwise as seen", "M0 100A100 100 0 0 1 200 100", 100, 100, 100, math.Pi * 100, 0},
		{"half, against the clock", "M0 100A100 100 0 0 0 200 100", 100, 100, 100, math.Pi * 100, 200},
		{"quarter", "M100 0A100 100 0 0 1 200 100", 100, 100, 100, math.Pi * 50, 100 - half*1},
		{"three quarters", "M100 0A100 100 0 1 0 200 100", 100, 100, 100, math.Pi * 150, 100 + half},
		{"too small a radius grows to a half circle", "M0 100A1 1 0 0 1 200 100", 100, 100, 100, math.Pi * 100, 0},
		{"flags that touch", "M0 100a100,100 0 01200,0", 100, 100, 100, math.Pi * 100, 0},
		{"turned about itself a circle stays one", "M0 100A100 100 37 0 1 200 100", 100, 100, 100, math.Pi * 100, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := strokesOf(t, file(`<path d="`+c.d+`"/>`))[0]
			o := shape.Outline{From: s.From, Edges: s.Parts}
			length := 0.0
			for i := range o.Edges {
				length += o.EdgeLength(i)
				p, _ := o.PointAt(i, o.EdgeLength(i)/2)
				if r := math.Hypot(p.X-c.x, -p.Y-c.y); math.Abs(r-c.r) > 1e-4 {
					t.Errorf("a point lies %.6f from the centre, want %g", r, c.r)
				}
			}
			if math.Abs(length-c.length) > 1e-3 {
				t.Errorf("it is %.4f long, want %.4f", length, c.length)
			}
			for i, run := 0, 0.0; i < len(o.Edges); i++ {
				if l := o.EdgeLength(i); run+l >= length/2-1e-9 {
					p, _ := o.PointAt(i, length/2-run)
					if math.Abs(-p.Y-c.topOrFoot) > 1e-3 {
						t.Errorf("its middle is at y %.4f, want %.4f", -p.Y, c.topOrFoot)
					}
					break
				} else {
					run += l
				}
			}
		})
	}
}

// TestShapes: the basic shapes as the paths they stand for (SVG 2, chapter 10).
func TestShapes(t *testing.T) {
	for _, c := range []struct {
		body         string
		area, length float64
		closed       bool
	}{
		{`<rect x="5" y="6" width="30" height="20"/>`, 600, 100, true},
		{`<rect width="40" height="20" rx="5"/>`, 800 - (100 - math.Pi*25), 2*(30+10) + 2*math.Pi*5, true},
		{`<circle cx="50" cy="50" r="10"/>`, math.Pi * 100, 2 * math.Pi * 10, true},
		{`<ellipse cx="50" cy="50" rx="20" ry="10"/>`, math.Pi * 200, 96.8845, true}, // circumference by the complete elliptic integral, from memory
		{`<polygon points="0,0 30,0 30,40"/>`, 600, 120, true},
		{`<polyline points="0 0 30 0 30 40"/>`, 600, 70, false},
		{`<line x1="10mm" y1="0" x2="13mm" y2="4"/>`, 0, math.Hypot(3*96/25.4, 4), false},
	} {
		s := strokesOf(t, file(c.body))[0]
		o := shape.Outline{From: s.From, Edges: s.Parts}
		length := 0.0
		for i := range o.Edges {
			length += o.EdgeLength(i)
		}
		if last := o.Edges[len(o.Edges)-1].To; c.closed && last != o.From {
			length += math.Hypot(last.X-o.From.X, last.Y-o.From.Y)
		}
		if math.Abs(math.Abs(o.Area())-c.area) > 2e-3 || math.Abs(length-c.length) > 2e-3 || s.Closed != c.closed {
			t.Errorf("%s: area %.4f, length %.4f, closed %t; want %.4f, %.4f, %t", c.body, o.Area(), length, s.Closed, c.area, c.length, c.closed)
		}
	}
}

// TestTransforms draws the line from (10, 0) to (10, 5) through transforms;
// where its end must lie is worked out by hand.
func TestTransforms(t *testing.T) {
	tan30 := math.Tan(math.Pi / 6)
	for _, c := range []struct {
		open, shut string
		x, y       float64
	}{
		{`<g transform="translate(3 4)">`, `</g>`, 13, 9},
		{`<g transform="translate(3)">`, `</g>`, 13, 5},
		{`<g transform="scale(2)">`, `</g>`, 20, 10},
		{`<g transform="scale(2,-1)">`, `</g>`, 20, -5},
		{`<g transform="rotate(90)">`, `</g>`, -5, 10},
		{`<g transform="rotate(90 10 0)">`, `</g>`, 5, 0},
		{`<g transform="skewX(30)">`, `</g>`, 10 + 5*tan30, 5},
		{`<g transform="skewY(30)">`, `</g>`, 10, 5 + 10*tan30},
		{`<g transform="matrix(1 2 3 4 5 6)">`, `</g>`, 10 + 15 + 5, 20 + 20 + 6},
		{`<g transform="translate(100,0) rotate(90), scale(2)">`, `</g>`, 100 - 10, 20},
		{`<g transform="translate(100)"><g transform="rotate(-90)">`, `</g></g>`, 105, -10},
		{`<svg x="10" y="20" width="100" height="50" viewBox="0 0 200 200">`, `</svg>`, 10 + 25 + 2.5, 20 + 1.25},
		{`<svg width="100" height="50" viewBox="0 0 200 200" preserveAspectRatio="none">`, `</svg>`, 5, 1.25},
		{`<svg width="100" height="50" viewBox="0 0 200 200" preserveAspectRatio="xMinYMin slice">`, `</svg>`, 5, 2.5},
		{`<g style="transform: translate(3px, 4px)">`, `</g>`, 13, 9},
	} {
		s := strokesOf(t, file(c.open+`<path d="M10 0V5"/>`+c.shut))[0]
		if p := s.Parts[0].To; math.Abs(p.X-c.x) > 1e-9 || math.Abs(-p.Y-c.y) > 1e-9 {
			t.Errorf("%s: the line ends at (%g, %g), want (%g, %g)", c.open, p.X, -p.Y, c.x, c.y)
		}
	}
	s := strokesOf(t, file(`<defs><symbol id="a" viewBox="0 0 10 10"><path d="M0 0V10"/></symbol><path id="b" d="M0 0V10"/></defs><use href="#a" x="5" width="20" height="20"/><use href="#b" x="7" y="1"/>`))
	if a, b := path(s[0]), path(s[1]); a != "M5,0L5,20" || b != "M7,1L7,11" {
		t.Errorf("used lines are %s and %s", a, b)
	}
}

// TestSizes: what a file says of its size (CSS Values and Units 3, section 6.2).
func TestSizes(t *testing.T) {
	for _, c := range []struct {
		head        string
		unit, scale float64
		want        float64 // millimetres of a line of 96 units; 0 where it cannot be known
	}{
		{`width="1in" height="1in" viewBox="0 0 96 96"`, 0, 0, 25.4},
		{`width="10cm" viewBox="0 0 100 100"`, 0, 0, 96},
		{`width="72pt" height="72pt" viewBox="0 0 96 96"`, 0, 0, 25.4},
		{`width="6pc" height="6pc" viewBox="0 0 96 96"`, 0, 0, 25.4},
		{`width="101.6Q" height="101.6q" viewBox="0 0 96 96"`, 0, 0, 25.4},
		{`width="210mm" height="297mm"`, 0, 0, 25.4},
		{`width="96" height="96" viewBox="0 0 96 96"`, 0, 0, 0},
		{`width="96px" height="96px"`, 0, 0, 0},
		{`width="100%" viewBox="0 0 96 96"`, 0, 0, 0},
		{`viewBox="0 0 96 96"`, 25.4, 0, 96 * 25.4},
		{`viewBox="0 0 96 96"`, 0, 0.5, 48},
		{`width="1in" height="1in" viewBox="0 0 96 96"`, 0, 4, 101.6},
		{`width="1in" height="1in" viewBox="0 0 96 96"`, 1, 0, 96},
	} {
		d, fault := Read([]byte(`<svg xmlns="` + nameSpace + `" ` + c.head + `><path d="M0 0H96"/></svg>`))
		if fault != nil {
			t.Fatal(fault)
		}
		fault = d.Resize(c.unit, c.scale)
		if c.want == 0 {
			if fault == nil {
				t.Errorf("%s: its size was taken for known", c.head)
			}
			continue
		}
		if fault != nil {
			t.Errorf("%s: %v", c.head, fault)
			continue
		}
		if got := d.Pieces[0].Strokes[0].Parts[0].To.X; math.Abs(got-c.want) > 1e-9 {
			t.Errorf("%s: 96 units are %g mm, want %g", c.head, got, c.want)
		}
	}
}

// TestRefused: what is not followed is refused, not guessed at.
func TestRefused(t *testing.T) {
	bomb := `<!DOCTYPE svg [<!ENTITY a "` + strings.Repeat("x", 100) + `">` + strings.Repeat("<!ENTITY b \"&a;&a;\">", 3) + `]>`
	for _, c := range []struct{ name, text, want string }{
		{"entities", bomb + string(file("")), "it has entities"},
		{"an entity it does not declare", string(file(`<path id="&a;"/>`)), "not one of XML's own"},
		{"another file", string(file(`<use href="b.svg#a"/>`)), "refers to another file"},
		{"the net", string(file(`<use xmlns:x="http://www.w3.org/1999/xlink" x:href="http://example.com/a.svg#a"/>`)), "refers to another file"},
		{"itself", string(file(`<g id="a"><use href="#a"/></g>`)), "nested more than"},
		{"many times over", string(file(`<defs>` + doubling(14) + `</defs><use href="#d14"/>`)), "more than"},
		{"nested deep", strings.Repeat("<svg>", 300), "nested more than 200 deep"},
		{"compressed", "\x1f\x8b\x08", "compressed"},
		{"UTF-16", "\xff\xfe<\x00", "UTF-16"},
		{"Latin 1", "<?xml version='1.0' encoding='iso-8859-1'?><svg/>", "its letters are written as iso-8859-1"},
		{"50 MB", string(make([]byte, 50<<20)), "at most 32 MB"},
		{"nothing", "", "no svg element"},
		{"numbers that are none", string(file(`<path d="M0 0L1 1e999"/>`)), "cannot be read"},
		{"a path without a beginning", string(file(`<path d="L1 1"/>`)), "begins with"},
		{"an odd number", string(file(`<polygon points="1 2 3"/>`)), "points cannot be read"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, fault := Read([]byte(c.text))
			if fault == nil || !strings.Contains(fault.Placed(), c.want) {
				t.Errorf("it is answered with %v, want %q", fault, c.want)
			}
		})
	}
}

// doubling defines groups each of which shows the one before it twice.
func doubling(n int) string {
	out := `<path id="d0" d="M0 0H1"/>`
	for i := 1; i <= n; i++ {
		out += fmt.Sprintf(`<g id="d%d"><use href="#d%d"/><use href="#d%d"/></g>`, i, i-1, i-1)
	}
	return out
}

// TestHandMade reads the same front, drawn in the ways in which drawings are
// made: 240 wide below, 190 above, 600 high, a fold, a dart, a level.
func TestHandMade(t *testing.T) {
	files, _ := filepath.Glob("testdata/*.svg")
	if len(files) < 10 {
		t.Fatalf("only %d drawings", len(files))
	}
	for _, name := range files {
		t.Run(filepath.Base(name), func(t *testing.T) {
			text, err := os.ReadFile(name)
			if err != nil {
				t.Fatal(err)
			}
			d, fault := Read(text)
			if fault != nil {
				t.Fatal(fault)
			}
			if fault := d.Resize(0, 0); fault != nil {
				t.Fatal(fault)
			}
			i := 0
			for i < len(d.Pieces)-1 && d.Pieces[i].Name != "front" {
				i++
			}
			opt := trace.Options{}
			if strings.Contains(name, "closed") {
				opt.Names = []string{"hem", "side", "waist", "centre"}
			}
			p, faults := d.Pieces[i].Assemble(opt)
			for _, f := range faults {
				t.Fatal(f)
			}
			isFront(t, p)
		})
	}
}

func isFront(t *testing.T, p *trace.Piece) {
	t.Helper()
	for name, want := range map[string]float64{"hem": 240, "waist": 190, "centre": 600, "side": math.Hypot(50, 600)} {
		if got, ok := p.Outline.LengthOf(name); !ok || math.Abs(got-want) > 0.01 {
			t.Errorf("%s is %.4f long, want %.4f", name, got, want)
		}
	}
	if got := p.Outline.Area(); math.Abs(got-129000) > 5 {
		t.Errorf("its area is %.2f, want 129000", got)
	}
	for _, d := range p.Darts {
		if d.Edge != "waist" || math.Abs(d.Width-20) > 0.01 || math.Abs(d.Length-90) > 0.01 {
			t.Errorf("its dart is %+v", d)
		}
	}
	for _, l := range p.Levels {
		if l.Name != "hip" || math.Abs(l.Y-400) > 0.01 {
			t.Errorf("its level is %+v", l)
		}
	}
	for _, n := range p.Notches {
		if n.Edge != "side" || math.Abs(n.At-math.Hypot(50, 600)/2) > 0.02 {
			t.Errorf("its notch is %+v", n)
		}
	}
}

func FuzzRead(f *testing.F) {
	files, _ := filepath.Glob("testdata/*.svg")
	for _, name := range files {
		if text, err := os.ReadFile(name); err == nil {
			f.Add(string(text))
		}
	}
	f.Add(string(file(`<path d="M0 0C1 2 3 4 5 6S1 1 2 2Q1 1 3 3T1 1A1 2 3 0 1 5 5Z"/>`)))
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
