package compose

import (
	"testing"

	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
)

func length(mm float64) figure.Figure {
	return figure.Figure{ID: "x", Value: figure.Value{Quantity: measure.Quantity{Number: mm, Unit: measure.UnitMM}}}
}

// TestOpenings: openings are counted and named, and those that are alike stand
// as one with how long each is.
func TestOpenings(t *testing.T) {
	dress := []garment.Opening{{Name: "neck", Length: length(468)}, {Name: "armhole", Length: length(435)}, {Name: "armhole", Length: length(435.2)}, {Name: "hem", Length: length(4177)}}
	uneven := []garment.Opening{{Name: "armhole", Length: length(435)}, {Name: "armhole", Length: length(447)}}
	back := garment.Slit{Name: "centre back", By: "zip", Length: length(400)}
	for _, c := range []struct {
		openings []garment.Opening
		slits    []garment.Slit
		words    string
		rows     []WayIn
	}{
		{dress, []garment.Slit{back}, "Four openings: neck, two armholes, hem; one slit at centre back.", []WayIn{{"neck", "", 1, nil}, {"armhole", "", 2, nil}, {"hem", "", 1, nil}, {"centre back", "zip", 1, nil}}},
		{uneven, nil, "Two openings: two armholes.", []WayIn{{"armhole", "", 1, nil}, {"armhole", "", 1, nil}}},
		{dress[:1], nil, "One opening: neck.", []WayIn{{"neck", "", 1, nil}}},
		{nil, []garment.Slit{back, {Name: "left", By: "buttons", Length: length(90)}}, "Two slits at centre back, left.", []WayIn{{"centre back", "zip", 1, nil}, {"left", "buttons", 1, nil}}},
	} {
		if got := openingWords(c.openings, c.slits); got != c.words {
			t.Errorf("%q, not %q", got, c.words)
		}
		rows := WaysIn(c.openings, c.slits)
		if len(rows) != len(c.rows) {
			t.Errorf("%s: %d rows, not %d", c.words, len(rows), len(c.rows))
			continue
		}
		for i, o := range rows {
			if w := c.rows[i]; o.Name != w.Name || o.By != w.By || o.Times != w.Times || o.Length == nil {
				t.Errorf("%s: row %d is %+v, not %+v", c.words, i, o, w)
			}
		}
	}
}
