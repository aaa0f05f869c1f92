package draw

import (
	"image/color"
	"math"
	"slices"
)

// mark covers a place of the mask, in fine steps.
func (c *canvas) mark(x, y int) {
	if x < 0 || y < 0 || x >= c.wide || y >= c.high {
		return
	}
	c.mask[y*c.wide+x] = true
	c.from.x, c.from.y = min(c.from.x, x), min(c.from.y, y)
	c.to.x, c.to.y = max(c.to.x, x+1), max(c.to.y, y+1)
}

// put lays a colour on what is covered and clears the mask.
func (c *canvas) put(with color.RGBA) {
	for py := c.from.y / fine; py*fine < c.to.y; py++ {
		for px := c.from.x / fine; px*fine < c.to.x; px++ {
			n := 0
			for y := py * fine; y < (py+1)*fine; y++ {
				row := c.mask[y*c.wide+px*fine:][:fine]
				for i := range row {
					if row[i] {
						n++
						row[i] = false
					}
				}
			}
			if n > 0 {
				old := c.img.RGBAAt(px, py)
				c.img.SetRGBA(px, py, color.RGBA{mixed(old.R, with.R, n), mixed(old.G, with.G, n), mixed(old.B, with.B, n), 255})
			}
		}
	}
	c.reset()
}

// mixed is a colour's part where n of the places of a pixel are covered.
func mixed(old, with uint8, n int) uint8 {
	const all = fine * fine
	return uint8((int(old)*(all-n) + int(with)*n + all/2) / all)
}

// fill covers what lies within closed lines, by the rule of odd and even.
func (c *canvas) fill(lines [][]dot) {
	least, most := c.high, 0
	for _, l := range lines {
		for _, p := range l {
			least, most = min(least, p.y/quarter), max(most, p.y/quarter+1)
		}
	}
	var cross []int
	for row := max(least, 0); row < min(most, c.high); row++ {
		y := row*quarter + quarter/2
		cross = cross[:0]
		for _, l := range lines {
			for i := 1; i < len(l); i++ {
				a, b := l[i-1], l[i]
				if a.y > b.y {
					a, b = b, a
				}
				if y >= a.y && y < b.y {
					cross = append(cross, a.x+(b.x-a.x)*(y-a.y)/(b.y-a.y))
				}
			}
		}
		slices.Sort(cross)
		for i := 1; i < len(cross); i += 2 {
			for x := cross[i-1] / quarter; x*quarter+quarter/2 < cross[i]; x++ {
				if x*quarter+quarter/2 >= cross[i-1] {
					c.mark(x, row)
				}
			}
		}
	}
}

// stroke covers lines of a weight, in dashes where the look has them.
func (c *canvas) stroke(lines [][]dot, l look) {
	const step = fine * quarter
	thick := max(l.weight*c.k, 1.6) * step // a line thinner than that is lost
	half := int(math.Round(thick / 2))
	for _, line := range lines {
		if len(l.dash) < 2 {
			for i := 1; i < len(line); i++ {
				c.segment(line[i-1], line[i], half)
			}
			continue
		}
		on, off := max(l.dash[0]*c.k, 6)*step, max(l.dash[1]*c.k, 4)*step
		c.dashes(line, half, on, off)
	}
}

// dashes covers a line in stretches of length on, off apart.
func (c *canvas) dashes(line []dot, half int, on, off float64) {
	gone := 0.0
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		dx, dy := float64(b.x-a.x), float64(b.y-a.y)
		long := math.Sqrt(float64(dx*dx) + float64(dy*dy))
		if long == 0 {
			continue
		}
		along := func(t float64) dot {
			return dot{a.x + int(math.Round(dx*t/long)), a.y + int(math.Round(dy*t/long))}
		}
		for t := 0.0; t < long; {
			at := math.Mod(gone, on+off)
			next := min(on-at, long-t)
			if at >= on {
				next = min(on+off-at, long-t)
			} else {
				c.segment(along(t), along(t+next), half)
			}
			next = max(next, 1e-3)
			t, gone = t+next, gone+next
		}
	}
}

// chunk bounds the square about a stretch of a line in which places are looked
// at one by one, in quarters.
const chunk = 24 * quarter

// segment covers what lies within half of a straight line.
func (c *canvas) segment(a, b dot, half int) {
	dx, dy := b.x-a.x, b.y-a.y
	parts := 1 + max(abs(dx), abs(dy))/chunk
	for i := range parts {
		x1, y1 := a.x+dx*i/parts, a.y+dy*i/parts
		x2, y2 := a.x+dx*(i+1)/parts, a.y+dy*(i+1)/parts
		for y := (min(y1, y2) - half) / quarter; y*quarter <= max(y1, y2)+half; y++ {
			for x := (min(x1, x2) - half) / quarter; x*quarter <= max(x1, x2)+half; x++ {
				if near(dot{x*quarter + quarter/2, y*quarter + quarter/2}, a, b, half) {
					c.mark(x, y)
				}
			}
		}
	}
}

// near reports whether p lies within half of the line from a to b.
func near(p, a, b dot, half int) bool {
	dx, dy := int64(b.x-a.x), int64(b.y-a.y)
	px, py := int64(p.x-a.x), int64(p.y-a.y)
	r := int64(half) * int64(half)
	t, long := px*dx+py*dy, dx*dx+dy*dy
	switch {
	case t <= 0:
		return px*px+py*py <= r
	case t >= long:
		qx, qy := int64(p.x-b.x), int64(p.y-b.y)
		return qx*qx+qy*qy <= r
	}
	cross := px*dy - py*dx
	return cross*cross <= r*long
}

func abs(v int) int {
	if v < 0 {
		return -v
	}
	return v
}
