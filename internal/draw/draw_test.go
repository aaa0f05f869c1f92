package draw

import (
	"encoding/xml"
	"errors"
	"io"
	"os"
	"regexp"
	"strings"
	"testing"

	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/shape"
	"hembook/internal/trade"
)

// bodice is a front cut on fold with a curve, a dart and a level.
func bodice(t testing.TB) *garment.Piece {
	t.Helper()
	o := shape.Outline{From: shape.Point{}, Edges: []shape.Edge{
		{Name: "waist", To: shape.Point{X: 172}},
		{Name: "side", To: shape.Point{X: 236, Y: 208}},
		{Name: "armhole", To: shape.Point{X: 198, Y: 372}, C1: shape.Point{X: 196, Y: 236}, C2: shape.Point{X: 190, Y: 320}, Curved: true},
		{Name: "shoulder", To: shape.Point{X: 92, Y: 408}},
		{Name: "neck", To: shape.Point{X: 0, Y: 318}, C1: shape.Point{X: 84, Y: 340}, C2: shape.Point{X: 40, Y: 318}, Curved: true},
		{Name: "centre", To: shape.Point{}, Fold: true},
	}}
	cut, err := o.CutOutline([]float64{15, 15, 15, 15, 6, 0}, nil)
	if err != nil {
		t.Fatal(err)
	}
	dart, err := shape.Dart{Edge: "waist", At: 88, Width: 24, Length: 110}.Plan(o)
	if err != nil {
		t.Fatal(err)
	}
	p := &garment.Piece{Name: "front", Outline: o, Cut: cut, OnFold: true, Grain: "along"}
	for i, e := range o.Edges {
		pe := garment.PieceEdge{Name: e.Name, Index: i, Fold: e.Fold, Length: mm(o.EdgeLength(i))}
		if !e.Fold {
			pe.Allowance = mm([]float64{15, 15, 15, 15, 6, 0}[i])
		}
		p.Edges = append(p.Edges, pe)
	}
	p.Darts = []garment.PieceDart{{Plan: dart}}
	p.AtLevels = []garment.LevelWidth{{Level: "bust", Y: 200}}
	return p
}

func mm(v float64) figure.Figure {
	f := figure.Figure{ID: "x"}
	f.Value.Quantity = measure.Quantity{Number: v, Unit: measure.UnitMM}
	return f
}

// wellFormed reads a drawing as XML and returns the classes it uses.
func wellFormed(t *testing.T, svg string) map[string]bool {
	t.Helper()
	classes := map[string]bool{}
	d := xml.NewDecoder(strings.NewReader(svg))
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			return classes
		}
		if err != nil {
			t.Fatalf("%v in %s", err, svg)
		}
		el, ok := tok.(xml.StartElement)
		if !ok {
			continue
		}
		switch el.Name.Local {
		case "svg", "title", "desc", "path", "text", "tspan":
		default:
			t.Errorf("foreign element %s", el.Name.Local)
		}
		for _, a := range el.Attr {
			switch a.Name.Local {
			case "class":
				for c := range strings.FieldsSeq(a.Value) {
					classes[c] = true
				}
			case "d", "role", "viewBox", "width", "height", "x", "y", "fill", "stroke-width":
			default:
				t.Errorf("foreign attribute %s", a.Name.Local)
			}
		}
	}
}

func TestPieceIsToScale(t *testing.T) {
	svg := string(Piece(bodice(t), PieceStyle{Scale: 4}).SVG(nil))
	wellFormed(t, svg)
	m := regexp.MustCompile(`viewBox="\S+ \S+ (\d+) (\d+)" width="([\d.]+)mm" height="([\d.]+)mm"`).FindStringSubmatch(svg)
	if m == nil {
		t.Fatal(svg)
	}
	// ten units for each millimetre on paper
	if m[1] != strings.ReplaceAll(m[3], ".", "") && m[1] != m[3]+"0" {
		t.Errorf("%s units are not %s mm", m[1], m[3])
	}
	// the waist, 172 mm at 1 : 4, is 430 units long on the sewing line
	if !regexp.MustCompile(`class="sew" d="M\d+ \d+h430c?l?`).MatchString(svg) {
		t.Errorf("the waist is not 430 units long: %s", svg)
	}
}

// TestEdgeNamesKeepApart: two short edges that meet at a blunt corner would have
// their names one on the other.
func TestEdgeNamesKeepApart(t *testing.T) {
	o := shape.Outline{From: shape.Point{}, Edges: []shape.Edge{
		{Name: "hem", To: shape.Point{X: 300}}, {Name: "side", To: shape.Point{X: 300, Y: 400}},
		{Name: "shoulder", To: shape.Point{X: 120, Y: 440}}, {Name: "neckline", To: shape.Point{X: 0, Y: 430}},
		{Name: "centre", To: shape.Point{}},
	}}
	cut, err := o.CutOutline([]float64{10, 10, 10, 10, 10}, nil)
	if err != nil {
		t.Fatal(err)
	}
	d := newPiece(&garment.Piece{Outline: o, Cut: cut}, shape.Point{}, shape.Point{Y: 440}, PieceStyle{Scale: 8})
	for i, e := range o.Edges {
		d.p.Edges = append(d.p.Edges, garment.PieceEdge{Name: e.Name, Index: i, Allowance: mm(10)})
	}
	d.labelEdges()
	if len(d.labels) != 5 {
		t.Fatalf("%d names", len(d.labels))
	}
	for i := range d.labels {
		l := d.labels[i]
		others := pieceDrawing{labels: append(append([]edgeLabel{}, d.labels[:i]...), d.labels[i+1:]...)}
		if others.covers(&l) {
			t.Errorf("%s lies on another name", l.name)
		}
	}
}

