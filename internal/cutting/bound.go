package cutting

import (
	"hembook/internal/figure"
	"hembook/internal/lay"
)

// boundFigures say how much could still be won.
func (l *Lay) boundFigures() {
	const title, gain = "no lay is shorter than", "could be shorter by, at most"
	rule := "the longest piece, turned as short as it may lie"
	var least, left figure.Term
	if l.Plan != nil {
		b := l.Problem.Lay.Bound()
		rule = l.Problem.boundRule(&b)
		switch b.Why {
		case lay.ByArea:
			least = l.areaTerm(piecesCut, l.Problem.Area).Over(l.pad.Of("usable width", &l.Width))
		case lay.ByLongest:
			least = l.pad.Found(l.Problem.Lay.Pieces[b.Piece].Name, b.Length, millimetres)
		default:
			l.pad.Note(l.pad.Of("usable width", &l.Width))
			least = l.pad.Found("lengths of the pieces, so counted", b.Length, millimetres)
		}
	}
	l.Bound = l.figure("lay-bound", title, least, millimetres, rule, figure.Derived)
	if l.Plan != nil {
		left = l.lengthTerm().Minus(l.pad.Of(title, &l.Bound))
		if left.MM() < tolerance {
			left = l.pad.Greatest(left, l.pad.Constant(0, millimetres))
		}
	}
	l.Gain = l.figure("lay-gain", gain, left, millimetres, "length of the lay − the length no lay undercuts", figure.Derived)
}

// shares of the width, of which there is room for one more than the index beside each other.
var (
	sharesOfWidth = []string{"the whole", "half", "a third", "a quarter", "a fifth"}
	besideWords   = []string{"", "one", "two", "three", "four"}
)

// boundRule is how a bound is found.
func (p *Problem) boundRule(b *lay.Bound) string {
	switch b.Why {
	case lay.ByArea:
		return piecesCut + " ÷ usable width"
	case lay.ByLongest:
		return "the longest piece, turned as short as it may lie"
	}
	rows := "pieces that take more than " + sharesOfWidth[b.Beside] + " of the width lie " + besideWords[b.Beside] + " beside each other at most"
	if b.Beside == 1 {
		rows = "pieces that take more than half of the width cannot lie beside each other"
	}
	if b.Why == lay.ByRows {
		return rows + ": how long they are one after another, at least"
	}
	rule, room := "the length of each piece, times the share of the width that it takes", "width"
	if b.Beside > 0 {
		rule, room = rows+": the length of each, times the share of that room which it takes", "room"
	}
	if over := p.tape.about(b.Over); b.Over >= tolerance {
		rule += "; what leaves less than " + over + " beside it takes all of the " + room + ", and what is narrower none"
	}
	return rule
}
