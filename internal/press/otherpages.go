package press

import (
	"html/template"
	"strings"

	"hembook/internal/draw"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/notebook"
)

// A TechniqueView is what pages/technique.html is given.
type TechniqueView struct {
	Frame
	Page     *notebook.TechniquePage
	Section  template.HTML
	Measures template.HTML // allowances and finished width
	Intro    template.HTML // the beginning of the text, up to its first heading
	Body     template.HTML // the rest of it
	Picture  template.HTML
	Rates    template.HTML
	Builds   template.HTML
}

func (p *printer) printTechnique(t *notebook.TechniquePage) error {
	v := &TechniqueView{Frame: p.begin(t.Head), Page: t}
	v.about.Also = t.Also
	card, err := p.sectionCard(t.Section)
	if err != nil {
		return err
	}
	if card != "" {
		v.Card = p.siteAddress(card)
	}
	v.Intro, v.Body = beginning(p.prose(t.Body, 2))
	v.Picture = p.photoOf(t.Picture, leadSizes)
	if t.Section != nil {
		w := p.paper("")
		p.section(w, t.Section, 0)
		v.Section = w.done()
		v.Measures = p.measures(t.Section)
		for i, pass := range notebook.Passes(t.Section.Type, t.Section.Params, p.style) {
			v.about.Type = "HowTo"
			v.about.Step = append(v.about.Step, thing{Type: "HowToStep", Position: i + 1, Text: pass})
		}
	}
	v.Rates = p.rates("Minutes it takes, from this workroom's own records", t.Rates)
	v.Builds = p.techniqueBuilds(t)
	return p.print("technique", v)
}

// beginning parts a text before its first heading.
func beginning(text template.HTML) (intro, rest template.HTML) {
	if i := strings.Index(string(text), "<h2"); i >= 0 {
		return text[:i], text[i:]
	}
	return text, ""
}

// measures tables what a seam type takes from the cloth, in millimetres and
// inches whatever the workroom shows: techniques are read elsewhere too.
func (p *printer) measures(s *notebook.Section) template.HTML {
	w := p.paper("")
	t := w.table("Measures, as drawn", words("what"), fig("mm"), fig("in"), words("how"))
	add := func(name string, mm float64, how string) {
		in, _ := measure.Inches(measure.MM(mm))
		t.row(name).words(p.style.Number(mm, 1)).words(strings.TrimSuffix(in, " in")).words(how)
	}
	for _, par := range s.Type.Parameters {
		if v, ok := s.Params[par.Name]; ok {
			add(par.Title, v, "")
		}
	}
	a, b, err := s.Type.Allowances(s.Params)
	if err == nil {
		if s.Type.Gives.B.Given() && a.Value != b.Value {
			add("first side gives up", a.Value, a.Working)
			add("second side gives up", b.Value, b.Working)
		} else if s.Type.Gives.B.Given() {
			add("each side gives up", a.Value, a.Working)
		} else {
			add("the edge gives up", a.Value, a.Working)
		}
	}
	if wide, err := s.Type.FinishedWidth(s.Params); err == nil {
		add("finished width", wide.Value, wide.Working)
	}
	t.end()
	return w.done()
}

// mostBuilds is how many builds a technique or cloth page lists; the list of
// builds has them all.
const mostBuilds = 60

func (p *printer) techniqueBuilds(t *notebook.TechniquePage) template.HTML {
	if len(t.Builds) == 0 {
		return ""
	}
	w := p.paper("")
	tab := w.table("Builds that used it", words("build"), words("garment"), words("begun"),
		fig("sewn"), fig("clocked"))
	for i := range t.Builds {
		if i == mostBuilds {
			break
		}
		b := &t.Builds[i]
		tab.rowLink(p.href(b.Address), b.Name).words(b.Garment).words(notebook.DayWords(b.Begun)).fig(&b.Metres).fig(&b.Spent)
	}
	tab.end()
	p.rest(w, len(t.Builds))
	if len(t.Builds) > 1 {
		w.figures([]*figure.Figure{&t.Metres, &t.Spent})
	}
	return w.done()
}

// rest says how many more there are than are listed.
func (p *printer) rest(w *paper, n int) {
	if n > mostBuilds {
		w.raw("<p>and ").int(n-mostBuilds).raw(" earlier ones, in ").link(p.href(notebook.BuildsAddress), "the list of builds").raw(".</p>")
	}
}

