package document

import (
	_ "embed"
	"encoding/base64"
	"fmt"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"hembook/internal/drawing"
	"hembook/internal/say"
)

//go:embed look/onefile.css
var oneFileStyle string

// OneFile writes a book as one page of HTML that needs nothing beside itself:
// its style stands in it, drawings are SVG, pictures are data. Figures stand
// without their workings: where a number comes from is the maker's to know. The
// words of each document are those of its PDF, in the same order; the page's
// number is left to the printer.
func OneFile(b Book) ([]byte, error) {
	h := HTML{alone: &alone{}, Href: SafeLink}
	h.Put("<body>\n")
	if len(b.Documents) > 1 {
		h.contents(b)
	}
	h.Put("<main>\n")
	for i := range b.Documents {
		d := &b.Documents[i]
		if err := d.Check(); err != nil {
			return nil, err
		}
		h.document(d, sheetID(i))
	}
	h.Put("</main>\n")
	if h.alone.asks {
		h.Put("<script>").Put(answerScript).Put("</script>\n")
	}
	h.Put("</body>\n</html>\n")
	head := HTML{alone: h.alone}
	head.head(b, drawing.Print.SheetStyle(h.alone.drawn...)) // which is known by now
	return append(head.Out, h.Out...), h.Wrong
}

// sheetID is the place of a document in its file.
func sheetID(i int) string { return "sheet-" + strconv.Itoa(i+1) }

// cssText is a text as a style sheet has it: whatever could end it, or the style sheet, by
// its number.
func cssText(text string) string {
	out := []byte{'"'}
	for _, r := range Clean(text) {
		if r < ' ' || strings.ContainsRune("\"\\<>&", r) {
			out = fmt.Appendf(out, "\\%06x", r)
			continue
		}
		out = utf8.AppendRune(out, r)
	}
	return string(append(out, '"'))
}

// alone is what is known of a file that needs nothing beside itself.
type alone struct {
	drawn []*drawing.Drawing
	asks  bool // something is filled in, and a script makes the answer
}

// policyFor forbids the page to fetch anything, to run anything but the script that
// makes an answer, and to say where a reader comes from who follows a link.
func policyFor(asks bool) string {
	script := ""
	if asks {
		script = " script-src " + answerHash() + ";"
	}
	return `<meta http-equiv="Content-Security-Policy" content="default-src 'none';` + script + ` style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'">
<meta name="referrer" content="no-referrer">`
}

func (h *HTML) head(b Book, drawn string) {
	h.Put("<!DOCTYPE html>\n<html lang=\"").Put(PlainTag(b.Language)).Put("\">\n<head>\n<meta charset=\"utf-8\">\n").
		Put(policyFor(h.alone.asks)).Put("\n<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n<meta name=\"generator\" content=\"hembook\">\n")
	if b.Author != "" {
		h.Put(`<meta name="author" content="`).Say(b.Author).Put("\">\n")
	}
	h.Put("<title>").Say(b.Title).Put("</title>\n<style>\n").Put(oneFileStyle).Put(drawn).Put("\n")
	paper, number := A4, ""
	if len(b.Documents) > 0 {
		paper, number = b.Documents[0].Size, b.Documents[0].Words.PageOf
	}
	h.Out = fmt.Appendf(h.Out, "@page { size: %s; margin: %gmm %gmm %gmm; @bottom-right { content: %s; font: 7.5pt sans-serif; color: #444; vertical-align: top; padding-top: 2mm; } }\n",
		paper, MarginTop, MarginSide, MarginFoot+FootHigh, cssPageOf(number))
	if wide, high := paper.MM(); hasCard(b) {
		h.Out = fmt.Appendf(h.Out, "@page card { size: %s landscape; margin: 0; @bottom-right { content: none; } }\n:root { --half: %gmm; --fold: %gmm; }\n", paper, high/2, wide)
	}
	for i := range b.Documents {
		if feet := b.Documents[i].Footer; len(feet) > 0 { // where the PDF has it, so that pages end alike
			id := sheetID(i)
			h.Out = fmt.Appendf(h.Out, "#%s { page: %[1]s; }\n@page %[1]s { @bottom-left { content: %s; font: 7.5pt sans-serif; color: #444; vertical-align: top; padding-top: 2mm; } }\n", id, cssText(strings.Join(feet, " · ")))
		}
	}
	size := float64(DefaultText)
	if len(b.Documents) == 1 && b.Documents[0].TextSize != 0 { // what stands between its blocks shrinks with its text
		size = b.Documents[0].TextSize
	}
	h.Out = fmt.Appendf(h.Out, ":root { --size: %gpt; }\n</style>\n</head>\n", size)
}

