package draw

import (
	"math"
	"strconv"

	"hembook/internal/drawing"
)

// Of the numbers on a net.
const (
	discRim  = 2.5 // radius of the ring round a number of two letters
	discSize = 2.9 // of its letters: no fewer than eight points
	discMore = 0.6 // how much more of its radius each further letter takes
)

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
		if number == 0 || !d.s.ShowsSeam(j) {
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

// finishes draws the number of each finish beside the edges that have it.
func (d *netDrawing) finishes() {
	for _, loop := range d.n.Openings {
		for _, sp := range loop.Spans {
			if seam := d.s.TakenBy(sp.Side); seam >= 0 && d.style.Seam(seam) > 0 {
				d.besideLine(strconv.Itoa(d.style.Seam(seam)), d.onDrawing(sp))
			}
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
		write(d.Drawing, drawing.RingNumber, drawing.Middle, k.at.X, k.at.Y+discSize*0.36, k.words)
	}
}

func discOf(words string) float64 { return discRim + discMore*max(letters(words)-2, 0) }

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
	d.farFrom(words, along.at(0.5), r)
}

// Where no place beside its line is free, a number is looked for farther and farther off.
const (
	farStep = 1.5 // mm
	farMost = 24
	farWays = 24
)

// farFrom puts a number as near to a place of its line as nothing else stands, with a
// stroke to it.
func (d *netDrawing) farFrom(words string, a drawing.Point, r float64) {
	for step := 1; step <= farMost; step++ {
		out := r + farStep*float64(step)
		for way := range farWays {
			sin, cos := math.Sincos(2 * math.Pi * float64(way) / farWays)
			x, y := a.X+float64(cos*out), a.Y+float64(sin*out)
			if d.full.clear(x, y, r+0.1) && (d.room == nil || d.room.Holds(x, y, r)) {
				d.Draw(drawing.NetTie).Move(a.X, a.Y).Line(x-float64(cos*r), y-float64(sin*r))
				d.disc(words, x, y)
				return
			}
		}
	}
	d.disc(words, a.X, a.Y)
}

func sign(v float64) float64 { return math.Copysign(1, v) }

// toward2 is the direction from one place on paper to another, and how far it
// is.
func toward2(a, b drawing.Point) (ux, uy, long float64) {
	way, long := toward(a, b)
	return way.X, way.Y, long
}
