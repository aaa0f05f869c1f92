package cutting

import (
	"hembook/internal/figure"
	"hembook/internal/lay"
	"hembook/internal/say"
)

// boundFigures say how much could still be won.
func (l *Lay) boundFigures() {
	title, gain := say.Of("cutting.no-lay-is-shorter-than"), say.Of("cutting.could-be-shorter-by-at-most")
	rule := say.Of("cutting.the-longest-piece-turned-as-short-as")
	var least, left figure.Term
	if l.Plan != nil {
		b := l.Problem.Lay.Bound()
		rule = l.Problem.boundRule(&b)
		switch b.Why {
		case lay.ByArea:
			least = l.areaTerm(piecesCut, l.Problem.Area).Over(l.pad.Of(say.Of("cutting.usable-width"), &l.Width))
		case lay.ByLongest:
			least = l.pad.Found(l.Problem.Lay.Pieces[b.Piece].Name, b.Length, millimetres)
		default:
			l.pad.Note(l.pad.Of(say.Of("cutting.usable-width"), &l.Width))
			least = l.pad.Found(say.Of("cutting.lengths-of-the-pieces-so-counted"), b.Length, millimetres)
		}
	}
	l.Bound = l.figure("lay-bound", title, least, millimetres, rule, figure.Derived)
	if l.Plan != nil {
		left = l.lengthTerm().Minus(l.pad.Of(title, &l.Bound))
		if left.MM() < tolerance {
			left = l.pad.Greatest(left, l.pad.Constant(0, millimetres))
		}
	}
	l.Gain = l.figure("lay-gain", gain, left, millimetres, say.Of("cutting.length-of-the-lay-the-length-no"), figure.Derived)
}

// shares of the width, of which there is room for one more than the index beside each other.
var (
	sharesOfWidth = []string{say.Of("cutting.the-whole"), "half", say.Of("cutting.a-third"), say.Of("cutting.a-quarter"), say.Of("cutting.a-fifth")}
	besideWords   = []string{"", "one", "two", "three", "four"}
)

// boundRule is how a bound is found.
func (p *Problem) boundRule(b *lay.Bound) string {
	switch b.Why {
	case lay.ByArea:
		return say.Of("cutting.by-usable-width", piecesCut)
	case lay.ByLongest:
		return say.Of("cutting.the-longest-piece-turned-as-short-as")
	}
	rows := say.Of("cutting.pieces-that-take-more-than-of-the", sharesOfWidth[b.Beside], besideWords[b.Beside])
	if b.Beside == 1 {
		rows = say.Of("cutting.pieces-that-take-more-than-half-of")
	}
	if b.Why == lay.ByRows {
		return say.Of("cutting.how-long-they-are-one-after-another", rows)
	}
	rule, room := say.Of("cutting.the-length-of-each-piece-times-the"), "width"
	if b.Beside > 0 {
		rule, room = say.Of("cutting.the-length-of-each-times-the-share", rows), "room"
	}
	if over := p.tape.about(b.Over); b.Over >= tolerance {
		rule += say.Of("cutting.what-leaves-less-than-beside-it-takes", over, room)
	}
	return rule
}
