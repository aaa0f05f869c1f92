package compose

import (
	"fmt"
	"strings"
	"testing"

	"hembook/internal/document"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/trade"
)

// inInches tells in capitals and inches, as another reader's sheet would.
type inInches struct{}

func (inInches) Head(word string) string      { return "THE " + word }
func (inInches) Called(word, _ string) string { return "IT " + word }
func (inInches) Joined(words []string) string { return strings.Join(words, " & ") }
func (inInches) Filled(word, own string, with ...any) string {
	return "SO " + word + " " + strings.TrimSpace(fmt.Sprintln(with...))
}
func (inInches) Figure(f *figure.Figure) document.Inline {
	return document.Quantity(measure.Style{System: measure.Imperial}.Quantity(f.Value.Quantity), "")
}

// TestOneTableTwoReaders: the same columns say the same to a page and to a
// sheet: the total only of what is sewn more than once, both allowances only
// where they differ.
func TestOneTableTwoReaders(t *testing.T) {
	pad := &figure.Pad{}
	mm := func(n float64) figure.Figure {
		return pad.Figure("f", "", "", pad.Constant(n, measure.UnitMM), measure.UnitMM, "", figure.Derived)
	}
	plain := trade.SeamType{Name: "plain", Title: "Plain seam"}
	rows := []*garment.Seam{
		{Name: "side", Type: plain, Times: 2, Length: mm(254), Total: mm(508), Gives: [2]figure.Figure{mm(25.4), mm(12.7)}},
		{Name: "yoke", Type: plain, Times: 1, Length: mm(127), Total: mm(127), Gives: [2]figure.Figure{mm(25.4), mm(25.4)}},
	}
	for _, c := range []struct {
		tell Teller
		want string
	}{
		{OnPage, "name  seam        length  total   allowance used\nside  Plain seam  254 mm  508 mm  25 mm / 13 mm\nyoke  Plain seam  127 mm          25 mm\n"},
		{inInches{}, "THE seam      THE seam-type  THE length  THE total  THE allowance\nIT edge.side  IT seam.plain  10 in       20 in      1 in / 1/2 in\nIT edge.yoke  IT seam.plain  5 in                   1 in\n"},
	} {
		var d document.Draft
		Table(&d, c.tell, "", rows, SeamName, SeamType(func(mm float64) string { return "" }), SeamLength, SeamTotal, SeamAllowance).End()
		if got := string((&document.Terminal{}).Write(d.Blocks)); got != c.want {
			t.Errorf("got\n%s\nwant\n%s", got, c.want)
		}
	}
}

// TestLevelsOnSheets: a level is looked up by one word whatever spaces its name has,
// and where plain seams give no more the cell stays empty: a dash says "not known".
func TestLevelsOnSheets(t *testing.T) {
	pad := &figure.Pad{}
	now := pad.Figure("f", "", "", pad.Constant(254, measure.UnitMM), measure.UnitMM, "", figure.Derived)
	rows := []*garment.Level{{Name: "Upper arm", Title: "Upper arm", Finished: now, LetOutPlain: now}, {Name: "hip", Title: "Hip", Finished: now}}
	var d document.Draft
	Table(&d, inInches{}, "", rows, LevelName, levelFinished, LevelPlain).End()
	want := "THE level           THE finished  THE plain\nIT level.upper-arm  10 in         10 in\nIT level.hip        10 in\n"
	if got := string((&document.Terminal{}).Write(d.Blocks)); got != want {
		t.Errorf("got\n%s\nwant\n%s", got, want)
	}
}
