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
	kind, v := h.view(b)
	t := h.Theme[kind]
	if t == nil {
		return false
	}
	var out bytes.Buffer
	if err := t.Execute(&out, v); err != nil {
		h.fail(err)
		return true
	}
	h.unseal(out.Bytes())
	return true
}

// view is a block for its template; of a kind that no template writes, nothing
// but the name.
func (h *HTML) view(b Block) (kind string, v View) {
	seal := func(write func()) template.HTML { return h.seal(write) }
	words := func(s string) template.HTML { return seal(func() { h.Say(s) }) }
	phrase := func(p Phrase) template.HTML { return seal(func() { h.phrase(p) }) }
	blocks := func(list []Block) template.HTML { return seal(func() { h.within(list) }) }
	has := func(name string) bool { kind = name; return h.Theme[name] != nil }
	switch b := b.(type) {
	case Heading:
		if has("heading") {
			v = View{ID: b.ID, Level: b.Level, Head: words(b.Words), Body: words(b.Aside)}
			h.anchors = append(h.anchors, b.ID)
		}
	case Text:
		if has("text") {
			v = View{As: [...]string{Body: "", Note: "note", Byline: "cut"}[b.As], Body: phrase(b.Phrase)}
		}
	case List:
		if has("list") {
			v = View{As: b.As, Numbered: b.Numbered}
			for i := range b.Items {
				v.Items = append(v.Items, View{Head: seal(func() { h.drawn(b.Items[i].Draw) }), Body: phrase(b.Items[i].Phrase) + blocks(b.Items[i].Blocks)})
			}
		}
	case Table:
		if has("table") {
			v = h.tableView(b)
		}
	case Facts:
		if has("facts") {
			for i := range b.Items {
				one := View{Head: words(b.Items[i].Term)}
				for _, p := range b.Items[i].Says {
					one.Items = append(one.Items, View{Body: phrase(p)})
				}
				v.Items = append(v.Items, one)
			}
		}
	case Cautions:
		if has("cautions") {
			v.Body = words(b.Defers)
			for i := range b.Items {
				c := &b.Items[i]
				why := c.Why
				if c.Source != "" {
					why += " (" + c.Source + ")"
				}
				v.Items = append(v.Items, View{Head: words(c.Head), Body: words(strings.TrimSpace(c.Words + " " + why))})
			}
		}
	case Sketch:
		if has("sketch") {
			v = View{Head: words(b.Caption), Body: seal(func() { h.raw(b.Drawn).drawn(b.Draw) })}
		}
	case Stages:
		if has("stages") {
			v = View{ID: b.ID, Head: words(b.Choose)}
			for _, s := range b.Of {
				v.Items = append(v.Items, View{Head: phrase(s.Phrase), Body: seal(func() { h.drawings(s.Of) })})
			}
		}
	case Ticks:
		if has("ticks") {
			for i := range b.Items {
				v.Items = append(v.Items, View{Body: phrase(b.Items[i].Phrase), Done: b.Items[i].Done})
			}
		}
	case Form:
		if has("form") {
			v.Head = words(b.Says)
			for _, f := range b.Fields {
				v.Items = append(v.Items, View{Head: words(f.Name), Body: words(f.Value)})
			}
		}
	case Picture:
		if has("picture") {
			v = View{Head: words(b.Caption), Body: seal(func() { h.image(b) })}
		}
	case Columns:
		if has("columns") {
			for _, c := range b.Of {
				v.Items = append(v.Items, View{Body: blocks(c)})
			}
		}
	case Section:
		if has("section") {
			v = View{ID: b.ID, As: b.As, Level: b.Level, Head: words(b.Head), Body: blocks(b.Blocks)}
			h.anchors = append(h.anchors, b.ID)
		}
	}
	return kind, v
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
