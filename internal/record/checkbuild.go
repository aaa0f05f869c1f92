package record

import (
	"fmt"
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/trade"
)

// A buildCheck looks at what one build says of itself and of the workroom.
type buildCheck struct {
	r      *Room
	b      *Build
	faults *fault.Faults
	cloths listed
	sewn   listed
	pieces map[string]*Piece
	edges  map[string][]string // by piece; nil where the piece's form is not known
}

func (r *Room) checkBuild(b *Build, faults *fault.Faults) {
	c := &buildCheck{r: r, b: b, faults: faults, pieces: map[string]*Piece{}, edges: map[string][]string{}}
	c.cloths = listed{"cloth", "in this garment's cloth", b.Cloth.Names()}
	c.sewn = listed{"seam or finish", "in this garment", b.sewn()}
	c.dates()
	c.uses()
	c.usual()
	c.checkPieces()
	c.checkLike()
	c.checkSeams()
	c.checkNotions()
	c.checkMatch()
	c.shared()
	c.smallWords()
	c.checkWork()
	c.checkHang()
	c.checkFittings()
	c.checkLay()
	for _, p := range b.allPhotos() {
		r.checkPhoto(b.Folder, p, faults)
	}
}

// allPhotos lists every picture the record names.
func (b *Build) allPhotos() []Photo {
	out := append([]Photo{b.Picture.Photo()}, b.Pictures...)
	for i := range b.Fittings {
		out = append(out, b.Fittings[i].Photo)
	}
	for i := range b.Journal {
		out = append(out, b.Journal[i].Photo)
	}
	return out
}

func (c *buildCheck) dates() {
	b := c.b
	for _, pair := range [][2]Date{{b.Begun, b.Due}, {b.Begun, b.Sent}} {
		if pair[0].Given() && pair[1].Given() && pair[1].V.before(pair[0].V) {
			c.faults.Errorf(pair[1].At, "is the year right?", "%s comes before the garment was begun on %s", pair[1].V, pair[0].V)
		}
	}
	for i := range b.Fittings {
		if day := b.Fittings[i].On; day.Given() && b.Begun.Given() && day.V.Year < b.Begun.V.Year && b.Begun.V.Year-day.V.Year <= 1 && day.V.Month >= b.Begun.V.Month {
			now := day.V
			now.Year = b.Begun.V.Year
			c.faults.Warnf(day.At, "did you mean "+now.String()+"?", "%s comes before the garment was begun on %s", day.V, b.Begun.V).Instead(day.V.String(), now.String())
		}
	}
	if w := b.Wearer.Open(ToCheck); w.Given() {
		if _, ok := c.r.Wearers[w.V]; !ok {
			c.faults.Errorf(w.At, "correct the name, or write a file of that name in content/wearers", "there is no such wearer")
		}
	}
}

// usual checks what the build says is usual.
func (c *buildCheck) usual() {
	c.threadAndStrip(c.b.Usual.Thread, c.b.Usual.Seam.Strip)
	c.threadAndStrip(Text{}, c.b.Usual.Hem.Strip)
	for _, u := range []*UsualSewing{&c.b.Usual.Seam, &c.b.Usual.Hem} {
		c.beside(&u.Topstitch, &u.EdgeStitch)
	}
}

func (c *buildCheck) uses() {
	slugs := make([]string, len(c.r.Cloths))
	for i, cl := range c.r.Cloths {
		slugs[i] = cl.Slug
	}
	for i := range c.b.Cloth {
		use := &c.b.Cloth[i]
		if known(use.V.Use, listed{"cloth", "in content/cloth", slugs}, c.faults) {
			c.noted(use.Name, use.V.Use.V)
		}
	}
}

func (r *Room) techniqueList() listed {
	slugs := make([]string, len(r.Techniques))
	for i, t := range r.Techniques {
		slugs[i] = t.Slug
	}
	return listed{"technique", "in content/techniques", slugs}
}

// noted asks what a part took of its cloth, where the build is past cutting, the
// cloth's ledger is kept and does not say it.
func (c *buildCheck) noted(part Text, slug string) {
	cloth, ok := c.r.Cloth(slug)
	if !ok || len(cloth.Came) == 0 || !c.b.HasCut(cloth, part.V) {
		return
	}
	what := c.b.Slug + " " + part.V
	if !slices.ContainsFunc(cloth.Cut, func(k CutOff) bool { return k.For.V == what }) {
		c.faults.Warnf(part.At, "hembook lay "+c.b.Slug+" --cloth "+part.V+" --keep-remnants; or add to its cut: "+what+": 2.6 m",
			"%s does not say how much of it was cut off for %s", cloth.At.File(), part.V)
	}
}

// technique checks a reference; the list is only made where it leads nowhere.
func (c *buildCheck) technique(t Text) {
	if _, ok := c.r.techniques[t.V]; !ok {
		known(t, c.r.techniqueList(), c.faults)
	}
}

func (c *buildCheck) pieceList() listed {
	names := make([]string, len(c.b.Pieces))
	for i := range c.b.Pieces {
		names[i] = c.b.Pieces[i].Name.V
	}
	return listed{"piece", "in this garment", names}
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
		c.faults.Errorf(p.Change[0].At, "change the outline itself, or say like: and which piece", "only a piece that is like another can have changes")
	}
}

