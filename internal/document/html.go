package document

import (
	"bytes"
	"html/template"
	"strconv"

	"hembook/internal/drawing"
	"hembook/internal/figure"
	"hembook/internal/say"
)

// HTML writes blocks as the elements of a page, one document after the other.
// How a kind of block looks is the theme's: by its style sheet, or by a template
// of its own in Theme.
type HTML struct {
	Printer
	Out    []byte
	Folder string                   // of the record that is told of, left out of places in it
	Href   func(page string) string // the way to a page; nil where none is led to
	Set    func(h *HTML, of any)    // sets an Inset; nil where there is none
	Theme  Templates                // may be nil
	Rules  *Rules                   // of the document; nil where rules are said in full

	inputRoom []figure.Input // for those of one working

	Lineage *figure.Lineage // says what a figure goes into; nil where that is not told

	begun     int  // where the stretch does that is being written
	opens     bool // and what is known of it
	anchors   []string
	figures   []string // those whose workings are opened
	landmarks []Landmark
	gaps      []gap
	from      struct{ anchors, figures, landmarks, gaps int }
	done      []Chunk
	depth     int // blocks that are open

	Wrong  error  // the first that a template of the theme came to, or a picture that is none
	sealed []gap  // see seal
	alone  *alone // what is written is a file by itself; nil for a part of a page
}

// A Landmark is a heading that can be led to.
type Landmark struct{ ID, Words string }

// landmarkLevel is the level of the headings that divide a part of a page.
const landmarkLevel = 3

// A Chunk is a part of a document, written, that stays on one page.
type Chunk struct {
	HTML      []byte
	Anchors   []string   // that stand in it
	Figures   []string   // whose workings are opened in it
	Landmarks []Landmark // what it is divided into, as one is led there
	Opens     bool       // a figure in it opens its working
	gaps      []gap
}

// Reset makes room for another document, where the stretches of the one before
// are not needed any more.
func (h *HTML) Reset() {
	h.Out, h.anchors, h.gaps = h.Out[:0], h.anchors[:0], h.gaps[:0]
	h.figures, h.landmarks = h.figures[:0], h.landmarks[:0]
}

// Write writes blocks, from turn to turn. The stretches last until
// Reset, their list until the next Write.
func (h *HTML) Write(blocks []Block) []Chunk {
	h.done = h.done[:0]
	h.begin()
	h.blocks(blocks)
	h.turn()
	return h.done
}

func (h *HTML) begin() {
	h.begun, h.opens = len(h.Out), false
	h.from.anchors, h.from.figures, h.from.landmarks, h.from.gaps = len(h.anchors), len(h.figures), len(h.landmarks), len(h.gaps)
}

// Text is blocks as a part of a page that needs no gaps filled.
func (h *HTML) Text(blocks []Block) template.HTML {
	from := len(h.Out)
	h.blocks(blocks)
	return template.HTML(h.Out[from:])
}

func (h *HTML) turn() {
	if h.depth > 0 || h.Rules == nil {
		return
	}
	if end := len(h.Out); end > h.begun {
		h.done = append(h.done, Chunk{h.Out[h.begun:end:end], h.anchors[h.from.anchors:len(h.anchors):len(h.anchors)],
			h.figures[h.from.figures:len(h.figures):len(h.figures)], h.landmarks[h.from.landmarks:len(h.landmarks):len(h.landmarks)], h.opens, h.gaps[h.from.gaps:len(h.gaps):len(h.gaps)]})
	}
	h.begin()
}

// leave leaves a gap, to be filled when its page is known.
func (h *HTML) leave(g gap) {
	g.at = len(h.Out) - h.begun
	h.gaps = append(h.gaps, g)
}

// Put adds markup.
func (h *HTML) Put(markup string) *HTML { h.Out = append(h.Out, markup...); return h }

// Insert adds what another room writes.
func (h *HTML) Insert(write func(dst []byte) []byte) {
	from := len(h.Out)
	h.Out = write(h.Out)
	if bytes.IndexByte(h.Out[from:], sealByte) >= 0 { // nobody can read it, and it would be taken for a seal
		h.Out = append(h.Out[:from], bytes.ReplaceAll(h.Out[from:], []byte{sealByte}, nil)...)
	}
}

func (h *HTML) raw(markup []byte) *HTML { h.Out = append(h.Out, markup...); return h }

// Say adds words, escaped.
func (h *HTML) Say(words string) *HTML {
	if h.alone != nil {
		words = Clean(words)
	}
	h.Out = drawing.Escape(h.Out, words)
	return h
}

// Int adds a whole number.
func (h *HTML) Int(n int) *HTML { h.Out = strconv.AppendInt(h.Out, int64(n), 10); return h }

