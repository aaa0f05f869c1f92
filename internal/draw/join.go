package draw

import (
	"math"
	"strconv"

	"hembook/internal/garment"
	"hembook/internal/shape"
)

// joinScale is how joins are drawn: millimetres of the piece for one on paper.
const joinScale = 2

// Join adds two pieces laid edge to edge to dst: the seam between them, and the
// line that must run smooth across it, each piece's in its own line, with a
// thin straight continuation of the first to judge the second by.
func Join(dst []byte, j *garment.Join) []byte {
	names := [...]string{EdgeNames(j.Names[0]), EdgeNames(j.Names[1])}
	s := sheet{0, 0, unitsPerMM / joinScale}
	var b box
	for i := range j.Seams {
		for _, list := range [][]shape.Point{j.Seams[i], j.Lines[i]} {
			for _, p := range list {
				b.add(s.at(p))
			}
		}
	}
	left, right := b.left, b.right
	b.top -= 2 * textHeight
	b.left, b.right = min(left, -letters(names[0])*textWide)-margin, max(right, letters(names[1])*textWide)+margin
	words := turnWords(j)
	b.bottom += textHeight + margin
	half := letters(words) * smallWide / 2
	b.left, b.right = min(b.left, -half-margin), max(b.right, half+margin)

	dst = open(dst, "join", b, names[0]+" and "+names[1]+" laid edge to edge at "+j.Seam, words+".")
	p := penAt(append(dst, `<path class="grain" d="`...))
	p.straightOn(s, j.Lines[0])
	dst = append(p.dst, `"/>`...)
	for i, class := range [...]string{"sew", "second"} {
		p := penAt(append(append(append(dst, `<path class="`...), class...), `" d="`...))
		p.polyline(s, j.Seams[i])
		dst = append(p.dst, `"/>`...)
		p = penAt(append(append(append(dst, `<path class="line `...), class...), `" d="`...))
		p.polyline(s, j.Lines[i])
		dst = append(p.dst, `"/>`...)
	}
	dst = text(dst, "", 'e', -gap, b.top+textHeight, names[0])
	dst = text(dst, "", 0, gap, b.top+textHeight, names[1])
	dst = text(dst, "small", 'm', 0, b.bottom-margin/2, words)
	return append(dst, "</svg>"...)
}

// EdgeNames says edges as a page names them: "front side", where a record
// writes front.side.
func EdgeNames(words string) string {
	letter := func(i int) bool { return words[i]|' ' >= 'a' && words[i]|' ' <= 'z' || words[i] >= 0x80 }
	out := []byte(words)
	for i := 1; i+1 < len(words); i++ {
		if words[i] == '.' && letter(i+1) && (letter(i-1) || words[i-1] >= '0' && words[i-1] <= '9') {
			out[i] = ' '
		}
	}
	return string(out)
}

func turnWords(j *garment.Join) string {
	turn := strconv.FormatFloat(math.Round(math.Abs(j.Turn)*10)/10, 'f', -1, 64) + "°"
	switch {
	case turn == "0°":
		return "runs straight on"
	case j.Turn > 0:
		return "a hollow of " + turn
	}
	return "a point of " + turn
}

func (p *pen) polyline(s sheet, list []shape.Point) {
	for i, q := range list {
		if i == 0 {
			p.move(s.at(q))
			continue
		}
		p.line(s.at(q))
	}
}

// straightOn draws how the line would go on beyond the corner if it did not
// turn there.
func (p *pen) straightOn(s sheet, line []shape.Point) {
	if len(line) < 2 {
		return
	}
	d := line[0].Sub(line[1])
	size := math.Sqrt(float64(d.X*d.X) + float64(d.Y*d.Y))
	if size == 0 {
		return
	}
	const far = 45 // mm
	p.move(s.at(line[0]))
	p.line(s.at(shape.Point{X: line[0].X + d.X/size*far, Y: line[0].Y + d.Y/size*far}))
}
