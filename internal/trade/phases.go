package trade

import (
	"math"
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/say"
)

// A Phase is one picture of how a seam or finish grows, from as it is cut to as it is
// pressed. All of them follow from the rules of the section and of its passes.
type Phase struct {
	Section
	Pass  int  // whose row is sewn in it, from 1; 0 where it is as cut
	Then  bool // what is done behind that pass is done too
	Whole bool // nothing is missing: it is the section itself
}

// Phases are the pictures in the order of the work. A pass that leaves nothing else to
// be seen than the next has none of its own; the last phase is the whole section.
//
// It returns the error of a formula that comes to nothing with these measures.
func (t SeamType) Phases(given Params) ([]Phase, error) {
	whole, err := t.Section(given)
	if err != nil {
		return nil, err
	}
	s := unfolder{t: &t, whole: whole}
	if s.p, err = t.Values(given); err != nil {
		return nil, err
	}
	if s.d, err = t.drawer(s.p); err != nil {
		return nil, err
	}
	out := s.asCut()
	for i := range t.Passes {
		out = append(out, s.after(i)...)
	}
	if s.d.err != nil {
		return nil, fault.Wrapping(s.d.err, say.Of("trade.passes-of", t.Title, s.d.err))
	}
	return append(out, Phase{Section: whole, Pass: len(t.Passes), Then: true, Whole: true}), nil
}

// A unfolder draws the phases of one type with its measures.
type unfolder struct {
	t     *SeamType
	whole Section
	p     Params
	d     drawer
}

// after is how it lies while a pass is sewn, and when what follows it is done. What the
// next phase shows as well is left to it.
func (s *unfolder) after(i int) []Phase {
	var out []Phase
	sewn, own := s.lying(i)
	if own {
		out = append(out, Phase{Section: sewn, Pass: i + 1})
	}
	if next := i + 1; next < len(s.t.Passes) && !s.t.flatPass(next) && (!own || s.t.Passes[i].Then != "") && !s.unseen(i) {
		out = append(out, Phase{Section: s.then(next), Pass: next, Then: true})
	}
	return out
}

// unseen reports whether what a pass does could only be drawn as it lies later: on cloth
// that is not folded yet.
func (s *unfolder) unseen(i int) bool {
	_, own := s.lying(i)
	return !own && s.t.flatPass(i)
}

// lying is how the plies lie under the foot in a pass, where that is not as they lie in
// the end.
func (s *unfolder) lying(i int) (Section, bool) {
	switch {
	case s.t.flatPass(i) && !s.staysFlat():
		return s.flat(i)
	case s.t.foldedPass(i):
		return s.closed(i + 1)
	}
	return Section{}, false
}

// staysFlat reports whether nothing is ever folded: an edge that is overlocked lies as it
// was cut.
func (s *unfolder) staysFlat() bool {
	return s.t.Kind == Finish && !slices.ContainsFunc(s.t.Drawing.Layers, func(l LayerRule) bool { return l.Of == ClothA && len(l.Path) > 2 })
}

// foldedPass reports whether a pass is sewn on what is folded, right sides together again.
func (t *SeamType) foldedPass(i int) bool {
	return t.Passes[i].Together == RightTogether && strings.Contains(t.Passes[i].From, "fold")
}

// then is how it lies when so many passes, and what follows the last of them, are done;
// there is another after it.
func (s *unfolder) then(pass int) Section {
	if s.t.foldedPass(pass) {
		if closed, ok := s.closed(pass); ok {
			return closed
		}
	}
	return s.soFar(pass)
}

// soFar is the section with the rows up to a pass, and without the strips that later
// rows bring.
func (s *unfolder) soFar(pass int) Section {
	out := Section{Ply: s.whole.Ply}
	for _, l := range s.whole.Layers {
		if first := s.t.firstThrough(l.Role); first <= pass || l.Role == ClothA || l.Role == ClothB {
			l.Name = ""
			out.Layers = append(out.Layers, l)
		}
	}
	for _, st := range s.whole.Stitches {
		if st.Row <= pass {
			out.Stitches = append(out.Stitches, st)
		}
	}
	out.measure()
	return out
}

