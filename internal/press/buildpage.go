package press

import (
	"html/template"
	"strings"

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
	Lays       template.HTML
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
	v.Picture = p.photoOf(b.Picture, leadSizes)
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
	v.Lays = part(func(w *paper) { p.lays(w, b) })
	v.Notions = part(func(w *paper) { p.notions(w, b) })
	v.Work = part(func(w *paper) { p.timing(w, b); p.work(w, b); p.hangs(w, b) })
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
		{"lay", "Lay", v.Lays}, {"notions", "Notions and thread", v.Notions}, {"work", "Order of work", v.Work}, {"fittings", "Fittings", v.Fittings},
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
