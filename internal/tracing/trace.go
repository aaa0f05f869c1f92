// Package tracing finds the outline of a paper piece in photographs of it, with cards
// laid beside it on the table.
//
// It promises an outline in millimetres, against the clock, of as few straight and
// curved edges as come within half a millimetre of what is seen; and to refuse, with
// what to do, what cannot be measured: too few cards, cards on one side only, paper cut
// off by the picture's edge, paper that does not stand out from the table.
//
// It opens no files and knows nothing of records.
package tracing

import (
	"cmp"
	"fmt"
	"image"
	"math"
	"slices"

	"hembook/internal/camera"
	"hembook/internal/card"
	"hembook/internal/fault"
	"hembook/internal/photo"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// A Tape is what was measured between the crosses of two cards.
type Tape struct {
	From, To int // numbers of cards
	MM       float64
}

// Options are what the maker says beside the photographs.
type Options struct {
	Tapes []Tape
	Line  float64 // how long the line of 50 mm on a card was printed, in millimetres; 0 for 50
}

// A Traced is what was found.
type Traced struct {
	Outline shape.Outline // its edges have no names
	Seen    []shape.Point // the rim of the paper as it was seen, about every millimetre
	Edges   []Seen        // of each edge of the outline
	Notches []Notch
	Drawn   []Drawn // drawn on the paper, in the order they are told
	Cards   []int   // that were used
	Lifted  []int   // cards that do not lie flat and were left out
	Scale   float64 // how large the cards are for what they should be
	Mirror  float64 // how far it is from its own mirror image, in millimetres; +Inf where it has none

	views []camera.View
	still func(shape.Point) shape.Point // from the outline back to the table
}

// A Seen tells of an edge of the outline how it was seen.
type Seen struct {
	Corner bool    // the outline turns where it begins
	Off    float64 // how far the rim strays from it, root mean square, in millimetres
}

// A Notch is a dent in the rim: on which edge, and how far along it, in millimetres.
type Notch struct {
	Edge int
	At   float64
}

// How many cards there must be, and how they must be seen: our own choice, measured on
// made-up photographs.
const (
	leastCards = 5
	leastSide  = 15.0  // pixels of a card's square
	mostSoft   = 0.25  // of that side, from 10 to 90 % of the light
	closeCards = 0.003 // of that side that the corners of flat cards are off
	looseCards = 0.006 // and so far that the paper cannot be measured
	mostLifted = 5     // one card of so many may be left out
)

// A shot is a photograph being worked on.
type shot struct {
	name  string
	img   image.Image
	cards []card.Sight
	view  camera.View
}

// A Picture is a photograph, upright, and what it is called in messages.
type Picture struct {
	Name  string
	Image image.Image
}

// Trace finds the piece that lies among cards. What cannot be traced is refused with a
// *[fault.Refusal].
func Trace(pictures []Picture, opt Options) (*Traced, error) {
	var shots []*shot
	for _, p := range pictures {
		s := &shot{name: p.Name, img: p.Image, cards: card.Find(photo.Of(p.Image, photo.Brightness))}
		if err := s.check(); err != nil {
			return nil, err
		}
		shots = append(shots, s)
	}
	t := &Traced{}
	if err := t.measure(shots, opt); err != nil {
		return nil, err
	}
	piece, err := t.findPiece(shots)
	if err != nil {
		return nil, err
	}
	rim := piece.sharpen(shots)
	t.outline(rim, shots[0].view)
	strokes := t.ink(shots[0])
	if err := t.touch(piece, shots[0], strokes); err != nil {
		return nil, err
	}
	t.Drawn = t.marks(strokes)
	return t, nil
}

// check refuses a photograph whose cards cannot be used.
func (s *shot) check() error {
	if len(s.cards) == 0 {
		return fault.Refusing(say.Of("tracing.lay-six-or-more-cards-round-the"), say.Of("tracing.no-card-is-seen", s.name))
	}
	for i, c := range s.cards {
		if i > 0 && s.cards[i-1].Number == c.Number {
			return fault.Refusing(say.Of("tracing.take-one-of-the-two-away"), say.Of("tracing.card-lies-there-twice", s.name, c.Number))
		}
	}
	if len(s.cards) < leastCards {
		return fault.Refusing(say.Of("tracing.lay-six-or-more-round-the-piece"), say.Of("tracing.only-seen", s.name, cardsAre(numbers(s.cards))))
	}
	small := slices.MinFunc(s.cards, func(a, b card.Sight) int { return cmp.Compare(a.Side(), b.Side()) })
	if small.Side() < leastSide {
		return fault.Refusing(say.Of("tracing.go-nearer-or-take-the-photograph-as"), say.Of("tracing.card-is-seen-too-small-its-squares", s.name, small.Number, fmt.Sprintf("%.0f", small.Side())))
	}
	soft := slices.MaxFunc(s.cards, func(a, b card.Sight) int { return cmp.Compare(a.Soft/a.Side(), b.Soft/b.Side()) })
	if soft.Soft > mostSoft*soft.Side() {
		return fault.Refusing(say.Of("tracing.hold-the-camera-still-in-more-light"), say.Of("tracing.it-is-blurred-at-card", s.name, soft.Number))
	}
	return nil
}

func numbers(of []card.Sight) (out []int) {
	for _, c := range of {
		out = append(out, c.Number)
	}
	return out
}

// measure finds the camera of every photograph and where the cards lie. Where they
// disagree and one alone is to blame, it does not lie flat: it is left out, and told.
func (t *Traced) measure(shots []*shot, opt Options) error {
	for {
		found, order, err := settleCards(shots, opt)
		if err != nil {
			return err
		}
		off := share(found, shots)
		if off > closeCards {
			if blamed, rest := mostToBlame(shots, order, opt); rest < off/2 && len(order) > leastCards && len(t.Lifted) < (len(order)+len(t.Lifted))/mostLifted {
				t.Lifted = append(t.Lifted, blamed)
				leaveOut(shots, blamed)
				continue
			}
		}
		if off > looseCards {
			return fault.Refusing(say.Of("tracing.press-them-flat-or-hold-them-down"), say.Of("tracing.the-cards-do-not-lie-flat-they", worstCard(shots, found)))
		}
		for i, shot := range shots {
			shot.view = found.Views[i]
		}
		t.views, t.Cards, t.Scale = found.Views, order, found.Scale
		return t.checkScale(opt)
	}
}

// settleCards is the camera and the cards as all photographs together show them.
func settleCards(shots []*shot, opt Options) (*camera.Found, []int, error) {
	s, order := survey(shots, opt)
	for _, tape := range opt.Tapes {
		d := camera.Distance{From: slices.Index(order, tape.From), To: slices.Index(order, tape.To), MM: tape.MM}
		if d.From < 0 || d.To < 0 {
			missing := tape.From
			if d.From >= 0 {
				missing = tape.To
			}
			return nil, nil, fault.Refusing(say.Of("tracing.measure-between-two-cards-that-are-seen"), say.Of("tracing.the-distance-to-cannot-be-used-card", tape.From, tape.To, missing))
		}
		s.Distances = append(s.Distances, d)
	}
	found, err := camera.Adjust(s)
	if err != nil {
		return nil, nil, fault.Refusing(say.Of("tracing.take-a-new-photograph-with-six-or"), say.Of("tracing.the-cards-do-not-lie-on-one"))
	}
	return found, order, nil
}

// share is how far the cards' corners are off, root mean square, as a share of the side
// of their squares; less than a tenth of a pixel is nothing.
func share(found *camera.Found, shots []*shot) float64 {
	sum, side, n := 0.0, 0.0, 0.0
	for _, off := range found.Off {
		sum += off * off
	}
	for _, s := range shots {
		for _, c := range s.cards {
			side, n = side+c.Side(), n+1
		}
	}
	off := math.Sqrt(sum / n)
	if off < 0.08 {
		return 0
	}
	return off / (side / n)
}

// mostToBlame is the card without which the others agree best, and how far they are then
// off.
func mostToBlame(shots []*shot, order []int, opt Options) (card int, off float64) {
	off = math.Inf(1)
	for _, number := range order {
		if slices.ContainsFunc(opt.Tapes, func(t Tape) bool { return t.From == number || t.To == number }) || len(order) <= leastCards {
			continue
		}
		var others []*shot
		for _, s := range shots {
			o := *s
			o.cards = slices.Clone(s.cards)
			others = append(others, &o)
		}
		leaveOut(others, number)
		if found, _, err := settleCards(others, opt); err == nil {
			if o := share(found, others); o < off {
				card, off = number, o
			}
		}
	}
	return card, off
}

// leaveOut takes a card out of photographs.
func leaveOut(shots []*shot, number int) {
	for _, s := range shots {
		s.cards = slices.DeleteFunc(s.cards, func(c card.Sight) bool { return c.Number == number })
	}
}

// worstCard is the card that is off most.
func worstCard(shots []*shot, found *camera.Found) (number int) {
	k, most := 0, 0.0
	for _, s := range shots {
		for _, c := range s.cards {
			if found.Off[k] > most {
				number, most = c.Number, found.Off[k]
			}
			k++
		}
	}
	return number
}

// looseLine is how far the printed line may be misread, as a share, and looseTape how
// far a print may be off that a tape corrects.
const (
	looseLine = 0.003
	looseTape = 0.02
	mostScale = 0.006 // what tape and cards may differ by
)

// survey is what the cards of all photographs say, and the cards in the order of its
// bodies.
func survey(shots []*shot, opt Options) (s camera.Survey, order []int) {
	s.Scale = cmp.Or(opt.Line, card.Apart) / card.Apart
	if len(opt.Tapes) > 0 {
		s.Loose = looseTape
	}
	at := card.Corners()
	body := camera.Body{Points: at[:]}
	for _, q := range at {
		body.Spread = append(body.Spread, shape.Point{X: math.Copysign(1, q.X-math.Copysign(card.Apart/2, q.X)), Y: math.Copysign(1, q.Y)})
	}
	for i, shot := range shots {
		b := shot.img.Bounds()
		s.Photos = append(s.Photos, camera.Photo{Wide: b.Dx(), High: b.Dy(), Lens: i})
		for _, c := range shot.cards {
			k := slices.Index(order, c.Number)
			if k < 0 {
				k = len(order)
				order, s.Bodies = append(order, c.Number), append(s.Bodies, body)
			}
			s.Sightings = append(s.Sightings, camera.Sighting{Photo: i, Body: k, Seen: slices.Clone(c.Corners[:])})
		}
	}
	return s, order
}

// checkScale refuses cards that the tape finds printed larger or smaller than said.
func (t *Traced) checkScale(opt Options) error {
	said := cmp.Or(opt.Line, card.Apart)
	if is := t.Scale * card.Apart; len(opt.Tapes) > 0 && math.Abs(is/said-1) > mostScale {
		return fault.Refusing(say.Of("tracing.measure-the-line-on-a-card-and"),
			say.Of("tracing.the-tape-and-the-cards-disagree-by", fmt.Sprintf("%.1f", is)))
	}
	return nil
}
