package main

import (
	"strings"
	"testing"

	"hembook/internal/derive"
	"hembook/internal/document"
	"hembook/internal/fault"
	"hembook/internal/paper"
	"hembook/internal/record"
	"hembook/internal/sheet"
)

// TestPackLooksOnceMore: a private value on a sheet that was not opened for it
// is found in what was set, as HTML and as PDF; on the sheet it was opened for
// it is not.
func TestPackLooksOnceMore(t *testing.T) {
	nothingBeside(t)
	dir := sow(t)
	room, _, err := record.Open(dir)
	if err != nil {
		t.Fatal(err)
	}
	defer room.Close()
	b, _ := room.ReadBuild(room.Builds[0])
	tailor, _ := derive.NewTailor(room)
	last := newPackProof(room, b, tailor.Derive(b).Figures())
	var street, name fault.Pos
	wearer := room.Wearers["robin-secret"].Open(record.ToTheMaker)
	street, name = wearer.Address.At, wearer.Name.At
	for _, c := range []struct {
		words, sheet string
		may          []fault.Pos
		want         string // the place that is told; empty where nothing is
	}{
		{"Send it to SECRETstreet 4.", "repairs", nil, "content/wearers/robin-secret.yaml:5:10"},
		{"Send it to SECRETstreet 4.", "customs", []fault.Pos{name, street}, ""},
		{"Send it to SECRETstreet 4.", "care-and-fit", []fault.Pos{name}, "content/wearers/robin-secret.yaml:5:10"},
		{"It was paid 7987.67 EUR.", "remake", nil, "content/builds/skirt/build.yaml:"},
		{"Wash it by itself.", "repairs", nil, ""},
	} {
		saying := func(words string) document.Document {
			return document.Document{Title: "x", Language: "en", Size: document.A4, Blocks: []document.Block{document.Text{Phrase: document.Phrase{document.Say(words)}}}}
		}
		packet := &sheet.Packet{Sheets: []sheet.Sheet{
			{Name: c.sheet, Bundle: sheet.ToMakers, MayShow: c.may, Document: saying(c.words)},
			{Name: "beside", Bundle: sheet.ToMakers, Document: saying("Hang it up.")},
		}}
		files, err := packFiles(packet, paper.Options{})
		if err != nil {
			t.Fatal(err)
		}
		told := map[string]string{}
		for _, f := range last.faults(packet, files) {
			_, file, _ := strings.Cut(f.Message, "shown on ")
			told[file] = f.At.String()
			if strings.Contains(f.Message, "SECRET") {
				t.Errorf("the fault quotes it: %s", f.Message)
			}
		}
		for _, file := range []string{c.sheet + ".html", c.sheet + ".pdf", "makers.html", "makers.pdf"} {
			if got := told[file]; (got == "") != (c.want == "") || !strings.HasPrefix(got, c.want) {
				t.Errorf("%q on %s: told of %q, want %q", c.words, file, got, c.want)
			}
		}
	}
}
