package garment

import (
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// joinEdges finds the edges that seams and finishes name, and the types that
// join or finish them.
func (w *derivation) joinEdges() {
	w.joinSeams()
	for i := range w.b.Finishes {
		r := &w.b.Finishes[i]
		if w.g.Finishes == nil {
			w.g.Finishes = make([]*Finish, 0, len(w.b.Finishes))
		}
		f := &Finish{Record: r, Name: r.Name.V}
		f.anchor = w.sewnNames().Unique(r.Name.V)
		f.Anchor = w.Join("finish-", f.anchor)
		f.kind = w.seamTypeOf(r.Type, trade.Finish)
		for _, ref := range r.Of {
			list, _ := w.usesOf(ref)
			for _, use := range list {
				f.Edges = append(f.Edges, use)
				if f.rowsOnly() && use.Edge.line == nil {
					continue // the edge is sewn or finished besides
				}
				if use.Edge.finish == nil && !f.rowsOnly() {
					use.Edge.finish = f
				}
				if use.Edge.SewnBy == "" {
					use.Edge.SewnBy = f.Name
				}
			}
		}
		if f.kind != nil {
			f.given = w.given(f.kind, r.With)
			f.Type, f.Params = f.kind.SeamType, f.kind.filled(f.given)
		}
		w.g.Finishes = append(w.g.Finishes, f)
	}
	w.innerEdges()
	w.setPieces()
}

func (w *derivation) joinSeams() {
	room := make([]Seam, len(w.b.Seams))
	w.g.Seams = make([]*Seam, len(room))
	for i := range w.b.Seams {
		r, s := &w.b.Seams[i], &room[i]
		w.g.Seams[i] = s
		s.Record, s.Name = r, r.Name.V
		s.anchor = w.sewnNames().Unique(r.Name.V)
		s.Anchor = w.Join("seam-", s.anchor)
		s.kind = w.seamTypeOf(r.Type, trade.Seam)
		if s.at = r.Place.Given(); s.at {
			s.set, s.broken = true, true // its edges are those that nothing else names
		} else {
			lines, ok := w.linesOf(r)
			s.lay(lines)
			s.broken, s.set = !ok, s.setOnLine()
			s.settleBand()
		}
		for side := range s.Sides {
			for use := range s.edgesOn(side) {
				if use.Edge.seam == nil {
					use.Edge.seam, use.Edge.side, use.Edge.SewnBy = s, side, s.Name
				} else {
					use.Edge.also = append(use.Edge.also, sewnSide{s, side})
				}
			}
		}
		if s.kind != nil {
			s.given = w.given(s.kind, r.With)
			if _, lap := s.kind.plain[lapMeasure]; lap && r.Overlap.Given() {
				s.laps = true
				if s.given == nil {
					s.given = trade.Params{}
				}
				s.given[lapMeasure] = r.Overlap.V.MM()
			}
			s.Type = s.kind.SeamType
		}
	}
}

// lapMeasure is a measure of lapped seams that is written with the same word
// as the overlap of a closure: in a seam of such a type it is the lap.
const lapMeasure = "overlap"

// sewnNames keeps the anchors of seams and finishes apart from each other.
func (w *derivation) sewnNames() *words.Names {
	if w.sewnAnchors == nil {
		w.sewnAnchors = words.NamesFor(len(w.b.Seams) + len(w.b.Finishes))
	}
	return w.sewnAnchors
}

// use finds the edge a record names; what is not there the reader has faulted.
func (w *index) use(ref record.EdgeRef) (EdgeUse, bool) {
	p := w.named[ref.Piece]
	if p == nil {
		return EdgeUse{}, false
	}
	if l := p.lineCalled(ref.Edge); l != nil {
		return EdgeUse{p, l.Edge, ref.Hand}, true
	}
	e := p.edgeCalled(ref.Edge)
	return EdgeUse{p, e, ref.Hand}, e != nil
}

// Where an edge's allowance comes from, in the order in which they are asked.
var (
	ownRule      = say.Of("garment.the-edges-own-allowance")
	foldRule     = say.Of("garment.an-edge-on-a-fold-has-no")
	slitRule     = say.Of("garment.a-full-circle-in-one-panel-is")
	broughtRule  = say.Of("garment.none-beside-its-sizes-which-have-their")
	finishRule   = say.Of("garment.what-the-finish-needs-as-nothing-is")
	blockRule    = say.Of("garment.none-a-block-lies-within-what-it")
	pieceRule    = say.Of("garment.the-pieces-allowance-as-nothing-is")
	seamRule     = say.Of("garment.what-the-seam-needs-as-nothing-is")
	innerRule    = say.Of("garment.what-the-seam-at-its-outer-edge")
	buildRule    = say.Of("garment.the-usual-allowance-of-this-garment-as")
	workroomRule = say.Of("garment.the-workrooms-usual-allowance-as")
)

// allowances gives every edge its allowance.
func (w *derivation) allowances() {
	for _, p := range w.g.Pieces {
		for k := range p.Edges {
			w.fixed(p, &p.Edges[k])
		}
	}
	for _, s := range w.g.Seams {
		w.fillSeam(s)
	}
	for _, p := range w.g.Pieces {
		for k := range p.Edges {
			w.allowance(p, &p.Edges[k])
		}
	}
}

// fixed finds an allowance that does not depend on a seam.
func (w *index) fixed(p *Piece, e *PieceEdge) {
	switch f := &p.form; {
	case e.Fold:
		e.rule = foldRule
	case f.slit && e.note.name != "waist" && e.note.name != "hem" && e.note.before != "waist" && e.note.before != "hem":
		e.rule = slitRule
	case e.note.allowance.Given():
		e.rule, e.allow = ownRule, e.note.allowance.V.MM()
	case e.seam == nil && e.finish != nil && e.finish.kind != nil:
		if a, err := e.finish.kind.Gives.A.Value(e.finish.Params); err == nil {
			e.rule, e.allow = finishRule, max(a, 0)
		}
	case f.allowance.Given():
		e.rule, e.allow = pieceRule, f.allowance.V.MM()
		if r := e.piece.Record; r.Block != nil && !r.Allowance.Given() {
			e.rule = blockRule
		}
	case w.clothAllowance(p).Given():
		e.rule, e.allow = clothRule, w.clothAllowance(p).V.MM()
	}
}

// fillSeam fills in a seam's measures. A measure called "allowance" that is
// not written follows the narrower of its edges where those have one, else
// the workroom's usual where the type asks for no more than the usual.
func (w *derivation) fillSeam(s *Seam) {
	t := s.kind
	if t == nil {
		return
	}
	s.Params = t.filled(s.given)
	if _, written := s.given[followed]; t.follows && !written {
		if e := s.narrowest(); e != nil {
			s.setAllowance(e.allow)
			s.followed = source{kind: figure.Figured, from: w.Join(e.base, ".allowance")}
		} else if usual := w.usualAllowance(); t.allowance == usualAllowance {
			s.setAllowance(usual.V)
			s.followed = source{kind: figure.Default, from: "default"}
			if usual.At.Given() {
				s.followed = source{kind: figure.Written, at: usual.At}
			}
		}
	}
	w.evaluate(s)
}

// narrowest is the edge of a seam with the least allowance of its own; nil
// where none has any.
func (s *Seam) narrowest() *PieceEdge {
	var least *PieceEdge
	for u := range s.all() {
		if u.Edge.allow > 0 && (least == nil || u.Edge.allow < least.allow) {
			least = u.Edge
		}
	}
	return least
}

// usualAllowance is the allowance seam types ask for that have no wish of
// their own (common practice, no source).
const usualAllowance = 15

func (s *Seam) setAllowance(mm float64) {
	if mm == s.kind.allowance && len(s.given) == 0 {
		return // Params are the type's own, shared
	}
	if len(s.given) == 0 {
		s.Params = s.kind.filled(trade.Params{followed: mm})
		return
	}
	s.Params[followed] = mm
}

// evaluate works out a seam's formulas.
func (w *desk) evaluate(s *Seam) {
	t := s.kind
	if len(s.given) == 0 && s.Params[followed] == t.plain[followed] {
		s.gives, s.width = [2]float64{t.a, t.b}, t.width
		return
	}
	s.gives[0], s.err = t.Gives.A.Value(s.Params)
	if s.err == nil {
		s.gives[1], s.err = t.Gives.B.Value(s.Params)
	}
	if s.err == nil {
		s.width, s.err = t.Width.Value(s.Params)
	}
	if s.err != nil {
		w.faults.Errorf(s.Record.Type.At, "", "%q: %s", s.Name, s.err)
	}
}

// allowance settles an edge's allowance and its working.
func (w *derivation) allowance(p *Piece, e *PieceEdge) {
	id := w.Join(e.base, ".allowance")
	title := say.Of("garment.allowance-of-the-edge")
	source := figure.Recorded
	var t figure.Term
	switch e.rule {
	case ownRule:
		t = w.Length(say.Of("garment.allowance-of-the-edge"), e.note.allowance)
	case pieceRule:
		t = w.Length(say.Of("garment.allowance-of-the-piece"), p.form.allowance)
	case clothRule:
		t = w.Length(say.Of("garment.allowance-of-its-cloth"), w.clothAllowance(p))
	case finishRule:
		r := e.finish.Record
		w.Remark(figure.Written, "finish", r.Type.V, r.Type.At, "")
		t = w.AtLeastNothing(w.formula(e.finish.kind.Gives.A, finishMeasures(e.finish)))
		source = e.finish.kind.Source
	case foldRule, slitRule, broughtRule, blockRule:
		t = w.Constant(0, mm)
		source = figure.Practice
	default:
		t, source = w.seamAllowance(e)
	}
	e.Allowance = w.Figure(id, title, e.ref, t, mm, e.rule, source)
	e.Allowance.Value.Exact = true
}

// A sewnSide is one side of a seam.
type sewnSide struct {
	seam *Seam
	side int
}

func (s sewnSide) known() bool { return s.seam != nil && s.seam.kind != nil && s.seam.err == nil }

// widest is the side of all its seams for which an edge needs most. An edge
// that is sewn to its own mirror image lies on both sides of one seam, and is
// drawn once.
func (e *PieceEdge) widest() sewnSide {
	most := sewnSide{e.seam, e.side}
	for _, o := range e.also {
		if o.known() && (!most.known() || o.seam.gives[o.side] > most.seam.gives[most.side]) {
			most = o
		}
	}
	return most
}

// usualAllowance is the allowance where nothing else tells one: the build's, else the
// workroom's.
func (w *derivation) usualAllowance() figure.Setting {
	return ownUsual(w.b.Usual.Allowance, w.t.usual.allowance)
}

// ownUsual is what is usual in a build where it says so, else in the workroom.
func ownUsual(own record.Length, room figure.Setting) figure.Setting {
	if own.Given() {
		return figure.Setting{V: own.V.MM(), At: own.At, Source: "usual in this garment"}
	}
	return room
}

// seamAllowance gives an edge what its seams need, else the workroom's usual.
func (w *derivation) seamAllowance(e *PieceEdge) (figure.Term, trade.Source) {
	sewn, rule := e.widest(), seamRule
	if sewn.seam == nil && e.inner != nil {
		sewn, rule = e.inner.sideOfBand(), innerRule
	}
	s := sewn.seam
	if !sewn.known() {
		usual := w.usualAllowance()
		if e.rule, e.allow = workroomRule, usual.V; w.b.Usual.Allowance.Given() {
			e.rule = buildRule
		}
		return usual.Term(w.Pad, say.Of("garment.usual-allowance"), mm), usual.Source
	}
	e.rule, e.allow = rule, max(s.gives[sewn.side], 0)
	if s.Record.Type.At == s.Record.At { // nothing is written, so it is plain
		w.Remark(figure.Default, "seam", s.Record.Type.V, fault.Pos{}, "default")
	} else {
		w.Remark(figure.Written, "seam", s.Record.Type.V, s.Record.Type.At, "")
	}
	return w.AtLeastNothing(w.formula(s.kind.gives(sewn.side), seamMeasures(s))), s.kind.Source
}
