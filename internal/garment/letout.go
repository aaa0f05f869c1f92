package garment

import (
	"cmp"
	"math"
	"slices"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/meant"
	"hembook/internal/record"
	"hembook/internal/sewn"
	"hembook/internal/trade"
	"hembook/internal/words"
)

const (
	letOutRule = "Σ (what the seam keeps of the allowance − what must stay to sew it so again), over both sides of every seam that goes round here"
	plainRule  = "Σ (what the seam keeps of the allowance − least margin), over both sides of every seam that goes round here, each sewn again as a plain seam"
	nothingOut = "nothing, for what holds it here keeps its length: "
)

// A givingSide is one side of a seam that a level crosses, and how often it
// does.
type givingSide struct {
	edge  *PieceEdge
	seam  *Seam
	side  int
	times float64
	held  string // the notion that lies in its allowance; "" where none does

	behind []*PieceEdge // what is caught in behind it, which must give as much
}

// letOut is how much a level can be let out: by sewing its seams again in their
// own way, and, where that gives more, as plain seams.
func (w *letOuts) letOut(l *Level, base string) {
	id := w.Join(base, ".let-out")
	const title = "let-out"
	if len(l.cross) == 0 {
		l.LetOut = w.Figure(id, title, l.Name, w.Unknown("no outline marks this level"), mm, letOutRule, figure.Practice)
		return
	}
	if held := w.heldFast(l); held != nil {
		w.Remark(figure.Written, held.what, held.written, held.at, "")
		l.LetOut = w.Figure(id, title, l.Name, w.Constant(0, mm), mm, w.Join(nothingOut, held.name), figure.Practice)
		l.HeldBy = held.name
		return
	}
	rounds, why := w.givingRounds(l)
	if why == "" {
		why = w.letOutUnsure(l)
	}
	if why == "" {
		rounds[0].sides, why = w.leastStorey(l, rounds[0].sides)
	}
	own, holds := w.leastGiving(rounds, false)
	rule := w.Join(letOutRule, leastOf(rounds))
	l.LetOut = w.Figure(id, title, l.Name, own.Unless(why), mm, rule, figure.Practice)
	if why != "" || !l.LetOut.Value.Known() {
		return
	}
	l.HeldBy = holds
	plain, _ := w.leastGiving(rounds, true)
	if !plain.Known() || plain.MM() <= l.LetOut.Value.Number+1e-6 {
		return
	}
	l.LetOutPlain = w.Figure(w.Join(base, ".let-out-plain"), "let-out, sewn again as plain seams", l.Name, plain, mm,
		w.Join(plainRule, leastOf(rounds), rowsShow(rounds[0].sides)), figure.Practice)
}

// A givingRound is one layer that goes round a level, with the sides it can give at.
type givingRound struct {
	name  string // "" for the one the level is counted over
	sides []givingSide
}

// givingRounds lists the layer that a level is counted over and those that are
// caught to it there, or says why they cannot be told.
func (w *letOuts) givingRounds(l *Level) (out []givingRound, why string) {
	sides, why := w.sidesThrough(l.Girths, l.Limbs)
	if why != "" {
		return nil, why
	}
	out = append(out, givingRound{"", sides})
	others, why := w.caughtRound(l)
	for _, o := range others {
		sides, why := w.sidesThrough(o.girths, l.Limbs)
		if why != "" {
			return nil, why
		}
		out = append(out, givingRound{o.name, sides})
	}
	return out, why
}

// leastGiving is what the layers that go round together can give: the least of them.
// holds names the one that gives least where that is not the layer that is counted.
func (w *letOuts) leastGiving(rounds []givingRound, plain bool) (t figure.Term, holds string) {
	if len(rounds) == 0 {
		return w.Constant(0, mm), ""
	}
	terms := make([]figure.Term, len(rounds))
	for i := range rounds {
		terms[i] = w.giving(rounds[i].sides, plain)
		if terms[i].Known() && i > 0 && terms[i].MM() < terms[0].MM()-1e-6 && (holds == "" || terms[i].MM() < t.MM()-1e-6) {
			t, holds = terms[i], rounds[i].holder()
		}
	}
	if holds == "" && terms[0].Known() && terms[0].MM() < 1e-6 {
		holds = rounds[0].holder()
	}
	return w.Least(terms...), holds
}

