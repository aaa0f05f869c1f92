package drawing

import (
	"encoding/xml"
	"math"
	"strings"
	"testing"
)

// TestSVG: what is written of each kind of mark, by hand.
func TestSVG(t *testing.T) {
	d := New("lay")
	d.Title, d.Desc, d.Box = `a <lay> & "more"`, "what it shows", Box{-1, -2, 9, 8}
	d.Draw(GrainLine).Move(0, 0).Line(1, 0).Line(1, 2).Line(1, 2).Line(-0.24, 0.05)
	d.Draw(FoldMark).Move(3, 3).Curve(3, 4, 4, 5, 5, 5)                                   // the same class: one element
	d.Draw(Notch)                                                                         // nothing
	d.Draw(CutLine).Rect(0, 0, 1, 1)                                                      // an area: its own
	d.Draw(CutLine).Rect(2, 0, 3, 1)                                                      //
	d.Thick(PlyOne, 1.3).Move(0, 0).Line(5, 0)                                            //
	d.Coloured(Swatch, "#a4512f").Move(0, 0).Line(1, 1)                                   //
	d.Say(Label{X: 1, Y: 2, Words: "a & b", Aside: "6 mm", Voice: Small, Anchor: Middle}) //
	d.Say(Label{X: 1, Y: 2, Words: "on", Turn: 90, Size: 1.5})                            //
	d.Say(Label{X: 1, Y: 2})                                                              // nothing
	want := `<svg class="lay" role="img" viewBox="-10 -20 100 100" width="10mm" height="10mm">` +
		`<title>a &lt;lay&gt; &amp; &#34;more&#34;</title><desc>what it shows</desc>` +
		`<path class="grain" d="M0 0h10v20l-12-19M30 30c0 10 10 20 20 20"/>` +
		`<path class="cut" d="M0 0h10v10h-10z"/><path class="cut" d="M20 0h10v10h-10z"/>` +
		`<path class="ply one" stroke-width="13" d="M0 0h50"/><path class="pinked" fill="#a4512f" d="M0 0l10 10"/>` +
		`<text class="small m" x="10" y="20">a &amp; b <tspan>6 mm</tspan></text>` +
		`<text x="10" y="20" transform="rotate(-90 10 20)" style="font-size:15px">on</text></svg>`
	if got := string(d.SVG(nil)); got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
}

// TestFree: a drawing in room that was used begins empty.
func TestFree(t *testing.T) {
	d := New("a")
	d.Title = "a"
	d.Draw(CutLine).Rect(0, 0, 1, 1)
	d.Free()
	e := New("b")
	e.Box = Box{0, 0, 1, 1}
	e.Draw(SewLine).Move(0, 0).Line(1, 1)
	if got := string(e.SVG(nil)); got != `<svg aria-hidden="true" viewBox="0 0 10 10" width="1mm" height="1mm"><path class="sew" d="M0 0l10 10"/></svg>` {
		t.Error(got)
	}
}

// TestTurned: by a quarter against the clock, what lies to the right lies up.
func TestTurned(t *testing.T) {
	d := New("x")
	d.Box = Box{0, 0, 20, 10}
	d.Draw(SewLine).Move(0, 0).Line(20, 0).Line(20, 10)
	d.Say(Label{X: 20, Y: 10, Words: "x"})
	e := d.Turned()
	if e.Box != (Box{0, -20, 10, 0}) || e.Wide() != 10 {
		t.Errorf("%+v", e.Box)
	}
	if p := e.Path(0).Points; p[1] != (Point{X: 0, Y: -20}) || p[2] != (Point{X: 10, Y: -20}) {
		t.Errorf("%v", p)
	}
	if l := e.Marks[1].Label; l.X != 10 || l.Y != -20 || l.Turn != 90 || d.Marks[1].Label.Turn != 0 {
		t.Errorf("%+v", l)
	}
}

// TestRighted: words that read to the left are turned round where they stand. What ends at
// (50, 0) and reads to the left begins there once it is turned; its letters, which reached
// three quarters of their size down, now reach as far up from a base line that much lower.
// Words that read up, or to the right, stay.
func TestRighted(t *testing.T) {
	size := FullSize.Letters(&Label{Voice: Small}).Size
	for _, c := range []struct{ was, want Label }{
		{Label{X: 50, Words: "a", Voice: Small, Anchor: End, Turn: 180}, Label{X: 50, Y: 0.75 * size, Words: "a", Voice: Small, Anchor: Begin}},
		{Label{X: 50, Words: "a", Voice: Small, Anchor: Middle, Turn: 270}, Label{X: 50 + 0.75*size, Words: "a", Voice: Small, Anchor: Middle, Turn: 90}},
		{Label{X: 50, Words: "a", Turn: 90}, Label{X: 50, Words: "a", Turn: 90}},
		{Label{X: 50, Words: "a", Turn: -45}, Label{X: 50, Words: "a", Turn: -45}},
	} {
		d := New("x")
		d.Say(c.was)
		d.Righted(&FullSize)
		got := *d.Marks[0].Label
		if math.Abs(got.X-c.want.X) > 1e-9 || math.Abs(got.Y-c.want.Y) > 1e-9 || got.Turn != c.want.Turn || got.Anchor != c.want.Anchor {
			t.Errorf("%+v becomes %+v, want %+v", c.was, got, c.want)
		}
	}
}

