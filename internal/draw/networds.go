package draw

import (
	"math"
	"strings"

	"hembook/internal/drawing"
	"hembook/internal/sewn"
	"hembook/internal/shape"
)

// A netFull is what numbers and names of a net keep clear of.
type netFull struct {
	lines strokeGrid // of outlines
	marks []stroke   // within pieces: darts
	boxes []drawing.Box
	over  [][2]float64 // room that is used again
}

func (l *netFull) line(points []drawing.Point, closed bool) {
	for i := 1; i < len(points); i++ {
		l.lines.add(stroke{a: points[i-1], b: points[i]})
	}
	if n := len(points); closed && n > 2 {
		l.lines.add(stroke{a: points[n-1], b: points[0]})
	}
}

// clear reports whether a disc touches no line and no box.
func (l *netFull) clear(x, y, r float64) bool {
	for _, b := range l.boxes {
		if x+r > b.Left && x-r < b.Right && y+r > b.Top && y-r < b.Bottom {
			return false
		}
	}
	at := drawing.Point{X: x, Y: y}
	near := func(s *stroke) bool { return s.near(at, r) }
	for i := range l.marks {
		if near(&l.marks[i]) {
			return false
		}
	}
	return !l.lines.any(drawing.Box{Left: x - r, Top: y - r, Right: x + r, Bottom: y + r}, near)
}

// clearBox reports the same of a box; of words alone where lines do not count.
func (l *netFull) clearBox(b drawing.Box, words bool) bool {
	for _, o := range l.boxes {
		if b.Left < o.Right && o.Left < b.Right && b.Top < o.Bottom && o.Top < b.Bottom {
			return false
		}
	}
	return words || !l.lines.any(b, func(s *stroke) bool { return s.meets(b) })
}

// near reports whether a stroke comes nearer to a place than r: most lie far off, on
// one side of it.
func (s *stroke) near(p drawing.Point, r float64) bool {
	if min(s.a.X, s.b.X) >= p.X+r || max(s.a.X, s.b.X) <= p.X-r || min(s.a.Y, s.b.Y) >= p.Y+r || max(s.a.Y, s.b.Y) <= p.Y-r {
		return false
	}
	return offLine(p, s.a, s.b) < r
}

// offLine is how far a place lies from a line.
func offLine(p, a, b drawing.Point) float64 {
	ux, uy, long := toward2(a, b)
	dx, dy := p.X-a.X, p.Y-a.Y
	t := min(max(dx*ux+dy*uy, 0), long)
	return math.Hypot(dx-ux*t, dy-uy*t)
}

// name writes a copy's name within it, with the side of the body it is worn on;
// of a piece cut on the fold once, over both halves.
func (d *netDrawing) name(l *sewn.Laid) {
	c := &d.s.Copies[l.Copy]
	rings := append(d.cut.rings[:0], d.rings[d.at(l.Copy)])
	aside := ""
	switch l.Side {
	case sewn.LeftSide:
		aside = d.style.Left
	case sewn.RightSide:
		aside = d.style.Right
	}
	if d.s.Plan.Pieces[c.Piece].OnFold {
		for i := range d.n.Laid {
			o := &d.s.Copies[d.n.Laid[i].Copy]
			if o.Piece == c.Piece && o.Number == c.Number && d.n.Laid[i].Copy != l.Copy {
				if d.n.Laid[i].Copy < l.Copy {
					return
				}
				rings, aside = append(rings, d.rings[i]), ""
			}
		}
	}
	d.cut.rings = rings
	words := c.Name
	if d.style.Words != nil {
		words = d.style.Words(words)
	}
	if strings.Contains(" "+words+" ", " "+aside+" ") { // the left front says it itself
		aside = ""
	}
	d.place(words, aside, rings)
}

func (d *netDrawing) at(id sewn.CopyID) int {
	for i := range d.n.Laid {
		if d.n.Laid[i].Copy == id {
			return i
		}
	}
	return -1
}

