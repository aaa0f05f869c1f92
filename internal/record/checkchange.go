package record

import (
	"hembook/internal/fault"
	"slices"
	"strings"

	"hembook/internal/meant"
	"hembook/internal/say"
)

// checkFittings looks at the rounds of fitting and what each changed.
func (c *buildCheck) checkFittings() {
	for i := range c.b.Fittings {
		f := &c.b.Fittings[i]
		for j := range f.Change {
			ch := &f.Change[j]
			if ch.SetOn.Given() {
				c.changedSetOn(ch)
				continue
			}
			if !ch.At.Given() || !ch.Edge.Given() {
				continue
			}
			ref, ok := partNamed(ch.Edge)
			if c.ofNotion(ch) {
				c.change(ch)
				continue
			}
			if p := c.ofSlash(ch, ch.Edge.V); p != nil {
				c.changesSlash(ch, p)
				continue
			}
			if !ok && c.changedWhole(ch.Edge) {
				continue
			}
			if !ok {
				c.noPart(ch.Edge)
				continue
			}
			p := c.pieceNamed(ref)
			if p == nil {
				continue
			}
			c.ofDart(ch, ref.Edge, p)
			c.ofPleat(ch, ref.Edge, p)
			c.ofLine(ch, ref.Edge, p)
			c.ofGather(ch, ref.Edge, p)
			switch {
			case ch.Edge.Given() && len(ch.dartWords()) > 0 && c.dartUnnamed(ch, ref):
				continue
			case ch.Edge.Given():
				c.edgeRef(ref)
			}
			if !c.changesSlash(ch, p) {
				c.change(ch)
			}
		}
	}
	c.drawnFirst()
	c.roundsFollow()
}

// changeIn checks a change of a piece that is like another.
func (c *buildCheck) changeIn(ch *Change, p *Piece) {
	if !ch.At.Given() || !ch.Edge.Given() {
		return
	}
	if ch.Edge.V != p.Name.V || c.ofSlash(ch, ch.Edge.V) == nil {
		c.ofDart(ch, ch.Edge.V, p)
		c.ofPleat(ch, ch.Edge.V, p)
		c.ofLine(ch, ch.Edge.V, p)
		c.ofGather(ch, ch.Edge.V, p)
		c.edgeIn(ch.Edge, p)
	}
	if !c.changesSlash(ch, p) {
		c.change(ch)
	}
}

// ofDart finds out whether a change is of a dart: "waist dart", where no edge is
// called so. Which darts there are depends on the changes before, so the figures
// tell whether this one is there.
func (c *buildCheck) ofDart(ch *Change, name string, p *Piece) {
	end := say.Of("record.dart")
	if !strings.HasSuffix(name, end) || slices.Contains(c.renamed(p), name) {
		return
	}
	ch.Dart, ch.Edge = ch.Edge, Text{}
	if !c.calledDart(name) {
		ch.Dart.V = strings.TrimSuffix(ch.Dart.V, end)
	}
}

// ofPleat finds out whether a change is of pleats: "yoke pleat", where no edge is called
// so.
func (c *buildCheck) ofPleat(ch *Change, name string, p *Piece) {
	edge, ok := strings.CutSuffix(strings.TrimSuffix(name, "s"), " pleat")
	if !ok {
		edge, ok = strings.CutSuffix(strings.TrimSuffix(name, "s"), " tuck")
	}
	if !ok || !ch.Edge.Given() || slices.Contains(c.renamed(p), name) {
		return
	}
	whole := strings.TrimSuffix(ch.Edge.V, name)
	ch.Pleat, ch.Edge = Text{whole + edge, ch.Edge.At}, Text{}
	c.edgeIn(Text{edge, ch.Pleat.At}, p)
	if from := takenOver(c, p, pleatsOf); !slices.ContainsFunc(from, func(q PleatSpec) bool { return q.Edge.V == edge }) {
		var names []string
		for _, q := range from {
			names = append(names, say.Of("record.pleat", q.Edge.V))
		}
		c.faults.Wrong(ch.Pleat.At, meant.Among(name, names, say.Of("record.there-are")), say.Of("record.has-no-pleats-on", p.Name.V, fault.Shorten(edge))).
			Instead(name, meant.Nearest(name, names))
	}
}

// takenOver is a list of a piece, or that of the piece it is like where it has none.
func takenOver[T any](c *buildCheck, p *Piece, of func(*Piece) []T) []T {
	for n := 0; p != nil && n <= len(c.b.Pieces); n++ {
		if list := of(p); len(list) > 0 || !p.Like.Given() {
			return list
		}
		p = c.pieces[p.Like.V]
	}
	return nil
}

