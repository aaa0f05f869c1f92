package compose

import (
	"strconv"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/notebook"
	"hembook/internal/say"
)

// The largest drawing of a piece, in millimetres on paper.
const (
	pieceWide = 130
	pieceHigh = 130
)

// pieces draws every piece, each with its table of edges.
func pieces(d *Draft, b *notebook.BuildPage) {
	if len(b.Pieces) == 0 {
		return
	}
	d.Note(say.Of("compose.full-line-cut-dashed-line-seam-numbers"))
	if b.Striping != nil {
		d.Note(say.Of("compose.fine-lines-the-stripes-of-the-cloth"))
	}
	if s := asOf(b); s != "" {
		d.Note(s)
	}
	Table(&d.Draft, OnPage, say.Of("compose.pieces-as-they-are-cut"), b.Pieces, PieceName, pieceCutIn, pieceWidth, pieceHeight, pieceArea, pieceAllowance).Long().End()
	sewn := ledTo(sewnAnchors(b))
	for _, piece := range b.Pieces {
		d.Add(document.Turn{})
		d.piece(b, piece, sewn)
	}
}

// laidOut shows every piece at one scale, each leading to its own drawing.
func laidOut(d *Draft, b *notebook.BuildPage) {
	if len(b.Pieces) == 0 {
		return
	}
	scale := draw.CommonScale(b.Pieces)
	list := document.List{As: "laid tissue"}
	for _, piece := range b.Pieces {
		silhouette := func() *drawing.Drawing { return draw.Silhouette(piece, scale) }
		list.Items = append(list.Items, document.Item{Phrase: d.Phrase(
			document.Inline{Draw: silhouette, Words: piece.Name, Anchor: piece.Anchor}, document.As(document.Small, piece.CutWords()))})
	}
	d.Add(list)
	d.Note(say.Of("compose.all-at-as-they-are-cut", scaleWords(scale)))
}

func scaleWords(scale float64) string { return "1 : " + strconv.FormatFloat(scale, 'f', -1, 64) }

// scaleOf is the scale that suits a piece.
func scaleOf(piece *garment.Piece) float64 {
	least, most := piece.Cut.Ring.Bounds()
	if len(piece.Cut.Ring) == 0 {
		least, most = piece.Outline.Bounds()
	}
	return draw.ScaleFor(most.X-least.X, most.Y-least.Y, pieceWide, pieceHigh)
}

func (d *Draft) piece(b *notebook.BuildPage, piece *garment.Piece, sewn func(name string) document.Inline) {
	scale, stripes := scaleOf(piece), b.Striping.OnPiece(piece.Name)
	all := document.Section{As: "pattern", ID: piece.Anchor, Level: 3, Head: piece.Name}
	if piece.Record != nil && piece.Record.Note.Given() {
		all.Blocks = append(all.Blocks, document.Text{Phrase: d.Phrase(document.Say(piece.Record.Note.V))})
	}
	caption := scaleWords(scale)
	if shown := draw.StripesDrawn(stripes, scale); shown != draw.AllStripes {
		caption += ", " + shown
	}
	sketch := document.Sketch{Caption: caption, Draw: func() *drawing.Drawing {
		return draw.Piece(piece, draw.PieceStyle{Scale: scale, Measure: d.Style, Numbers: d.numbers, Stripes: stripes, Leads: edgeAnchor})
	}}
	beside := d.Within(func() { d.edges(piece, sewn) })
	all.Blocks = append(all.Blocks, document.Columns{Of: [][]document.Block{{sketch}, beside}})
	if rolled, ok := d.rolled(piece.Rolled); ok {
		all.Blocks = append(all.Blocks, rolled)
	}
	d.Add(all)
}

// edges tables the edges of a piece, each with a place of its own and a way to the seam
// that uses it, and lists what else is known of the piece.
func (d *Draft) edges(piece *garment.Piece, sewn func(name string) document.Inline) {
	t := d.Table(say.Of("compose.edges-of", piece.Name), document.Words(say.Of("compose.edge")), document.Figures(say.Of("compose.sewn")), document.Figures(say.Of("compose.allowance")), document.Words(say.Of("compose.sewn-by")))
	for i := range piece.Edges {
		e := &piece.Edges[i]
		length := &e.Length
		if e.Intake.ID != "" {
			length = &e.Sewn
		}
		t.RowOf(document.Inline{Words: e.Name, ID: edgeAnchor(e)}).Figures(length)
		if e.Fold {
			t.Words("", say.Of("compose.on-the-fold-2"))
			continue
		}
		t.Figures(&e.Allowance).Cell(sewn(e.SewnBy))
	}
	t.End()
	var facts document.Facts
	add := func(fact document.Fact, ok bool) {
		if ok {
			facts.Items = append(facts.Items, fact)
		}
	}
	for i := range piece.Extra {
		add(d.Fact(piece.Extra[i].Title, &piece.Extra[i]))
	}
	for i := range piece.AtLevels {
		add(d.Fact(say.Of("compose.width-at", piece.AtLevels[i].Level), &piece.AtLevels[i].Width))
	}
	for i := range piece.Darts {
		name := "dart"
		if r := piece.Darts[i].Record; r != nil {
			name = say.Of("compose.dart-at", r.Edge.V)
		}
		add(d.Fact(say.Of("compose.leg", name), &piece.Darts[i].Leg))
	}
	if len(piece.PleatFolds) > 0 {
		for i := range piece.Edges {
			if e := &piece.Edges[i]; e.Intake.ID != "" {
				add(d.Fact(say.Of("compose.taken-in-at", e.Name), &e.Intake))
			}
		}
		if piece.PleatsSewn.ID != "" {
			add(d.Fact(say.Of("compose.pleats-stitched-down"), &piece.PleatsSewn))
		}
	}
	if r := piece.Rolled; r != nil {
		add(d.Fact(say.Of("compose.turn-of-cloth-it-needs"), toTenths(&r.Needs)))
		add(d.Fact(say.Of("compose.turn-of-cloth-it-has"), toTenths(&r.Has)))
	}
	for i := range piece.Lines {
		l := &piece.Lines[i]
		if l.Again {
			continue
		}
		name := l.Kind() + " " + l.Name
		if l.Kind() == l.Name {
			name = l.Name
		}
		if what := l.Says(); what != "" {
			name += ", " + what
		}
		if l.Edge.SewnBy != "" {
			name += say.Of("compose.sewn-by-2", l.Edge.SewnBy)
		}
		add(d.Fact(name, &l.Length))
	}
	for _, r := range piece.Gathered {
		if r.Full.ID == "" {
			continue
		}
		add(d.Fact(say.Of("compose.fullness-of", r.Edge), &r.Full))
		add(d.Fact(say.Of("compose.gathered-rows", strconv.Itoa(r.Rows)), &r.Sewn))
		if r.Elastic {
			add(d.Fact(say.Of("compose.elastic-thread"), &r.Thread))
		}
	}
	d.Add(facts)
	for _, said := range piece.PleatWords(d.Style) {
		d.Note(said)
	}
}
