package garment

import (
	"math"
	"slices"

	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/sewn"
	"hembook/internal/words"
)

// A Choice is what a record leaves open: it can be read in two ways, and a word of it
// settles which is meant.
type Choice struct {
	Kind     sewn.QuestionKind
	Seam     *Seam  // that leaves it open; nil where none does
	Piece    string // it is about
	Other    string // the piece that it is like, of what lies beside it or behind it
	Zip      string // the name of what opens a seam from one end or the other
	Readings [2]Reading
}

// A Reading is one of the two.
type Reading struct {
	Sewn    *sewn.Surface  // the garment put together so
	Tubes   int            // of a ring or tubes: how many
	Round   measure.Length // and how far round each
	Here    string         // what comes to lie beside There; of a zip, the edge it opens from
	There   string
	Settles string // what to write in the record where this one is meant
}

// Layer is the layer in which the two differ.
func (c *Choice) Layer() string { return c.Readings[0].Sewn.LayerOf(c.Piece) }

// Net is a reading of a choice laid flat: the pieces that it is about.
func (c *Choice) Net(r *Reading) *sewn.Net {
	pieces := []string{c.Piece, c.Other}
	if c.Seam != nil {
		for side := range c.Seam.Sides {
			for _, u := range c.Seam.Sides[side].Edges {
				pieces = append(pieces, u.Piece.Name)
			}
		}
	}
	return r.Sewn.Net(c.Layer()).Of(r.Sewn, pieces)
}

// Sews reports whether a seam of a reading's plan is the one that leaves the choice open.
func (c *Choice) Sews(r *Reading, seam int) bool {
	return c.Seam != nil && seam >= 0 && r.Sewn.Plan.Seams[seam].Name == c.Seam.anchor
}

// tellChoices finds what the record leaves open, and asks.
func (w *derivation) tellChoices() {
	for i := range w.g.Asked {
		q := &w.g.Asked[i]
		if q.Readings[0] == nil {
			continue
		}
		c := Choice{Kind: q.Kind, Piece: q.Pieces[0]}
		if q.Seam >= 0 {
			c.Seam = w.seamCalled(q.Seam)
		}
		for k, s := range q.Readings {
			c.Readings[k].Sewn = s
		}
		if w.read(&c, q) {
			w.g.Choices = append(w.g.Choices, c)
		}
	}
}

// read says what the readings of a choice are, and asks which is meant; false where
// it makes no difference.
func (w *derivation) read(c *Choice, q *sewn.Question) bool {
	switch q.Kind {
	case sewn.RingOrTubes:
		return w.readRing(c, q)
	case sewn.WhichOfPair:
		return w.readPair(c, q)
	case sewn.WhichWayUp:
		return w.readWayUp(c, q)
	case sewn.WhichEnd:
		return w.readEnd(c, q)
	case sewn.BesideOrBehind:
		return w.readBeside(c, q)
	}
	return false
}

func (w *derivation) readRing(c *Choice, q *sewn.Question) bool {
	ring, tube, tubes := q.Rounds()
	if tubes < 2 {
		return false
	}
	one, each := &c.Readings[0], &c.Readings[1]
	one.Tubes, one.Round, one.Settles = 1, measure.MM(ring), say.Of("garment.give-levels", c.Piece)
	each.Tubes, each.Round, each.Settles = tubes, measure.MM(tube), say.Of("garment.give-levels-2", c.Piece)
	w.faults.LookAgain(c.Seam.Record.At, say.Of("garment.give-a-level-that-goes-round-of", c.Piece),
		say.Of("garment.sews-to-itself-of-or-one-of", say.Quoted(c.Seam.Name), c.Piece, words.Count(tubes, "tube"), w.tape().Exact(math.Round(10*tube)/10), w.tape().Exact(math.Round(10*ring)/10)))
	return true
}

