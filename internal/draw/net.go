package draw

import (
	"math"
	"slices"
	"strconv"

	"hembook/internal/drawing"
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
	Left       string                // what is said of a piece that is worn on the left side of the body
	Right      string
	Behind     string                            // what is said of pieces that lie behind the others
	Apart      string                            // and of those that no seam joins
	Words      func(name string) string          // a piece's name as it is said; nil for as it is
	Stripes    func(sewn.CopyID) []shape.Stripes // of the cloth of a copy, as they lie on it as drawn; nil for none
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
		d.piece(&d.n.Laid[i])
	}
	d.group(sewn.Back, d.style.Behind)
	d.group(sewn.Apart, d.style.Apart)
	lines()
	d.meetings()
	d.finishes()
	d.drawDiscs()
	for i := range d.n.Laid {
		d.name(&d.n.Laid[i])
	}
	words()
	d.folds()
	d.frame()
	d.windows()
}

// NetScale is how many millimetres of the garment are one on paper.
func NetScale(n *sewn.Net, wide, high float64) float64 {
	return max((n.High.X-n.Low.X)/(wide-2*netRim), (n.High.Y-n.Low.Y)/(high-2*netRim), 2)
}

// Of a net.
const (
	netRim       = 6.5 // free space round it, for numbers
	discRim      = 2.4 // radius of the ring round a number
	discSize     = 2.5 // of its letters
	discSizeLess = 2.2 // where there are more than two
	notchIn      = 1.6 // how far a notch is cut in
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

// piece draws what is within a copy as it is sewn: its darts and its notches.
func (d *netDrawing) piece(l *sewn.Laid) {
	p := &d.s.Plan.Pieces[d.s.Copies[l.Copy].Piece]
	for i := range p.Darts {
		dart := &p.Darts[i]
		legs := []shape.Point{l.At(dart.Begin), l.At(dart.Point), l.At(dart.End)}
		d.Draw(drawing.DartLeg).Lines(d.f, legs)
		for k := range legs {
			legs[k].X, legs[k].Y = d.f.At(legs[k])
		}
		d.full.marks = append(d.full.marks, stroke{a: legs[0], b: legs[1]}, stroke{a: legs[1], b: legs[2]})
	}
	for i := range p.Edges {
		e := &p.Edges[i]
		for _, notch := range e.Notches {
			if at, way, ok := p.Outline.PointOn(e.Name, notch.Along); ok {
				in := notchIn / d.f.K
				d.Draw(drawing.Notch).Lines(d.f, []shape.Point{l.At(at), l.At(shape.Point{X: at.X - way.Y*in, Y: at.Y + way.X*in})})
			}
		}
	}
}

// edges draws what is sewn and what stays open.
func (d *netDrawing) edges() {
	for _, loop := range d.n.Openings {
		for _, sp := range loop.Spans {
			d.thin(drawing.NetOpen, d.n.Line(d.s, sp))
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

// folds draws where pieces were cut on the fold, broken where words stand.
func (d *netDrawing) folds() {
	for i := range d.s.Joins {
		j := &d.s.Joins[i]
		if j.Kind != sewn.Fold {
			continue
		}
		line := d.onDrawing(j.A)
		if len(line) < 2 {
			continue
		}
		a, b := line[0], line[len(line)-1]
		p := d.Draw(drawing.NetFold)
		const steps = 48
		on := false
		for k := range steps + 1 {
			part := float64(k) / steps
			x, y := a.X+(b.X-a.X)*part, a.Y+(b.Y-a.Y)*part
			switch free := d.full.clearBox(drawing.Box{Left: x - 0.4, Top: y - 0.4, Right: x + 0.4, Bottom: y + 0.4}, true); {
			case !free:
				on = false
			case !on:
				on = true
				p.Move(x, y)
			case k == steps || !d.full.clearBox(drawing.Box{Left: x + (b.X-a.X)/steps - 0.4, Top: y + (b.Y-a.Y)/steps - 0.4, Right: x + (b.X-a.X)/steps + 0.4, Bottom: y + (b.Y-a.Y)/steps + 0.4}, true):
				p.Line(x, y)
			}
		}
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
	const in = 1.2*discRim + 0.6
	b := drawing.Box{Left: low.X - in, Top: low.Y - 2*in, Right: high.X + in, Bottom: high.Y + 2*in}
	b.Right = max(b.Right, b.Left+letters(words)*smallWide+2*gap)
	d.Draw(drawing.LeftOver).Rect(b.Left, b.Top, b.Right, b.Bottom)
	if d.frames == nil {
		d.frames = map[sewn.Group]*drawing.Box{}
	}
	d.frames[g] = &b
	frame := []drawing.Point{{X: b.Left, Y: b.Top}, {X: b.Right, Y: b.Top}, {X: b.Right, Y: b.Bottom}, {X: b.Left, Y: b.Bottom}}
	d.full.line(frame, true)
	say(d.Drawing, drawing.Small, drawing.Begin, b.Left, b.Top-gap/2, words)
	d.full.boxes = append(d.full.boxes, drawing.Box{Left: b.Left, Top: b.Top - smallHeight - gap/2, Right: b.Left + letters(words)*smallWide, Bottom: b.Top})
	d.Box.Add(b.Left, b.Top)
	d.Box.Add(b.Right, b.Bottom)
}

// frame widens the box until it holds all that was drawn.
func (d *netDrawing) frame() {
	for _, b := range d.full.boxes {
		d.Box.Add(b.Left, b.Top)
		d.Box.Add(b.Right, b.Bottom)
	}
	d.Box.Left -= margin
	d.Box.Top -= margin
	d.Box.Right += margin
	d.Box.Bottom += margin
}

// meetings draws a number for each join: across the gap where its lines face
// each other, else beside each of them.
func (d *netDrawing) meetings() {
	for i := range d.n.Meetings {
		m := &d.n.Meetings[i]
		j := &d.s.Joins[m.Join]
		number := 0
		if j.Seam >= 0 {
			number = d.style.Seam(j.Seam)
		}
		if number == 0 || j.Kind == sewn.Closing {
			continue
		}
		words := strconv.Itoa(number) + m.Pair
		one, two := d.onDrawing(j.A), d.onDrawing(j.B)
		if !m.Far && d.across(words, one, two) {
			continue
		}
		for k, line := range [][]drawing.Point{one, two} {
			if m.Here[k] {
				d.besideLine(words, line)
			}
		}
	}
}

func (d *netDrawing) onDrawing(sp sewn.Span) []drawing.Point {
	out := d.n.Line(d.s, sp)
	for i, p := range out {
		out[i].X, out[i].Y = d.f.At(p)
	}
	return out
}

// finishes draws the number of each finish beside the edges that have it.
func (d *netDrawing) finishes() {
	for _, loop := range d.n.Openings {
		for _, sp := range loop.Spans {
			side := &d.s.Sides[sp.Side]
			edges := d.s.Plan.Pieces[d.s.Copies[side.Copy].Piece].Edges
			for i := range edges {
				if edges[i].Name != side.Edge || edges[i].Finish == "" {
					continue
				}
				if number := d.style.Finish(edges[i].Finish); number > 0 {
					d.besideLine(strconv.Itoa(number), d.onDrawing(sp))
				}
			}
		}
	}
}

// A disc is a number in a ring.
type disc struct {
	words string
	at    drawing.Point
}

// disc puts a number in a ring at a place.
func (d *netDrawing) disc(words string, x, y float64) {
	r := discOf(words)
	d.discs = append(d.discs, disc{words, drawing.Point{X: x, Y: y}})
	d.full.boxes = append(d.full.boxes, drawing.Box{Left: x - r, Top: y - r, Right: x + r, Bottom: y + r})
}

// drawDiscs draws all rings and then their numbers: what follows each other in
// one look is light to write.
func (d *netDrawing) drawDiscs() {
	for _, k := range d.discs {
		d.Draw(drawing.NetRing).Disc(k.at.X, k.at.Y, discOf(k.words))
	}
	for _, k := range d.discs {
		size, voice := discSize, drawing.RingNumber
		if len(k.words) > 2 {
			size, voice = discSizeLess, drawing.RingNumberLess
		}
		say(d.Drawing, voice, drawing.Middle, k.at.X, k.at.Y+size*0.36, k.words)
	}
}

func discOf(words string) float64 {
	if len(words) > 2 {
		return discRim + 0.6
	}
	return discRim
}

// across draws a bar from line to line, its number in its middle, where there is
// room for it.
func (d *netDrawing) across(words string, one, two []drawing.Point) bool {
	r := discOf(words)
	here, there := d.paces[0].of(one), d.paces[1].of(two)
	for _, part := range alongParts {
		a, b := here.at(part), there.at(1-part)
		x, y := (a.X+b.X)/2, (a.Y+b.Y)/2
		if !d.full.clear(x, y, r+0.1) {
			continue
		}
		ux, uy, long := toward2(a, b)
		if long > 2*r {
			gap := long/2 - r
			d.Draw(drawing.NetTie).Move(a.X, a.Y).Line(a.X+ux*gap, a.Y+uy*gap).Move(b.X, b.Y).Line(b.X-ux*gap, b.Y-uy*gap)
		}
		d.disc(words, x, y)
		return true
	}
	return false
}

// alongParts are where along a line its number is tried.
var alongParts = []float64{0.5, 0.38, 0.62, 0.26, 0.74, 0.14, 0.86}

// besideLine draws a number outside a line, else inside it, else farther out.
func (d *netDrawing) besideLine(words string, line []drawing.Point) {
	if len(line) < 2 {
		return
	}
	r := discOf(words)
	along := d.paces[0].of(line)
	for i, off := range [...]float64{1, -1, 1, -1, 2.2, 3.4, -2.2} {
		free := 0.1
		if i < 2 { // first where it is nearer to its own line than to any other
			free = 0.69
		}
		for _, part := range alongParts {
			a := along.at(part)
			b, c := along.at(max(part-0.02, 0)), along.at(min(part+0.02, 1))
			ux, uy, _ := toward2(b, c)
			out := (r + 0.7) * off
			x, y := a.X-uy*out, a.Y+ux*out // outside is to the right of the way, y down
			if !d.full.clear(x, y, r+free) || d.room != nil && !d.room.Holds(x, y, r) {
				continue
			}
			if math.Abs(off) > 1 {
				d.Draw(drawing.NetTie).Move(a.X, a.Y).Line(x+uy*r*sign(off), y-ux*r*sign(off))
			}
			d.disc(words, x, y)
			return
		}
	}
	a := along.at(0.5)
	d.disc(words, a.X, a.Y)
}

func sign(v float64) float64 { return math.Copysign(1, v) }

// toward2 is the direction from one place on paper to another, and how far it
// is.
func toward2(a, b drawing.Point) (ux, uy, long float64) {
	way, long := toward(a, b)
	return way.X, way.Y, long
}
