package garment

import (
	"math"

	"hembook/internal/meant"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// pleatTaper is how deep pleats go from a level on, where they close to another length
// there than at their edge; none where nothing is said of it.
func (w *pleater) pleatTaper(p *Piece, spec *record.PleatSpec, edge string, length float64, n int, own bool) (t shape.Taper, ok bool) {
	f := &p.form
	if spec.Then.Given() { // drawn so in a file
		return shape.Taper{Until: spec.Until.V.MM(), Depth: spec.Then.V.MM()}, true
	}
	if spec.Runs.Given() {
		return w.runsOut(p, spec, edge, length, own)
	}
	if !spec.Level.Given() {
		return t, true
	}
	y, there := f.levels.Get(spec.Level.V)
	if !there {
		return t, false // told where it stands
	}
	middle, _, _ := f.outline.PointOn(edge, length/2)
	if way := f.outline.PleatWay(edge, length/2); way.X != 0 || (y.V.MM()-middle.Y)*way.Y < 1 {
		w.pleatFault(own, spec.Level.At, say.Of("garment.leave-out-of-into", spec.Level.V), say.Of("garment.pleats-on-do-not-run-from-their", p.Name, edge, spec.Level.V))
		return t, false
	}
	wide := 0.0
	for _, span := range f.outline.WidthsAt(y.V.MM()) {
		wide += (span.To - span.From) * p.halved()
	}
	into := spec.AtLevel.V.MM()
	if wide-into < 1 {
		w.pleatFault(own, spec.AtLevel.At, say.Of("garment.draw-it-wider-or-let-into-be"), say.Of("garment.is-wide-at-the-level-nothing-is", p.Name, w.tape().About(wide), spec.Level.V, w.tape().Exact(into)))
		return t, false
	}
	folds := float64(n*spec.Folds()) * p.halved()
	return shape.Taper{Until: math.Abs(y.V.MM() - middle.Y), Depth: (wide - into) / (2 * folds)}, true
}

// runsOut is the taper of pleats that run out to nothing within their piece.
func (w *pleater) runsOut(p *Piece, spec *record.PleatSpec, edge string, length float64, own bool) (t shape.Taper, ok bool) {
	f, runs := &p.form, spec.Runs
	if !spec.Drawn.V { // of a round; else the reader tells it
		w.pleatFault(own, runs.At, say.Of("garment.leave-runs-out-the-pleats-go-through"), say.Of("garment.pleats-on-that-run-out-would-be", p.Name, edge))
		return t, false
	}
	middle, _, _ := f.outline.PointOn(edge, length/2)
	way := f.outline.PleatWay(edge, length/2)
	t.Until = runs.V.By.MM()
	if level := runs.V.Level; level != "" {
		y, there := f.levels.Get(level)
		if !there {
			w.pleatFault(own, runs.At, meant.Among(level, f.levels.Names(), say.Of("garment.it-has")), say.Of("garment.is-no-level-of", say.Quoted(level), p.Name))
			return t, false
		}
		if t.Until = (y.V.MM() - middle.Y) * way.Y; t.Until < 1 {
			w.pleatFault(own, runs.At, say.Of("garment.write-how-far-in-they-run-as"), say.Of("garment.pleats-on-do-not-run-from-their", p.Name, edge, level))
			return t, false
		}
	}
	if far := (shape.Point{X: middle.X + float64(way.X*t.Until), Y: middle.Y + float64(way.Y*t.Until)}); !f.outline.Contains(far) {
		w.pleatFault(own, runs.At, say.Of("garment.write-less-or-leave-runs-out-where"), say.Of("garment.pleats-on-that-run-in-leave-the", p.Name, edge, w.tape().Exact(t.Until)))
		return t, false
	}
	return t, true
}
