package press

import (
	"html/template"
	"math"
	"strconv"
	"strings"
	"time"

	"hembook/internal/draw"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/notebook"
	"hembook/internal/prose"
)

// A BuildView is what pages/build.html is given. Each part is finished HTML,
// or empty where the record says nothing of it.
type BuildView struct {
	Frame
	Page       *notebook.BuildPage
	Picture    template.HTML
	Story      template.HTML
	Pictures   template.HTML
	Cautions   template.HTML
	Pieces     template.HTML
	Seams      template.HTML
	Dimensions template.HTML
	Cloth      template.HTML
	Notions    template.HTML
	Work       template.HTML
	Fittings   template.HTML
	Journal    template.HTML
	Notes      template.HTML
	Record     string // the way to the page of the record; empty where it is not shown
}

// A RecordView is what pages/record.html is given.
type RecordView struct {
	Frame
	Page   *notebook.RecordPage
	Record template.HTML
}

// printBuild prints the page of a build.
func (p *printer) printBuild(b *notebook.BuildPage) error {
	v := &BuildView{Frame: p.begin(b.Head), Page: b}
	v.Picture = p.photoOf(b.Picture, columnSizes)
	v.Story = p.prose(b.Story, 3)
	part := func(do func(w *paper)) template.HTML {
		w := p.paper(b.Folder)
		do(w)
		return w.done()
	}
	v.Pictures = part(func(w *paper) {
		for _, pic := range b.Pictures {
			p.photo(w, pic, smallSizes)
		}
	})
	v.Cautions = part(func(w *paper) { p.cautions(w, b.Cautions) })
	v.Pieces = part(func(w *paper) { p.pieces(w, b) })
	v.Seams = part(func(w *paper) { p.seams(w, b) })
	v.Dimensions = part(func(w *paper) { p.dimensions(w, b) })
	v.Cloth = part(func(w *paper) { p.cloth(w, b) })
	v.Notions = part(func(w *paper) { p.notions(w, b) })
	v.Work = part(func(w *paper) { p.work(w, b) })
	v.Fittings = part(func(w *paper) { p.fittings(w, b) })
	v.Journal = part(func(w *paper) { p.journal(w, b) })
	v.Notes = p.prose(b.Notes, 3)
	if b.Record != nil {
		v.Record = p.href(b.Record.Address)
	}
	v.Parts = v.parts()
	if err := p.print("build", v); err != nil || b.Record == nil {
		return err
	}
	return p.printRecord(b.Record)
}

// printRecord prints the page of a build's record.
func (p *printer) printRecord(r *notebook.RecordPage) error {
	v := &RecordView{Frame: p.begin(r.Head), Page: r}
	v.Record = template.HTML(prose.YAML(nil, r.Text))
	return p.print("record", v)
}

// parts lists the parts that the page has.
func (v *BuildView) parts() []Part {
	var out []Part
	for _, c := range []struct {
		id, name string
		html     template.HTML
	}{
		{"story", "Story", v.Story}, {"cautions", "Cautions", v.Cautions}, {"pieces", "Pieces", v.Pieces},
		{"seams", "Seams", v.Seams}, {"dimensions", "Dimensions", v.Dimensions}, {"cloth", "Cloth", v.Cloth},
		{"notions", "Notions and thread", v.Notions}, {"work", "Order of work", v.Work}, {"fittings", "Fittings", v.Fittings},
		{"journal", "Journal", v.Journal}, {"notes", "Notes", v.Notes},
	} {
		if c.html != "" {
			out = append(out, Part{c.id, c.name})
		}
	}
	return out
}

// cautions lists what to be careful of. What all of them defer to is said once,
// below them.
func (p *printer) cautions(w *paper, list []garment.Caution) {
	if len(list) == 0 {
		return
	}
	w.raw(`<dl class="cautions">`)
	for _, c := range list {
		text := c.Text
		if notebook.Defers != "" {
			text = strings.TrimSpace(strings.TrimSuffix(text, notebook.Defers))
		}
		w.raw("<div><dt>").say(c.Title).raw("</dt><dd>").say(text)
		w.raw(" <small>")
		if c.Why != "" {
			w.say(c.Why)
			if c.At.Given() {
				w.raw(", ").say(w.pos(c.At))
			}
			w.raw(". ")
		}
		w.raw("<cite>").say(string(c.Source)).raw("</cite></small></dd></div>\n")
	}
	w.raw("</dl>\n")
	if notebook.Defers != "" {
		w.raw(`<p class="note">`).say(notebook.Defers).raw("</p>\n")
	}
}

