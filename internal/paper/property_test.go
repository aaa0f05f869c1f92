package paper

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

var someWords = rapid.SampledFrom([]string{"a", "hem", "seam", "allowance", "15 mm", "5/8 in", "Größe", "manche", "à", "½", "French-seam", "undyed", "—",
	"Donaudampfschifffahrtsgesellschaftskapitänsmützenbandnähmaschine", "https://example.org/a/very/long/address/that/has/no/space/in/it/at/all/and/goes/on/and/on", "one\nrow", "x y", "100 %"})

func somePhrase(t *rapid.T, most int) Phrase {
	var p Phrase
	for range rapid.IntRange(1, 3).Draw(t, "runs") {
		words := rapid.SliceOfN(someWords, 0, most).Draw(t, "words")
		p = append(p, Run{Text: strings.Join(words, " ") + " ", Style: Style(rapid.IntRange(0, 3).Draw(t, "style"))})
	}
	return p
}

func someText(t *rapid.T, most int) string {
	return strings.Join(rapid.SliceOfN(someWords, 1, most).Draw(t, "words"), " ")
}

func someTable(t *rapid.T) Table {
	b := Table{Caption: someText(t, 4), RowHead: rapid.Bool().Draw(t, "row head"), Last: rapid.Bool().Draw(t, "sum")}
	for range rapid.IntRange(1, 6).Draw(t, "columns") {
		b.Columns = append(b.Columns, Column{Head: someText(t, 2), Align: Align(rapid.IntRange(0, 3).Draw(t, "align"))})
	}
	for range rapid.IntRange(0, 60).Draw(t, "rows") {
		var row []Phrase
		for range b.Columns {
			row = append(row, somePhrase(t, 3))
		}
		b.Rows = append(b.Rows, row)
	}
	return b
}

func someBlock(t *rapid.T, deep int) Block {
	switch rapid.IntRange(0, 12-deep).Draw(t, "kind") {
	case 0:
		return Heading{Level: rapid.IntRange(1, 3).Draw(t, "level"), Text: someText(t, 6)}
	case 1:
		return Text{somePhrase(t, 200)}
	case 2:
		l := List{Numbered: rapid.Bool().Draw(t, "numbered"), From: rapid.IntRange(0, 99).Draw(t, "from")}
		for range rapid.IntRange(0, 30).Draw(t, "points") {
			l.Items = append(l.Items, Say(someText(t, 30)))
		}
		return l
	case 3:
		return someTable(t)
	case 4:
		var b Ticks
		for range rapid.IntRange(0, 20).Draw(t, "ticks") {
			b.Items = append(b.Items, Tick{Phrase: somePhrase(t, 12), Note: someText(t, 3), Done: rapid.Bool().Draw(t, "done")})
		}
		return b
	case 5:
		var b Symbols
		for range rapid.IntRange(0, 7).Draw(t, "symbols") {
			b.Items = append(b.Items, Symbol{Drawing: hundred(), Words: someText(t, 5), About: someText(t, 2)})
		}
		b.Note = someText(t, 5)
		return b
	case 6:
		var b Facts
		for range rapid.IntRange(0, 12).Draw(t, "facts") {
			b.Items = append(b.Items, Fact{someText(t, 3), somePhrase(t, 12)})
		}
		return b
	case 7:
		return Note{someText(t, 2), somePhrase(t, 60)}
	case 8:
		return Caution{someText(t, 2), somePhrase(t, 60)}
	case 9:
		return QR{Address: "https://example.org/builds/x/", Words: someText(t, 5)}
	case 10:
		return Sketch{Drawing: wordsOf(rapid.Float64Range(1, 900).Draw(t, "wide"), rapid.Float64Range(1, 900).Draw(t, "high"), "piece"), Caption: someText(t, 6)}
	case 11:
		var b Columns
		for range rapid.IntRange(1, 3).Draw(t, "columns") {
			var column []Block
			for range rapid.IntRange(0, 4).Draw(t, "blocks") {
				column = append(column, someBlock(t, 2))
			}
			b.Blocks = append(b.Blocks, column)
		}
		return b
	}
	return PageBreak{}
}