// drawn adds a drawing, if there is one, and gives back its room; false where
// there is none.
func (h *HTML) drawn(draw func() *drawing.Drawing) bool {
	if draw == nil {
		return false
	}
	d := draw()
	if d == nil {
		return false
	}
	if h.alone != nil {
		d = d.Reworded(Clean)
		h.alone.drawn = append(h.alone.drawn, d)
		h.Out = d.SheetSVG(h.Out)
		return true
	}
	h.Out = d.SVG(h.Out)
	d.Free()
	return true
}

// attribute adds an attribute, where it has a value.
func (h *HTML) attribute(name, value string) *HTML {
	if value == "" {
		return h
	}
	return h.Put(" ").Put(name).Put(`="`).Say(value).Put(`"`)
}

// anchor adds an anchor, where there is one.
func (h *HTML) anchor(id string) *HTML {
	if id != "" {
		h.anchors = append(h.anchors, id)
	}
	return h.attribute("id", id)
}

// blocks writes blocks, each as the theme has it.
func (h *HTML) blocks(list []Block) {
	for _, b := range list {
		if t, ok := b.(Table); ok {
			h.tables(t)
		} else if !h.themed(b) {
			h.block(b)
		}
	}
}

// within writes blocks within another.
func (h *HTML) within(list []Block) *HTML {
	h.depth++
	h.blocks(list)
	h.depth--
	return h
}

func (h *HTML) block(b Block) {
	switch b := b.(type) {
	case Heading:
		h.heading(b)
	case Text:
		h.Put("<p").attribute("class", toneClass[b.As]).Put(">").phrase(b.Phrase).Put("</p>\n")
	case List:
		h.list(b)
	case Table:
		h.table(b)
	case Facts:
		h.facts(b)
	case Cautions:
		h.cautions(b)
	case Sketch:
		h.sketch(b)
	case Sketches:
		h.Put(`<div class="lines">`)
		for _, s := range b.Of {
			h.sketch(s)
		}
		h.Put("</div>\n")
	case Stages:
		h.stages(b)
	case Ticks:
		h.ticks(b)
	case FillIn:
		h.form(b)
	case Asks:
		h.asks(b)
	case Picture:
		h.picture(b)
	case Columns:
		h.columns(b)
	case Section:
		h.section(b)
	case Inset:
		if h.Set != nil {
			h.Set(h, b.Of)
		}
	case Turn:
		h.turn()
	}
}

// toneClass is the class of a paragraph of each tone.
var toneClass = [...]string{Body: "", Note: "note", Byline: "cut", Spoken: "spoken", Quiet: "quiet"}

// landmark notes a heading that divides a part and has an anchor.
func (h *HTML) landmark(level int, id, words string) {
	if level == landmarkLevel && id != "" {
		h.landmarks = append(h.landmarks, Landmark{id, words})
	}
}

func (h *HTML) heading(b Heading) {
	h.landmark(b.Level, b.ID, b.Words)
	level := strconv.Itoa(b.Level)
	h.Put("<h").Put(level).anchor(b.ID).Put(">").ownPlace(b.ID, b.Words)
	if b.Aside != "" {
		h.Put(" <small>").Say(b.Aside).Put("</small>")
	}
	h.Put("</h").Put(level).Put(">\n")
}

func (h *HTML) list(b List) {
	tag := "ul"
	if b.Numbered {
		tag = "ol"
	}
	class := b.As
	if b.Marks {
		class += " marks"
	}
	h.Put("<").Put(tag).attribute("class", class)
	switch b.As { // what scrolls by itself
	case "laid tissue":
		h.scrolls("", "Pieces")
	case "passes tissue":
		h.scrolls("", say.Of("document.pass-by-pass"))
	}
	h.Put(">")
	for i := range b.Items {
		h.item(&b.Items[i])
	}
	h.Put("</").Put(tag).Put(">\n")
}

func (h *HTML) item(it *Item) {
	h.Put("<li")
	if h.alone == nil {
		h.anchor(it.ID)
	}
	h.Put(">")
	switch {
	case it.Blocks != nil:
		h.Put("<p>").phrase(it.Phrase).Put("</p>").within(it.Blocks)
	case h.drawn(it.Draw):
		h.Put("<span>").phrase(it.Phrase).Put("</span>")
	default:
		h.phrase(it.Phrase)
	}
	h.Put("</li>\n")
}

