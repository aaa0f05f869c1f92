package draw

import (
	"slices"

	"hembook/internal/shape"
)

// A ringCut is where rings that lie against each other are cut by a level line. Its
// room is used again for the next one: hundreds are tried for a name.
type ringCut struct {
	rings []shape.Ring
	at    []float64
	spans [][2]float64
	band  ringBand
}

// bandLines is at how many heights of a box it is looked at whether it lies within rings.
const bandLines = 7

// A ringBand is where rings are cut at the heights of a box: boxes beside each other ask
// for the same.
type ringBand struct {
	top, bottom float64
	cuts        [bandLines][][2]float64
	known       int // of the cuts, from the top
}

// over begins a band of other heights, or of other rings.
func (c *ringCut) over(top, bottom float64) {
	c.band.top, c.band.bottom, c.band.known = top, bottom, 0
}

// inside reports whether a box as high as the band lies within rings that lie against
// each other.
func (c *ringCut) inside(rings []shape.Ring, left, right float64) bool {
	for i := range bandLines {
		if i == c.band.known {
			y := c.band.top + (c.band.bottom-c.band.top)*float64(i)/(bandLines-1)
			c.band.cuts[i] = append(c.band.cuts[i][:0], c.stretchesAt(rings, y)...)
			c.band.known++
		}
		from, to, ok := holding(c.band.cuts[i], (left+right)/2)
		if !ok || from > left || to < right {
			return false
		}
	}
	return true
}

// widest is the widest stretch within rings at a height.
func (c *ringCut) widest(rings []shape.Ring, y float64) (from, to float64, ok bool) {
	for _, s := range c.stretchesAt(rings, y) {
		if s[1]-s[0] > to-from {
			from, to, ok = s[0], s[1], true
		}
	}
	return from, to, ok
}

// holding is the stretch that a place is in.
func holding(stretches [][2]float64, x float64) (from, to float64, ok bool) {
	for _, s := range stretches {
		if s[0] <= x && x <= s[1] {
			return s[0], s[1], true
		}
	}
	return 0, 0, false
}

// stretchesAt are the stretches within rings at a height, those that touch as
// one. They last until the next are asked for.
func (c *ringCut) stretchesAt(rings []shape.Ring, y float64) [][2]float64 {
	all := c.spans[:0]
	for _, r := range rings {
		at := c.at[:0]
		for i, a := range r {
			b := r[0]
			if i+1 < len(r) {
				b = r[i+1]
			}
			if a.Y > y != (b.Y > y) {
				at = append(at, a.X+(y-a.Y)/(b.Y-a.Y)*(b.X-a.X))
			}
		}
		slices.Sort(at)
		for i := 0; i+1 < len(at); i += 2 {
			all = append(all, [2]float64{at[i], at[i+1]})
		}
		c.at = at
	}
	slices.SortFunc(all, func(a, b [2]float64) int {
		if a[0] < b[0] {
			return -1
		}
		return 1
	})
	c.spans = all
	out := all[:0] // which never overtakes what is read
	for _, s := range all {
		if n := len(out); n > 0 && s[0] <= out[n-1][1]+0.1 {
			out[n-1][1] = max(out[n-1][1], s[1])
			continue
		}
		out = append(out, s)
	}
	return out
}
