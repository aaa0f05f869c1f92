package document

import (
	"bytes"
	"html/template"
	"strconv"
	"strings"
)

// Templates are a theme's own ways to write kinds of blocks, by name. A kind
// without one is written as it always is.
type Templates map[string]*template.Template

// Kinds are the names of the kinds of blocks that a theme may write itself.
var Kinds = []string{"heading", "text", "list", "table", "facts", "cautions", "sketch", "stages", "columns", "section", "ticks", "form", "picture"}

// A View is what the template of a kind of block is given. Words within are
// finished HTML, to be set where they belong.
type View struct {
	ID, As   string        // its anchor and what it is, where it has such
	Level    int           // of a heading
	Numbered bool          // of a list
	Done     bool          // it is ticked already
	Head     template.HTML // its heading, caption or term
	Body     template.HTML // its words, drawing or blocks
	Items    []View        // points of a list, facts, cautions, columns, stages, things to tick, fields
	Columns  []ViewColumn  // of a table
	Rows     [][]ViewCell
}

// A ViewColumn is the head of a column that holds something.
type ViewColumn struct {
	Head  string
	Words bool // it holds words, not figures
	Long  bool // and many of them
}

// A ViewCell is a cell of a table; the first of a row names it.
type ViewCell struct {
	HTML         template.HTML
	Names, Words bool
}

// themed writes a block by the theme's own template; false where it has none.
func (h *HTML) themed(b Block) bool {
	if len(h.Theme) == 0 {
		return false
	}
	t := h.Theme[kindOf(b)]
	if t == nil {
		return false
	}
	v, ok := h.viewOfWords(b)
	if !ok {
		v = h.viewOfParts(b)
	}
	var out bytes.Buffer
	if err := t.Execute(&out, v); err != nil {
		h.fail(err)
		return true
	}
	h.unseal(out.Bytes())
	return true
}

// kindOf is the name of a block's template; "" for a block that has none.
func kindOf(b Block) string {
	switch b.(type) {
	case Heading:
		return "heading"
	case Text:
		return "text"
	case List:
		return "list"
	case Table:
		return "table"
	case Facts:
		return "facts"
	case Cautions:
		return "cautions"
	case Sketch:
		return "sketch"
	case Stages:
		return "stages"
	case Ticks:
		return "ticks"
	case FillIn:
		return "form"
	case Picture:
		return "picture"
	case Columns:
		return "columns"
	case Section:
		return "section"
	}
	return ""
}

func (h *HTML) sealedWords(s string) template.HTML   { return h.seal(func() { h.Say(s) }) }
func (h *HTML) sealedPhrase(p Phrase) template.HTML  { return h.seal(func() { h.phrase(p) }) }
func (h *HTML) sealedBlocks(l []Block) template.HTML { return h.seal(func() { h.within(l) }) }

// viewOfWords is a block of words for its template; ok is false for any other block.
func (h *HTML) viewOfWords(b Block) (v View, ok bool) {
	switch b := b.(type) {
	case Heading:
		v = View{ID: b.ID, Level: b.Level, Head: h.sealedWords(b.Words), Body: h.sealedWords(b.Aside)}
		h.anchors = append(h.anchors, b.ID)
	case Text:
		v = View{As: toneClass[b.As], Body: h.sealedPhrase(b.Phrase)}
	case Table:
		v = h.tableView(b)
	case Facts:
		for i := range b.Items {
			one := View{Head: h.sealedWords(b.Items[i].Term)}
			for _, p := range b.Items[i].Says {
				one.Items = append(one.Items, View{Body: h.sealedPhrase(p)})
			}
			v.Items = append(v.Items, one)
		}
	case Cautions:
		v.Body = h.sealedWords(b.Defers)
		for i := range b.Items {
			c := &b.Items[i]
			why := c.Why
			if c.Source != "" {
				why += " (" + c.Source + ")"
			}
			v.Items = append(v.Items, View{Head: h.sealedWords(c.Head), Body: h.sealedWords(strings.TrimSpace(c.Words + " " + why))})
		}
	case Ticks:
		for i := range b.Items {
			v.Items = append(v.Items, View{Body: h.sealedPhrase(b.Items[i].Phrase), Done: b.Items[i].Done})
		}
	case FillIn:
		v.Head = h.sealedWords(b.Says)
		for _, f := range b.Fields {
			v.Items = append(v.Items, View{Head: h.sealedWords(f.Name), Body: h.sealedWords(f.Value)})
		}
	default:
		return v, false
	}
	return v, true
}

