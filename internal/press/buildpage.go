package press

import (
	"bytes"
	"html/template"
	"slices"
	"strings"

	"hembook/internal/draw"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/notebook"
	"hembook/internal/prose"
)

// A BuildView is what pages/build.html is given: the build's own page. Its
// Parts are finished HTML; those the record says nothing of are left out.
type BuildView struct {
	Frame
	Page       *notebook.BuildPage
	Picture    template.HTML
	Pictures   template.HTML
	Glance     template.HTML // what it is made of, how it is cared for, what it comes to
	Leaves     []NavLink     // the pages of the build, this one among them
	LeavesHTML template.HTML // Leaves as a list; empty where there is but one
	Rules      template.HTML // rules that several figures of the page rest on
	Record     string        // the way to the page of the record; empty where it is not shown, or the page has no figure from it
}

// A LeafView is what pages/leaf.html is given: a further page of a build.
type LeafView struct {
	Frame
	Page       *notebook.BuildPage
	Leaf       notebook.Leaf
	Leaves     []NavLink
	LeavesHTML template.HTML // Leaves as a list
	Rules      template.HTML
	Record     string
}

// A RecordView is what pages/record.html is given.
type RecordView struct {
	Frame
	Page       *notebook.RecordPage
	Leaves     []NavLink
	LeavesHTML template.HTML // Leaves as a list
	Record     template.HTML
}

// printBuild prints the pages of a build.
func (p *printer) printBuild(b *notebook.BuildPage) error {
	var err error
	if p.buildsCard, err = p.buildCard(b); err != nil {
		return err
	}
	rules := &ruleBook{room: p.filled}
	defer func() { p.filled = rules.room }()
	p.shelf, p.anchors = p.shelf[:0], nil
	p.leafPages = p.leaves(b, rules)
	p.recordText = nil
	if b.Record != nil {
		p.recordText = recordPages(prose.YAML(nil, b.Record.Text), p.theme.leafRoom())
	}
	v := &BuildView{Frame: p.begin(b.Head), Page: b}
	v.about.Genre, v.about.Created, v.about.Published = b.Garment, b.Begun.String(), b.Sent.String()
	for _, c := range b.Cloths {
		v.about.Material = append(v.about.Material, c.Cloth.Name)
	}
	v.Picture = p.photoOf(b.Picture, leadSizes)
	w := p.paper(b.Folder)
	for _, pic := range b.Pictures {
		p.photo(w, pic, smallSizes)
	}
	v.Pictures = w.done()
	w = p.paper(b.Folder)
	p.glance(w, b)
	v.Glance = w.done()
	v.Parts, v.Rules = rules.fill(whole(p.stretches(b, "", rules)))
	v.Leaves = p.leafLinks(b, p.leafPages, b.Address)
	v.LeavesHTML = listHTML(v.Leaves)
	v.Record = p.recordOf(b, v.Parts)
	if err := p.print("build", v); err != nil {
		return err
	}
	for i := range p.leafPages {
		if err := p.printLeaf(b, &p.leafPages[i], rules); err != nil {
			return err
		}
	}
	if b.Record == nil {
		return nil
	}
	return p.printRecord(b)
}

// printLeaf prints a further page of a build.
func (p *printer) printLeaf(b *notebook.BuildPage, l *leafPage, rules *ruleBook) error {
	v := &LeafView{Frame: p.begin(l.leaf.Head), Page: b, Leaf: l.leaf}
	v.Parts, v.Rules = rules.fill(l.parts)
	v.Leaves = p.leafLinks(b, p.leafPages, l.leaf.Address)
	v.LeavesHTML = listHTML(v.Leaves)
	v.Record = p.recordOf(b, v.Parts)
	return p.print("leaf", v)
}

// recordOf is the way to the record from a page that shows figures of it.
func (p *printer) recordOf(b *notebook.BuildPage, parts []Part) string {
	if b.Record == nil || !slices.ContainsFunc(parts, func(part Part) bool { return strings.Contains(string(part.HTML), "<details>") }) {
		return ""
	}
	return p.href(b.Record.Address)
}

// printRecord prints the record of a build, on as many pages as it needs.
func (p *printer) printRecord(b *notebook.BuildPage) error {
	for i, text := range p.recordText {
		head := b.Record.Leaf(i + 1)
		v := &RecordView{Frame: p.begin(head), Page: b.Record}
		v.Leaves = p.leafLinks(b, p.leafPages, head.Address)
		v.LeavesHTML = listHTML(v.Leaves)
		v.Record = template.HTML(text)
		if err := p.print("record", v); err != nil {
			return err
		}
	}
	return nil
}

// recordPages divides a highlighted record at the ends of lines: where a group
// of the record ends, if there is such a place late enough on the page.
func recordPages(text []byte, room int) [][]byte {
	var out [][]byte
	for len(text) > room {
		end := 1 + bytes.LastIndexByte(text[:room], '\n')
		if group := 1 + bytes.LastIndex(text[:end], []byte("\n<span class=\"nt\">")); group > room/2 {
			end = group
		}
		if end == 0 { // a single line, longer than a page
			if end = 1 + bytes.IndexByte(text, '\n'); end == 0 {
				break
			}
		}
		out, text = append(out, text[:end]), text[end:]
	}
	if len(text) > 0 || len(out) == 0 {
		out = append(out, text)
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
			if c.At.Line > 1 { // the first line stands for the whole record
				w.raw(", ").say(w.pos(c.At))
			}
			w.raw(" · ")
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
}

// off adds how far a measured garment is off its plan.
func (w *paper) off(f *figure.Figure, within bool) {
	w.figure(f)
	if f.ID != "" && f.Value.Known() {
		w.raw(verdict(within, "within", "beyond"))
	}
}

// clothList shows the cloths of a build.
func (p *printer) clothList(w *paper, b *notebook.BuildPage) {
	if len(b.Cloths) == 0 {
		return
	}
	w.raw(`<ul class="cloths">`)
	for _, c := range b.Cloths {
		w.raw("<li>")
		w.drawn(draw.Swatch(c.Swatch, c.Cloth.Name))
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
}

// cloth tables what a build takes of each cloth.
func (p *printer) cloth(w *paper, b *notebook.BuildPage) {
	if len(b.Cloths) == 0 {
		return
	}
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