// The largest drawing of a piece, in millimetres on paper.
const (
	pieceWide = 130
	pieceHigh = 130
)

// pieces draws every piece, each with its table of edges.
func (p *printer) pieces(w *paper, b *notebook.BuildPage) {
	if len(b.Pieces) == 0 {
		return
	}
	w.raw(`<p class="note">The outer line of a drawing is cut, the dashed line is sewn; beside each edge stands its allowance. Drawings keep their scale on paper printed at full size.</p>`)
	w.raw("\n")
	t := w.table("Pieces, as they are cut", words("piece"), words("cut"), fig("width"), fig("height"), fig("area"), fig("of it allowance"), fig("share"))
	for _, piece := range b.Pieces {
		t.rowLink("#"+piece.Anchor, piece.Name).words(cutWords(piece))
		t.fig(&piece.Width).fig(&piece.Height).fig(&piece.CutArea).fig(&piece.Allowance).fig(&piece.Share)
	}
	t.end()
	for _, piece := range b.Pieces {
		p.piece(w, piece)
	}
}

// scaleOf is the scale that suits a piece.
func scaleOf(piece *garment.Piece) float64 {
	least, most := piece.Cut.Ring.Bounds()
	if len(piece.Cut.Ring) == 0 {
		least, most = piece.Outline.Bounds()
	}
	return draw.ScaleFor(most.X-least.X, most.Y-least.Y, pieceWide, pieceHigh)
}

func (p *printer) piece(w *paper, piece *garment.Piece) {
	scale := scaleOf(piece)
	w.raw(`<article class="pattern" id="`).say(piece.Anchor).raw(`"><h3>`).say(piece.Name).raw(`</h3>`)
	if piece.Record != nil && piece.Record.Note.Given() {
		w.raw("<p>").say(piece.Record.Note.V).raw("</p>\n")
	}
	w.raw(`<div class="beside"><figure class="tissue" tabindex="0">`)
	w.b = draw.Piece(w.b, piece, draw.PieceStyle{Scale: scale, Measure: p.style, Numbers: p.numbers})
	w.raw("<figcaption>1 : ").say(strconv.FormatFloat(scale, 'f', -1, 64)).raw("</figcaption></figure><div>\n")
	t := w.table("Edges of "+piece.Name, words("edge"), fig("sewn"), fig("allowance"), words("sewn by"))
	for i := range piece.Edges {
		e := &piece.Edges[i]
		t.row(e.Name)
		length := &e.Length
		if e.Intake.ID != "" {
			length = &e.Sewn
		}
		t.fig(length)
		if e.Fold {
			t.words("").words("on the fold")
			continue
		}
		t.fig(&e.Allowance).words(e.SewnBy)
	}
	t.end()
	w.raw(`<dl class="few">`)
	for i := range piece.Extra {
		w.few(piece.Extra[i].Title, &piece.Extra[i])
	}
	for i := range piece.AtLevels {
		w.few("width at "+piece.AtLevels[i].Level, &piece.AtLevels[i].Width)
	}
	for i := range piece.Darts {
		name := "dart"
		if r := piece.Darts[i].Record; r != nil {
			name = "dart at " + r.Edge.V
		}
		w.few(name+", leg", &piece.Darts[i].Leg)
	}
	w.raw("</dl>\n")
	w.raw("</div></div></article>\n")
}

// figures adds a few figures by their titles.
func (w *paper) figures(list []*garment.Figure) {
	w.raw(`<dl class="few">`)
	for _, f := range list {
		w.few(f.Title, f)
	}
	w.raw("</dl>\n")
}

// few adds one of a few figures.
func (w *paper) few(title string, f *garment.Figure) {
	if f.ID != "" {
		w.raw("<div><dt>").say(title).raw("</dt><dd>").figure(f).raw("</dd></div>")
	}
}

// cutWords says how often and in what a piece is cut.
func cutWords(p *garment.Piece) string {
	s := "cut " + strconv.Itoa(p.Count)
	switch {
	case p.OnFold:
		s += " on the fold"
	case p.Mirrored:
		s += ", mirrored"
	}
	for i, of := range p.Of {
		switch {
		case i == 0:
			s += " in " + of
		case i == len(p.Of)-1:
			s += " and " + of
		default:
			s += ", " + of
		}
	}
	switch p.Grain {
	case "across":
		s += "; grain across"
	case "bias":
		s += "; on the bias"
	case "any":
		s += "; any way of the grain"
	}
	return s
}

