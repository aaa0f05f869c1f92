package garment

import (
	"iter"
	"math"
	"slices"
	"strconv"

	"hembook/internal/figure"
	"hembook/internal/meant"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/words"
)

// A SeamPly is what is caught in a seam behind one of its sides: the inside of a
// yoke, a stand or a waistband, a lining.
type SeamPly struct {
	Edges  []EdgeUse
	With   int           // the side it lies behind, 0 or 1
	Along  []EdgeUse     // the edges of that side that it lies along
	Length figure.Figure // sewn length of one occurrence
	Beside figure.Figure // that of what it lies along
	Differ figure.Figure // longer − shorter
	met    Check         // it held against what it lies along
}

// insideWords are names of what lies behind another piece in a seam of three edges
// and more (common practice, no source).
var insideWords = []string{"inside", "inner", "under", "facing", "lining"}

// all lists every edge of a seam, what is caught in it too.
func (s *Seam) all() iter.Seq[EdgeUse] {
	return func(yield func(EdgeUse) bool) {
		for side := range s.Sides {
			for u := range s.edgesOn(side) {
				if !yield(u) {
					return
				}
			}
		}
	}
}

// joins reports whether a piece has an edge in a seam.
func (s *Seam) joins(p *Piece) bool {
	for u := range s.all() {
		if u.Piece == p {
			return true
		}
	}
	return false
}

// edgesOn lists the edges on a side of a seam, and those that lie behind it.
func (s *Seam) edgesOn(side int) iter.Seq[EdgeUse] {
	return func(yield func(EdgeUse) bool) {
		for _, u := range s.Sides[side].Edges {
			if !yield(u) {
				return
			}
		}
		for i := range s.Plies {
			if s.Plies[i].With != side {
				continue
			}
			for _, u := range s.Plies[i].Edges {
				if !yield(u) {
					return
				}
			}
		}
	}
}

// lay says which of the lines of a seam are its two sides, and behind which of them
// the others lie.
func (s *Seam) lay(lines [][]EdgeUse) {
	one, two := faces(lines)
	for k, line := range lines {
		switch k {
		case one:
			s.Sides[0].Edges = line
		case two:
			s.Sides[1].Edges = line
		}
	}
	for k, line := range lines {
		if k != one && k != two && len(line) > 0 {
			p := SeamPly{Edges: line}
			p.With = s.behindWhich(line)
			p.Along = s.Sides[p.With].Edges
			if twins := twinsOf(line, p.Along); len(twins) == len(line) {
				p.Along = twins
			}
			s.Plies = append(s.Plies, p)
		}
	}
}

// faces are the first two lines that lie behind no other.
func faces(lines [][]EdgeUse) (one, two int) {
	if len(lines) < 3 {
		return 0, 1
	}
	var list []int
	for k := range lines {
		if !liesBehindAny(lines, k) {
			list = append(list, k)
		}
	}
	for k := range lines {
		if len(list) < 2 && !slices.Contains(list, k) {
			list = append(list, k)
		}
	}
	return min(list[0], list[1]), max(list[0], list[1])
}

func liesBehindAny(lines [][]EdgeUse, k int) bool {
	for _, u := range lines[k] {
		if liesBehind(u.Piece.Name) || words.AnyOf(u.Piece.Name, insideWords) {
			return true
		}
		for o := range lines {
			if o != k && slices.ContainsFunc(lines[o], func(v EdgeUse) bool { return isPlyOf(u, v) }) {
				return true
			}
		}
	}
	return false
}

// isPlyOf reports whether an edge is the same edge of a piece that is like another: not
// of a back that is like a front, nor of a left that is like a right.
func isPlyOf(u, v EdgeUse) bool {
	a, b := u.Piece.Name, v.Piece.Name
	handed := words.AnyOf(a, []string{"left"}) && words.AnyOf(b, []string{"right"}) || words.AnyOf(a, []string{"right"}) && words.AnyOf(b, []string{"left"})
	return u.Piece.Record.Like.V == b && u.Edge.Name == v.Edge.Name && !facesApart(a, b) && !handed
}

// behindWhich is the side that a line lies behind: the one it is like, else the one
// whose edge is called so, else the one that is nearest in length.
func (s *Seam) behindWhich(line []EdgeUse) int {
	var score [2]int
	var apart [2]float64
	for side := range s.Sides {
		for _, u := range line {
			for _, v := range s.Sides[side].Edges {
				if alike(u.Piece, v.Piece) {
					score[side] += 2
				}
				if u.Edge.Name == v.Edge.Name {
					score[side]++
				}
			}
		}
		apart[side] = math.Abs(sewnOf(line) - sewnOf(s.Sides[side].Edges))
	}
	if score[1] > score[0] || score[1] == score[0] && apart[1] < apart[0]-1e-6 {
		return 1
	}
	return 0
}

