package drawing

import (
	"image/png"
	"math"
	"math/bits"
	"sync"
)

// A canvas is a picture being painted, by its palette. Places are reckoned in
// 256ths of a pixel, and how much of a pixel a path covers is its exact area,
// in whole numbers: the picture is the same on any machine.
//
// The area is found as follows: every stretch of a line adds, in each pixel it
// runs through, by how much it changes the area covered to its right; the sum
// along a row is what is covered.
type canvas struct {
	wide, high int
	pix        []uint8  // an index into colours for each pixel
	colours    []uint32 // 0xrrggbb
	k, dx, dy  float64  // pixels for a millimetre, and where (0, 0) lies
	lines      [][]dot  // the path that is being painted, flat
	dots       []dot    // and where its dots lie
	sums       []int32  // what changes at each pixel; a column more than there are
	touched    []uint64 // for each row, which blocks of pixels hold a change
	block      int      // a block is 1 << block pixels
	top, foot  int      // rows that hold changes
	mixed      [256][levels + 1]int16
}

// A dot is a place in 256ths of a pixel.
type dot struct{ x, y int }

const (
	fine   = 256
	whole  = 2 * fine * fine // a pixel that is covered, in the sums
	levels = 16              // of cover that are told apart
	bends  = 16              // straight stretches that stand for a curve
	thin   = 1.6             // pixels: a line thinner than that is lost
)

var canvases = sync.Pool{New: func() any { return new(canvas) }}

func newCanvas(wide, high int) *canvas {
	c := canvases.Get().(*canvas)
	if c.wide != wide || c.high != high {
		*c = canvas{wide: wide, high: high, pix: make([]uint8, wide*high), sums: make([]int32, (wide+2)*high), touched: make([]uint64, high)}
		for wide>>c.block >= 63 {
			c.block++
		}
	}
	clear(c.pix)
	c.colours = append(c.colours[:0], 0xffffff)
	c.top, c.foot = high, 0
	return c
}

func (c *canvas) free() { canvases.Put(c) }

// buffers are kept for the encoder.
type buffers struct{ sync.Pool }

var encoders = new(buffers)

func (b *buffers) Get() *png.EncoderBuffer {
	v, _ := b.Pool.Get().(*png.EncoderBuffer)
	return v
}

func (b *buffers) Put(v *png.EncoderBuffer) { b.Pool.Put(v) }

func (c *canvas) place(k, dx, dy float64) { c.k, c.dx, c.dy = k, dx, dy }

// at is a place of the drawing on the canvas; what would lie far outside is
// brought near.
func (c *canvas) at(q Point) dot { return c.dot(float64(q.X*c.k)+c.dx, float64(q.Y*c.k)+c.dy) }

func (c *canvas) dot(x, y float64) dot {
	near := func(v float64, size int) int {
		if v != v {
			return 0
		}
		most := float64(size)
		return int(math.Round(min(max(v, -most), 2*most) * fine))
	}
	return dot{near(x, c.wide), near(y, c.high)}
}

// trace flattens a path.
func (c *canvas) trace(p Path) {
	c.lines, c.dots = c.lines[:0], c.dots[:0]
	from := 0
	end := func() {
		if len(c.dots) > from {
			c.lines = append(c.lines, c.dots[from:len(c.dots):len(c.dots)])
		}
		from = len(c.dots)
	}
	var last Point
	p.Each(func(op Op, at []Point) {
		switch op {
		case MoveTo:
			end()
			c.dots = append(c.dots, c.at(at[0]))
		case LineTo:
			c.dots = append(c.dots, c.at(at[0]))
		case CurveTo:
			for i := 1; i <= bends; i++ {
				c.dots = append(c.dots, c.at(bend(float64(i)/bends, last, at[0], at[1], at[2])))
			}
		case ClosePath:
			if len(c.dots) > from {
				c.dots = append(c.dots, c.dots[from])
			}
			end()
			return
		}
		last = at[len(at)-1]
	})
	end()
}

// bend is the point of a cubic Bézier curve at t.
func bend(t float64, a, b, c, d Point) Point {
	u := 1 - t
	k0, k1, k2, k3 := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
	return Point{
		X: float64(k0*a.X) + float64(k1*b.X) + float64(k2*c.X) + float64(k3*d.X),
		Y: float64(k0*a.Y) + float64(k1*b.Y) + float64(k2*c.Y) + float64(k3*d.Y),
	}
}

// fill covers what lies within the lines.
func (c *canvas) fill() {
	for _, l := range c.lines {
		c.polygon(l)
	}
}

func (c *canvas) polygon(l []dot) {
	for i, a := range l {
		if i+1 < len(l) {
			c.edge(a, l[i+1])
		} else {
			c.edge(a, l[0])
		}
	}
}

