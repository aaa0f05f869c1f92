package record

import (
	"slices"

	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/trade"
)

// What is called so on a band.
var (
	bandBottom = "bottom"
	bandFold   = "fold"
	bandEnds   = say.Of("record.ends") // behind its name: the seam of its ends
)

// called is the name an edge of a piece bears now, whose first name is this.
func (p *Piece) called(edge string) string {
	for i := range p.Edges {
		if e := &p.Edges[i]; e.Name.V == edge && e.V.Name.Given() {
			return e.V.Name.V
		}
	}
	return edge
}

// isEdge reports whether a reference names an edge of a piece, or of one of a pair of it,
// by its first name or now.
func (b *Build) isEdge(e EdgeRef, p *Piece, first string) bool {
	if e.Edge != first && e.Edge != p.called(first) {
		return false
	}
	_, pair, handed := Handed(e.Piece)
	return e.Piece == p.Name.V || handed && pair == p.Name.V && b.pieceCalled(e.Piece) == nil
}

// BandSeam is the seam that sews a band on by its bottom, and the line of it that the
// band stands in; nil where there is none.
func (b *Build) BandSeam(p *Piece) (s *Seam, line int) {
	for i := range b.Seams {
		for k, side := range b.Seams[i].Join {
			if slices.ContainsFunc(side, func(e EdgeRef) bool { return b.isEdge(e, p, bandBottom) }) {
				return &b.Seams[i], k
			}
		}
	}
	return nil, 0
}

// BandAlong are the edges that a band is sewn to by its bottom: of a seam of three edges
// the first that are those of no other band.
func (b *Build) BandAlong(p *Piece) List[EdgeRef] {
	s, own := b.BandSeam(p)
	if s == nil || s.Place.Given() {
		return nil
	}
	var other List[EdgeRef]
	for k, side := range s.Join {
		if k == own || len(side) == 0 {
			continue
		}
		if !slices.ContainsFunc(side, func(e EdgeRef) bool { return b.likeBand(e.Piece) }) {
			return side
		}
		if other == nil {
			other = side
		}
	}
	return other
}

// likeBand reports whether a piece is a band or like one.
func (b *Build) likeBand(name string) bool {
	for n := 0; n <= len(b.Pieces); n++ {
		p := b.pieceCalled(name)
		if p == nil || p.Band != nil {
			return p != nil
		}
		name = p.Like.V
	}
	return false
}

func (b *Build) pieceCalled(name string) *Piece {
	if k := slices.IndexFunc(b.Pieces, func(p Piece) bool { return p.Name.V == name }); k >= 0 {
		return &b.Pieces[k]
	}
	return nil
}

// settleBands draws the fold lines of bands, and sews the ends of those to each other
// that go all round what they are sewn to.
func (b *Build) settleBands() {
	for i := range b.Pieces {
		p := &b.Pieces[i]
		if p.Band == nil || !p.Band.At.Given() {
			continue
		}
		if w := p.Band.Width; p.Band.Folded.V && w.Given() && !slices.ContainsFunc(p.Lines, func(l LineSpec) bool { return l.Name.V == bandFold }) {
			p.Lines = append(p.Lines, LineSpec{At: p.Band.At, Name: Text{bandFold, p.Band.At},
				Along: Val[Beside]{Beside{bandBottom, w.V}, p.Band.At}, Fold: Flag{true, p.Band.At}})
		}
		if b.bandRing(p) {
			b.sewBandEnds(p)
		}
	}
}

// sewBandEnds sews the ends of a band to each other, in the step that sews it on and
// before it does.
func (b *Build) sewBandEnds(p *Piece) {
	end := func(edge string) List[EdgeRef] {
		return List[EdgeRef]{{At: p.Band.At, Piece: p.Name.V, Edge: p.called(edge)}}
	}
	s := Seam{At: p.Band.At, Name: Text{p.Name.V + bandEnds, p.Band.At}, Join: []List[EdgeRef]{end("left"), end("right")}, Thread: b.Usual.Thread}
	if b.Usual.Seam.fill(&s.Type, &s.Stitch, &s.Strip, &s.With); !s.Type.Given() {
		s.Type = Text{"plain", s.At}
	}
	on, _ := b.BandSeam(p)
	for i := range b.Work {
		w := &b.Work[i]
		if k := slices.IndexFunc(w.Sews, func(t Text) bool { return t.V == on.Name.V }); k >= 0 {
			w.Sews = slices.Insert(slices.Clone(w.Sews), k, s.Name)
			break
		}
	}
	b.Seams = append(b.Seams, s)
}

// bandRing reports whether a band goes all round: it has no lap, nothing is said of its
// ends, and what it is sewn to opens nowhere.
func (b *Build) bandRing(p *Piece) bool {
	along := b.BandAlong(p)
	if p.Band.Lap.Given() || len(along) == 0 || b.names(p, "left") || b.names(p, "right") {
		return false
	}
	for _, e := range along {
		of := b.pieceCalled(e.Piece)
		if of == nil || !e.Part.Whole() || b.slitFrom(of, e.Edge) {
			return false
		}
		edges := b.edgesRound(of, 0)
		k := slices.IndexFunc(edges, func(r roundEdge) bool { return r.name == e.Edge || r.now == e.Edge })
		if k < 0 {
			return false
		}
		for _, beside := range []roundEdge{edges[(k+1)%len(edges)], edges[(k+len(edges)-1)%len(edges)]} {
			if !beside.fold && !b.closedBy(of, beside, along) {
				return false
			}
		}
	}
	return true
}

