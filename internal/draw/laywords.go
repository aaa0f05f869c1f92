package draw

import (
	"fmt"
	"strconv"
	"strings"

	"hembook/internal/cutting"
	"hembook/internal/drawing"
	"hembook/internal/measure"
	"hembook/internal/say"
)

// clothName is the name of the lay's cloth with its part.
func (d *layDrawing) clothName() string {
	if c := d.l.Cloth.Cloth; c != nil && c.Name.Given() {
		return d.l.Part + ", " + c.Name.V
	}
	return d.l.Part
}

func (d *layDrawing) layWay() string {
	if d.l.Plan.Folded() {
		return cutting.FoldWords(d.l.Plan.Folding)
	}
	return say.Of("draw.single-layer-right-side-up")
}

// title names the drawing.
func (d *layDrawing) title() string {
	return say.Of("draw.lay-plan-of-drawn-1", d.clothName(), d.layWay(), strconv.FormatFloat(d.scale, 'f', -1, 64))
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
	return strings.Replace(cutting.AcrossFrom(d.l.Plan.Folding), "the selvedge", "the inner edge of the left selvedge", 1)
}

// desc says in words what the drawing shows.
func (d *layDrawing) desc() string {
	l := d.l
	var b strings.Builder
	fmt.Fprint(&b, say.Of("draw.the-cloth-right-side-up-on-the", strings.Replace(cutting.AlongFrom(l.Plan.Folding), "the cut", "its cut", 1), strings.TrimPrefix(d.from(), "the inner edge of ")))
	fmt.Fprint(&b, say.Of("draw.of-lay-on-of-width", d.length(l.Plan.Length), d.unit(), d.length(l.Plan.Width)))
	if l.Used.Value.Known() && l.Used.ID != "" {
		fmt.Fprint(&b, say.Of("draw.of-it-used", d.style.Measure.Number(l.Used.Value.Number, 1)))
	}
	b.WriteString(". ")
	if d.oneWay() {
		b.WriteString(say.Of("draw.all-pieces-point-away-from-the-cut"))
	}
	if d.rows > 1 {
		fmt.Fprint(&b, say.Of("draw.in-rows-one-going-on-from-the", d.rows))
	}
	for i := range l.Chalked {
		b.WriteString(d.placed(&l.Chalked[i]))
	}
	if n := len(l.Left); n > 0 {
		fmt.Fprint(&b, say.Of("draw.dashed-remnants-worth-keeping", n))
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
	fmt.Fprint(&b, say.Of("draw.to-from-to-from", d.length(q.End), d.length(q.EndTo), d.unit(), cutting.AlongFrom(d.l.Plan.Folding), d.length(q.Side), d.length(q.SideTo), d.from()))
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
		return say.Of("draw.copies-and", q.Copy, q.Copy+1)
	}
	var words []string
	if q.Copy > 1 {
		words = append(words, say.Of("draw.copy", q.Copy))
	}
	if q.Alone {
		words = append(words, say.Of("draw.from-the-upper-layer-alone"))
	}
	return strings.Join(words, ", ")
}

// TurnWords says how a piece lies; "" for as drawn.
func TurnWords(q *cutting.Position) string {
	var words []string
	if q.Mirrored {
		words = append(words, say.Of("draw.face-down"))
	}
	switch q.Turn {
	case 0:
	case 180:
		words = append(words, say.Of("draw.half-turn"))
	case 90, 270:
		words = append(words, say.Of("draw.quarter-turn"))
	default:
		turn, side := q.Turn, "right"
		if turn > 180 {
			turn, side = 360-turn, "left"
		}
		words = append(words, say.Of("draw.to-the", strconv.FormatFloat(turn, 'f', -1, 64), side))
	}
	if q.OnFold {
		words = append(words, say.Of("draw.on-the-fold-2"))
	}
	if q.Opened {
		words = append(words, say.Of("draw.opened-out"))
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
			line = say.Of("draw.then")
			if stage == 0 {
				line = say.Of("draw.first")
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
	f := d.l.Plan.Folding
	note := say.Of("draw.numbers", strings.TrimPrefix(d.unit()+" ", " "), cutting.AlongFrom(f), cutting.AcrossFrom(f))
	line = ""
	for _, word := range strings.Fields(note) {
		if line != "" && letters(line)+1+letters(word) > most {
			lines, line = append(lines, line), ""
		}
		line = strings.TrimPrefix(line+" "+word, " ")
	}
	return append(lines, line)
}

// across is how wide the drawing is.
func (d *layDrawing) across() float64 { return max(d.rowLong*d.k, 60) + 2*margin + rulerLeft }

// legendWide is how wide a letter of a line of small words is taken to be; the
// wide ones and the narrow ones even out along it.
const legendWide = 1.28

// way draws the arrow of one-way cloth below the rows.
func (d *layDrawing) way(y float64) {
	const x, long = -rulerLeft + margin, 11
	if !d.oneWay() {
		d.small(drawing.Begin, x, y, say.Of("draw.two-way-cloth-a-piece-may-be"))
		return
	}
	d.Draw(drawing.LayWay).Move(x, y-0.8).Line(x+long, y-0.8).Arrow(x+long, y-0.8, 1, 0, arrowLong)
	d.small(drawing.Begin, x+long+gap, y, say.Of("draw.one-way-cloth-every-piece-points-this"))
}

// MatchWords names what must meet in the pattern of the cloth.
func MatchWords(m *cutting.Matched) string {
	if m.Lines == m.What {
		return m.What
	}
	return m.What + ": " + m.Lines
}
