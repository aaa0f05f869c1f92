package garment

import (
	"math"
	"strconv"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/sewn"
	"hembook/internal/shape"
	"hembook/internal/words"
)

// count says how many of a piece are cut, and how: as the record says, or else as
// a maker would. Of two for two limbs one is for the left and one for the right,
// though both be of one form.
func (w *derivation) count(p *Piece) {
	f := &p.form
	c := f.cut.V
	if !f.cut.Given() {
		c, p.lopsided = p.usualCut()
	}
	p.Count, p.OnFold = max(c.N, 1), c.OnFold
	p.Pairs = c.N > 0 && c.N%2 == 0 && !c.Alike && !c.OnFold
	p.Mirrored = p.Pairs && f.why == "" && (p.round() == sewn.RoundEach || !f.ownImage())
	if r := p.Record.Ring; r != nil && r.Panels.Given() && f.cut.Given() && c.N != r.Panels.V && c.N != 1 {
		w.faults.Wrong(f.cut.At, say.Of("garment.leave-cut-out-the-panels-are-counted"), say.Of("garment.cut-but-the-skirt-has-panels", p.Name, times(c.N), r.Panels.V)).Without(f.cut.At)
	}
	if f.skirt == nil {
		if f.panels > 0 && !p.Record.Cut.Given() {
			p.Count = f.panels
		}
		return
	}
	p.Count = f.skirt.Panels
}

// usualCut is how a piece is cut of which nothing is said: on its fold, once where
// it is its own mirror image or by its name one of two halves, and else as a left
// and a right, with what lies on one side alone. That a part of an edge is sewn by
// itself makes no two of it: a skirt has its zip in one side.
func (p *Piece) usualCut() (c record.Cut, lopsided string) {
	f := &p.form
	_, half := halfOf(p.Name)
	switch {
	case f.why != "":
	case f.outline.FoldEdge() >= 0:
		return record.Cut{N: 1, OnFold: true}, ""
	case f.skirt == nil && f.panels == 0 && half == "":
		if lopsided = f.uneven; f.parts == nil {
			lopsided = f.lopsided()
		}
		if lopsided != "" {
			return record.Cut{N: 2}, lopsided
		}
	}
	return record.Cut{N: 1}, ""
}

// marksWithin is how nearly marks must lie on each other's mirror images, mm, for
// a piece to be its own (common practice, no source).
const marksWithin = 0.5

// ownImage reports whether a piece is its own mirror image: its outline, and all
// that is marked on it. An edge of the front is not the image of one of the back.
func (f *form) ownImage() bool { return f.lopsided() == "" }

// lopsided is what keeps a piece from being its own mirror image: of all ways to turn it
// over what is left in the best; "" where nothing does.
func (f *form) lopsided() string {
	why, most := "outline", 0
	for _, image := range f.outline.OwnImages() {
		if n, marks := f.marksMirror(&image); marks == "" {
			return ""
		} else if n > most {
			why, most = marks, n
		}
	}
	return why
}

func (f *form) namesMirror(image *shape.OwnImage) bool {
	for i, k := range image.Onto {
		if facesApart(f.notes[i].name, f.notes[k].name) {
			return false
		}
	}
	return true
}

// facesApart reports whether one name says front and the other back.
func facesApart(a, b string) bool {
	return words.AnyOf(a, []string{"front"}) && words.AnyOf(b, []string{"back"}) ||
		words.AnyOf(a, []string{"back"}) && words.AnyOf(b, []string{"front"})
}

// An edgeMark is what lies on an edge of a piece, its place along it in the outline's
// own way.
type edgeMark struct {
	first      int // the edge's first part
	at         float64
	name       string
	wide, deep float64
}

// marksMirror says which marks of a piece are no image of each other, and how many
// kinds were looked at until then; "" where all are.
func (f *form) marksMirror(image *shape.OwnImage) (n int, not string) {
	switch {
	case !f.namesMirror(image):
		return 1, "edges"
	case !f.allMirror(image, f.notchMarks()):
		return 2, "notches"
	case !f.allMirror(image, f.dartMarks()):
		return 3, "darts"
	case !f.allMirror(image, f.pleatMarks()):
		return 4, "pleats"
	case !f.linesMirror(image):
		return 5, "lines"
	}
	return 6, ""
}

// allMirror reports whether the image of every mark is a mark.
func (f *form) allMirror(image *shape.OwnImage, list []edgeMark) bool {
	near := func(a, b float64) bool { return math.Abs(a-b) <= marksWithin }
	for _, m := range list {
		_, count := f.find(f.notes[m.first].name)
		long := 0.0
		for k := range count {
			long += f.outline.EdgeLength((m.first + k) % len(f.outline.Edges))
		}
		onto := image.Onto[(m.first+count-1)%len(f.notes)] // where the last part lies the other begins
		found := false
		for _, o := range list {
			found = found || o.first == onto && near(o.at, long-m.at) && near(o.wide, m.wide) && near(o.deep, m.deep) && !facesApart(o.name, m.name)
		}
		if !found {
			return false
		}
	}
	return true
}

func (f *form) markOn(edge string, along float64) (edgeMark, bool) {
	first, count := f.find(edge)
	if count == 0 {
		return edgeMark{}, false
	}
	return edgeMark{first: first, at: f.inner(f.outline, f.notes[first].name, along)}, true
}