// hasCard reports whether one of a book's documents is a folded card.
func hasCard(b Book) bool {
	return slices.ContainsFunc(b.Documents, func(d Document) bool { return d.Card != nil })
}

// cssPageOf is a page's number as a style sheet counts it.
func cssPageOf(words string) string {
	if !strings.Contains(words, "{n}") || !strings.Contains(words, "{of}") {
		words = say.Of("document.page-of")
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
			}, Clean(words[:end]))
			out, words = append(out, `"`+plain+`"`), words[end:]
		}
	}
	return strings.Join(out, " ")
}

func (h *HTML) contents(b Book) {
	word := b.Documents[0].Words.Contents
	if word == "" {
		word = "contents"
	}
	h.Put("<nav").attribute("aria-label", word).Put("><ul>\n")
	for i := range b.Documents {
		h.Put(`<li><a href="#sheet-`).Int(i + 1).Put(`">`).Say(b.Documents[i].Title).Put("</a></li>\n")
	}
	h.Put("</ul></nav>\n")
}

func (h *HTML) document(d *Document, id string) {
	h.Printer = d.Printer
	h.Put("<article")
	if d.Card != nil {
		h.Put(` class="card"`)
	}
	if d.TextSize != 0 {
		h.Out = fmt.Appendf(h.Out, ` style="--size: %gpt"`, d.TextSize)
	}
	h.attribute("id", id).attribute("lang", PlainTag(d.Language)).attribute("aria-label", d.Title).Put(">\n")
	if d.Card != nil {
		h.card(d.Card)
	}
	h.blocks(d.Blocks)
	if len(d.Footer) > 0 {
		h.Put("<footer>\n")
		for _, line := range d.Footer {
			h.Put("<p>").Say(line).Put("</p>\n")
		}
		h.Put("</footer>\n")
	}
	h.Put("</article>\n")
}

func (h *HTML) ticks(b Ticks) {
	h.Put("<ul class=\"ticks\">\n")
	for i := range b.Items {
		h.Put(`<li><label><input type="checkbox"`)
		if b.Items[i].Done {
			h.Put(" checked")
		}
		h.Put("> <span>").phrase(b.Items[i].Phrase).Put("</span></label></li>\n")
	}
	h.Put("</ul>\n")
}

func (h *HTML) form(b FillIn) {
	h.Put(`<div class="form">`)
	if b.Says != "" {
		h.Put("<p>").Say(b.Says).Put("</p>")
	}
	for _, f := range b.Fields {
		h.Put("<span><b>").Say(f.Value).Put("</b> <small>").Say(f.Name).Put("</small></span>")
	}
	h.Put("</div>\n")
}

func (h *HTML) picture(b Picture) {
	h.Put("<figure")
	if b.Framed {
		h.Put(` class="framed"`)
	}
	h.Put(">")
	h.image(b)
	if b.Caption != "" {
		h.Put("<figcaption>").Say(b.Caption).Put("</figcaption>")
	}
	h.Put("</figure>\n")
}

// image writes a photograph into the document itself.
func (h *HTML) image(b Picture) {
	kind, wide, high, err := b.Kind()
	if err != nil {
		h.fail(err)
		return
	}
	h.Put(`<img src="data:image/`).Put(kind).Put(";base64,").Put(base64.StdEncoding.EncodeToString(b.Data)).Put(`"`).
		attribute("alt", b.Alt).Put(` width="`).Int(wide).Put(`" height="`).Int(high).Put(`"`)
	if b.High > 0 {
		h.Out = fmt.Appendf(h.Out, ` style="--wide: %.1fmm"`, b.High*float64(wide)/float64(high))
	}
	h.Put(">")
}

// fail notes what is wrong, where nothing is yet.
func (h *HTML) fail(err error) {
	if h.Wrong == nil {
		h.Wrong = err
	}
}