func someDocument(t *rapid.T) Document {
	d := Document{Title: "any", Language: "en", Size: Size(rapid.IntRange(0, 1).Draw(t, "size")), TextSize: rapid.Float64Range(8, 14).Draw(t, "text")}
	for range rapid.IntRange(0, 12).Draw(t, "blocks") {
		d.Blocks = append(d.Blocks, someBlock(t, 0))
	}
	return d
}

// said is what a page must show of blocks, numbers of points with them.
func said(list []Block) string {
	var out strings.Builder
	for _, b := range list {
		switch b := b.(type) {
		case List:
			for i, p := range b.Items {
				if b.Numbered {
					out.WriteString(strconv.Itoa(max(b.From, 0)+i+map[bool]int{true: 1}[b.From == 0]) + ".")
				}
				out.WriteString(p[0].Text)
			}
		case Columns:
			for _, c := range b.Blocks {
				out.WriteString(said(c))
			}
		default:
			out.WriteString(strings.Join(texts([]Block{b}), ""))
		}
	}
	return squeeze(out.String())
}

// checkLayout: no blank page, nothing beyond the paper's margins or in the
// foot, every word there once and in order.
func checkLayout(t *rapid.T) {
	d := someDocument(t)
	pages, err := layout(d, faces{})
	if err != nil {
		t.Fatal(err)
	}
	wide, high := d.Size.MM()
	floor := high - marginFoot - footHeight(d)
	var all strings.Builder
	for n, p := range pages {
		shown := 0
		for _, it := range p.items {
			switch it := it.(type) {
			case textItem:
				if it.echo {
					continue
				}
				shown++
				all.WriteString(it.text)
				if it.x < marginSide-0.01 || it.x+it.wide > wide-marginSide+1.2 {
					t.Fatalf("page %d: %q stands from %.2f to %.2f of %.0f mm", n+1, it.text, it.x, it.x+it.wide, wide)
				}
				if it.y < marginTop || it.y > floor+0.01 {
					t.Fatalf("page %d: %q stands at %.2f mm, the body ends at %.2f", n+1, it.text, it.y, floor)
				}
			case pathItem, pictureItem:
				shown++
			}
		}
		if shown <= 1 && len(pages) > 1 { // the foot alone has a line
			t.Fatalf("page %d of %d is blank", n+1, len(pages))
		}
	}
	if got, want := squeeze(all.String()), said(d.Blocks); got != want {
		t.Fatalf("the pages say\n%q\nnot\n%q", got, want)
	}
}

func TestLayoutKeepsEveryWord(t *testing.T) { rapid.Check(t, checkLayout) }

func FuzzLayout(f *testing.F) { f.Fuzz(rapid.MakeFuzz(checkLayout)) }

// TestSlabsStayTogether: what is kept with the next stands on its page,
// unless the two could be on no page together; pages are filled in order and
// never past their end.
func TestSlabsStayTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		const room = 100.0
		n := rapid.IntRange(1, 40).Draw(t, "slabs")
		slabs := make([]slab, n)
		for i := range slabs {
			s := &slabs[i]
			s.high = rapid.Float64Range(1, 60).Draw(t, "high")
			s.gap = rapid.Float64Range(0, 9).Draw(t, "gap")
			s.keep = rapid.IntRange(0, 3).Draw(t, "keep") == 0
			s.items = []item{textItem{text: strconv.Itoa(i), wide: s.high}}
			if rapid.IntRange(0, 9).Draw(t, "break") == 0 {
				*s = slab{brk: true}
			}
		}
		pages := paginate(slabs, room)
		pageOfSlab := map[string]int{}
		for p, page := range pages {
			if len(page.items) == 0 && len(pages) > 1 {
				t.Fatalf("page %d is blank", p)
			}
			for _, it := range page.items {
				w := it.(textItem)
				pageOfSlab[w.text] = p
				if w.y+w.wide > room+1e-3 {
					t.Fatalf("slab %s ends at %.2f", w.text, w.y+w.wide)
				}
			}
		}
		for i := 0; i+1 < n; i++ {
			a, b := slabs[i], slabs[i+1]
			alone := (i == 0 || !slabs[i-1].keep) && !b.keep // a pair, no longer chain
			if a.brk || b.brk || !a.keep || !alone || a.high+b.gap+b.high > room {
				continue
			}
			if pageOfSlab[strconv.Itoa(i)] != pageOfSlab[strconv.Itoa(i+1)] {
				t.Fatalf("slabs %d and %d are parted", i, i+1)
			}
		}
	})
}