// pieceForm checks what the forms themselves ask.
func (c *buildCheck) pieceForm(p *Piece) {
	c.block(p)
	if g := p.Godet; g != nil && g.Angle.Given() == g.Hem.Given() && g.At.Given() {
		const both = "a godet is given by its angle or by what it adds to the hem, one of them"
		if g.Hem.Given() {
			c.faults.Errorf(g.At, "keep angle:, or hem:", both).Without(g.Angle.At)
		} else {
			c.faults.Errorf(g.At, "add what it adds to the hem, as hem: 300", both)
		}
	}
	if p.Cut.V.OnFold && p.Outline != nil && !slices.ContainsFunc(p.Outline.Edges, func(e EdgeLine) bool { return e.Fold.V }) &&
		!slices.ContainsFunc(p.Edges, func(e Named[EdgeSpec]) bool { return e.V.Fold.V }) {
		c.faults.Errorf(p.Cut.At, "write fold for that edge, as centre: fold", "%s is cut on the fold: which edge?", p.Name.V)
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
			c.faults.Errorf(p.At, "write outline:, like:, circle:, rectangle:, trapezoid:, godet:, band:, border: or block:", "the piece %q has no shape", p.Name.V)
		}
		return nil, false
	case 1:
	default:
		if len(seen) == 0 {
			c.faults.Errorf(p.At, "keep one of them", "the piece %q has %d forms: %s", p.Name.V, len(forms), meant.List(forms, "and"))
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
			hint, says := "one of them needs an outline of its own", fmt.Sprintf("%q is like %q, which is like it", from.Name.V, p.Name.V)
			if from == p {
				hint, says = "it needs an outline of its own", fmt.Sprintf("%q is like itself", p.Name.V)
			}
			c.faults.Errorf(p.Like.At, hint, "%s", says)
		}
		return nil, false
	}
	edges, ok := c.edgesOf(from, seen)
	return c.addNames(p, edges), ok
}

func edgeList(piece string, edges []string) listed {
	return listed{"edge", fmt.Sprintf("on the piece %q", piece), edges}
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
		c.faults.Errorf(e.At, "write "+e.Piece+"."+e.Edge, "not yet: %s, a part of an edge that is not sewn", fault.Shorten(e.String()))
	}
}

func (c *buildCheck) checkSeams() {
	var names []Text
	for i := range c.b.Seams {
		s := &c.b.Seams[i]
		names = append(names, s.Name)
		if len(s.Join) > 0 && len(s.Like) > 0 {
			c.faults.Errorf(s.At, "keep one of them", "%q has its edges from join: and from like:", s.Name.V)
		}
		if len(s.Join) > mostInSeam {
			c.faults.Errorf(s.At, "edges sewn in a row are a list of their own: [[a.top, b.top], band.bottom]", "%s: %d edges lie on each other in this seam, and at most %d can", s.Name.V, len(s.Join), mostInSeam)
		}
		c.layTwice(s)
		if s.Name.Given() && s.At.Given() && len(s.Join) == 1 {
			c.faults.Errorf(s.At, "as join: [front.side, back.side]; edges sewn in a row are a list of their own: [[a.top, b.top], band.bottom]", "%s: a seam joins two edges, this one names %d", s.Name.V, len(s.Join))
		}
		c.checkSetOn(s)
		for _, side := range s.Join {
			for _, e := range side {
				if !s.Place.Given() {
					c.edgeRef(e)
				}
			}
		}
		if s.Ease.Given() && s.Gather.Given() {
			c.faults.Errorf(s.Gather.At, "keep one of them", "%q is both eased and gathered", s.Name.V)
		}
		c.technique(s.Technique)
		c.threadAndStrip(s.Thread, s.Strip)
		c.beside(c.own(&s.Topstitch), c.own(&s.EdgeStitch))
	}
	for i := range c.b.Finishes {
		f := &c.b.Finishes[i]
		names = append(names, f.Name)
		if f.At.Given() && !f.Type.Given() {
			c.faults.Errorf(f.At, "say how it is finished, as type: double-turned-hem, or usual: {hem: double-turned-hem} for the whole garment", "%q is missing", "type")
		}
		for _, e := range f.Of {
			c.edgeRef(e)
		}
		c.technique(f.Technique)
		c.threadAndStrip(f.Thread, f.Strip)
		c.beside(c.own(&f.Topstitch), c.own(&f.EdgeStitch))
	}
	twice(names, "seam or finish", c.faults)
	for i := range c.b.Lengths {
		for _, e := range c.b.Lengths[i].Along {
			c.wholeEdge(e)
		}
	}
}

// mostInSeam bounds how many edges lie on each other in one seam (common practice, no
// source): a collar between two fronts with their facings, and a loop.
const mostInSeam = 6

