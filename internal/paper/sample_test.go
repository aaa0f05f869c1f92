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
	"time"

	"hembook/internal/document"
	"hembook/internal/drawing"
	"hembook/internal/figure"
	"hembook/internal/measure"
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

// say is a phrase of one plain run.
func spoken(words string) document.Phrase { return document.Phrase{document.Say(words)} }

// para is a paragraph.
func para(words string) document.Text { return document.Text{Phrase: spoken(words)} }

// points are the points of a list.
func points(words ...string) []document.Item {
	var out []document.Item
	for _, w := range words {
		out = append(out, document.Item{Phrase: spoken(w)})
	}
	return out
}

// fact is a term and what is said of it.
func fact(term, words string) document.Fact {
	return document.Fact{Term: term, Says: []document.Phrase{spoken(words)}}
}

// row is a row of cells.
func row(words ...string) document.TableRow {
	var out document.TableRow
	for _, w := range words {
		if w == "" {
			out = append(out, nil)
			continue
		}
		out = append(out, spoken(w))
	}
	return out
}

// symbol is a point of a list that is drawn.
func symbol(words string) document.Item { return document.Item{Draw: hundred, Phrase: spoken(words)} }

// everyBlock is a document with every kind of block that stands on paper.
func everyBlock(size document.Size) document.Document {
	var pad figure.Pad
	hem := pad.Figure("hem", "hem", "", pad.Constant(1240, measure.UnitMM), measure.UnitMM, "", figure.Derived)
	nape := time.Date(2031, 5, 4, 0, 0, 0, 0, time.UTC)
	return document.Document{
		Title: "Orchard coat: care & fit", Author: "Workroom under the Eaves", Language: "en", Size: size,
		Footer: []string{"Workroom under the Eaves · hello@example.org"},
		Blocks: []document.Block{
			document.Heading{Level: 1, Words: "Orchard coat", Aside: "care and fit · made for one wearer, 2031"},
			document.Text{Phrase: document.Phrase{document.Say("This coat is cut once and sewn by hand where it shows. "), document.As(document.Strong, "Keep this sheet with it"), document.Say(": whoever washes, mends or alters it needs what stands here. The hem measures "),
				document.Of(&hem), document.Say(" round, the sleeve "), document.Quantity("610 mm", "24 in"), document.Say(", as of "), {When: &nape}, document.Say("."), document.As(document.Small, "Source: the build's own record."), document.As(document.Cited, "a table"), document.As(document.Good, "meets"), document.As(document.Below, "and so on")}},
			document.Text{As: document.Byline, Phrase: spoken("first fitting")},
			document.Heading{Level: 2, Words: "Care"},
			document.List{As: "symbols", Row: true, Items: []document.Item{
				symbol("Wash by hand, 30 °C at most"), symbol("Do not bleach"), symbol("Dry flat in the shade"),
				{Draw: hundred, Phrase: document.Phrase{document.Say("Iron at 110 °C at most"), document.As(document.Small, "no steam")}}, symbol("Do not dry clean")}},
			document.Cautions{Items: []document.Caution{{Head: "Keep away from fire.", Words: "The cloth is light and its pile is raised: it catches fire easily."}, {Words: "Local law may ask for more."},
				{Head: "Nickel.", Words: "It touches the skin.", Why: "the buckle", Source: "a regulation"}}, Defers: "The law of the place goes first."},
			document.Columns{Shares: []float64{3, 2}, Of: [][]document.Block{
				{document.Heading{Level: 3, Words: "Fit"}, document.Table{
					Columns: []document.Column{document.Words("level"), document.Figures("body"), document.Words("empty"), document.Figures("garment"), document.Figures("ease")},
					Rows: []document.TableRow{row("bust", "940", "", "1 020", "80"), row("waist", "760", "", "812", "52"),
						{spoken("hip, over the fullest part"), spoken("1 010"), nil, spoken("1 100"), {document.As(document.Strong, "90")}}}}},
				{document.Section{Level: 3, Head: "Content", Blocks: []document.Block{document.Facts{Items: []document.Fact{fact("outer", "62 % wool, 38 % linen"), {Term: "lining", Says: []document.Phrase{spoken("100 % viscose"), spoken("twill")}}, fact("interlining", "cotton flannel, loose at the hem")}}}}},
			}},
			document.Heading{Level: 2, Words: "In the box"},
			document.Ticks{Items: []document.Tick{{Phrase: spoken("The coat on its hanger"), Done: true}, {Phrase: spoken("Spare buttons and a length of thread")}, {Phrase: spoken("This sheet")}}},
			document.FillIn{Says: "Checked for pins and needles before it was packed.", Fields: []document.Field{{Name: "signed", Share: 62}, {Name: "date", Value: "4 May 2031", Share: 30}}},
			document.List{Numbered: true, Items: append(points("Turn the coat inside out.", "Steam the hem from the wrong side; never press the pile."),
				document.Item{Phrase: spoken("Hang it for a night:"), Blocks: []document.Block{para("in the dark, on a broad hanger.")}})},
			document.List{Items: points("a loose point", "another")},
			document.Text{As: document.Note, Phrase: document.Phrase{document.As(document.Strong, "On content."), document.Say(" An EU rule exempts bespoke pieces made by self-employed tailors; content is given for information.")}},
			document.Sketch{Draw: hundred, Caption: "Printed at full size this line is 100 mm long.", Exact: true},
			document.Sketches{Of: []document.Sketch{{Draw: small, Caption: "front"}, {Draw: small, Caption: "back"}, {Draw: small, Caption: "sleeve"}, {Draw: small, Caption: "cuff"}}},
			document.Picture{Data: swatch(), Alt: "the cloth", High: 30, Caption: "The cloth, right side."},
			document.List{As: "code", Items: []document.Item{{Draw: hundred, Phrase: document.Phrase{document.Say("The page of this coat in the notebook"), {Voice: document.Small, Words: "https://example.org/builds/orchard-coat/", Page: "https://example.org/builds/orchard-coat/"}}}}},
		},
	}
}

// small is a small drawing without words.
func small() *drawing.Drawing {
	d := sized(50, 20, "a piece")
	d.Draw(drawing.SquareMM).Rect(1, 1, 49, 19)
	return d
}

func TestEveryBlockBecomesAPDF(t *testing.T) {
	for _, size := range []document.Size{document.A4, document.Letter} {
		data, err := PDF(document.Alone(everyBlock(size)), Options{})
		if err != nil {
			t.Fatal(err)
		}
		look(t, "every-"+strings.ToLower(size.String())+".pdf", data)
		again, err := PDF(document.Alone(everyBlock(size)), Options{})
		if err != nil || !bytes.Equal(data, again) {
			t.Errorf("%v: the second run has other bytes", size)
		}
	}
}