// firstThrough is the first pass whose rows pass a ply, from 1; 0 where none does.
func (t *SeamType) firstThrough(r Role) int {
	return 1 + slices.IndexFunc(t.Passes, func(p Pass) bool { return p.Through.passes(r) })
}

// flatFrom are what a row is measured from while nothing is folded.
var flatFrom = []string{"cut edge", "cut edges", "cut edge of side a", "cut edge of each side", "first row", "trimmed edges", "overlocked edges"}

// flatPass reports whether a pass is sewn before anything is folded or pressed: its plies
// lie straight on each other, each once.
func (t *SeamType) flatPass(i int) bool {
	p := &t.Passes[i]
	if !slices.Contains(flatFrom, p.From) || i >= len(t.Passes)-len(t.beside) {
		return false
	}
	for k := range i {
		if before := &t.Passes[k]; before.Pressed != pressedUntold || before.Under.A.Given() || before.Under.B.Given() {
			return false
		}
	}
	plies := 0
	for _, row := range p.Through {
		seen := map[Role]bool{}
		for _, r := range row {
			if seen[r] || !slices.Contains(flatRoles, r) {
				return false
			}
			seen[r] = true
		}
		plies = max(plies, len(row))
	}
	return plies == 1 || plies > 1 && p.Together != LaidFlat
}

// flatRoles are the plies that lie straight while they are sewn on.
var flatRoles = []Role{ClothA, ClothB, ClothC, Tape, Facing, Lining}

// asCut is the edge of a finish before it is folded, with the lines it is folded on.
func (s *unfolder) asCut() []Phase {
	if s.t.Kind != Finish || len(s.t.Folds) == 0 {
		return nil
	}
	gives := s.d.value(s.t.Gives.A)
	out := Section{Ply: s.whole.Ply}
	out.Layers = append(out.Layers, s.straight(ClothA, gives, 0, faceLeft))
	at := 0.0
	for i, e := range s.t.Folds {
		out.Folds = append(out.Folds, at)
		next := at + s.d.value(e)
		if i == len(s.t.Folds)-1 {
			next = gives
		}
		out.Dims = append(out.Dims, s.distance(at, next, 0))
		at = next
	}
	out.measure()
	return []Phase{{Section: out}}
}

// straight is a ply of the garment that comes from the left and ends so far beyond the
// finished line.
func (s *unfolder) straight(r Role, beyond, y float64, face Face) Layer {
	l := Layer{Role: s.t.roleOn(r), Start: GoesOn, End: RawEdge, Face: face,
		Path: []Pt{{-s.d.p[runName], y}, {beyond, y}}}
	for _, rule := range s.t.Drawing.Layers {
		if rule.Of == r {
			rule.Of = l.Role
			l.Name = s.t.layerName(rule)
			break
		}
	}
	return l
}

// distance is a measured distance below everything.
func (s *unfolder) distance(from, to, y float64) Dim {
	at := y - 1.7*s.whole.Ply
	return Dim{From: Pt{from, at}, To: Pt{to, at}, Value: math.Abs(to - from)}
}

