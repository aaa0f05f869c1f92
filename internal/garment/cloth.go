package garment

import (
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/words"
)

// A clothReckoner adds up what each cloth of a garment gives.
type clothReckoner struct {
	*desk
	uses   record.Dict[record.ClothUse]
	shelf  *record.Room
	pieces []*Piece
	strips []clothStrip // cut from the cloths beside the pieces
}

// cloths adds up every cloth of the build (figures 2 and 16).
func (w *clothReckoner) cloths() []*Cloth {
	slugs := words.NamesFor(len(w.uses))
	out, room := make([]*Cloth, len(w.uses)), make([]Cloth, len(w.uses))
	for i := range w.uses {
		use := &w.uses[i]
		c := &room[i]
		out[i] = c
		c.Part, c.Use = use.Name.V, &use.V
		c.Cloth, _ = w.shelf.Cloth(use.V.Use.V)
		for _, p := range w.pieces {
			if cutIn(p, c.Part) {
				c.Pieces = append(c.Pieces, p)
			}
		}
		c.Slug = slugs.Unique(c.Part)
		w.clothSums(c, w.Join("cloth.", c.Slug))
	}
	return out
}

// pick names one of a piece's figures.
type pick func(*Piece) *figure.Figure

func (w *clothReckoner) clothSums(c *Cloth, base string) {
	c.Area = w.sumPieces(w.Join(base, ".area"), say.Of("garment.area-of-its-pieces"), c, func(p *Piece) *figure.Figure { return &p.Area })
	c.Allowance = w.sumPieces(w.Join(base, ".allowance"), say.Of("garment.area-of-its-allowances"), c, func(p *Piece) *figure.Figure { return &p.Allowance })
	c.PiecesCut = w.sumPieces(w.Join(base, ".pieces-cut"), say.Of("garment.area-of-its-pieces-as-cut"), c, func(p *Piece) *figure.Figure { return &p.CutArea })
	w.clothCut(c, base)
	c.Share = w.share(w.Join(base, ".share"), c.Part, &c.Allowance, &c.CutArea)
	c.Length = w.allowanceLength(w.Join(base, ".allowance-length"), c)
	why := say.Of("garment.no-lay-plan-yet-hembook-lay-build")
	if len(c.Pieces) == 0 && !c.CutArea.Value.Known() { // a patch, or the cloth of what came to be mended
		why = say.Of("garment.nothing-is-cut-from-it")
	}
	c.Needed = w.Figure(w.Join(base, ".needed"), "buy", c.Part, w.Unknown(why), measure.UnitM,
		say.Of("garment.length-of-the-lay-by-1-shrink"), figure.Practice)
	w.clothMass(c, base)
}

// sumPieces adds up an area over the pieces of a cloth, each as often as it is cut in
// it.
func (w *clothReckoner) sumPieces(id, title string, c *Cloth, of pick) figure.Figure {
	terms := make([]figure.Term, len(c.Pieces))
	for i, p := range c.Pieces {
		f := of(p)
		terms[i] = w.Of(p.Name, f)
		if !f.Value.Known() {
			terms[i] = terms[i].Unless(say.Of("garment.not-known-for", p.Name, f.Value.Why))
		}
		terms[i] = terms[i].By(float64(p.CutIn(c.Part)))
	}
	return w.Figure(id, title, c.Part, w.SumOr(say.Of("garment.no-piece-is-cut-in-it"), terms), measure.UnitM2, say.Of("garment.of-one-piece-times-times-cut"), figure.Derived)
}

// clothCut is all that is cut from a cloth: pieces and strips.
func (w *clothReckoner) clothCut(c *Cloth, base string) {
	var terms []figure.Term
	if len(c.Pieces) > 0 {
		terms = append(terms, w.Of("pieces", &c.PiecesCut))
	}
	for i := range w.strips {
		s := &w.strips[i]
		if s.part != c.Part {
			continue
		}
		strip := w.Of(say.Of("garment.cut-width-of-the-strip-for", s.what), s.cut).Times(w.Of(say.Of("garment.its-length"), s.length))
		if !strip.Known() {
			strip = strip.Unless(say.Of("garment.the-length-of-a-strip-is-not"))
		}
		terms = append(terms, strip)
	}
	c.CutArea = w.Figure(w.Join(base, ".cut-area"), say.Of("garment.area-of-all-that-is-cut-from"), c.Part, w.SumOr(say.Of("garment.nothing-is-cut-from-it"), terms), measure.UnitM2,
		say.Of("garment.pieces-as-cut-cut-width-times-length"), figure.Derived)
}

// allowanceLength adds up the length of every edge that has an allowance.
func (w *clothReckoner) allowanceLength(id string, c *Cloth) figure.Figure {
	terms := make([]figure.Term, len(c.Pieces))
	for i, p := range c.Pieces {
		w.timesCut(p)
		terms[i] = w.edgesOf(p).By(float64(p.CutIn(c.Part)))
	}
	return w.Figure(id, say.Of("garment.length-of-allowances"), c.Part, w.SumOr(say.Of("garment.no-piece-is-cut-in-it"), terms), measure.UnitM,
		say.Of("garment.length-of-the-edges-that-have-an"), figure.Derived)
}