// holder is what lets a layer give less: what lies in all the seams that could, else
// the layer itself.
func (r *givingRound) holder() string {
	held := ""
	for i, s := range r.sides {
		if s.held == "" || i > 0 && s.held != held {
			return r.name
		}
		held = s.held
	}
	return cmp.Or(held, r.name)
}

// leastOf says of which layers the least counts, where there are several.
func leastOf(rounds []givingRound) string {
	if len(rounds) < 2 {
		return ""
	}
	names := make([]string, len(rounds)-1)
	for i := range names {
		names[i] = "the " + rounds[i+1].name
	}
	return "; the least of the layers caught together here, with " + meant.List(names, "and")
}

// rowsShow says so where old rows are seen outside afterwards.
func rowsShow(sides []givingSide) string {
	if slices.ContainsFunc(sides, func(s givingSide) bool { return s.seam.kind.RowsShow }) {
		return "; the holes of the old rows show"
	}
	return ""
}

// giving adds up what sides can give.
func (w *letOuts) giving(sides []givingSide, plain bool) figure.Term {
	terms := make([]figure.Term, len(sides))
	for i, s := range sides {
		terms[i] = w.spare(s, plain).By(s.times)
	}
	if len(terms) == 0 {
		return w.Found("no sewn edge runs through it", 0, mm)
	}
	return w.Sum(terms...)
}

// spare is what one side can give: what the seam keeps of its allowance, less
// what must stay to sew it again in its own way or as a plain seam; the least of
// all that lies there. What is clipped gives nothing.
func (w *letOuts) spare(s givingSide, plain bool) figure.Term {
	t := w.spareOfPly(s, plain)
	if len(s.behind) == 0 {
		return t
	}
	terms := []figure.Term{t}
	for _, e := range s.behind {
		ply := s
		ply.edge, ply.behind = e, nil
		if s.side == 1 && s.seam.kind.Sides() == 3 {
			ply.side = 2
		}
		if ply.held == "" {
			ply.held = w.liesIn(e)
		}
		terms = append(terms, w.spareOfPly(ply, plain))
	}
	return w.Least(terms...)
}

// spareOfPly is what one edge on a side can give.
func (w *letOuts) spareOfPly(s givingSide, plain bool) figure.Term {
	kind := s.seam.kind
	m := seamMeasures(s.seam).left(s.edge, s.side, w.margin)
	keeps := w.formula(kind.Keeps.Of(s.side), m)
	switch {
	case kind.Clipped, s.held != "":
		return w.AtLeastNothing(keeps.Minus(keeps))
	case plain:
		return w.AtLeastNothing(keeps.Minus(w.margin.Term(w.Pad, "least margin", mm)))
	}
	holds, err := w.holdsOf(kind, s.side, s.edge, s.seam.Params)
	if err != nil {
		return keeps.Unless(err.Error())
	}
	return w.AtLeastNothing(keeps.Minus(w.formula(holds, m)))
}

// holdsOf is the formula of what must stay of an edge on a side of a seam, or in a
// finish: of several the one that asks for most.
func (w *letOuts) holdsOf(kind *seamType, side int, e *PieceEdge, params trade.Params) (trade.Expr, error) {
	p := trade.Params{trade.CutName: e.allow, trade.MarginName: w.margin.V}
	for name, v := range params {
		p[name] = v
	}
	keeps, err := kind.Keeps.Of(side).Value(p)
	if err != nil {
		return trade.Expr{}, err
	}
	p[trade.AllName] = keeps
	most, _, err := kind.Holds.Of(side).Largest(p)
	return most, err
}

// sidesThrough lists both sides of every join that a level crosses, of one limb
// where it goes round several, or says why they cannot be told. What a zip or
// buttons join gives nothing.
func (w *letOuts) sidesThrough(girths []sewn.Girth, limbs int) (out []givingSide, why string) {
	for i := range girths {
		g := &girths[i]
		for _, end := range g.Ends {
			if !g.Closed && end.Join >= 0 && end.Beyond != "" {
				return nil, w.Join(w.seamOf(end.Join).Name, " joins ", end.Beyond, ", which does not go round with the others here")
			}
		}
		for _, id := range g.Crossed(w.g.Sewn) {
			j := &w.g.Sewn.Joins[id]
			if j.Kind != sewn.Sewn {
				continue
			}
			both := w.bothSides(id)
			for _, side := range both {
				if why := w.heldAlong(side.seam, side.edge); why != "" {
					return nil, why
				}
			}
			if other := w.likewise(g, id); other >= 0 {
				if rest := w.bothSides(other); w.givingLess(rest, both) {
					both = rest
				}
			}
			for _, side := range both {
				out = also(out, side)
			}
		}
	}
	return perLimb(out, limbs), ""
}

