package draw

import (
	"math"
	"slices"
	"strconv"

	"hembook/internal/drawing"
	"hembook/internal/sewn"
)

// Of the parts of a net that a narrow screen shows.
const (
	windowWide = 88 // how wide one is at most, mm
	mostWide   = 1.12 * windowWide
	windowOver = 3.2 // how much of the other half it shows: the numbers across its middle
	mirrorNear = 1   // how far the middles of mirrored pieces may lie apart
	lapNear    = 4   // and of mirrored lines: what laps belongs to one side
)

// windows divides the net into parts as wide as a phone is: the left half where the
// right one is its mirror image, else one part after the other; and then what lies
// aside.
func (d *netDrawing) windows() {
	d.ID = d.style.ID
	if d.ID == "" || d.Box.Right-d.Box.Left <= windowWide {
		d.ID = ""
		return
	}
	body, found := d.groupBox(sewn.Body)
	if !found {
		return
	}
	mid := (body.Left + body.Right) / 2
	b := d.around(body)
	b.Left = d.Box.Left // with what stands beside it: nothing lies aside there
	if d.mirrored(mid) {
		b.Right = d.pastWords(b, mid+windowOver)
		d.Parts = append(d.Parts, drawing.Window{Box: b, Caption: d.style.HalfWords})
	} else {
		d.split(b)
	}
	for _, g := range []sewn.Group{sewn.Back, sewn.Onto, sewn.Apart} {
		if b := d.frames[g]; b != nil {
			d.split(drawing.Box{Left: b.Left - 1, Top: b.Top - gap/2 - smallHeight, Right: b.Right + 1, Bottom: b.Bottom + 1})
		}
	}
}

// mostPast is how much farther a window may go to cut fewer numbers, mm.
const mostPast = 16

// pastWords is where a window that ends at a place ends instead, so that what lies over
// the place is read whole, as the names of pieces cut on the fold, and so that it cuts as
// few numbers as it can.
func (d *netDrawing) pastWords(b drawing.Box, at float64) float64 {
	far := at
	ends := []float64{at}
	for _, w := range d.full.boxes {
		if w.Top >= b.Bottom || w.Bottom <= b.Top {
			continue
		}
		ends = append(ends, w.Left-gap/4, w.Right+gap/4)
		if w.Left < at && w.Right > at && w.Right+gap/4 <= b.Left+mostWide {
			far = max(far, w.Right+gap/4)
		}
	}
	cut := func(x float64) (n int) {
		for _, w := range d.full.boxes {
			if w.Left < x && w.Right > x && w.Top < b.Bottom && w.Bottom > b.Top {
				n++
			}
		}
		return n
	}
	best, least := far, cut(far)
	slices.Sort(ends)
	for _, x := range ends {
		if n := cut(x); x > far && x <= min(far+mostPast, b.Left+mostWide) && n < least {
			best, least = x, n
		}
	}
	return min(best, b.Right)
}

// split adds windows that show a box from left to right.
func (d *netDrawing) split(b drawing.Box) {
	n := math.Ceil((b.Right - b.Left) / mostWide)
	wide := (b.Right - b.Left) / n
	for i := range int(n) {
		left := b.Left + float64(i)*wide
		d.Parts = append(d.Parts, drawing.Window{Box: drawing.Box{Left: max(b.Left, left-windowOver), Top: b.Top, Right: min(b.Right, left+wide+windowOver), Bottom: b.Bottom}})
	}
}

// groupBox is what the pieces of a group take.
func (d *netDrawing) groupBox(g sewn.Group) (b drawing.Box, found bool) {
	for i := range d.n.Laid {
		if d.n.Laid[i].Group != g {
			continue
		}
		for _, p := range d.rings[i] {
			if !found {
				b, found = drawing.Box{Left: p.X, Top: p.Y, Right: p.X, Bottom: p.Y}, true
			}
			b.Add(p.X, p.Y)
		}
	}
	return b, found
}

// around is a box widened by the room that numbers and words take about pieces, as
// far as the drawing goes.
func (d *netDrawing) around(b drawing.Box) drawing.Box {
	return drawing.Box{Left: max(b.Left-netRim, d.Box.Left), Top: max(b.Top-netRim-smallHeight, d.Box.Top), Right: min(b.Right+netRim, d.Box.Right), Bottom: min(b.Bottom+netRim, d.Box.Bottom)}
}

// mirrored reports whether what hangs together is its own mirror image about an
// upright line: each piece, each seam, each opening and each closure.
func (d *netDrawing) mirrored(mid float64) bool {
	type mark struct {
		what string
		at   drawing.Point
		near float64
	}
	var all []mark
	add := func(what string, line []drawing.Point, near float64) {
		if len(line) == 0 {
			return
		}
		b := drawing.Box{Left: line[0].X, Top: line[0].Y, Right: line[0].X, Bottom: line[0].Y}
		for _, p := range line {
			b.Add(p.X, p.Y)
		}
		all = append(all, mark{what, drawing.Point{X: (b.Left + b.Right) / 2, Y: (b.Top + b.Bottom) / 2}, near})
	}
	for i := range d.n.Laid {
		if d.n.Laid[i].Group == sewn.Body {
			add("piece "+strconv.Itoa(d.s.Copies[d.n.Laid[i].Copy].Piece), d.rings[i], mirrorNear)
		}
	}
	for i := range d.n.Meetings {
		m := &d.n.Meetings[i]
		j := &d.s.Joins[m.Join]
		for k, sp := range []sewn.Span{j.A, j.B} {
			if m.Here[k] && d.n.In(d.s, sp) {
				add("seam "+strconv.Itoa(j.Seam)+" "+strconv.Itoa(int(j.Kind)), d.onDrawing(sp), lapNear)
			}
		}
	}
	for _, loop := range d.n.Openings {
		for _, sp := range loop.Spans {
			add("open "+d.s.FinishOf(sp.Side)+strconv.Itoa(d.s.TakenBy(sp.Side)), d.onDrawing(sp), lapNear)
		}
	}
	for _, a := range all {
		found := false
		for _, b := range all {
			found = found || a.what == b.what && math.Abs(2*mid-a.at.X-b.at.X) < a.near && math.Abs(a.at.Y-b.at.Y) < a.near
		}
		if !found {
			return false
		}
	}
	return true
}