// nameParts are where in the height of a piece its name is tried.
var nameParts = []float64{0.5, 0.42, 0.58, 0.34, 0.66, 0.26, 0.74, 0.18, 0.82}

// A nameForm is a way to write a name: what stands below it, and how large it is.
type nameForm struct {
	words, aside string
	voice        drawing.Voice
}

// place writes a name, with an aside below it or after it, where the piece has room for
// it: level, else lying, else beside it.
func (d *netDrawing) place(words, aside string, rings []shape.Ring) {
	low, high := ringsBounds(rings)
	forms := []nameForm{{words, aside, drawing.NetName}, {words, aside, drawing.Plain}}
	if aside != "" {
		forms = append(forms, nameForm{words + ", " + aside, "", drawing.Plain})
	}
	for _, f := range forms {
		if d.placeIn(f, rings, low, high) {
			return
		}
	}
	d.nameBeside(forms[len(forms)-1].words, low, high)
}

// placeIn writes a name within rings that lie against each other, if it has room there.
func (d *netDrawing) placeIn(f nameForm, rings []shape.Ring, low, high drawing.Point) bool {
	letter, tall := textWide*netNames[f.voice]/textHeight, netNames[f.voice]
	wide := max(letters(f.words)*letter, letters(f.aside)*netSmallWide)
	deep := tall
	if f.aside != "" {
		deep += netSmall * 1.2
	}
	for _, lying := range [...]bool{false, true} {
		across := []float64{0.5}
		if lying {
			across = nameParts
		}
		half, up := wide/2+0.5, deep/2+0.4
		if lying {
			half, up = up, half
		}
		for at := range len(across) * len(nameParts) {
			x, y := low.X+(high.X-low.X)*across[at%len(across)], low.Y+(high.Y-low.Y)*nameParts[at/len(across)]
			if at%len(across) == 0 {
				d.cut.over(y-up, y+up)
			}
			if !lying {
				if a, b, ok := d.cut.widest(rings, y); ok {
					x = (a + b) / 2
				}
			}
			box := drawing.Box{Left: x - half, Top: y - up, Right: x + half, Bottom: y + up}
			if !d.cut.inside(rings, box.Left, box.Right) || !d.roomFor(box) {
				continue
			}
			d.full.boxes = append(d.full.boxes, box)
			d.write(f.words, f.aside, f.voice, x, y-deep/2+tall*0.78, lying, x-deep/2+tall*0.78, y)
			return true
		}
	}
	return false
}

// frameOf is the frame round a place; nil where none is.
func (d *netDrawing) frameOf(x, y float64) *drawing.Box {
	for _, b := range d.frames {
		if b.Holds(x, y, 0) {
			return b
		}
	}
	return nil
}

// What is said beside the point, mm: no fewer than eight points.
const (
	netSmall     = 2.9
	netSmallWide = 1.6
)

// netNames are the sizes of the letters of names.
var netNames = map[drawing.Voice]float64{drawing.NetName: 3.4, drawing.Plain: textHeight}

func (d *netDrawing) write(words, aside string, v drawing.Voice, x, base float64, lying bool, lyingX, lyingY float64) {
	if !lying {
		write(d.Drawing, v, drawing.Middle, x, base, words)
		write(d.Drawing, drawing.NetSmall, drawing.Middle, x, base+netSmall*1.2, aside)
		return
	}
	d.Say(drawing.Label{X: lyingX, Y: lyingY, Words: words, Voice: v, Anchor: drawing.Middle, Turn: 90})
	d.Say(drawing.Label{X: lyingX + netSmall*1.2, Y: lyingY, Words: aside, Voice: drawing.NetSmall, Anchor: drawing.Middle, Turn: 90})
}

