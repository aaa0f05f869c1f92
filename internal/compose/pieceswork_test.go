package compose

import (
	"strings"
	"testing"
	"time"

	"hembook/internal/document"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/order"
	"hembook/internal/record"
)

// TestPiecesTold: a piece of one ply a part says its parts alone, one of several how many
// are cut in each; on a page both stand in one line with how it is cut.
func TestPiecesTold(t *testing.T) {
	pad := &figure.Pad{}
	mm := func(n float64) figure.Figure {
		return pad.Figure("f", "", "", pad.Constant(n, measure.UnitMM), measure.UnitMM, "", figure.Derived)
	}
	pieces := []*garment.Piece{
		{Name: "front", Count: 2, Mirrored: true, Of: []string{"shell", "lining"}, Grain: "along", Width: mm(254), Height: mm(508)},
		{Name: "cuff", Count: 2, Of: []string{"shell", "shell", "fusing"}, Grain: "bias", Width: mm(50.8), Height: mm(101.6)}, // 2 × 2 plies of shell, 2 × 1 of fusing
		{Name: "back", Count: 1, OnFold: true, Of: []string{"shell"}, Grain: "along", Width: mm(254), Height: mm(508)},
	}
	for _, c := range []struct {
		tell Teller
		cut  []ColumnOf[*garment.Piece]
		want string
	}{
		{OnPage, []ColumnOf[*garment.Piece]{pieceCutIn},
			"piece  cut                                  grain\nfront  cut 2, mirrored in shell and lining  along\ncuff   cut 2: 4 in shell, 2 in fusing       bias\nback   cut 1 on the fold in shell           along\n"},
		{inInches{}, []ColumnOf[*garment.Piece]{PieceParts, PieceCut, PieceSize},
			"THE piece  THE of                              THE cut              THE size     THE grain\n" +
				"front      IT part.shell & IT part.lining      SO cut.mirrored n 2  10 in × 20 in  IT grain.along\n" +
				"cuff       4 × IT part.shell & 2 × IT part.fusing  2   2 in × 4 in  IT grain.bias\n" +
				"back       IT part.shell                      SO cut.fold n 1   10 in × 20 in  IT grain.along\n"},
	} {
		var d document.Draft
		Table(&d, c.tell, "", pieces, append(append([]ColumnOf[*garment.Piece]{PieceName}, c.cut...), PieceGrain)...).End()
		if got := string((&document.Terminal{}).Write(d.Blocks)); fields(got) != fields(c.want) {
			t.Errorf("got\n%s\nwant\n%s", got, c.want)
		}
	}
}

// fields are the words of a table, one space between them.
func fields(table string) string { return strings.Join(strings.Fields(table), " ") }

// TestStepsTold: a step names the steps before it by their numbers, what it waits for
// that is no step by its own word, and its seams with their length together.
func TestStepsTold(t *testing.T) {
	pad := &figure.Pad{}
	text := func(words string) record.Text { return record.Text{V: words} }
	long := pad.Figure("step.sew.metres", "", "", pad.Constant(508, measure.UnitMM), measure.UnitMM, "", figure.Derived)
	steps := []*order.Step{
		{ID: "cut", Record: &record.Step{Do: text("cut *all*"), Takes: record.Duration{V: 90 * time.Minute}}},
		{ID: "sew", Metres: long, Record: &record.Step{Do: text("sew"), Note: record.Spoken{Text: text("slowly")}, After: []record.Text{text("cut"), text("thread-came")},
			Sews: []record.Text{text("side"), text("yoke")}, Wait: record.Duration{V: 12 * time.Hour}}},
	}
	named := func(name string) document.Inline { return document.Say(name + "!") }
	for _, c := range []struct {
		tell Teller
		want string
	}{
		{OnPage, "step sews after step planned 1. cut all 1 h 30 min 2. sew, slowly side!, yoke!, together 508 mm 1, thread-came then wait 12 h"},
		{inInches{}, "THE step THE sews THE after THE planned 1. IT work.cut-all 1 h 30 min 2. IT work.sew, slowly side!, yoke!, IT sewn.together 20 in 1 & thread-came SO step.wait time 12 h"},
	} {
		var d document.Draft
		Table(&d, c.tell, "", WorkSteps(steps), WorkName, WorkSews(named), WorkAfter, WorkPlanned(measure.Style{})).End()
		if got := string((&document.Terminal{}).Write(d.Blocks)); fields(got) != fields(c.want) {
			t.Errorf("got\n%q\nwant\n%q", fields(got), fields(c.want))
		}
	}
}