func (h *HTML) facts(b Facts) {
	if len(b.Items) == 0 {
		return
	}
	h.Put(`<dl class="few`)
	if b.Glance {
		h.Put(" glance")
	}
	h.Put(`">`)
	for i := range b.Items {
		f := &b.Items[i]
		h.Put("<div")
		if f.Wide {
			h.Put(` class="long"`)
		}
		h.Put("><dt>").Say(f.Term).Put("</dt>")
		for _, p := range f.Says {
			h.Put("<dd>").phrase(p).Put("</dd>")
		}
		if len(f.Below) > 0 {
			h.Put("<dd>")
			h.facts(Facts{Items: f.Below})
			h.Put("</dd>")
		}
		h.Put("</div>")
	}
	h.Put("</dl>\n")
}

func (h *HTML) cautions(b Cautions) {
	h.Put(`<dl class="cautions">`)
	for i := range b.Items {
		c := &b.Items[i]
		if c.Head != "" || i == 0 {
			h.Put("<div><dt>").Say(c.Head).Put("</dt>")
		}
		h.Put("<dd>").Say(c.Words)
		if c.Why != "" || c.Source != "" {
			h.because(c)
		}
		h.Put("</dd>")
		if i+1 == len(b.Items) || b.Items[i+1].Head != "" {
			h.Put("</div>\n")
		}
	}
	h.Put("</dl>\n")
	if b.Defers != "" {
		h.Put(`<p class="note">`).Say(b.Defers).Put("</p>\n")
	}
}

// because adds why a caution is given, and who says so.
func (h *HTML) because(c *Caution) {
	h.Put(" <small>")
	if c.Why != "" {
		h.Say(c.Why)
		if c.Source != "" {
			h.Put(" · ")
		}
	}
	if c.Source != "" {
		h.Put("<cite>").Say(c.Source).Put("</cite>")
	}
	h.Put("</small>")
}

func (h *HTML) sketch(b Sketch) {
	at := len(h.Out)
	if len(b.Narrow) > 0 || b.Small != nil {
		h.Put(`<a class="glimpse tissue" href="#`).Say(b.ID).Put(`" title="larger">`).raw(b.Narrow)
		h.drawn(b.Small)
		h.Put("</a>\n")
		h.Put(`<figure class="tissue plan"`).anchor(b.ID)
	} else if b.Beside != nil {
		h.Put(`<figure class="tissue pair"`)
	} else {
		h.Put(`<figure class="tissue"`)
	}
	h.scrolls(b.Caption, "Drawing").Put(">")
	if h.raw(b.Drawn); len(b.Drawn) == 0 && !h.drawn(b.Draw) {
		h.Out = h.Out[:at]
		return
	}
	h.drawn(b.Beside)
	if b.Caption != "" {
		h.Put("<figcaption>").Say(b.Caption).Put("</figcaption>")
	}
	h.Put("</figure>\n")
}

// scrolls marks a box that scrolls where what is in it finds no room: the keyboard reaches
// it, and it has a name.
func (h *HTML) scrolls(name, usual string) *HTML {
	if name == "" {
		name = usual
	}
	return h.Put(` tabindex="0"`).attribute("aria-label", name)
}

func (h *HTML) columns(b Columns) {
	h.Put(`<div class="beside"`)
	if len(b.Shares) > 0 {
		h.Put(` style="--shares:`)
		for _, share := range b.Shares {
			h.Put(" ").Put(strconv.FormatFloat(share, 'f', -1, 64)).Put("fr")
		}
		h.Put(`"`)
	}
	h.Put(">")
	for _, column := range b.Of {
		if _, alone := first(column).(Sketch); alone && len(column) == 1 {
			h.within(column)
			continue
		}
		h.Put("<div>\n").within(column).Put("</div>")
	}
	h.Put("</div>\n")
}

func first(list []Block) Block {
	if len(list) == 0 {
		return nil
	}
	return list[0]
}

// ownPlace says the words that head a place; a tap on them gives its address.
func (h *HTML) ownPlace(id, words string) *HTML {
	if id == "" || h.alone != nil {
		return h.Say(words)
	}
	return h.Put(`<a class="here" href="#`).Say(id).Put(`">`).Say(words).Put("</a>")
}

func (h *HTML) section(b Section) {
	h.landmark(b.Level, b.ID, b.Head)
	tag := "article"
	if b.Level == 0 { // an article has a heading
		tag = "div"
	}
	h.Put("<").Put(tag).attribute("class", b.As).anchor(b.ID).Put(">")
	if b.Level > 0 {
		level := strconv.Itoa(b.Level)
		h.Put("<h").Put(level).Put(">").ownPlace(b.ID, b.Head).Put("</h").Put(level).Put(">")
	}
	h.within(b.Blocks).Put("</").Put(tag).Put(">\n")
}
