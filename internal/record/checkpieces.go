package record

import (
	"slices"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/say"
)

func (c *buildCheck) pieceList() listed {
	names := make([]string, len(c.b.Pieces))
	for i := range c.b.Pieces {
		names[i] = c.b.Pieces[i].Name.V
	}
	return listed{"piece", say.Of("record.in-this-garment"), names}
}

func (c *buildCheck) checkPieces() {
	b := c.b
	names := make([]Text, len(b.Pieces))
	for i := range b.Pieces {
		p := &b.Pieces[i]
		names[i] = p.Name
		if p.Name.Given() && c.pieces[p.Name.V] == nil {
			c.pieces[p.Name.V] = p
		}
	}
	twice(names, "piece", c.faults)
	for i := range b.Pieces {
		c.piece(&b.Pieces[i])
	}
	for i := range b.Pieces {
		c.border(&b.Pieces[i])
	}
}

func (c *buildCheck) piece(p *Piece) {
	if !p.At.Given() {
		return
	}
	for _, of := range p.Of {
		known(of, c.cloths, c.faults)
	}
	edges, ok := c.edgesOf(p, map[string]bool{})
	if !ok {
		return
	}
	c.edges[p.Name.V] = edges
	c.pieceForm(p)
	c.noLevel(p)
	for i := range p.Edges {
		c.edgeIn(p.Edges[i].Name, p)
	}
	for i := range p.Darts {
		c.edgeIn(p.Darts[i].Edge, p)
		c.where(p.Darts[i].Edge.V, p.Darts[i].Place, p)
		c.dart(&p.Darts[i])
	}
	for i := range p.Pleats {
		c.edgeIn(p.Pleats[i].Edge, p)
		c.pleats(&p.Pleats[i], p)
	}
	for i := range p.Gathers {
		c.edgeIn(p.Gathers[i].Edge, p)
		c.gathers(&p.Gathers[i], p)
	}
	for i := range p.Notches {
		c.edgeIn(p.Notches[i].Edge, p)
		c.where(p.Notches[i].Edge.V, p.Notches[i].Place, p)
	}
	c.lines(p)
	c.turnOfCloth(p)
	c.band(p)
	for i := range p.Change {
		c.changeIn(&p.Change[i], p)
	}
	if len(p.Change) > 0 && !p.Like.Given() {
		c.faults.Wrong(p.Change[0].At, say.Of("record.change-the-outline-itself-or-say-like"), say.Of("record.only-a-piece-that-is-like-another"))
	}
}

// pieceForm checks what the forms themselves ask.
func (c *buildCheck) pieceForm(p *Piece) {
	c.block(p)
	if g := p.Godet; g != nil && g.Angle.Given() == g.Hem.Given() && g.At.Given() {
		both := say.Of("record.a-godet-is-given-by-its-angle")
		if g.Hem.Given() {
			c.faults.Wrong(g.At, say.Of("record.keep-angle-or-hem"), both).Without(g.Angle.At)
		} else {
			c.faults.Wrong(g.At, say.Of("record.add-what-it-adds-to-the-hem"), both)
		}
	}
	if p.Cut.V.OnFold && p.Outline != nil && !slices.ContainsFunc(p.Outline.Edges, func(e EdgeLine) bool { return e.Fold.V }) &&
		!slices.ContainsFunc(p.Edges, func(e Named[EdgeSpec]) bool { return e.V.Fold.V }) {
		c.faults.Wrong(p.Cut.At, say.Of("record.write-fold-for-that-edge-as-centre"), say.Of("record.is-cut-on-the-fold-which-edge", p.Name.V))
	}
}

func (c *buildCheck) edgeIn(edge Text, p *Piece) {
	if edge.Given() {
		known(edge, edgeList(p.Name.V, c.renamed(p)), c.faults)
	}
}

// renamed lists a piece's edges, by their first names and their better ones.
func (c *buildCheck) renamed(p *Piece) []string {
	out := slices.Clone(c.edges[p.Name.V])
	for i := range p.Edges {
		if n := p.Edges[i].V.Name; n.Given() && !slices.Contains(out, n.V) {
			out = append(out, n.V)
		}
	}
	return out
}

// regularEdges are the names of the edges of each regular form, in order.
var regularEdges = map[string][]string{
	"circle":    {"waist", "right", "hem", "left"},
	"rectangle": {"bottom", "right", "top", "left"},
	"trapezoid": {"bottom", "right", "top", "left"},
	"godet":     {"right", "hem", "left"},
	"band":      {"bottom", "right", "top", "left"},
	"block":     {"bottom", "right", "top", "left"},
}

// Formed reports whether the record says how a piece is shaped.
func (p *Piece) Formed() bool { return len(p.forms()) > 0 }

// forms lists which forms a piece was given; it should be one.
func (p *Piece) forms() []string {
	var out []string
	for _, f := range []struct {
		name  string
		given bool
	}{
		{"outline", p.Outline != nil}, {"like", p.Like.Given() && !p.likeBorder()}, {"circle", p.Ring != nil},
		{"rectangle", p.Rectangle != nil}, {"trapezoid", p.Trapezoid != nil}, {"godet", p.Godet != nil}, {"band", p.Band != nil}, {"border", p.Border != nil}, {"block", p.Block != nil},
	} {
		if f.given {
			out = append(out, f.name)
		}
	}
	return out
}

