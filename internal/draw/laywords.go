package draw

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"hembook/internal/cutting"
	"hembook/internal/measure"
)

// clothName is the name of the lay's cloth with its part.
func (d *layDrawing) clothName() string {
	if c := d.l.Cloth.Cloth; c != nil && c.Name.Given() {
		return d.l.Part + ", " + c.Name.V
	}
	return d.l.Part
}

func (d *layDrawing) layWay() string {
	if d.l.Plan.Folded {
		return "folded"
	}
	return "open"
}

// title names the drawing.
func (d *layDrawing) title() string {
	return "Lay of " + d.clothName() + ", " + d.layWay() + ", drawn 1 : " + strconv.FormatFloat(d.scale, 'f', -1, 64)
}

// length is a distance as the drawing shows it, without its unit.
func (d *layDrawing) length(mm float64) string {
	if d.style.Measure.System == measure.Imperial {
		text, _ := measure.Inches(measure.MM(mm))
		return text
	}
	return d.style.Measure.Number(mm, 0)
}

func (d *layDrawing) unit() string {
	if d.style.Measure.System == measure.Imperial {
		return ""
	}
	return " mm"
}

// from names what distances across the cloth are measured from.
func (d *layDrawing) from() string {
	if d.l.Plan.Folded {
		return "the fold"
	}
	return "the inner edge of the left selvedge"
}

// desc says in words what the drawing shows.
func (d *layDrawing) desc() string {
	l := d.l
	var b strings.Builder
	fmt.Fprintf(&b, "The cloth right side up, its cut end on the left, %s on top. ", strings.TrimPrefix(d.from(), "the inner edge of "))
	fmt.Fprintf(&b, "%s%s of lay on %s%s of width", d.length(l.Plan.Length), d.unit(), d.length(l.Plan.Width), d.unit())
	if l.Used.Value.Known() && l.Used.ID != "" {
		fmt.Fprintf(&b, ", %s %% of it used", d.style.Measure.Number(l.Used.Value.Number, 1))
	}
	b.WriteString(". ")
	if d.oneWay() {
		b.WriteString("All pieces point away from the cut end. ")
	}
	if d.rows > 1 {
		fmt.Fprintf(&b, "In %d rows, one going on from the other. ", d.rows)
	}
	for i := range l.Chalked {
		b.WriteString(d.placed(&l.Chalked[i]))
	}
	if n := len(l.Left); n > 0 {
		fmt.Fprintf(&b, "Dashed: %d left over worth keeping. ", n)
	}
	return strings.TrimSuffix(b.String(), " ")
}

// placed says in words where one piece lies.
func (d *layDrawing) placed(q *cutting.Position) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%d %s", q.Number, CopyWords(q))
	if w := TurnWords(q); w != "" {
		b.WriteString(", " + w)
	}
	fmt.Fprintf(&b, ": %s to %s%s from the cut end, %s to %s%s from %s. ",
		d.length(q.End), d.length(q.EndTo), d.unit(), d.length(q.Side), d.length(q.SideTo), d.unit(), d.from())
	return b.String()
}

// CopyWords names a piece on the cloth with its copies.
func CopyWords(q *cutting.Position) string {
	if copies := WhichCopies(q); copies != "" {
		return q.Piece + ", " + copies
	}
	return q.Piece
}

// WhichCopies says which copies of a piece lie there; "" for the first alone.
func WhichCopies(q *cutting.Position) string {
	if q.Pair {
		return fmt.Sprintf("copies %d and %d", q.Copy, q.Copy+1)
	}
	if q.Copy > 1 {
		return fmt.Sprintf("copy %d", q.Copy)
	}
	return ""
}

