package garment

import (
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/trade"
)

// mostBody is how much no measurement of a body is, mm (from memory).
const mostBody = 2500

// draftedFar asks about measurements with a digit too many.
func (w *doubter) draftedFar() {
	for _, e := range w.b.DraftedFor {
		switch v := e.V.V.MM(); {
		case !e.V.Given():
		case w.meantOtherwise(e):
			w.doubtMeasure(e.V)
		case v > mostBody:
			w.doubt(e.V, v/10 < mostBody, say.Of("garment.is-the-unit-right"), say.Of("garment.is-a-lot-for-a-body", e.Name.V, w.tape().Exact(v)))
		default:
			w.girthFar(e)
		}
	}
}

// meantOtherwise asks about a measurement that no body has and that, in another unit or
// with a digit more or less, one has. Inches, and of inches, are proposed with their unit.
func (w *doubter) meantOtherwise(e record.Named[record.Length]) bool {
	mm, who := e.V.V.MM(), trade.WhoIs(w.b.For.Who.V)
	fits := func(mm float64) bool {
		level, _ := trade.Plausible(e.Name.V, mm, who)
		return level == trade.Fits
	}
	if level, _ := trade.Plausible(e.Name.V, mm, who); level != trade.Wrong {
		return false
	}
	told := func(now, hint string) bool {
		w.faults.LookAgain(e.V.At, say.Of("garment.did-you-mean-2", hint), say.Of("garment.a-of-cannot-be-a-bodys", e.Name.V, w.tape().Exact(mm))).InsteadAt(e.V.At, "", now)
		return true
	}
	for _, times := range [...]float64{10, 0.1} {
		if fits(times * mm) {
			return told(w.written(times*mm), w.tape().Exact(times*mm))
		}
	}
	for _, unit := range [...]measure.Unit{measure.UnitIn, measure.UnitCM} {
		if meant := mm / millimetres(w.unit) * millimetres(unit); (unit == measure.UnitIn) != (w.unit == measure.UnitIn) && fits(meant) {
			now := w.written(mm) + " " + unit.String()
			return told(now, now)
		}
	}
	return false
}

// millimetres is how long a unit is.
func millimetres(unit measure.Unit) float64 {
	num, den := unit.Factor()
	return float64(num) / float64(den)
}

// doubtMeasure lets nothing be judged by a measurement that is asked about.
func (w *doubter) doubtMeasure(said record.Length) {
	for _, l := range w.g.Levels {
		if body, ok := w.t.BodyLength(w.b.DraftedFor, l.Name); ok && body.At == said.At {
			w.g.doubtful = append(w.g.doubtful, l.Name)
		}
	}
}

// usualGirths are what a girth of a body seldom lies outside, a small child's and a very
// large grown-up's included, mm (own choice, no source).
var usualGirths = map[string][2]float64{"neck": {200, 650}, "chest": {350, 2000}, "bust": {350, 2000}, "waist": {350, 2000}, "hip": {350, 2200}, "hips": {350, 2200}}

// girthFar asks about a girth that no body has where a digit is missing, or one too many is
// there: a doll has small ones.
func (w *doubter) girthFar(e record.Named[record.Length]) {
	v, usual := e.V.V.MM(), usualGirths[e.Name.V]
	within := func(v float64) bool { return v >= usual[0] && v <= usual[1] }
	switch {
	case !e.V.Given() || usual[1] == 0 || within(v):
	case v > usual[1]:
		w.doubt(e.V, within(v/10), say.Of("garment.is-the-unit-right"), say.Of("garment.is-a-lot-for-a-body", e.Name.V, w.tape().Exact(v)))
	case within(v * 10):
		w.tenfold(e.V, say.Of("garment.is-little-for-a-body", e.Name.V, w.tape().Exact(v)))
	}
}