// TestTallRowsLoseNothing: a cell longer than a page goes on over pages.
func TestTallRowsLoseNothing(t *testing.T) {
	var words []string
	for i := range 3000 {
		words = append(words, fmt.Sprintf("w%04d", i))
	}
	long := strings.Join(words, " ")
	for _, b := range []Block{
		Table{Columns: []Column{{Head: "a"}, {Head: "b"}}, Rows: [][]Phrase{{Say("first"), Say(long)}, {Say("second"), Say("short")}}},
		Facts{Items: []Fact{{"term", Say(long)}}},
		Ticks{Items: []Tick{{Phrase: Say(long)}}},
		Symbols{Items: []Symbol{{Drawing: hundred(), Words: long}}},
		QR{Address: "https://example.org/", Words: long},
		Caution{"fire", Say(long)},
	} {
		pages, err := layout(Document{Title: "t", Language: "en", Blocks: []Block{b}}, faces{})
		if err != nil {
			t.Fatal(err)
		}
		seen := map[string]int{}
		for n, p := range pages {
			for _, it := range p.items {
				w, ok := it.(textItem)
				if !ok || w.echo {
					continue
				}
				if w.y > 297-marginFoot-footHigh+0.01 {
					t.Errorf("%T, page %d: %q stands in the foot", b, n+1, w.text)
				}
				for _, f := range strings.Fields(w.text) {
					seen[f]++
				}
			}
		}
		for _, w := range words {
			if seen[w] != 1 {
				t.Fatalf("%T: %s stands %d times on %d pages", b, w, seen[w], len(pages))
			}
		}
	}
}

func TestFit(t *testing.T) {
	d := Document{Title: "t", Language: "en"}
	before := 0
	for n := 100; before < 2; n++ {
		d.Blocks = []Block{Text{Say(strings.Repeat("A hem is turned twice and felled by hand. ", n))}}
		before, _ = Pages(d, Options{})
	}
	got, ok, err := Fit(d, 1, Options{})
	if err != nil || !ok || before != 2 || got.TextSize >= DefaultText || got.TextSize < SmallestText {
		t.Errorf("%d pages before; size %v, fits %v, %v", before, got.TextSize, ok, err)
	}
	if n, _ := Pages(got, Options{}); n != 1 {
		t.Errorf("%d pages after", n)
	}
	d.Blocks = append(d.Blocks, d.Blocks[0])
	if got, ok, _ := Fit(d, 1, Options{}); ok || got.TextSize != SmallestText {
		t.Errorf("what cannot fit: size %v, fits %v", got.TextSize, ok)
	}
	if d.TextSize != 0 {
		t.Error("Fit changed the document it was given")
	}
}

func BenchmarkSheet(b *testing.B) {
	d := everyBlock(A4)
	for b.Loop() {
		data, err := PDF(Alone(d), Options{})
		if err != nil {
			b.Fatal(err)
		}
		b.ReportMetric(float64(len(data)), "bytes")
	}
}

func TestLinesByHand(t *testing.T) {
	// Liberation Serif: a letter a is 909/2048 em = 0.444 after rounding, a
	// space 0.250. At 72 points one em is 25.4 mm.
	a := atomiser{}
	a.add("aa aa", setting{face: serif(), size: 72})
	if len(a.atoms) != 2 {
		t.Fatalf("%d atoms", len(a.atoms))
	}
	word := 2 * 0.444 * 25.4
	if math.Abs(a.atoms[0].wide-word) > 1e-9 || math.Abs(a.atoms[1].space-0.25*25.4) > 1e-9 {
		t.Errorf("word %.4f mm, space %.4f mm", a.atoms[0].wide, a.atoms[1].space)
	}
	if n := len(fill(a.atoms, 2*word+0.25*25.4)); n != 1 {
		t.Errorf("%d lines where both words fit", n)
	}
	if n := len(fill(a.atoms, 2*word+0.25*25.4-0.01)); n != 2 {
		t.Errorf("%d lines where they do not", n)
	}
}
