package garment

import (
	"slices"

	"hembook/internal/figure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/trade"
)

// A RowKind says what a row of stitching is sewn for.
type RowKind string

// The kinds of rows.
const (
	SeamRow   RowKind = "seam"
	FinishRow RowKind = "finish"
	DartRow   RowKind = record.SewsDarts
	PleatRow  RowKind = record.SewsPleats
	GatherRow RowKind = "gathering"
	HoleRow   RowKind = record.SewsHoles
	ButtonRow RowKind = "sewing on"
	TurnRow   RowKind = "turning"
)

// A Row is stitching that is sewn in one go: one pass of a seam or finish, or what
// darts, pleats, gathers and buttonholes ask for. Thread, the length sewn and the
// minutes for a metre come from the rows and from nothing else.
type Row struct {
	Kind      RowKind
	Of        string // the seam, finish, piece or notion that it is sewn for
	Pass      int    // of its seam or finish, from 1; 0 of others
	Stitch    string // its type by ISO 4915
	Rows      int    // so many beside each other; 0 where the type that would tell is not known
	Hand      bool   // sewn by hand
	Temporary bool   // taken out again
	Lasting   bool   // it stands for its line in the length sewn: the first row that stays
	Thread    string // which thread of the build; "" where the record names none
	Beside    string // what is done, of rows beside a seam or inside a finished edge: trade.Topstitch, trade.EdgeStitch; "" of others
	Length    *figure.Figure
	Set       Setting // how the machine is set for it; of what is sewn by hand or taken out again, empty

	set    *record.Setting // its own, of rows beside a seam
	steps  []int           // of the order of work, that sew it, in the record's order
	pass   *trade.Pass
	params trade.Params
	do     string // what is done, where no pass says it
	what   string // what it is called in sums
	plies  []ply  // what the needle passes
	ratios [2]float64
	source trade.Source
	why    string // why the thread it takes is not known
}

// A ply is what the needle passes: a piece, in all cloths that lie together in it,
// or the strip of a seam type.
type ply struct {
	piece *Piece
	strip string
}

// Pieces are those whose cloth the needle passes, each once.
func (r *Row) Pieces() (out []*Piece) {
	for _, p := range r.plies {
		if p.piece != nil && !slices.Contains(out, p.piece) {
			out = append(out, p.piece)
		}
	}
	return out
}

// Do is what is done in it, in the words of its pass, lengths written by length.
func (r *Row) Do(length func(mm float64) string) string {
	if r.pass == nil {
		return r.do
	}
	return r.pass.Words(r.params, length)
}

// Called is what a row is called where several are added up: "sides", "darts of front".
func (r *Row) Called() string {
	switch r.Beside {
	case trade.Topstitch:
		return say.Of("garment.topstitching-of", r.what)
	case trade.EdgeStitch:
		return say.Of("garment.edge-stitching-of", r.what)
	}
	return r.what
}

// together are the parts of a piece that lie on each other as one: its cloth, with
// what backs it. Cloths that are each sewn by themselves are one at a time.
func (p *Piece) together() []string {
	var out []string
	sewn := false
	for _, part := range p.Of {
		if sewnApart(part) && sewn && layerOfItsOwn(part) {
			continue
		}
		sewn = sewn || sewnApart(part)
		out = append(out, part)
	}
	return out
}

// RowsOf are the rows of a seam or finish, in the order of its passes.
func (g *Garment) RowsOf(kind RowKind, name string) []*Row {
	var out []*Row
	for i := range g.Rows {
		if r := &g.Rows[i]; r.Kind == kind && r.Of == name {
			out = append(out, r)
		}
	}
	return out
}

// sewsRow adds a row, with the thread it takes.
func (w *stitching) sewsRow(r Row) {
	if r.Rows > 0 {
		w.ratio(&r)
	}
	if w.g.Rows == nil {
		w.g.Rows = make([]Row, 0, 2*(len(w.g.Seams)+len(w.g.Finishes))+len(w.g.Pieces))
	}
	w.g.Rows = append(w.g.Rows, r)
}

// rowsOf adds the rows of a seam or finish pass by pass (figure 14). stitch is the
// record's own.
func (w *stitching) rowsOf(t *seamType, of Row, stitch string, params trade.Params, sides [2][]*Piece) {
	first := true
	for i := range t.Passes {
		pass := &t.Passes[i]
		r := of
		r.Pass, r.pass, r.params = i+1, pass, params
		r.Rows, r.Temporary, r.Stitch = pass.Rows, pass.Temporary, pass.Stitch
		if pass.Stitch == t.main && stitch != "" && !pass.Temporary {
			r.Stitch = stitch
		}
		if s := w.stitches[r.Stitch]; s != nil {
			r.Hand = s.Hand
		}
		r.Lasting = first && !pass.Temporary
		first = first && pass.Temporary
		r.plies = pliesOf(pass, parted(t, sides))
		w.sewsRow(r)
	}
}

// parted are the pieces on the sides of a type: of one with a side c that is what is
// caught in behind side b. A piece of two plies is both.
func parted(t *seamType, sides [2][]*Piece) (out [3][]*Piece) {
	out[0], out[1] = sides[0], sides[1]
	if t.Sides() == 3 && len(sides[1]) > 1 {
		out[1], out[2] = sides[1][:1], sides[1][1:]
	}
	return out
}

// pliesOf are the plies that the first row of a pass goes through. What is caught in
// behind a side lies wherever that side does, unless the type says where.
func pliesOf(pass *trade.Pass, sides [3][]*Piece) []ply {
	if len(pass.Through) == 0 {
		return nil
	}
	most := pass.Through[0]
	for _, row := range pass.Through {
		if len(row) > len(most) {
			most = row
		}
	}
	out := make([]ply, 0, len(most))
	for _, role := range most {
		side := -1
		switch {
		case role == trade.ClothA && len(sides[0]) > 0:
			side = 0
		case role == trade.ClothB && len(sides[1]) > 0:
			side = 1
		case role == trade.ClothC && len(sides[2]) > 0:
			side = 2
		case role == trade.ClothC && len(sides[1]) == 1 && (sides[1][0].Doubled() || sides[1][0].foldedOver()):
			continue // told with side b
		default:
			out = append(out, ply{strip: string(role)})
			continue
		}
		for _, p := range sides[side] {
			out = append(out, ply{piece: p})
		}
	}
	return out
}
