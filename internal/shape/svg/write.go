package svg

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"strconv"
	"strings"

	"hembook/internal/drawing"
	"hembook/internal/shape"
)

const (
	decimals = 4    // of a millimetre
	rowWide  = 1500 // millimetres, roughly
	between  = 20   // millimetres between pieces
)

// look is how lines are drawn; the layers are groups of the same classes.
const look = `path{fill:none;stroke:#222;stroke-width:.35}.cut{stroke-width:.6}.sewing{stroke-dasharray:5 2}` +
	`.grain,.levels{stroke-width:.25}.levels{stroke-dasharray:1 2}.origin{stroke-width:.15}text{font-family:sans-serif;fill:#222}`

// layers are the groups of a drawing, in order.
var layers = []struct {
	means        drawing.Meaning
	title, class string
}{
	{drawing.LayCloth, "cloth", "cloth"}, {drawing.CutLine, "cut line", "cut"}, {drawing.SewLine, "sewing line", "sewing"},
	{drawing.Origin, "origin", "origin"}, {drawing.GrainLine, "grain", "grain"}, {drawing.DartLeg, "darts", "darts"},
	{drawing.PleatFold, "pleats", "pleats"},
	{drawing.GatherLine, "gathers", "gathers"}, {drawing.RowLine, "topstitching", "topstitching"}, {drawing.ButtonPlace, "places", "places"}, {drawing.Buttonhole, "buttonholes", "buttonholes"},
	{drawing.InnerLine, "lines", "lines"}, {drawing.SlitLine, "slits", "slits"}, {drawing.CreaseLine, "creases", "creases"},
	{drawing.TapeLine, "tapes", "tapes"}, {drawing.BoneLine, "boning", "boning"}, {drawing.ElasticLine, "elastics", "elastics"}, {drawing.CordLine, "cords", "cords"},
	{drawing.Notch, "notches", "notches"}, {drawing.LevelLine, "levels", "levels"},
}

// Pieces writes drawings of pieces side by side, each a group named after its
// title, in which cut line, sewing line (a path for each edge), grain, darts,
// notches, levels and words are groups of their own. [Read] reads the same
// pieces from it.
func Pieces(title string, pieces []*drawing.Drawing) []byte {
	spots, w, h := drawing.Rows(pieces, rowWide, between)
	p := &writer{ids: map[string]bool{}}
	p.open(title, w, h)
	for i, d := range pieces {
		fmt.Fprintf(p, `<g id="%s" transform="translate(%s %s)"><title>%s</title>`+"\n", p.id(d.Title), number(spots[i].X), number(spots[i].Y), escaped(d.Title))
		p.layers(d, d.Title+".")
		p.close()
	}
	p.WriteString("</svg>\n")
	return p.Bytes()
}

// Lay writes a drawing of a cloth with its pieces.
func Lay(d *drawing.Drawing) []byte {
	p := &writer{ids: map[string]bool{}}
	p.open(d.Title, d.Wide(), d.High())
	p.layers(d, "")
	p.WriteString("</svg>\n")
	return p.Bytes()
}

// A writer writes elements whose ids are all different.
type writer struct {
	bytes.Buffer
	ids map[string]bool
}

func (p *writer) open(title string, w, h float64) {
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
func (p *writer) id(name string) string {
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

func (p *writer) group(id, title, class string) {
	fmt.Fprintf(p, `<g id="%s"`, p.id(id))
	if class != "" {
		fmt.Fprintf(p, ` class="%s"`, class)
	}
	fmt.Fprintf(p, "><title>%s</title>\n", escaped(title))
}

func (p *writer) close() { p.WriteString("</g>\n") }

// layers writes what is drawn in its groups; before begins every id.
func (p *writer) layers(d *drawing.Drawing, before string) {
	for _, l := range layers {
		begun := false
		for i, m := range d.Marks {
			path := d.Path(i)
			if m.Means != l.means || len(path.Ops) == 0 {
				continue
			}
			if !begun {
				p.group(before+l.class, l.title, "")
				begun = true
			}
			p.line(path, m.Name, l.class, before)
		}
		if begun {
			p.close()
		}
	}
	p.words(d, before)
}

// line writes one line, with its name as id and title if it has one. A point
// is a cross about it.
func (p *writer) line(path drawing.Path, name, class, before string) {
	fmt.Fprintf(p, `<path class="%s"`, class)
	if name != "" {
		fmt.Fprintf(p, ` id="%s"`, p.id(before+name))
	}
	if q := path.Points[0]; len(path.Points) == 1 {
		x, y := number(q.X-2), number(q.Y)
		fmt.Fprintf(p, ` d="M%s,%sh4"/><path class="%s" d="M%s,%sv4"/>`+"\n", x, y, class, number(q.X), number(q.Y-2))
		return
	}
	p.WriteString(` d="`)
	path.Each(func(op drawing.Op, at []drawing.Point) {
		p.WriteByte("MLCZ"[op])
		for i, q := range at {
			if i > 0 {
				p.WriteByte(' ')
			}
			p.WriteString(number(q.X) + "," + number(q.Y))
		}
	})
	if name == "" {
		p.WriteString("\"/>\n")
		return
	}
	fmt.Fprintf(p, `"><title>%s</title></path>`+"\n", escaped(name))
}

var anchors = [...]string{drawing.Begin: "", drawing.Middle: ` text-anchor="middle"`, drawing.End: ` text-anchor="end"`}

// words writes the labels.
func (p *writer) words(d *drawing.Drawing, before string) {
	begun := false
	for _, m := range d.Marks {
		l := m.Label
		if l == nil {
			continue
		}
		if !begun {
			p.group(before+"words", "words", "")
			begun = true
		}
		turn := ""
		if l.Turn != 0 {
			turn = fmt.Sprintf(` transform="rotate(%s %s %s)"`, number(-l.Turn), number(l.X), number(l.Y))
		}
		fmt.Fprintf(p, `<text x="%s" y="%s" font-size="%s"%s%s>%s</text>`+"\n", number(l.X), number(l.Y), number(drawing.FullSize.Letters(l).Size), anchors[l.Anchor], turn, escaped(l.Words))
	}
	if begun {
		p.close()
	}
}