// viewOfParts is a block that holds drawings or other blocks for its template.
func (h *HTML) viewOfParts(b Block) (v View) {
	switch b := b.(type) {
	case List:
		v = View{As: b.As, Numbered: b.Numbered}
		for i := range b.Items {
			one := &b.Items[i]
			v.Items = append(v.Items, View{Head: h.seal(func() { h.drawn(one.Draw) }), Body: h.sealedPhrase(one.Phrase) + h.sealedBlocks(one.Blocks)})
		}
	case Sketch:
		v = View{Head: h.sealedWords(b.Caption), Body: h.seal(func() { h.raw(b.Drawn).drawn(b.Draw) })}
	case Stages:
		v = View{ID: b.ID, Head: h.sealedWords(b.Choose)}
		for _, s := range b.Of {
			v.Items = append(v.Items, View{Head: h.sealedPhrase(s.Phrase), Body: h.seal(func() { h.drawings(s.Of) })})
		}
	case Picture:
		v = View{Head: h.sealedWords(b.Caption), Body: h.seal(func() { h.image(b) })}
	case Columns:
		for _, c := range b.Of {
			v.Items = append(v.Items, View{Body: h.sealedBlocks(c)})
		}
	case Section:
		v = View{ID: b.ID, As: b.As, Level: b.Level, Head: h.sealedWords(b.Head), Body: h.sealedBlocks(b.Blocks)}
		h.anchors = append(h.anchors, b.ID)
	}
	return v
}

func (h *HTML) tableView(t Table) View {
	shape := t.shape()
	v := View{Head: h.seal(func() { h.Say(t.Caption) })}
	for i, c := range t.Columns {
		if shape[i] != none {
			v.Columns = append(v.Columns, ViewColumn{c.Head, c.Words, shape[i] == long})
		}
	}
	for _, row := range t.Rows {
		var cells []ViewCell
		for i, c := range t.Columns {
			if shape[i] != none {
				cells = append(cells, ViewCell{h.seal(func() { h.phrase(row.cell(i)) }), i == 0, c.Words})
			}
		}
		v.Rows = append(v.Rows, cells)
	}
	return v
}

// A gap keeps its place through a template as a seal: sealByte, its number,
// sealByte. Nothing else that is written has this byte: drawing.Escape leaves
// it out.
const sealByte = 0x01

// seal is what write writes, with seals in its gaps, taken off the page again.
func (h *HTML) seal(write func()) template.HTML {
	from, gaps := len(h.Out), len(h.gaps)
	write()
	var out []byte
	at := from
	for i := gaps; i < len(h.gaps); i++ {
		g := h.gaps[i]
		out = append(append(out, h.Out[at:h.begun+g.at]...), sealByte)
		at = h.begun + g.at
		h.sealed = append(h.sealed, g)
		out = append(strconv.AppendInt(out, int64(len(h.sealed)-1), 10), sealByte)
	}
	out = append(out, h.Out[at:]...)
	h.Out, h.gaps = h.Out[:from], h.gaps[:gaps]
	return template.HTML(out)
}

// unseal adds what a template made, with its gaps open again.
func (h *HTML) unseal(made []byte) {
	for {
		before, rest, found := bytes.Cut(made, []byte{sealByte})
		h.raw(before)
		if !found {
			break
		}
		number, after, _ := bytes.Cut(rest, []byte{sealByte})
		made = after
		if n, err := strconv.Atoi(string(number)); err == nil && n < len(h.sealed) {
			h.leave(h.sealed[n])
		}
	}
}
