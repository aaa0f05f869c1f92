package press

import (
	"strconv"

	"hembook/internal/draw"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/notebook"
)

// The largest drawing of a piece, in millimetres on paper.
const (
	pieceWide = 130
	pieceHigh = 130
)

// pieces draws every piece, each with its table of edges.
func (p *printer) pieces(w *paper, b *notebook.BuildPage) {
	if len(b.Pieces) == 0 {
		return
	}
	w.raw(`<p class="note">The outer line of a drawing is cut, the dashed line is sewn; beside each edge stands its allowance. Drawings keep their scale on paper printed at full size.</p>`)
	w.raw("\n")
	if s := asOf(b); s != "" {
		w.raw(`<p class="note">`).say(s).raw("</p>\n")
	}
	t := w.table("Pieces, as they are cut", words("piece"), words("cut"), fig("width"), fig("height"), fig("area"), fig("of it allowance"), fig("share")).long()
	for _, piece := range b.Pieces {
		t.rowLink("#"+piece.Anchor, piece.Name).words(piece.CutWords())
		t.fig(&piece.Width).fig(&piece.Height).fig(&piece.CutArea).fig(&piece.Allowance).fig(&piece.Share)
	}
	t.end()
	for _, piece := range b.Pieces {
		w.mayTurn()
		p.piece(w, piece)
	}
}

// laidOut shows every piece at one scale, each leading to its own drawing.
func (p *printer) laidOut(w *paper, b *notebook.BuildPage) {
	if len(b.Pieces) == 0 {
		return
	}
	scale := draw.CommonScale(b.Pieces)
	w.raw(`<ul class="laid tissue" tabindex="0">`)
	for _, piece := range b.Pieces {
		w.raw(`<li><a href="`).say(p.href(p.anchorOf("pieces", piece.Anchor))).raw("#").say(piece.Anchor).raw(`">`)
		w.drawn(draw.Silhouette(piece, scale))
		w.say(piece.Name).raw("</a> <small>").say(piece.CutWords()).raw("</small></li>\n")
	}
	w.raw("</ul>\n<p class=\"note\">All at 1 : ").say(strconv.FormatFloat(scale, 'f', -1, 64)).raw(", as they are cut.</p>\n")
}

// scaleOf is the scale that suits a piece.
func scaleOf(piece *garment.Piece) float64 {
	least, most := piece.Cut.Ring.Bounds()
	if len(piece.Cut.Ring) == 0 {
		least, most = piece.Outline.Bounds()
	}
	return draw.ScaleFor(most.X-least.X, most.Y-least.Y, pieceWide, pieceHigh)
}

func (p *printer) piece(w *paper, piece *garment.Piece) {
	scale := scaleOf(piece)
	w.raw(`<article class="pattern" id="`).say(piece.Anchor).raw(`"><h3>`).say(piece.Name).raw(`</h3>`)
	if piece.Record != nil && piece.Record.Note.Given() {
		w.raw("<p>").say(piece.Record.Note.V).raw("</p>\n")
	}
	w.raw(`<div class="beside"><figure class="tissue" tabindex="0">`)
	w.drawn(draw.Piece(piece, draw.PieceStyle{Scale: scale, Measure: p.style, Numbers: p.numbers}))
	w.raw("<figcaption>1 : ").say(strconv.FormatFloat(scale, 'f', -1, 64)).raw("</figcaption></figure><div>\n")
	t := w.table("Edges of "+piece.Name, words("edge"), fig("sewn"), fig("allowance"), words("sewn by"))
	for i := range piece.Edges {
		e := &piece.Edges[i]
		t.row(e.Name)
		length := &e.Length
		if e.Intake.ID != "" {
			length = &e.Sewn
		}
		t.fig(length)
		if e.Fold {
			t.words("").words("on the fold")
			continue
		}
		t.fig(&e.Allowance).words(e.SewnBy)
	}
	t.end()
	w.raw(`<dl class="few">`)
	for i := range piece.Extra {
		w.few(piece.Extra[i].Title, &piece.Extra[i])
	}
	for i := range piece.AtLevels {
		w.few("width at "+piece.AtLevels[i].Level, &piece.AtLevels[i].Width)
	}
	for i := range piece.Darts {
		name := "dart"
		if r := piece.Darts[i].Record; r != nil {
			name = "dart at " + r.Edge.V
		}
		w.few(name+", leg", &piece.Darts[i].Leg)
	}
	w.raw("</dl>\n")
	w.raw("</div></div></article>\n")
}

// figures adds a few figures by their titles.
func (w *paper) figures(list []*figure.Figure) {
	w.raw(`<dl class="few">`)
	for _, f := range list {
		w.few(f.Title, f)
	}
	w.raw("</dl>\n")
}

// few adds one of a few figures.
func (w *paper) few(title string, f *figure.Figure) {
	if f.ID != "" {
		w.raw("<div><dt>").say(title).raw("</dt><dd>").figure(f).raw("</dd></div>")
	}
}