func TestFinite(t *testing.T) {
	for _, v := range []float64{math.NaN(), math.Inf(1), math.Inf(-1)} {
		d := New("x")
		d.Box = Box{0, 0, 1, 1}
		if !d.Finite() {
			t.Fatal("an empty drawing")
		}
		if d.Draw(SewLine).Move(0, v); d.Finite() {
			t.Errorf("%v is a place", v)
		}
	}
}

// TestThinned: a circle of 360 points, 20 mm across, needs a few dozen, none
// of which it strays from by more than Eye.
func TestThinned(t *testing.T) {
	var ring []Point
	for i := range 360 {
		sin, cos := math.Sincos(float64(i) * math.Pi / 180)
		ring = append(ring, Point{X: 10 * cos, Y: 10 * sin})
	}
	var p Path
	p.Thinned(Frame{K: 1}, ring)
	if n := len(p.Points); n < 16 || n > 60 {
		t.Errorf("%d points", n)
	}
	for i := 1; i < len(p.Points); i++ {
		a, b := p.Points[i-1], p.Points[i]
		if mid := math.Hypot((a.X+b.X)/2, (a.Y+b.Y)/2); mid < 10-Eye-0.01 {
			t.Errorf("strays by %v", 10-mid)
		}
	}
}

// FuzzWords: no word becomes markup, whatever stands in it.
func FuzzWords(f *testing.F) {
	f.Add("a", "b")
	f.Add(`"><script>`, "\x00&\xff")
	f.Fuzz(func(t *testing.T, a, b string) {
		d := New("x")
		d.Title, d.Desc, d.Box = a, b, Box{0, 0, 1, 1}
		d.Say(Label{Words: b, Aside: a})
		dec := xml.NewDecoder(strings.NewReader(strings.ToValidUTF8(string(d.SVGFile(&Print)), "?")))
		for {
			tok, err := dec.Token()
			if tok == nil {
				if err.Error() != "EOF" && !strings.Contains(err.Error(), "illegal character code") {
					t.Fatal(err)
				}
				return
			}
			if s, ok := tok.(xml.StartElement); ok && !strings.Contains(" svg title desc style text tspan ", " "+s.Name.Local+" ") {
				t.Fatalf("element %s", s.Name.Local)
			}
		}
	})
}

// TestLooks: every meaning that a look shows has a class for pages, so that
// no medium has lines that another one lacks.
func TestLooks(t *testing.T) {
	for m := range meanings {
		if pen := Print.pens[m]; (pen.Ink != NoInk || pen.Fill != NoInk) && classes[m] == "" {
			t.Errorf("meaning %d has a look on paper and no class", m)
		}
	}
}

// TestAgain: a mark that is known is written once on a page and then led to, and is
// the same path wherever nothing can be led to.
func TestAgain(t *testing.T) {
	first := New("net").Keep()
	mark, p := first.Known(NetNow, "a1")
	p.Move(1, 2).Line(3, 4)
	then := New("net").Keep()
	then.Again(DartLeg, first, mark)
	for _, d := range []*Drawing{first, then} {
		d.Title, d.Box = "x", Box{Right: 10, Bottom: 10}
	}
	for _, c := range []struct{ name, got, want string }{
		{"first on a page", string(first.SVG(nil)), `<g class="thread"><path id="a1" d="M10 20l20 20"/></g></svg>`},
		{"again on a page", string(then.SVG(nil)), `<use class="dart" href="#a1"/></svg>`},
		{"again on a sheet", string(then.SheetSVG(nil)), `<path class="dart" d="M100 200l200 200"/></svg>`},
		{"turned", string(then.Turned().SheetSVG(nil)), `<path class="dart" d="M200-100l200-200"/></svg>`},
	} {
		if !strings.HasSuffix(c.got, c.want) {
			t.Errorf("%s: %s does not end in %s", c.name, c.got, c.want)
		}
	}
	if got := then.Path(0).Points; len(got) != 2 || got[1] != (Point{X: 3, Y: 4}) {
		t.Errorf("the path of a mark drawn again is %v", got)
	}
}

// TestRepeat: a shared drawing is written once on a page and then led to; in a file of
// its own all of it stands.
func TestRepeat(t *testing.T) {
	first := New("section")
	first.Box = Box{Right: 10, Bottom: 5}
	first.Draw(Thread).Move(0, 0).Line(1, 2)
	first.Shared("way-1")
	if got := string(first.SVG(nil)); !strings.Contains(got, `<svg id="way-1"`) || !strings.Contains(got, `<path class="thread" d="M0 0l10 20"/>`) {
		t.Errorf("the first is %s", got)
	}
	again := Repeat(first)
	if got := string(again.SVG(nil)); !strings.Contains(got, `viewBox="0 0 100 50"`) || !strings.Contains(got, `<use href="#way-1" x="0" y="0" width="100" height="50"/>`) || strings.Contains(got, "<path") {
		t.Errorf("the second is %s", got)
	}
	if got := string(again.SheetSVG(nil)); !strings.Contains(got, "<path") || strings.Contains(got, "<use") {
		t.Errorf("on a sheet it is %s", got)
	}
}
