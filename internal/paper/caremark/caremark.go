// Package caremark draws care symbols: a wash tub, a triangle, a square, an
// iron, a circle, with the bars, dots, figures and crosses that say how much
// the article stands.
//
// They are constructed here from what ISO 3758 says the symbols are, in words
// (the standard's drawings were not at hand and none are copied): straight
// stretches and arcs of one weight, figures and letters included, so that they
// need no font. What each symbol shows is from memory (ISO 3758:2012, 2023)
// unless said otherwise. The symbols are registered marks in many countries; a
// sheet that shows them says so, and sets their words beside them.
//
// It knows nothing of fibres and decides no care.
package caremark

import (
	"strconv"
	"strings"

	"hembook/internal/drawing"
)

// Every symbol stands in a box of the same size, bars below the base line.
const (
	boxWide = 24.0
	boxHigh = 25.0
	base    = 19.6 // where tubs, triangles, squares and circles end
)

// Named draws a symbol by its name; false where there is no such symbol.
func Named(name string) (*drawing.Drawing, bool) {
	kind, rest, _ := strings.Cut(name, "-")
	s := sign{}
	ok := false
	switch kind {
	case "do", "wash":
		ok = s.wash(name)
	case "bleach":
		ok = s.bleach(rest)
	case "tumble":
		ok = s.tumble(rest)
	case "dry":
		ok = s.natural(rest)
	case "iron":
		ok = s.iron(rest)
	case "clean", "wet":
		ok = s.professional(kind, rest)
	}
	if !ok {
		return nil, false
	}
	return s.drawing(strings.ReplaceAll(name, "-", " ")), true
}

// A sign is a symbol being drawn: its lines, and its dots, which are filled.
type sign struct{ lines, dots drawing.Path }

func (s *sign) drawing(title string) *drawing.Drawing {
	d := drawing.New("symbol")
	d.Title, d.Box = title, drawing.Box{Right: boxWide, Bottom: boxHigh}
	d.Draw(drawing.Symbol).Append(s.lines)
	if len(s.dots.Ops) > 0 {
		d.Draw(drawing.SymbolDot).Append(s.dots)
	}
	return d
}

func (s *sign) wash(name string) bool {
	hand := strings.HasPrefix(name, "wash-hand")
	s.tub(hand)
	switch name {
	case "do-not-wash":
		s.cross(2.2, 4, 21.8, base)
		return true
	case "wash-hand", "wash-hand-ambient":
		s.hand()
		if name == "wash-hand-ambient" {
			s.bars(1) // Intertek insight bulletin vol. 1396: hand-wash tub with one bar
		}
		return true
	}
	words := strings.SplitN(name, "-", 3)
	if len(words) < 2 {
		return false
	}
	if degrees, err := strconv.Atoi(words[1]); err != nil || degrees < 30 || degrees > 95 {
		return false
	}
	s.figures(words[1], 12, 9.2, 7.6)
	if len(words) == 3 {
		return s.action(words[2])
	}
	return true
}

// action adds the bars of a milder treatment.
func (s *sign) action(words string) bool {
	switch words {
	case "":
	case "mild":
		s.bars(1)
	case "very-mild":
		s.bars(2)
	default:
		return false
	}
	return true
}

// tub is a basin seen from the side, the water in it as a wave, which ends
// where a hand reaches in.
func (s *sign) tub(hand bool) {
	s.lines.Move(1.6, 4).Line(4.6, base).Line(19.4, base).Line(22.4, 4)
	s.lines.Move(2.15, 6.9)
	if hand {
		s.lines.Curve(3.65, 4.9, 4.75, 4.9, 5.433, 6.3)
		return
	}
	for i := range 3 {
		x := 2.15 + 6.567*float64(i)
		s.lines.Curve(x+1.5, 4.9, x+2.6, 4.9, x+3.283, 6.3)
		s.lines.Curve(x+3.967, 7.7, x+5.3, 7.9, x+6.567, 6.9)
	}
}

// hand reaches into the tub from above.
func (s *sign) hand() {
	l := &s.lines
	l.Move(21.2, 1.4).Curve(17.5, 1.6, 14.6, 2.6, 12.6, 5.0) // back of the wrist to the knuckles
	l.Line(7.6, 12.2).Curve(6.9, 13.3, 8.3, 14.5, 9.3, 13.5).Line(12.3, 10.4)
	l.Move(9.3, 13.5).Line(8.9, 14.4).Curve(8.4, 15.7, 9.9, 16.6, 10.8, 15.5).Line(14, 11.4)
	l.Move(10.8, 15.5).Curve(10.8, 17.0, 12.4, 17.2, 13.1, 16.0).Line(16.2, 10.6)
	l.Curve(17.4, 9.0, 19.2, 8.3, 21.0, 8.2)                                                   // palm to the wrist
	l.Move(12.6, 5.0).Curve(10.9, 5.6, 9.4, 6.6, 8.2, 7.8).Curve(7.4, 8.8, 8.6, 9.8, 9.6, 9.2) // thumb
}