// stroke covers lines of a pen's weight, in dashes where it has them.
func (c *canvas) stroke(pen Pen) {
	half := max(float64(pen.Weight*c.k), thin) * fine / 2
	for _, l := range c.lines {
		if len(pen.Dash) < 2 {
			c.ribbon(l, half, !pen.Butt)
			continue
		}
		on, off := max(float64(pen.Dash[0]*c.k), 6)*fine, max(float64(pen.Dash[1]*c.k), 4)*fine
		c.dashes(l, half, on, off)
	}
}

// ribbon covers a line, its corners and, if so, its ends rounded.
func (c *canvas) ribbon(l []dot, half float64, round bool) {
	closed := len(l) > 1 && l[0] == l[len(l)-1]
	var lastX, lastY float64
	for i := 1; i < len(l); i++ {
		ux, uy, long := unit(float64(l[i].x-l[i-1].x), float64(l[i].y-l[i-1].y))
		if long == 0 {
			continue
		}
		c.bar(l[i-1], l[i], ux*half, uy*half)
		if lastX != 0 || lastY != 0 {
			c.corner(l[i-1], half, lastX, lastY, ux, uy)
		} else if round || closed {
			c.disc(l[i-1], half)
		}
		lastX, lastY = ux, uy
	}
	if round && len(l) > 0 && (!closed || len(l) == 1) {
		c.disc(l[len(l)-1], half)
	}
}

// corner covers what two stretches leave free on the outside of the corner
// between them: all round it where it is sharp, else the wedge.
func (c *canvas) corner(at dot, half, ux, uy, vx, vy float64) {
	turn := float64(ux*vy) - float64(uy*vx)
	switch {
	case float64(ux*vx)+float64(uy*vy) < 0.8:
		c.disc(at, half)
	case math.Abs(turn)*half < fine/16: // nobody sees it
	default:
		side := half
		if turn > 0 {
			side = -half
		}
		out := func(x, y float64) dot { return dot{at.x - int(math.Round(y*side)), at.y + int(math.Round(x*side))} }
		p, q := out(ux, uy), out(vx, vy)
		if turn > 0 {
			p, q = q, p
		}
		c.polygon([]dot{at, p, q})
	}
}

// bar covers a straight stretch; (nx, ny) runs along it, half its weight long.
func (c *canvas) bar(a, b dot, nx, ny float64) {
	x, y := int(math.Round(-ny)), int(math.Round(nx))
	c.polygon([]dot{{a.x + x, a.y + y}, {b.x + x, b.y + y}, {b.x - x, b.y - y}, {a.x - x, a.y - y}})
}

// disc covers a dot, running round it as bar does.
func (c *canvas) disc(at dot, half float64) {
	var ring [16]dot
	for i := range ring {
		sin, cos := math.Sincos(-2 * math.Pi * float64(i) / float64(len(ring)))
		ring[i] = dot{at.x + int(math.Round(half*cos)), at.y + int(math.Round(half*sin))}
	}
	c.polygon(ring[:])
}

// dashes covers a line in stretches of length on, off apart.
func (c *canvas) dashes(l []dot, half, on, off float64) {
	left, drawn := on, true // of the dash or gap that the line is in
	for i := 1; i < len(l); i++ {
		a, b := l[i-1], l[i]
		ux, uy, long := unit(float64(b.x-a.x), float64(b.y-a.y))
		along := func(t float64) dot { return dot{a.x + int(math.Round(ux*t)), a.y + int(math.Round(uy*t))} }
		for t := 0.0; t < long; {
			next := min(t+left, long)
			if drawn {
				c.bar(along(t), along(next), ux*half, uy*half)
			}
			if left -= next - t; next < long {
				drawn = !drawn
				if left = off; drawn {
					left = on
				}
			}
			t = next
		}
	}
}

// edge adds what a straight line changes. Above and below the canvas nothing
// does; to its left and right it is brought to its rim.
func (c *canvas) edge(a, b dot) {
	way := int32(1)
	if a.y > b.y {
		a, b, way = b, a, -1
	}
	most := c.high * fine
	if a.y == b.y || b.y <= 0 || a.y >= most {
		return
	}
	at := func(y int) int { return a.x + (b.x-a.x)*(y-a.y)/(b.y-a.y) }
	y, x, last := a.y, a.x, min(b.y, most)
	if y < 0 {
		y, x = 0, at(0)
	}
	for y < last {
		row := y / fine
		next := min((row+1)*fine, last)
		nx := b.x
		if next < b.y {
			nx = at(next)
		}
		c.inRow(row, x, y, nx, next, way)
		x, y = nx, next
	}
}