// TurnWords says how a piece lies; "" for as drawn.
func TurnWords(q *cutting.Position) string {
	var words []string
	if q.Mirrored {
		words = append(words, "turned over")
	}
	switch q.Turn {
	case 0:
	case 180:
		words = append(words, "turned round")
	default:
		turn, side := q.Turn, "right"
		if turn > 180 {
			turn, side = 360-turn, "left"
		}
		words = append(words, strconv.FormatFloat(turn, 'f', -1, 64)+"° to the "+side)
	}
	if q.OnFold {
		words = append(words, "on the fold")
	}
	return strings.Join(words, ", ")
}

// legend lists the pieces stage by stage, then what the numbers in them mean, in
// lines that stay within the drawing.
func (d *layDrawing) legend() []string {
	most := d.across() / legendWide
	var lines []string
	line, stage := "", 0
	for i := range d.l.Chalked {
		q := &d.l.Chalked[i]
		word := strconv.Itoa(q.Number) + " " + q.Piece
		if w := TurnWords(q); w != "" {
			word += " (" + w + ")"
		}
		if q.Stage != stage && d.l.Problem != nil && d.l.Problem.Stages > 1 {
			if line != "" {
				lines = append(lines, line)
			}
			line = "then: "
			if stage == 0 {
				line = "first: "
			}
			stage = q.Stage
			line += word
			continue
		}
		if line != "" {
			line += " · "
		}
		if letters(line+word) > most {
			lines, line = append(lines, strings.TrimSuffix(line, " ")), ""
		}
		line += word
	}
	if line != "" {
		lines = append(lines, line)
	}
	note := "In a piece: its distance from the cut end · from " + d.from()
	if d.unit() != "" {
		note += ", in mm; tapes in cm"
	}
	line = ""
	for _, word := range strings.Fields(note) {
		if line != "" && letters(line)+1+letters(word) > most {
			lines, line = append(lines, line), ""
		}
		line = strings.TrimPrefix(line+" "+word, " ")
	}
	return append(lines, line)
}

// across is how wide the drawing is, in units.
func (d *layDrawing) across() float64 { return max(d.rowLong*d.k, 600) + 2*margin + rulerLeft }

// legendWide is how wide a letter of a line of small words is taken to be; the
// wide ones and the narrow ones even out along it.
const legendWide = 12.8

// way draws the arrow of one-way cloth below the rows.
func (d *layDrawing) way(dst []byte, y float64) []byte {
	if !d.oneWay() {
		return text(dst, "small", 0, -rulerLeft+margin, y, "two-way cloth: a piece may be turned round")
	}
	x := float64(-rulerLeft + margin)
	p := pen{dst: append(dst, `<path class="grain" d="`...)}
	p.move(x, y-8)
	p.line(x+110, y-8)
	p.arrow(x+110, y-8, 1, 0)
	dst = append(p.dst, `"/>`...)
	return text(dst, "small", 0, x+110+gap, y, "one-way cloth: every piece points this way")
}

// layLook is the look of a drawing that stands alone in a file: black on
// white, as a printer wants it.
const layLook = `svg{fill:none;stroke:#000;stroke-width:2;stroke-linecap:round;stroke-linejoin:round}` +
	`text{fill:#000;stroke:none;font:29px sans-serif}.small{font-size:24px}.name{font:italic 38px serif}.less{font-size:29px}` +
	`.m{text-anchor:middle}.e{text-anchor:end}.cut,.cutline{stroke-width:4}.cut,.laid{fill:#eee}.laid{stroke:none}` +
	`.left,.fold{stroke-width:1.6;stroke-dasharray:22 7 3 7}.flaw{stroke-width:6}`

// File makes a drawing one that stands alone in a file, with a look of its
// own.
func File(drawing []byte) []byte {
	const begin, end = "<svg ", "</title>"
	at := bytes.Index(drawing, []byte(end))
	if at < 0 || !bytes.HasPrefix(drawing, []byte(begin)) {
		return drawing
	}
	out := append([]byte(`<svg xmlns="http://www.w3.org/2000/svg" `), drawing[len(begin):at+len(end)]...)
	out = append(append(append(out, "<style>"...), layLook...), "</style>"...)
	return append(append(out, drawing[at+len(end):]...), '\n')
}