func (c *buildCheck) edgesOf(p *Piece, seen map[string]bool) ([]string, bool) {
	forms := p.forms()
	switch len(forms) {
	case 0:
		if len(seen) == 0 && !p.formYet {
			c.faults.Wrong(p.At, say.Of("record.write-outline-like-circle-rectangle"), say.Of("record.the-piece-has-no-shape", say.Quoted(p.Name.V)))
		}
		return nil, false
	case 1:
	default:
		if len(seen) == 0 {
			c.faults.Wrong(p.At, say.Of("record.keep-one-of-them"), say.Of("record.the-piece-has-forms", say.Quoted(p.Name.V), len(forms), meant.List(forms, "and")))
		}
		return nil, false
	}
	switch forms[0] {
	case "outline":
		return c.outlineEdges(p, len(seen) == 0), len(p.Outline.Edges) > 0
	case "like":
		return c.likeEdges(p, seen)
	case "border":
		return c.borderEdges(p, seen)
	}
	return c.addNames(p, slices.Clone(regularEdges[forms[0]])), true
}

func (c *buildCheck) addNames(p *Piece, edges []string) []string {
	for i := range p.Edges {
		if n := p.Edges[i].V.Name; n.Given() {
			edges = append(edges, n.V)
		}
	}
	return edges
}

func (c *buildCheck) outlineEdges(p *Piece, report bool) []string {
	var names []Text
	out := make([]string, 0, len(p.Outline.Edges))
	for i := range p.Outline.Edges {
		name := p.Outline.Edges[i].Name
		out = append(out, name.V)
		if len(names) == 0 || names[len(names)-1] != name { // the parts of an arc are one edge
			names = append(names, name)
		}
	}
	if report && !p.Outline.File.Given() { // what a file draws was looked at when it was read
		twice(names, "edge", c.faults)
	}
	return c.addNames(p, slices.Compact(out))
}

func (c *buildCheck) likeEdges(p *Piece, seen map[string]bool) ([]string, bool) {
	if seen[p.Name.V] {
		return nil, false
	}
	if len(seen) == 0 && !c.isPiece(p.Like, "") {
		return nil, false
	}
	seen[p.Name.V] = true
	from := c.pieces[p.Like.V]
	if from == nil {
		return nil, false
	}
	if seen[from.Name.V] {
		if len(seen) <= 2 || from.Name.V == p.Like.V {
			hint, says := say.Of("record.one-of-them-needs-an-outline-of"), say.Of("record.is-like-which-is-like-it", say.Quoted(from.Name.V), say.Quoted(p.Name.V))
			if from == p {
				hint, says = say.Of("record.it-needs-an-outline-of-its-own"), say.Of("record.is-like-itself", say.Quoted(p.Name.V))
			}
			c.faults.Wrong(p.Like.At, hint, says)
		}
		return nil, false
	}
	edges, ok := c.edgesOf(from, seen)
	return c.addNames(p, edges), ok
}

func edgeList(piece string, edges []string) listed {
	return listed{"edge", say.Of("record.on-the-piece", say.Quoted(piece)), edges}
}

// pieceNamed is the piece of an edge that is named, or the one of which one of a pair is
// meant; nil where there is none, which is told.
func (c *buildCheck) pieceNamed(e EdgeRef) *Piece {
	if p := c.pieces[e.Piece]; p != nil {
		return p
	}
	p, told := c.oneOfPair(e)
	if p == nil && !told {
		c.isPiece(Text{e.Piece, e.At}, e.Edge)
	}
	return p
}

// edgeRef checks piece.edge.
func (c *buildCheck) edgeRef(e EdgeRef) {
	if !e.At.Given() {
		return
	}
	if c.lacksEdge(e) {
		return
	}
	p := c.pieceNamed(e)
	if p == nil {
		return
	}
	edges, ok := c.edges[p.Name.V]
	if !ok {
		return // its form is at fault, which is told where it stands
	}
	if c.onLine(e, p) {
		return
	}
	edges = slices.Concat(edges, c.linesOf(p))
	if c.handInEdge(e, p, edges) {
		return
	}
	at := e.At
	at.Column += int32(len([]rune(e.Piece))) + 1
	if known(Text{e.Edge, at}, edgeList(p.Name.V, edges), c.faults) {
		for _, name := range []string{e.Part.From, e.Part.To} {
			if name != "" {
				c.placeOn(e.Edge, Text{name, e.At}, p)
			}
		}
	}
}

// wholeEdge checks piece.edge where a part of one cannot be meant yet.
func (c *buildCheck) wholeEdge(e EdgeRef) {
	c.edgeRef(e)
	if e.At.Given() && !e.Part.Whole() {
		c.faults.Wrong(e.At, say.Of("record.write-2", e.Piece, e.Edge), say.Of("record.not-yet-a-part-of-an-edge", fault.Shorten(e.String())))
	}
}