// inRow adds a line that stays within a row of pixels and goes down.
func (c *canvas) inRow(row, x1, y1, x2, y2 int, way int32) {
	c.top, c.foot = min(c.top, row), max(c.foot, row+1)
	rim := c.wide * fine
	x1, x2 = min(max(x1, 0), rim), min(max(x2, 0), rim)
	sums := c.sums[row*(c.wide+2):][:c.wide+2]
	if x1 > x2 { // mirrored upside down it covers the same
		x1, x2 = x2, x1
	}
	for x, y := x1, y1; ; {
		cell := x / fine
		end, ey := x2, y2
		if stop := (cell + 1) * fine; x2 > stop {
			end, ey = stop, y1+(y2-y1)*(stop-x1)/(x2-x1)
		}
		high := int32(ey-y) * way
		left := high * int32(x+end-2*cell*fine)
		sums[cell] += 2*fine*high - left
		sums[cell+1] += left
		c.touched[row] |= 1<<(cell>>c.block) | 1<<((cell+1)>>c.block)
		if end == x2 {
			return
		}
		x, y = end, ey
	}
}

// put lays a colour on what is covered, and forgets the cover. Where an area
// is covered twice it is bare, where lines cross they are one.
func (c *canvas) put(colour uint32, area bool) {
	index := c.index(colour)
	for i := range c.mixed {
		for k := range c.mixed[i] {
			c.mixed[i][k] = -1
		}
	}
	for row := c.top; row < c.foot; row++ {
		c.putRow(row, index, area)
	}
	c.top, c.foot = c.high, 0
}

func (c *canvas) putRow(row int, index uint8, area bool) {
	sums := c.sums[row*(c.wide+2):][:c.wide+2]
	pix := c.pix[row*c.wide:][:c.wide]
	sum, level, from := int32(0), 0, 0
	for touched := c.touched[row]; from < c.wide; {
		still := min(bits.TrailingZeros64(touched>>(from>>c.block)), 63)<<c.block + from
		if to := min(still, c.wide); to > from {
			c.run(pix[from:to], index, level)
			from = to
			continue
		}
		to := min(from+1<<c.block, c.wide)
		for i := from; i < to; i++ {
			if change := sums[i]; change != 0 {
				sum, sums[i] = sum+change, 0
				level = levelOf(sum, area)
			}
			switch level {
			case 0:
			case levels:
				pix[i] = index
			default:
				pix[i] = c.mix(pix[i], index, level)
			}
		}
		from = to
	}
	sums[c.wide], sums[c.wide+1] = 0, 0
	c.touched[row] = 0
}

// run covers pixels of which all are covered by as much.
func (c *canvas) run(pix []uint8, index uint8, level int) {
	switch level {
	case 0:
	case levels:
		pix[0] = index
		for n := 1; n < len(pix); n *= 2 {
			copy(pix[n:], pix[:n])
		}
	default:
		for i, old := range pix {
			pix[i] = c.mix(old, index, level)
		}
	}
}

// levelOf is how much of a pixel is covered, of levels.
func levelOf(sum int32, area bool) int {
	if sum < 0 {
		sum = -sum
	}
	if area {
		if sum &= 2*whole - 1; sum > whole {
			sum = 2*whole - sum
		}
	}
	return int((min(sum, whole) + whole/levels/2) / (whole / levels))
}

// mix is the colour of a pixel of which so much is covered with another one.
func (c *canvas) mix(old, with uint8, level int) uint8 {
	if v := c.mixed[old][level]; v >= 0 {
		return uint8(v)
	}
	a, b := c.colours[old], c.colours[with]
	var v uint32
	for shift := 16; shift >= 0; shift -= 8 {
		p, q := int(a>>shift&255), int(b>>shift&255)
		v |= uint32((p*(levels-level)+q*level+levels/2)/levels) << shift
	}
	i := c.index(v)
	c.mixed[old][level] = int16(i)
	return i
}

// alike is how far the parts of two colours may lie apart, all together, that
// nobody tells from each other along a line.
const alike = 10

// index is a colour's place in the palette, or that of one like it; in a full
// palette, of the one most like it.
func (c *canvas) index(colour uint32) uint8 {
	best, off := 0, 1<<20
	for i, v := range c.colours {
		d := 0
		for shift := 0; shift <= 16; shift += 8 {
			d += abs(int(v>>shift&255) - int(colour>>shift&255))
		}
		if d < off {
			best, off = i, d
		}
	}
	if off > alike && len(c.colours) < 256 || off > 0 && len(c.colours) < 32 {
		c.colours = append(c.colours, colour)
		return uint8(len(c.colours) - 1)
	}
	return uint8(best)
}

func abs(v int) int {
	if v < 0 {
		return -v
	}
	return v
}
