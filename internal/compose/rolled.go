package compose

import (
	"math"
	"strconv"

	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/say"
)

// RolledWords say of a piece that is rolled over what lies under it how much more it needs
// and has; of what is not known, nothing.
func RolledWords(tell Teller, r *garment.Rolled, length Lengths) string {
	if !r.Needs.Value.Known() {
		return ""
	}
	called := func(p *garment.Piece) string { return tell.Called(Key("piece", p.Name), p.Name) }
	with := []any{"piece", called(r.Piece), "angle", strconv.FormatFloat(r.Angle, 'f', -1, 64), "needs", length(tenths(r.Needs.Value.Number))}
	switch {
	case r.Under == nil:
		return tell.Filled("roll.self", say.Of("compose.rolled-over-by-the-outer-ply-needs"), with...)
	case !r.Has.Value.Known():
		return tell.Filled("roll.needs", say.Of("compose.over-rolled-over-by-it-needs-more"), append(with, "under", called(r.Under))...)
	case tenths(r.Has.Value.Number) == 0:
		return tell.Filled("roll.equal", say.Of("compose.over-rolled-over-by-it-needs-more-2"), append(with, "under", called(r.Under))...)
	}
	return tell.Filled("roll.over", say.Of("compose.over-rolled-over-by-it-needs-more-3"),
		append(with, "under", called(r.Under), "has", length(tenths(r.Has.Value.Number)))...)
}

// tenths rounds to a tenth of a millimetre.
func tenths(mm float64) float64 { return math.Round(mm*10) / 10 }

// rolled is the section through a piece that is rolled over what lies under it; false where
// there is none.
func (d *Draft) rolled(r *garment.Rolled) (document.Block, bool) {
	if r == nil {
		return nil, false
	}
	drawn := draw.Roll(r, d.Style)
	if drawn == nil {
		return nil, false
	}
	words := RolledWords(OnPage, r, d.length)
	drawn.Title = words
	drawn.Keep()
	return document.Sketch{Caption: words, Draw: func() *drawing.Drawing { return drawn }}, true
}