// edgesOf is the length of a whole piece's edges that have an allowance.
func (w *clothReckoner) edgesOf(p *Piece) figure.Term {
	var edges []figure.Term
	for k := range p.Edges {
		if e := &p.Edges[k]; e.allow > 0 {
			edges = append(edges, w.Of(e.ref, &e.Length))
		} else if !e.Fold {
			w.Note(w.Of(w.Join("allowance of ", e.ref), &e.Allowance))
		}
	}
	if len(edges) == 0 {
		return w.Constant(0, mm)
	}
	if p.OnFold {
		return w.Number(2).Times(w.Sum(edges...))
	}
	return w.Sum(edges...)
}

// clothMass is the mass of a cloth in the garment.
func (w *clothReckoner) clothMass(c *Cloth, base string) {
	per := w.Unknown(say.Of("garment.the-cloth-is-not-known"))
	if c.Cloth != nil {
		per = w.Unknown(say.Of("garment.the-cloth-has-no-weight"))
		if c.Cloth.Mass.Given() {
			per = w.Written(say.Of("garment.weight-of-a-square-metre"), float64(c.Cloth.Mass.V), measure.UnitGPerM2, c.Cloth.Mass.At)
		}
	}
	t := per
	rule := say.Of("garment.area-as-cut-times-weight-of-a")
	switch area := w.Of(say.Of("garment.area-as-cut"), &c.CutArea); {
	case !per.Known():
		w.Note(area)
	case c.Cloth.Weighed.V == "washed":
		t = area.Times(per)
		rule = say.Of("garment.area-as-cut-times-weight-of-a-2")
	default:
		t = w.shrunk(area.Times(per), c.Cloth)
	}
	c.Mass = w.Figure(w.Join(base, ".mass"), say.Of("garment.weight-in-the-garment"), c.Part, t, measure.UnitG, rule, figure.Derived)
}

// shrunk is the weight of washed cloth of which a square metre was weighed
// before it was washed: there is more of it in a square metre now.
func (w *clothReckoner) shrunk(t figure.Term, c *record.Cloth) figure.Term {
	for _, s := range []struct {
		name string
		by   record.Percent
	}{{say.Of("garment.shrink-along"), c.Shrink.Along}, {say.Of("garment.shrink-across"), c.Shrink.Across}} {
		if s.by.Given() {
			t = t.Over(w.Number(1).Minus(w.Written(s.name, float64(s.by.V), measure.UnitPercent, s.by.At)))
		}
	}
	return t
}

// UsableWidth is the width of a cloth that pieces may lie on, in millimetres:
// width × (1 − shrink across) less both selvedges.
func UsableWidth(c *record.Cloth) float64 { return UsableWidthOf(new(figure.Pad), c).MM() }

// OnShelf reports whether it can be reckoned how much of a cloth is on the shelf.
func OnShelf(c *record.Cloth) bool { return c.OnHand.Given() || len(c.Came) > 0 }

// OnShelfOf is how much of a cloth is on the shelf, as a term: what was counted
// last, and what came and was cut since.
func OnShelfOf(p *figure.Pad, c *record.Cloth) figure.Term {
	list := c.SinceCounted()
	var out figure.Term
	for i := range list {
		m := &list[i]
		name := say.Of("garment.on-the-shelf")
		switch {
		case m.Kind == record.WasCut:
			name = say.Of("garment.cut-off-for", m.For)
		case m.Kind == record.CameIn:
			name = say.Of("garment.came-on", m.Day.Words())
		case m.Day != (record.Day{}):
			name = say.Of("garment.counted-on", m.Day.Words())
		}
		t := p.Length(name, m.Length)
		switch {
		case i == 0 && m.Kind == record.WasCut:
			out = p.Constant(0, measure.UnitMM).Minus(t)
		case i == 0:
			out = t
		case m.Kind == record.WasCut:
			out = out.Minus(t)
		default:
			out = out.Plus(t)
		}
	}
	return out
}

// UsableWidthOf is the width of a cloth that pieces may lie on, as a term:
// width × (1 − shrink across) less both selvedges.
func UsableWidthOf(p *figure.Pad, c *record.Cloth) figure.Term {
	t := p.Length(say.Of("garment.width-of-the-cloth"), c.Width)
	if c.Shrink.Across.Given() {
		t = t.Times(p.Number(1).Minus(p.Written(say.Of("garment.shrink-across"), float64(c.Shrink.Across.V), measure.UnitPercent, c.Shrink.Across.At)))
	}
	if c.Selvedge.Given() {
		t = t.Minus(p.Number(2).Times(p.Length("selvedge", c.Selvedge)))
	}
	return t
}

// cut reports whether anything is cut from the cloth.
func (c *Cloth) IsCut() bool { return len(c.Pieces) > 0 || c.CutArea.Value.Known() }
