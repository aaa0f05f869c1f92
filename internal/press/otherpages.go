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
			d.PiecesOf(t.As)
		})
		v.Measures = p.made("", func(d *compose.Draft) { compose.Measures(d, t.Section) })
		for _, pass := range notebook.Passes(t.Section.Type, t.Section.Measures, p.style, t.Section.Sides) {
			steps = append(steps, pass.Do)
			if pass.Then != "" {
				steps = append(steps, pass.Then)
			}
		}
	}
	ways := waysIn(v.Body)
	if len(ways) == 0 { // the maker's own are all of them
		ways = []way{{steps: steps}}
	}
	v.about.Step = howTo(ways)
	if len(v.about.Step) > 0 {
		v.about.Type = "HowTo"
	}
	v.Rates = p.made("", func(d *compose.Draft) { compose.Rates(d, t.Rates) })
	v.Builds = p.made("", func(d *compose.Draft) { compose.TechniqueBuilds(d, t) })
	v.Settings = p.made("", func(d *compose.Draft) { compose.TechniqueSettings(d, t) })
	return p.print("technique", v)
}

// A way is a numbered list of a text, with the heading it stands under.
type way struct {
	heading string
	steps   []string
}

var (
	headOrList = regexp.MustCompile(`(?s)<h[2-6][^>]*>(.*?)</h[2-6]>|<ol>(.*?)</ol>`)
	stepItem   = regexp.MustCompile(`(?s)<li>(.*?)</li>`)
	markup     = regexp.MustCompile(`<[^>]*>`)
)

// waysIn are the numbered lists of a text, notes at its foot apart, without markup: that
// under "Steps" alone where there is one.
func waysIn(text template.HTML) (out []way) {
	body, _, _ := strings.Cut(string(text), `<div class="footnotes"`)
	heading := ""
	for _, m := range headOrList.FindAllStringSubmatch(body, -1) {
		if m[2] == "" {
			heading = plainText(m[1])
			continue
		}
		one := way{heading: heading}
		for _, item := range stepItem.FindAllStringSubmatch(m[2], -1) {
			one.steps = append(one.steps, plainText(item[1]))
		}
		if heading == "Steps" {
			return []way{one}
		}
		if len(one.steps) > 0 {
			out = append(out, one)
		}
	}
	return out
}

// plainText are the words of marked up text.
func plainText(marked string) string {
	return strings.Join(strings.Fields(html.UnescapeString(markup.ReplaceAllString(marked, ""))), " ")
}

// howTo are the steps of ways to work, in sections where there are several.
func howTo(ways []way) (out []thing) {
	for i, w := range ways {
		var steps []thing
		for k, text := range w.steps {
			steps = append(steps, thing{Type: "HowToStep", Position: k + 1, Text: text})
		}
		if len(ways) == 1 {
			return steps
		}
		out = append(out, thing{Type: "HowToSection", Position: i + 1, Name: w.heading, Items: steps})
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