// alike reports whether one piece is like another, or both like a third.
func alike(a, b *Piece) bool {
	x, y := a.coverOf(), b.coverOf()
	return x == b.Name || y == a.Name || x != "" && x == y
}

// sewnOf is the sewn length of edges, each as often as it is there.
func sewnOf(list []EdgeUse) float64 {
	sum := 0.0
	for _, u := range list {
		sum += u.Edge.sewn * float64(u.Times())
	}
	return sum
}

// twinsOf are the edges among a side's that those of a line are the inner ply of.
func twinsOf(line, side []EdgeUse) (out []EdgeUse) {
	for _, v := range side {
		if slices.ContainsFunc(line, func(u EdgeUse) bool { return alike(u.Piece, v.Piece) && u.Edge.Name == v.Edge.Name }) {
			out = append(out, v)
		}
	}
	return out
}

// pliesMeet holds each ply of a seam against what it lies along. times is how often
// the seam is sewn in one layer.
func (w *derivation) pliesMeet(s *Seam, base string, times int) {
	tol := s.tolerance(w.tolerance)
	for i := range s.Plies {
		p := &s.Plies[i]
		n := strconv.Itoa(i + 3)
		id := w.Join(base, ".side-", n)
		rule := say.Of("garment.sewn-length-times-times-it-is-cut")
		p.Length = w.Figure(id, say.Of("garment.length-of-the-edge"), refsOf(p.Edges), w.lineOf(p.Edges, times), mm, rule, figure.Derived)
		p.Beside = w.Figure(w.Join(id, ".beside"), say.Of("garment.length-of-the-edge-it-lies-along"), refsOf(p.Along), w.lineOf(p.Along, times), mm, rule, figure.Derived)
		w.Note(tol.Term(w.Pad, "tolerance", mm))
		t := w.Of(say.Of("garment.this-edge"), &p.Length).Minus(w.Of(say.Of("garment.edge-it-lies-along"), &p.Beside)).Size()
		p.Differ = w.Figure(w.Join(base, ".difference-", n), "difference", s.Name, t, mm, say.Of("garment.longer-shorter-it-should-be-at-most"), figure.Practice)
		d := p.Differ.Value
		p.met = w.metAs(&p.Differ, say.With("garment.to", p.Length.Of, p.Beside.Of), s, tol, d.Known() && d.Number <= tol.V+1e-6)
		if d.Known() && d.Number > tol.V+1e-6 {
			s.Meets = false
			p.met.Mend = w.tellPly(s, p)
		}
	}
}

// lineOf is the length of edges in one seam.
func (w *derivation) lineOf(list []EdgeUse, times int) figure.Term {
	terms := make([]figure.Term, len(list))
	for i, u := range list {
		terms[i] = w.sewn(u.Edge).By(float64(u.Times()))
	}
	return w.Sum(terms...).Part(float64(max(times, 1)))
}

func refsOf(list []EdgeUse) string {
	names := make([]string, len(list))
	for i, u := range list {
		names[i] = u.ref()
	}
	return meant.List(names, "and")
}

// tellPly tells of a ply that is longer or shorter than what it lies along, and what
// would mend it.
func (w *derivation) tellPly(s *Seam, p *SeamPly) (hint string) {
	a, b := p.Length.Value.Number, p.Beside.Value.Number
	hint = say.Of("garment.make-both-as-long")
	if s.rows || w.tellRows(s) {
		return s.met.Mend
	}
	how := "longer"
	if a < b {
		how = "shorter"
	}
	w.faults.Wrong(s.Record.At, hint, say.Of("garment.is-than-which-it-lies-behind", s.Name, refsOf(p.Edges), w.tape().About(math.Abs(a-b)), how, refsOf(p.Along), w.tape().Number(a), w.tape().Number(b)))
	return hint
}

// tolerance is by how much edges of a seam may differ, where the record has that usual.
func (s *Seam) tolerance(usual figure.Setting) figure.Setting {
	if r := s.Record.Tolerance; r.Given() {
		return figure.Setting{V: r.V.MM(), At: r.At, Source: figure.Recorded}
	}
	return usual
}

// PliesIn is how many of a piece are cut in a part for each of its count: 2 where it
// is there outside and inside.
func (p *Piece) PliesIn(part string) int {
	n := 0
	for _, of := range p.Of {
		if of == part {
			n++
		}
	}
	return n
}

