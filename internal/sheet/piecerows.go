package sheet

import (
	"strconv"
	"strings"

	"hembook/internal/compose"
	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/garment"
	"hembook/internal/measure"
)

// Room for drawings, in millimetres on paper.
const (
	pieceWide, pieceHigh = 54.0, 78.0  // for one piece
	layWide, layHigh     = 170.0, 88.0 // for one lay
)

// Called is what a thing is called there; a piece as the record says in the sheet's
// language, else as the trade calls one of its name.
func (c *composer) Called(word, own string) string {
	if strings.HasPrefix(word, "piece.") {
		for i := range c.build.Pieces {
			if p := &c.build.Pieces[i]; p.Name.V == own && p.Called.Given() && p.Called.Has(c.t.code) {
				return c.ownAlone(p.Called)
			}
		}
	}
	return c.speaker.Called(word, own)
}

// piece is what a piece is called.
func (c *composer) piece(name string) string { return c.Called(compose.Key("piece", name), name) }

// pieceAndName is what a piece is called, with its own name behind it where that is
// another: pattern files and joins have that one.
func (c *composer) pieceAndName(name string) string {
	if called := c.piece(name); called != name {
		return called + " (" + name + ")"
	}
	return name
}

// edge is what an edge, or the seam or hem along it, is called.
func (c *speaker) edge(name string) string { return compose.EdgeCalled(c, name) }

// edgeAndName is what an edge or seam is called, with its own name behind it likewise.
func (c *speaker) edgeAndName(name string) string {
	if called := c.edge(name); called != name {
		return called + " (" + name + ")"
	}
	return name
}

// onPiece is what is called piece.edge in a record, in words.
func (c *composer) onPiece(name string) string {
	piece, edge, two := strings.Cut(name, ".")
	if !two {
		return c.edge(name)
	}
	return c.Joined([]string{c.piece(piece), c.edge(edge)})
}

// pieceDrawings shows every piece, as many in a row as there is room for, each
// as large as there is.
func (c *composer) pieceDrawings() {
	var all document.Sketches
	for _, p := range c.garment.Pieces {
		if len(p.Cut.Ring) < 3 {
			continue
		}
		scale := pieceScale(p)
		d := draw.Piece(p, draw.PieceStyle{Scale: scale, Parts: draw.OnSheet, Called: c.piece(p.Name)})
		d.Title = c.says(c.piece(p.Name), c.allowances(p))
		all.Of = append(all.Of, document.Sketch{Draw: kept(d),
			Caption: c.piece(p.Name) + " · " + compose.PieceCutWords(c, p) + " · 1" + gap + ":" + gap + strconv.FormatFloat(scale, 'f', -1, 64)})
	}
	if len(all.Of) > 0 {
		c.aside(c.t.say("remake.drawn")) // before the drawings: it would be left alone after them
		c.Add(all)
	}
}

// rolled shows how much more pieces need that are rolled over what lies under them.
func (c *composer) rolled() {
	var all document.Sketches
	for _, p := range c.garment.Pieces {
		if p.Rolled == nil {
			continue
		}
		words := compose.RolledWords(c, p.Rolled, func(mm float64) string { return c.oneLength(measure.MM(mm)) })
		if d := draw.Roll(p.Rolled, c.style); d != nil {
			d.Title = words
			all.Of = append(all.Of, document.Sketch{Draw: kept(d), Caption: words})
		}
	}
	if len(all.Of) > 0 {
		c.heading("roll.title")
		c.Add(all)
	}
}

func pieceScale(p *garment.Piece) float64 {
	least, most := p.Bounds()
	return draw.ScaleFor(most.X-least.X, most.Y-least.Y, pieceWide, pieceHigh)
}
