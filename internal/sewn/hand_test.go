package sewn

import (
	"slices"
	"testing"
)

// lefts is the left half of a bodice with a front that is cut apart, the back on its fold
// and two sleeves: of what is not cut apart each seam takes one copy alone.
func lefts(wide float64) Plan {
	front := piece("left front", pt(0, 0), "hem", pt(250, 0), "side", pt(250, 300), "armhole", curve(pt(200, 300), pt(165, 400), pt(180, 500)), "shoulder", pt(80, 540), "neck", pt(0, 450), "centre", pt(0, 0))
	other := front.called("right front")
	other.Outline.Edges = slices.Clone(front.Outline.Edges)
	other.Outline.Edges[0].To.X, other.Outline.Edges[1].To.X = wide, wide
	other.Outline = other.Outline.Mirrored()
	front, other = front.at("chest", 300), other.at("chest", 300)
	front.Worn, other.Worn = LeftSide, RightSide
	back := piece("back", pt(0, 0), "hem", pt(250, 0), "side", pt(250, 300), "armhole", curve(pt(215, 300), pt(185, 420), pt(190, 510)), "shoulder", pt(80, 545), "neck", pt(0, 520), "fold", pt(0, 0)).at("chest", 300)
	sleeve := piece("sleeve", pt(-130, 0), "wrist", pt(130, 0), "seam right", pt(200, 430), "cap front", curve(pt(130, 440), pt(90, 590), pt(0, 590)), "cap back", curve(pt(-90, 590), pt(-140, 440), pt(-200, 430)), "seam left", pt(-130, 0)).
		pairs(2).at("upper arm", 420)
	return plan(front, other, back, sleeve,
		seam("left side", "left front.side", "back.side ↓"), seam("right side", "right front.side", "back.side ↑"),
		seam("left shoulder", "left front.shoulder", "back.shoulder ↓"), seam("right shoulder", "right front.shoulder", "back.shoulder ↑"),
		seam("centre front", "left front.centre", "right front.centre"), seam("underarm", "sleeve.seam right", "sleeve.seam left"),
		seam("left armhole", "left front.armhole + back.armhole ↓", "sleeve.cap front ↓ + sleeve.cap back ↓").full(),
		seam("right armhole", "right front.armhole + back.armhole ↑", "sleeve.cap front ↑ + sleeve.cap back ↑").full())
}

// TestOneOfPair: two halves of the back go to two fronts that differ, and a sleeve as
// drawn, whose front is its right half, to the right.
func TestOneOfPair(t *testing.T) {
	s := clean(t, lefts(260))
	want(t, "chest", girths(s, "chest"), "1010.00 closed") // 250 + 260 + 2 × 250
	want(t, "upper arm", girths(s, "upper arm"), "396.74 closed", "396.74 closed")
	if n := len(s.Loops("shell", false)); n != 4 {
		t.Errorf("%d openings, not hem, neck and two wrists", n)
	}
	worn := s.Wearers()
	for id, c := range s.Copies {
		wanted := NoSide
		switch {
		case c.Name == "left front", c.Name == "back" && c.Hand < 0, c.Name == "sleeve" && c.Hand < 0:
			wanted = LeftSide
		case c.Name == "right front", c.Name == "back", c.Name == "sleeve":
			wanted = RightSide
		}
		if worn[id] != wanted {
			t.Errorf("%s %d is worn on side %d, want %d", c.Name, c.Hand, worn[id], wanted)
		}
	}
}

// TestOneOfPairOfTheOtherHand: the wrong half of the back cannot be sewn to a front without
// turning it over.
func TestOneOfPairOfTheOtherHand(t *testing.T) {
	p := lefts(250)
	for i := range p.Seams {
		if s := &p.Seams[i]; s.Name == "left side" || s.Name == "right side" {
			s.Sides[1][0].Hand *= -1
		}
	}
	_, _, faults := Build(p)
	if !slices.ContainsFunc(faults, func(f Snag) bool { return f.Kind == SameHand }) {
		t.Errorf("faults %v, none of a hand", faults)
	}
}

// TestTwiceByHands: one half of an edge that two seams name is sewn twice, two halves are not.
func TestTwiceByHands(t *testing.T) {
	for hand, twice := range map[int8]bool{-1: true, 0: true, 1: false} {
		p := lefts(250)
		for i := range p.Seams {
			if s := &p.Seams[i]; s.Name == "right side" {
				s.Sides[1][0].Hand = hand
			}
		}
		_, _, faults := Build(p)
		if got := slices.ContainsFunc(faults, func(f Snag) bool { return f.Kind == SewnTwice }); got != twice {
			t.Errorf("hand %d: sewn twice %t, want %t (%v)", hand, got, twice, faults)
		}
	}
}
