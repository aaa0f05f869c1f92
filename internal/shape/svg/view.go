package svg

import (
	"strings"
)

// Millimetres of the units an SVG length may have (CSS Values and Units 3,
// section 6.2).
var unitMM = map[string]float64{"mm": 1, "cm": 10, "q": 0.25, "in": 25.4, "pt": 25.4 / 72, "pc": 25.4 / 6}

const pixelMM = 25.4 / 96

// A size is a length as written: a number with its unit, "" or "px" for
// pixels, "%" for a share of what it lies in.
type size struct {
	v    float64
	unit string
}

func readSize(text string) (size, bool) {
	s := scanner{text: strings.TrimSpace(text)}
	v, ok := s.number()
	return size{v, strings.ToLower(strings.TrimSpace(s.text[s.i:]))}, ok
}

// pixels is the size in user units, shares of whole.
func (z size) pixels(whole float64) (float64, bool) {
	switch z.unit {
	case "", "px":
		return z.v, true
	case "%":
		return z.v / 100 * whole, true
	}
	mm, ok := unitMM[z.unit]
	return z.v * mm / pixelMM, ok
}

// A view is the viewport an element lies in, in its own user units.
type view struct{ wide, high float64 }

// length reads an attribute that is a length; otherwise where it is missing or
// unreadable. which is 'x', 'y' for shares of the view's width or height.
func (v view) length(n *node, name string, which byte, otherwise float64) float64 {
	text := n.get(name)
	if text == "" {
		return otherwise
	}
	z, ok := readSize(text)
	if !ok {
		return otherwise
	}
	whole := v.wide
	if which == 'y' {
		whole = v.high
	}
	if px, ok := z.pixels(whole); ok {
		return px
	}
	return otherwise
}

// box reads a viewBox.
func box(n *node) (x, y, w, h float64, ok bool) {
	v, good := arguments(n.get("viewBox"))
	if !good || len(v) != 4 || !(v[2] > 0 && v[3] > 0) {
		return 0, 0, 0, 0, false
	}
	return v[0], v[1], v[2], v[3], true
}

// fitted maps a viewBox into a viewport of the size given (SVG 2, section
// 8.2): stretched alike both ways unless preserveAspectRatio is none, and
// aligned as it says.
func fitted(n *node, wide, high float64) matrix {
	x, y, w, h, ok := box(n)
	if !ok || !(wide > 0 && high > 0) {
		return identity
	}
	sx, sy := wide/w, high/h
	words := strings.Fields(n.get("preserveAspectRatio"))
	if len(words) > 0 && words[0] == "defer" {
		words = words[1:]
	}
	align, slice := "xMidYMid", false
	if len(words) > 0 {
		align = words[0]
		slice = len(words) > 1 && words[1] == "slice"
	}
	if align == "none" {
		return stretch(sx, sy).times(move(-x, -y))
	}
	k := min(sx, sy)
	if slice {
		k = max(sx, sy)
	}
	part := func(least, most string) float64 {
		switch {
		case strings.Contains(align, least):
			return 0
		case strings.Contains(align, most):
			return 1
		}
		return 0.5
	}
	dx, dy := (wide-w*k)*part("xMin", "xMax"), (high-h*k)*part("YMin", "YMax")
	return move(dx, dy).times(stretch(k, k)).times(move(-x, -y))
}

// outermost is the view of the root element and the millimetres of one of its
// units each way, 0 where it does not say.
func outermost(root *node) (v view, x, y float64) {
	_, _, w, h, boxed := box(root)
	mm := func(name string) float64 {
		z, ok := readSize(root.get(name))
		if !ok || !(z.v > 0) {
			return 0
		}
		return z.v * unitMM[z.unit] // nought for pixels and shares
	}
	wide, high := mm("width"), mm("height")
	switch {
	case !boxed && (wide > 0 || high > 0):
		return view{wide / pixelMM, high / pixelMM}, pixelMM, pixelMM
	case !boxed:
		px := func(name string) float64 {
			z, _ := readSize(root.get(name))
			p, _ := z.pixels(0)
			return p
		}
		return view{px("width"), px("height")}, 0, 0
	}
	v = view{w, h}
	switch {
	case wide > 0 && high > 0:
		m := fitted(root, wide, high)
		return v, m.a, m.d
	case wide > 0:
		return v, wide / w, wide / w
	case high > 0:
		return v, high / h, high / h
	}
	return v, 0, 0
}
