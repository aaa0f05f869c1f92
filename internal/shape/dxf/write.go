package dxf

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"hembook/internal/shape"
	"hembook/internal/shape/trace"
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

// A pen writes pairs.
type pen struct{ bytes.Buffer }

func (p *pen) pair(code int, value string) { fmt.Fprintf(p, "%3d\n%s\n", code, value) }

func (p *pen) number(code int, v float64) {
	p.pair(code, strconv.FormatFloat(v+0, 'f', decimals, 64))
}

func (p *pen) point(code int, at shape.Point) {
	p.number(code, at.X)
	p.number(code+10, at.Y)
	p.number(code+20, 0)
}

// Pieces writes a block for each piece, placed side by side: its sewing line
// on layer 14, a polyline for each edge, its cut line on layer 1, and so on;
// see layers.go. [Read] reads the same pieces from it.
func Pieces(pieces []trace.Given) []byte {
	p := &pen{}
	p.head()
	p.pair(0, "SECTION")
	p.pair(2, "BLOCKS")
	names := blockNames(pieces)
	for i := range pieces {
		p.block(names[i], &pieces[i])
	}
	p.pair(0, "ENDSEC")
	p.pair(0, "SECTION")
	p.pair(2, "ENTITIES")
	p.text(layerWords, shape.Point{}, "Units: METRIC")
	spots, _, _ := trace.Arrange(pieces, rowWide, between)
	for i, s := range spots {
		p.pair(0, "INSERT")
		p.layer(layerBoundary)
		p.pair(2, names[i])
		p.point(10, shape.Point{X: s.X, Y: s.Y})
	}
	p.pair(0, "ENDSEC")
	p.pair(0, "EOF")
	return p.Bytes()
}

func (p *pen) layer(n int) { p.pair(8, strconv.Itoa(n)) }

// head writes the header and the tables.
func (p *pen) head() {
	p.pair(0, "SECTION")
	p.pair(2, "HEADER")
	p.pair(9, "$ACADVER")
	p.pair(1, "AC1009") // release 12
	p.pair(9, "$INSUNITS")
	p.pair(70, "4") // millimetres
	p.pair(0, "ENDSEC")
	p.pair(0, "SECTION")
	p.pair(2, "TABLES")
	p.pair(0, "TABLE")
	p.pair(2, "LTYPE")
	p.pair(70, "1")
	p.pair(0, "LTYPE")
	for _, one := range [][2]string{{"2", "CONTINUOUS"}, {"70", "0"}, {"3", "Solid line"}, {"72", "65"}, {"73", "0"}, {"40", "0"}} {
		code, _ := strconv.Atoi(one[0])
		p.pair(code, one[1])
	}
	p.pair(0, "ENDTAB")
	layers := []int{0, layerBoundary, layerNotches, layerMirror, layerGrain, layerInside, layerSewing, layerWords}
	p.pair(0, "TABLE")
	p.pair(2, "LAYER")
	p.pair(70, strconv.Itoa(len(layers)))
	for _, l := range layers {
		p.pair(0, "LAYER")
		p.pair(2, strconv.Itoa(l))
		p.pair(70, "0")
		p.pair(62, "7")
		p.pair(6, "CONTINUOUS")
	}
	p.pair(0, "ENDTAB")
	p.pair(0, "TABLE")
	p.pair(2, "APPID")
	p.pair(70, "1")
	p.pair(0, "APPID")
	p.pair(2, application)
	p.pair(70, "0")
	p.pair(0, "ENDTAB")
	p.pair(0, "ENDSEC")
}

