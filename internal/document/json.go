package document

import (
	"encoding/json"
	"io"

	"hembook/internal/figure"
)

// A JSONDocument is a document for other programs: its blocks, and the figures
// that stand in them, once each, as they are first met. An inline of a block names
// its figure by ID.
type JSONDocument struct {
	Blocks  []JSONBlock  `json:"blocks"`
	Figures []JSONFigure `json:"figures"`
}

// A JSONBlock is a block; which of its fields it has goes by its kind. Drawings
// are told by their captions.
type JSONBlock struct {
	Kind   string       `json:"kind"` // heading, text, list, table, facts, cautions, drawing, columns, section, ticks, form, picture
	ID     string       `json:"id,omitempty"`
	Level  int          `json:"level,omitempty"`
	Head   string       `json:"head,omitempty"` // a heading, a caption, what is filled in
	Aside  string       `json:"aside,omitempty"`
	Says   []JSONInline `json:"says,omitempty"`
	Heads  []string     `json:"columns,omitempty"` // of a table
	Rows   [][]JSONCell `json:"rows,omitempty"`
	Items  []JSONItem   `json:"items,omitempty"`
	Blocks []JSONBlock  `json:"blocks,omitempty"`
}

// A JSONCell is a cell of a table.
type JSONCell []JSONInline

// A JSONItem is a point, a term, a caution, a box to tick, a line to fill in.
type JSONItem struct {
	Term    string      `json:"term,omitempty"`
	Says    []JSONCell  `json:"says,omitempty"`
	Private bool        `json:"private,omitempty"`
	Done    bool        `json:"done,omitempty"`
	Source  string      `json:"source,omitempty"`
	Below   []JSONItem  `json:"below,omitempty"`
	Blocks  []JSONBlock `json:"blocks,omitempty"`
}

// A JSONInline is what is said in one voice, as the workroom prints it.
type JSONInline struct {
	Words  string `json:"words"`
	Other  string `json:"other,omitempty"` // the same in other units
	Voice  string `json:"voice,omitempty"`
	Page   string `json:"page,omitempty"`
	Figure string `json:"figure,omitempty"`
}

// A JSONFigure is a figure with how it was reached.
type JSONFigure struct {
	ID      string      `json:"id"`
	Title   string      `json:"title"`
	Of      string      `json:"of"`
	Value   any         `json:"value"` // a number, an exact decimal as a string for money, a moment by the clock on the wall, or null
	Unit    string      `json:"unit"`
	Why     string      `json:"why,omitempty"`
	Private bool        `json:"private,omitempty"`
	Working JSONWorking `json:"working"`
}

// A JSONWorking is how a figure was reached.
type JSONWorking struct {
	Rule   string      `json:"rule"`
	Sum    string      `json:"sum"`
	Inputs []JSONInput `json:"inputs"`
	Source string      `json:"source"`
}

// A JSONInput is what went into a figure.
type JSONInput struct {
	Name  string `json:"name"`
	Value string `json:"value"`
	File  string `json:"file,omitempty"`
	Line  int32  `json:"line,omitempty"`
	From  string `json:"from,omitempty"`
}

// PrintJSON prints a value for other programs.
func PrintJSON(out io.Writer, v any) error {
	enc := json.NewEncoder(out)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	return enc.Encode(v)
}

// FigureJSON is a figure for other programs.
func FigureJSON(f *figure.Figure, private bool) JSONFigure {
	out := JSONFigure{ID: f.ID, Title: f.Title, Of: f.Of, Why: f.Value.Why, Private: private, Unit: f.Value.Unit.Symbol(), Working: WorkingJSON(&f.Working)}
	switch v := f.Value; {
	case !v.Known():
	case v.Money != nil:
		out.Value, out.Unit = v.Money.Amount.String(), v.Money.Currency
	case v.Moment != nil:
		out.Value = v.Moment.Format("2006-01-02T15:04")
	default:
		out.Value = v.Number
	}
	return out
}

// WorkingJSON is a working for other programs.
func WorkingJSON(k *figure.Working) JSONWorking {
	out := JSONWorking{k.Rule, k.Sum(), []JSONInput{}, k.Source.Shown()}
	for _, in := range k.Inputs() {
		out.Inputs = append(out.Inputs, JSONInput{in.Name, in.Value, in.At.File(), in.At.Line, in.From})
	}
	return out
}

// JSON is the draft for other programs.
func (d *Draft) JSON() JSONDocument {
	w := jsonWriter{printer: &d.Printer, seen: map[string]bool{}}
	w.out.Blocks, w.out.Figures = []JSONBlock{}, []JSONFigure{}
	w.out.Blocks = append(w.out.Blocks, w.blocks(d.Blocks)...)
	return w.out
}

type jsonWriter struct {
	printer *Printer
	seen    map[string]bool // IDs of figures
	private bool            // figures that are met are
	out     JSONDocument
}

