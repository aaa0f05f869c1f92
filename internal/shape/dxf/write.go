package dxf

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"hembook/internal/drawing"
	"hembook/internal/shape"
)

// application is the name under which lines carry what they are called, as
// extended data (group codes 1001 and 1000; from memory: DXF reference,
// release 12). Programs that do not know it pass it over.
const application = "HEMBOOK"

const (
	decimals = 4     // of a millimetre
	rowWide  = 1500  // millimetres, roughly
	between  = 20    // millimetres between pieces
	chord    = 0.002 // millimetres a curve's chords may lie from it
)

// A writer writes pairs. Drawings have y downward, files upward: the (0, 0) of a
// drawing lies at zero.
type writer struct {
	bytes.Buffer
	zero shape.Point
}

func (p *writer) pair(code int, value string) { fmt.Fprintf(p, "%3d\n%s\n", code, value) }

// pairs writes several, each as its code and then its value.
func (p *writer) pairs(list ...string) {
	for _, one := range list {
		code, value, _ := strings.Cut(one, " ")
		n, _ := strconv.Atoi(code)
		p.pair(n, value)
	}
}

func (p *writer) number(code int, v float64) {
	p.pair(code, strconv.FormatFloat(v+0, 'f', decimals, 64))
}

func (p *writer) point(code int, at shape.Point) {
	p.number(code, p.zero.X+at.X)
	p.number(code+10, p.zero.Y-at.Y)
	p.number(code+20, 0)
}

// layerOf is where lines of a meaning stand; what has no layer is left out.
var layerOf = map[drawing.Meaning]int{
	drawing.CutLine: layerBoundary, drawing.SewLine: layerSewing, drawing.FoldMark: layerMirror, drawing.Origin: layerWords, drawing.GrainLine: layerGrain,
	drawing.DartLeg: layerInside, drawing.PleatFold: layerInside, drawing.InnerLine: layerInside, drawing.SlitLine: layerInside, drawing.CreaseLine: layerInside, drawing.Notch: layerNotches, drawing.LevelLine: layerInside, drawing.LayCloth: 0,
	drawing.TapeLine: layerInside, drawing.BoneLine: layerInside, drawing.ElasticLine: layerInside, drawing.CordLine: layerInside,
	drawing.GatherLine: layerInside, drawing.RowLine: layerInside, drawing.ButtonPlace: layerDrillHoles, drawing.Buttonhole: layerInside,
}

// Pieces writes a block for the drawing of each piece, placed side by side: its
// sewing line on layer 14, a polyline for each edge, its cut line on layer 1,
// and so on; see layers.go. [Read] reads the same pieces from it.
func Pieces(pieces []*drawing.Drawing) []byte {
	p := &writer{}
	p.head()
	p.pair(0, "SECTION")
	p.pair(2, "BLOCKS")
	names := blockNames(pieces)
	for i, d := range pieces {
		p.block(names[i], d)
	}
	p.pair(0, "ENDSEC")
	p.pair(0, "SECTION")
	p.pair(2, "ENTITIES")
	p.units()
	spots, _, h := drawing.Rows(pieces, rowWide, between)
	for i, s := range spots {
		p.pair(0, "INSERT")
		p.layer(layerBoundary)
		p.pair(2, names[i])
		p.point(10, shape.Point{X: s.X, Y: s.Y - h})
	}
	p.pair(0, "ENDSEC")
	p.pair(0, "EOF")
	return p.Bytes()
}

// Lay writes a drawing of a cloth with its pieces, the cloth's own edges on
// layer 0.
func Lay(d *drawing.Drawing) []byte {
	p := &writer{}
	p.head()
	p.pair(0, "SECTION")
	p.pair(2, "ENTITIES")
	p.units()
	p.zero = shape.Point{X: -d.Box.Left, Y: d.Box.Bottom}
	p.entities(d, false)
	p.pair(0, "ENDSEC")
	p.pair(0, "EOF")
	return p.Bytes()
}

func (p *writer) units() { p.text(layerWords, drawing.Label{Words: "Units: METRIC"}) }

func (p *writer) layer(n int) { p.pair(8, strconv.Itoa(n)) }

// head writes the header and the tables.
func (p *writer) head() {
	p.pairs("0 SECTION", "2 HEADER", "9 $ACADVER", "1 AC1009", "9 $INSUNITS", "70 4", "0 ENDSEC") // release 12, millimetres
	p.pairs("0 SECTION", "2 TABLES", "0 TABLE", "2 LTYPE", "70 1")
	p.pairs("0 LTYPE", "2 CONTINUOUS", "70 0", "3 Solid line", "72 65", "73 0", "40 0", "0 ENDTAB")
	layers := []int{0, layerBoundary, layerNotches, layerMirror, layerGrain, layerInside, layerDrillHoles, layerSewing, layerWords}
	p.pairs("0 TABLE", "2 LAYER", "70 "+strconv.Itoa(len(layers)))
	for _, l := range layers {
		p.pairs("0 LAYER", "2 "+strconv.Itoa(l), "70 0", "62 7", "6 CONTINUOUS")
	}
	p.pairs("0 ENDTAB", "0 TABLE", "2 APPID", "70 1", "0 APPID", "2 "+application, "70 0", "0 ENDTAB", "0 ENDSEC")
}