func (p *printer) seams(w *paper, b *notebook.BuildPage) {
	if len(b.Seams) > 0 {
		t := w.table("Edges joined", words("seam"), words("joins"), words("as"), fig("length"),
			fig("in all"), fig("sides differ by"), fig("fullness"), fig("gives up"), fig("finished width"))
		for _, s := range b.Seams {
			t.row(s.Name).words(joins(s)).words(s.Type.Title).fig(&s.Length)
			t.times(s.Times, &s.Total)
			t.html(func(w *paper) {
				w.figure(&s.Differ)
				if s.Differ.ID != "" && s.Differ.Value.Known() {
					w.raw(verdict(s.Meets, "meets", "does not meet"))
				}
			})
			t.full(&s.Full).gives(&s.Gives).fig(&s.Width)
		}
		t.end()
	}
	if len(b.Finishes) > 0 {
		t := w.table("Edges made neat", words("finish"), words("of"), words("as"),
			fig("length"), fig("takes"), fig("finished width"))
		for _, f := range b.Finishes {
			t.row(f.Name).words(edgeWords(f.Edges)).words(f.Type.Title).fig(&f.Total).fig(&f.Takes).fig(&f.Width)
		}
		t.end()
	}
	for i := range b.Sections {
		p.section(w, &b.Sections[i], 3)
	}
}

// verdict is a word with its own mark, so that it does not hang on colour.
func verdict(good bool, yes, no string) string {
	if good {
		return ` <b class="good">` + yes + "</b>"
	}
	return ` <b class="bad">` + no + "</b>"
}

// times adds what a seam sewn more than once comes to; sewn once, its length
// says it.
func (t *table) times(n int, total *garment.Figure) *table {
	if n == 1 {
		return t.words("")
	}
	return t.fig(total)
}

// full adds the fullness, where there is any.
func (t *table) full(f *garment.Figure) *table {
	if f.Value.Known() && math.Abs(f.Value.Number-1) < 0.005 {
		return t.words("")
	}
	return t.fig(f)
}

// gives adds what both sides give up, once where it is the same.
func (t *table) gives(both *[2]garment.Figure) *table {
	return t.html(func(w *paper) {
		w.figure(&both[0])
		if both[0].Value != both[1].Value {
			w.figure(&both[1])
		}
	})
}

func joins(s *garment.Seam) string {
	return edgeWords(s.Sides[0].Edges) + " to " + edgeWords(s.Sides[1].Edges)
}

func edgeWords(list []garment.EdgeUse) string {
	var out []byte
	for i, e := range list {
		if e.Piece == nil || e.Edge == nil {
			continue
		}
		if i > 0 {
			out = append(out, ", "...)
		}
		out = append(append(append(out, e.Piece.Name...), ' '), e.Edge.Name...)
	}
	return string(out)
}

// section draws a seam type once, with its passes.
func (p *printer) section(w *paper, s *notebook.Section, level int) {
	drawn, ok := p.sectionHTML(s)
	if !ok {
		return // what is wrong with the measures is a fault of the record
	}
	h := strconv.Itoa(level)
	w.raw(`<article class="way"><h` + h + `>`).say(s.Type.Title).raw("</h" + h + ">")
	if len(s.UsedBy) > 0 {
		w.raw(`<p class="cut">`)
		for i, n := range s.UsedBy {
			if i > 0 {
				w.raw(", ")
			}
			w.say(n)
		}
		w.raw("</p>")
	}
	w.raw(drawn).raw("</article>\n")
}

// mostSections bounds how many drawn cross-sections a worker keeps.
const mostSections = 400

// sectionHTML is the drawing of a seam type with its passes. Most builds sew
// the same few seams, so what was drawn is kept.
func (p *printer) sectionHTML(s *notebook.Section) (string, bool) {
	key := sectionKey(s)
	if html, ok := p.sections[key]; ok {
		return html, html != ""
	}
	if p.sections == nil || len(p.sections) > mostSections {
		p.sections = map[string]string{}
	}
	w := paper{style: p.style}
	if drawn, err := s.Type.Section(s.Params); err == nil {
		w.raw(`<div class="beside"><div class="tissue" tabindex="0">`)
		w.b = draw.Section(w.b, drawn, draw.SectionWords{Title: "Cross-section: " + s.Type.Title, Desc: s.Type.Summary, Measure: p.style})
		w.raw("</div>\n<div><ol>")
		for _, pass := range notebook.Passes(s.Type, s.Params, p.style) {
			w.raw("<li>").say(pass).raw("</li>")
		}
		w.raw("</ol></div></div>")
	}
	p.sections[key] = string(w.b)
	return p.sections[key], len(w.b) > 0
}

