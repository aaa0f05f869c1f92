package garment

import (
	"slices"
	"strconv"

	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
)

// ofPiece reports whether an alteration is of a piece itself, and not of what is put on it.
func (a Alteration) ofPiece() bool { return a.notion == "" && a.setOn == "" }

// setOnOf is the seam that sets a piece on another which a change moves; nil where it moves
// none.
func setOnOf(b *record.Build, c *record.Change) *record.Seam {
	if !c.SetOn.Given() || !c.Does() {
		return nil
	}
	k := slices.IndexFunc(b.Seams, func(s record.Seam) bool { return s.Name.V == c.SetOn.V && len(s.Join) > 0 && len(s.Join[0]) > 0 })
	if k < 0 {
		return nil
	}
	return &b.Seams[k]
}

// withSetOn is a build whose pieces that are set on others lie where the rounds in force
// have moved them; the build itself where none has.
func withSetOn(b *record.Build, list []Alteration, inForce int) *record.Build {
	out := b
	for _, a := range list[drawnIn(list):max(inForce, drawnIn(list))] {
		if a.setOn == "" {
			continue
		}
		if out == b {
			other := *b
			other.Seams = slices.Clone(b.Seams)
			out = &other
		}
		for i := range out.Seams {
			if s := &out.Seams[i]; s.Name.V == a.setOn {
				if a.Change.Spot.Given() {
					s.Place = a.Change.Spot
				}
				if a.Change.Angle.Given() {
					s.Angle = a.Change.Angle
				}
			}
		}
	}
	return out
}

// setOnBecomes says what a change does to a piece that is set on another.
func setOnBecomes(c *record.Change, style measure.Style) string {
	out := c.SetOn.V
	switch at := c.Spot; {
	case at.Given() && at.V.Edge != "":
		out += say.Of("garment.set-at-on", whereWords(record.Where{V: at.V.Where, At: at.At}, style), at.V.Edge)
	case at.Given():
		out += say.Of("garment.set-at-across-up", style.Length(measure.MM(at.V.Point.X)), style.Length(measure.MM(at.V.Point.Y)))
	}
	if c.Angle.Given() {
		out += say.Of("garment.turned-by", strconv.FormatFloat(c.Angle.V, 'f', -1, 64))
	}
	return out
}
