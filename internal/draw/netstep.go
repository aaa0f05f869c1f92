package draw

import (
	"maps"
	"math"
	"slices"
	"strconv"

	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/sewn"
)

// A StepsStyle says how the steps of a garment's sewing are drawn.
type StepsStyle struct {
	NetStyle
	ID         string                                       // begins the ids of its lines, its own on a page
	Words      func(step int) string                        // what a step is called
	SeamStep   func(seam int) int                           // the step that sews a seam of the plan; 0 for none
	FinishStep func(finish string) int                      // the step that sews a finish
	FoldsStep  func(kind garment.RowKind, piece string) int // and the darts, pleats or gathers of a piece
	SetStep    func(seam string) int                        // and a piece that is set onto the face of another
}

// NetSteps draws a garment laid flat as far as it is sewn after each of some steps, in
// their turn: what the step sews heavy, with its number, and what was sewn before
// thin. All are equally large. Each line is drawn once and then drawn again, so
// that they are light where they stand on one page. One that sews nothing of the net
// is nil; all are where nothing is laid.
func NetSteps(s *sewn.Surface, n *sewn.Net, steps []int, style StepsStyle) []*drawing.Drawing {
	out := make([]*drawing.Drawing, len(steps))
	base := newNet(s, n, style.NetStyle)
	if base == nil || len(steps) == 0 {
		return out
	}
	f := &netSteps{base: base, style: style, lines: map[int][]stepLine{}}
	f.gather()
	for i, step := range steps {
		if len(f.lines[step]) > 0 {
			out[i] = f.still(step, steps[0])
		}
	}
	return out
}

// A stepLine is a line that a step sews.
type stepLine struct {
	points []drawing.Point
	number int
	said   bool // its number stands beside it, if there is room
}

// A known is a line that other drawings draw again.
type known struct {
	in   *drawing.Drawing
	mark int
}

type netSteps struct {
	base   *netDrawing
	style  StepsStyle
	lines  map[int][]stepLine
	pieces known
	sewn   []known // in the steps so far
}

// gather finds which lines of the net each step sews.
func (f *netSteps) gather() {
	d := f.base
	add := func(step int, sp sewn.Span, number int, said bool) {
		if line := d.onDrawing(sp); step > 0 && len(line) > 1 {
			f.lines[step] = append(f.lines[step], stepLine{line, number, said && number > 0})
		}
	}
	for i := range d.n.Meetings {
		m := &d.n.Meetings[i]
		j := &d.s.Joins[m.Join]
		if !d.s.ShowsSeam(j) {
			continue
		}
		for k, sp := range []sewn.Span{j.A, j.B} {
			if m.Here[k] {
				add(f.style.SeamStep(j.Seam), sp, d.style.Seam(j.Seam), k == 0 || m.Far)
			}
		}
	}
	for i := range d.n.Laid {
		f.gatherFolds(i)
	}
	for _, loop := range d.n.Openings {
		for _, sp := range loop.Spans {
			if seam := d.s.TakenBy(sp.Side); seam >= 0 {
				add(f.style.SeamStep(seam), sp, d.style.Seam(seam), true)
			}
			if name := d.s.FinishOf(sp.Side); name != "" {
				add(f.style.FinishStep(name), sp, d.style.Finish(name), true)
			}
		}
	}
}

// gatherFolds finds which steps sew what is within a copy.
func (f *netSteps) gatherFolds(i int) {
	if f.style.FoldsStep == nil {
		return
	}
	d := f.base
	l := &d.n.Laid[i]
	piece := d.s.Copies[l.Copy].Name
	add := func(kind garment.RowKind, line []drawing.Point) {
		if step := f.style.FoldsStep(kind, piece); step > 0 && len(line) > 1 {
			f.lines[step] = append(f.lines[step], stepLine{points: line})
		}
	}
	for _, in := range d.within(i) {
		if in.row != "" {
			add(in.row, in.line)
		}
	}
	p := d.pieceOf(l)
	if p == nil {
		return
	}
	for k := range p.Lines {
		line := &p.Lines[k]
		if number := d.setAt(line); number > 0 && f.style.SetStep != nil && d.worn(l, line.Hand) {
			if step, on := f.style.SetStep(line.Edge.SewnBy), d.onPaper(l, line.Points); step > 0 && len(on) > 1 {
				f.lines[step] = append(f.lines[step], stepLine{on, number, true})
			}
		}
	}
	for k := range p.PleatFolds {
		q := &p.PleatFolds[k]
		if q.Stitched > 0 {
			add(garment.PleatRow, d.onPaper(l, q.Sewn(q.Lines.Place)))
			add(garment.PleatRow, d.onPaper(l, q.Sewn(q.Lines.Outer)))
		}
	}
}

// still draws the garment after a step; first is the first one that is drawn.
func (f *netSteps) still(step, first int) *drawing.Drawing {
	d := *f.base
	d.Drawing = drawing.New("net").Keep()
	d.Title, d.Box = f.style.Words(step), f.base.Box
	d.Box.Left, d.Box.Top = d.Box.Left-netRim, d.Box.Top-netRim
	d.Box.Right, d.Box.Bottom = d.Box.Right+netRim, d.Box.Bottom+netRim
	d.full.boxes = nil
	d.room = &d.Box
	if f.pieces.in == nil {
		f.begin(&d, first)
	} else {
		d.Again(drawing.NetPiece, f.pieces.in, f.pieces.mark)
	}
	for _, k := range f.sewn {
		d.Again(drawing.DartLeg, k.in, k.mark)
	}
	mark, p := d.Known(drawing.NetNow, f.style.ID+strconv.Itoa(step))
	for _, l := range f.lines[step] {
		p.Polyline(drawing.ThinnedLine(l.points, drawing.Eye))
	}
	for _, l := range f.lines[step] {
		if words := strconv.Itoa(l.number); l.said && !d.near(words, d.paces[0].of(l.points).at(0.5)) {
			d.besideLine(words, l.points)
		}
	}
	d.drawDiscs()
	f.sewn = append(f.sewn, known{d.Drawing, mark})
	return d.Drawing
}

// begin draws the pieces, and what was sewn before the first step that is drawn.
func (f *netSteps) begin(d *netDrawing, first int) {
	mark, p := d.Known(drawing.NetPiece, f.style.ID+"p")
	for i := range d.n.Laid {
		d.halfOutline(p, i)
	}
	f.pieces = known{d.Drawing, mark}
	mark, p = d.Known(drawing.DartLeg, f.style.ID+"b")
	before := false
	for _, step := range slices.Sorted(maps.Keys(f.lines)) {
		for _, l := range f.lines[step] {
			if step < first {
				before = true
				p.Polyline(drawing.ThinnedLine(l.points, drawing.Eye))
			}
		}
	}
	if before {
		f.sewn = append(f.sewn, known{d.Drawing, mark})
	}
}

// onceWithin is how near a line a number that stands already is enough for it, mm.
const onceWithin = 9

// near reports whether a number stands near a place already.
func (d *netDrawing) near(words string, at drawing.Point) bool {
	return slices.ContainsFunc(d.discs, func(k disc) bool {
		return k.words == words && math.Hypot(k.at.X-at.X, k.at.Y-at.Y) < onceWithin
	})
}