func TestPieceSaysWhatItShows(t *testing.T) {
	svg := string(Piece(bodice(t), PieceStyle{Scale: 4}).SVG(nil))
	for _, want := range []string{
		"<title>front, drawn 1 : 4</title>", "waist 172 mm, allowance 15 mm", "centre 318 mm, on the fold", "1 dart", "Grain: up the drawing",
		"neck <tspan>6 mm</tspan>", `role="img"`,
	} {
		if !strings.Contains(svg, want) {
			t.Errorf("%q is missing in %s", want, svg)
		}
	}
}

func TestNamesAreEscaped(t *testing.T) {
	p := bodice(t)
	const bad = `<script>alert("1")</script>&`
	p.Name, p.Edges[0].Name, p.AtLevels[0].Level = bad, bad, bad
	svg := string(Piece(p, PieceStyle{Scale: 4}).SVG(nil))
	wellFormed(t, svg)
	if strings.Contains(svg, "<script") {
		t.Error("a name became markup")
	}
	sw := string(Swatch(`red" onload="x`, bad).SVG(nil))
	wellFormed(t, sw)
	if strings.Contains(sw, "onload") {
		t.Error("a colour became an attribute")
	}
}

// TestSections draws every seam type of the trade.
func TestSections(t *testing.T) {
	for _, typ := range trade.SeamTypes() {
		s, err := typ.Section(nil)
		if err != nil {
			t.Fatal(typ.Name, err)
		}
		svg := string(Section(s, SectionWords{Title: typ.Title, Desc: typ.Summary}).SVG(nil))
		wellFormed(t, svg)
		want := len(s.Layers)
		for _, l := range s.Layers {
			if l.Face != 0 { // its right side is a line more
				want++
			}
		}
		if got := strings.Count(svg, `class="ply edge"`); got != want {
			t.Errorf("%s: %d lines of layers and right sides drawn of %d", typ.Name, got, want)
		}
		if strings.Contains(svg, "NaN") || strings.Contains(svg, "Inf") {
			t.Errorf("%s: %s", typ.Name, svg)
		}
	}
}

// TestThemeKnowsEveryClass: a class without a rule would be a line in another
// hand.
func TestThemeKnowsEveryClass(t *testing.T) {
	sheet, err := os.ReadFile("../../themes/plainweave/look/5-drawings.css")
	if err != nil {
		t.Fatal(err)
	}
	classes := wellFormed(t, string(Piece(bodice(t), PieceStyle{Scale: 4}).SVG(nil)))
	for _, typ := range trade.SeamTypes() {
		s, _ := typ.Section(nil)
		for c := range wellFormed(t, string(Section(s, SectionWords{Title: "x"}).SVG(nil))) {
			classes[c] = true
		}
	}
	for c := range wellFormed(t, string(Spread(1, 2, 3, 4, 5, 0, 5, "x").SVG(nil))) {
		classes[c] = true
	}
	for c := range wellFormed(t, string(Swatch("#a4512f", "x").SVG(nil))) {
		classes[c] = true
	}
	for c := range classes {
		if c == "piece" || c == "section" || c == "swatch" { // names of whole drawings
			continue
		}
		if !regexp.MustCompile(`\.` + c + `\b`).Match(sheet) {
			t.Errorf("no rule for .%s", c)
		}
	}
}

// TestThin keeps every point of the ring within the tolerance of what is drawn:
// a circle of 360 points needs far fewer.
func TestThin(t *testing.T) {
	p := bodice(t)
	whole := strings.Count(string(Piece(p, PieceStyle{Scale: 4}).SVG(nil)), "l")
	if whole > 90 {
		t.Errorf("%d line steps for a bodice", whole)
	}
}

func TestPieceSurvivesNonsense(t *testing.T) {
	for _, p := range []*garment.Piece{
		{}, {Name: "x", Edges: []garment.PieceEdge{{Name: "a", Index: 7}, {Name: "b", Index: -1, Fold: true}}},
		{Outline: shape.Outline{Edges: []shape.Edge{{Name: "a"}}}, Edges: []garment.PieceEdge{{Name: "a"}}},
	} {
		wellFormed(t, string(Piece(p, PieceStyle{Scale: 4}).SVG(nil)))
	}
}

func BenchmarkPiece(b *testing.B) {
	p := bodice(b)
	dst := make([]byte, 0, 1<<14)
	b.ReportAllocs()
	for b.Loop() {
		dst = Piece(p, PieceStyle{Scale: 4}).SVG(dst[:0])
	}
	b.ReportMetric(float64(len(dst)), "bytes")
}