// readPair tells which of a pair goes where by what lies beside one end of its edge,
// where that differs.
func (w *derivation) readPair(c *Choice, q *sewn.Question) bool {
	hint := func(piece string) string {
		return say.Of("garment.mark-a-notch-of-one-name-on", edgeIn(c.Seam, piece), w.written(60))
	}
	for _, piece := range q.Pieces {
		one, here := q.Readings[0].MeetsFirst(q.Seam, piece)
		_, there := q.Readings[1].MeetsFirst(q.Seam, piece)
		if here == there {
			continue
		}
		c.Piece = piece
		for k, meets := range [...]string{here, there} {
			r := &c.Readings[k]
			r.Here, r.There = one, meets
			r.Settles = say.Of("garment.mark-a-notch-of-one-name-on-2", piece, one, meets)
		}
		w.faults.LookAgain(c.Seam.Record.At, hint(piece), say.Of("garment.does-not-say-which-goes-where-beside", say.Quoted(c.Seam.Name), piece, one, here, there))
		return true
	}
	for k := range c.Readings {
		c.Readings[k].Settles = say.Of("garment.mark-a-notch-of-one-name-on-3")
	}
	w.faults.LookAgain(c.Seam.Record.At, hint(c.Piece), say.Of("garment.does-not-say-which-goes-where", say.Quoted(c.Seam.Name), c.Piece))
	return true
}

// edgeIn is the first edge of a piece in a seam.
func edgeIn(s *Seam, piece string) string {
	for side := range s.Sides {
		for _, u := range s.Sides[side].Edges {
			if u.Piece.Name == piece {
				return u.Edge.Name
			}
		}
	}
	return ""
}

// readWayUp tells which way up the smaller of two pieces lies by what comes together at
// one end of the seam.
func (w *derivation) readWayUp(c *Choice, q *sewn.Question) bool {
	for _, name := range q.Pieces {
		if w.named[name].Outline.Area() < w.named[c.Piece].Outline.Area() {
			c.Piece = name
		}
	}
	for k := range c.Readings {
		r := &c.Readings[k]
		r.Here, r.There = r.Sewn.EndsMeet(q.Seam, c.Piece)
		r.Settles = say.Of("garment.call-and-alike", r.Here, r.There)
	}
	w.faults.LookAgain(c.Seam.Record.At, say.Of("garment.call-the-two-edges-alike-that-come"),
		say.Of("garment.does-not-say-which-way-up-lies", say.Quoted(c.Seam.Name), c.Piece, c.Readings[0].Here, c.Readings[0].There, c.Readings[1].There))
	return true
}

func (w *derivation) readEnd(c *Choice, q *sewn.Question) bool {
	by := c.Readings[0].Sewn.Plan.Closures[q.Closure]
	p := w.named[by.Edge.Piece]
	e := p.edgeCalled(by.Edge.Edge)
	if e == nil || e.seam == nil {
		return false
	}
	c.Zip, c.Seam = by.Name, e.seam
	one, two := &c.Readings[0], &c.Readings[1]
	one.Here, two.Here = one.Sewn.OpensAt(q.Closure), two.Sewn.OpensAt(q.Closure)
	one.Settles, two.Settles = w.sewnFrom(c.Seam, two.Here, by.Length), w.sewnFrom(c.Seam, one.Here, by.Length)
	w.faults.LookAgain(c.Seam.Record.At, say.Of("garment.sew-the-rest-only-leaves-it-open", one.Settles, one.Here), say.Of("garment.may-open-from-the-or-from-the", c.Zip, say.Quoted(c.Seam.Name), one.Here, two.Here))
	return one.Settles != ""
}

// readBeside asks of a piece that is like another only where a level goes over both.
func (w *derivation) readBeside(c *Choice, q *sewn.Question) bool {
	c.Other = q.Pieces[1]
	both := slices.ContainsFunc(w.g.Levels, func(l *Level) bool {
		over := func(name string) bool {
			return slices.ContainsFunc(l.cross, func(x crossing) bool { return x.piece.Name == name })
		}
		return over(c.Piece) && over(c.Other)
	})
	if !both {
		return false
	}
	c.Readings[0].Settles = say.Of("garment.join-its-edges-in-seams")
	c.Readings[1].Settles = say.Of("garment.name-its-edge-third-in-a-seam", c.Other)
	at := fault.Pos{}
	if p := w.named[c.Piece]; p != nil {
		at = p.Record.At
	}
	w.faults.LookAgain(at, say.Of("garment.join-its-edges-in-seams-or-where", c.Other), say.Of("garment.is-like-does-it-lie-beside-it", c.Piece, c.Other))
	return true
}
