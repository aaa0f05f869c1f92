package paper

import (
	"fmt"
	"html"
	"strconv"
	"strings"
)

func (h *htmlWriter) block(b Block) {
	switch b := b.(type) {
	case Heading:
		h.heading(b)
	case Text:
		h.para("<p>", b.Phrase, "</p>\n")
	case List:
		h.list(b)
	case Table:
		h.table(b)
	case Ticks:
		h.ticks(b)
	case Symbols:
		h.symbols(b)
	case Facts:
		h.put("<dl>\n")
		for _, f := range b.Items {
			h.put("<dt>")
			h.text(f.Term)
			h.para("</dt><dd>", f.Value, "</dd>\n")
		}
		h.put("</dl>\n")
	case Note:
		h.aside("note", b.Head, b.Phrase)
	case Caution:
		h.aside("caution", b.Head, b.Phrase)
	case Columns:
		h.columns(b)
	case Picture:
		h.picture(b)
	case QR:
		h.code(b)
	case Sketch:
		h.put("<figure>")
		h.drawing(b.Drawing)
		h.line("<figcaption>", b.Caption, "</figcaption>")
		h.put("</figure>\n")
	case PageBreak:
		h.put("<div class=\"page-break\"></div>\n")
	}
}

func (h *htmlWriter) heading(b Heading) {
	level := strconv.Itoa(b.Level)
	if b.Level == 1 {
		h.put(`<div class="head">`)
	}
	h.put("<h", level, ">")
	h.text(b.Text)
	h.put("</h", level, ">\n")
	h.line(`<p class="about">`, b.About, "</p>\n")
	if b.Level == 1 {
		h.put("</div>\n")
	}
}

// list numbers its points by itself, as the PDF does.
func (h *htmlWriter) list(b List) {
	tag, open := "ul", "<ul>\n"
	if b.Numbered {
		tag, open = "ol", "<ol>\n"
		if b.From > 1 {
			open = fmt.Sprintf("<ol start=\"%d\">\n", b.From)
		}
	}
	h.put(open)
	for _, p := range b.Items {
		h.para("<li>", p, "</li>\n")
	}
	h.put("</", tag, ">\n")
}

var alignClasses = [...]string{Left: "", Right: "right", Number: "figure", Centre: "centre"}

func class(name string) string {
	if name == "" {
		return ""
	}
	return ` class="` + name + `"`
}

func (h *htmlWriter) table(b Table) {
	id := h.newID()
	h.put(`<section class="wide" tabindex="0" aria-labelledby="`, h.id, " ", id, `"><table id="`, id, `"`)
	if b.Caption == "" {
		h.put(` aria-label="`, escape(tableName(b)), `"`)
	}
	h.put(">\n")
	h.line("<caption>", b.Caption, "</caption>\n")
	if tableName(b) != "" {
		h.put("<thead><tr>")
		for _, c := range b.Columns {
			tag := "th scope=\"col\""
			if c.Head == "" {
				tag = "td"
			}
			h.put("<", tag, class(alignClasses[c.Align]), ">")
			h.text(c.Head)
			h.put("</", tag[:2], ">")
		}
		h.put("</tr></thead>\n")
	}
	h.put("<tbody>\n")
	for i, row := range b.Rows {
		h.row(b, row, b.Last && i == len(b.Rows)-1)
	}
	h.put("</tbody>\n</table></section>\n")
}

// tableName are the heads of a table's columns as one text.
func tableName(b Table) string {
	var heads []string
	for _, c := range b.Columns {
		if c.Head != "" {
			heads = append(heads, c.Head)
		}
	}
	return strings.Join(heads, ", ")
}

func (h *htmlWriter) row(b Table, row []Phrase, sum bool) {
	open := "<tr>"
	if sum {
		open = `<tr class="sum">`
	}
	h.put(open)
	for c, col := range b.Columns {
		open, shut := "<td"+class(alignClasses[col.Align])+">", "</td>"
		if c == 0 && b.RowHead {
			open, shut = `<th scope="row"`+class(alignClasses[col.Align])+">", "</th>"
		}
		var cell Phrase
		if c < len(row) {
			cell = row[c]
		}
		h.para(open, cell, shut)
	}
	h.put("</tr>\n")
}