// blockNames are the pieces' names as release 12 allows them: 31 capitals,
// digits, hyphens and underscores, all different.
func blockNames(pieces []trace.Given) []string {
	seen := map[string]bool{}
	out := make([]string, len(pieces))
	for i := range pieces {
		name := strings.Map(func(r rune) rune {
			if r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '-' {
				return r
			}
			return '_'
		}, strings.ToUpper(pieces[i].Name))
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

func (p *pen) block(name string, g *trace.Given) {
	p.pair(0, "BLOCK")
	p.layer(layerBoundary)
	p.pair(2, name)
	p.pair(70, "0")
	p.point(10, shape.Point{})
	p.pair(3, name)
	least, most := g.Outline.Bounds()
	at := shape.Point{X: least.X + (most.X-least.X)/4, Y: least.Y + (most.Y-least.Y)*0.6}
	p.text(layerBoundary, at, "Piece Name: "+g.Name)
	for i, line := range g.Words {
		p.text(layerWords, at.Sub(shape.Point{Y: float64(i+1) * 9}), line)
	}
	for _, r := range g.Cut {
		p.polyline(layerBoundary, r, true, "")
	}
	edges := g.Edges()
	for _, e := range edges {
		p.line(layerSewing, e, len(edges) == 1)
	}
	for i, e := range g.Outline.Edges {
		if e.Fold {
			p.segment(layerMirror, g.Outline.Start(i), e.To, "")
		}
	}
	for _, m := range g.Marks() {
		p.line(markLayers[m.Role], m, false)
	}
	p.pair(0, "ENDBLK")
	p.layer(layerBoundary)
}

var markLayers = map[trace.Role]int{trace.Origin: layerWords, trace.Grain: layerGrain, trace.DartLine: layerInside, trace.NotchMark: layerNotches, trace.LevelLine: layerInside}

// line writes a point, a segment or a polyline, curves as chords.
func (p *pen) line(layer int, m trace.Named, closed bool) {
	switch {
	case len(m.Line) == 0:
		p.pair(0, "POINT")
		p.layer(layer)
		p.point(10, m.From)
		p.called(m.Name)
	case len(m.Line) == 1 && !m.Line[0].Curved && !closed:
		p.segment(layer, m.From, m.Line[0].To, m.Name)
	default:
		back := shape.Edge{To: m.From}
		ring, _ := shape.Outline{From: m.From, Edges: append(append([]shape.Edge(nil), m.Line...), back)}.Flatten(chord)
		if closed {
			ring = ring[:len(ring)-1]
		}
		p.polyline(layer, ring, closed, m.Name)
	}
}

func (p *pen) segment(layer int, from, to shape.Point, name string) {
	p.pair(0, "LINE")
	p.layer(layer)
	p.point(10, from)
	p.point(11, to)
	p.called(name)
}

func (p *pen) polyline(layer int, points []shape.Point, closed bool, name string) {
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
func (p *pen) called(name string) {
	if name == "" {
		return
	}
	p.pair(1001, application)
	p.pair(1000, ascii(name))
}

func (p *pen) text(layer int, at shape.Point, words string) {
	p.pair(0, "TEXT")
	p.layer(layer)
	p.point(10, at)
	p.number(40, 6)
	p.pair(1, ascii(words))
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

// Lay writes a cloth with its pieces: x along the cloth, y across it; the
// cloth's own edges on layer 0.
func Lay(l trace.LaidCloth) []byte {
	p := &pen{}
	p.head()
	p.pair(0, "SECTION")
	p.pair(2, "ENTITIES")
	p.text(layerWords, shape.Point{}, "Units: METRIC")
	p.polyline(0, []shape.Point{{}, {X: l.Length}, {X: l.Length, Y: l.Wide}, {Y: l.Wide}}, true, "")
	for _, one := range l.Pieces {
		p.polyline(layerBoundary, one.Outline, true, "")
		least, most := shape.Ring(one.Outline).Bounds()
		p.text(layerWords, shape.Point{X: (least.X + most.X) / 2, Y: (least.Y + most.Y) / 2}, strconv.Itoa(one.Number)+" "+one.Name)
	}
	p.pair(0, "ENDSEC")
	p.pair(0, "EOF")
	return p.Bytes()
}
