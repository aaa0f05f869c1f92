package garment

import (
	"math"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// stretchCloth is the cloth by which a piece stretches: of its own and those that back
// it that which gives least across the outline, or along it; nil where none is known.
func (w *index) stretchCloth(p *Piece, across bool) *record.Cloth {
	var least *record.Cloth
	for k, part := range p.Of {
		if k > 0 && sewnApart(part) {
			continue // a layer of its own
		}
		if c := w.clothIn(part); c != nil && (least == nil || stretchIn(c, p.Grain, across).V < stretchIn(least, p.Grain, across).V) {
			least = c
		}
	}
	return least
}

// stretchIn is what a cloth gives across a piece, or along it, as the piece lies on it;
// the lesser of both ways where it may lie as it will.
func stretchIn(c *record.Cloth, grain string, across bool) record.Percent {
	s := &c.Stretch
	switch {
	case grain == "any" && s.Along.V < s.Across.V:
		return s.Along
	case grain == "any" || (grain == "across") != across:
		return s.Across
	}
	return s.Along
}

// stretch is what a piece gives across its outline, or along it; not known where its
// cloth may give and does not say how far.
func (w *index) stretch(p *Piece, across bool) figure.Term {
	c := w.stretchCloth(p, across)
	switch {
	case c == nil:
		return w.Unknown(say.Of("garment.the-cloth-of-is-not-known", p.Name))
	case p.Grain == "bias":
		return w.Unknown(say.Of("garment.is-cut-on-the-bias", p.Name))
	case c.Stretch.Given():
		name := say.Of("garment.stretch-along")
		if by := stretchIn(c, p.Grain, across); by.Given() {
			if by == c.Stretch.Across {
				name = say.Of("garment.stretch-across")
			}
			return w.Written(name, float64(by.V), measure.UnitPercent, by.At)
		}
		return w.Unknown(say.Of("garment.says-how-far-it-stretches-in-one", c.Name.V))
	case c.Gives():
		return w.Unknown(say.Of("garment.the-file-of-does-not-say-stretch", c.Name.V))
	}
	return w.Constant(0, measure.UnitPercent)
}

// stretched works out how wide a level becomes when its cloth is stretched as far as it
// gives; not set where no cloth there says that it does, or it is drawn in there.
func (w *levelReckoner) stretched(l *Level, base string) {
	says := func(c crossing) bool {
		cloth := w.stretchCloth(c.piece, true)
		return cloth != nil && cloth.Stretch.Given()
	}
	if l.Drawn || !slices.ContainsFunc(l.cross, says) {
		return
	}
	drawn, rest := w.drawnUp(l.cross)
	if len(drawn) > 0 {
		rest = l.cross // what is gathered there opens first: it is not said how far
	}
	terms := make([]figure.Term, len(rest))
	for i := range rest {
		terms[i] = w.Of(rest[i].fig.Of, rest[i].fig).By(float64(rest[i].times)).Times(w.stretch(rest[i].piece, true))
	}
	more, rule := w.Sum(terms...), say.Of("garment.finished-sewn-width-times-times-cut")
	if l.Limbs > 1 {
		more, rule = more.Part(float64(l.Limbs)), say.Of("garment.finished-sewn-width-times-times-cut-2", countWord(l.Limbs))
	}
	if len(drawn) > 0 {
		more = more.Unless(say.Of("garment.it-is-gathered-there"))
	}
	l.Most = w.Figure(w.Join(base, ".most"), say.Of("garment.stretched-at-most"), l.Name, w.Of("finished", &l.Finished).Plus(more), mm, rule, figure.Derived)
}

// bandsStretch tells of bands that their cloth does not stretch to what they are sewn to.
func (w *doubter) bandsStretch() {
	for _, s := range w.g.Seams {
		if !s.stretches() || s.broken || s.band.Record.Band.Share.V >= 1 {
			continue
		}
		share := s.band.Record.Band.Share
		c := w.stretchCloth(s.band, true)
		if c == nil || c.Gives() && !c.Stretch.Given() {
			continue // nobody says how far
		}
		need, gives := 100*(1/float64(share.V)-1), float64(stretchIn(c, s.band.Grain, true).V)
		if need <= gives+1e-6 {
			continue
		}
		hint := say.Of("garment.make-it-longer-or-cut-it-in")
		if other := float64(stretchIn(c, s.band.Grain, false).V); need <= other {
			hint = say.Of("garment.cut-it-the-other-way-of-the-cloth", words.PlainNumber(other, 0))
		}
		w.faults.LookAgain(share.At, hint, say.Of("garment.must-stretch-gives-there", s.band.Name, words.PlainNumber(need, 0), c.Name.V, words.PlainNumber(gives, 0)))
	}
}

// stretchLittle is what a knit gives at most, in per cent, that is sewn like woven cloth:
// from memory (a table of stretch by pattern companies calls it stable).
const stretchLittle = 18

// A stiffStitch is a stitch that does not stretch, and what is sewn in it that should.
type stiffStitch struct {
	stitch *trade.Stitch
	cloth  *record.Cloth
	names  []string
	at     fault.Pos
}

// unstretching tells of seams and hems that are sewn on cloth that stretches along
// them in a stitch that does not: of each stitch once.
func (w *doubter) unstretching() {
	var all []stiffStitch
	for i := range w.g.Rows {
		r := &w.g.Rows[i]
		s := w.t.stitches[r.Stitch]
		if s == nil || s.Stretches || r.Hand || r.Temporary || r.Rows == 0 || r.pass == nil || r.pass.Stretches {
			continue
		}
		cloth, at := w.stretchesAlong(r)
		if cloth == nil {
			continue
		}
		k := slices.IndexFunc(all, func(t stiffStitch) bool { return t.stitch == s })
		if k < 0 {
			k, all = len(all), append(all, stiffStitch{s, cloth, nil, at})
		}
		if !has(all[k].names, r.Of) {
			all[k].names = append(all[k].names, r.Of)
		}
	}
	for _, t := range all {
		w.faults.LookAgain(t.at, say.Of("garment.stitch-504-an-overedge-does-or-304"),
			say.Of("garment.stitch-does-not-stretch-and-does", someNames(t.names), t.stitch.Type, t.stitch.Name, t.cloth.Name.V))
	}
}

// someNames are a few names, and how many more there are.
func someNames(names []string) string {
	const few = 3
	if len(names) > few+1 {
		return say.Of("garment.and-more", strings.Join(names[:few], ", "), strconv.Itoa(len(names)-few))
	}
	return strings.Join(names, ", ")
}

// stretchesAlong is the cloth that stretches along a row where all that it sews does and
// nothing holds it, and where that seam or finish is written; nil for others.
func (w *doubter) stretchesAlong(r *Row) (*record.Cloth, fault.Pos) {
	var uses []EdgeUse
	var at fault.Pos
	switch r.Kind {
	case SeamRow:
		s := w.g.Seams[slices.IndexFunc(w.g.Seams, func(s *Seam) bool { return s.Name == r.Of })]
		if s.broken || s.at || s.set || slices.ContainsFunc(s.Strips, func(n StripNeed) bool { return n.As == trade.Stay || n.As == trade.Zip }) {
			return nil, at
		}
		uses, at = append(slices.Clone(s.Sides[0].Edges), s.Sides[1].Edges...), s.Record.At
	case FinishRow:
		f := w.g.Finishes[slices.IndexFunc(w.g.Finishes, func(f *Finish) bool { return f.Name == r.Of })]
		uses, at = f.Edges, f.Record.At
	}
	if len(uses) == 0 || w.heldBy(r.Of, uses) {
		return nil, at
	}
	for _, u := range uses {
		if !w.givesAlong(u) {
			return nil, at
		}
	}
	return w.stretchCloth(uses[0].Piece, !steep(uses[0])), at
}

// heldBy reports whether a stay or a tape runs in a seam or finish or along one of its
// edges.
func (w *doubter) heldBy(name string, uses []EdgeUse) bool {
	stays := func(n *record.Notion) bool {
		return n != nil && holdsItsLength(n) && !words.AnyOf(n.Is(), []string{"elastic"})
	}
	for i := range w.notions {
		n := &w.notions[i]
		if stays(n) && slices.ContainsFunc(n.In, func(in record.Text) bool { return in.V == name }) {
			return true
		}
	}
	return slices.ContainsFunc(uses, func(u EdgeUse) bool { return stays(w.notionOn(u.Edge)) })
}

// givesAlong reports whether the cloth of an edge stretches along it: more than a stable
// knit does, or nobody says how far.
func (w *doubter) givesAlong(u EdgeUse) bool {
	c := w.stretchCloth(u.Piece, !steep(u))
	if c == nil || u.Edge.line != nil || u.Piece.Grain == "bias" {
		return false
	}
	if by := stretchIn(c, u.Piece.Grain, !steep(u)); c.Stretch.Given() {
		return by.V > stretchLittle
	}
	return c.Structure.V == "knitted"
}

// steep reports whether an edge runs rather up its outline than across.
func steep(u EdgeUse) bool {
	if u.Edge.line != nil {
		return false
	}
	from, to := u.Edge.corner(false), u.Edge.corner(true)
	return math.Abs(to.Y-from.Y) > math.Abs(to.X-from.X)
}
