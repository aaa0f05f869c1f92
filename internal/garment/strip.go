package garment

import (
	"math"
	"strconv"

	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/trade"
)

// A clothStrip is strip cut from one of the build's cloths.
type clothStrip struct {
	part        string
	what        string
	cut, length float64 // mm
	known       bool
}

// stripsOf works out the strips a seam type takes.
func (w *work) stripsOf(t *seamType, p trade.Params, base, name, part string, total Value) []StripNeed {
	if len(t.Strips) == 0 {
		return nil
	}
	out := make([]StripNeed, 0, len(t.Strips))
	for i := range t.Strips {
		rule := &t.Strips[i]
		cut, err := rule.Cut.Eval(p)
		if err != nil {
			continue
		}
		s := StripNeed{What: rule.What, Cloth: part}
		w.typeInputs(t, p, nil, nil)
		w.s(cut.Working).s(" mm")
		s.Cut = w.figure(w.join(base, ".strip-", strconv.Itoa(i+1), ".cut"), rule.What+", cut width", name, inMM(cut.Value), w.prettyRule(rule.Cut), t.Source)
		v := unknown("the length sewn is not known")
		length := total.Number * 1e3 * float64(rule.Count)
		if total.Known() {
			v = inM(length)
			w.n(total.Number).s(" × ").i(rule.Count).s(" = ").n(length / 1e3).s(" m")
		}
		s.Length = w.figure(w.join(base, ".strip-", strconv.Itoa(i+1), ".length"), rule.What+", length", name, v,
			"length sewn × strips; what joins take is not counted", derived)
		out = append(out, s)
		w.strips = append(w.strips, clothStrip{part: part, what: name, cut: cut.Value, length: length, known: v.Known()})
	}
	return out
}

// joinAllowance is the allowance strips are joined with on the straight grain
// (common practice, no source).
const joinAllowance = 6

// bias works out bias strips wanted for their own sake (figure 10).
func (w *work) bias() {
	slugs := namesFor(len(w.b.Bias))
	for i := range w.b.Bias {
		r := &w.b.Bias[i]
		name := slugs.unique(r.Name.V)
		b := &Bias{Record: r, Anchor: w.join("bias-", name)}
		base := w.join("bias.", name)
		w.biasCut(b, base)
		w.biasLength(b, base)
		w.biasSquare(b, base)
		w.remnants(b, base)
		w.g.Bias = append(w.g.Bias, b)
	}
}

func (w *work) biasCut(b *Bias, base string) {
	r := b.Record
	id, title := w.join(base, ".cut"), "cut width of the strip"
	switch {
	case r.Cut.Given():
		w.lengthIn("cut", r.Cut)
		w.mm(r.Cut.V.MM())
		b.Cut = w.figure(id, title, r.Name.V, inMM(r.Cut.V.MM()), "as the record says", recorded)
	case r.Finished.Given():
		times, rule, source := 4.0, "single binding: 4 × finished width", trade.Source(`"4 ×": sew-whats-new article by M. Lewis`)
		if r.Binding.V == "double" {
			times, rule, source = 6, "double binding: 6 × finished width", practice
		}
		w.lengthIn("finished", r.Finished)
		v := times * r.Finished.V.MM()
		w.n(times).s(" × ").mm(r.Finished.V.MM()).s(" = ").mm(v)
		b.Cut = w.figure(id, title, r.Name.V, inMM(v), rule, source)
	default:
		b.Cut = w.figure(id, title, r.Name.V, unknown("neither a finished nor a cut width is written"), "4 × finished, or as written", practice)
	}
}