func (h *htmlWriter) ticks(b Ticks) {
	h.put("<ul class=\"ticks\">\n")
	for _, t := range b.Items {
		id := h.newID()
		h.put(`<li><input type="checkbox" id="`, id, `"`)
		if t.Done {
			h.put(" checked")
		}
		h.put(`><label for="`, id, `">`)
		h.phrase(t.Phrase)
		h.put("</label>")
		h.line(`<span class="tick-note">`, t.Note, "</span>")
		h.put("</li>\n")
	}
	h.put("</ul>\n")
	if b.SignBy != nil {
		h.signature(*b.SignBy)
	}
}

func (h *htmlWriter) signature(s Signature) {
	h.put(`<div class="sign">`)
	h.line("<p>", s.About, "</p>")
	for _, part := range [][2]string{{s.Name, or(h.words.Signed, "signed")}, {s.Date, or(h.words.Date, "date")}} {
		h.put("<span><b>")
		h.text(part[0])
		h.put("</b> <small>")
		h.text(part[1])
		h.put("</small></span>")
	}
	h.put("</div>\n")
}

func (h *htmlWriter) symbols(b Symbols) {
	h.put("<ul class=\"symbols\">\n")
	for _, s := range b.Items {
		h.put("<li>")
		if s.Drawing != nil {
			d := *s.Drawing
			d.Title = "" // its words stand beside it
			h.drawing(&d)
		}
		h.put("<span>")
		h.text(s.Words)
		h.put("</span>")
		h.line(" <small>", s.About, "</small>")
		h.put("</li>\n")
	}
	h.put("</ul>\n")
	h.line(`<p class="small">`, b.Note, "</p>\n")
}

func (h *htmlWriter) aside(class, head string, p Phrase) {
	h.put(`<div class="`, class, `" role="note"><p>`)
	h.line("<strong>", head, "</strong> ")
	h.phrase(p)
	h.put("</p></div>\n")
}

func (h *htmlWriter) columns(b Columns) {
	shares := make([]string, len(b.Blocks))
	for i := range shares {
		share := 1.0
		if len(b.Shares) == len(b.Blocks) {
			share = b.Shares[i]
		}
		shares[i] = strconv.FormatFloat(share, 'f', -1, 64) + "fr"
	}
	h.put(`<div class="columns" style="--shares: `, strings.Join(shares, " "), "\">\n")
	for _, column := range b.Blocks {
		h.put("<div>\n")
		for _, inner := range column {
			h.block(inner)
		}
		h.put("</div>\n")
	}
	h.put("</div>\n")
}

func (h *htmlWriter) picture(b Picture) {
	kind, wide, high, err := b.kind()
	if err != nil {
		return // Check has said so
	}
	h.put(`<figure><img src="`, dataURI(kind, b.Data), `" alt="`, escape(b.Alt), `"`)
	fmt.Fprintf(&h.out, ` width="%d" height="%d"`, wide, high)
	w := b.Wide
	if b.High > 0 && (w == 0 || w*float64(high)/float64(wide) > b.High) {
		w = b.High * float64(wide) / float64(high)
	}
	if w > 0 {
		fmt.Fprintf(&h.out, ` style="--wide: %.1fmm"`, w)
	}
	h.put(">")
	h.line("<figcaption>", b.Caption, "</figcaption>")
	h.put("</figure>\n")
}

func (h *htmlWriter) code(b QR) {
	d, err := b.drawing(codeSide)
	if err != nil {
		return // Check has said so
	}
	h.put(`<div class="code">`)
	h.drawing(d)
	h.put("<p>")
	h.text(b.Words)
	h.put(`<br><small>`)
	if link := safeLink(b.Address); link != "" {
		h.put(`<a href="`, html.EscapeString(link), `" rel="noreferrer">`)
		h.text(b.Address)
		h.put("</a>")
	} else {
		h.text(b.Address)
	}
	h.put("</small></p></div>\n")
}
