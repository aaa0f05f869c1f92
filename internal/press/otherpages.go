package press

import (
	"html"
	"html/template"
	"regexp"
	"slices"
	"strings"

	"hembook/internal/compose"
	"hembook/internal/document"
	"hembook/internal/draw"
	"hembook/internal/notebook"
	"hembook/internal/say"
)

// A TechniqueView is what pages/technique.html is given.
type TechniqueView struct {
	Frame
	Holds    *notebook.TechniquePage
	Section  template.HTML
	Measures template.HTML // allowances and finished width
	Intro    template.HTML // the beginning of the text, up to its first heading
	Body     template.HTML // the rest of it
	Picture  template.HTML
	Rates    template.HTML
	Builds   template.HTML
	Settings template.HTML // how the machine was set, cloth by cloth
}

func (p *printer) printTechnique(t *notebook.TechniquePage) error {
	v := &TechniqueView{Frame: p.begin(t.Head), Holds: t}
	v.about.Also = t.Also
	card, err := p.sectionCard(t.Section)
	if err != nil {
		return err
	}
	if card != "" {
		v.Card = p.siteAddress(card)
	}
	v.Intro, v.Body = beginning(p.text(t.Body, 2))
	v.Picture = p.photoOf(t.Picture, compose.Top)
	var steps []string
	if t.Section != nil {
		v.Section = p.made("", func(d *compose.Draft) {
			d.Section(t.Section, 0, "")
			compose.FacesLegend(d)
		})
		v.Measures = p.made("", func(d *compose.Draft) { compose.Measures(d, t.Section) })
		for _, pass := range notebook.Passes(t.Section.Type, t.Section.Measures, p.style, t.Section.Sides) {
			steps = append(steps, pass.Do)
			if pass.Then != "" {
				steps = append(steps, pass.Then)
			}
		}
	}
	if own := stepsIn(v.Body); len(own) > 0 { // the maker's are all of them
		steps = own
	}
	for i, text := range steps {
		v.about.Type = "HowTo"
		v.about.Step = append(v.about.Step, thing{Type: "HowToStep", Position: i + 1, Text: text})
	}
	v.Rates = p.made("", func(d *compose.Draft) { compose.Rates(d, t.Rates) })
	v.Builds = p.made("", func(d *compose.Draft) { compose.TechniqueBuilds(d, t) })
	v.Settings = p.made("", func(d *compose.Draft) { compose.TechniqueSettings(d, t) })
	return p.print("technique", v)
}

var (
	stepList = regexp.MustCompile(`(?s)<h[2-6][^>]*>Steps</h[2-6]>\s*<ol>(.*?)</ol>`)
	stepItem = regexp.MustCompile(`(?s)<li>(.*?)</li>`)
	markup   = regexp.MustCompile(`<[^>]*>`)
)

// stepsIn are the points of the numbered list that stands under "Steps" in a text, without
// markup.
func stepsIn(text template.HTML) (out []string) {
	list := stepList.FindStringSubmatch(string(text))
	if list == nil {
		return nil
	}
	for _, item := range stepItem.FindAllStringSubmatch(list[1], -1) {
		words := html.UnescapeString(markup.ReplaceAllString(item[1], ""))
		out = append(out, strings.Join(strings.Fields(words), " "))
	}
	return out
}

// beginning parts a text before its first heading.
func beginning(text template.HTML) (intro, rest template.HTML) {
	if i := strings.Index(string(text), "<h2"); i >= 0 {
		return text[:i], text[i:]
	}
	return text, ""
}

// A ClothView is what pages/cloth.html is given.
type ClothView struct {
	Frame
	Holds    *notebook.ClothPage
	Swatch   template.HTML
	About    template.HTML
	Picture  template.HTML
	Ledger   template.HTML
	Remnants template.HTML
	Builds   template.HTML
	Settings template.HTML // how the machine was set, by what was sewn
}

func (p *printer) printCloth(c *notebook.ClothPage) error {
	v := &ClothView{Frame: p.begin(c.Head), Holds: c}
	v.about.About = &thing{Type: "Product", Name: c.Heading, Color: c.Colour}
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
	v.About = p.text(c.About, 3)
	v.Picture = p.photoOf(c.Picture, compose.Top)
	v.Ledger = p.made("", func(d *compose.Draft) { compose.Ledger(d, c.Ledger) })
	v.Remnants = p.made("", func(d *compose.Draft) { compose.Remnants(d, c) })
	v.Builds = p.made("", func(d *compose.Draft) { compose.ClothBuilds(d, c) })
	v.Settings = p.made("", func(d *compose.Draft) { compose.ClothSettings(d, c) })
	return p.print("cloth", v)
}