func pleatsOf(p *Piece) []PleatSpec   { return p.Pleats }
func gathersOf(p *Piece) []GatherSpec { return p.Gathers }

// calledDart reports whether a dart has the word dart in its own name.
func (c *buildCheck) calledDart(name string) bool {
	return slices.ContainsFunc(c.b.Pieces, func(p Piece) bool {
		return slices.ContainsFunc(p.Darts, func(d DartSpec) bool { return d.Name.V == name })
	})
}

// roundsFollow warns of a round that is dated before the one above it: it may be a
// slip of the pen, and the rounds are made in their order.
func (c *buildCheck) roundsFollow() {
	for i := 1; i < len(c.b.Fittings); i++ {
		f, last := &c.b.Fittings[i], &c.b.Fittings[i-1]
		if f.On.Given() && last.On.Given() && f.On.V.before(last.On.V) {
			c.faults.LookAgain(f.On.At, say.Of("record.is-the-day-right-fittings-stand-in"),
				say.Of("record.fitting-is-dated-before-fitting-on", f.Round.V, f.On.V, last.Round.V, last.On.V))
		}
	}
}

// partNamed splits a name as front.side at its last dot.
func partNamed(t Text) (EdgeRef, bool) {
	dot := strings.LastIndex(t.V, ".")
	if dot <= 0 || dot == len(t.V)-1 {
		return EdgeRef{}, false
	}
	return EdgeRef{At: t.At, Piece: t.V[:dot], Edge: t.V[dot+1:]}, true
}

// Part is the piece and the edge, or the dart, that a change of a round of
// fitting names, without an edge where the piece is slashed; false where it names none.
func (c *Change) Part() (EdgeRef, bool) {
	if c.Dart.Given() {
		return partNamed(c.Dart)
	}
	if c.Pleat.Given() {
		return partNamed(c.Pleat)
	}
	if c.Line.Given() {
		return partNamed(c.Line)
	}
	if c.Gather.Given() {
		return partNamed(c.Gather)
	}
	if c.Whole.Given() {
		return EdgeRef{At: c.Whole.At, Piece: c.Whole.V}, true
	}
	return partNamed(c.Edge)
}

// InOrder lists the rounds of fitting.
func (b *Build) InOrder() []*Fitting {
	out := make([]*Fitting, len(b.Fittings))
	for i := range b.Fittings {
		out[i] = &b.Fittings[i]
	}
	return out
}

// drawnFirst faults a round that is said to be drawn into the outlines after
// one that is not: nobody could say what the outlines then show.
func (c *buildCheck) drawnFirst() {
	var open *Fitting
	for _, f := range c.b.InOrder() {
		switch {
		case f.Drawn.V && open != nil:
			c.faults.Wrong(f.Drawn.At, say.Of("record.say-drawn-true-of-the-earlier-fitting"),
				say.Of("record.fitting-is-drawn-into-the-outlines-but", f.Round.V, open.Round.V))
			return
		case !f.Drawn.V && slices.ContainsFunc(f.Change, func(ch Change) bool { return ch.Does() }):
			open = f
		}
	}
}

// Does reports whether a change alters a line, and does not only tell of it.
func (c *Change) Does() bool {
	return len(c.setOnWords()) > 0 || len(c.edgeWords()) > 0 || len(c.dartWords()) > 0 || len(c.pleatWords()) > 0 || len(c.notionWords()) > 0 || len(c.gatherWords()) > 0 || c.Slash.Given() && c.Spread.Given()
}

func (c *Change) edgeWords() []Text {
	return givenWords([]Text{
		{"move", c.Move.At}, {"start", c.Start.At}, {"end", c.End.At}, {"lengthen", c.Lengthen.At}, {"curve", c.Curve.At},
	})
}

func (c *Change) dartWords() []Text {
	words := []Text{
		{"width", c.Width.At}, {"length", c.Length.At}, {"at", c.Place.At}, {"close", c.Close.At}, {"unsewn", c.Unsewn.At},
	}
	if c.Rotate != nil {
		words = append(words, Text{"rotate", c.Rotate.At})
	}
	return givenWords(words)
}

func (c *Change) pleatWords() []Text {
	return givenWords([]Text{{"depth", c.Depth.At}, {"count", c.Count.At}, {"stitched", c.Stitched.At}, {"runs", c.Runs.At}})
}