func (s *sign) bleach(what string) bool {
	const half, top = 10.4, 19.6 - 18.0
	s.lines.Move(12, top).Line(12+half, base).Line(12-half, base).Close()
	switch what {
	case "none":
		s.cross(2.6, 2.6, 21.4, base)
	case "oxygen": // two strokes that lean like the left side
		s.lines.Move(9.3, base).Line(14.35, 10.85-4.6+0.05)
		s.lines.Move(14.3, base).Line(17.0, 14.93-4.6+0.0)
	case "any":
	default:
		return false
	}
	return true
}

// square is what drying stands in.
func (s *sign) square() { s.lines.Rect(3, base-18, 21, base) }

func (s *sign) tumble(how string) bool {
	s.square()
	s.lines.Circle(12, base-9, 9)
	switch how {
	case "none":
		s.cross(3, base-18, 21, base)
	case "low":
		s.dotRow(1, base-9)
	case "normal":
		s.dotRow(2, base-9)
	default:
		return false
	}
	return true
}

// natural drying: upright strokes for a line, level ones for lying flat, two
// for dripping wet, a corner cut off for the shade.
func (s *sign) natural(how string) bool {
	s.square()
	way, more, _ := strings.Cut(how, "-")
	drip, shade := false, false
	switch more {
	case "":
	case "drip":
		drip = true
	case "shade":
		shade = true
	case "drip-shade":
		drip, shade = true, true
	default:
		return false
	}
	from := []float64{0}
	if drip {
		from = []float64{-2.2, 2.2}
	}
	for _, d := range from {
		switch way {
		case "line":
			s.lines.Move(12+d, base-14).Line(12+d, base-4)
		case "flat":
			s.lines.Move(7, base-9+d).Line(17, base-9+d)
		default:
			return false
		}
	}
	if shade {
		s.lines.Move(3, base-11.5).Line(9.5, base-18)
	}
	return true
}

// iron: sole, body and handle.
func (s *sign) iron(how string) bool {
	low := base
	if how == "no-steam" {
		low = base - 3.4
	}
	l := &s.lines
	l.Move(1.4, low).Curve(2.0, low-5.2, 5.4, low-8.4, 10.4, low-8.4).Line(20.9, low-8.4).Line(22.6, low).Close()
	l.Move(20.9, low-8.4).Line(19.9, low-14.2).Line(8.2, low-14.2)
	switch how {
	case "none":
		s.cross(2.4, base-16.4, 21.6, base+1.2)
	case "no-steam": // Intertek insight bulletin vol. 1396; how it is drawn is from memory
		for _, x := range []float64{9.2, 14.8} {
			l.Move(x, low+2.3).Line(x, low+7.6)
		}
		l.Move(6.8, low+2.5).Line(17.2, low+7.4).Move(17.2, low+2.5).Line(6.8, low+7.4)
	case "110":
		s.dotRow(1, low-4)
	case "150":
		s.dotRow(2, low-4)
	case "200":
		s.dotRow(3, low-4)
	default:
		return false
	}
	return true
}

// professional care: a circle with the letter of what it is cleaned in.
func (s *sign) professional(kind, how string) bool {
	s.lines.Circle(12, base-9, 9)
	if how == "none" {
		if kind == "wet" {
			s.figures("W", 12, base-13.4, 8.8)
		}
		s.cross(3.4, base-17.6, 20.6, base-0.4)
		return true
	}
	letter, action := "W", how
	if kind == "clean" {
		letter, action, _ = strings.Cut(how, "-")
		letter = strings.ToUpper(letter)
		if letter != "P" && letter != "F" {
			return false
		}
	}
	s.figures(letter, 12, base-13.4, 8.8)
	return s.action(action)
}

// bars stand under a symbol: one for mild, two for very mild.
func (s *sign) bars(n int) {
	for i := range n {
		y := base + 2.3 + 2.3*float64(i)
		s.lines.Move(4.8, y).Line(19.2, y)
	}
}

// dotRow is a row of dots.
func (s *sign) dotRow(n int, y float64) {
	const apart = 4.4
	for i := range n {
		s.dots.Circle(12+apart*(float64(i)-float64(n-1)/2), y, 1.25)
	}
}

// cross is St Andrew's: do not.
func (s *sign) cross(left, top, right, bottom float64) {
	s.lines.Move(left, top).Line(right, bottom).Move(right, top).Line(left, bottom)
}