func (f *form) notchMarks() (out []edgeMark) {
	for i := range f.notches {
		n := &f.notches[i]
		if m, ok := f.markOn(n.Edge.V, n.Along.V.MM()); ok && n.Along.Given() {
			m.name = n.Name.V
			out = append(out, m)
		}
	}
	return out
}

func (f *form) dartMarks() (out []edgeMark) {
	for i := range f.darts {
		d := &f.darts[i]
		if m, ok := f.markOn(d.Edge.V, d.Along.V.MM()); ok {
			m.wide, m.deep = d.Width.V.MM(), d.Length.V.MM()
			out = append(out, m)
		}
	}
	return out
}

// pleatMarks are the places of folds and the folds themselves, on their edges.
func (f *form) pleatMarks() (out []edgeMark) {
	for i := range f.folds {
		q := &f.folds[i]
		first, count := f.find(q.Edge)
		if count == 0 {
			continue
		}
		for k, line := range [...]shape.Line{q.Lines.Place, q.Lines.Outer} {
			at := q.Lines.Mouth[0]
			if start, _, ok := f.outline.PointOn(q.Edge, at); !ok || start.Apart(line[0]) > marksWithin {
				at = q.Lines.Mouth[1]
			}
			out = append(out, edgeMark{first: first, at: at, wide: float64(k), deep: q.Depth})
		}
	}
	return out
}

// UnsaidCuts says in one line of which pieces a left and a right are cut without
// the record saying so, and why; "" where of none.
func (g *Garment) UnsaidCuts() string {
	var reasons []string
	names := map[string][]string{}
	for _, p := range g.Pieces {
		if p.lopsided == "" {
			continue
		}
		if names[p.lopsided] == nil {
			reasons = append(reasons, p.lopsided)
		}
		names[p.lopsided] = append(names[p.lopsided], p.Name)
	}
	for i, why := range reasons {
		reasons[i] = unsaidCut(names[why], why)
	}
	return strings.Join(reasons, "; ")
}

// unsaidCut says of pieces what is not symmetrical, so that a left and a right are cut.
func unsaidCut(names []string, why string) string {
	its, what, are, each := say.Of("garment.its"), why, say.Of("garment.are"), ""
	if len(names) > 1 {
		its, each = say.Of("garment.their"), say.Of("garment.of-each")
	}
	switch {
	case why == "edges":
		what, are = say.Of("garment.edges-are-called-front-and-back"), ""
	case why == "outline" && len(names) > 1:
		what = "outlines"
	case why == "outline":
		are = say.Of("garment.is")
	}
	if are != "" {
		are += say.Of("garment.not-symmetrical")
	}
	return say.Of("garment.2-a-left-and-a-right-not", meant.List(names, "and"), each, its, what, are)
}

// tooFew tells of a piece that is cut once and sewn to what is there twice, or by its
// record more often than what it is sewn to is there; how
// often it should be cut where that alone keeps a seam from meeting.
func (s *Seam) tooFew() (p *Piece, n int) {
	for _, often := range [...]bool{false, true} {
		for i := range s.Sides {
			if p, n := miscounted(s.Sides[i].Edges, s.Sides[1-i].Edges, often); p != nil {
				return p, n
			}
		}
	}
	return nil, 0
}

// miscounted is tooFew for one side of a seam: of a piece that is cut once, or of one
// that is cut too often.
func miscounted(ours, theirs []EdgeUse, often bool) (p *Piece, n int) {
	if len(ours) == 0 || len(theirs) == 0 {
		return nil, 0
	}
	p, n = ours[0].Piece, theirs[0].Times()
	each := ours[0].Times()
	sum := [2]float64{}
	same := true
	for _, u := range ours {
		same = same && u.Piece == p && u.Times() == each
		sum[0] += u.Edge.sewn
	}
	for _, u := range theirs {
		same = same && u.Times() == n && u.Piece != p
		sum[1] += u.Edge.sewn
	}
	counts := each == 1 && n > 1
	if often {
		counts = n > 0 && each > n && each%n == 0 && each == p.Count && p.Record.Cut.Given()
	}
	if same && counts && math.Abs(sum[0]-sum[1]) <= max(40, 0.1*sum[1]) {
		return p, n
	}
	return nil, 0
}

// tooFewWords is the fault of a piece that is cut once and sewn into two.
func (s *Seam) tooFewWords(p *Piece, n int) (message, hint string) {
	other := 0
	if s.Sides[0].Edges[0].Piece == p {
		other = 1
	}
	names := make([]string, len(s.Sides[other].Edges))
	for i, u := range s.Sides[other].Edges {
		names[i] = u.ref()
	}
	there := say.Of("garment.which-is-there")
	if len(names) > 1 {
		there = say.Of("garment.which-are-there")
	}
	return say.Of("garment.is-cut-and-sewn-into", s.Name, p.Name, times(p.Count), meant.List(names, "and"), there, times(n)),
		say.Of("garment.write-cut-for", strconv.Itoa(n), p.Name)
}

// cutAt is where a record says how often a piece is cut, or else the piece.
func (p *Piece) cutAt() fault.Pos {
	if p.Record.Cut.Given() {
		return p.Record.Cut.At
	}
	return p.Record.At
}