// blockNames are the pieces' names as release 12 allows them: 31 capitals,
// digits, hyphens and underscores, all different.
func blockNames(pieces []*drawing.Drawing) []string {
	seen := map[string]bool{}
	out := make([]string, len(pieces))
	for i := range pieces {
		name := strings.Map(func(r rune) rune {
			if r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' {
				return r
			}
			return '_'
		}, strings.ToUpper(pieces[i].Title))
		name = name[:min(len(name), 24)]
		if name == "" {
			name = "PIECE"
		}
		out[i] = name
		for n := 2; seen[out[i]]; n++ {
			out[i] = name + "_" + strconv.Itoa(n)
		}
		seen[out[i]] = true
	}
	return out
}

func (p *writer) block(name string, d *drawing.Drawing) {
	p.pair(0, "BLOCK")
	p.layer(layerBoundary)
	p.pair(2, name)
	p.pair(70, "0")
	p.point(10, shape.Point{})
	p.pair(3, name)
	p.text(layerBoundary, drawing.Label{X: d.Box.Left + d.Wide()/4, Y: d.Box.Top + d.High()*0.4, Words: "Piece Name: " + d.Title, Size: 6})
	p.entities(d, true)
	p.pair(0, "ENDBLK")
	p.layer(layerBoundary)
}

// entities writes what is drawn, by its names if they are to be told.
func (p *writer) entities(d *drawing.Drawing, named bool) {
	for i, m := range d.Marks {
		if m.Label != nil {
			p.text(layerWords, *m.Label)
			continue
		}
		layer, ok := layerOf[m.Means]
		if !ok {
			continue
		}
		if !named {
			m.Name = ""
		}
		for _, part := range d.Path(i).Parts() {
			p.line(layer, part, m.Name)
		}
	}
}

// line writes a point, a segment or a polyline, curves as chords.
func (p *writer) line(layer int, part drawing.Path, name string) {
	switch at := part.Points; {
	case len(at) == 1:
		p.pair(0, "POINT")
		p.layer(layer)
		p.point(10, at[0])
		p.called(name)
	case len(at) == 2 && !part.Closed():
		p.segment(layer, at[0], at[1], name)
	default:
		p.polyline(layer, flat(part), part.Closed(), name)
	}
}

// flat is a line in straight stretches.
func flat(part drawing.Path) []shape.Point {
	o := shape.Outline{From: part.Points[0]}
	part.Each(func(op drawing.Op, at []drawing.Point) {
		switch op {
		case drawing.LineTo:
			o.Edges = append(o.Edges, shape.Edge{To: at[0]})
		case drawing.CurveTo:
			o.Edges = append(o.Edges, shape.Edge{Curved: true, C1: at[0], C2: at[1], To: at[2]})
		}
	})
	if !part.Closed() || o.Edges[len(o.Edges)-1].To != o.From {
		o.Edges = append(o.Edges, shape.Edge{To: o.From})
	}
	ring, _ := o.Flatten(chord)
	return ring
}

func (p *writer) segment(layer int, from, to shape.Point, name string) {
	p.pair(0, "LINE")
	p.layer(layer)
	p.point(10, from)
	p.point(11, to)
	p.called(name)
}

func (p *writer) polyline(layer int, points []shape.Point, closed bool, name string) {
	p.pair(0, "POLYLINE")
	p.layer(layer)
	p.pair(66, "1")
	p.point(10, shape.Point{})
	flag := "0"
	if closed {
		flag = "1"
	}
	p.pair(70, flag)
	p.called(name)
	for _, q := range points {
		p.pair(0, "VERTEX")
		p.layer(layer)
		p.point(10, q)
	}
	p.pair(0, "SEQEND")
	p.layer(layer)
}

// called writes what an entity is called.
func (p *writer) called(name string) {
	if name == "" {
		return
	}
	p.pair(1001, application)
	p.pair(1000, ascii(name))
}

// text writes words, begun, centred or ended at their place (group codes 72
// and 11; from memory: DXF reference, TEXT).
func (p *writer) text(layer int, l drawing.Label) {
	p.pair(0, "TEXT")
	p.layer(layer)
	p.point(10, shape.Point{X: l.X, Y: l.Y})
	p.number(40, drawing.FullSize.Letters(&l).Size)
	p.pair(1, ascii(l.Words))
	if l.Turn != 0 {
		p.number(50, l.Turn)
	}
	if l.Anchor != drawing.Begin {
		p.pair(72, strconv.Itoa(int(l.Anchor)))
		p.point(11, shape.Point{X: l.X, Y: l.Y})
	}
}

// ascii writes letters beyond ASCII by their numbers, and no line ends.
func ascii(s string) string {
	var b strings.Builder
	for _, r := range s {
		switch {
		case r < 0x20 || r == 0x7f:
			b.WriteByte(' ')
		case r < 0x7f:
			b.WriteRune(r)
		case r <= 0xffff:
			fmt.Fprintf(&b, `\U+%04X`, r)
		default:
			b.WriteByte('?')
		}
	}
	return b.String()
}