func givenWords(words []Text) []Text {
	return slices.DeleteFunc(words, func(t Text) bool { return !t.At.Given() })
}

// change checks one change by itself.
func (c *buildCheck) change(ch *Change) {
	edge, dart, pleat := ch.edgeWords(), ch.dartWords(), ch.pleatWords()
	if c.changesNotion(ch) || c.changesGather(ch) {
		return
	}
	if set := ch.setOnWords(); len(set) > 0 {
		c.faults.Wrong(set[0].At, say.Of("record.write-how-far-along-its-edge-as"), say.Of("record.only-a-piece-that-is-set-on"))
	}
	switch {
	case ch.Line.Given():
		c.changedLine(ch)
	case ch.Pleat.Given() && len(edge)+len(dart) > 0:
		other := append(edge, dart...)[0]
		c.faults.Wrong(other.At, say.Of("record.of-pleats-depth-count-stitched-and-runs"), say.Of("record.does-not-belong-to-pleats", other.V))
	case !ch.Pleat.Given() && len(pleat) > 0:
		c.faults.Wrong(pleat[0].At, say.Of("record.if-you-mean-the-pleats-pleat", ch.Edge.otherwise(ch.Dart).V), say.Of("record.belongs-to-pleats", pleat[0].V))
	case ch.Edge.Given() && len(dart) > 0:
		c.faults.Wrong(dart[0].At, say.Of("record.if-you-mean-the-dart-dart", ch.Edge.V), say.Of("record.belongs-to-a-dart-is-an-edge", dart[0].V, ch.Edge.V))
	case ch.Dart.Given() && len(edge) > 0:
		c.faults.Wrong(edge[0].At, say.Of("record.if-you-mean-the-edge", ch.Dart.V), say.Of("record.belongs-to-an-edge-dart-is-a", edge[0].V, ch.Dart.V))
	case !ch.Does() && !ch.Note.Given() && !ch.unread:
		c.faults.LookAgain(ch.At, say.Of("record.add-move-lengthen-curve-or-note"), say.Of("record.this-change-does-not-say-what-is"))
	}
	c.together(ch)
}

// changedLine checks a change of a line on a piece: of one beside an edge its distance
// can change, of one from a place on an edge that place and its length.
func (c *buildCheck) changedLine(ch *Change) {
	mine := givenWords([]Text{{"move", ch.Move.At}, {"length", ch.Length.At}, {"at", ch.Place.At}})
	for _, word := range slices.Concat(ch.edgeWords(), ch.dartWords(), ch.pleatWords()) {
		if !slices.Contains(mine, word) {
			c.faults.Wrong(word.At, say.Of("record.of-a-line-move-length-and-at"), say.Of("record.does-not-belong-to-a-line", word.V))
		}
	}
	ref, _ := partNamed(ch.Line)
	l := c.line(c.pieceMeant(ref.Piece), ref.Edge)
	switch {
	case !ch.Does() && !ch.Note.Given():
		c.faults.LookAgain(ch.At, say.Of("record.add-move-length-at-or-note"), say.Of("record.this-change-does-not-say-what-is"))
	case l == nil:
	case l.Along.Given() && len(mine) > 0 && mine[0].V != "move":
		c.faults.Wrong(mine[0].At, say.Of("record.write-move-how-much-nearer-to-its"), say.Of("record.has-no-place-in-a-line-beside", mine[0].V))
	case !l.Along.Given() && ch.Move.Given():
		c.faults.Wrong(ch.Move.At, say.Of("record.write-at-how-far-along-its-edge"), say.Of("record.move-is-for-a-line-beside-an", ref.Edge))
	case ch.Length.Given() && l.To.Given():
		c.faults.Wrong(ch.Length.At, say.Of("record.draw-the-line-anew-in-the-record"), say.Of("record.ends-at-a-place-so-no-length", ref.Edge))
	case ch.Place.Given() && l.From.V.Edge == "":
		c.faults.Wrong(ch.Place.At, say.Of("record.draw-the-line-anew-in-the-record"), say.Of("record.begins-at-a-point-and-on-no", ref.Edge))
	}
}

