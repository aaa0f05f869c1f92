package paper

import (
	_ "embed"
	"encoding/base64"
	"fmt"
	"html"
	"strconv"
	"strings"

	"hembook/internal/drawing"
)

//go:embed look/paper.css
var style string

// HTML sets a book as one page of HTML that needs nothing beside itself: its
// style stands in it, drawings are SVG, pictures are data. The words of each
// document are those of the PDF, in the same order; the page's number is left
// to the printer.
func HTML(b Book) ([]byte, error) {
	h := &htmlWriter{}
	size := DefaultText
	for _, d := range b.Documents {
		if err := d.Check(); err != nil {
			return nil, err
		}
		if d.TextSize != 0 {
			size = min(size, d.TextSize)
		}
	}
	h.put("<body>\n")
	if len(b.Documents) > 1 {
		h.contents(b)
	}
	h.put("<main>\n")
	for i, d := range b.Documents {
		h.document(d, "sheet-"+strconv.Itoa(i+1))
	}
	h.put("</main>\n</body>\n</html>\n")
	head := &htmlWriter{}
	head.head(b, size, drawing.Print.SheetStyle(h.drawn...)) // which is known by now
	return []byte(head.out.String() + h.out.String()), nil
}

type htmlWriter struct {
	out   strings.Builder
	id    string // of the document, before the ids within it
	n     int    // ids given
	words Words
	drawn []*drawing.Drawing
}

func (h *htmlWriter) put(parts ...string) {
	for _, p := range parts {
		h.out.WriteString(p)
	}
}

// text puts words with what HTML would misread escaped; rows end with <br>.
func (h *htmlWriter) text(s string) {
	h.put(strings.ReplaceAll(html.EscapeString(clean(s)), "\n", "<br>"))
}

// policy forbids the page to fetch or run anything.
const policy = `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'">`

func (h *htmlWriter) head(b Book, size float64, drawn string) {
	h.put("<!DOCTYPE html>\n<html lang=\"", html.EscapeString(plainTag(b.Language)), "\">\n<head>\n<meta charset=\"utf-8\">\n",
		policy, "\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<meta name=\"generator\" content=\"hembook\">\n")
	if b.Author != "" {
		h.put(`<meta name="author" content="`, escape(b.Author), "\">\n")
	}
	h.put("<title>", escape(b.Title), "</title>\n<style>\n", style, drawn, "\n")
	paper, number := A4, ""
	if len(b.Documents) > 0 {
		paper, number = b.Documents[0].Size, b.Documents[0].Words.PageOf
	}
	fmt.Fprintf(&h.out, "@page { size: %s; margin: %gmm %gmm %gmm; @bottom-right { content: %s; font: 7.5pt sans-serif; color: #444; vertical-align: top; padding-top: 2mm; } }\n",
		paper, marginTop, marginSide, marginFoot+footHigh, cssPageOf(number))
	fmt.Fprintf(&h.out, ":root { --size: %gpt; }\n</style>\n</head>\n", size)
}

// cssPageOf is a page's number as a style sheet counts it.
func cssPageOf(words string) string {
	if !strings.Contains(words, "{n}") || !strings.Contains(words, "{of}") {
		words = "page {n} of {of}"
	}
	var out []string
	for words != "" {
		switch {
		case strings.HasPrefix(words, "{n}"):
			out, words = append(out, "counter(page)"), words[3:]
		case strings.HasPrefix(words, "{of}"):
			out, words = append(out, "counter(pages)"), words[4:]
		default:
			end := len(words)
			for _, stop := range []string{"{n}", "{of}"} {
				if i := strings.Index(words, stop); i >= 0 && i < end {
					end = i
				}
			}
			plain := strings.Map(func(r rune) rune {
				if strings.ContainsRune("\"\\<>\n", r) {
					return -1
				}
				return r
			}, clean(words[:end]))
			out, words = append(out, `"`+plain+`"`), words[end:]
		}
	}
	return strings.Join(out, " ")
}

func (h *htmlWriter) contents(b Book) {
	word := or(b.Documents[0].Words.Contents, "contents")
	h.put(`<nav aria-label="`, escape(word), "\"><ul>\n")
	for i, d := range b.Documents {
		h.put(`<li><a href="#sheet-`, strconv.Itoa(i+1), `">`)
		h.text(d.Title)
		h.put("</a></li>\n")
	}
	h.put("</ul></nav>\n")
}

func (h *htmlWriter) document(d Document, id string) {
	h.id, h.n, h.words = id, 0, d.Words
	h.put(`<article id="`, id, `" lang="`, html.EscapeString(plainTag(d.Language)), `" aria-label="`, escape(d.Title), "\">\n")
	for _, b := range d.Blocks {
		h.block(b)
	}
	if len(d.Footer) > 0 {
		h.put("<footer class=\"foot small\">\n")
		for _, line := range d.Footer {
			h.put("<p>")
			h.text(line)
			h.put("</p>\n")
		}
		h.put("</footer>\n")
	}
	h.put("</article>\n")
}

func (h *htmlWriter) newID() string {
	h.n++
	return h.id + "-" + strconv.Itoa(h.n)
}

// phrase puts runs.
func (h *htmlWriter) phrase(p Phrase) {
	for _, r := range p {
		open, shut := "", ""
		switch r.Style {
		case Strong:
			open, shut = "<strong>", "</strong>"
		case Small:
			open, shut = "<small>", "</small>"
		case Figure:
			open, shut = `<span class="number">`, "</span>"
		}
		if link := safeLink(r.Link); link != "" {
			open, shut = `<a href="`+html.EscapeString(link)+`" rel="noreferrer">`+open, shut+"</a>"
		}
		h.put(open)
		h.text(r.Text)
		h.put(shut)
	}
}

// para puts a phrase between tags.
func (h *htmlWriter) para(open string, p Phrase, shut string) {
	h.put(open)
	h.phrase(p)
	h.put(shut)
}

// line puts a text between tags, if there is one.
func (h *htmlWriter) line(open, text, shut string) {
	if text != "" {
		h.put(open)
		h.text(text)
		h.put(shut)
	}
}

// dataURI is a picture as an address that holds it.
func dataURI(kind string, data []byte) string {
	return "data:image/" + kind + ";base64," + base64.StdEncoding.EncodeToString(data)
}

// drawing sets a drawing at its true size.
func (h *htmlWriter) drawing(d *drawing.Drawing) {
	d = d.Reworded(clean)
	h.drawn = append(h.drawn, d)
	h.out.Write(d.SheetSVG(nil))
}

// escape makes a text safe within HTML, cleaned as it is for paper.
func escape(text string) string { return html.EscapeString(clean(text)) }