// CutIn is how many of a piece are cut in a part.
func (p *Piece) CutIn(part string) int { return p.Count * p.PliesIn(part) }

// Doubled reports whether a piece is cut in two plies of one layer that are sewn as
// one: its free edges are sewn to each other and turned in.
func (p *Piece) Doubled() bool {
	for i, part := range p.Of {
		layer := LayerOf(part)
		if layer != "" && slices.ContainsFunc(p.Of[i+1:], func(o string) bool { return LayerOf(o) == layer }) {
			return true
		}
	}
	return false
}

// sets is in how many layers a piece is sewn by itself; at least one.
func (p *Piece) sets() int {
	var seen [4]string
	layers := seen[:0]
	for _, part := range p.Of {
		if layer := LayerOf(part); layer != "" && !slices.Contains(layers, layer) {
			layers = append(layers, layer)
		}
	}
	return max(len(layers), 1)
}

// each is how many of its plies are sewn by themselves before they are sewn to
// anything, as their darts are; at least one.
func (p *Piece) each() int {
	n := 0
	for _, part := range p.Of {
		if sewnApart(part) {
			n++
		}
	}
	return max(n, 1)
}

// turnedOut reports whether nothing is said of an edge of a doubled piece, so that its plies
// are turned in there.
func (e *PieceEdge) turnedOut() bool {
	return !e.Fold && e.seam == nil && e.finish == nil && (e.piece.Doubled() || e.piece.foldedOver())
}

// turnRows are the free edges of doubled pieces, sewn to each other to be turned.
func (w *stitching) turnRows() {
	for _, p := range w.g.Pieces {
		if !p.Doubled() && !p.foldedOver() {
			continue
		}
		var terms []figure.Term
		for k := range p.Edges {
			switch e := &p.Edges[k]; {
			case !e.turnedOut() || p.foldedOver() && e.isTop():
			case p.foldedOver(): // its end is folded onto itself
				terms = append(terms, w.sewn(e).By(float64(e.Times)).Part(2))
			default:
				terms = append(terms, w.sewn(e).By(float64(e.Times)))
			}
		}
		if len(terms) == 0 {
			continue
		}
		p.Turned = w.Figure(w.Join("piece.", p.form.anchor, ".turned"), say.Of("garment.length-of-edges-turned-in"), p.Name, w.Sum(terms...), measure.UnitM,
			say.Of("garment.sewn-length-times-times-of-the-edges"), figure.Derived)
		w.sewsRow(Row{Kind: TurnRow, Of: p.Name, Thread: w.threadName(w.threadOfPiece(p)), Stitch: lockstitch, Rows: 1, Length: &p.Turned, Lasting: true,
			what: w.Join("free edges of ", p.Name), do: say.Of("garment.round-the-free-edges-right-sides"), plies: []ply{{p, ""}}})
	}
}

// evenOf warns of edges of one seam whose allowances differ though it takes as much of
// each: laid edge to edge their sewing lines would not meet.
func (w *derivation) evenOf(s *Seam, side int) (told bool) {
	first := s.Sides[side].Edges[0].Edge
	for i := range s.Plies {
		p := &s.Plies[i]
		if p.With != side {
			continue
		}
		for _, u := range p.Edges {
			e := u.Edge
			along := first
			if k := slices.IndexFunc(p.Along, func(v EdgeUse) bool { return v.Edge.Name == e.Name }); k >= 0 {
				along = p.Along[k].Edge
			}
			if e.rule == slitRule || along.rule == slitRule || math.Abs(e.allow-along.allow) <= pliesUneven || min(e.allow, along.allow)-s.gives[side] < -1e-6 {
				continue
			}
			w.faults.LookAgain(s.Record.At, say.Of("garment.give-both-as-much-or-pin-line"),
				say.Of("garment.has-of-allowance", s.Name, along.ref, w.tape().Exact(along.allow), e.ref, w.tape().Exact(e.allow)))
			told = true
		}
	}
	return told
}

// linesOf are the lines of edges that a seam of the record names; ok is false where one
// of them is not there.
func (w *derivation) linesOf(r *record.Seam) (lines [][]EdgeUse, ok bool) {
	ok = len(r.Join) >= 2
	for _, side := range r.Join {
		var line []EdgeUse
		for _, ref := range side {
			list, found := w.usesOf(ref)
			ok = ok && found
			line = append(line, list...)
		}
		ok = ok && len(line) > 0
		lines = append(lines, line)
	}
	return lines, ok
}
