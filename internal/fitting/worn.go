package fitting

import (
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/record"
	"hembook/internal/words"
)

// A Worn is a level of the fit table (figure 20): the garment as it was
// measured, or as planned where it was not, beside what wears it.
type Worn struct {
	Level       string
	Garment     figure.Figure           // round the garment
	Measured    bool                    // as measured; else as planned
	Off         figure.Figure           // measured − planned; not set where not measured
	Within      bool                    // within tolerance
	LetOut      figure.Figure           // its seams sewn again in their own way
	LetOutPlain figure.Figure           // as plain seams; not set where that gives no more
	HeldBy      string                  // what keeps its length there; "" where nothing does
	Drafted     figure.Figure           // what the draft started from; not set where nothing is written
	Ease        figure.Figure           // garment − drafted; not set where Drafted is not
	Body        record.Private[*OnBody] // nil inside where no wearer's body is known at this level
}

// OnBody is the garment on the wearer's own body.
type OnBody struct{ Body, Ease figure.Figure }

// Worn works out the fit table. It is worked out when it is asked for and not
// with the other figures.
func (t *Fitter) Worn(g *garment.Garment, fit *Fit) []Worn {
	w := t.trial(g)
	bodies := map[string]figure.Figure{}
	for _, kept := range fit.OnBody {
		f := kept.Open(record.ToFigure)
		bodies[f.Level] = f.Body
	}
	var out []Worn
	for _, l := range fit.Levels {
		row := Worn{Level: l.Name, Garment: l.Finished, Off: l.Off, Within: l.Within, LetOut: l.LetOut, LetOutPlain: l.LetOutPlain, HeldBy: l.HeldBy, Drafted: l.Drafted}
		if l.Measured.ID != "" && l.Measured.Value.Known() {
			row.Garment, row.Measured = l.Measured, true
		}
		if l.Drafted.ID != "" {
			row.Ease = w.wornEase("worn."+words.Slug(l.Name)+".ease-drafted", &row, &l.Drafted)
		}
		if body, ok := bodies[l.Name]; ok {
			row.Body = record.Keep(&OnBody{Body: body, Ease: w.wornEase("worn."+words.Slug(l.Name)+".ease", &row, &body)})
		}
		out = append(out, row)
	}
	return out
}

// wornEase is the room between the garment as it is and a body.
func (w *trial) wornEase(id string, row *Worn, body *figure.Figure) figure.Figure {
	t := w.Of("garment", &row.Garment).Minus(w.Of("body", body))
	if !t.Known() {
		t = t.Unless("the garment's measurement is not known")
	}
	return w.Figure(id, "ease", row.Level, t, mm, "garment − body", figure.Derived)
}
