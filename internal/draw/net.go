package draw

import (
	"slices"

	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/sewn"
	"hembook/internal/shape"
)

// A NetStyle says how a net is drawn.
type NetStyle struct {
	Wide, High float64               // what it is fitted into, mm on paper
	ID         string                // by which its parts are known on a page; "" where it is shown whole alone
	HalfWords  string                // what is said of the left half of a net that is its own mirror image
	Title      string                // its name in words
	Desc       string                // what it shows, in words
	Seam       func(seam int) int    // the number of a seam of the plan; 0 for none
	Finish     func(name string) int // the number of a finish
	Set        func(name string) int // the number of a seam that sews a piece onto the face of another; nil where none is drawn
	Left       string                // what is said of a piece that is worn on the left side of the body
	Right      string
	Behind     string                            // what is said of pieces that lie behind the others
	Onto       string                            // of those that are sewn onto others
	Apart      string                            // and of those that no seam joins
	Words      func(name string) string          // a piece's name as it is said; nil for as it is
	Stripes    func(sewn.CopyID) []shape.Stripes // of the cloth of a copy, as they lie on it as drawn; nil for none
	Piece      func(name string) *garment.Piece  // a piece with its pleats, gathers and slits; nil where they are not drawn
}

// Net draws a garment laid flat: its pieces as one sees them from outside, what
// is sewn together facing each other across a gap and with one number, what
// stays open heavy. It is nil where nothing is laid.
func Net(s *sewn.Surface, n *sewn.Net, style NetStyle) *drawing.Drawing {
	d := newNet(s, n, style)
	if d == nil {
		return nil
	}
	d.whole(d.edges, func() {})
	return d.Drawing
}

// whole draws the pieces with their numbers and names, between them its own lines,
// and its own words once all others stand.
func (d *netDrawing) whole(lines, words func()) {
	d.pieces()
	for i := range d.n.Laid {
		d.piece(i)
	}
	d.group(sewn.Back, d.style.Behind)
	d.group(sewn.Onto, d.style.Onto)
	d.group(sewn.Apart, d.style.Apart)
	lines()
	for i := range d.n.Laid {
		d.name(&d.n.Laid[i])
	}
	d.meetings()
	d.finishes()
	d.setOn()
	d.drawDiscs()
	words()
	d.folds()
	for i := range d.n.Laid {
		d.pleats(i)
	}
	d.frame()
	d.windows()
}

// NetScale is how many millimetres of the garment are one on paper.
func NetScale(n *sewn.Net, wide, high float64) float64 {
	return max((n.High.X-n.Low.X)/(wide-2*netRim), (n.High.Y-n.Low.Y)/(high-2*netRim), 2)
}

// Of a net.
const (
	netRim  = 6.5 // free space round it, for numbers
	notchIn = 1.6 // how far a notch is cut in
)

// A netDrawing is a net being drawn.
type netDrawing struct {
	*drawing.Drawing
	s      *sewn.Surface
	n      *sewn.Net
	f      drawing.Frame
	style  NetStyle
	laid   []shape.Outline // of each copy as it lies
	rings  []shape.Ring    // the same on paper
	discs  []disc
	full   netFull
	frames map[sewn.Group]*drawing.Box // round what lies aside
	room   *drawing.Box                // that numbers stay within; nil where the drawing grows with them
	cut    ringCut
	paces  [2]paces
}

func newNet(s *sewn.Surface, n *sewn.Net, style NetStyle) *netDrawing {
	if n == nil || len(n.Laid) == 0 || !(n.High.X > n.Low.X && n.High.Y > n.Low.Y) {
		return nil
	}
	k := 1 / NetScale(n, style.Wide, style.High)
	d := &netDrawing{Drawing: drawing.New("net"), s: s, n: n, style: style, f: drawing.Frame{Left: n.Low.X, Top: n.High.Y, K: k}}
	d.Title, d.Desc = style.Title, style.Desc
	d.Box.Right, d.Box.Bottom = d.f.At(shape.Point{X: n.High.X, Y: n.Low.Y})
	d.laid, d.rings = make([]shape.Outline, len(n.Laid)), make([]shape.Ring, len(n.Laid))
	lines := 0
	for i := range n.Laid {
		d.laid[i] = d.outline(&n.Laid[i])
		ring, _ := d.laid[i].Flatten(netWithin / k)
		for j, p := range ring {
			ring[j].X, ring[j].Y = d.f.At(p)
		}
		d.rings[i] = ring
		lines += len(ring)
	}
	d.full.lines.room(lines)
	for _, ring := range d.rings {
		d.full.line(ring, true)
	}
	return d
}

// netWithin is how far the line that words keep clear of may stray, mm on paper.
const netWithin = 0.15

// outline is a copy's outline as it lies.
func (d *netDrawing) outline(l *sewn.Laid) shape.Outline {
	o := d.s.Plan.Pieces[d.s.Copies[l.Copy].Piece].Outline
	out := shape.Outline{From: l.At(o.From), Edges: slices.Clone(o.Edges)}
	for i := range out.Edges {
		e := &out.Edges[i]
		e.To, e.C1, e.C2 = l.At(e.To), l.At(e.C1), l.At(e.C2)
	}
	return out
}

