package paper

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"time"

	"codeberg.org/go-pdf/fpdf"

	"hembook/internal/document"
	"hembook/internal/drawing"
	"hembook/internal/fault"
	"hembook/internal/say"
)

// made is the date every PDF says it was made on, so that the same book has
// the same bytes on every day.
var made = time.Date(2000, 1, 1, 0, 0, 0, 0, time.UTC)

// PDF sets a book on pages and writes them.
func PDF(b document.Book, opt Options) ([]byte, error) {
	fs, err := newFaces(opt.MoreFont)
	if err != nil {
		return nil, err
	}
	w := newWriter(b.Title, b.Author, b.Language)
	if err := w.book(b, fs); err != nil {
		return nil, err
	}
	return w.bytes()
}

// book adds the pages of a book's documents.
func (w *writer) book(b document.Book, fs faces) error {
	for _, d := range b.Documents {
		pages, err := layout(d, fs)
		if err != nil {
			return err
		}
		for n, p := range pages {
			wide, high := d.Size.MM()
			if d.Card != nil {
				wide, high = high, wide
			}
			w.page(wide, high)
			if n == 0 && len(b.Documents) > 1 {
				w.now().title = d.Title
			}
			for _, it := range p.items {
				w.item(it)
			}
		}
	}
	return nil
}

// A written page is what a PDF's page has on it, in millimetres from its upper left corner.
type written struct {
	wide, high float64
	title      string // a bookmark leads here by it
	look       *drawing.Look
	items      []item
}

// A writer gathers pages and writes them into a PDF at the end, when it is known which
// letters of each face they have.
type writer struct {
	f      *fpdf.Fpdf
	pages  []written
	fonts  map[*face]bool
	images map[string]bool
	face   *face
	size   float64
	lang   string
	look   *drawing.Look
	high   float64 // of the page
	ops    []byte  // room for the operators of a path
}

func newWriter(title, author, language string) *writer {
	f := fpdf.New("P", "mm", "A4", "")
	f.SetMargins(0, 0, 0)
	f.SetAutoPageBreak(false, 0)
	f.SetCatalogSort(true)
	f.SetCreationDate(made)
	f.SetModificationDate(made)
	f.SetProducer("hembook", true)
	f.SetTitle(document.Clean(title), true)
	if author != "" {
		f.SetAuthor(document.Clean(author), true)
	}
	f.SetLang(document.PlainTag(language))
	return &writer{f: f, fonts: map[*face]bool{}, images: map[string]bool{}, lang: document.PlainTag(language), look: &drawing.Print}
}

// atFullSize asks whoever prints the file not to scale it (ISO 32000-1, table
// 150, PrintScaling). The library has no word for that, but writes the
// language into the catalogue as it is given; the rest of its line is made a
// comment.
func (w *writer) atFullSize() {
	w.f.SetLang(w.lang + ")\n/ViewerPreferences <</PrintScaling /None>> %")
}

// page begins a page.
func (w *writer) page(wide, high float64) {
	w.pages = append(w.pages, written{wide: wide, high: high, look: w.look})
}

// now is the page that was begun last.
func (w *writer) now() *written { return &w.pages[len(w.pages)-1] }

// item adds an item to it.
func (w *writer) item(it item) { w.now().items = append(w.now().items, it) }

// bytes writes the pages.
func (w *writer) bytes() ([]byte, error) {
	used := w.letters()
	for _, p := range w.pages {
		w.f.AddPageFormat("P", fpdf.SizeType{Wd: p.wide, Ht: p.high})
		w.high, w.look = p.high, p.look
		w.face = nil // a page begins with no face
		if p.title != "" {
			w.setFace(serif(), document.DefaultText, used)
			w.f.Bookmark(document.Clean(p.title), 0, 0)
		}
		for _, it := range p.items {
			w.write(it, used)
		}
	}
	var out bytes.Buffer
	if err := w.f.Output(&out); err != nil {
		return nil, fault.Wrapping(err, say.Of("paper.the-pdf-could-not-be-written", err))
	}
	return out.Bytes(), nil
}

func (w *writer) write(it item, used letters) {
	switch it := it.(type) {
	case textItem:
		w.words(it, used)
	case pathItem:
		w.path(it)
	case pictureItem:
		w.picture(it)
	case clipItem:
		w.f.ClipRect(it.x, it.y, it.wide, it.high, false)
	case clipEnd:
		w.f.ClipEnd()
	}
}

func (w *writer) setFace(f *face, size float64, used letters) {
	if !w.fonts[f] {
		w.f.AddUTF8FontFromBytes(f.name, "", f.only(used[f]))
		w.fonts[f] = true
	}
	if w.face != f || w.size != size {
		w.f.SetFont(f.name, "", size)
		w.face, w.size = f, size
	}
}

func (w *writer) words(t textItem, used letters) {
	w.setFace(t.face, t.size, used)
	r, g, b := w.look.RGB(t.ink)
	w.f.SetTextColor(int(r), int(g), int(b))
	if t.turn != 0 {
		w.f.TransformBegin()
		w.f.TransformRotate(t.turn, t.x, t.y)
	}
	w.f.Text(t.x, t.y, t.text)
	if t.turn != 0 {
		w.f.TransformEnd()
	}
	if t.link != "" {
		high := t.size * mmPerPoint
		w.f.LinkString(t.x, t.y-high*0.8, t.wide, high, t.link)
	}
}

// path draws a path with its corner at (x, y).
func (w *writer) path(p pathItem) {
	w.ops = w.look.PDF(w.ops[:0], p.path, p.pen, drawing.PDFPage{X: p.x, Y: p.y, K: p.scale, High: w.high})
	if len(w.ops) > 0 {
		w.f.RawWriteBuf(bytes.NewReader(w.ops))
	}
}

func (w *writer) picture(p pictureItem) {
	kind, _, _, err := p.picture.Kind()
	if err != nil {
		w.f.SetError(err)
		return
	}
	sum := sha256.Sum256(p.picture.Data)
	name := hex.EncodeToString(sum[:])
	opt := fpdf.ImageOptions{ImageType: kind}
	if !w.images[name] {
		w.f.RegisterImageOptionsReader(name, opt, bytes.NewReader(p.picture.Data))
		w.images[name] = true
	}
	w.f.ImageOptions(name, p.x, p.y, p.wide, p.high, false, opt, 0, "")
}
