package draw

import (
	"strconv"

	"hembook/internal/garment"
	"hembook/internal/shape"
)

// RoundLines is how many kinds of line a theme has for rounds of fitting: the
// draft's and those of the rounds, which begin again after the last.
const RoundLines = 6

// Rounds adds a piece's sewing lines as they were after each round of fitting,
// one over the other, each in a line of its own, with a key below. The states
// are in order; the last is the piece as it is.
func Rounds(dst []byte, states []garment.PieceState, style PieceStyle) []byte {
	if len(states) == 0 {
		return dst
	}
	least, most := states[0].Piece.Outline.Bounds()
	for _, st := range states[1:] {
		l, m := st.Piece.Outline.Bounds()
		least = shape.Point{X: min(least.X, l.X), Y: min(least.Y, l.Y)}
		most = shape.Point{X: max(most.X, m.X), Y: max(most.Y, m.Y)}
	}
	s := sheet{least.X, most.Y, unitsPerMM / style.Scale}
	w, h := s.at(shape.Point{X: most.X, Y: least.Y})
	last := states[len(states)-1].Piece
	d := pieceDrawing{p: last, s: s, style: style, box: box{0, 0, w, h}}
	d.mid = d.middleStretch()
	keyY := h + 2*margin
	b := box{-margin, -margin, w + margin, keyY + float64(len(states))*keyStep + margin}
	bar := d.bar(w)
	b.right = max(b.right, bar.length+letters(bar.label)*smallWide+2*gap, keyLong+gap+letters("round 99, as it is now")*textWide+margin)
	barY := b.bottom + barTop/2
	b.bottom = barY + smallHeight/2 + margin/2

	dst = open(dst, "rounds", b, last.Name+" through its rounds of fitting", roundsDesc(states))
	dst = keptLines(dst, s, states)
	for i := range states {
		dst = roundLines(dst, s, states, i)
	}
	pen := pen{dst: append(dst, `<path class="grain" d="`...)}
	d.grain(&pen)
	dst = append(pen.dst, `"/>`...)
	if x, y, ok := d.nameAt(); ok {
		dst = text(dst, "name", 0, x, y, last.Name)
	}
	for i, st := range states {
		y := keyY + float64(i)*keyStep + keyStep/2
		dst = append(dst, `<path class="`...)
		dst = append(roundClass(dst, st.Round), `" d="`...)
		p := penAt(dst)
		p.move(0, y)
		p.line(keyLong, y)
		dst = append(p.dst, `"/>`...)
		dst = text(dst, "", 0, keyLong+gap, y+textHeight*0.33, roundName(st.Round, i == len(states)-1))
	}
	dst = bar.draw(dst, 0, barY)
	return append(dst, "</svg>"...)
}

const (
	keyStep = 36  // between the lines of a key
	keyLong = 130 // a line shown in a key
)

func penAt(dst []byte) pen { return pen{dst: dst} }

func roundName(round int, last bool) string {
	name := "draft"
	if round > 0 {
		name = "round " + strconv.Itoa(round)
	}
	if last && round > 0 {
		name += ", as it is now"
	}
	return name
}

// roundClass adds the class of a round's line: round-0 for the draft.
func roundClass(dst []byte, round int) []byte {
	if round > 0 {
		round = (round-1)%(RoundLines-1) + 1
	}
	return appendInt(append(dst, "round-"...), round)
}

// keptLines draws the edges that are the same in every state.
func keptLines(dst []byte, s sheet, states []garment.PieceState) []byte {
	p := penAt(append(dst, `<path class="kept" d="`...))
	o := states[0].Piece.Outline
	for i := range o.Edges {
		if keptThrough(states, i) {
			p.edge(s, o, i)
		}
	}
	return append(p.dst, `"/>`...)
}

func keptThrough(states []garment.PieceState, i int) bool {
	for k := 1; k < len(states); k++ {
		if !sameEdge(states[0].Piece.Outline, states[k].Piece.Outline, i) {
			return false
		}
	}
	return true
}

// sameEdge reports whether an edge is drawn alike in both outlines, for the
// eye.
func sameEdge(a, b shape.Outline, i int) bool {
	if len(a.Edges) != len(b.Edges) {
		return false
	}
	e, f := a.Edges[i], b.Edges[i]
	return e.Curved == f.Curved && atOnePlace(a.Start(i), b.Start(i)) && atOnePlace(e.To, f.To) &&
		(!e.Curved || atOnePlace(e.C1, f.C1) && atOnePlace(e.C2, f.C2))
}

func atOnePlace(a, b shape.Point) bool {
	const eye = 0.05
	return max(a.X-b.X, b.X-a.X) < eye && max(a.Y-b.Y, b.Y-a.Y) < eye
}

// edge draws one edge by itself.
func (p *pen) edge(s sheet, o shape.Outline, i int) {
	p.move(s.at(o.Start(i)))
	e := o.Edges[i]
	x, y := s.at(e.To)
	if !e.Curved {
		p.line(x, y)
		return
	}
	x1, y1 := s.at(e.C1)
	x2, y2 := s.at(e.C2)
	p.curve(x1, y1, x2, y2, x, y)
}

// roundLines draws what is new in one state: edges and darts that the state
// before does not have; of the draft, all that does not stay.
func roundLines(dst []byte, s sheet, states []garment.PieceState, k int) []byte {
	st := states[k]
	dst = append(roundClass(append(dst, `<path class="`...), st.Round), `" d="`...)
	p := penAt(dst)
	o := st.Piece.Outline
	for i := range o.Edges {
		if k == 0 && keptThrough(states, i) || k > 0 && sameEdge(states[k-1].Piece.Outline, o, i) {
			continue
		}
		p.edge(s, o, i)
	}
	for i, dart := range st.Piece.Darts {
		if k > 0 && sameDart(states[k-1].Piece.Darts, i, dart.Plan) {
			continue
		}
		p.move(s.at(dart.Plan.Begin))
		p.line(s.at(dart.Plan.Point))
		p.line(s.at(dart.Plan.End))
	}
	return append(p.dst, `"/>`...)
}

func sameDart(before []garment.PieceDart, i int, d shape.DartPlan) bool {
	return i < len(before) && atOnePlace(before[i].Plan.Begin, d.Begin) && atOnePlace(before[i].Plan.End, d.End) && atOnePlace(before[i].Plan.Point, d.Point)
}

// roundsDesc says in words what differs from state to state: how long each
// edge was and is.
func roundsDesc(states []garment.PieceState) string {
	out := []byte("Sewing lines, one over the other: ")
	for i, st := range states {
		if i > 0 {
			out = append(out, "; "...)
		}
		out = append(out, roundName(st.Round, i == len(states)-1)...)
	}
	return string(append(out, '.'))
}
