package press

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"html/template"
	"image/png"
	"path/filepath"

	"hembook/internal/disk"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/notebook"
)

// The size of the picture that stands for a page where it is linked from
// elsewhere, in pixels: the 1.91 : 1 that such places commonly show.
const (
	cardWide = 1200
	cardHigh = 630
	// cardVersion is part of the names under which these pictures are kept;
	// raise it when painting changes.
	cardVersion = "2"
	mostCard    = 4 << 20 // bytes of such a picture
)

// card makes a picture of a drawing, or takes it from what is kept, and returns
// where it lies. A notebook without a public address has none: a link to a
// picture from elsewhere must be whole.
func (p *printer) card(d *drawing.Drawing) (notebook.Address, error) {
	if p.book.Site == "" || d == nil || p.failed.Load() || p.discard {
		return "", nil
	}
	sum := sha256.Sum256(d.SVG([]byte(cardVersion + "\n")))
	kept := filepath.Join(p.room.Dir, filepath.FromSlash(CardFolder), hex.EncodeToString(sum[:16]))
	text, _ := readKept(kept, mostCard)
	data, sound := keptCard(text)
	if !sound {
		data = draw.Card(d, cardWide, cardHigh).PNG(cardWide, cardHigh)
		keepFile(kept, append([]byte(hashOf(data)+"\n"), data...)) // where it cannot be kept it is made again next time
	}
	a := notebook.Address("pictures/" + hashOf(data) + ".png")
	p.imprint.cards = append(p.imprint.cards, a)
	if p.pictures.first(a) {
		return a, p.out.write(a, data)
	}
	return a, nil
}

// keptCard takes the picture out of what was kept: its hash on a line of its
// own, then the picture. It is false where that is not as it was written.
func keptCard(text []byte) ([]byte, bool) {
	hash, data, found := bytes.Cut(text, []byte("\n"))
	if !found || string(hash) != hashOf(data) {
		return nil, false
	}
	c, err := png.DecodeConfig(bytes.NewReader(data))
	return data, err == nil && c.Width == cardWide && c.Height == cardHigh
}

// CardFolder is where such pictures are kept in a workroom.
const CardFolder = ".hembook/cards"

// keepFile writes a file whole or not at all.
func keepFile(path string, data []byte) {
	if disk.MkdirAll(filepath.Dir(path), 0o755) != nil {
		return
	}
	root, err := disk.OpenRoot(filepath.Dir(path))
	if err != nil {
		return
	}
	defer root.Close()
	_ = root.Keep(filepath.Base(path), data, 0o644)
}

// buildCard is the picture of a build: its pieces on the table.
func (p *printer) buildCard(b *notebook.BuildPage) (notebook.Address, error) {
	if p.book.Site == "" {
		return "", nil
	}
	return p.card(draw.Table(b.Pieces, cardWide-144, cardHigh-180))
}

// sectionCard is the picture of a technique: the cross-section of its seam.
func (p *printer) sectionCard(s *garment.Way) (notebook.Address, error) {
	if p.book.Site == "" || s == nil {
		return "", nil
	}
	drawn, err := s.Type.Section(s.Measures)
	if err != nil {
		return "", nil // what is wrong with the measures is a fault of its own
	}
	return p.card(draw.Section(drawn, draw.SectionWords{Measure: p.style}))
}

// site is an address as it is written outside the notebook; "" where the
// workroom names none.
func (p *printer) siteAddress(a notebook.Address) string {
	if p.book.Site == "" || a == "" {
		return ""
	}
	return p.book.Site + string(a)
}

// data is the structured description of a page, as an element that browsers
// read and do not run.
func dataElement(json []byte) template.HTML {
	if len(json) == 0 {
		return ""
	}
	return template.HTML(`<script type="application/ld+json">` + string(json) + "</script>\n")
}