// flat draws a pass whose plies lie straight on each other.
func (s *unfolder) flat(i int) (Section, bool) {
	p, ply := &s.t.Passes[i], s.whole.Ply
	out := Section{Ply: ply}
	order := s.flatOrder(i)
	if len(order) == 0 {
		return out, false
	}
	edge := map[Role]float64{} // how far it goes beyond the finished line
	apart := ply
	if p.Through.single() { // edges neatened each by itself
		apart = 2.6 * ply
	}
	for n, r := range order {
		l, cut, ok := s.flatLayer(r, i, float64(n)*apart)
		if !ok {
			return out, false
		}
		edge[r] = cut
		if left := s.left(r, i); left < cut-1e-6 && l.End == RawEdge {
			end := &l.Path[len(l.Path)-1]
			out.Trimmed = append(out.Trimmed, [2]Pt{{left, end.Y}, *end})
			end.X = left
		}
		out.Layers = append(out.Layers, l)
	}
	for k := range i + 1 { // rows sewn before are in it too
		if !s.t.flatPass(k) && s.t.Passes[k].Through.single() {
			continue // what neatened the other edge of a strip is far from here
		}
		x, ok := s.rowAt(k, edge)
		if !ok || !s.t.flatPass(k) {
			return out, false
		}
		s.sewFlat(&out, k, x, apart, order)
	}
	if p.At.Given() {
		x, _ := s.rowAt(i, edge)
		from := x + s.d.value(p.At)
		if p.From == "first row" {
			from = 2*x - from
		}
		out.Dims = append(out.Dims, s.distance(x, from, 0))
	}
	slices.SortStableFunc(out.Layers, func(a, b Layer) int { return after(a, ClothC) - after(b, ClothC) }) // what lies behind is named below
	out.measure()
	return out, true
}

func after(l Layer, r Role) int {
	if l.Role == r {
		return 1
	}
	return 0
}

// single reports whether no row holds plies together.
func (t Through) single() bool {
	return !slices.ContainsFunc(t, func(row []Role) bool { return len(row) != 1 })
}

// flatOrder are the plies of a pass from below.
func (s *unfolder) flatOrder(i int) []Role {
	var out []Role
	for k := range i + 1 {
		for _, row := range s.t.Passes[k].Through {
			for _, r := range row {
				if !slices.Contains(out, r) {
					out = append(out, r)
				}
			}
		}
	}
	for _, r := range []Role{ClothA, ClothC} { // whatever is sewn to the first side lies on it, and side c behind it
		if at := slices.Index(out, r); at > 0 {
			out = slices.Insert(slices.Delete(out, at, at+1), 0, r)
		}
	}
	return out
}

// flatLayer is a ply as it lies in a pass, and how far it was cut beyond the finished
// line. A strip lies edge to edge with what it is sewn to.
func (s *unfolder) flatLayer(r Role, i int, y float64) (l Layer, cut float64, ok bool) {
	face := faceRight // down, onto what lies below it
	if (r == ClothA || r == ClothC) != (s.t.Passes[i].Together == WrongTogether) {
		face = faceLeft
	}
	if side := slices.Index(sideRoles[:], r); side >= 0 {
		cut = s.d.value(s.t.Gives.Of(side))
		return s.straight(r, cut, y, face), cut, true
	}
	cut = s.d.value(s.t.Gives.A)
	for _, rule := range s.t.Drawing.Layers {
		if rule.Of != r {
			continue
		}
		long, err := s.t.flatLength(rule, s.p, s.d.p[runName])
		if err != nil || long <= 0 {
			return l, 0, false
		}
		l = Layer{Role: r, Name: s.t.layerName(rule), Start: RawEdge, End: RawEdge, Face: face, Path: []Pt{{cut - long, y}, {cut, y}}}
		if rule.Start == GoesOn || rule.Start == "" || rule.End == GoesOn {
			l.Start = GoesOn
		}
		return l, cut, true
	}
	return l, 0, false
}

// flatLength is how long a layer is drawn, with no thickness.
func (t *SeamType) flatLength(l LayerRule, p Params, run float64) (sum float64, err error) {
	d := drawer{p: p.and(0, run)}
	d.aside = d.p
	path := d.path(l.Path)
	for i := 1; i < len(path); i++ {
		sum += distance(path[i-1], path[i])
	}
	return sum, d.err
}