// nameBeside writes a name below a piece that is too small for it, or above, or
// at its sides; where that is far off, with a stroke to it.
func (d *netDrawing) nameBeside(words string, low, high drawing.Point) {
	half, up := letters(words)*netSmallWide/2+0.4, netSmall/2+0.3
	mid := drawing.Point{X: (low.X + high.X) / 2, Y: (low.Y + high.Y) / 2}
	frame := d.frameOf(mid.X, mid.Y)
	for off := 0.0; off <= mostBeside; off += 3 {
		for _, at := range []drawing.Point{{X: mid.X, Y: high.Y + up + 0.6 + off}, {X: mid.X, Y: low.Y - up - 0.6 - off}, {X: high.X + half + 0.6 + off, Y: mid.Y}, {X: low.X - half - 0.6 - off, Y: mid.Y}} {
			box := drawing.Box{Left: at.X - half, Top: at.Y - up, Right: at.X + half, Bottom: at.Y + up}
			if d.mayStand(box, frame) {
				d.writeBeside(words, box, low, high, off > 3)
				return
			}
		}
	}
	if frame != nil {
		d.writeBeside(words, d.growFrame(frame, mid.X, half, up), low, high, true)
	}
}

// growFrame makes room for words below all else in a frame, as near to a place as it can.
func (d *netDrawing) growFrame(frame *drawing.Box, at, half, up float64) (box drawing.Box) {
	old := *frame
	for line := range 4 {
		for _, x := range [...]float64{at, old.Left + half + 0.6, old.Right - half - 0.6} {
			x = max(min(x, old.Right-half-0.6), old.Left+half+0.6)
			y := old.Bottom + up + 0.3 + 2*up*float64(line)
			box = drawing.Box{Left: x - half, Top: y - up, Right: x + half, Bottom: y + up}
			if d.full.clearBox(box, true) {
				frame.Bottom, frame.Right = box.Bottom+0.6, max(frame.Right, box.Right+0.6)
				return box
			}
		}
	}
	return box
}

// writeBeside writes a name beside its piece, whose corners are given.
func (d *netDrawing) writeBeside(words string, box drawing.Box, low, high drawing.Point, tied bool) {
	x, y := (box.Left+box.Right)/2, (box.Top+box.Bottom)/2
	if tied {
		d.Draw(drawing.NetTie).Move(min(max(x, low.X), high.X), min(max(y, low.Y), high.Y)).Line(min(max((low.X+high.X)/2, box.Left), box.Right), min(max((low.Y+high.Y)/2, box.Top), box.Bottom))
	}
	d.full.boxes = append(d.full.boxes, box)
	write(d.Drawing, drawing.NetSmall, drawing.Middle, x, y+netSmall*0.36, words)
}

// mostBeside is how far off a name is looked for at most, mm.
const mostBeside = 36

// mayStand reports whether words beside a piece have room: within the frame that the
// piece has, or else outside all of them.
func (d *netDrawing) mayStand(b drawing.Box, frame *drawing.Box) bool {
	if frame == nil && d.inFrame(b) || frame != nil && !(b.Left > frame.Left && b.Right < frame.Right && b.Top > frame.Top && b.Bottom < frame.Bottom) {
		return false
	}
	return d.full.clearBox(b, false)
}

// inFrame reports whether a box touches what a frame is round.
func (d *netDrawing) inFrame(b drawing.Box) bool {
	for _, f := range d.frames {
		if b.Left < f.Right && f.Left < b.Right && b.Top < f.Bottom && f.Top < b.Bottom {
			return true
		}
	}
	return false
}

// roomFor reports whether a box within a piece keeps clear of numbers and darts.
func (d *netDrawing) roomFor(b drawing.Box) bool {
	for _, o := range d.full.boxes {
		if b.Left < o.Right && o.Left < b.Right && b.Top < o.Bottom && o.Top < b.Bottom {
			return false
		}
	}
	for i := range d.full.marks {
		if d.full.marks[i].meets(b) {
			return false
		}
	}
	return true
}

func ringsBounds(rings []shape.Ring) (low, high drawing.Point) {
	low, high = rings[0][0], rings[0][0]
	for _, r := range rings {
		for _, p := range r {
			low.X, low.Y = min(low.X, p.X), min(low.Y, p.Y)
			high.X, high.Y = max(high.X, p.X), max(high.Y, p.Y)
		}
	}
	return low, high
}
