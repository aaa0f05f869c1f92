package paper

import (
	"hembook/internal/document"
	"hembook/internal/drawing"
	"hembook/internal/say"
)

// How a folded card stands, in millimetres.
const (
	cardHead = 16.0  // above what stands on a face
	cardHigh = 178.0 // from its head to its foot, on A4 and on Letter
	cardDown = 0.22  // of the room that is left, what stands above it
	foldTick = 5.0   // at the top and the foot of the fold
	frameGap = 3.0   // between a picture and its stitched frame
)

// cardPages sets a card: the outside, then the inside, each on a sheet that lies on
// its side.
func (s *setter) cardPages(c *document.Card, size document.Size) []page {
	high, wide := size.MM() // on its side
	half := wide / 2
	s.room = cardHigh
	var out []page
	for _, side := range c.Sides() {
		p := page{used: cardHigh}
		for i, f := range side {
			p.items = append(p.items, s.face(f, float64(i)*half+(half-document.CardText)/2, (high-cardHigh-2*cardHead)/2+cardHead)...)
		}
		for _, y := range []float64{0, high - foldTick} {
			p.items = append(p.items, stroke(half, y, half, y+foldTick, drawing.Pen{Weight: hairline, Ink: drawing.Faded, Dash: []float64{1, 0.6}, Butt: true}))
		}
		out = append(out, p)
	}
	return out
}

var errTooLong = say.Error("paper.more-stands-on-one-of-its-four")

// face sets one face with its upper left corner at (x, y).
func (s *setter) face(f document.Face, x, y float64) []item {
	full := s.size
	top, foot := s.faceSlabs(f)
	for top.high+foot.high > cardHigh && s.size-textStep >= smallestText {
		s.size -= textStep
		top, foot = s.faceSlabs(f)
	}
	s.size = full
	if top.high+foot.high > cardHigh {
		s.fail(errTooLong)
	}
	down := (cardHigh - top.high - foot.high) * cardDown
	var out []item
	for _, it := range top.items {
		out = append(out, it.at(x, y+down))
	}
	for _, it := range foot.items {
		out = append(out, it.at(x, y+cardHigh-foot.high))
	}
	return out
}

// faceSlabs are what stands from the head of a face and what stands on its foot.
func (s *setter) faceSlabs(f document.Face) (top, foot slab) {
	s.onCard, s.centred = true, f.Centred
	defer func() { s.onCard, s.centred = false, false }()
	return stack(s.blocks(f.Top, document.CardText)), stack(s.blocks(f.Foot, document.CardText))
}

// framed sets a picture within a frame of stitches.
func (s *setter) framed(p document.Picture, wide float64) []slab {
	inner := p
	inner.Framed = false
	out := s.picture(inner, wide-2*frameGap)
	if len(out) == 0 {
		return nil
	}
	set, ok := out[0].items[0].(pictureItem)
	if !ok {
		return out
	}
	left := frameGap
	if s.centred {
		left = (wide - set.wide) / 2
	}
	out[0].items[0] = set.at(left, frameGap)
	out[0].high += 2 * frameGap
	var frame drawing.Path
	l, r, b := left-frameGap, left+set.wide+frameGap, set.high+2*frameGap
	frame.Move(l, 0).Line(r, 0).Line(r, b).Line(l, b).Close()
	out[0].put(0, 0, pathItem{scale: 1, path: frame, pen: drawing.Pen{Weight: stitch, Ink: drawing.Red, Dash: bastedDash, Butt: true}})
	return out
}