func perLimb(sides []givingSide, limbs int) []givingSide {
	for i := range sides {
		sides[i].times /= float64(max(limbs, 1))
	}
	return sides
}

// bothSides are the two sides of a join.
func (w *letOuts) bothSides(id sewn.JoinID) []givingSide {
	s, j := w.seamOf(id), &w.g.Sewn.Joins[id]
	a, b := w.edgeAt(j.A.Side), w.edgeAt(j.B.Side)
	first := 0
	if !s.usesOn(a, 0) || !s.usesOn(b, 1) {
		first = 1
	}
	out := []givingSide{
		{edge: a, seam: s, side: first, times: 1, held: w.liesIn(a)},
		{edge: b, seam: s, side: 1 - first, times: 1, held: w.liesIn(b)},
	}
	for i := range out {
		if j.Kind == sewn.Sewn {
			out[i].behind = s.behindEdge(out[i].side, out[i].edge)
		}
	}
	return out
}

// behindEdge lists what is caught in behind an edge of a side.
func (s *Seam) behindEdge(side int, e *PieceEdge) (out []*PieceEdge) {
	for i := range s.Plies {
		p := &s.Plies[i]
		if p.With != side || !slices.ContainsFunc(p.Along, func(v EdgeUse) bool { return v.Edge == e }) {
			continue
		}
		for _, u := range p.Edges {
			if u.Edge != e && (len(p.Edges) == 1 || u.Edge.Name == e.Name) {
				out = append(out, u.Edge)
			}
		}
	}
	return out
}

// likewise is a join that must give with one that a girth crosses, as both begin
// at the corner that it goes over; -1 where there is none.
func (w *letOuts) likewise(g *sewn.Girth, id sewn.JoinID) sewn.JoinID {
	for i := range g.Crosses {
		if g.Crosses[i].Join == id {
			return w.g.Sewn.Likewise(&g.Crosses[i])
		}
	}
	return -1
}

// givingLess reports whether sides give less than others, as they are sewn.
func (w *letOuts) givingLess(a, b []givingSide) bool {
	x, y := w.giving(a, false), w.giving(b, false)
	return x.Known() && y.Known() && x.MM() < y.MM()-1e-6
}

// leastStorey is what gives least where a level lies along a seam, as the waist
// of a dress does: the seams above it or those below it, for both become longer.
func (w *letOuts) leastStorey(l *Level, sides []givingSide) ([]givingSide, string) {
	for i := range l.cross {
		e := l.cross[i].edge
		if e == nil || e.seam == nil || e.seam.Record.Gather.Given() {
			continue
		}
		lines := [][]EdgeUse{e.seam.Sides[1-e.side].Edges}
		for k := range e.seam.Plies { // what is caught in at the line must give too
			lines = append(lines, e.seam.Plies[k].Edges)
		}
		for _, line := range lines {
			storey, why := w.storey(line)
			if why != "" {
				return nil, why
			}
			if storey = perLimb(storey, l.Limbs); w.givingLess(storey, sides) {
				sides = storey
			}
		}
	}
	return sides, ""
}

// storey lists the seams that come to the corners of edges, as those of a skirt do to
// its waist.
func (w *letOuts) storey(edges []EdgeUse) (out []givingSide, why string) {
	for _, u := range edges {
		held := w.g.Sewn.BesideEdge(u.Piece.Name, u.Edge.Name, func(id sewn.JoinID) bool { return w.seamOf(id).turns() })
		for _, h := range held {
			for k, side := range w.bothSides(h.Join) {
				j := &w.g.Sewn.Joins[h.Join]
				if (k == 0) != (j.A.Side == h.Side) {
					continue
				}
				if why := w.heldAlong(side.seam, side.edge); why != "" {
					return nil, why
				}
				out = also(out, side)
			}
		}
	}
	return out, ""
}

// also adds a side to a list, or counts it once more.
func also(list []givingSide, s givingSide) []givingSide {
	for i := range list {
		if o := &list[i]; o.edge == s.edge && o.seam == s.seam && o.side == s.side {
			o.times += s.times
			return list
		}
	}
	return append(list, s)
}

// seamOf is the seam that made a join of the garment put together.
func (w *index) seamOf(id sewn.JoinID) *Seam {
	return w.seamCalled(w.g.Sewn.Joins[id].Seam)
}

