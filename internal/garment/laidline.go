package garment

import (
	"math"
	"slices"

	"hembook/internal/figure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// A LaidLine is where something that is sold by length lies on a piece: a tape along an
// edge, boning in its channel, elastic or a cord in its casing.
type LaidLine struct {
	Notion string
	Kind   string // tape, boning, elastic or cord
	Edge   string
	Line   shape.Line     // on the piece laid open, clear of both ends where it is to be
	Cut    *figure.Figure // how long it is cut for the channel; nil where that is not known
}

// laidKind is how a notion is drawn: all that is none of the others is drawn as a tape.
func laidKind(n *record.Notion) string {
	for _, kind := range [...]string{"boning", "elastic", "cord"} {
		if words.AnyOf(n.Is(), []string{kind}) {
			return kind
		}
	}
	return "tape"
}

// lieOnPieces lays a notion on the pieces that it lies on: along its edge, in the channels
// of its seams and finishes, or where a pattern file draws it.
func (w *notionReckoner) lieOnPieces(n *Notion) {
	r := n.Record
	if !SoldByLength(r) || isZip(r) {
		return
	}
	if r.Along.Given() {
		if use, ok := w.use(r.Along.V); ok && !r.SetOut() {
			w.lie(n, use.Edge.ref, []EdgeUse{use}, 0)
		}
		return
	}
	for _, ref := range r.Laid {
		if use, ok := w.use(ref); ok {
			w.lie(n, use.Edge.ref, []EdgeUse{use}, 0)
		}
	}
	for _, in := range r.In {
		for _, s := range w.g.Seams {
			if s.Name == in.V && s.kind != nil {
				side, at := s.channel()
				w.lie(n, s.Name, s.Sides[side].Edges, at)
			}
		}
		for _, f := range w.g.Finishes {
			if f.Name == in.V && f.kind != nil {
				w.lie(n, f.Name, f.Edges, f.channel())
			}
		}
	}
}

// channel is the side of a seam on which its channel lies and how far from the seam its
// middle does, mm: where its allowances lie to one side, and on the seam itself where they
// are pressed open (common practice, no source).
func (s *Seam) channel() (side int, at float64) {
	var holds [2]float64
	for _, half := range [...]trade.Half{trade.LeftHalf, trade.RightHalf} {
		if _, most, err := s.Type.Held(s.Params, half); err == nil {
			holds[half] = most
		}
	}
	if (holds[0] > 0) == (holds[1] > 0) {
		return 0, 0
	}
	rows := s.Type.OwnRows(s.Params)
	if holds[1] > 0 {
		side = 1
		for i := range rows {
			rows[i] = -rows[i]
		}
	}
	at = widestBetween(rows, holds[side])
	if s.Type.IsTurned() {
		side = 1 - side
	}
	return side, at
}

// channel is how far inside a finished edge the middle of its channel lies, mm.
func (f *Finish) channel() float64 { return widestBetween(f.Type.OwnRows(f.Params), 0) }

// widestBetween is the middle of the widest gap between rows that lie so far inside an edge,
// and the edge itself; where no row lies inside, half of what is held there.
func widestBetween(rows []float64, held float64) float64 {
	inside := []float64{0}
	for _, in := range rows {
		if in > 0 {
			inside = append(inside, in)
		}
	}
	slices.Sort(inside)
	if len(inside) == 1 {
		return held / 2
	}
	middle, wide := 0.0, 0.0
	for i := 1; i < len(inside); i++ {
		if d := inside[i] - inside[i-1]; d > wide {
			middle, wide = (inside[i]+inside[i-1])/2, d
		}
	}
	return middle
}

// lie lays a notion along the edges of one channel, so far inside them.
func (w *notionReckoner) lie(n *Notion, channel string, edges []EdgeUse, in float64) {
	const step = 2 // mm, along the edge
	kind := laidKind(n.Record)
	var cut *figure.Figure
	if n.Length.ID != "" {
		cut = &n.Length
	}
	for i := range n.Each {
		if n.Each[i].In == channel {
			cut = &n.Each[i].Length
		}
	}
	for _, u := range edges {
		line := shape.Line(nil)
		if l := u.Edge.line; l != nil {
			line = l.Points
			l.Laid = l.Record.Laid != ""
		} else if length, ok := u.Piece.Outline.LengthOf(u.Edge.Name); ok && length > 0 {
			inside, err := u.Piece.Outline.Beside(u.Edge.Name, in)
			if line = inside; in == 0 || err != nil {
				line = insideLine(u.Piece, u.Edge.Name, length, in, max(int(length/step), 2))
			}
		}
		if clear := n.Record.Clear.V.MM(); len(line) > 1 && len(edges) == 1 && clear > 0 {
			long := line.Length()
			line = line.Stretch(math.Min(clear, long/2), math.Max(long-clear, long/2))
		}
		same := func(l LaidLine) bool { return l.Notion == n.Record.Name.V && l.Edge == u.Edge.Name }
		if len(line) > 1 && !slices.ContainsFunc(u.Piece.Laid, same) {
			u.Piece.Laid = append(u.Piece.Laid, LaidLine{Notion: n.Record.Name.V, Kind: kind, Edge: u.Edge.Name, Line: line, Cut: cut})
		}
	}
}

// LaidWords say of a piece what lies along which of its edges and lines: "elastic along
// hem".
func (p *Piece) LaidWords() (out []string) {
	for i := range p.Laid {
		out = append(out, say.Of("garment.lies-along", p.Laid[i].Notion, p.Laid[i].Edge))
	}
	return out
}
