package compose

import (
	"hembook/internal/document"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/trade"
)

// Lengths writes lengths, given in millimetres, in a document's units.
type Lengths func(mm float64) string

// length writes lengths as the workroom does.
func (d *Draft) length(mm float64) string { return d.Style.Length(measure.MM(mm)) }

// SeamType tells the type of a seam, and the rows beside it.
func SeamType(length Lengths) ColumnOf[*garment.Seam] {
	return ColumnOf[*garment.Seam]{"seam-type", true, 3, func(t *document.TableDraft, tell Teller, s *garment.Seam) {
		t.Cell(document.Say(tell.Called("seam."+s.Type.Name, s.Type.Title)), besideSaid(tell, &s.Type, length))
	}}
}

// FinishType is the same of a hem or edge.
func FinishType(length Lengths) ColumnOf[*garment.Finish] {
	return ColumnOf[*garment.Finish]{"finish-type", true, 3, func(t *document.TableDraft, tell Teller, f *garment.Finish) {
		t.Cell(document.Say(tell.Called("seam."+f.Type.Name, f.Type.Title)), besideSaid(tell, &f.Type, length))
	}}
}

// What is said of rows beside a seam or inside a finished edge, by what is done.
var (
	besideWords = map[string]string{trade.Topstitch: say.Of("compose.topstitched-at"), trade.EdgeStitch: say.Of("compose.edge-stitched-at")}
	besideOf    = map[string]string{trade.Topstitch: say.Of("compose.topstitching-of"), trade.EdgeStitch: say.Of("compose.edge-stitching-of")}
)

// BesideSaid says how far from a seam or finished edge its rows lie; nothing where it has
// none beside it.
func BesideSaid(tell Teller, t *trade.SeamType, length Lengths) (said []string) {
	for _, do := range []string{trade.EdgeStitch, trade.Topstitch} {
		var at []string
		for _, r := range t.Beside() {
			if r.Do == do {
				at = append(at, length(r.At))
			}
		}
		if len(at) > 0 {
			said = append(said, tell.Filled("beside."+do, besideWords[do], "lengths", tell.Joined(at)))
		}
	}
	return said
}

// besideSaid says so below the type.
func besideSaid(tell Teller, t *trade.SeamType, length Lengths) document.Inline {
	return document.As(document.Below, tell.Joined(BesideSaid(tell, t, length)))
}
