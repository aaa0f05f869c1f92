package garment

import (
	"hembook/internal/measure"
	"hembook/internal/record"
)

// A Worn is a level of the fit table (figure 20): the garment as it was
// measured, or as planned where it was not, beside what wears it.
type Worn struct {
	Level    string
	Garment  Figure // round the garment
	Measured bool   // as measured; else as planned
	Off      Figure // measured − planned; not set where not measured
	Within   bool   // within tolerance
	LetOut   Figure
	Drafted  Figure                  // what the draft started from; not set where nothing is written
	Ease     Figure                  // garment − drafted; not set where Drafted is not
	Body     record.Private[*OnBody] // nil inside where no wearer's body is known at this level
}

// OnBody is the garment on the wearer's own body.
type OnBody struct{ Body, Ease Figure }

// Worn works out the fit table. It is worked out when it is asked for and not
// with the other figures.
func (t *Tailor) Worn(g *Garment) []Worn {
	w := &work{t: t, b: g.Build, g: g}
	bodies := map[string]Figure{}
	for _, kept := range g.Fit {
		f := kept.Open(record.ToFigure)
		bodies[f.Level] = f.Body
	}
	var out []Worn
	for _, l := range g.Levels {
		row := Worn{Level: l.Name, Garment: l.Finished, Off: l.Off, Within: l.Within, LetOut: l.LetOut, Drafted: l.Drafted}
		if l.Measured.ID != "" && l.Measured.Value.Known() {
			row.Garment, row.Measured = l.Measured, true
		}
		if l.Drafted.ID != "" {
			row.Ease = w.wornEase("worn."+slug(l.Name)+".ease-drafted", &row, &l.Drafted)
		}
		if body, ok := bodies[l.Name]; ok {
			row.Body = record.Keep(&OnBody{Body: body, Ease: w.wornEase("worn."+slug(l.Name)+".ease", &row, &body)})
		}
		out = append(out, row)
	}
	return out
}

// wornEase is the room between the garment as it is and a body.
func (w *work) wornEase(id string, row *Worn, body *Figure) Figure {
	w.figureIn("garment", &row.Garment).figureIn("body", body)
	if !row.Garment.Value.Known() || !body.Value.Known() {
		return w.figure(id, "ease", row.Level, unknown("the garment's girth is not known"), "garment − body", derived)
	}
	ease := row.Garment.Value.Number - body.Value.Number
	w.n(row.Garment.Value.Number).s(" − ").n(body.Value.Number).s(" = ").mm(ease)
	return w.figure(id, "ease", row.Level, valueIn(ease, measure.UnitMM), "garment − body", derived)
}
