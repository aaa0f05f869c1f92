package garment

import (
	"slices"

	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/sewn"
)

// A handing says of each piece of which two hands lie in the garment which are the left
// ones: 1 those that lie as the record draws them, −1 their mirror images.
type handing map[string]int8

// handing tells the left and the right of a build apart: by what the whole garment is, as
// its record is written. Of a pair of which nothing tells it the one as drawn is the left
// one, which is noted.
func (w *derivation) handing(whole *record.Build) (out handing, guessed []string) {
	g := &Garment{Build: whole}
	d := w.t.derivation(whole, g)
	d.altering = alterer{d.index, nil, 0, d.lim.step.V}
	d.pieces()
	d.joinEdges()
	d.putTogether()
	said := map[string]int8{}
	for {
		out = handsWorn(g, said)
		next := ""
		for i := range w.b.Pieces {
			if pair := w.b.Pieces[i].Pair; pair != "" && next == "" && out[pair] == 0 {
				next = pair
			}
		}
		if next == "" {
			return out, guessed
		}
		said[next], guessed = 1, append(guessed, next)
	}
}

// handsWorn are the hands of a garment in which those of some pieces are said.
func handsWorn(g *Garment, said map[string]int8) handing {
	out := handing{}
	worn := g.Sewn.WearersWith(said)
	for id := range g.Sewn.Copies {
		c := &g.Sewn.Copies[id]
		switch _, known := out[c.Name]; {
		case known || worn[id] == sewn.NoSide:
		case worn[id] == sewn.LeftSide:
			out[c.Name] = c.AsCut()
		default:
			out[c.Name] = -c.AsCut()
		}
	}
	as := func(name, other string) {
		if out[name] == 0 && out[other] != 0 {
			out[name] = out[other]
		}
	}
	for _, s := range g.Seams { // what is set on a pair is drawn as it lies there
		if r := s.Record; s.at && len(r.Join) == 2 && len(r.Join[0]) == 1 && len(r.Join[1]) == 1 {
			as(r.Join[0][0].Piece, r.Join[1][0].Piece)
		}
	}
	for range g.Pieces {
		for _, p := range g.Pieces {
			as(p.Name, p.Record.Like.V)
		}
	}
	for name, hand := range said {
		out[name] = hand
	}
	return out
}

// tellHands finds which of each pair is the left one, where a record names one.
func (w *derivation) tellHands() {
	if w.b.Whole == nil {
		return
	}
	var guessed []string
	w.left, guessed = w.handing(w.b.Whole)
	for i := range w.b.Pieces {
		if p := &w.b.Pieces[i]; p.Hand == record.Left && slices.Contains(guessed, p.Pair) {
			w.faults.LookAgain(p.At, say.Of("garment.sew-it-to-a-front-or-a", p.Pair),
				say.Of("garment.which-is-the-left-one-is-not", p.Pair))
		}
	}
}

// lies is the hand of the copies that are meant by a side of the body: 1 as drawn, −1
// mirrored, 0 for all.
func (w *index) lies(p *Piece, hand record.Hand) int8 {
	left := w.left[p.Name]
	switch {
	case hand == "":
		return 0
	case left == 0:
		left = 1
	}
	if hand == record.Right {
		return -left
	}
	return left
}

// turnsOver reports whether the form of one of a pair, as it is by what it is like, is that
// of the other one: the record draws a pair once. A facing is turned to the front that it is
// like, as it is sewn to it right side to right side.
func (w *index) turnsOver(r *record.Piece, f *form) bool {
	return r.Pair != "" && f.turned != ((w.left[r.Pair] < 0) == (r.Hand == record.Left))
}

// asSeen is a change with its points where they lie on a form: they are given as the record
// draws the piece.
func (f *form) asSeen(c *record.Change) *record.Change {
	if !f.pair || !f.turned || !c.Curve.Given() {
		return c
	}
	out := *c
	out.Curve.V = slices.Clone(out.Curve.V)
	for k := range out.Curve.V {
		out.Curve.V[k].X = 0 - out.Curve.V[k].X
	}
	return &out
}

// otherHand is the other one of two pieces that are each other's mirror images; nil where a
// piece has none.
func (w *index) otherHand(p *Piece) *Piece {
	for _, q := range w.g.Pieces {
		if q.Record.Like.V == p.Name && mirrors(q.Record) || p.Record.Like.V == q.Name && mirrors(p.Record) || p.Record.Pair != "" && p.Record.Pair == q.Record.Pair && p != q {
			return q
		}
	}
	return nil
}

// wornAs is the side of the body that a piece is worn on by its name.
func wornAs(name string) sewn.Wearer {
	switch _, side := halfOf(name); side {
	case "left":
		return sewn.LeftSide
	case "right":
		return sewn.RightSide
	}
	return sewn.NoSide
}

// inRecord is the name of the piece that the record draws.
func (p *Piece) inRecord() string {
	if p.Record.Pair != "" {
		return p.Record.Pair
	}
	return p.Name
}

// handOn is the hand of an edge that a seam joins; "" where it joins both.
func (s *Seam) handOn(e *PieceEdge) record.Hand {
	for u := range s.all() {
		if u.Edge == e {
			return u.Hand
		}
	}
	return ""
}

// opposite are the edges that an edge in a seam is sewn to, of one that is sewn at the left
// by one seam and at the right by another those of both.
func (e *PieceEdge) opposite() []EdgeUse {
	out := e.seam.Sides[1-e.side].Edges
	for _, o := range e.also {
		if pair := e.seam.Record.Pair; pair != "" && o.seam.Record.Pair == pair && o.seam != e.seam {
			out = append(slices.Clip(out), o.seam.Sides[1-o.side].Edges...)
		}
	}
	return out
}
