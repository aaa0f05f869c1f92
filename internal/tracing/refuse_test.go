package tracing

import (
	"bytes"
	"errors"
	"flag"
	"image"
	"image/jpeg"
	"math"
	"math/rand/v2"
	"regexp"
	"slices"
	"strings"
	"testing"

	"hembook/internal/fault"
	"hembook/internal/shape"
	"hembook/internal/tabletop"
)

var wrong = flag.Int("wrong", 1, "how many photographs of each wrong kind must be refused")

// A wrongScene spoils a good scene, and says what must be answered. Where crop is given
// only that share of the picture's width is shown.
type wrongScene struct {
	name   string
	spoil  func(s *tabletop.Scene, rng *rand.Rand)
	option Options
	crop   float64
	says   string
}

var wrongScenes = []wrongScene{
	{name: "no cards", spoil: func(s *tabletop.Scene, _ *rand.Rand) { s.Cards = nil }, says: `no card is seen`},
	{name: "four cards", spoil: func(s *tabletop.Scene, _ *rand.Rand) { s.Cards = s.Cards[:4] }, says: `only cards [\d, and]+ are seen`},
	{name: "a card twice", spoil: func(s *tabletop.Scene, _ *rand.Rand) { s.Cards[2].Number = s.Cards[4].Number }, says: `card \d+ lies there twice`},
	{name: "blurred", spoil: func(s *tabletop.Scene, _ *rand.Rand) { s.Blur = 5 }, says: `blurred|no card is seen|only card`},
	{name: "cards on one side", spoil: oneSide, says: `reaches \d+ mm beyond cards [\d, and]+, at the (left|right|top|foot)`},
	{name: "no contrast", spoil: func(s *tabletop.Scene, _ *rand.Rand) {
		for c := range s.Paper {
			s.Paper[c] = 1.12 * s.Table[c]
		}
	}, says: `does not stand out|no paper is seen`},
	{name: "cut off", spoil: func(*tabletop.Scene, *rand.Rand) {}, crop: 0.5, says: `over the edge|beyond cards|only card`},
	{name: "two pieces", spoil: secondPaper, says: `two pieces of paper`},
	{name: "cards not flat", spoil: func(s *tabletop.Scene, rng *rand.Rand) {
		for i := range s.Cards {
			s.Cards[i].Raised = 60 * rng.Float64()
		}
	}, says: `do not lie flat|not lie on one plane`},
}

// oneSide leaves the cards of the left half.
func oneSide(s *tabletop.Scene, _ *rand.Rand) {
	ring := tabletop.Around(s.Piece, 10, rand.New(rand.NewPCG(s.Seed, 3)))
	slices.SortFunc(ring, func(a, b tabletop.Placed) int {
		if a.X+a.Y < b.X+b.Y {
			return -1
		}
		return 1
	})
	s.Cards = ring[:5]
}

// secondPaper lays another sheet, a third as large, between the piece and its cards.
func secondPaper(s *tabletop.Scene, _ *rand.Rand) {
	least, most := s.Piece[0], s.Piece[0]
	for _, p := range s.Piece {
		least.X, most.X, least.Y, most.Y = min(least.X, p.X), max(most.X, p.X), min(least.Y, p.Y), max(most.Y, p.Y)
	}
	wide, high := (most.X-least.X)/2, most.Y-least.Y
	x, y := most.X+40, least.Y
	s.Others = [][]shape.Point{{{X: x, Y: y}, {X: x + wide, Y: y}, {X: x + wide, Y: y + high}, {X: x, Y: y + high}}}
	all := append(slices.Clone(s.Piece), s.Others[0]...)
	s.Cards = tabletop.Around(all, 9, rand.New(rand.NewPCG(s.Seed, 3)))
}

// TestWrongPhotographsAreRefused: what cannot be measured is refused, with what to do.
func TestWrongPhotographsAreRefused(t *testing.T) {
	if testing.Short() {
		t.Skip("makes photographs and traces them")
	}
	t.Parallel()
	for _, w := range wrongScenes {
		t.Run(w.name, func(t *testing.T) {
			t.Parallel()
			for k := range uint64(*wrong) {
				seed := 500 + 7*k
				s, _ := tabletop.Random(seed, 1500)
				s.Cards = tabletop.Around(s.Piece, 9, rand.New(rand.NewPCG(seed, 2)))
				w.spoil(s, rand.New(rand.NewPCG(seed, 4)))
				img, err := jpeg.Decode(bytes.NewReader(s.Photograph()))
				if err != nil {
					t.Fatal(err)
				}
				if w.crop > 0 {
					b := img.Bounds()
					img = img.(interface {
						SubImage(image.Rectangle) image.Image
					}).SubImage(image.Rect(0, 0, int(w.crop*float64(b.Dx())), b.Dy()))
				}
				_, err = Trace([]Picture{{"photograph", img}}, w.option)
				var refused *fault.Refusal
				if !errors.As(err, &refused) || refused.Hint == "" || !regexp.MustCompile(w.says).MatchString(refused.Message) {
					t.Errorf("scene %d: %v", seed, err)
				}
			}
		})
	}
}