// edgeAt is the edge of which a side of a copy is one occurrence.
func (w *index) edgeAt(id sewn.SideID) *PieceEdge {
	return w.pieceOf(id).edgeCalled(w.g.Sewn.Sides[id].Edge)
}

func (s *Seam) usesOn(e *PieceEdge, side int) bool {
	for u := range s.edgesOn(side) {
		if u.Edge == e {
			return true
		}
	}
	return false
}

// A holder is what keeps its length at a level, so that nothing there can be
// let out.
type holder struct {
	name          string
	what, written string // what the record says of it, and where
	at            fault.Pos
}

// heldFast is what keeps its length at a level: a stay, a band that nothing
// crosses, a strip; nil where nothing does.
func (w *letOuts) heldFast(l *Level) *holder {
	for i := range w.notions {
		n := &w.notions[i]
		if words.Plain(n.Where.V) == words.Plain(l.Name) && n.Length.Given() && holdsItsLength(n) {
			return &holder{n.Name.V, "sewn in", n.Name.V, n.Name.At}
		}
	}
	for i := range l.cross {
		e := l.cross[i].edge
		if e == nil {
			if h := w.heldAtCorner(l, &l.cross[i]); h != nil {
				return h
			}
			continue
		}
		if n := w.notionOn(e); n != nil && holdsItsLength(n) {
			return &holder{n.Name.V, "sewn in", n.Name.V, n.Name.At}
		}
		if f := e.finish; f != nil && f.kind != nil && holdsFast(f.kind) && e.seam == nil {
			return &holder{f.Name, "finish", f.Record.Type.V, f.Record.Type.At}
		}
		if s := e.seam; s != nil && !s.Record.Gather.Given() {
			if band := bandOf(s, e); band != nil {
				return &holder{band.Name, "seam", s.Record.Type.V, s.Record.Type.At}
			}
		}
	}
	return nil
}

// holdsFast reports whether a strip of a finish keeps the length of its edge: a cord that
// is drawn through keeps none.
func holdsFast(t *seamType) bool {
	return slices.ContainsFunc(t.Strips, func(s trade.Strip) bool { return s.As != trade.Cord })
}

// heldAtCorner is a band that is sewn on at a corner a level goes over.
func (w *letOuts) heldAtCorner(l *Level, c *crossing) *holder {
	p := c.piece
	n := len(p.Edges)
	for k := range p.Edges {
		a, b := &p.Edges[k], &p.Edges[(k+1)%n]
		if a.seam == nil || b.seam == nil || a.Fold || b.Fold || math.Abs(p.Outline.Start(b.Index).Y-p.heightOf(l.Name, c.y.V.MM())) > atCorner {
			continue
		}
		for _, e := range [...]*PieceEdge{a, b} {
			if s := e.seam; !w.crossedAt(l, e) && !s.Record.Gather.Given() {
				if band := bandOf(s, e); band != nil {
					return &holder{band.Name, "seam", s.Record.Type.V, s.Record.Type.At}
				}
			}
		}
	}
	return nil
}

// crossedAt reports whether a level goes over the seam of an edge.
func (w *letOuts) crossedAt(l *Level, e *PieceEdge) bool {
	for i := range l.Girths {
		for _, id := range l.Girths[i].Crossed(w.g.Sewn) {
			if j := &w.g.Sewn.Joins[id]; w.edgeAt(j.A.Side) == e || w.edgeAt(j.B.Side) == e {
				return true
			}
		}
	}
	return false
}

// stays are words for what is sewn in to hold a length (terms of the trade).
var stays = []string{"stay", "petersham", "grosgrain", "elastic", "tape", "ribbon", "waistband", "band"}

func holdsItsLength(n *record.Notion) bool {
	return words.AnyOf(n.Is(), stays)
}

// bandOf is the piece on the other side of a seam where nothing crosses it, so
// that it cannot be let out: a band cut in one.
func bandOf(s *Seam, e *PieceEdge) *Piece {
	side := 1 - e.side
	if len(s.Sides[side].Edges) != 1 {
		return nil
	}
	u := s.Sides[side].Edges[0]
	p, at := u.Piece, u.Edge.index()
	n := len(p.Edges)
	for _, beside := range []*PieceEdge{&p.Edges[(at+1)%n], &p.Edges[(at+n-1)%n]} {
		if beside.seam != nil && !beside.Fold && !beside.seam.turns() {
			return nil
		}
	}
	return p
}
