package draw

import "hembook/internal/drawing"

// A SewLabel is what stands on a label that is folded once and caught at both ends in a
// seam: on its front whose work it is, on its back, upside down so that it stands upright
// when folded, the fibres and the care.
type SewLabel struct {
	Wide    float64                       // of the tape, in millimetres
	Front   []string                      // lines; the first is the largest
	Back    []string                      // lines
	Symbols []*drawing.Drawing            // of care, three in a row
	Fits    func(l drawing.Label) float64 // how wide words are set
}

// Of a label, in millimetres.
const (
	labelEnd   = 6.0  // goes into the seam
	labelHalf  = 26.0 // from the seam to the fold, on the narrower tape
	labelRim   = 1.6  // what stays free at the sides
	labelTick  = 1.2
	labelLeast = 5.5 * 25.4 / 72 // letters that can be read on woven cotton
)

// SewIn draws a label as it is cut out, ends hatched, the fold ticked.
func SewIn(l SewLabel) *drawing.Drawing {
	k := l.Wide / 25
	half := labelHalf * k
	both := len(l.Back) > 0 || len(l.Symbols) > 0
	high := half*0.6 + 2*labelEnd
	if both {
		high = 2*half + 2*labelEnd
	}
	d := drawing.New("label")
	d.Box = drawing.Box{Left: -labelTick, Right: l.Wide + labelTick, Bottom: high}
	d.Draw(drawing.LeftOver).Rect(0, 0, l.Wide, high)
	for _, top := range []float64{0, high - labelEnd} {
		hatch := d.Draw(drawing.ClothEdge)
		for x := 1.0; x+2.2 < l.Wide; x += 2.4 {
			hatch.Move(x, top+labelEnd-0.6).Line(x+2, top+0.6)
		}
	}
	ticks := d.Draw(drawing.ScaleBar)
	for _, y := range []float64{labelEnd, high - labelEnd, high / 2} {
		if y == high/2 && !both {
			continue
		}
		ticks.Move(-labelTick, y).Line(0, y).Move(l.Wide, y).Line(l.Wide+labelTick, y)
	}
	front := half
	if !both {
		front = half * 0.6
	}
	l.lines(d, l.Front, labelEnd, front, k, false)
	if both {
		l.back(d, high, half, k)
	}
	return d
}

// lines sets lines under each other in the middle of a field that begins at top, the
// first larger than the others.
func (l SewLabel) lines(d *drawing.Drawing, list []string, top, high, k float64, turned bool) {
	list = l.broken(list)
	sizes := make([]float64, len(list))
	sum := 0.0
	for i, words := range list {
		size := 2.1 * k
		if i == 0 && !turned {
			size = 3.2 * k
		}
		label := drawing.Label{Words: words, Size: size}
		if wide := l.Fits(label); wide > l.Wide-2*labelRim {
			size = max(labelLeast, size*(l.Wide-2*labelRim)/wide)
		}
		sizes[i] = size
		sum += size * 1.45
	}
	if room := high - 0.8; sum > room { // many lines stand closer
		for i := range sizes {
			sizes[i] = max(labelLeast, sizes[i]*room/sum)
		}
		sum = room
	}
	y, apart := top+(high-sum)/2, sum/total(sizes)
	for i, words := range list {
		label := drawing.Label{X: l.Wide / 2, Y: y + sizes[i]*1.1, Words: words, Size: sizes[i], Anchor: drawing.Middle}
		d.Say(label)
		y += apart * sizes[i]
	}
}

// broken parts lines that are too long even in the smallest letters, at the space nearest
// to their middle.
func (l SewLabel) broken(list []string) []string {
	var out []string
	for _, words := range list {
		if l.Fits(drawing.Label{Words: words, Size: labelLeast}) <= l.Wide-2*labelRim {
			out = append(out, words)
			continue
		}
		at, runes := -1, len(words)
		for i, r := range words {
			if r == ' ' && (at < 0 || abs(i-runes/2) < abs(at-runes/2)) {
				at = i
			}
		}
		if at < 0 {
			out = append(out, words)
			continue
		}
		out = append(out, words[:at], words[at+1:])
	}
	return out
}

func total(list []float64) (sum float64) {
	for _, v := range list {
		sum += v
	}
	return sum
}

func abs(n int) int { return max(n, -n) }

// back sets fibres and care on a field of their own and turns it over.
func (l SewLabel) back(d *drawing.Drawing, high, half, k float64) {
	field := drawing.New("label")
	field.Box = drawing.Box{Right: l.Wide, Bottom: half}
	rows := (len(l.Symbols) + 2) / 3
	each := 5.4 * k
	words := half - float64(rows)*(each+1) - 1
	l.lines(field, l.Back, 0.5, words, k, true)
	for i, s := range l.Symbols {
		row, in := i/3, i%3
		n := min(3, len(l.Symbols)-row*3)
		wide := each * 1.25
		x := l.Wide/2 + (float64(in)-float64(n)/2)*wide
		kk := each / s.High()
		field.Placed(s, x+(wide-s.Wide()*kk)/2, words+float64(row)*(each+1), kk, false)
	}
	d.Placed(field, 0, high-labelEnd-half, 1, true)
}
