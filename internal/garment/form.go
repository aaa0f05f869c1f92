package garment

import (
	"math"
	"slices"

	"hembook/internal/fault"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/sewn"
	"hembook/internal/shape"
	"hembook/internal/words"
)

// A form is what the record says of a piece's form, with all that it takes
// over from the piece it is like.
type form struct {
	state      formState
	outline    shape.Outline
	notes      []edgeNote // one for each edge of the outline
	reversed   bool       // drawn clockwise, turned round here
	unfitted   *form      // as it was before the rounds of fitting, for its mirror image
	turned     bool       // the mirror image of what the record draws
	pair       bool       // one of a pair that the record draws once
	why        string     // why there is no outline; empty where there is
	cut        record.Val[record.Cut]
	of         record.List[record.Text]
	grain      record.Text
	allowance  record.Length
	darts      []record.DartSpec
	pleats     []record.PleatSpec
	gathers    []record.GatherSpec
	folds      []PleatFold // of the pleats, on the outline laid open
	notches    []record.NotchSpec
	lines      []record.LineSpec
	laid       []laidLine // the lines where they lie
	levels     record.Dict[record.Length]
	corners    map[string][]string // of levels: the edges that begin at the corners they belonged to as drawn
	ring       *record.RingSpec
	skirt      *shape.RingSkirt
	godet      *record.GodetSpec
	band       *record.BandSpec
	along      string // the piece along which it is cut, or what it is like, as a border; else ""
	slit       bool   // a ring of one whole turn in one panel
	anchor     string
	fold       int // index of the edge on the fold, −1 where none
	levelNames *words.Names
	uneven     string              // of one of whose edges parts are named: what was lopsided before
	kept       *keptOutline        // what is remembered of the outline
	panels     int                 // of a ring, also where it was altered
	altered    []Alteration        // what was done to the outline since it was drawn, in order
	gone       []Alteration        // of these, those that took a dart away
	shared     *form               // the form that pieces like this one take over, where it is not this
	parts      map[string]string   // what a part of an edge, as it is named, is called
	divided    map[string]*divided // edges of which parts are named, by any name they had
}

type formState uint8

const (
	fresh formState = iota
	open
	done
)

// An edgeNote is what the record says of one edge.
type edgeNote struct {
	name, before string // its name, and the one it had before it got a better one
	at, to       fault.Pos
	level        record.Text
	called       bool // it lies at its level because it is called like it
	noLevel      bool // it is said to lie at none, whatever it is called
	allowance    record.Length
	corner       record.Text
	altered      []Alteration // what moved it, in order
	moved        bool         // it ends elsewhere than its line of the record says: pleats were let in, or what it is a ply of was altered
	whole        string       // the edge it is a stretch of, where parts of one are named; else ""
	part         fault.Pos    // where it is named, if it is such a part
}

// pieces draws every piece of the record.
func (w *derivation) pieces() {
	n := len(w.b.Pieces)
	w.named = make(map[string]*Piece, n)
	w.g.Pieces = make([]*Piece, n)
	room := make([]Piece, n)
	anchors := words.NamesFor(n)
	for i := range w.b.Pieces {
		p := &room[i]
		p.Record, p.Name = &w.b.Pieces[i], w.b.Pieces[i].Name.V
		p.form.anchor = anchors.Unique(p.Name)
		p.Anchor = w.Join("piece-", p.form.anchor)
		w.g.Pieces[i] = p
		if w.named[p.Name] == nil {
			w.named[p.Name] = p
		}
	}
	for left := w.g.Pieces; len(left) > 0; {
		var ready []*Piece
		ready, left = w.drawable(left)
		w.drawAll(ready)
	}
}

// drawAll draws pieces, with all that lies on them.
func (w *derivation) drawAll(list []*Piece) {
	for _, p := range list {
		w.draw(p)
		w.layLines(p, true)
	}
	w.trim.setOut(list)
	(&pleater{w.index, w.t.usual.tolerance.V}).letInPleats(list)
	w.splitParts(list)
	for _, p := range list {
		w.settle(p)
	}
}

