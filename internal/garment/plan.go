package garment

import (
	"slices"

	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/sewn"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// outerLayer is the layer of all cloths that are neither lining nor overlay: a
// garment's outside may be cut from several.
const outerLayer = "outer"

// LayerOf is the layer that a part of the garment makes; "" where it is sewn in
// with the cloth it backs.
func LayerOf(part string) string {
	switch {
	case !sewnApart(part):
		return ""
	case layerOfItsOwn(part):
		return part
	}
	return outerLayer
}

// layers lists the layers of a garment, the outer one first.
func (w *girthWalk) layers() []string {
	out := []string{outerLayer}
	for i := range w.uses {
		if layer := LayerOf(w.uses[i].Name.V); layer != "" && !slices.Contains(out, layer) {
			out = append(out, layer)
		}
	}
	return out
}

// putTogether sews the garment: what goes round with what is read from it.
func (w *derivation) putTogether() {
	var p sewn.Plan
	for _, piece := range w.g.Pieces {
		if piece.form.why == "" && w.named[piece.Name] == piece {
			p.Pieces = append(p.Pieces, w.planPiece(piece))
		}
	}
	for _, s := range w.g.Seams {
		if !s.broken && !s.set {
			p.Seams = append(p.Seams, w.planSeam(s))
		}
	}
	for i := range w.b.Notions {
		if c, ok := w.planClosure(&w.b.Notions[i]); ok {
			p.Closures = append(p.Closures, c)
		}
	}
	for _, s := range w.g.Seams {
		if c, ok := w.planZip(s); ok {
			p.Closures = append(p.Closures, c)
		}
	}
	outerLinings(&p)
	faceLinings(&p)
	w.g.Sewn, w.g.Asked, w.unsewn = sewn.Build(p)
}

func (w *derivation) planPiece(p *Piece) sewn.Piece {
	out := sewn.Piece{
		Name: p.Name, Like: p.coverOf(), Outline: p.Outline, OnFold: p.OnFold, Mirrored: p.Mirrored,
		Count: p.Count, Behind: liesBehind(p.Name), Onto: w.setOn(p), Worn: wornAs(p.Name), AsDrawn: p.Record.Pair != "",
	}
	for _, part := range p.Of {
		if layer := LayerOf(part); layer != "" && !slices.Contains(out.Layers, layer) {
			out.Layers = append(out.Layers, layer)
		}
	}
	if len(p.Of) == 0 {
		out.Layers = []string{outerLayer}
	}
	if p.form.skirt != nil {
		out.Arc = p.form.skirt.PanelAngle
	}
	for k := range p.Edges {
		out.Edges = append(out.Edges, planEdge(p, &p.Edges[k]))
	}
	for i := range p.Darts {
		out.Darts = append(out.Darts, planDarts(p, &p.Darts[i])...)
	}
	for i := range p.form.folds {
		if q := &p.form.folds[i]; q.Stitched > 0 {
			out.Pleats = append(out.Pleats, sewn.Pleat{Place: q.Sewn(q.Lines.Place), Outer: q.Sewn(q.Lines.Outer)})
		}
	}
	for i := range p.form.levels {
		if l := &p.form.levels[i]; l.V.Given() {
			out.Levels = append(out.Levels, sewn.Level{Name: l.Name.V, Y: l.V.V.MM(), Corners: p.form.corners[l.Name.V]})
		}
	}
	return out
}

// setOn reports whether a piece is sewn onto the face of another, whole or by a line there.
func (w *index) setOn(p *Piece) bool {
	return slices.ContainsFunc(w.g.Seams, func(s *Seam) bool {
		return s.set && slices.ContainsFunc(slices.Collect(s.all()), func(u EdgeUse) bool { return u.Piece == p && u.Edge.line == nil })
	})
}

func planEdge(p *Piece, e *PieceEdge) sewn.Edge {
	out := sewn.Edge{Name: e.Name, Level: e.Level, Part: e.note.whole}
	if e.inner != nil {
		out.AtFold = true
		if e.takenBy() != nil {
			out.TakenBy = e.inner.anchor
		}
	}
	if e.finish != nil {
		out.Finish = e.finish.Name
	} else {
		out.Finish = e.setBy()
	}
	for _, part := range p.form.foldedAway(e.Name) {
		out.Folds = append(out.Folds, sewn.Stretch{From: part.at[0], To: part.at[1]})
	}
	if p.form.gathersOn(e) != nil || e.widened {
		out.Into = e.sewn
	}
	for i := range p.form.notches {
		if n := &p.form.notches[i]; p.form.is(e, n.Edge.V) && n.Along.Given() {
			out.Notches = append(out.Notches, sewn.Notch{Name: n.Name.V, Along: p.form.inner(p.Outline, e.Name, n.Along.V.MM())})
		}
	}
	return out
}

func planDarts(p *Piece, d *PieceDart) []sewn.Dart {
	e := p.edgeCalled(d.Record.Edge.V)
	if e == nil || !d.Plan.Fits {
		return nil
	}
	at := p.form.inner(p.Outline, e.Name, d.Record.Along.V.MM())
	return []sewn.Dart{{
		Edge: e.Name, From: at - d.Plan.Intake/2, To: at + d.Plan.Intake/2,
		Begin: d.Plan.Begin, End: d.Plan.End, Point: d.Plan.Point,
	}}
}

func (w *derivation) planSeam(s *Seam) sewn.Seam {
	r := s.Record
	out := sewn.Seam{Name: s.anchor, Run: s.isRun(), Turns: s.turns(), Overlap: s.closure().V.MM()}
	out.Full = r.Ease.Given() || r.Gather.Given() || len(r.Stretches) > 0 || s.stretches()
	for i := range s.Sides {
		out.Sides = append(out.Sides, w.refsOfEdges(s.Sides[i].Edges))
	}
	for i := range s.Plies {
		p := &s.Plies[i]
		if s.ownInner(p) {
			continue // in the garment put together its fold bounds what it goes round
		}
		out.Plies = append(out.Plies, sewn.Ply{Edges: w.refsOfEdges(p.Edges), With: p.With, Along: w.refsOfEdges(p.Along)})
	}
	if s.Sides[0].Edges[0].Piece == s.Sides[1].Edges[0].Piece {
		out.Round = s.Sides[0].Edges[0].Piece.round()
	}
	if out.Overlap > 0 && s.lapSide() == 1 { // the side that laps stands first there
		out.Turn()
	}
	return out
}

func (w *derivation) refsOfEdges(list []EdgeUse) []sewn.EdgeRef {
	out := make([]sewn.EdgeRef, len(list))
	for i, u := range list {
		out[i] = sewn.EdgeRef{Piece: u.Piece.Name, Edge: u.Edge.Name, Hand: w.lies(u.Piece, u.Hand)}
	}
	return out
}

// turns reports whether one side of a seam comes to lie behind the other.
func (s *Seam) turns() bool {
	return s.kind != nil && s.kind.Turns
}

// limbPieces are words for pieces that each go round a limb (terms of the trade).
var limbPieces = []string{"sleeve", "leg", "cuff"}

// round says whether copies of a piece that are sewn to each other make one
// ring: what lies at a level of the body goes round it, what lies at one of a
// limb round each.
func (p *Piece) round() sewn.Round {
	if p.band() != nil {
		return sewn.RoundEach
	}
	limb, body := false, false
	see := func(level string) {
		if _, rest, ok := record.Handed(level); ok {
			level = rest
		}
		switch {
		case level == "":
		case slices.Contains(limbs, words.Plain(level)):
			limb = true
		case slices.Contains(bodyOrder, words.Plain(level)) && words.Plain(level) != "hem":
			body = true
		}
	}
	for k := range p.form.notes {
		if n := &p.form.notes[k]; !n.called { // one leg of trousers has a waist too
			see(n.level.V)
		}
	}
	for i := range p.form.levels {
		see(p.form.levels[i].Name.V)
	}
	switch {
	case (limb || words.AnyOf(p.Name, limbPieces)) && !body:
		return sewn.RoundEach
	case body && !limb:
		return sewn.RoundOne
	}
	return sewn.RoundUnsaid
}

// onLimb reports whether a piece goes round a limb and ends there: a zip of it may begin at
// the wrist or the ankle.
func (p *Piece) onLimb() bool {
	return p.round() == sewn.RoundEach && !slices.ContainsFunc(p.Edges, func(e PieceEdge) bool { return words.Plain(e.Level) == "waist" })
}

// above is the edge beside the upper end of one that has a hem at its other end; "" where
// neither end lies at a hem, or both do.
func (p *Piece) above(e *PieceEdge) string {
	n := len(p.Edges)
	i := slices.IndexFunc(p.Edges, func(x PieceEdge) bool { return x.Name == e.Name })
	if i < 0 || n < 3 {
		return ""
	}
	before, after := &p.Edges[(i+n-1)%n], &p.Edges[(i+1)%n]
	switch hem := func(x *PieceEdge) bool { return words.Plain(x.Level) == "hem" }; {
	case hem(before) && !hem(after):
		return after.Name
	case hem(after) && !hem(before):
		return before.Name
	}
	return ""
}

// closingWords begin or end the names of what closes an opening (terms of the
// trade).
var closingWords = []string{"zip", "zipper", "button", "hook", "snap", "popper", "press stud", "toggle", "frog", "hook and eye", "hook and bar", "hook and loop", "busk", "eyelet", "lacing"}

// planClosure is a notion that closes the edge it is sewn to.
func (w *derivation) planClosure(n *record.Notion) (sewn.Closure, bool) {
	p := w.named[n.Along.V.Piece]
	if !n.Along.Given() || p == nil || !words.AnyOf(n.Is(), closingWords) {
		return sewn.Closure{}, false
	}
	e := p.edgeCalled(n.Along.V.Edge)
	if e == nil {
		return sewn.Closure{}, false
	}
	out := sewn.Closure{Name: n.Name.V, Edge: sewn.EdgeRef{Piece: p.Name, Edge: e.Name}, Either: p.onLimb(), Above: p.above(e), Apart: !isZip(n)}
	if on := w.named[n.HolesOn.V.Piece]; n.HolesOn.Given() && on != nil {
		if e := on.edgeCalled(n.HolesOn.V.Edge); e != nil {
			out.On = sewn.EdgeRef{Piece: on.Name, Edge: e.Name}
		}
	} else if q := w.otherHand(p); q != nil && q.edgeCalled(e.Name) != nil {
		out.On = sewn.EdgeRef{Piece: q.Name, Edge: e.Name}
	}
	if isZip(n) {
		out.Length = n.Length.V.MM()
		if !n.Length.Given() {
			out.Length = e.sewn // all along the edge
		}
	}
	return out, true
}

// planZip is the zip of a seam whose type has one, all along it: the notion that is said
// to lie in it, or that of its type. One that is said to lie along an edge of it closes
// that by itself.
func (w *derivation) planZip(s *Seam) (sewn.Closure, bool) {
	if s.broken || s.set || s.kind == nil || !s.kind.Opens() {
		return sewn.Closure{}, false
	}
	name := say.Of("garment.zip-of", s.Name)
	if n := w.notionFor(trade.Zip, s.Name, s.uses); n != nil {
		if n.Along.Given() {
			return sewn.Closure{}, false // which closes it by itself
		}
		name = n.Name.V
	}
	u := s.Sides[0].Edges[0]
	long, ok := u.Piece.Outline.LengthOf(u.Edge.Name)
	return sewn.Closure{Name: name, Edge: sewn.EdgeRef{Piece: u.Piece.Name, Edge: u.Edge.Name}, Length: long}, ok
}

func isZip(n *record.Notion) bool { return words.AnyOf(n.Is(), []string{"zip", "zipper"}) }
