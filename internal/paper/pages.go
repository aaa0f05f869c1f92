package paper

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/document"
	"hembook/internal/drawing"
	"hembook/internal/say"
)

// A page is what stands on one page, from its upper left corner.
type page struct {
	items []item
	used  float64 // how far down, without the foot
	first int     // the slab it begins with
}

// Options are what a book is set with beside what it says.
type Options struct {
	// MoreFont is a TrueType font for letters that the built-in faces lack:
	// Japanese, for one. Without it such letters are set as □.
	MoreFont []byte
}

// layout sets a document on pages.
func layout(d document.Document, fs faces) ([]page, error) {
	if err := d.Check(); err != nil {
		return nil, err
	}
	wide, high := d.Size.MM()
	foot := footHeight(d)
	s := &setter{faces: fs, look: &drawing.Print, size: d.TextSize, words: d.Words, printer: d.Printer, room: high - marginTop - marginFoot - foot}
	if s.size == 0 {
		s.size = document.DefaultText
	}
	if d.Card != nil {
		pages := s.cardPages(d.Card, d.Size)
		if s.wrong != nil {
			return nil, fmt.Errorf("%q: %w", d.Title, s.wrong)
		}
		return pages, nil
	}
	pages := s.tidy(d.Blocks, wide-2*marginSide)
	if s.wrong != nil {
		return nil, fmt.Errorf("%q: %w", d.Title, s.wrong)
	}
	for i := range pages {
		moved := make([]item, 0, len(pages[i].items)+8)
		for _, it := range pages[i].items {
			moved = append(moved, it.at(marginSide, marginTop))
		}
		pages[i].items = append(moved, s.foot(d, i+1, len(pages), wide, high)...)
	}
	return pages, nil
}

// paginate deals slabs out to pages. It turns the page before the slabs named
// by turns, which each begin a group, and otherwise only where it must.
func paginate(slabs []slab, room float64, turns ...int) []page {
	d := dealer{room: room}
	for i := 0; i < len(slabs); {
		if slices.Contains(turns, i) {
			d.wish = true
		}
		j := groupEnd(slabs, i)
		d.next = i
		d.group(slabs[i:j])
		i = j
	}
	if len(d.now.items) > 0 || len(d.pages) == 0 {
		d.now.used = d.y
		d.pages = append(d.pages, d.now)
	}
	return d.pages
}

// groupEnd is the slab after the group that begins with slab i.
func groupEnd(slabs []slab, i int) int {
	for slabs[i].keep && i+1 < len(slabs) {
		i++
	}
	return i + 1
}

type dealer struct {
	room  float64
	next  int // the slab that is placed next
	pages []page
	now   page
	y     float64
	wish  bool // a new page is wished for before what comes next
}

func (d *dealer) empty() bool { return len(d.now.items) == 0 }

func (d *dealer) turn() {
	if !d.empty() {
		d.now.used = d.y
		d.pages = append(d.pages, d.now)
		d.now, d.y = page{}, 0
	}
	d.wish = false
}

// group places slabs that belong together, on a new page if this one cannot
// hold them, and parted only where no page can.
func (d *dealer) group(g []slab) {
	if d.wish {
		d.turn()
	}
	const slack = 1e-6
	high := highOf(g)
	if d.empty() {
		high -= g[0].gap
	}
	if !d.empty() && d.y+high > d.room+slack {
		d.turn()
	}
	for _, s := range g {
		if !d.empty() && d.y+s.gap+s.high > d.room+slack {
			d.turn()
		}
		d.place(s)
	}
}

func (d *dealer) place(s slab) {
	if d.empty() {
		d.now.first = d.next
	}
	d.next++
	if !d.empty() {
		d.y += s.gap
	} else if s.again != nil && len(d.pages) > 0 && s.again.high+s.high <= d.room {
		d.put(*s.again)
	}
	d.put(s)
}

func (d *dealer) put(s slab) {
	for _, it := range s.items {
		d.now.items = append(d.now.items, it.at(0, d.y))
	}
	d.y += s.high
}

// footHeight is how much of a page its foot takes.
func footHeight(d document.Document) float64 {
	return footHigh + float64(max(len(d.Footer)-1, 0))*footText*mmPerPoint*leading
}

// foot sets the lines at the foot of a page and its number.
func (s *setter) foot(d document.Document, n, of int, wide, high float64) []item {
	var out slab
	row := footText * mmPerPoint * leading
	y := high - marginFoot - footHeight(d) + footHigh - row
	out.put(0, 0, stroke(marginSide, y-1.2, wide-marginSide, y-1.2, drawing.Pen{Weight: hairline, Ink: drawing.Chalk, Butt: true}))
	number := fill(s.label(pageOf(s.words.PageOf, n, of), sans(), footText, drawing.Faded), wide)
	numberWide := 0.0
	for _, l := range number {
		numberWide = l.wide
	}
	for i, text := range d.Footer {
		for _, l := range fill(s.label(text, sans(), footText, drawing.Faded), wide-2*marginSide-numberWide-6) {
			out.putLine(l, marginSide, y+row*float64(i), row)
			break
		}
	}
	for _, l := range number {
		out.putLine(l, wide-marginSide-l.wide, y, row)
	}
	return echoed(out.items)
}

// pageOf fills in a page's number.
func pageOf(words string, n, of int) string {
	if !strings.Contains(words, "{n}") || !strings.Contains(words, "{of}") {
		words = say.Of("document.page-of")
	}
	return strings.NewReplacer("{n}", strconv.Itoa(n), "{of}", strconv.Itoa(of)).Replace(words)
}
