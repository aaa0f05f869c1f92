package card

import (
	"math"
	"math/bits"
	"slices"

	"hembook/internal/photo"
	"hembook/internal/shape"
)

// A Sight is a card as a photograph shows it.
type Sight struct {
	Number  int
	Corners [8]shape.Point // where its [Corners] are seen, in pixels
	Soft    float64        // how wide its sides are blurred, in pixels: from 10 to 90 % of the light
}

// Middle is where the card's middle is seen, nearly.
func (s *Sight) Middle() (m shape.Point) {
	for _, c := range s.Corners {
		m.X, m.Y = m.X+c.X/8, m.Y+c.Y/8
	}
	return m
}

// Side is the mean side of its squares, in pixels.
func (s *Sight) Side() float64 {
	sum := 0.0
	for i := range 8 {
		a, b := s.Corners[i], s.Corners[i/4*4+(i+1)%4]
		sum += math.Hypot(b.X-a.X, b.Y-a.Y) / 8
	}
	return sum
}

// smallSide is about how long the longer side of a picture is made to look for squares.
const smallSide = 2000

// Find finds the cards of a photograph, in the order of their numbers. One that is seen
// twice stands there twice.
func Find(light *photo.Light) []Sight {
	by := max((max(light.Wide, light.High)+smallSide-1)/smallSide, 1)
	small := shrunk(light, by)
	var out []Sight
	for _, about := range []int{small.Wide / 20, small.Wide / 45, small.Wide / 100} {
		for _, quad := range darkSquares(small, max(about, 6)) {
			for i := range quad {
				quad[i].X, quad[i].Y = quad[i].X*float64(by), quad[i].Y*float64(by)
			}
			if s, ok := read(light, quad, float64(by)); ok && !slices.ContainsFunc(out, s.same) {
				out = append(out, s)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Sight) int { return a.Number - b.Number })
	return out
}

// same reports whether another sight is of the same card at the same place.
func (s *Sight) same(o Sight) bool {
	a, b := s.Middle(), o.Middle()
	return s.Number == o.Number && math.Hypot(a.X-b.X, a.Y-b.Y) < s.Side()
}

// shrunk is a channel made smaller, as the eye sees it: square roots of light.
func shrunk(l *photo.Light, by int) *photo.Light {
	out := photo.New(l.Wide/by, l.High/by)
	for y := range out.High * by {
		row := out.Of[y/by*out.Wide : (y/by+1)*out.Wide]
		from := l.Of[y*l.Wide:]
		for x := range out.Wide * by {
			row[x/by] += from[x]
		}
	}
	share := 1 / float32(by*by)
	for i, v := range out.Of {
		out.Of[i] = float32(math.Sqrt(float64(max(v*share, 0))))
	}
	return out
}

// darkSquares are the corners, against the clock as they are seen, of what looks like a
// dark square before what lies so many pixels about it.
func darkSquares(l *photo.Light, about int) (out [][4]shape.Point) {
	dark := darkerThanAbout(l, about)
	for _, blob := range blobsOf(dark, l.Wide, l.High) {
		if quad, ok := blob.quad(); ok {
			out = append(out, quad)
		}
	}
	return out
}

// darkerThanAbout marks what is far darker than the mean of what lies about it.
func darkerThanAbout(l *photo.Light, about int) []bool {
	wide := l.Wide + 1
	sums := make([]float64, wide*(l.High+1))
	for y := range l.High {
		row := 0.0
		for x := range l.Wide {
			row += float64(l.Of[y*l.Wide+x])
			sums[(y+1)*wide+x+1] = sums[y*wide+x+1] + row
		}
	}
	out := make([]bool, l.Wide*l.High)
	for y := range l.High {
		top, foot := max(y-about, 0), min(y+about+1, l.High)
		for x := range l.Wide {
			left, right := max(x-about, 0), min(x+about+1, l.Wide)
			sum := sums[foot*wide+right] - sums[foot*wide+left] - sums[top*wide+right] + sums[top*wide+left]
			mean := sum / float64((foot-top)*(right-left))
			out[y*l.Wide+x] = float64(l.Of[y*l.Wide+x]) < 0.68*mean
		}
	}
	return out
}

// read reads the card one of whose squares has these corners; ok is false where it is
// none. by is how much coarser than the picture they were found.
func read(l *photo.Light, quad [4]shape.Point, by float64) (Sight, bool) {
	fine, soft, ok := sharpenTwice(l, quad, nearby(by), by)
	if !ok {
		return Sight{}, false
	}
	if s, ok := readLeft(l, fine, soft, by); ok {
		return s, true
	}
	// Pips that are hardly seen take a square apart. It may be found from the other one,
	// on one of whose four sides it lies.
	for range 4 {
		fine = [4]shape.Point{fine[1], fine[2], fine[3], fine[0]}
		left, soft, ok := beside(l, fine, Apart/2, by)
		if !ok {
			continue
		}
		if s, ok := readLeft(l, left, soft, by); ok {
			return s, true
		}
	}
	return Sight{}, false
}

// readLeft reads the card whose left square has these corners, and sides so soft.
func readLeft(l *photo.Light, left [4]shape.Point, soft, by float64) (s Sight, ok bool) {
	number, turn, ok := number(l, left)
	if !ok {
		return s, false
	}
	s.Number = number
	for i := range 4 {
		s.Corners[i] = left[(i+turn)%4]
	}
	right, soft2, ok := beside(l, [4]shape.Point(s.Corners[:4]), -Apart/2, by)
	if !ok {
		return s, false
	}
	copy(s.Corners[4:], right[:])
	s.Soft = (soft + soft2) / 2
	return s, s.whole()
}

// beside are the corners of a card's other square, from those of one whose middle lies so
// far right of the card's.
func beside(l *photo.Light, quad [4]shape.Point, middle, by float64) (other [4]shape.Point, soft float64, ok bool) {
	to, ok := homography(corners4(middle), quad)
	if !ok {
		return other, 0, false
	}
	for i, c := range corners4(-middle) {
		other[i] = to.at(c)
	}
	return sharpenTwice(l, other, 0.13*meanSide(quad)+2, by)
}

// nearby is how far from its true place a corner may be found in a picture made coarser,
// in pixels.
func nearby(by float64) float64 { return 2.5*by + 1 }

// sharpenTwice finds the corners of a square within reach, and again from nearer: where
// a side is looked for from further off, its two ends are not looked at alike.
func sharpenTwice(l *photo.Light, quad [4]shape.Point, reach, by float64) (fine [4]shape.Point, soft float64, ok bool) {
	fine, _, ok = sharpen(l, quad, reach)
	if !ok {
		return fine, 0, false
	}
	return sharpen(l, fine, nearby(by))
}

// meanSide is the mean side of a square, in pixels.
func meanSide(quad [4]shape.Point) float64 {
	sum := 0.0
	for i, a := range quad {
		b := quad[(i+1)%4]
		sum += math.Hypot(b.X-a.X, b.Y-a.Y) / 4
	}
	return sum
}

// whole reports whether both squares are seen as one flat card would be.
func (s *Sight) whole() bool {
	at := Corners()
	to, ok := homography([4]shape.Point{at[0], at[5], at[6], at[3]}, [4]shape.Point{s.Corners[0], s.Corners[5], s.Corners[6], s.Corners[3]})
	if !ok {
		return false
	}
	most := max(0.03*s.Side(), 1)
	for _, i := range []int{1, 2, 4, 7} {
		if p := to.at(at[i]); math.Hypot(p.X-s.Corners[i].X, p.Y-s.Corners[i].Y) > most {
			return false
		}
	}
	return true
}

// corners4 are the corners of a square whose middle lies so far right of the card's.
func corners4(middle float64) [4]shape.Point {
	const h = Square / 2
	return [4]shape.Point{{X: middle - h, Y: -h}, {X: middle + h, Y: -h}, {X: middle + h, Y: h}, {X: middle - h, Y: h}}
}

// number reads the pips of a square: which card it is, and which of its corners is the
// lower left one. One pip may be misread.
func number(l *photo.Light, quad [4]shape.Point) (number, turn int, ok bool) {
	to, ok := homography(corners4(-Apart/2), quad)
	if !ok {
		return 0, 0, false
	}
	dark, white := rim(l, to)
	if white-dark < 0.05 || white < 2*dark {
		return 0, 0, false
	}
	code, ok := pipsRead(l, to, white-dark)
	if !ok {
		return 0, 0, false
	}
	for turn = range 4 {
		for i, c := range codes {
			if bits.OnesCount16(c^code) <= 1 {
				return i + 1, turn, true
			}
		}
		code = turnedBack(code)
	}
	return 0, 0, false
}

// How many pips every card has at least, and lacks at least; and how much of the
// difference of white and ink there must be between pips and none.
const (
	fewPips  = 4
	leastPip = 0.25
)

// pipsRead is the code of a square. Blur takes light from pips, so they are told from
// ink half way between the brightest and the darkest places.
func pipsRead(l *photo.Light, to mapping, full float64) (code uint16, ok bool) {
	var light [pipsAcross * pipsAcross]float64
	for bit := range light {
		at := pipAt(bit)
		for i := -1; i <= 1; i++ {
			for j := -1; j <= 1; j++ {
				p := to.at(shape.Point{X: at.X + 0.6*float64(i), Y: at.Y + 0.6*float64(j)})
				light[bit] += l.At(p.X, p.Y) / 9
			}
		}
	}
	sorted := light
	slices.Sort(sorted[:])
	ink, pip := 0.0, 0.0
	for i := range fewPips {
		ink, pip = ink+sorted[i]/fewPips, pip+sorted[len(sorted)-1-i]/fewPips
	}
	for bit, v := range light {
		if v > (ink+pip)/2 {
			code |= 1 << bit
		}
	}
	return code, pip-ink > leastPip*full
}

// turnedBack is a code read from the next corner against the clock.
func turnedBack(code uint16) (out uint16) {
	for y := range pipsAcross {
		for x := range pipsAcross {
			if code>>(pipsAcross*y+x)&1 == 1 {
				out |= 1 << (pipsAcross*x + pipsAcross - 1 - y)
			}
		}
	}
	return out
}

// rim is the light of a square's own rim, inside its sides, and of the white outside.
func rim(l *photo.Light, to mapping) (dark, white float64) {
	const half, in, out = Square / 2, 1.6, 3.2
	n := 0.0
	for along := -12.0; along <= 12; along += 4 {
		for side := range 4 {
			at := func(off float64) float64 {
				x, y := along, half+off
				for range side {
					x, y = -y, x
				}
				p := to.at(shape.Point{X: x - Apart/2, Y: y})
				return l.At(p.X, p.Y)
			}
			dark, white, n = dark+at(-in), white+at(out), n+1
		}
	}
	return dark / n, white / n
}
