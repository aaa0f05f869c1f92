package label

import (
	"math"

	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/trade"
)

// usualThick is how thick a button is where the record does not say, in millimetres, as
// for its buttonhole.
const usualThick = 3.0

// usualTrims is the weight of a garment with what its trims usually weigh where nobody
// weighed them; false where all were weighed, or something else has no weight.
func usualTrims(w *reading, g *garment.Garment) (sum figure.Term, ok bool) {
	if g.Totals.Weighed.ID == "" {
		return sum, false
	}
	terms := []figure.Term{w.Of(say.Of("label.weight-of-what-was-weighed"), &g.Totals.Weighed)}
	found := 0
	for _, n := range g.Notions {
		if n.Mass.Value.Known() {
			continue
		}
		usual, known := usualTrim(w, n)
		if !known || !usual.Known() {
			return sum, false
		}
		found++
		terms = append(terms, usual)
	}
	if found < len(g.Totals.Unweighed) { // a cloth is among what has none
		return sum, false
	}
	return w.Sum(terms...), true
}

// usualTrim is what all of a notion usually weighs.
func usualTrim(w *reading, n *garment.Notion) (figure.Term, bool) {
	r := n.Record
	note, _ := r.Note.In("en")
	row, ok := trade.UsualWeight(r.Is() + " " + r.Name.V + " " + r.Material.V + " " + note)
	if !ok {
		return figure.Term{}, false
	}
	count := w.Of(say.Of("label.number-of", r.Name.V), &n.Count)
	switch {
	case row.One > 0:
		return count.Times(w.Row(say.Of("label.usual-weight-of-one"), row.One, measure.UnitG, row.Source)), true
	case row.Metre > 0 && n.Total.ID != "":
		return w.Of(say.Of("label.length-of", r.Name.V), &n.Total).Times(w.Row(say.Of("label.usual-weight-of-a-metre"), row.Metre, measure.UnitG, row.Source)).Over(w.Constant(1, measure.UnitM)), true
	case row.Density > 0 && r.Size.Given():
		thick := usualThick
		if r.Thick.Given() {
			thick = r.Thick.V.MM()
		}
		one := row.Density * math.Pi / 4 * r.Size.V.MM() * r.Size.V.MM() * thick / 1000 // mm³ to cm³
		return count.Times(w.Row(say.Of("label.usual-weight-of-one"), math.Round(one*100)/100, measure.UnitG, row.Source)), true
	}
	return figure.Term{}, false
}
