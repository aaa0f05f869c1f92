package paper

import (
	"bytes"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hembook/internal/document"
	"hembook/internal/drawing"
)

// slant is a drawing larger than a page with one slanted line through it.
func slant() Large {
	d := sized(500, 400, "a slanted line")
	d.Draw(drawing.Notch).Move(10, 20).Line(490, 380)
	return Large{Name: "slant", Drawing: d, Fixed: true}
}

func cover() document.Book {
	return document.Alone(document.Document{Title: "cover", Language: "en", Blocks: []document.Block{document.Heading{Level: 1, Words: "Cover"}}})
}

// middle is where, across a level line at y millimetres of a page, darkness
// has its middle between two places; false where there is none.
func (b bitmap) middle(y, from, to float64) (float64, bool) {
	row := int(y * b.dpi / 25.4)
	sum, weight := 0.0, 0.0
	for x := int(from * b.dpi / 25.4); x < int(to*b.dpi/25.4) && x < b.wide; x++ {
		dark := float64(255 - b.grey[row*b.wide+x])
		sum, weight = sum+dark*(float64(x)+0.5), weight+dark
	}
	return sum / weight * 25.4 / b.dpi, weight > 300
}

// TestSheetsJoin renders neighbouring sheets at 300 dots to the inch: the line
// that crosses from one to the other stands in the strip they share at the
// same place on both, and where it stands in the drawing, within 0.1 mm.
func TestSheetsJoin(t *testing.T) {
	for _, size := range []document.Size{document.A4, document.Letter} {
		plan, err := PlanTiles([]Large{slant()}, StockOf(size))
		if err != nil {
			t.Fatal(err)
		}
		data, err := plan.PDF(cover(), Options{})
		if err != nil {
			t.Fatal(err)
		}
		look(t, "slant-"+size.String()+".pdf", data)
		looked, joins := 0, 0
		pages := make([]bitmap, len(plan.Tiles))
		for i := range plan.Tiles {
			pages[i] = render(t, data, i+2, 300) // the cover is page 1
		}
		// every row of the drawing between the ends of the line
		for y := 25.0; y < 376; y += 1.7 {
			want := 10 + (y-20)*480/360
			seen := 0
			for i, s := range plan.Tiles {
				at := s.Placed[0]
				fw, fh := plan.Stock.field()
				if px, py := want+at.X, y+at.Y; px < 3 || px > fw-3 || py < 1 || py > fh-1 || onAMark(px, py, fw, fh) {
					continue
				}
				row := math.Floor((y+at.Y+printerMargin)*300/25.4) + 0.5 // the row of dots that is looked at
				exact := 10 + (row*25.4/300-printerMargin-at.Y-20)*480/360
				got, ok := pages[i].middle(y+at.Y+printerMargin, want+at.X+printerMargin-1.5, want+at.X+printerMargin+1.5)
				if !ok {
					t.Errorf("%v, sheet %d: the line is missing at y = %.1f", size, i+1, y)
					continue
				}
				if off := got - printerMargin - at.X - exact; math.Abs(off) > 0.1 {
					t.Errorf("%v, sheet %d, y = %.1f: the line stands %.3f mm off", size, i+1, y, off)
				}
				looked++
				seen++
			}
			if seen > 1 {
				joins++
			}
		}
		if looked < 150 || joins < 5 {
			t.Errorf("%v: only %d places were looked at, %d of them on two sheets", size, looked, joins)
		}
	}
}

// onAMark reports whether a place in a field is so near a register mark or a
// line of a join that its darkness is not the drawing's alone.
func onAMark(x, y, wide, high float64) bool {
	for _, edge := range []float64{0, wide - overlap} {
		if math.Abs(x-edge) < 3 {
			return true
		}
	}
	for _, edge := range []float64{0, high - overlap} {
		if math.Abs(y-edge) < 1 {
			return true
		}
	}
	for _, mx := range []float64{overlap / 2, wide - overlap/2, wide / 4, wide / 2, wide * 3 / 4} {
		for _, my := range []float64{overlap / 2, high - overlap/2, high / 4, high / 2, high * 3 / 4} {
			if math.Abs(x-mx) < 9 && math.Abs(y-my) < 9 {
				return true
			}
		}
	}
	return false
}

// TestEverySheetShowsSomething: no place of a drawing is on no sheet, and no
// sheet is there for nothing.
func TestEverySheetShowsSomething(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var larges []Large
		for range rapid.IntRange(1, 5).Draw(t, "pieces") {
			w, h := rapid.Float64Range(20, 1500).Draw(t, "wide"), rapid.Float64Range(20, 1500).Draw(t, "high")
			n := rapid.IntRange(3, 9).Draw(t, "corners")
			var area []drawing.Point
			for i := range n { // a star about the middle: any shape without crossings
				a := 2 * math.Pi * float64(i) / float64(n)
				r := rapid.Float64Range(0.1, 1).Draw(t, "far")
				area = append(area, drawing.Point{X: w/2 + w/2*r*math.Cos(a), Y: h/2 + h/2*r*math.Sin(a)})
			}
			larges = append(larges, Large{Name: "piece", Drawing: sized(w, h, "piece"), Area: area, Fixed: rapid.Bool().Draw(t, "fixed")})
		}
		stock := rapid.SampledFrom([]Stock{StockOf(document.A4), StockOf(document.Letter), {Wide: 914}, {Wide: 610}}).Draw(t, "stock")
		plan, err := PlanTiles(larges, stock)
		if err != nil {
			t.Fatal(err)
		}
		fw, fh := stock.field()
		for i, s := range plan.Tiles {
			if len(s.Placed) == 0 {
				t.Fatalf("sheet %d is blank", i+1)
			}
			for k, at := range s.Placed {
				d, area := plan.lying(at)
				if !touches(area, -at.X, -at.Y, fw-at.X, fh-at.Y) {
					t.Fatalf("sheet %d shows nothing of %d", i+1, at.Large)
				}
				if !s.Window && (at.X < 0 || at.Y < 0 || at.X+d.Wide() > fw+1e-6 || at.Y+d.High() > fh+1e-6) {
					t.Fatalf("sheet %d: a drawing hangs over", i+1)
				}
				for _, other := range s.Placed[:k] {
					o, _ := plan.lying(other)
					if at.X < other.X+o.Wide() && other.X < at.X+d.Wide() && at.Y < other.Y+o.High() && other.Y < at.Y+d.High() {
						t.Fatalf("sheet %d: two drawings lie on each other", i+1)
					}
				}
			}
		}
		for l := range larges {
			checkCovered(t, plan, l, fw, fh)
		}
	})
}