// TestALiftedCardIsLeftOut: one card that floats is told and not used, and the outline is
// as true as without it.
func TestALiftedCardIsLeftOut(t *testing.T) {
	if testing.Short() {
		t.Skip("makes photographs and traces them")
	}
	t.Parallel()
	s, truth := tabletop.Random(500, 1800)
	s.Cards = tabletop.Around(s.Piece, 9, rand.New(rand.NewPCG(1, 2)))
	s.Cards[3].Raised = 25
	got, err := traceScene(t, s, Options{})
	if err != nil {
		t.Fatal(err)
	}
	if !slices.Equal(got.Lifted, []int{s.Cards[3].Number}) {
		t.Errorf("cards %v are told not to lie flat; card %d floats", got.Lifted, s.Cards[3].Number)
	}
	if j := judge(t, got, s, truth); j.mean > 0.5 || j.length > 0.0015 {
		t.Errorf("mean %.3f mm, lengths %.3f %%", j.mean, 100*j.length)
	}
}

// TestTapeAndLine: cards printed at 98.4 % are told by their line; a tape that says
// something else is refused; and with both right lengths are true.
func TestTapeAndLine(t *testing.T) {
	if testing.Short() {
		t.Skip("makes photographs and traces them")
	}
	t.Parallel()
	s, truth := tabletop.Random(500, 1800)
	s.Cards = tabletop.Around(s.Piece, 9, rand.New(rand.NewPCG(1, 2)))
	for i := range s.Cards {
		s.Cards[i].Print = 0.984
	}
	a, b := s.Cards[0], s.Cards[4]
	tape := Tape{From: a.Number, To: b.Number, MM: math.Hypot(a.X-b.X, a.Y-b.Y)}
	for _, opt := range []Options{{Line: 49.2}, {Line: 49.2, Tapes: []Tape{tape}}} {
		got, err := traceScene(t, s, opt)
		if err != nil {
			t.Fatal(err)
		}
		if j := judge(t, got, s, truth); j.length > 0.0015 {
			t.Errorf("%v: lengths are off by %.3f %%", opt, 100*j.length)
		}
	}
	if _, err := traceScene(t, s, Options{Tapes: []Tape{tape}}); err == nil || !strings.Contains(err.Error(), "49.2 mm") {
		t.Errorf("a print of 98.4 %% and a true tape: %v", err)
	}
}

// twoSkirts are a skirt and its mirror image, so many millimetres apart along the centre.
func twoSkirts(gap float64) *tabletop.Scene {
	ring := tabletop.Ring(tabletop.Skirt())
	var other []shape.Point
	for _, p := range slices.Backward(ring) {
		other = append(other, shape.Point{X: -p.X - gap, Y: p.Y})
	}
	s, _ := tabletop.Random(500, 1600)
	s.Piece, s.Others, s.Tilt = ring, [][]shape.Point{other}, 0.2
	s.Cards = tabletop.Around(slices.Concat(ring, other), 9, rand.New(rand.NewPCG(1, 3)))
	return s
}

// TestPiecesThatTouch: two pieces 2 mm apart are refused; where they all but meet, the
// line between them is told for what it may be, as is one drawn from edge to edge.
func TestPiecesThatTouch(t *testing.T) {
	if testing.Short() {
		t.Skip("makes photographs and traces them")
	}
	if _, err := traceScene(t, twoSkirts(2), Options{}); err == nil || !strings.Contains(err.Error(), "two pieces of paper touch") {
		t.Errorf("two pieces 2 mm apart: %v", err)
	}
	one := twoSkirts(0)
	one.Others, one.Lines = nil, [][]shape.Point{{{X: -1, Y: 300}, {X: 336, Y: 302}}}
	one.Cards = tabletop.Around(one.Piece, 9, rand.New(rand.NewPCG(1, 3)))
	for name, s := range map[string]*tabletop.Scene{"two pieces 0.6 mm apart": twoSkirts(0.6), "a line of 0.8 mm": one} {
		got, err := traceScene(t, s, Options{})
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if len(got.Drawn) != 1 || got.Drawn[0].Is != Across || !strings.Contains(got.Drawn[0].Said(nil), "if two papers touch there") {
			t.Errorf("%s: told as %+v", name, got.Drawn)
		}
	}
}