// names reports whether a seam or finish names an edge of a piece.
func (b *Build) names(p *Piece, edge string) bool {
	is := func(e EdgeRef) bool { return b.isEdge(e, p, edge) }
	return slices.ContainsFunc(b.Seams, func(s Seam) bool {
		return slices.ContainsFunc(s.Join, func(side List[EdgeRef]) bool { return slices.ContainsFunc(side, is) })
	}) || slices.ContainsFunc(b.Finishes, func(f Finish) bool { return slices.ContainsFunc(f.Of, is) })
}

// closedBy reports whether an edge beside a line of edges is sewn shut from end to end,
// or is one of that line itself.
func (b *Build) closedBy(p *Piece, e roundEdge, along List[EdgeRef]) bool {
	is := func(r EdgeRef) bool { return r.Piece == p.Name.V && (r.Edge == e.name || r.Edge == e.now) }
	if slices.ContainsFunc(along, is) {
		return true
	}
	if slices.ContainsFunc(b.Notions, func(n Notion) bool { return n.Along.Given() && is(n.Along.V) }) {
		return false
	}
	shut := false
	for i := range b.Seams {
		for _, side := range b.Seams[i].Join {
			if !slices.ContainsFunc(side, is) {
				continue
			}
			if t, ok := trade.FindSeamType(trade.SeamTypes(), b.Seams[i].Type.V); ok && t.Opens() {
				return false
			}
			shut = true
		}
	}
	return shut
}

// slitFrom reports whether a slit is cut into a piece from an edge.
func (b *Build) slitFrom(p *Piece, edge string) bool {
	return slices.ContainsFunc(p.Lines, func(l LineSpec) bool { return l.Slit.V && (l.From.V.Edge == edge || l.To.V.Edge == edge) })
}

// A roundEdge is an edge of a piece by its first name and the one it has now.
type roundEdge struct {
	name, now string
	fold      bool
}

// edgesRound are the edges of a piece as they go round it.
func (b *Build) edgesRound(p *Piece, depth int) (out []roundEdge) {
	forms := p.forms()
	if len(forms) != 1 || depth > len(b.Pieces) {
		return nil
	}
	switch {
	case p.Outline != nil:
		for i := range p.Outline.Edges {
			e := &p.Outline.Edges[i]
			if n := len(out); n == 0 || out[n-1].name != e.Name.V {
				out = append(out, roundEdge{e.Name.V, e.Name.V, e.Fold.V})
			}
		}
	case p.Like.Given():
		if from := b.pieceCalled(p.Like.V); from != nil {
			for _, e := range b.edgesRound(from, depth+1) {
				out = append(out, roundEdge{e.now, e.now, e.fold})
			}
		}
	default:
		for _, name := range regularEdges[forms[0]] {
			out = append(out, roundEdge{name, name, false})
		}
	}
	for i := range out {
		if spec, ok := p.Edges.Get(out[i].name); ok {
			out[i].now, out[i].fold = p.called(out[i].name), out[i].fold || spec.Fold.V
		}
	}
	return out
}

// band checks a band.
func (c *buildCheck) band(p *Piece) {
	band := p.Band
	if band == nil || !band.At.Given() || !band.Width.Given() {
		return
	}
	if band.Share.Given() && band.Length.Given() {
		c.faults.Wrong(band.Share.At, say.Of("record.keep-one-of-them"), say.Of("record.share-and-length-both-say-how-long", p.Name.V))
	}
	s, line := c.b.BandSeam(p)
	switch {
	case s == nil && !band.Length.Given():
		c.faults.Wrong(band.At, say.Of("record.sew-it-on-as-waist-or-write", p.Name.V, p.called(bandBottom)),
			say.Of("record.is-as-long-as-what-its-is", p.Name.V, p.called(bandBottom)))
	case s == nil:
	case s.Overlap.Given() && band.Lap.Given():
		c.faults.Wrong(s.Overlap.At, say.Of("record.leave-it-out"), say.Of("record.overlap-says-what-lap-of-says-already", s.Name.V, p.Name.V)).Without(s.Overlap.At)
	case s.Overlap.Given():
		lap := bare(c.bareIn(s.Overlap.V))
		c.faults.Wrong(s.Overlap.At, say.Of("record.say-it-of-the-band-as-band", bare(c.bareIn(band.Width.V)), lap), say.Of("record.the-lap-of-a-band-stands-with", s.Name.V))
	case len(s.Join[line]) > 1 && !band.Length.Given():
		c.faults.Wrong(band.At, say.Of("record.write-how-long-each-of-them-is", bare(c.bareIn(band.Width.V))), say.Of("record.is-one-of-several-pieces-at-one", p.Name.V, say.Quoted(s.Name.V)))
	}
}

// bareIn is a length in the unit that a bare number of the record has.
func (c *buildCheck) bareIn(l measure.Length) float64 { return l.In(c.r.UnitOf(c.b)).Number }