// checkCovered looks at points spread over an area's triangles from its middle.
func checkCovered(t *rapid.T, plan TilePlan, large int, fw, fh float64) {
	area := larger(plan, large)
	mid := drawing.Point{X: plan.Larges[large].Drawing.Wide() / 2, Y: plan.Larges[large].Drawing.High() / 2}
	for i, a := range area {
		b := area[(i+1)%len(area)]
		for _, u := range []float64{0.02, 0.3, 0.6, 0.96} {
			for _, v := range []float64{0.02, 0.4, 0.98} {
				q := drawing.Point{X: mid.X + u*((a.X-mid.X)*(1-v)+(b.X-mid.X)*v), Y: mid.Y + u*((a.Y-mid.Y)*(1-v)+(b.Y-mid.Y)*v)}
				on := 0
				for _, s := range plan.Tiles {
					for _, at := range s.Placed {
						if at.Large != large {
							continue
						}
						p := q
						if at.Turned {
							p = drawing.Point{X: q.Y, Y: plan.Larges[large].Drawing.Wide() - q.X}
						}
						if x, y := p.X+at.X, p.Y+at.Y; x >= -1e-6 && x <= fw+1e-6 && y >= -1e-6 && y <= fh+1e-6 {
							on++
						}
					}
				}
				if on == 0 {
					t.Fatalf("(%.1f, %.1f) of drawing %d is on no sheet", q.X, q.Y, large)
				}
			}
		}
	}
}

func larger(plan TilePlan, large int) []drawing.Point {
	_, area := plan.lying(Placed{Large: large})
	return area
}

// TestSheetsByHand: a field of A4 is 190 × 272 mm, and each further sheet
// adds 180 × 262.
func TestSheetsByHand(t *testing.T) {
	for _, c := range []struct {
		wide, high float64
		want       int
	}{
		{190, 272, 1},
		{191, 272, 2}, // a millimetre too wide; turned it is a millimetre too high and 1 wide
		{272, 190, 1}, // turned
		{370, 272, 2},
		{371, 272, 3}, // turned it would be 2 × 2
		{370, 534, 4}, // 180 + 190 by 262 + 272
		{550, 796, 9},
	} {
		plan, err := PlanTiles([]Large{{Name: "p", Drawing: sized(c.wide, c.high, "p")}}, StockOf(document.A4))
		if err != nil {
			t.Fatal(err)
		}
		if len(plan.Tiles) != c.want {
			t.Errorf("%v × %v mm: %d sheets, not %d", c.wide, c.high, len(plan.Tiles), c.want)
		}
	}
}

func TestWhatCannotBePlanned(t *testing.T) {
	one := Large{Name: "p", Drawing: sized(100, 100, "p")}
	huge := Large{Name: "p", Drawing: sized(1e5, 1e5, "p")}
	for _, c := range []struct {
		larges []Large
		stock  Stock
		want   string
	}{
		{nil, StockOf(document.A4), "nothing to print"},
		{[]Large{one}, Stock{Wide: 50}, "the width must lie between"},
		{[]Large{one}, Stock{Wide: math.NaN()}, "the width must lie between"},
		{[]Large{one}, Stock{Wide: 300, High: 1e9}, "the width must lie between"},
		{[]Large{huge}, StockOf(document.A4), "more than 2000"},
		{[]Large{{Name: "p"}}, StockOf(document.A4), "has no size"},
	} {
		if _, err := PlanTiles(c.larges, c.stock); err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v on %v: %v, want %q", len(c.larges), c.stock, err, c.want)
		}
	}
}

// TestAskedNotToScale: viewers are asked to print at full size, and the file
// is still a whole one that says its language.
func TestAskedNotToScale(t *testing.T) {
	plan, err := PlanTiles([]Large{slant()}, Stock{Wide: 914})
	if err != nil {
		t.Fatal(err)
	}
	data, err := plan.PDF(cover(), Options{})
	if err != nil {
		t.Fatal(err)
	}
	again, _ := plan.PDF(cover(), Options{})
	if !bytes.Equal(data, again) {
		t.Error("the second run has other bytes")
	}
	if !bytes.Contains(data, []byte("/Lang (en)\n/ViewerPreferences <</PrintScaling /None>> %)\n")) {
		t.Error("the catalogue does not ask for full size")
	}
	// 500 × 400 mm and its margins on a roll 914 mm wide: 425 mm long
	if info := run(t, data, "pdfinfo", "-l", "9"); !strings.Contains(info, "Page    2 size:  2590.87 x 1204.72 pts") {
		t.Error(info)
	}
}
