package fitting

import (
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/words"
)

// A Worn is a level of the fit table (figure 20): the garment as it was
// measured, or as planned where it was not, beside what wears it.
type Worn struct {
	*Level
	Garment    figure.Figure           // round the garment
	AsMeasured bool                    // Garment is what was measured; else what is planned
	Again      *record.Remeasured      // the later reading that Garment is; nil where it is none
	OnDraft    figure.Figure           // garment − drafted; not set where Drafted is not
	Body       record.Private[*OnBody] // nil inside where no wearer's body is known at this level
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
		row := Worn{Level: l, Garment: l.Finished}
		if l.Measured.ID != "" && l.Measured.Value.Known() {
			row.Garment, row.AsMeasured = l.Measured, true
		}
		if again, is := w.b.LaterAt(l.Name); again != nil {
			row.Garment = w.Figure("worn."+words.Slug(l.Name)+".later", say.Of("fitting.measured-again"), l.Name, w.Length(say.Of("fitting.measured-again"), is), mm, say.Of("fitting.as-the-record-says-of-the-newest"), figure.Recorded)
			row.AsMeasured, row.Again = true, again
		}
		if l.Drafted.ID != "" {
			row.OnDraft = w.wornEase("worn."+words.Slug(l.Name)+".ease-drafted", &row, &l.Drafted)
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
		t = t.Unless(say.Of("fitting.the-garments-measurement-is-not-known"))
	}
	return w.Figure(id, "ease", row.Name, t, mm, say.Of("fitting.garment-body"), figure.Derived)
}