func (w *work) biasLength(b *Bias, base string) {
	r := b.Record
	if !r.Length.Given() {
		b.Length = w.figure(w.join(base, ".length"), "length of strip", r.Name.V, unknown("no length is written"), "length + joins + overlap", derived)
		return
	}
	loss := 2 * joinAllowance * math.Sqrt2
	joins := r.Joins.V
	v := r.Length.V.MM() + float64(joins)*loss + r.Overlap.V.MM()
	w.lengthIn("length", r.Length)
	if r.Joins.Given() {
		w.note(Input{Name: "joins", Value: w.i(joins).end(), At: r.Joins.At})
		w.note(Input{Name: "allowance of a join", Value: w.mm(joinAllowance).end(), From: "default"})
	}
	if r.Overlap.Given() {
		w.lengthIn("overlap", r.Overlap)
	}
	w.n(r.Length.V.MM()).s(" + ").i(joins).s(" × 2 × ").i(joinAllowance).s(" × √2 + ").n(r.Overlap.V.MM()).s(" = ").mm(v)
	b.Length = w.figure(w.join(base, ".length"), "length of strip", r.Name.V, inMM(v),
		"length wanted + joins × 2 × allowance × √2 + overlap: strips are joined on the straight grain", derived)
}

func (w *work) biasSquare(b *Bias, base string) {
	id, title := w.join(base, ".square"), "side of the square that yields it"
	const rule = "√(length × cut width): equal areas, before the seams of the tube"
	w.figureIn("length", &b.Length).figureIn("cut width", &b.Cut)
	sewn := w.join(base, ".square-sewn")
	if !b.Length.Value.Known() || !b.Cut.Value.Known() {
		v := unknown("the strip's size is not known")
		b.Square = w.figure(id, title, b.Record.Name.V, v, rule, derived)
		b.SquareSewn = w.figure(sewn, title+", seams included", b.Record.Name.V, v, rule, derived)
		return
	}
	l, c := b.Length.Value.Number, b.Cut.Value.Number
	side := math.Sqrt(l * c)
	w.s("√(").n(l).s(" × ").n(c).s(") = ").mm(side)
	b.Square = w.figure(id, title, b.Record.Name.V, inMM(side), rule, "derived; the method is common practice (M. Lewis bias formula article)")
	w.figureIn("square", &b.Square)
	w.note(Input{Name: "allowance of the seams", Value: w.mm(joinAllowance).end(), From: "default"})
	w.n(side).s(" + 2 × ").i(joinAllowance).s(" = ").mm(side + 2*joinAllowance)
	b.SquareSewn = w.figure(sewn, title+", seams included", b.Record.Name.V, inMM(side+2*joinAllowance),
		"square + 2 × allowance: one seam makes the slant, one the tube", practice)
}

// remnants tells how much of the strip each remnant of its cloth would yield.
func (w *work) remnants(b *Bias, base string) {
	part := b.Record.From.V
	if part == "" && len(w.b.Cloth) > 0 {
		part = w.b.Cloth[0].Name.V
	}
	if b.Length.Value.Known() && b.Cut.Value.Known() {
		w.strips = append(w.strips, clothStrip{part: part, what: b.Record.Name.V, cut: b.Cut.Value.Number, length: b.Length.Value.Number, known: true})
	}
	cloth := w.clothIn(part)
	if cloth == nil || !b.Cut.Value.Known() {
		return
	}
	slugs := namesFor(len(cloth.Remnants))
	for i := range cloth.Remnants {
		m := &cloth.Remnants[i]
		area := math.Abs(polygonArea(m.Outline))
		name := m.Name.Or("remnant")
		w.note(Input{Name: "remnant", Value: w.n(area / 100).s(" cm²").end(), At: m.At})
		w.figureIn("cut width", &b.Cut)
		v := valueIn(area/b.Cut.Value.Number/1e3, measure.UnitM)
		w.n(area / 100).s(" cm² ÷ ").mm(b.Cut.Value.Number).s(" = ").n(v.Number).s(" m")
		b.Remnants = append(b.Remnants, w.figure(w.join(base, ".remnant.", slugs.unique(name)),
			"strip from the remnant, at most", name, v, "area ÷ cut width, losses not counted", derived))
	}
}

func polygonArea(corners []record.Val[record.XY]) float64 {
	sum := 0.0
	for i := range corners {
		a, b := corners[i].V, corners[(i+1)%len(corners)].V
		sum += float64(a.X*b.Y) - float64(b.X*a.Y)
	}
	return sum / 2
}