// left is how much of a side is left beyond the finished line when a pass and what
// follows it are done.
func (s *unfolder) left(r Role, i int) float64 {
	side := slices.Index(sideRoles[:], r)
	if side < 0 {
		return math.Inf(1)
	}
	left := s.d.value(s.t.Gives.Of(side))
	p := s.d.p.and(s.d.p[plyName], s.d.p[runName])
	p[CutName] = left
	for k := range i + 1 {
		if e := s.t.Passes[k].Leaves.Of(side); e.Given() {
			left = s.d.with(e, p)
		}
	}
	return left
}

// rowAt is where the row of a pass lies beyond the finished line.
func (s *unfolder) rowAt(i int, edge map[Role]float64) (float64, bool) {
	p := &s.t.Passes[i]
	cut, ok := edge[ClothA]
	if !ok {
		return 0, false
	}
	if !p.At.Given() {
		return cut - 0.4*s.d.aside[plyName], true
	}
	switch at := s.d.value(p.At); {
	case p.From == "first row":
		first, ok := s.rowAt(0, edge)
		return first + at, ok
	case p.From == "trimmed edges":
		return s.left(ClothA, i) - at, true
	default:
		return cut - at, true
	}
}

// sewFlat draws the rows of a pass, each through its own plies alone.
func (s *unfolder) sewFlat(out *Section, i int, x, apart float64, order []Role) {
	ply := s.whole.Ply
	for _, row := range s.t.Passes[i].Through {
		low, high := math.Inf(1), math.Inf(-1)
		for _, r := range row {
			at := float64(slices.Index(order, r)) * apart
			low, high = min(low, at), max(high, at)
		}
		out.Stitches = append(out.Stitches, SectionStitch{From: Pt{x, high + 0.6*ply}, To: Pt{x, low - 0.6*ply}, Row: i + 1, Temporary: s.t.Passes[i].Temporary})
	}
}

// closed is the section with the garment of both sides laid on each other to the right of
// the finished line and all allowances to its left, as it is under the foot before it is
// pressed to one side; false where it does not bend so.
func (s *unfolder) closed(pass int) (Section, bool) {
	out := Section{Ply: s.whole.Ply}
	low, high := math.Inf(1), math.Inf(-1)
	var bends []float64
	rules := s.t.Drawing.Layers
	for _, rule := range rules {
		pts, ok := s.bare(rule)
		if !ok || len(pts) < 4 || pts[1].X != pts[2].X || pts[3].X >= pts[2].X {
			return out, false
		}
		bends = append(bends, pts[2].Y)
		low, high = min(low, pts[2].Y), max(high, pts[2].Y)
	}
	run, mid := s.d.p[runName], (low+high)/2
	for i, rule := range rules {
		pts, _ := s.bare(rule)
		y := mid + s.whole.Ply/2*math.Copysign(1, bends[i]-mid)
		way := append([]Pt{{run, y}, {0.25 * run, y}, {0, bends[i]}}, pts[3:]...)
		l := Layer{Role: s.t.roleOn(rule.Of), Start: GoesOn, End: s.whole.Layers[i].End, Face: s.whole.Layers[i].Face, Path: s.d.rounded(way)}
		out.Layers = append(out.Layers, l)
	}
	for _, st := range s.whole.Stitches {
		if st.Row > pass {
			continue
		}
		if st.From.Y == st.To.Y && st.From.X*st.To.X < 0 { // it holds at the finished line
			st.From, st.To = Pt{0, high + 0.7*s.whole.Ply}, Pt{0, low - 0.7*s.whole.Ply}
		}
		out.Stitches = append(out.Stitches, st)
	}
	out.measure()
	return out, true
}

// bare are the corners of a layer, without arcs.
func (s *unfolder) bare(l LayerRule) ([]Pt, bool) {
	out := make([]Pt, len(l.Path))
	for i, r := range l.Path {
		if r.Arc != nil {
			return nil, false
		}
		out[i] = s.d.point(r)
	}
	return out, true
}