// A ClothView is what pages/cloth.html is given.
type ClothView struct {
	Frame
	Page     *notebook.ClothPage
	Swatch   template.HTML
	About    template.HTML
	Picture  template.HTML
	Remnants template.HTML
	Builds   template.HTML
}

func (p *printer) printCloth(c *notebook.ClothPage) error {
	v := &ClothView{Frame: p.begin(c.Head), Page: c}
	v.about.About = &thing{Type: "Product", Name: c.Title, Color: c.Colour}
	if c.Fibres != "" {
		v.about.About.Material = []string{c.Fibres}
	}
	card, err := p.card(draw.Swatch(c.Swatch, ""))
	if err != nil {
		return err
	}
	if card != "" {
		v.Card = p.siteAddress(card)
	}
	v.Swatch = p.swatch(c)
	v.About = p.prose(c.About, 3)
	v.Picture = p.photoOf(c.Picture, leadSizes)
	if len(c.Remnants) > 0 {
		w := p.paper("")
		t := w.table("Remnants", words("remnant"), words("drawn"), fig("area"), words("remark"))
		for i := range c.Remnants {
			r := &c.Remnants[i]
			t.row(r.Name).html(func(w *paper) { w.drawn(draw.Remnant(r.Outline, r.Name, p.style)) }).fig(&r.Area).words(r.Note)
		}
		t.end()
		v.Remnants = w.done()
	}
	if len(c.Builds) > 0 {
		w := p.paper("")
		t := w.table("Builds it went into", words("build"), words("as"), words("garment"),
			words("begun"), fig("area cut"))
		for i := range c.Builds {
			if i == mostBuilds {
				break
			}
			b := &c.Builds[i]
			t.rowLink(p.href(b.Address), b.Name).words(b.Part).words(b.Garment).words(notebook.DayWords(b.Begun)).fig(&b.Area)
		}
		t.end()
		p.rest(w, len(c.Builds))
		if len(c.Builds) > 1 {
			w.figures([]*figure.Figure{&c.Cut})
		}
		v.Builds = w.done()
	}
	return p.print("cloth", v)
}

func (p *printer) swatch(c *notebook.ClothPage) template.HTML {
	return template.HTML(draw.Swatch(c.Swatch, c.Title).SVG(nil))
}

// A ListView is what the templates of lists and of the rates are given.
type ListView struct {
	Frame
	Page     any
	Pictures map[notebook.Address]template.HTML // of builds and swatches of cloths, by address
	Tables   []template.HTML
}

func (p *printer) printBuildList(l *notebook.BuildList) error {
	v := &ListView{Frame: p.begin(l.Head), Page: l}
	return p.print("builds", v)
}

func (p *printer) printTechniqueList(l *notebook.TechniqueList) error {
	return p.print("techniques", &ListView{Frame: p.begin(l.Head), Page: l})
}

func (p *printer) printClothList(l *notebook.ClothList) error {
	v := &ListView{Frame: p.begin(l.Head), Page: l, Pictures: map[notebook.Address]template.HTML{}}
	for _, c := range l.Cloths {
		v.Pictures[c.Address] = p.swatch(c)
	}
	return p.print("cloths", v)
}

func (p *printer) printGlossary(g *notebook.GlossaryPage) error {
	return p.print("glossary", &ListView{Frame: p.begin(g.Head), Page: g})
}

// A FrontView is what pages/front.html is given.
type FrontView struct {
	Frame
	Page     *notebook.FrontPage
	Pictures map[notebook.Address]template.HTML // of builds and swatches of cloths, by address
}

func (p *printer) printFront(f *notebook.FrontPage) error {
	v := &FrontView{Frame: p.begin(f.Head), Page: f, Pictures: map[notebook.Address]template.HTML{}}
	for _, b := range f.Latest {
		if b.Picture != nil {
			w := p.paper("")
			if p.image(w, *b.Picture, smallSizes) {
				v.Pictures[b.Address] = w.done()
			}
		}
	}
	for _, c := range f.Cloths {
		v.Pictures[c.Address] = p.swatch(c)
	}
	return p.print("front", v)
}

// A TextView is what pages/page.html is given.
type TextView struct {
	Frame
	Page *notebook.TextPage
	Body template.HTML
}

func (p *printer) printText(t *notebook.TextPage) error {
	v := &TextView{Frame: p.begin(t.Head), Page: t}
	v.Body = p.prose(t.Body, 2)
	return p.print("page", v)
}
