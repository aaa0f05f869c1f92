package draw

import (
	"image"
	"image/color"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// Paint turns the lines of a drawing of this package into a picture of the
// given size in pixels, for where a page is shown as a picture. Words, arrows,
// levels and scale bars are left out: they would be too small to read. It
// reckons in whole numbers, so that the picture is the same on any machine.
func Paint(svg []byte, wide, high int) *image.RGBA {
	c := newCanvas(wide, high)
	c.ground()
	c.place(svg)
	for _, m := range pathPattern.FindAllSubmatch(svg, -1) {
		attrs := attributes(string(m[1]))
		look, ok := lookOf(attrs)
		if !ok {
			continue
		}
		lines := c.trace(attrs["d"])
		if look.fill.A > 0 {
			c.fill(lines)
			c.put(look.fill)
		}
		if look.stroke.A > 0 {
			c.stroke(lines, look)
			c.put(look.stroke)
		}
	}
	return c.img
}

var (
	boxPattern  = regexp.MustCompile(`viewBox="(-?\d+) (-?\d+) (\d+) (\d+)"`)
	pathPattern = regexp.MustCompile(`<path([^>]*)/>`)
	attrPattern = regexp.MustCompile(` ([a-z-]+)="([^"]*)"`)
	stepPattern = regexp.MustCompile(`([MLHVhvlcz])([^MLHVhvlcz]*)`)
	intPattern  = regexp.MustCompile(`-?\d+`)
)

func attributes(text string) map[string]string {
	out := map[string]string{}
	for _, m := range attrPattern.FindAllStringSubmatch(text, -1) {
		out[m[1]] = m[2]
	}
	return out
}

// A look is how a line is painted: its colours, its weight and its dashes in
// tenths of a millimetre.
type look struct {
	stroke, fill color.RGBA
	weight       float64
	dash         []float64
}

// The colours of the light theme, as look/1-ground.css has them.
var (
	clothColour  = rgb(0xf6f0e4)
	liningColour = rgb(0xfcf9f2)
	tissueColour = rgb(0xf1e4c6)
	creaseColour = rgb(0xe2d0a6)
	chalkColour  = rgb(0xb7a78e)
	inkColour    = rgb(0x2b241e)
	threadColour = rgb(0x8c2c1e)
	tapeColour   = rgb(0xe9ca62)
)

func rgb(v uint32) color.RGBA { return color.RGBA{uint8(v >> 16), uint8(v >> 8), uint8(v), 255} }

// looks are the lines that are painted, by the classes of look/5-drawings.css.
var looks = map[string]look{
	"cut":    {stroke: inkColour, fill: liningColour, weight: 4},
	"sew":    {stroke: threadColour, weight: 2.6, dash: []float64{16, 9}},
	"dart":   {stroke: threadColour, weight: 2},
	"edge":   {stroke: inkColour},
	"one":    {stroke: rgb(0xf3d9a6)},
	"two":    {stroke: rgb(0xd9a283)},
	"strip":  {stroke: rgb(0xb9c49a)},
	"cord":   {stroke: rgb(0xc9c0b2)},
	"ends":   {stroke: inkColour, weight: 2},
	"thread": {stroke: threadColour, weight: 4.5},
	"pinked": {stroke: chalkColour, weight: 1.5},
}

// lookOf is how a path is painted; false where it is left out.
func lookOf(attrs map[string]string) (look, bool) {
	for class := range strings.FieldsSeq(attrs["class"]) {
		l, ok := looks[class]
		if !ok {
			continue
		}
		if w, err := strconv.ParseFloat(attrs["stroke-width"], 64); err == nil {
			l.weight = w
		}
		if v, err := strconv.ParseUint(strings.TrimPrefix(attrs["fill"], "#"), 16, 32); err == nil && len(attrs["fill"]) == 7 {
			l.fill = rgb(uint32(v))
		}
		if strings.Contains(attrs["class"], "basting") {
			l.dash = []float64{8, 8}
		}
		return l, true
	}
	return look{}, false
}

// Each pixel is looked at in fine × fine places, and places are reckoned in
// quarters of the distance between two of them.
const (
	fine    = 4
	quarter = 4
)

// A dot is a place on the canvas, in quarters of a fine step.
type dot struct{ x, y int }

// A canvas is a picture being painted.
type canvas struct {
	img        *image.RGBA
	wide, high int    // in fine steps
	mask       []bool // what the path that is being painted covers
	from, to   dot    // the part of the mask in use, in fine steps
	k          float64
	left, top  float64 // of the drawing, in its units
	dx, dy     float64 // where it is put, in pixels
}

func newCanvas(wide, high int) *canvas {
	c := &canvas{img: image.NewRGBA(image.Rect(0, 0, wide, high)), wide: wide * fine, high: high * fine}
	c.mask = make([]bool, c.wide*c.high)
	c.reset()
	return c
}

func (c *canvas) reset() { c.from, c.to = dot{c.wide, c.high}, dot{} }

// tapeHigh is the height of the measuring tape along the top, in pixels.
const tapeHigh = 36

// ground lays the table: cloth, a sheet of tissue with its folds, and a tape.
func (c *canvas) ground() {
	b := c.img.Bounds()
	c.rect(b, clothColour)
	sheet := image.Rect(36, tapeHigh+36, b.Max.X-36, b.Max.Y-36)
	c.rect(sheet, tissueColour)
	x, y := (sheet.Min.X+sheet.Max.X)/2, (sheet.Min.Y+sheet.Max.Y)/2
	c.rect(image.Rect(x-1, sheet.Min.Y, x+1, sheet.Max.Y), creaseColour)
	c.rect(image.Rect(sheet.Min.X, y-1, sheet.Max.X, y+1), creaseColour)
	c.rect(image.Rect(0, 0, b.Max.X, tapeHigh), tapeColour)
	for i, x := 0, 0; x < b.Max.X; i, x = i+1, x+15 {
		long := 10
		if i%5 == 0 {
			long = 24
		}
		c.rect(image.Rect(x, tapeHigh-long, x+2, tapeHigh), inkColour)
	}
	c.rect(image.Rect(0, tapeHigh, b.Max.X, tapeHigh+2), inkColour)
}

func (c *canvas) rect(r image.Rectangle, with color.RGBA) {
	r = r.Intersect(c.img.Bounds())
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			c.img.SetRGBA(x, y, with)
		}
	}
}