func (p *printer) swatch(c *notebook.ClothPage) template.HTML {
	return template.HTML(draw.Swatch(c.Swatch, c.Heading).SVG(nil))
}

// A ListView is what the templates of lists and of the rates are given.
type ListView struct {
	Frame
	Holds    any
	Pictures map[notebook.Address]template.HTML // of builds and swatches of cloths, by address
	Tables   []template.HTML
}

func (p *printer) printBuildList(l *notebook.BuildList) error {
	v := &ListView{Frame: p.begin(l.Head), Holds: l, Pictures: map[notebook.Address]template.HTML{}}
	for _, g := range l.Groups {
		for _, c := range g.Cards {
			p.cardPicture(v.Pictures, c.Build)
		}
	}
	return p.print("builds", v)
}

func (p *printer) printTechniqueList(l *notebook.TechniqueList) error {
	return p.print("techniques", &ListView{Frame: p.begin(l.Head), Holds: l})
}

func (p *printer) printClothList(l *notebook.ClothList) error {
	v := &ListView{Frame: p.begin(l.Head), Holds: l, Pictures: map[notebook.Address]template.HTML{}}
	for _, c := range l.Cloths {
		v.Pictures[c.Address] = p.swatch(c)
	}
	return p.print("cloths", v)
}

func (p *printer) printGlossary(g *notebook.GlossaryPage) error {
	return p.print("glossary", &ListView{Frame: p.begin(g.Head), Holds: g})
}

// A FrontView is what pages/front.html is given.
type FrontView struct {
	Frame
	Holds    *notebook.FrontPage
	Pictures map[notebook.Address]template.HTML // of builds and swatches of cloths, by address
}

func (p *printer) printFront(f *notebook.FrontPage) error {
	v := &FrontView{Frame: p.begin(f.Head), Holds: f, Pictures: map[notebook.Address]template.HTML{}}
	for _, b := range slices.Concat(f.InWork, f.Finished) {
		p.cardPicture(v.Pictures, b)
	}
	for _, c := range f.Cloths {
		v.Pictures[c.Address] = p.swatch(c)
	}
	return p.print("front", v)
}

// cardPicture adds the picture of a garment's card, where it has one.
func (p *printer) cardPicture(to map[notebook.Address]template.HTML, b *notebook.BuildLine) {
	if b.Picture == nil {
		return
	}
	var h document.HTML
	h.Put(`<span class="shown`)
	if half, _, ok := strings.Cut(b.Picture.Show, " half"); ok {
		h.Put(" ").Put(half)
	} else if b.Picture.Show == "whole" {
		h.Put(" fitted")
	}
	h.Put(`">`)
	if p.image(&h, *b.Picture, compose.Card) {
		h.Put(`</span>`)
		to[b.Address] = template.HTML(h.Out)
	}
}

func (p *printer) printRates(r *notebook.RatesPage) error {
	v := &ListView{Frame: p.begin(r.Head), Holds: r}
	for _, do := range []func(d *compose.Draft){
		func(d *compose.Draft) {
			compose.RatesOfAll(d, say.Of("press.per-metre-of-seam"), say.Of("press.minutes-for-a-metre-of-seam-by"), r.PerMetre)
		},
		func(d *compose.Draft) {
			compose.RatesOfAll(d, say.Of("press.per-piece"), say.Of("press.minutes-for-a-piece-by-technique"), r.PerPiece)
		},
		func(d *compose.Draft) { compose.CutOfAll(d, r) },
	} {
		if text := p.made("", do); text != "" {
			v.Tables = append(v.Tables, text)
		}
	}
	return p.print("rates", v)
}

// A TextView is what pages/text.html is given.
type TextView struct {
	Frame
	Holds *notebook.TextPage
	Body  template.HTML
}

func (p *printer) printText(t *notebook.TextPage) error {
	v := &TextView{Frame: p.begin(t.Head), Holds: t}
	v.Body = p.text(t.Body, 2)
	return p.print("text", v)
}
