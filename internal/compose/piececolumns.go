package compose

import (
	"slices"
	"strconv"

	"hembook/internal/document"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/say"
)

// What is told of pieces on pages and on sheets.
var (
	PieceName = ColumnOf[*garment.Piece]{"piece", true, 3, func(t *document.TableDraft, _ Teller, p *garment.Piece) {
		t.Cell(document.Inline{Words: p.Name, Anchor: p.Anchor})
	}}
	// pieceCutIn tells how a piece is cut and in what in one line, as its drawing does.
	pieceCutIn = ColumnOf[*garment.Piece]{"cut", true, 0, func(t *document.TableDraft, _ Teller, p *garment.Piece) {
		t.Words(p.CutWords())
	}}
	PieceCut = ColumnOf[*garment.Piece]{"cut", true, 2, func(t *document.TableDraft, tell Teller, p *garment.Piece) {
		t.Words(PieceCutWords(tell, p))
	}}
	PieceParts = ColumnOf[*garment.Piece]{"of", true, 3, func(t *document.TableDraft, tell Teller, p *garment.Piece) {
		t.Words(pieceParts(tell, p))
	}}
	PieceGrain = ColumnOf[*garment.Piece]{"grain", true, 2, func(t *document.TableDraft, tell Teller, p *garment.Piece) {
		t.Words(tell.Called("grain."+p.Grain, p.Grain))
	}}
	PieceSize = ColumnOf[*garment.Piece]{"size", false, 4, func(t *document.TableDraft, tell Teller, p *garment.Piece) {
		t.Cell(tell.Figure(&p.Width), document.Say(" × "), tell.Figure(&p.Height))
	}}
	pieceWidth     = FigureOf("width-cut", 0, func(p *garment.Piece) *figure.Figure { return &p.Width })
	pieceHeight    = FigureOf("high", 0, func(p *garment.Piece) *figure.Figure { return &p.Height })
	pieceArea      = FigureOf("area", 0, func(p *garment.Piece) *figure.Figure { return &p.CutArea })
	pieceAllowance = FigureOf("allowances", 0, func(p *garment.Piece) *figure.Figure { return &p.Allowance })
)

// PieceCutWords tells how often a piece is cut and how it lies: 2, in pairs.
func PieceCutWords(tell Teller, p *garment.Piece) string {
	switch {
	case p.OnFold:
		return tell.Filled("cut.fold", say.Of("compose.on-the-fold"), "n", strconv.Itoa(p.Count))
	case p.Mirrored:
		return tell.Filled("cut.mirrored", say.Of("compose.in-pairs"), "n", strconv.Itoa(p.Count))
	}
	return strconv.Itoa(p.Count)
}

// pieceParts tells in what a piece is cut; how many in each, where it is not cut as
// often in one as in another: 2 × shell, 1 × fusing.
func pieceParts(tell Teller, p *garment.Piece) string {
	counted := p.CountsParts()
	var out []string
	for i, part := range p.Of {
		name := tell.Called(Key("part", part), part)
		switch {
		case slices.Contains(p.Of[:i], part): // told already
		case counted:
			out = append(out, strconv.Itoa(p.CutIn(part))+"\u00a0× "+name)
		default:
			out = append(out, name)
		}
	}
	return tell.Joined(out)
}