// place finds the scale at which the drawing fills the tissue.
func (c *canvas) place(svg []byte) {
	m := boxPattern.FindSubmatch(svg)
	if m == nil {
		return
	}
	var v [4]float64
	for i := range v {
		n, _ := strconv.Atoi(string(m[i+1]))
		v[i] = float64(n)
	}
	const free = 72
	b := c.img.Bounds()
	wide, high := float64(b.Dx()-2*free), float64(b.Dy()-tapeHigh-2*free)
	c.left, c.top = v[0], v[1]
	c.k = min(wide/max(v[2], 1), high/max(v[3], 1))
	c.dx = free + (wide-float64(v[2]*c.k))/2
	c.dy = tapeHigh + free + (high-float64(v[3]*c.k))/2
}

// at is where a place of the drawing lies on the canvas; what would lie far
// outside is brought near.
func (c *canvas) at(x, y int) dot {
	const step = fine * quarter
	near := func(v float64, size int) int {
		most := float64(size * quarter)
		return int(math.Round(min(max(v*step, -most), 2*most)))
	}
	return dot{
		near(float64(float64(float64(x)-c.left)*c.k)+c.dx, c.wide),
		near(float64(float64(float64(y)-c.top)*c.k)+c.dy, c.high),
	}
}

// trace reads path data as a pen of this package writes them, and returns its
// lines as spots; curves become short straight stretches.
func (c *canvas) trace(d string) [][]dot {
	var out [][]dot
	x, y := 0, 0
	add := func() {
		if n := len(out); n > 0 {
			out[n-1] = append(out[n-1], c.at(x, y))
		}
	}
	for _, m := range stepPattern.FindAllStringSubmatch(d, -1) {
		var v []int
		for _, s := range intPattern.FindAllString(m[2], -1) {
			n, _ := strconv.Atoi(s)
			v = append(v, n)
		}
		switch {
		case m[1] == "M" && len(v) >= 2:
			x, y = v[0], v[1]
			out = append(out, nil)
			add()
		case m[1] == "h" && len(v) >= 1:
			x += v[0]
			add()
		case m[1] == "v" && len(v) >= 1:
			y += v[0]
			add()
		case m[1] == "l" && len(v) >= 2:
			x, y = x+v[0], y+v[1]
			add()
		case m[1] == "c" && len(v) >= 6:
			x0, y0 := x, y
			for t := 1; t <= bends; t++ {
				x, y = x0+bend(t, v[0], v[2], v[4]), y0+bend(t, v[1], v[3], v[5])
				add()
			}
		case m[1] == "z" && len(out) > 0 && len(out[len(out)-1]) > 0:
			last := &out[len(out)-1]
			*last = append(*last, (*last)[0])
		}
	}
	return out
}

// bends is how many straight stretches stand for a curve.
const bends = 16

// bend is where a curve that begins at 0 is after t of its stretches.
func bend(t, c1, c2, end int) int {
	u := bends - t
	sum := 3*u*u*t*c1 + 3*u*t*t*c2 + t*t*t*end
	const all = bends * bends * bends
	if sum < 0 {
		return (sum - all/2) / all
	}
	return (sum + all/2) / all
}
