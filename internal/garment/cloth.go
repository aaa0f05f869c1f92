package garment

import (
	"hembook/internal/measure"
)

// cloths adds up every cloth of the build (figures 2 and 16).
func (w *work) cloths() {
	slugs := namesFor(len(w.b.Cloth))
	w.g.Cloths = make([]*Cloth, len(w.b.Cloth))
	room := make([]Cloth, len(w.b.Cloth))
	for i := range w.b.Cloth {
		use := &w.b.Cloth[i]
		c := &room[i]
		w.g.Cloths[i] = c
		c.Part, c.Use = use.Name.V, &use.V
		c.Cloth, _ = w.t.room.Cloth(use.V.Use.V)
		for _, p := range w.g.Pieces {
			if cutIn(p, c.Part) {
				c.Pieces = append(c.Pieces, p)
			}
		}
		c.anchor = slugs.unique(c.Part)
		w.clothSums(c, w.join("cloth.", c.anchor))
	}
}

// pick names one of a piece's figures.
type pick func(*Piece) *Figure

func (w *work) clothSums(c *Cloth, base string) {
	c.Area = w.sumPieces(w.join(base, ".area"), "area of its pieces", c.Part, c.Pieces, func(p *Piece) *Figure { return &p.Area })
	c.Allowance = w.sumPieces(w.join(base, ".allowance"), "area of its allowances", c.Part, c.Pieces, func(p *Piece) *Figure { return &p.Allowance })
	c.pieces = w.sumPieces(w.join(base, ".pieces-cut"), "area of its pieces as cut", c.Part, c.Pieces, func(p *Piece) *Figure { return &p.CutArea })
	w.clothCut(c, base)
	c.Share = w.share(w.join(base, ".share"), c.Part, &c.Allowance, &c.CutArea)
	c.Length = w.allowanceLength(w.join(base, ".allowance-length"), c.Part, c.Pieces)
	w.note(Input{Name: "pieces", Value: w.i(len(c.Pieces)).end(), At: c.Use.At})
	c.Needed = w.figure(w.join(base, ".needed"), "cloth needed", c.Part, unknown("the lay has not been planned"),
		"length of the lay ÷ (1 − shrink along) + straightening, rounded up to the shop's step", practice)
	w.clothMass(c, base)
}

// sumPieces adds up an area over pieces, each as often as it is cut.
func (w *work) sumPieces(id, title, name string, pieces []*Piece, of pick) Figure {
	const rule = "Σ of one piece × times cut"
	sum, why := 0.0, ""
	for _, p := range pieces {
		f := of(p)
		if !f.Value.Known() {
			why = "not known for " + p.Name + ": " + f.Value.Why
		}
		w.figureIn(p.Name, f)
	}
	for i, p := range pieces {
		v := of(p).Value.Number
		if i > 0 {
			w.s(" + ")
		}
		w.n(v).s(" × ").i(p.Count)
		sum += v * float64(p.Count)
	}
	v := inM2(sum * 100) // pieces are in cm²
	w.s(" cm² = ").n4(v.Number).s(" m²")
	switch {
	case why != "":
		v = unknown(why)
	case len(pieces) == 0:
		v = unknown("no piece is cut in it")
	}
	return w.figure(id, title, name, v, rule, derived)
}

// clothCut is all that is cut from a cloth: pieces and strips.
func (w *work) clothCut(c *Cloth, base string) {
	strips, known, any := 0.0, true, false
	for i := range w.strips {
		if s := &w.strips[i]; s.part == c.Part {
			any = true
			known = known && s.known
			strips += s.cut * s.length
		}
	}
	id := w.join(base, ".cut-area")
	const title, rule = "area of all that is cut from it", "pieces as cut + Σ cut width × length of its strips"
	if len(c.Pieces) > 0 {
		w.figureIn("pieces", &c.pieces)
	}
	for i := range w.strips {
		if s := &w.strips[i]; s.part == c.Part {
			w.note(Input{Name: "strip for " + s.what, Value: w.n(s.cut).s(" mm × ").n(s.length / 1e3).s(" m").end(), From: "the strips"})
		}
	}
	pieces := 0.0
	switch {
	case len(c.Pieces) == 0 && !any:
		c.CutArea = w.figure(id, title, c.Part, unknown("nothing is cut from it"), rule, derived)
		return
	case len(c.Pieces) > 0 && !c.pieces.Value.Known():
		c.CutArea = w.figure(id, title, c.Part, unknown(c.pieces.Value.Why), rule, derived)
		return
	case !known:
		c.CutArea = w.figure(id, title, c.Part, unknown("the length of a strip is not known"), rule, derived)
		return
	case len(c.Pieces) > 0:
		pieces = c.pieces.Value.Number
	}
	sum := pieces + strips/1e6
	w.n4(pieces).s(" + ").n4(strips / 1e6).s(" = ").n4(sum).s(" m²")
	c.CutArea = w.figure(id, title, c.Part, valueIn(sum, measure.UnitM2), rule, derived)
}

// allowanceLength adds up the length of every edge that has an allowance.
func (w *work) allowanceLength(id, name string, pieces []*Piece) Figure {
	sum := 0.0
	for _, p := range pieces {
		one := p.allowanceLength()
		w.note(Input{Name: p.Name, Value: w.mm(one).s(" × ").i(p.Count).end(), At: p.Record.At})
		sum += one * float64(p.Count)
	}
	for i, p := range pieces {
		if i > 0 {
			w.s(" + ")
		}
		w.n(p.allowanceLength()).s(" × ").i(p.Count)
	}
	v := inM(sum)
	w.s(" = ").n(v.Number).s(" m")
	if len(pieces) == 0 {
		v = unknown("no piece is cut in it")
	}
	return w.figure(id, "length of all its allowances", name, v, "Σ length of the edges that have an allowance × times cut", derived)
}

// allowanceLength is the length of a whole piece's edges that have one, in mm.
func (p *Piece) allowanceLength() float64 {
	sum := 0.0
	for k := range p.Edges {
		if e := &p.Edges[k]; e.allow > 0 {
			sum += e.Length.Value.Number
		}
	}
	if p.OnFold {
		sum *= 2
	}
	return sum
}

// clothMass is the mass of a cloth in the garment.
func (w *work) clothMass(c *Cloth, base string) {
	id := w.join(base, ".mass")
	const title, rule = "mass in the garment", "area as cut × mass per area; what is trimmed away is counted"
	w.figureIn("area as cut", &c.CutArea)
	why := ""
	switch {
	case c.Cloth == nil:
		why = "the cloth is not known"
	case !c.Cloth.Mass.Given():
		why = "the cloth has no mass per area"
	case !c.CutArea.Value.Known():
		why = c.CutArea.Value.Why
	}
	if why != "" {
		c.Mass = w.figure(id, title, c.Part, unknown(why), rule, derived)
		return
	}
	per := float64(c.Cloth.Mass.V)
	w.note(Input{Name: "mass per area", Value: w.n(per).s(" g/m²").end(), At: c.Cloth.Mass.At})
	w.n4(c.CutArea.Value.Number).s(" m² × ").n(per).s(" g/m² = ").n(c.CutArea.Value.Number * per).s(" g")
	c.Mass = w.figure(id, title, c.Part, valueIn(c.CutArea.Value.Number*per, measure.UnitG), rule, derived)
}

// perMetre is the unit a cloth's price is for: a metre, or a yard in a
// workroom that measures in inches.
func (t *Tailor) perMetre() measure.Unit {
	if t.room.BareUnit() == measure.UnitIn {
		return measure.UnitYd
	}
	return measure.UnitM
}
