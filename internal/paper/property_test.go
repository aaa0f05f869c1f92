package paper

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hembook/internal/document"
	"hembook/internal/drawing"
)

var someWords = rapid.SampledFrom([]string{"a", "hem", "seam", "allowance", "15 mm", "5/8 in", "Größe", "manche", "à", "½", "French-seam", "undyed", "—",
	"Donaudampfschifffahrtsgesellschaftskapitänsmützenbandnähmaschine", "https://example.org/a/very/long/address/that/has/no/space/in/it/at/all/and/goes/on/and/on", "one\nrow", "x y", "100 %"})

func somePhrase(t *rapid.T, most int) document.Phrase {
	var p document.Phrase
	for range rapid.IntRange(1, 3).Draw(t, "runs") {
		words := rapid.SliceOfN(someWords, 0, most).Draw(t, "words")
		p = append(p, document.Inline{Words: strings.Join(words, " ") + " ", Voice: document.Voice(rapid.IntRange(0, int(document.Below)).Draw(t, "voice"))})
	}
	return p
}

func someText(t *rapid.T, most int) string {
	return strings.Join(rapid.SliceOfN(someWords, 1, most).Draw(t, "words"), " ")
}

func someTable(t *rapid.T) document.Table {
	b := document.Table{Caption: someText(t, 4)}
	for range rapid.IntRange(1, 6).Draw(t, "columns") {
		b.Columns = append(b.Columns, document.Column{Head: someText(t, 2), Words: rapid.Bool().Draw(t, "of words")})
	}
	for range rapid.IntRange(0, 60).Draw(t, "rows") {
		var row document.TableRow
		for range rapid.IntRange(1, len(b.Columns)).Draw(t, "cells") {
			row = append(row, somePhrase(t, 3))
		}
		b.Rows = append(b.Rows, row)
	}
	return b
}

func someBlocks(t *rapid.T, most int) []document.Block {
	var out []document.Block
	for range rapid.IntRange(0, most).Draw(t, "blocks") {
		out = append(out, someBlock(t, 2))
	}
	return out
}

func someBlock(t *rapid.T, deep int) document.Block {
	drawn := func() func() *drawing.Drawing {
		d := wordsOf(rapid.Float64Range(1, 900).Draw(t, "wide"), rapid.Float64Range(1, 900).Draw(t, "high"), "piece")
		return func() *drawing.Drawing { return d }
	}
	switch rapid.IntRange(0, 13-deep).Draw(t, "kind") {
	case 0:
		return document.Heading{Level: rapid.IntRange(1, 3).Draw(t, "level"), Words: someText(t, 6)}
	case 1:
		return document.Text{Phrase: somePhrase(t, 200), As: document.Tone(rapid.IntRange(0, 2).Draw(t, "tone"))}
	case 2:
		l := document.List{Numbered: rapid.Bool().Draw(t, "numbered")}
		for range rapid.IntRange(0, 30).Draw(t, "points") {
			l.Items = append(l.Items, document.Item{Phrase: spoken(someText(t, 30))})
		}
		return l
	case 3:
		return someTable(t)
	case 4:
		var b document.Ticks
		for range rapid.IntRange(0, 20).Draw(t, "ticks") {
			b.Items = append(b.Items, document.Tick{Phrase: somePhrase(t, 12), Done: rapid.Bool().Draw(t, "done")})
		}
		return b
	case 5:
		b := document.List{Row: true}
		for range rapid.IntRange(0, 7).Draw(t, "symbols") {
			b.Items = append(b.Items, symbol(someText(t, 5)))
		}
		return b
	case 6:
		var b document.Facts
		for range rapid.IntRange(0, 12).Draw(t, "facts") {
			b.Items = append(b.Items, document.Fact{Term: someText(t, 3), Says: []document.Phrase{somePhrase(t, 12), somePhrase(t, 3)}})
		}
		return b
	case 7:
		return document.List{Items: []document.Item{symbol(someText(t, 9))}}
	case 8:
		return document.Cautions{Items: []document.Caution{{Head: someText(t, 2), Words: someText(t, 60)}, {Words: someText(t, 9), Why: someText(t, 2)}}, Defers: someText(t, 9)}
	case 9:
		return document.Sketch{Draw: drawn(), Caption: someText(t, 6)}
	case 10:
		var b document.Sketches
		for range rapid.IntRange(0, 5).Draw(t, "drawings") {
			b.Of = append(b.Of, document.Sketch{Draw: drawn(), Caption: someText(t, 3)})
		}
		return b
	case 11:
		var b document.Columns
		for range rapid.IntRange(1, 3).Draw(t, "columns") {
			b.Of = append(b.Of, someBlocks(t, 4))
		}
		return b
	case 12:
		return document.Section{Level: rapid.IntRange(0, 3).Draw(t, "level"), Head: someText(t, 3), Blocks: someBlocks(t, 3)}
	}
	return document.Turn{}
}