// sectionKey tells cross-sections apart. A workroom's own seam type may have a
// built-in one's name, but then it stands for it everywhere.
func sectionKey(s *notebook.Section) string {
	key := append([]byte(s.Type.Name), ' ')
	for _, par := range s.Type.Parameters {
		key = append(strconv.AppendFloat(key, s.Params[par.Name], 'g', -1, 64), ' ')
	}
	return string(key)
}

func (p *printer) dimensions(w *paper, b *notebook.BuildPage) {
	if len(b.Levels) > 0 {
		t := w.table("Finished dimensions", words("level"), fig("finished"), fig("drafted for"),
			fig("ease"), fig("ease in %"), fig("least ease"), fig("can be let out"),
			fig("measured"), fig("off by"))
		for _, l := range b.Levels {
			t.row(l.Title)
			t.fig(&l.Finished).fig(&l.Drafted)
			t.html(func(w *paper) {
				w.figure(&l.Ease)
				if l.Ease.ID != "" && l.Ease.Value.Known() && l.Least.ID != "" {
					w.raw(verdict(l.Enough, "enough", "too little"))
				}
			})
			t.fig(&l.EasePart).fig(&l.Least).fig(&l.LetOut).fig(&l.Measured)
			t.html(func(w *paper) { w.off(&l.Off, l.Within) })
		}
		t.end()
	}
	if len(b.Lengths) > 0 {
		t := w.table("Finished lengths", words("length"), fig("finished"), fig("measured"), fig("off by"))
		for _, l := range b.Lengths {
			t.row(l.Name).fig(&l.Finished).fig(&l.Measured)
			t.html(func(w *paper) { w.off(&l.Off, l.Within) })
		}
		t.end()
	}
	tot := &b.Totals
	w.raw("<h3>Totals</h3>")
	w.figures([]*garment.Figure{&tot.Seams, &tot.Allowance, &tot.Area, &tot.Share, &tot.Spent, &tot.Mass})
}

// off adds how far a measured garment is off its plan.
func (w *paper) off(f *garment.Figure, within bool) {
	w.figure(f)
	if f.ID != "" && f.Value.Known() {
		w.raw(verdict(within, "within", "beyond"))
	}
}

func (p *printer) cloth(w *paper, b *notebook.BuildPage) {
	if len(b.Cloths) == 0 {
		return
	}
	w.raw(`<ul class="cloths">`)
	for _, c := range b.Cloths {
		w.raw("<li>")
		w.b = draw.Swatch(w.b, c.Swatch, c.Cloth.Name)
		w.raw("<span><b>").say(c.Part).raw("</b> ")
		if c.Cloth.Address != "" {
			w.link(p.href(c.Cloth.Address), c.Cloth.Name)
		} else {
			w.say(c.Cloth.Name)
		}
		if c.Fibres != "" {
			w.raw(" <small>").say(c.Fibres).raw("</small>")
		}
		w.raw("</span></li>")
	}
	w.raw("</ul>\n")
	t := w.table("What each part takes", words("part"), fig("area sewn"), fig("area cut"), fig("of it allowance"),
		fig("share"), fig("length of allowances"), fig("needed"), fig("mass"))
	for i := range b.Cloths {
		c := &b.Cloths[i]
		t.row(c.Part).fig(&c.Area).fig(&c.CutArea).fig(&c.Allowance).fig(&c.Share).fig(&c.Length).fig(&c.Needed).fig(&c.Mass)
	}
	t.end()
}

func (p *printer) notions(w *paper, b *notebook.BuildPage) {
	if len(b.Notions) > 0 {
		t := w.table("Notions", words("what"), words("remark"), fig("how many"), fig("length of one"),
			fig("in all"), fig("gap"), fig("mass"), words("places"))
		for i := range b.Notions {
			n := &b.Notions[i]
			t.row(n.What).words(n.Note).fig(&n.Count).fig(&n.Length).fig(&n.Total).fig(&n.Gap).fig(&n.Mass)
			t.html(func(w *paper) {
				for i, at := range n.Places {
					if i > 0 {
						w.raw(", ")
					}
					w.say(measure.Style{Unit: w.style.Unit}.Length(at))
				}
			})
		}
		t.end()
	}
	if len(b.Threads) > 0 {
		t := w.table("Thread", words("thread"), words("colour"), fig("needle"), fig("under"),
			fig("in all, with waste"), fig("reels"), fig("mass"))
		for _, th := range b.Threads {
			t.row(th.Name).words(th.Colour).fig(&th.Needle).fig(&th.Under).fig(&th.Total).fig(&th.Reels).fig(&th.Mass)
		}
		t.end()
	}
	if len(b.Bias) > 0 {
		t := w.table("Bias strip", words("for"), fig("cut width"), fig("length"), fig("from a square of"))
		for _, s := range b.Bias {
			name := ""
			if s.Record != nil {
				name = s.Record.Name.V
			}
			t.row(name).fig(&s.Cut).fig(&s.Length).fig(&s.Square)
		}
		t.end()
	}
}