func (w *jsonWriter) blocks(list []Block) []JSONBlock {
	var out []JSONBlock
	for _, b := range list {
		if one := w.block(b); one.Kind != "" {
			out = append(out, one)
		}
	}
	return out
}

func (w *jsonWriter) block(b Block) JSONBlock {
	switch b := b.(type) {
	case Heading:
		return JSONBlock{Kind: "heading", ID: b.ID, Level: b.Level, Head: b.Words, Aside: b.Aside}
	case Text:
		return JSONBlock{Kind: "text", Says: w.phrase(b.Phrase)}
	case List:
		out := JSONBlock{Kind: "list"}
		for i := range b.Items {
			out.Items = append(out.Items, JSONItem{Says: w.cells(b.Items[i].Phrase), Blocks: w.blocks(b.Items[i].Blocks)})
		}
		return out
	case Table:
		return w.table(b.Shown())
	case Facts:
		return JSONBlock{Kind: "facts", Items: w.facts(b.Items)}
	case Cautions:
		out := JSONBlock{Kind: "cautions", Aside: b.Defers}
		for _, c := range b.Items {
			out.Items = append(out.Items, JSONItem{Term: c.Head, Says: w.cells(Phrase{Say(c.Words)}), Source: c.Source})
		}
		return out
	case Sketch:
		return JSONBlock{Kind: "drawing", Head: b.Caption}
	case Sketches:
		out := JSONBlock{Kind: "columns"}
		for _, s := range b.Of {
			out.Blocks = append(out.Blocks, w.block(s))
		}
		return out
	case Stages:
		out := JSONBlock{Kind: "stages", Head: b.Choose}
		for _, s := range b.Of {
			one := JSONItem{Says: w.cells(s.Phrase)}
			for _, k := range s.Of {
				one.Blocks = append(one.Blocks, w.block(k))
			}
			out.Items = append(out.Items, one)
		}
		return out
	case Columns:
		out := JSONBlock{Kind: "columns"}
		for _, column := range b.Of {
			out.Blocks = append(out.Blocks, JSONBlock{Kind: "section", Blocks: w.blocks(column)})
		}
		return out
	case Section:
		return JSONBlock{Kind: "section", ID: b.ID, Level: b.Level, Head: b.Head, Blocks: w.blocks(b.Blocks)}
	case Ticks:
		out := JSONBlock{Kind: "ticks"}
		for i := range b.Items {
			out.Items = append(out.Items, JSONItem{Says: w.cells(b.Items[i].Phrase), Done: b.Items[i].Done})
		}
		return out
	case FillIn:
		out := JSONBlock{Kind: "form", Head: b.Says}
		for _, f := range b.Fields {
			out.Items = append(out.Items, JSONItem{Term: f.Name, Says: w.cells(Phrase{Say(f.Value)})})
		}
		return out
	case Asks:
		out := JSONBlock{Kind: "asks"}
		for i := range b.Items {
			out.Items = append(out.Items, JSONItem{Term: b.Items[i].Title, Says: w.cells(Phrase{Say(b.Items[i].How)})})
		}
		return out
	case Picture:
		return JSONBlock{Kind: "picture", Head: b.Alt, Aside: b.Caption}
	}
	return JSONBlock{} // an inset or a turn: only pages have them
}

func (w *jsonWriter) table(t Table) JSONBlock {
	out := JSONBlock{Kind: "table", Head: t.Caption}
	for _, c := range t.Columns {
		out.Heads = append(out.Heads, c.Head)
	}
	for _, row := range t.Rows {
		cells := []JSONCell{}
		for _, p := range row {
			cells = append(cells, append(JSONCell{}, w.phrase(p)...))
		}
		out.Rows = append(out.Rows, cells)
	}
	return out
}

func (w *jsonWriter) facts(list []Fact) []JSONItem {
	var out []JSONItem
	for i := range list {
		f := &list[i]
		w.private = f.Private
		out = append(out, JSONItem{Term: f.Term, Says: w.cells(f.Says...), Private: f.Private})
		w.private = false
		out[i].Below = w.facts(f.Below)
	}
	return out
}

func (w *jsonWriter) cells(list ...Phrase) []JSONCell {
	var out []JSONCell
	for _, p := range list {
		out = append(out, w.phrase(p))
	}
	return out
}

func (w *jsonWriter) phrase(p Phrase) []JSONInline {
	var out []JSONInline
	for i := range p {
		r := &p[i]
		words, other := w.printer.Words(r)
		one := JSONInline{Words: words, Other: other, Voice: voices[r.Voice].name, Page: r.Page}
		if f := r.Figure; f != nil && f.ID != "" {
			one.Figure = f.ID
			if !w.seen[f.ID] {
				w.seen[f.ID] = true
				w.out.Figures = append(w.out.Figures, FigureJSON(f, w.private))
			}
		}
		out = append(out, one)
	}
	return out
}
