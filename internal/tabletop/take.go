package tabletop

import (
	"bytes"
	"image"
	"image/jpeg"
	"math"
	"math/rand/v2"
)

// Photograph takes the picture and stores it as JPEG.
func (s *Scene) Photograph() []byte {
	var out bytes.Buffer
	quality := s.Quality
	if quality == 0 {
		quality = 90
	}
	if err := jpeg.Encode(&out, s.Picture(), &jpeg.Options{Quality: quality}); err != nil {
		panic(err)
	}
	return out.Bytes()
}

// Picture is the photograph before it is stored.
func (s *Scene) Picture() *image.RGBA {
	s.aim()
	t := s.lay()
	light := make([]float32, 3*s.Wide*s.High)
	for top := 0; top < s.High; top += tile {
		for left := 0; left < s.Wide; left += tile {
			t.expose(light, image.Rect(left, top, min(left+tile, s.Wide), min(top+tile, s.High)))
		}
	}
	if s.Blur > 0 {
		blur(light, s.Wide, s.High, s.Blur)
	}
	return s.develop(light)
}

// tile is how many pixels of a picture are looked at together, across and down.
const tile = 16

// expose takes a part of the picture. Where nothing but one sheet of paper is seen in it,
// or nothing but the table, not all is asked of every place.
func (t *table) expose(light []float32, part image.Rectangle) {
	x, y, reach := t.seenIn(part)
	cards, share, mixed := t.cardsNear(x, y, reach), 0.0, true
	if len(cards) == 0 && t.lines == nil && t.others == nil && t.Print == nil {
		share, mixed = t.paper.within(x, y, reach)
	}
	colour := func(x, y float64) Colour { return t.colour(x, y, cards) }
	switch {
	case mixed:
	case share == 1:
		colour = func(float64, float64) Colour { return t.Paper }
	default:
		colour = t.bare
	}
	for py := part.Min.Y; py < part.Max.Y; py++ {
		for px := part.Min.X; px < part.Max.X; px++ {
			t.exposeOne(light[3*(py*t.Wide+px):][:3], float64(px), float64(py), colour, !mixed && share == 1)
		}
	}
}

// exposeOne takes a pixel from four places in it; from one where all are alike.
func (t *table) exposeOne(light []float32, px, py float64, colour func(x, y float64) Colour, alike bool) {
	u, v := t.back(px+0.25, py+0.25)
	lit, sum := t.light(u, v), colour(u, v)
	if !alike {
		for k := 1; k < 4; k++ {
			on := colour(t.back(px+0.25+0.5*float64(k%2), py+0.25+0.5*float64(k/2)))
			for c := range sum {
				sum[c] += on[c]
			}
		}
		lit /= 4
	}
	for c := range sum {
		light[c] = float32(sum[c] * lit)
	}
}

// seenIn is the place of the table in the middle of a part of the picture, and how far
// what is seen in that part reaches from there at most.
func (t *table) seenIn(part image.Rectangle) (x, y, reach float64) {
	left, top, right, foot := float64(part.Min.X), float64(part.Min.Y), float64(part.Max.X), float64(part.Max.Y)
	x, y = t.back((left+right)/2, (top+foot)/2)
	for k := range 4 {
		u, v := t.back([]float64{left, right}[k%2], []float64{top, foot}[k/2])
		reach = max(reach, math.Hypot(u-x, v-y))
	}
	return x, y, 1.1*reach + 1
}

// cardsNear are the cards that may be seen so far about a place.
func (t *table) cardsNear(x, y, reach float64) (out []*seenCard) {
	for i := range t.cards {
		if c := &t.cards[i]; c.Raised != 0 || math.Hypot(x-c.X, y-c.Y) < cardReach+reach {
			out = append(out, c)
		}
	}
	return out
}

// within is how far all so far about a place is covered, nothing or wholly; mixed where
// neither is so.
func (c *cover) within(x, y, reach float64) (share float64, mixed bool) {
	left, right := int(math.Floor((x-reach-c.left)/step))-1, int(math.Ceil((x+reach-c.left)/step))+1
	top, foot := int(math.Floor((c.top-y-reach)/step))-1, int(math.Ceil((c.top-y+reach)/step))+1
	if right < 0 || foot < 0 || left >= c.wide || top >= c.high {
		return 0, false
	}
	if left < 0 || top < 0 || right >= c.wide || foot >= c.high {
		return 0, true
	}
	first := c.of[top*c.wide+left]
	if first != 0 && first != 255 {
		return 0, true
	}
	for row := top; row <= foot; row++ {
		for _, v := range c.of[row*c.wide+left : row*c.wide+right+1] {
			if v != first {
				return 0, true
			}
		}
	}
	return float64(first) / 255, false
}

// develop makes the stored numbers of light, with noise.
func (s *Scene) develop(light []float32) *image.RGBA {
	rng := rand.New(rand.NewPCG(s.Seed, 11))
	img := image.NewRGBA(image.Rect(0, 0, s.Wide, s.High))
	for i := range s.Wide * s.High {
		for c := range 3 {
			v := stored(float64(light[3*i+c]))
			img.Pix[4*i+c] = uint8(min(max(v+s.Noise*rng.NormFloat64()+0.5, 0), 255))
		}
		img.Pix[4*i+3] = 255
	}
	return img
}

// steps are the stored numbers of light in even steps from 0 to 1, as worked out by
// [storedExactly]; between two of them they lie on a line within a thousandth.
var steps = func() (out [1<<14 + 2]float64) {
	for i := range out {
		out[i] = storedExactly(float64(i) / (1 << 14))
	}
	return out
}()

// stored is the number that is stored for a light, 0 to 255 and not rounded.
func stored(light float64) float64 {
	if !(light > 0.0031308) || light >= 1 {
		return storedExactly(min(max(light, 0), 1))
	}
	at := light * (1 << 14)
	i := int(at)
	return steps[i] + (at-float64(i))*(steps[i+1]-steps[i])
}

// storedExactly is sRGB, IEC 61966-2-1.
func storedExactly(v float64) float64 {
	if v <= 0.0031308 {
		return 255 * 12.92 * v
	}
	return 255 * (1.055*math.Pow(v, 1/2.4) - 0.055)
}

// blur spreads light as a bell of so many pixels does.
func blur(light []float32, wide, high int, sigma float64) {
	reach := int(3*sigma) + 1
	var bell []float32
	sum := float32(0)
	for i := -reach; i <= reach; i++ {
		v := float32(math.Exp(-float64(i*i) / (2 * sigma * sigma)))
		bell, sum = append(bell, v), sum+v
	}
	for i := range bell {
		bell[i] /= sum
	}
	pass := func(count, long, jump, next int) {
		line := make([]float32, long)
		for i := range count {
			for c := range 3 {
				at := i*next + c
				for k := range line {
					line[k] = light[at+k*jump]
				}
				for k := range line {
					v := float32(0)
					for j, b := range bell {
						v += b * line[min(max(k+j-reach, 0), long-1)]
					}
					light[at+k*jump] = v
				}
			}
		}
	}
	pass(high, wide, 3, 3*wide)
	pass(wide, high, 3*wide, 3)
}