// dartUnnamed answers a change of "front.dart", where the edge that the dart lies on is
// not named; false for all else.
func (c *buildCheck) dartUnnamed(ch *Change, ref EdgeRef) bool {
	darts := c.pieceMeant(ref.Piece).Darts
	if ref.Edge != "dart" && ref.Edge != "darts" || len(darts) == 0 {
		return false
	}
	var names []string
	for i := range darts {
		if name := say.Of("record.dart-2", ref.Piece, darts[i].Edge.V); !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	f := c.faults.Wrong(ch.Edge.At, say.Of("record.write", meant.List(names, "or")), say.Of("record.a-dart-is-named-by-the-edge", ch.Edge.V))
	if len(names) == 1 {
		f.Instead(ch.Edge.V, names[0])
	}
	return true
}

// together faults words of a change that cannot stand side by side.
func (c *buildCheck) together(ch *Change) {
	if ends := givenWords([]Text{{"start", ch.Start.At}, {"end", ch.End.At}}); ch.Move.Given() && len(ends) > 0 {
		c.faults.Wrong(ends[0].At, say.Of("record.keep-move-or-start-and-end"), say.Of("record.move-moves-the-whole-edge-so-moves", ends[0].V))
	}
	var gone []Text
	if ch.Rotate != nil {
		gone = append(gone, Text{"rotate", ch.Rotate.At})
	}
	gone = append(gone, givenWords([]Text{{"close", ch.Close.At}, {"unsewn", ch.Unsewn.At}})...)
	if len(gone) > 0 && len(ch.dartWords()) > 1 {
		c.faults.Wrong(gone[0].At, say.Of("record.keep-one-of-them"), say.Of("record.a-dart-cannot-be-turned-away-closed"))
	}
}

// dart checks that a dart's depth is given once.
func (c *buildCheck) dart(d *DartSpec) {
	if d.At.Given() && d.Length.Given() == d.Point.Given() {
		both := say.Of("record.a-dart-is-given-by-its-length")
		if d.Length.Given() {
			c.faults.Wrong(d.At, say.Of("record.keep-length-or-point"), both).Without(d.Point.At)
		} else {
			c.faults.Wrong(d.At, say.Of("record.add-how-long-it-is-as-length"), both)
		}
	}
}

// ofWhichPiece asks of which piece an edge is that is named alone.
func (c *buildCheck) ofWhichPiece(edge string) string {
	var all []string
	for i := range c.b.Pieces {
		if p := c.b.Pieces[i].Name.V; slices.Contains(c.edges[p], edge) {
			all = append(all, p+"."+edge)
		}
	}
	if len(all) == 0 || len(all) > 6 {
		return anyEdge
	}
	return say.Of("record.of-which-piece-say", meant.List(all, "or"))
}

// noPart tells of a change of what is no edge and no seam.
func (c *buildCheck) noPart(name Text) {
	if c.handWithoutEdge(name) {
		return
	}
	hint, now := c.ofWhichPiece(name.V), ""
	if hint == anyEdge {
		if now = c.dotted(name.V); now == "" {
			now = c.seamMeant(name.V)
		}
		if now == "" {
			now = meant.Nearest(name.V, c.notionNames())
		}
		if now != "" {
			hint = say.Of("record.did-you-mean", now)
		}
	}
	c.faults.Wrong(name.At, hint, say.Of("record.does-not-name-an-edge-of-a", say.Quoted(fault.Shorten(name.V)))).Instead(name.V, now)
}

// notionNames are the names of what is set out along an edge, which a round may change.
func (c *buildCheck) notionNames() (out []string) {
	for i := range c.b.Notions {
		if n := &c.b.Notions[i]; n.SetOut() {
			out = append(out, n.Name.V)
		}
	}
	return out
}

// dotted is a name with the dot behind its piece that was forgotten: "back yoke pleat" is
// back.yoke pleat; "" where no piece and no edge of it make it up.
func (c *buildCheck) dotted(name string) string {
	for i := range c.b.Pieces {
		p := c.b.Pieces[i].Name.V
		rest, ok := strings.CutPrefix(name, p+" ")
		if ok && slices.ContainsFunc(c.edges[p], func(e string) bool { return rest == e || strings.HasPrefix(rest, e+" ") }) {
			return p + "." + rest
		}
	}
	return ""
}

// seamMeant is the seam that was probably meant: "side seams" is sides; "" where none is near.
func (c *buildCheck) seamMeant(name string) string {
	plain := strings.TrimPrefix(name, "the ")
	plain = strings.TrimSuffix(strings.TrimSuffix(plain, " seams"), " seam")
	if all := c.seamNames(); slices.Contains(all, plain) {
		return plain
	}
	return meant.Nearest(plain, c.seamNames())
}

var anyEdge = say.Of("record.write-piece-edge-as-front-side-or")
