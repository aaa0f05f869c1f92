package garment

import (
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// A clothStrip is strip cut from one of the build's cloths.
type clothStrip struct {
	part, what  string
	cut, length *figure.Figure
}

// joinAllowance is the allowance strips are joined with on the straight grain
// (common practice, no source).
const joinAllowance = 6

// bias works out bias strips wanted for their own sake (figure 10).
func (w *derivation) bias() {
	slugs := words.NamesFor(len(w.b.Bias))
	for i := range w.b.Bias {
		r := &w.b.Bias[i]
		name := slugs.Unique(r.Name.V)
		b := &Bias{Record: r, Anchor: w.Join("bias-", name)}
		base := w.Join("bias.", name)
		w.biasCut(b, base)
		w.biasLength(b, base)
		w.biasSquare(b, base)
		w.remnants(b, base)
		w.g.Bias = append(w.g.Bias, b)
	}
}

func (w *derivation) biasCut(b *Bias, base string) {
	r := b.Record
	id, title := w.Join(base, ".cut"), say.Of("garment.cut-width-of-the-strip")
	switch {
	case r.Cut.Given():
		b.Cut = w.Figure(id, title, r.Name.V, w.Length("cut", r.Cut), mm, say.Of("garment.as-the-record-says"), figure.Recorded)
	case r.Finished.Given():
		times, rule, source := 4.0, say.Of("garment.single-binding-4-times-finished-width"), trade.Source(say.Of("garment.4-times-sew-whats-new-article-by"))
		if r.Binding.V == "double" {
			times, rule, source = 6, say.Of("garment.double-binding-6-times-finished-width"), figure.Practice
		}
		b.Cut = w.Figure(id, title, r.Name.V, w.Number(times).Times(w.Length("finished", r.Finished)), mm, rule, source)
	default:
		b.Cut = w.Figure(id, title, r.Name.V, w.Unknown(say.Of("garment.neither-a-finished-nor-a-cut-width")), mm, say.Of("garment.4-times-finished-or-as-written"), figure.Practice)
	}
}

func (w *derivation) biasLength(b *Bias, base string) {
	r := b.Record
	title := say.Of("garment.length-of-strip")
	id := w.Join(base, ".length")
	if !r.Length.Given() {
		b.Length = w.Figure(id, title, r.Name.V, w.Unknown(say.Of("garment.no-length-is-written")), mm, say.Of("garment.length-joins-overlap"), figure.Derived)
		return
	}
	t := w.Length("length", r.Length)
	if r.Joins.Given() {
		joins := w.Written("joins", float64(r.Joins.V), measure.UnitCount, r.Joins.At)
		loss := w.Number(2).Times(w.Usual(say.Of("garment.allowance-of-a-join"), joinAllowance, mm)).Times(w.Number(2).Root())
		t = t.Plus(joins.Times(loss))
	}
	if r.Overlap.Given() {
		t = t.Plus(w.Length("overlap", r.Overlap))
	}
	b.Length = w.Figure(id, title, r.Name.V, t, mm,
		say.Of("garment.length-wanted-joins-times-2-times"), figure.Derived)
}

func (w *derivation) biasSquare(b *Bias, base string) {
	title := say.Of("garment.cut-from-a-square-of")
	rule := say.Of("garment.length-times-cut-width-equal-areas")
	name := b.Record.Name.V
	side := w.Of("length", &b.Length).Times(w.Of(say.Of("garment.cut-width"), &b.Cut)).Root()
	if !side.Known() {
		side = side.Unless(say.Of("garment.the-strips-size-is-not-known"))
	}
	b.Square = w.Figure(w.Join(base, ".square"), title, name, side, mm, rule, "derived; the method is common practice (M. Lewis bias formula article)")
	sewn := w.Of("square", &b.Square).Plus(w.Number(2).Times(w.Usual(say.Of("garment.allowance-of-the-seams"), joinAllowance, mm)))
	b.SquareSewn = w.Figure(w.Join(base, ".square-sewn"), say.Of("garment.seams-included", title), name, sewn, mm,
		say.Of("garment.square-2-times-allowance-one-seam-makes"), figure.Practice)
}

// remnants tells how much of the strip each remnant of its cloth would yield.
func (w *derivation) remnants(b *Bias, base string) {
	part := b.Record.From.V
	if part == "" && len(w.b.Cloth) > 0 {
		part = w.b.Cloth[0].Name.V
	}
	if b.Length.Value.Known() && b.Cut.Value.Known() {
		w.strips = append(w.strips, clothStrip{part: part, what: b.Record.Name.V, cut: &b.Cut, length: &b.Length})
	}
	cloth := w.clothIn(part)
	if cloth == nil || !b.Cut.Value.Known() {
		return
	}
	slugs := words.NamesFor(len(cloth.Remnants))
	for i := range cloth.Remnants {
		m := &cloth.Remnants[i]
		name := m.Name.V
		w.Remark(figure.Written, "remnant", figure.AsItStands, m.At, "")
		whole, lost := m.Areas()
		area := w.Found(say.Of("garment.the-remnant"), whole/100, measure.UnitCM2)
		if lost > 0 {
			area = area.Minus(w.Found(say.Of("garment.the-holes-in-it"), lost/100, measure.UnitCM2))
		}
		b.Remnants = append(b.Remnants, w.Figure(w.Join(base, ".remnant.", slugs.Unique(name)),
			say.Of("garment.strip-from-the-remnant-at-most"), name, area.Over(w.Of(say.Of("garment.cut-width"), &b.Cut)), measure.UnitM, say.Of("garment.area-by-cut-width-losses-not-counted"), figure.Derived))
	}
}