// halfOutline adds the outline of a copy to a path, without the line along which it was
// cut on the fold: the other half lies against it, and nothing is sewn there.
func (d *netDrawing) halfOutline(p *drawing.Path, i int) {
	o := d.laid[i]
	if d.s.Plan.Pieces[d.s.Copies[d.n.Laid[i].Copy].Piece].OnFold {
		for i := range o.Edges {
			if next := (i + 1) % len(o.Edges); o.Edges[i].Fold && !o.Edges[next].Fold {
				count := 0
				for !o.Edges[(next+count)%len(o.Edges)].Fold {
					count++
				}
				p.Edges(d.f, o, next, count)
				return
			}
		}
	}
	p.Outline(d.f, o)
}

// pieces draws the areas of all copies, one after the other: none covers another.
func (d *netDrawing) pieces() {
	for i := range d.laid {
		d.halfOutline(d.Draw(drawing.NetPiece), i)
	}
	d.stripes()
}

// stripes draws the pattern of the cloth on all copies, running over the seams where it
// meets there.
func (d *netDrawing) stripes() {
	if d.style.Stripes == nil {
		return
	}
	for i := range d.laid {
		l := &d.n.Laid[i]
		ring, _ := d.laid[i].Flatten(netWithin / d.f.K)
		var moved []shape.Stripes
		for _, s := range d.style.Stripes(l.Copy) {
			moved = append(moved, s.Moved(l.At))
		}
		stripes(d.Drawing, d.f, moved, ring)
	}
}

// edges draws what is sewn and what stays open.
func (d *netDrawing) edges() {
	for _, loop := range d.n.Openings {
		for _, sp := range loop.Spans {
			d.open(sp)
		}
	}
	for i := range d.n.Meetings {
		m := &d.n.Meetings[i]
		j := &d.s.Joins[m.Join]
		means := d.seamLine(j)
		for k, sp := range []sewn.Span{j.A, j.B} {
			if m.Here[k] {
				d.thin(means, d.n.Line(d.s, sp))
			}
		}
	}
}

// open draws what stays open at a stretch: of a folded band that is its fold (within), and
// its inner edge is the seam's that takes it.
func (d *netDrawing) open(sp sewn.Span) {
	line := d.n.Line(d.s, sp)
	if !d.s.AtFold(sp.Side) {
		d.thin(drawing.NetOpen, line)
		return
	}
	if seam := d.s.TakenBy(sp.Side); seam >= 0 {
		d.thin(drawing.OfSeam(d.style.Seam(seam)), line)
	}
}

// seamLine is the line of a join: its seam's own, or that of a closure.
func (d *netDrawing) seamLine(j *sewn.Join) drawing.Meaning {
	if j.Kind == sewn.Closing || j.Seam < 0 {
		return drawing.NetClosing
	}
	return drawing.OfSeam(d.style.Seam(j.Seam))
}

// thin draws a line with no more points than it needs.
func (d *netDrawing) thin(m drawing.Meaning, line []shape.Point) {
	if len(line) > 1 {
		d.Draw(m).Lines(d.f, drawing.ThinnedLine(line, drawing.Eye/d.f.K))
	}
}

// group draws a line round pieces that do not hang together with the rest, and
// says above it what they are.
func (d *netDrawing) group(g sewn.Group, words string) {
	var rings []shape.Ring
	for i := range d.n.Laid {
		if d.n.Laid[i].Group == g {
			rings = append(rings, d.rings[i])
		}
	}
	if len(rings) == 0 {
		return
	}
	low, high := ringsBounds(rings)
	const in = 2*discRim + 1.2 // room for a number
	b := drawing.Box{Left: low.X - in, Top: low.Y - in, Right: high.X + in, Bottom: high.Y + in}
	b.Right = max(b.Right, b.Left+letters(words)*netSmallWide+2*gap)
	if d.frames == nil {
		d.frames = map[sewn.Group]*drawing.Box{}
	}
	d.frames[g] = &b
	frame := []drawing.Point{{X: b.Left, Y: b.Top}, {X: b.Right, Y: b.Top}, {X: b.Right, Y: b.Bottom}, {X: b.Left, Y: b.Bottom}}
	d.full.line(frame, true)
	write(d.Drawing, drawing.NetSmall, drawing.Begin, b.Left, b.Top-gap/2, words)
	d.full.boxes = append(d.full.boxes, drawing.Box{Left: b.Left, Top: b.Top - netSmall - gap/2, Right: b.Left + letters(words)*netSmallWide, Bottom: b.Top})
}

// frame draws the frames round what lies aside, and widens the box until it holds all
// that was drawn.
func (d *netDrawing) frame() {
	for g := sewn.Back; g <= sewn.Apart; g++ {
		if b := d.frames[g]; b != nil {
			d.Draw(drawing.LeftOver).Rect(b.Left, b.Top, b.Right, b.Bottom)
			d.Box.Add(b.Left, b.Top)
			d.Box.Add(b.Right, b.Bottom)
		}
	}
	for _, b := range d.full.boxes {
		d.Box.Add(b.Left, b.Top)
		d.Box.Add(b.Right, b.Bottom)
	}
	d.Box.Left -= margin
	d.Box.Top -= margin
	d.Box.Right += margin
	d.Box.Bottom += margin
}

func (d *netDrawing) onDrawing(sp sewn.Span) []drawing.Point { return d.lineOnPaper(d.n.Line(d.s, sp)) }

// lineOnPaper moves a line of the net to where it lies on paper.
func (d *netDrawing) lineOnPaper(line []drawing.Point) []drawing.Point {
	for i, p := range line {
		line[i].X, line[i].Y = d.f.At(p)
	}
	return line
}
