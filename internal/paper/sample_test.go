package paper

import (
	"bytes"
	"flag"
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"hembook/internal/drawing"
)

var keep = flag.String("keep", "", "write what the samples become into this folder, to look at")

// look writes a sample's files where -keep says.
func look(t *testing.T, name string, data []byte) {
	if *keep == "" {
		return
	}
	if err := os.WriteFile(filepath.Join(*keep, name), data, 0o644); err != nil {
		t.Fatal(err)
	}
}

// swatch is a small picture.
func swatch() []byte {
	m := image.NewRGBA(image.Rect(0, 0, 60, 40))
	for y := range 40 {
		for x := range 60 {
			m.Set(x, y, color.RGBA{uint8(120 + x), uint8(90 + y), 70, 255})
		}
	}
	var out bytes.Buffer
	if err := png.Encode(&out, m); err != nil {
		panic(err)
	}
	return out.Bytes()
}

func hundred() *drawing.Drawing {
	d := sized(110, 12, "a line of 100 mm")
	d.Draw(drawing.SquareMM).Move(5, 6).Line(105, 6).Move(5, 4).Line(5, 8).Move(105, 4).Line(105, 8)
	d.Say(drawing.Label{X: 55, Y: 11, Words: "100 mm", Anchor: drawing.Middle})
	return d
}

// wordsOf is a drawing of words alone.
func wordsOf(wide, high float64, words string) *drawing.Drawing {
	d := sized(wide, high, words)
	d.Say(drawing.Label{X: 1, Y: 1, Words: words})
	return d
}

// sized is an empty drawing.
func sized(wide, high float64, title string) *drawing.Drawing {
	d := drawing.New("test")
	d.Title, d.Box = title, drawing.Box{Right: wide, Bottom: high}
	return d
}

// everyBlock is a document with every kind of block.
func everyBlock(size Size) Document {
	return Document{
		Title: "Orchard coat: care & fit", Author: "Workroom under the Eaves", Language: "en", Size: size,
		Footer: []string{"Workroom under the Eaves · hello@example.org"},
		Blocks: []Block{
			Heading{Level: 1, Text: "Orchard coat", About: "care and fit · made for one wearer, 2031"},
			Text{Phrase{{Text: "This coat is cut once and sewn by hand where it shows. "}, {Text: "Keep this sheet with it", Style: Strong}, {Text: ": whoever washes, mends or alters it needs what stands here. The hem measures "}, {Text: "1 240", Style: Figure}, {Text: " mm round. "}, {Text: "Source: the build's own record.", Style: Small}}},
			Heading{Level: 2, Text: "Care"},
			Symbols{Items: []Symbol{
				{Drawing: hundred(), Words: "Wash by hand, 30 °C at most"}, {Drawing: hundred(), Words: "Do not bleach"},
				{Drawing: hundred(), Words: "Dry flat in the shade"}, {Drawing: hundred(), Words: "Iron at 110 °C at most", About: "no steam"},
				{Drawing: hundred(), Words: "Do not dry clean"}}, Note: "Each symbol stands beside its words."},
			Caution{Head: "Keep away from fire.", Phrase: Say("The cloth is light and its pile is raised: it catches fire easily. Local law may ask for more.")},
			Columns{Shares: []float64{3, 2}, Blocks: [][]Block{
				{Heading{Level: 3, Text: "Fit"}, Table{
					Columns: []Column{{Head: "level"}, {Head: "body", Align: Number}, {Head: "garment", Align: Number}, {Head: "ease", Align: Number}},
					RowHead: true, Rows: [][]Phrase{
						{Say("bust"), Say("940"), Say("1 020"), Say("80")}, {Say("waist"), Say("760"), Say("812"), Say("52")},
						{Say("hip, over the fullest part"), Say("1 010"), Say("1 100"), Stress("90")}}}},
				{Heading{Level: 3, Text: "Content"}, Facts{Items: []Fact{{"outer", Say("62 % wool, 38 % linen")}, {"lining", Say("100 % viscose")}, {"interlining", Say("cotton flannel, loose at the hem")}}}},
			}},
			Heading{Level: 2, Text: "In the box"},
			Ticks{Items: []Tick{{Phrase: Say("The coat on its hanger"), Done: true, Note: "1"}, {Phrase: Say("Spare buttons and a length of thread"), Note: "2 + 10 m"}, {Phrase: Say("This sheet")}},
				SignBy: &Signature{About: "Checked for pins and needles before it was packed.", Date: "4 May 2031"}},
			List{Numbered: true, Items: []Phrase{Say("Turn the coat inside out."), Say("Steam the hem from the wrong side; never press the pile."), Say("Hang it for a night.")}},
			List{Items: []Phrase{Say("a loose point"), Say("another")}},
			Note{Head: "On content.", Phrase: Say("An EU rule exempts bespoke pieces made by self-employed tailors; content is given for information.")},
			Sketch{Drawing: hundred(), Caption: "Printed at full size this line is 100 mm long.", Exact: true},
			Picture{Data: swatch(), Alt: "the cloth", Wide: 40, Caption: "The cloth, right side."},
			QR{Address: "https://example.org/builds/orchard-coat/", Words: "The page of this coat in the notebook"},
		},
	}
}

func TestEveryBlockBecomesAPDF(t *testing.T) {
	for _, size := range []Size{A4, Letter} {
		data, err := PDF(Alone(everyBlock(size)), Options{})
		if err != nil {
			t.Fatal(err)
		}
		look(t, "every-"+strings.ToLower(size.String())+".pdf", data)
		again, err := PDF(Alone(everyBlock(size)), Options{})
		if err != nil || !bytes.Equal(data, again) {
			t.Errorf("%v: the second run has other bytes", size)
		}
	}
}
