package draw

import (
	"math"
	"strconv"

	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// joinScale is how joins are drawn: millimetres of the piece for one on paper.
const joinScale = 2

// Join draws two pieces laid edge to edge: the seam between them, and the
// line that must run smooth across it, each piece's in its own line, with a
// thin straight continuation of the first to judge the second by.
func Join(j *garment.LineAcross) *drawing.Drawing {
	names := [...]string{EdgeNames(j.Names[0]), EdgeNames(j.Names[1])}
	f := drawing.Frame{K: 1.0 / joinScale}
	words := turnWords(j)
	laid := j.Lay()
	var b drawing.Box
	for i := range laid.Seams {
		for _, list := range [][]shape.Point{laid.Seams[i], laid.Lines[i]} {
			for _, p := range list {
				b.Add(f.At(p))
			}
		}
	}
	half := letters(words) * smallWide / 2
	b.Top -= 2 * textHeight
	b.Left = min(b.Left, -letters(names[0])*textWide, -half) - margin
	b.Right = max(b.Right, letters(names[1])*textWide, half) + margin
	b.Bottom += textHeight + margin

	d := drawing.New("join")
	d.Box, d.Title, d.Desc = b, say.Of("draw.and-laid-edge-to-edge-at", names[0], names[1], j.Seam), words+"."
	straightOn(d.Draw(drawing.StraightOn), f, laid.Lines[0])
	for i := range laid.Seams {
		d.Draw(drawing.SeamOne+drawing.Meaning(i)).Lines(f, laid.Seams[i])
		d.Draw(drawing.LineOne+drawing.Meaning(i)).Lines(f, laid.Lines[i])
	}
	write(d, drawing.Plain, drawing.End, -gap, b.Top+textHeight, names[0])
	write(d, drawing.Plain, drawing.Begin, gap, b.Top+textHeight, names[1])
	write(d, drawing.Small, drawing.Middle, 0, b.Bottom-margin/2, words)
	return d
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

func turnWords(j *garment.LineAcross) string {
	turn := strconv.FormatFloat(math.Round(math.Abs(j.Turn)), 'f', -1, 64) + "°"
	switch {
	case turn == "0°":
		return say.Of("draw.runs-straight-on")
	case j.Turn > 0:
		return say.Of("draw.a-hollow-of", turn)
	}
	return say.Of("draw.a-point-of", turn)
}

// straightOn draws how the line would go on beyond the corner if it did not
// turn there.
func straightOn(p *drawing.Path, f drawing.Frame, line []shape.Point) {
	if len(line) < 2 {
		return
	}
	d := line[0].Sub(line[1])
	size := math.Sqrt(float64(d.X*d.X) + float64(d.Y*d.Y))
	if size == 0 {
		return
	}
	const far = 45 // mm
	p.Lines(f, []shape.Point{line[0], {X: line[0].X + d.X/size*far, Y: line[0].Y + d.Y/size*far}})
}