// draw gives a piece its outline.
func (w *derivation) draw(p *Piece) {
	f := &p.form
	if f.state != fresh {
		return
	}
	f.state = open
	r := p.Record
	switch {
	case formCount(r) != 1:
		f.why = say.Of("garment.the-record-gives-it-no-single-form")
	case r.Outline != nil:
		f.drawn(r.Outline)
	case r.Border != nil:
		w.drawLike(p)
		w.cutBorder(p)
		f.along = r.Like.V
	case r.Like.Given():
		w.drawLike(p)
	case r.Ring != nil:
		w.drawRing(p)
	case r.Rectangle != nil && !r.Rectangle.Across.Given(): // its own fault says why
		f.why = say.Of("garment.its-sides-could-not-be-read")
	case r.Rectangle != nil:
		o, err := shape.Rectangle(r.Rectangle.Across.V.MM(), r.Rectangle.Along.V.MM())
		w.regular(p, r.Rectangle.At, o, err)
	case r.Trapezoid != nil && !(r.Trapezoid.Bottom.Given() && r.Trapezoid.Top.Given() && r.Trapezoid.Height.Given()):
		f.why = say.Of("garment.its-sides-could-not-be-read")
	case r.Trapezoid != nil:
		t := r.Trapezoid
		o, err := shape.Trapezoid(t.Bottom.V.MM(), t.Top.V.MM(), t.Height.V.MM())
		w.regular(p, t.At, o, err)
	case r.Godet != nil:
		w.drawGodet(p)
	case r.Band != nil:
		w.drawBand(p)
	case r.Block != nil:
		w.drawBlock(p)
	}
	w.altering.ownDarts(p)
	f.pair = r.Pair != ""
	f.takeOwn(r)
	w.placeMarks(p)
	w.overrides(p)
	f.nameLevels()
	w.levelsOfSide(p)
	if len(f.outline.Edges) > 0 && f.outline.Area() < 0 {
		f.outline = f.outline.Reversed()
		turned := make([]edgeNote, len(f.notes))
		for i, n := range f.notes {
			turned[len(turned)-1-i] = n
		}
		f.notes, f.reversed = turned, !f.reversed
	}
	if w.turnsOver(r, f) {
		f.mirror()
	}
	f.bindLevels()
	if w.hasImage(p) {
		drawn := *f
		drawn.outline.Edges, drawn.notes = slices.Clone(f.outline.Edges), slices.Clone(f.notes)
		f.unfitted = &drawn
	}
	w.altering.refit(p)
	f.state = done
}

// bindLevels notes which levels belong to corners of the outline as it is drawn,
// so that they move with them.
func (f *form) bindLevels() {
	if f.why != "" || len(f.levels) == 0 {
		return
	}
	corners := map[string][]string{}
	for i := range f.levels {
		l := &f.levels[i]
		if bound, ok := f.corners[l.Name.V]; ok { // of the piece it is like
			corners[l.Name.V] = bound
		} else if l.V.Given() && f.skirt == nil {
			if list := sewn.Corners(f.outline, l.V.V.MM()); len(list) > 0 {
				corners[l.Name.V] = list
			}
		}
	}
	f.corners = corners
}

func formCount(r *record.Piece) int {
	n := 0
	for _, given := range [...]bool{r.Outline != nil, r.Like.Given() || r.Border != nil, r.Ring != nil, r.Rectangle != nil, r.Trapezoid != nil, r.Godet != nil, r.Band != nil, r.Block != nil} {
		if given {
			n++
		}
	}
	return n
}

// drawn reads an outline as it was drawn.
func (f *form) drawn(spec *record.OutlineSpec) {
	if !spec.From.Given() || len(spec.Edges) == 0 {
		f.why = say.Of("garment.its-outline-could-not-be-read")
		return
	}
	o := shape.Outline{From: point(spec.From.V), Edges: make([]shape.Edge, len(spec.Edges))}
	f.notes = make([]edgeNote, len(spec.Edges))
	for i := range spec.Edges {
		e := &spec.Edges[i]
		if !e.To.Given() {
			f.why, f.notes = say.Of("garment.its-outline-could-not-be-read"), nil
			return
		}
		o.Edges[i] = shape.Edge{Name: e.Name.V, To: point(e.To.V), Fold: e.Fold.V}
		if e.Curve.Given() {
			o.Edges[i].Curved, o.Edges[i].C1, o.Edges[i].C2 = true, point(e.Curve.V[0]), point(e.Curve.V[1])
		}
		f.notes[i] = edgeNote{name: e.Name.V, at: e.At, to: e.To.At, level: e.Level, allowance: e.Allowance, corner: e.Corner}
	}
	f.outline = o
}

func point(p record.XY) shape.Point { return shape.Point{X: p.X, Y: p.Y} }

// drawLike copies another piece's form.
func (w *derivation) drawLike(p *Piece) {
	f, other := &p.form, w.named[p.Record.Like.V]
	if other == nil || other.form.state == open {
		f.why = say.Of("garment.it-is-like-a-piece-that-has")
		return
	}
	w.draw(other)
	from := &other.form
	switch {
	case mirrors(p.Record):
		from = other.form.unfitted
	case from.shared != nil:
		from = from.shared
	}
	anchor := f.anchor
	*f = *from
	f.state, f.anchor = open, anchor
	f.outline.Edges = append([]shape.Edge(nil), from.outline.Edges...)
	f.notes = append([]edgeNote(nil), from.notes...)
	f.shared, f.unfitted = nil, nil
	if f.why != "" {
		f.why = say.Of("garment.it-is-like-a-piece-that-has")
	}
	w.withoutPlaces(p, other)
	if mirrors(p.Record) {
		f.mirror()
	}
}