func (p *printer) work(w *paper, b *notebook.BuildPage) {
	if len(b.Steps) == 0 {
		return
	}
	number := map[string]int{}
	for i, s := range b.Steps {
		number[s.ID] = i + 1
	}
	t := w.table("Steps", words("step"), words("stage"), words("technique"), words("after"),
		fig("planned"), fig("then wait"), fig("clocked"), fig("seam"), fig("rate"))
	for i := range b.Steps {
		s := &b.Steps[i]
		t.head(func(w *paper) { w.int(i + 1).raw(". ").say(s.Do) }).words(s.Stage)
		t.html(func(w *paper) {
			if s.Technique.Address != "" {
				w.link(p.href(s.Technique.Address), s.Technique.Name)
			}
		})
		t.html(func(w *paper) {
			for k, id := range s.After {
				if k > 0 {
					w.raw(", ")
				}
				if n := number[id]; n > 0 {
					w.int(n)
				} else {
					w.say(id)
				}
			}
		})
		t.html(func(w *paper) { w.measured(p.time(s.Takes)) }).html(func(w *paper) { w.measured(p.time(s.Wait)) })
		t.fig(&s.Spent).fig(&s.Metres).fig(&s.Rate)
	}
	t.end()
}

// time prints a duration that was written; nothing where none was.
func (p *printer) time(d time.Duration) string {
	if d == 0 {
		return ""
	}
	return p.style.Duration(d)
}

func (p *printer) fittings(w *paper, b *notebook.BuildPage) {
	for _, f := range b.Fittings {
		w.raw(`<article class="round"><h3>Round `).int(f.Round).raw("</h3>")
		w.raw(`<p class="cut">`).say(notebook.DayWords(f.On))
		if f.From != "" {
			w.raw(", ").say(f.From)
		}
		w.raw("</p><p>").say(f.Saw).raw("</p>")
		if len(f.Changes) > 0 {
			w.raw("<ul>")
			for _, c := range f.Changes {
				w.raw("<li>")
				if c.Edge.Given() {
					w.raw("<b>").say(strings.Replace(c.Edge.V, ".", " ", 1)).raw("</b> ")
				}
				if c.Move.Given() {
					w.say(moveWords(c.Move.V, p.style)).raw(" ")
				}
				w.say(c.Note.V)
				if c.Agreed.Given() {
					w.raw(" <small>agreed by ").say(c.Agreed.V).raw("</small>")
				}
				w.raw("</li>")
			}
			w.raw("</ul>")
		}
		if f.Picture != nil {
			p.photo(w, *f.Picture, columnSizes)
		}
		w.raw("</article>\n")
	}
}

func moveWords(l measure.Length, s measure.Style) string {
	if l < 0 {
		return s.Length(-l) + " inwards"
	}
	return s.Length(l) + " outwards"
}

func (p *printer) journal(w *paper, b *notebook.BuildPage) {
	if len(b.Journal) == 0 {
		return
	}
	w.raw("<ol>")
	for _, e := range b.Journal {
		w.raw(`<li><p><time datetime="`)
		stamp := e.When.Format("2006-01-02")
		words := e.When.Format("2 January 2006")
		if e.When.Hour()+e.When.Minute() > 0 {
			stamp = e.When.Format("2006-01-02T15:04")
			words = e.When.Format("2 January 2006, 15:04")
		}
		w.say(stamp).raw(`">`).say(words).raw("</time>")
		if e.Did != "" {
			w.raw(" ").say(e.Did)
		}
		if e.For > 0 {
			w.raw(", ").say(p.style.Duration(e.For))
		}
		w.raw("</p>")
		if e.Note.Given() {
			p.proseTo(w, e.Note, 4)
		}
		if e.Picture != nil {
			p.photo(w, *e.Picture, columnSizes)
		}
		w.raw("</li>\n")
	}
	w.raw("</ol>\n")
}
