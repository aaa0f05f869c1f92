package paper

import (
	"fmt"
	"strconv"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"hembook/internal/document"
)

// TestNoOrphanPage: a page with little on it is taken back where text a
// little smaller saves it, whatever the length of the text.
func TestNoOrphanPage(t *testing.T) {
	saved := 0
	for n := 80; n < 260; n += 3 {
		d := document.Document{Title: "t", Language: "en", Blocks: []document.Block{para(strings.Repeat("A hem is turned twice and felled by hand. ", n))}}
		s := &setter{size: document.DefaultText, room: 297 - marginTop - marginFoot - footHeight(d)}
		plain := paginate(s.blocks(d.Blocks, 210-2*marginSide), s.room)
		pages, err := layout(d, faces{})
		if err != nil {
			t.Fatal(err)
		}
		if last := pages[len(pages)-1]; len(pages) > 1 && last.used < 30 {
			t.Errorf("%d sentences: %.0f mm stand on page %d", n, last.used, len(pages))
		}
		if len(pages) < len(plain) {
			saved++
		}
	}
	if saved == 0 {
		t.Error("no page was saved")
	}
}

// couldBalance adds up heights: is there a place to part the last two pages'
// slabs so that both are filled enough? It is worked out apart from balance.
func couldBalance(slabs []slab, first int, room float64) bool {
	least := room * leastFilled
	for at := first + 1; at < len(slabs); at++ {
		if slabs[at-1].keep {
			continue
		}
		above, below := tall(slabs[first:at], first > 0), tall(slabs[at:], true)
		if above >= least && above <= room && below >= least && below <= room {
			return true
		}
	}
	return false
}

// tall is how high slabs stand on a page of their own.
func tall(slabs []slab, further bool) float64 {
	high := 0.0
	for i, s := range slabs {
		if i > 0 {
			high += s.gap
		} else if further && s.again != nil {
			high += s.again.high
		}
		high += s.high
	}
	return high
}

// TestLastPageIsWorthTurningTo: a last page holds a quarter of a page, unless
// there was no place to turn earlier; and no slab is lost
// or moved before another by it.
func TestLastPageIsWorthTurningTo(t *testing.T) {
	balanced := 0
	rapid.Check(t, func(t *rapid.T) {
		const room = 250.0
		slabs := someSlabs(t)
		plain := paginate(slabs, room)
		pages := balance(slabs, plain, room)
		n := len(pages)
		if n != len(plain) {
			t.Fatalf("%d pages became %d", len(plain), n)
		}
		if n < 2 {
			return
		}
		var order []string
		for _, p := range pages {
			for _, it := range p.items {
				order = append(order, it.(textItem).text)
			}
		}
		want := 0
		for i := range slabs {
			if order[want] != strconv.Itoa(i) {
				t.Fatalf("slab %d stands where %s does", i, order[want])
			}
			want++
		}
		if want != len(order) {
			t.Fatalf("%d slabs became %d", want, len(order))
		}
		last := plain[n-1].first
		small := plain[n-1].used < room*leastFilled
		if pages[n-1].first != last {
			if !small {
				t.Fatal("a page was turned earlier without need")
			}
			balanced++
		}
		if small && pages[n-1].used < room*leastFilled && couldBalance(slabs, plain[n-2].first, room) {
			t.Fatalf("%.0f mm stand on the last page, where more could", pages[n-1].used)
		}
	})
	if balanced == 0 {
		t.Error("no pages were balanced")
	}
}

// someSlabs are the rows of text, headings and tables of a few pages of 250 mm.
func someSlabs(t *rapid.T) []slab {
	var out []slab
	for block := range rapid.IntRange(4, 30).Draw(t, "blocks") {
		kind := rapid.IntRange(0, 8).Draw(t, "kind")
		rows := rapid.IntRange(1, 25).Draw(t, "rows")
		for r := range rows {
			s := slab{high: rapid.Float64Range(3, 12).Draw(t, "high")}
			if r == 0 {
				s.gap, s.opens = 5, opensBlock
			}
			if kind < 4 { // a heading above what follows it
				if r == 0 {
					s.opens, s.keep = opensHeading, true
				} else {
					s.table = block + 1
				}
			}
			s.items = []item{textItem{text: strconv.Itoa(len(out))}}
			out = append(out, s)
		}
	}
	return out
}

// rowsOn says which rows of a table "r1", "r2" … stand on a page.
func rowsOn(p page) int {
	n := 0
	for _, it := range p.items {
		if w, ok := it.(textItem); ok && !w.echo && strings.HasPrefix(w.text, "r") && w.text != "row" {
			n++
		}
	}
	return n
}

// TestTablesAreBalanced: a short table goes over with its heading; a long one
// is parted so that at least five rows stand on either side.
func TestTablesAreBalanced(t *testing.T) {
	moved, parted := 0, 0
	for lines := 1; lines <= 46; lines++ {
		for _, rows := range []int{7, 40} {
			d := document.Document{Title: "t", Language: "en"}
			for range lines {
				d.Blocks = append(d.Blocks, para("A hem is turned twice."))
			}
			table := document.Table{Columns: []document.Column{{Head: "row"}}}
			for i := range rows {
				table.Rows = append(table.Rows, row(fmt.Sprintf("r%d", i+1)))
			}
			d.Blocks = append(d.Blocks, document.Heading{Level: 2, Words: "Closures"}, table)
			pages, err := layout(d, faces{})
			if err != nil {
				t.Fatal(err)
			}
			n := len(pages)
			if n < 2 || rowsOn(pages[n-1]) == rows {
				moved += n - 1
				continue
			}
			parted++
			above, below := rowsOn(pages[n-2]), rowsOn(pages[n-1])
			room := 297 - marginTop - marginFoot - footHeight(d)
			if pages[n-1].used < room*leastFilled {
				t.Errorf("%d lines, %d rows: the last page has %d rows", lines, rows, below)
			}
			if rows == 7 && below < rows {
				t.Errorf("%d lines: a table of 7 rows is parted, %d and %d", lines, above, below)
			}
			if below < leastRows {
				t.Errorf("%d lines, %d rows: %d and %d rows on either side", lines, rows, above, below)
			}
		}
	}
	if moved == 0 || parted == 0 {
		t.Errorf("%d tables moved, %d parted", moved, parted)
	}
}