// regular takes over one of the regular forms.
func (w *derivation) regular(p *Piece, at fault.Pos, o shape.Outline, err error) {
	f := &p.form
	if err != nil {
		w.faults.Wrong(at, "", say.Of("garment.cannot-be-drawn", say.Quoted(p.Name), err))
		f.why = say.Of("garment.it-cannot-be-drawn")
		return
	}
	f.outline = o
	f.notes = make([]edgeNote, len(o.Edges))
	for i := range o.Edges {
		f.notes[i] = edgeNote{name: o.Edges[i].Name, at: at, to: at}
	}
}

func (w *derivation) drawGodet(p *Piece) {
	g := p.Record.Godet
	angle, err := g.Angle.V, error(nil)
	if g.Hem.Given() {
		angle, err = shape.GodetAngle(g.Height.V.MM(), g.Hem.V.MM())
	}
	var o shape.Outline
	if err == nil {
		o, err = shape.Godet(g.Height.V.MM(), angle)
	}
	p.form.godet = g
	w.regular(p, g.At, o, err)
}

// takeOwn takes what the piece's own record says over what it was like.
func (f *form) takeOwn(r *record.Piece) {
	if r.Cut.Given() {
		f.cut = r.Cut
	}
	if len(r.Of) > 0 {
		f.of = r.Of
	}
	if r.Grain.Given() {
		f.grain = r.Grain
	}
	if r.Allowance.Given() {
		f.allowance = r.Allowance
	}
	if len(r.Darts) > 0 {
		f.darts = r.Darts
	}
	if len(r.Pleats) > 0 {
		f.pleats = r.Pleats
	}
	if len(r.Gathers) > 0 {
		f.gathers = r.Gathers
	}
	if len(r.Notches) > 0 {
		f.notches = r.Notches
	}
	if len(r.Lines) > 0 {
		f.lines = r.Lines
	}
	if len(r.Levels) > 0 {
		f.levels, f.corners = r.Levels, nil
	}
	if f.pair && f.turned {
		f.mirrorMarks(len(r.Darts) > 0, len(r.Lines) > 0)
	}
}

// overrides applies what is said of single edges: moves first, then names.
func (w *derivation) overrides(p *Piece) {
	f := &p.form
	if f.why != "" {
		return
	}
	for i := range p.Record.Change {
		w.altering.alter(p, Alteration{Change: &p.Record.Change[i], edge: p.Record.Change[i].Edge.V, dart: p.Record.Change[i].Dart.V, pleat: p.Record.Change[i].Pleat.V, line: p.Record.Change[i].Line.V, gather: p.Record.Change[i].Gather.V})
	}
	for i := range p.Record.Edges {
		f.override(p.Record.Edges[i].Name.V, &p.Record.Edges[i].V)
	}
}

// find returns the first of the outline's edges that bear a name, new or old,
// and how many parts it has.
func (f *form) find(name string) (first, count int) {
	n := len(f.notes)
	is := func(i int) bool { return f.notes[i].name == name || f.notes[i].before == name }
	for i := range n {
		if !is(i) || n > 1 && is((i+n-1)%n) && i > 0 {
			continue
		}
		first = i
		if i == 0 {
			for back := 1; back < n && is(n-back); back++ {
				first, count = n-back, count+1
			}
		}
		for k := i; k < n && is(k) && count < n; k++ {
			count++
		}
		return first, count
	}
	return 0, 0
}

func (f *form) override(name string, e *record.EdgeSpec) {
	for i := range f.notes {
		n := &f.notes[i]
		if n.name != name && n.before != name {
			continue
		}
		if e.Level.Given() {
			n.level, n.called, n.noLevel = e.Level, false, false
		}
		if e.Allowance.Given() {
			n.allowance = e.Allowance
		}
		if e.Corner.Given() {
			n.corner = e.Corner
		}
		if e.Fold.Given() {
			f.outline.Edges[i].Fold = e.Fold.V
		}
		if e.Name.Given() && e.Name.V != n.name {
			n.before, n.name = n.name, e.Name.V
			f.outline.Edges[i].Name = e.Name.V
		}
	}
}

// drawRing draws one panel of a ring skirt.
func (w *derivation) drawRing(p *Piece) {
	f, r := &p.form, p.Record.Ring
	n := w.panels(p)
	skirt, err := shape.NewRingSkirt(float64(r.Turns.V), r.Waist.V.MM(), r.Length.V.MM(), n)
	w.regular(p, r.At, skirt.Panel, err)
	if err == nil {
		f.ring, f.skirt = r, &skirt
		f.panels = skirt.Panels
		f.slit = skirt.PanelAngle > 2*math.Pi-1e-6
	}
}

// panels is how many panels a ring skirt is cut in: as written, or the fewest
// that fit the cloth.
func (w *derivation) panels(p *Piece) int {
	r := p.Record.Ring
	if r.Panels.Given() {
		return r.Panels.V
	}
	if c := p.Record.Cut; c.Given() && c.V.N > 1 {
		return c.V.N
	}
	return w.fewestPanels(p)
}
