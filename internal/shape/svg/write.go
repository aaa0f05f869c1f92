package svg

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"strconv"
	"strings"

	"hembook/internal/shape"
	"hembook/internal/shape/trace"
)

const (
	decimals = 4    // of a millimetre
	rowWide  = 1500 // millimetres, roughly
	between  = 20   // millimetres between pieces
)

// look is how lines are drawn; the layers are groups of the same classes.
const look = `path,rect{fill:none;stroke:#222;stroke-width:.35}.cut{stroke-width:.6}.sewing{stroke-dasharray:5 2}` +
	`.grain,.levels{stroke-width:.25}.levels{stroke-dasharray:1 2}.origin{stroke-width:.15}text{font:6px sans-serif;fill:#222}.number{font-size:24px;text-anchor:middle}`

// Pieces writes pieces side by side, each a group named after it, in which
// cut line, sewing line (a path for each edge), grain, darts, notches, levels
// and words are groups of their own. [Read] reads the same pieces from it.
func Pieces(title string, pieces []trace.Given) []byte {
	spots, w, h := trace.Arrange(pieces, rowWide, between)
	p := &pen{ids: map[string]bool{}}
	p.open(title, w, h)
	for i := range pieces {
		p.piece(&pieces[i], shape.Point{X: spots[i].X, Y: h - spots[i].Y})
	}
	p.WriteString("</svg>\n")
	return p.Bytes()
}

// A pen writes elements whose ids are all different.
type pen struct {
	bytes.Buffer
	ids map[string]bool
}

func (p *pen) open(title string, w, h float64) {
	wide, high := number(w), number(h)
	fmt.Fprintf(p, `<svg xmlns="%s" width="%smm" height="%smm" viewBox="0 0 %s %s">`+"\n<title>%s</title>\n<style>%s</style>\n",
		nameSpace, wide, high, wide, high, escaped(title), look)
}

func number(v float64) string { return string(shape.AppendNumber(nil, v, decimals)) }

func escaped(s string) string {
	var b strings.Builder
	xml.EscapeText(&b, []byte(strings.ToValidUTF8(s, "")))
	return b.String()
}

// id makes an id of a name: what may not stand in one becomes a hyphen.
func (p *pen) id(name string) string {
	id := strings.Trim(strings.Map(func(r rune) rune {
		if r == '.' || r >= '0' && r <= '9' || r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r > 0x7f {
			return r
		}
		return '-'
	}, name), "-")
	if id == "" || id[0] >= '0' && id[0] <= '9' || id[0] == '.' {
		id = "n" + id
	}
	try := id
	for n := 2; p.ids[try]; n++ {
		try = id + "-" + strconv.Itoa(n)
	}
	p.ids[try] = true
	return try
}

func (p *pen) group(id, title, class string) {
	fmt.Fprintf(p, `<g id="%s"`, p.id(id))
	if class != "" {
		fmt.Fprintf(p, ` class="%s"`, class)
	}
	fmt.Fprintf(p, "><title>%s</title>\n", escaped(title))
}

func (p *pen) close() { p.WriteString("</g>\n") }

// downward is the frame of a piece's own group, in which y runs down.
var downward = shape.Frame{Scale: 1, Decimals: decimals}

func (p *pen) piece(g *trace.Given, at shape.Point) {
	fmt.Fprintf(p, `<g id="%s" transform="translate(%s %s)"><title>%s</title>`+"\n", p.id(g.Name), number(at.X), number(at.Y), escaped(g.Name))
	if len(g.Cut) > 0 {
		p.group(g.Name+".cut", "cut line", "cut")
		for _, r := range g.Cut {
			fmt.Fprintf(p, "<path class=\"cut\" d=\"%s\"/>\n", shape.AppendRing(nil, r, downward))
		}
		p.close()
	}
	p.group(g.Name+".sewing", "sewing line", "")
	edges := g.Edges()
	for _, e := range edges {
		p.named(g, e, "sewing", len(edges) == 1)
	}
	p.close()
	marks := g.Marks()
	for _, layer := range []struct {
		role         trace.Role
		title, class string
	}{{trace.Origin, "origin", "origin"}, {trace.Grain, "grain", "grain"}, {trace.DartLine, "darts", "darts"}, {trace.NotchMark, "notches", "notches"}, {trace.LevelLine, "levels", "levels"}} {
		p.layer(g, layer.role, layer.title, layer.class, marks)
	}
	p.words(g)
	p.close()
}

// layer writes the marks of one role, if there are any.
func (p *pen) layer(g *trace.Given, role trace.Role, title, class string, marks []trace.Named) {
	begun := false
	for _, m := range marks {
		if m.Role != role {
			continue
		}
		if !begun {
			p.group(g.Name+"."+class, title, "")
			begun = true
		}
		if len(m.Line) == 0 { // a point: a cross about it
			fmt.Fprintf(p, `<path class="%s" id="%s" d="M-2,0H2"/><path class="%s" d="M0,-2V2"/>`+"\n", class, p.id(g.Name+"."+m.Name), class)
			continue
		}
		p.named(g, m, class, false)
	}
	if begun {
		p.close()
	}
}

// named writes one line with its name as id and title.
func (p *pen) named(g *trace.Given, m trace.Named, class string, closed bool) {
	o := shape.Outline{From: m.From, Edges: m.Line}
	var d []byte
	for i := range o.Edges {
		step := shape.AppendEdge(nil, o, i, downward)
		if i > 0 { // it goes on where the one before ended
			if o.Edges[i].Curved {
				step = step[bytes.IndexByte(step, 'C'):]
			} else {
				step = step[bytes.IndexByte(step, 'L'):]
			}
		}
		d = append(d, step...)
	}
	if closed {
		d = append(d, 'Z')
	}
	fmt.Fprintf(p, `<path class="%s" id="%s" d="%s"><title>%s</title></path>`+"\n", class, p.id(g.Name+"."+m.Name), d, escaped(m.Name))
}

func (p *pen) words(g *trace.Given) {
	if len(g.Words) == 0 {
		return
	}
	least, most := g.Outline.Bounds()
	p.group(g.Name+".words", "words", "")
	x, y := least.X+(most.X-least.X)/5, -(least.Y + (most.Y-least.Y)*0.6)
	for i, line := range g.Words {
		fmt.Fprintf(p, `<text x="%s" y="%s">%s</text>`+"\n", number(x), number(y+float64(i)*9), escaped(line))
	}
	p.close()
}

// Lay writes a cloth with its pieces: x along the cloth, its cut end to the
// left, y across it, its left selvedge (or fold) at the bottom.
func Lay(l trace.LaidCloth) []byte {
	p := &pen{ids: map[string]bool{}}
	p.open(l.Name, l.Length, l.Wide)
	p.group("cloth", "cloth", "")
	fmt.Fprintf(p, `<rect width="%s" height="%s"/>`+"\n", number(l.Length), number(l.Wide))
	p.close()
	p.group("pieces", "pieces", "")
	for _, one := range l.Pieces {
		p.group(one.Name, one.Name, "")
		f := shape.Frame{Top: l.Wide, Scale: 1, Decimals: decimals}
		fmt.Fprintf(p, `<path class="cut" d="%s"/>`, shape.AppendRing(nil, one.Outline, f))
		least, most := shape.Ring(one.Outline).Bounds()
		fmt.Fprintf(p, `<text class="number" x="%s" y="%s">%d %s</text>`+"\n", number((least.X+most.X)/2), number(l.Wide-(least.Y+most.Y)/2), one.Number, escaped(one.Name))
		p.close()
	}
	p.close()
	p.WriteString("</svg>\n")
	return p.Bytes()
}