func someDocument(t *rapid.T) document.Document {
	d := document.Document{Title: "any", Language: "en", Size: document.Size(rapid.IntRange(0, 1).Draw(t, "size")), TextSize: rapid.Float64Range(8, 14).Draw(t, "text")}
	for range rapid.IntRange(0, 12).Draw(t, "blocks") {
		d.Blocks = append(d.Blocks, someBlock(t, 0))
	}
	return d
}

// said is what a page must show of blocks, as their HTML says it.
func said(t *rapid.T, d document.Document) string {
	page, err := document.OneFile(document.Alone(d))
	if err != nil {
		t.Fatal(err)
	}
	return squeeze(htmlWords(string(page)))
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
	whole := strings.ReplaceAll(all.String(), string(softHyphen), "") // which marks where a word goes on
	if got, want := squeeze(whole), said(t, d); got != want {
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
			if !a.keep || !alone || a.high+b.gap+b.high > room {
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
	for _, b := range []document.Block{
		document.Table{Columns: []document.Column{{Head: "a"}, {Head: "b"}}, Rows: []document.TableRow{row("first", long), row("second", "short")}},
		document.Facts{Items: []document.Fact{fact("term", long)}},
		document.Ticks{Items: []document.Tick{{Phrase: spoken(long)}}},
		document.List{Row: true, Items: []document.Item{symbol(long)}},
		document.List{Items: []document.Item{symbol(long)}},
		document.Cautions{Items: []document.Caution{{Head: "fire", Words: long}}},
	} {
		pages, err := layout(document.Document{Title: "t", Language: "en", Blocks: []document.Block{b}}, faces{})
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
	d := document.Document{Title: "t", Language: "en"}
	before := 0
	for n := 100; before < 2; n++ {
		d.Blocks = []document.Block{para(strings.Repeat("A hem is turned twice and felled by hand. ", n))}
		before, _ = Pages(d, Options{})
	}
	got, ok, err := Fit(d, 1, Options{})
	if err != nil || !ok || before != 2 || got.TextSize >= document.DefaultText || got.TextSize < smallestText {
		t.Errorf("%d pages before; size %v, fits %v, %v", before, got.TextSize, ok, err)
	}
	if n, _ := Pages(got, Options{}); n != 1 {
		t.Errorf("%d pages after", n)
	}
	d.Blocks = append(d.Blocks, d.Blocks[0])
	if got, ok, _ := Fit(d, 1, Options{}); ok || got.TextSize != smallestText {
		t.Errorf("what cannot fit: size %v, fits %v", got.TextSize, ok)
	}
	if d.TextSize != 0 {
		t.Error("Fit changed the document it was given")
	}
}

func BenchmarkSheet(b *testing.B) {
	d := everyBlock(document.A4)
	for b.Loop() {
		data, err := PDF(document.Alone(d), Options{})
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