// layTwice faults an edge that is named twice in a seam of three edges and more: of two,
// a right and a left are sewn to each other.
func (c *buildCheck) layTwice(s *Seam) {
	if len(s.Join) < 3 {
		return
	}
	seen := map[string]bool{}
	for _, side := range s.Join {
		for _, e := range side {
			if name := e.String(); e.At.Given() && seen[name] {
				c.faults.Errorf(e.At, "give the other edge its own name", "%s: %s is named twice", s.Name.V, fault.Shorten(name))
			} else {
				seen[name] = true
			}
		}
	}
}

func (c *buildCheck) threadAndStrip(thread, strip Text) {
	if thread.Given() {
		known(thread, listed{"thread", "in this garment's thread", c.b.Thread.Names()}, c.faults)
	}
	if strip.Given() {
		known(strip, c.cloths, c.faults)
	}
}

// sewn lists the names of seams and finishes.
func (b *Build) sewn() []string {
	var out []string
	for i := range b.Seams {
		out = append(out, b.Seams[i].Name.V)
	}
	for i := range b.Finishes {
		out = append(out, b.Finishes[i].Name.V)
	}
	return out
}

// shared tells of a name that a seam or finish has and a notion too: steps,
// changes and what lies along a thing name all of them alike.
func (c *buildCheck) shared() {
	for i := range c.b.Notions {
		n := c.b.Notions[i].Name
		if n.Given() && slices.Contains(c.sewn.names, n.V) {
			c.faults.Errorf(n.At, "give one of them another name, so that steps and fittings can tell them apart", "%q is a notion, and a seam or finish has that name too", fault.Shorten(n.V))
		}
	}
}

func (c *buildCheck) checkNotions() {
	c.placesDrawn()
	for i := range c.b.Notions {
		n := &c.b.Notions[i]
		c.holesOn(n)
		if n.Along.Given() && !c.alongAll(n) {
			c.edgeRef(n.Along.V)
		}
		c.kindOf(n)
		c.spread(n)
		for _, in := range n.In {
			if !c.ofLost(in.V) {
				known(in, c.sewn, c.faults)
			}
		}
	}
	for i := range c.b.Bias {
		s := &c.b.Bias[i]
		if s.From.Given() {
			known(s.From, c.cloths, c.faults)
		}
		if s.At.Given() && s.Cut.Given() == s.Finished.Given() {
			c.faults.Errorf(s.At, "write finished: 10 mm with binding: single, or cut: 40 mm", "a bias strip has a finished or a cut width, one of them")
		}
	}
}

// noKind is what: of a notion that is of none of the trade's kinds.
const noKind = "other"

// kindOf tells of a notion of which neither its name nor its what: says what it is:
// whether it closes, hangs or may come off rests on that.
func (c *buildCheck) kindOf(n *Notion) {
	said := n.What
	if !said.Given() {
		said = n.Name
	}
	_, is := trade.NotionKind(said.V)
	if is || !said.Given() || n.What.V == noKind || !n.What.Given() && (n.Kind.Given() || slices.Contains(c.sewn.names, n.Name.V)) {
		return // or its name is told to be another's
	}
	near := meant.Nearest(said.V, trade.NotionKinds())
	if said := strings.Fields(said.V); near == "" && len(said) > 1 {
		near = meant.Nearest(said[len(said)-1], trade.NotionKinds())
	}
	if n.What.Given() {
		c.faults.Warnf(n.What.At, meant.Or(n.What.V, trade.NotionKinds(), "as what: button, or what: other where it is none of the trade's"), "%q is no known kind", fault.Shorten(n.What.V)).Instead(n.What.V, near)
		return
	}
	hint := "as what: button, or what: other where it is none of the trade's"
	if near != "" {
		hint = "as what: " + near + ", or what: other where it is none of the trade's"
	}
	c.faults.Warnf(n.Name.At, hint, "%q is no known kind: say what:", fault.Shorten(n.Name.V))
}

// spread looks at how a notion is set out along its edge.
func (c *buildCheck) spread(n *Notion) {
	for _, said := range []struct {
		word  string
		where Where
	}{{"at", n.Place}, {"first", n.First}, {"last", n.Last}, {"every", Where{At: n.Every.At}}} {
		switch p := c.pieceMeant(n.Along.V.Piece); {
		case !said.where.Given():
		case !n.Along.Given() && !n.unread:
			c.faults.Errorf(said.where.At, "add along: and the edge, as along: front.side", "%s: of %q says where on an edge, and no edge is named", said.word, fault.Shorten(n.Name.V))
		case p != nil:
			c.where(n.Along.V.Edge, said.where, p)
		}
	}
	if n.Place.Given() && (n.First.Given() || n.Last.Given() || n.Every.Given()) {
		c.faults.Errorf(n.Place.At, "keep at:, or first:, last: and every:", "%q is at one place and set out along an edge too", fault.Shorten(n.Name.V))
	}
}

func (c *buildCheck) checkLay() {
	for _, l := range c.b.CutOrder {
		known(l.Name, c.cloths, c.faults)
		var laid []Text
		for _, stage := range l.V {
			for _, p := range stage {
				if c.isPiece(p, "") {
					laid = append(laid, p)
				}
			}
		}
		twice(laid, "piece", c.faults)
	}
}
