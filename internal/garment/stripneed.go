package garment

import (
	"slices"
	"strconv"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/meant"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// A stripped is a seam or finish as its strips see it.
type stripped struct {
	*measures
	base, name string
	part       string         // the cloth that the record has its strips cut from
	total      *figure.Figure // length of all its edges
	times      int            // how often it is sewn: so many rings, or edges
	places     int            // how many places it has that pieces are brought for: a slit has two sides
	ring       bool           // each of them comes back to itself
	share      record.Turns   // the record's own
	long       record.Length
	met        func(as trade.Role) *record.Notion // what the record has of that kind in it
}

func (w *derivation) seamStrips(s *Seam, base string) []StripNeed {
	return w.stripsOf(&stripped{
		measures: seamMeasures(s), base: base, name: s.Name, part: s.Record.Strip.V, total: &s.Total, times: max(s.Times, 1), places: max(s.Times, 1),
		share: s.Record.Share, long: s.Record.Long,
		met: func(as trade.Role) *record.Notion { return w.notionFor(as, s.Name, s.uses) },
	})
}

func (w *derivation) finishStrips(f *Finish, base string) []StripNeed {
	c := &stripped{
		measures: finishMeasures(f), base: base, name: f.Name, part: f.Record.Strip.V, total: &f.Total,
		share: f.Record.Share, long: f.Record.Long,
		met: func(as trade.Role) *record.Notion { return w.notionFor(as, f.Name, f.uses) },
	}
	if len(f.kind.Strips) == 0 && len(f.kind.Pieces) == 0 {
		return w.stripsOf(c)
	}
	if n, closed, _ := w.linesAlong(f); n > 0 && !f.onLines() {
		c.times, c.places, c.ring = n, n, closed
	} else {
		for _, u := range f.Edges {
			times := u.Times() * u.Piece.sets()
			if c.times += times; u.Edge.line != nil && u.Edge.line.Slit {
				times /= 2
			}
			c.places += times
		}
	}
	f.Drawn = w.drawnIn(c)
	return w.stripsOf(c)
}

// onLines reports whether a finish runs along lines of pieces, as slits are.
func (f *Finish) onLines() bool {
	return slices.ContainsFunc(f.Edges, func(u EdgeUse) bool { return u.Edge.line != nil })
}

// notionWords are the words for notions that are what a strip of a role would be.
var notionWords = map[trade.Role][]string{
	trade.Elastic: {"elastic"},
	trade.Zip:     {"zip", "zipper"},
	trade.Cord:    {"cord", "drawstring"},
	trade.Stay:    {"stay", "tape"},
}

// notionFor is the notion of the record that goes into a seam or finish, or along one of
// its edges, and is what the strip of its type would be; nil where there is none.
func (w *derivation) notionFor(as trade.Role, name string, uses func(*PieceEdge) bool) *record.Notion {
	of, ok := notionWords[as]
	if !ok {
		return nil
	}
	for i := range w.b.Notions {
		n := &w.b.Notions[i]
		if !words.AnyOf(n.Is(), of) {
			continue
		}
		if slices.ContainsFunc(n.In, func(in record.Text) bool { return in.V == name }) {
			return n
		}
		if n.Along.Given() {
			if use, ok := w.use(n.Along.V); ok && uses(use.Edge) {
				return n
			}
		}
	}
	return nil
}

// cutsFrom reports whether a strip of a role is cut from cloth where the record names
// one; elastic, zips and cords are bought.
func cutsFrom(as trade.Role) bool {
	return slices.Contains([]trade.Role{trade.Tape, trade.Facing, trade.Lining, trade.Interfacing, trade.Ribbing, trade.Stay}, as)
}

// stripsOf works out the strips and pieces a seam type takes; what the record has as a
// notion is not taken twice.
func (w *derivation) stripsOf(c *stripped) []StripNeed {
	t := c.kind
	if len(t.Strips) == 0 && (c.share.Given() || c.long.Given()) {
		at, word := c.share.At, "share"
		if !c.share.Given() {
			at, word = c.long.At, "length"
		}
		w.faults.Wrong(at, say.Of("garment.leave-it-out-or-name-a-type"), say.Of("garment.has-no-strip-so-means-nothing-here", c.name, t.Name, word)).Without(at)
	}
	if len(t.Strips)+len(t.Pieces) == 0 {
		return nil
	}
	out := make([]StripNeed, 0, len(t.Strips)+len(t.Pieces))
	for i := range t.Strips {
		rule := &t.Strips[i]
		if _, err := rule.Cut.Value(c.params); err != nil || c.met(rule.As) != nil {
			continue
		}
		s := StripNeed{What: rule.What, As: rule.As, Count: c.times * rule.Count, Times: c.times * rule.Count}
		if cutsFrom(rule.As) {
			s.Cloth = c.part
		}
		base := w.Join(c.base, ".strip-", strconv.Itoa(i+1))
		s.Cut = w.Figure(w.Join(base, ".cut"), say.Of("garment.cut-width-2", rule.What), c.name, w.formula(rule.Cut, c.measures), mm, w.prettyRule(rule.Cut), t.Source)
		w.stripLength(&s, c, rule, base)
		out = append(out, s)
	}
	for i := range t.Pieces {
		rule := &t.Pieces[i]
		if _, err := rule.Cut.Value(c.params); err != nil {
			continue
		}
		s := StripNeed{What: rule.What, Cloth: c.part, Count: c.places * rule.Count, rule: rule, of: c.name, params: c.params}
		if _, has := w.b.Cloth.Get(rule.Of); s.Cloth == "" && has {
			s.Cloth = rule.Of
		}
		if s.Cloth == "" && len(w.b.Cloth) > 0 {
			s.Cloth = w.b.Cloth[0].Name.V
		}
		base := w.Join(c.base, ".piece-", strconv.Itoa(i+1))
		s.Cut = w.Figure(w.Join(base, ".cut"), say.Of("garment.cut-width-2", rule.What), c.name, w.formula(rule.Cut, c.measures), mm, w.prettyRule(rule.Cut), t.Source)
		w.longAs(&s, c, rule.Length, base)
		out = append(out, s)
	}
	for i := range out {
		if out[i].Piece() {
			continue // counted as the piece that it is
		}
		w.strips = append(w.strips, clothStrip{part: out[i].Cloth, what: c.name, cut: &out[i].Cut, length: &out[i].Length})
	}
	return out
}

// stripLength is how long a strip is: as its edges, as the record says, or as its type
// says.
func (w *derivation) stripLength(s *StripNeed, c *stripped, rule *trade.Strip, base string) {
	title := say.Of("garment.length")
	sewn := w.Of(say.Of("garment.length-sewn"), c.total)
	if !sewn.Known() {
		sewn = sewn.Unless(say.Of("garment.the-length-sewn-is-not-known"))
	}
	switch {
	case c.long.Given():
		s.Each = w.Figure(w.Join(base, ".each"), say.Of("garment.length-of-one-2", rule.What), c.name, w.Length("length", c.long), mm, say.Of("garment.as-the-record-says"), figure.Recorded)
		w.allOf(s, c, base)
	case rule.Length.Given():
		w.longAs(s, c, rule.Length, base)
	case rule.Shares() != 1 || c.share.Given():
		all := w.Sourced(figure.Default, "share", rule.Shares(), measure.UnitRatio, fault.Pos{}, say.Of("garment.default-of-the-seam-type"))
		if c.share.Given() {
			all = w.Written("share", float64(c.share.V), measure.UnitRatio, c.share.At)
		}
		each := sewn.Part(float64(c.times)).Times(all)
		s.Each = w.Figure(w.Join(base, ".each"), say.Of("garment.length-of-one-2", rule.What), c.name, each, mm, say.Of("garment.length-of-the-edge-times-share-what"), c.kind.Source)
		w.allOf(s, c, base)
	default:
		s.Count = 0
		s.Length = w.Figure(w.Join(base, ".length"), rule.What+title, c.name, sewn.By(float64(rule.Count)), measure.UnitM,
			say.Of("garment.length-sewn-times-strips-what-joins"), figure.Derived)
	}
}

// longAs gives a strip or piece the length that a formula of its type makes of the edge.
func (w *derivation) longAs(s *StripNeed, c *stripped, e trade.Expr, base string) {
	m := *c.measures
	m.along = w.Of(say.Of("garment.length-sewn"), c.total).Part(float64(c.times))
	each := w.formula(e, &m)
	if !c.total.Value.Known() {
		each = each.Unless(say.Of("garment.the-length-sewn-is-not-known"))
	}
	s.Each = w.Figure(w.Join(base, ".each"), say.Of("garment.length-of-one-2", s.What), c.name, each, mm, w.prettyRule(e), c.kind.Source)
	w.allOf(s, c, base)
}

// allOf adds up all strips of one length.
func (w *derivation) allOf(s *StripNeed, c *stripped, base string) {
	s.Length = w.Figure(w.Join(base, ".length"), say.Of("garment.length-of-all-2", s.What), c.name, w.Of(say.Of("garment.length-of-one"), &s.Each).By(float64(s.Count)), measure.UnitM,
		say.Of("garment.length-of-one-times-how-many"), figure.Derived)
}

// drawnAlong tells of edges that a notion of elastic lies along what it draws them in to.
func (w *derivation) drawnAlong() {
	for i := range w.b.Notions {
		n := &w.b.Notions[i]
		if !n.Along.Given() || !n.Share.Given() || n.SetOut() || !words.AnyOf(n.Is(), notionWords[trade.Elastic]) {
			continue
		}
		if use, ok := w.use(n.Along.V); ok && use.Edge.Drawn.ID == "" {
			e := use.Edge
			e.Drawn = w.Figure(w.Join(e.base, ".drawn"), say.Of("garment.drawn-in-to"), n.Name.V, w.Written("share", float64(n.Share.V), measure.UnitRatio, n.Share.At), measure.UnitRatio, say.Of("garment.as-the-record-says"), figure.Recorded)
		}
	}
}

// drawnIn is how long a finish's elastic or ribbing is for one of its edge, by what the
// record says of it or of the notion that lies in it, else by its type; not set where
// nothing draws it in.
func (w *derivation) drawnIn(c *stripped) figure.Figure {
	rule, draws := c.kind.DrawnIn()
	if !draws || !c.total.Value.Known() {
		return figure.Figure{}
	}
	share, long := c.share, c.long
	if n := c.met(rule.As); n != nil {
		if share, long = n.Share, n.Length; !share.Given() && !long.Given() {
			return figure.Figure{} // as long as its channel, which the notion tells
		}
	}
	id, title := w.Join(c.base, ".drawn"), say.Of("garment.drawn-in-to")
	switch {
	case long.Given():
		t := w.Length("length", long).Over(w.Of(say.Of("garment.length-sewn"), c.total).Part(float64(max(c.times, 1))))
		return w.Figure(id, title, c.name, t, measure.UnitRatio, say.Of("garment.length-of-the-elastic-by-length-of"), figure.Derived)
	case share.Given():
		return w.Figure(id, title, c.name, w.Written("share", float64(share.V), measure.UnitRatio, share.At), measure.UnitRatio, say.Of("garment.as-the-record-says"), figure.Recorded)
	case rule.Shares() < 1:
		t := w.Sourced(figure.Default, "share", rule.Shares(), measure.UnitRatio, fault.Pos{}, say.Of("garment.default-of-the-seam-type"))
		return w.Figure(id, title, c.name, t, measure.UnitRatio, say.Of("garment.its-types-share-of-the-edge"), c.kind.Source)
	}
	return figure.Figure{}
}

// wanted faults edges to which a type is not sewn, as a placket that wants a slit.
func (w *derivation) wanted(t *seamType, name string, sides ...record.List[record.EdgeRef]) {
	if len(t.Wants) == 0 {
		return
	}
	var want []string
	for _, at := range t.Wants {
		want = append(want, at.Words())
	}
	for _, side := range sides {
		for _, ref := range side {
			at := trade.OnEdge
			if !ref.Part.Whole() {
				at = trade.OnPart
			}
			if p := w.named[ref.Piece]; p != nil {
				l := p.lineCalled(ref.Edge)
				if l == nil && p.edgeCalled(ref.Edge) == nil {
					continue // a line that cannot be laid, which is told
				}
				if l != nil {
					at = l.place()
				}
			}
			if !t.Wants.Take(at) {
				w.faults.Wrong(ref.At, wantsHint(t.Wants[0], ref), say.Of("garment.needs-is", name, t.Name, meant.List(want, "or"), ref, at.Words()))
			}
		}
	}
}

// wantsHint says how what a type wants is written.
func wantsHint(at trade.SewnTo, ref record.EdgeRef) string {
	switch at {
	case trade.OnSlit:
		return say.Of("garment.draw-one-on-as-lines-and-name", ref.Piece)
	case trade.OnLine:
		return say.Of("garment.draw-one-on-as-lines-and-name-2", ref.Piece)
	case trade.OnPart:
		return say.Of("garment.say-from-where-and-how-long-as", ref.String())
	}
	return ""
}

// thirdSide faults a seam of three sides that names two, neither of them cut twice.
func (w *derivation) thirdSide(s *Seam) {
	if s.kind.Sides() < 3 || s.broken || slices.ContainsFunc(s.Plies, func(p SeamPly) bool { return p.With == 1 }) ||
		slices.ContainsFunc(s.Sides[1].Edges, func(u EdgeUse) bool { return u.Piece.Doubled() || u.Piece.foldedOver() }) {
		return
	}
	b := s.Sides[1].Edges[0]
	w.faults.Wrong(s.Record.At, say.Of("garment.name-the-edge-of-the-inner-piece", b.Piece.Name), say.Of("garment.joins-three-edges-and-no-third-one", s.Name, s.kind.Name, b.Edge.ref))
}
