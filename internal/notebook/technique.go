package notebook

import (
	"cmp"
	"slices"
	"strings"

	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/order"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/trade"
)

// A TechniquePage is the page of a way of doing something.
type TechniquePage struct {
	Head
	Also     []string
	When     string
	Stage    string
	Skill    string
	Section  *garment.Way // the cross-section; nil where the technique makes no seam
	As       Link         // the build whose pieces are named in it
	Body     Passage
	Picture  *Picture
	Cautions []Caution
	See      []Link
	Rates    []Spread // minutes per metre, minutes per piece: those that were observed
	Metres   figure.Figure
	Spent    figure.Figure
	Builds   []TechniqueBuild
	Cloths   []Link
	Worked   []Worked // how the machine was set, latest build first
}

// Defers is what every caution of the trade's tables defers to.
var Defers = func() string {
	if all := trade.Cautions(); len(all) > 0 {
		return all[0].Defer
	}
	return ""
}()

// A Caution is a warning of the trade's tables.
type Caution struct {
	Heading, Text, Defer string
	Source               trade.Source
}

// A TechniqueBuild is a build that used a technique.
type TechniqueBuild struct {
	Link
	Garment string
	Begun   record.Day
	Metres  figure.Figure // not set where nothing was measured
	Spent   figure.Figure // not set where nothing was clocked
}

// A Gathered is the builds gathered by the techniques and cloths that they used.
type Gathered struct {
	book       *Book
	builds     []*BuildLine // latest first
	techniques map[string][]*BuildLine
	cloths     map[string][]*BuildLine
}

// Gather sorts the lines of all builds, latest first.
func (b *Book) Gather(all []*BuildLine) *Gathered {
	s := &Gathered{b, slices.Clone(all), map[string][]*BuildLine{}, map[string][]*BuildLine{}}
	slices.SortStableFunc(s.builds, func(x, y *BuildLine) int {
		return cmp.Or(-compareDays(x.Begun, y.Begun), byName(x.Link, y.Link))
	})
	for _, line := range s.builds {
		for i := range line.Techniques {
			slug := line.Techniques[i].Slug
			s.techniques[slug] = append(s.techniques[slug], line)
		}
		seen := map[string]bool{}
		for _, c := range line.Cloths {
			if !seen[c.Slug] {
				seen[c.Slug] = true
				s.cloths[c.Slug] = append(s.cloths[c.Slug], line)
			}
		}
	}
	return s
}

func compareDays(a, b record.Day) int {
	return cmp.Or(cmp.Compare(a.Year, b.Year), cmp.Compare(a.Month, b.Month), cmp.Compare(a.Day, b.Day))
}

// Techniques lays out the page of every technique.
func (s *Gathered) Techniques() []*TechniquePage {
	return pagesOf(s.book.room.Techniques, s.technique)
}

// pagesOf lays out a page of each.
func pagesOf[T, P any](list []T, page func(T) P) []P {
	out := make([]P, len(list))
	for i, one := range list {
		out[i] = page(one)
	}
	return out
}

func (s *Gathered) technique(t *record.Technique) *TechniquePage {
	const folder = "content/techniques"
	link, _ := s.book.Technique(t.Slug)
	p := &TechniquePage{
		Head: Head{link.Address, "technique", link.Name, t.Summary.V, []Link{{TechniquesAddress, say.Of("notebook.techniques")}}},
		When: t.When.V, Stage: t.Stage.V, Skill: t.Skill.V, Body: passageOf(t.Body, folder),
	}
	for _, a := range t.Also {
		p.Also = append(p.Also, a.V)
	}
	p.Section = s.book.section(t)
	if p.Section != nil {
		for _, a := range p.Section.Type.Also {
			if !slices.ContainsFunc(p.Also, func(have string) bool { return strings.EqualFold(have, a.Term) }) && !strings.EqualFold(a.Term, p.Heading) {
				p.Also = append(p.Also, a.Term)
			}
		}
	}
	if pic, ok := picture(folder, t.Picture); ok {
		p.Picture = &pic
	}
	for _, c := range t.Cautions {
		p.Cautions = append(p.Cautions, s.book.caution(c.V))
	}
	for _, name := range t.See {
		if l, ok := s.book.Technique(name.V); ok {
			p.See = append(p.See, l)
		}
	}
	s.gatherTechnique(p, t.Slug, link)
	return p
}

// section is the cross-section of the seam that a technique makes.
func (b *Book) section(t *record.Technique) *garment.Way {
	if len(t.Seams) == 0 {
		return nil
	}
	typ, ok := trade.FindSeamType(b.types, t.Seams[0].V)
	if !ok {
		return nil
	}
	given := trade.Params{}
	for _, w := range t.With {
		given[w.Name.V] = w.V.V.MM()
	}
	params, err := typ.Values(given)
	if err != nil {
		return nil // the technique's own faults say what is wrong
	}
	return &garment.Way{Type: typ, Measures: params}
}

// caution is the trade's caution of that name, or the maker's own words.
func (b *Book) caution(name string) Caution {
	c, ok := b.adverse[name]
	if !ok {
		c, ok = b.adverse[strings.ReplaceAll(strings.ToLower(name), " ", "-")]
	}
	if !ok {
		return Caution{Heading: name}
	}
	return Caution{c.Title, c.Text, c.Defer, c.Source}
}

// gatherTechnique adds what the builds tell of a technique.
func (s *Gathered) gatherTechnique(p *TechniquePage, slug string, link Link) {
	var observed []order.Observation
	var cloths []string
	metres, minutes := s.book.sumOver(say.Of("notebook.metres-sewn"), link.Name, measure.UnitM), s.book.sumOver(say.Of("notebook.time-clocked"), link.Name, measure.UnitMin)
	for _, sum := range s.techniques[slug] {
		share := sum.share(slug)
		p.Builds = append(p.Builds, s.techniqueBuild(sum, share))
		metres.add(sum.Name, share.Metres)
		minutes.add(sum.Name, share.Minutes)
		observed = append(observed, share.Rates...)
		for _, c := range share.Cloths {
			if !slices.Contains(cloths, c) {
				cloths = append(cloths, c)
			}
		}
	}
	p.named(s.techniques[slug], slug)
	p.Worked = s.worked(s.techniques[slug], func(o *SetOn) bool { return o.Technique == slug })
	p.Cloths = s.clothLinks(cloths)
	slices.SortFunc(p.Cloths, byName)
	p.Rates = spreads(s.book.Style, link, observed)
	p.Metres = metres.figure(say.Of("notebook.sum-over-the-garments-listed-below"))
	p.Spent = minutes.figure(say.Of("notebook.sum-over-the-garments-listed-below"))
}

// named calls the pieces in the section's drawings as in the newest build that names one on
// each side: those the maker has before her, and not a first and a second one.
func (p *TechniquePage) named(lines []*BuildLine, slug string) {
	if p.Section == nil {
		return
	}
	for _, line := range lines {
		sides := line.share(slug).Sides
		if n := p.Section.Type.Sides(); n > 1 && !slices.Contains(sides[:n], "") && sides[0] != sides[1] {
			p.Section.Sides, p.As = sides, line.Link
			return
		}
	}
}

func (s *Gathered) clothLinks(slugs []string) (out []Link) {
	for _, c := range slugs {
		if l, ok := s.book.Cloth(c); ok {
			out = append(out, l)
		}
	}
	return out
}

func (s *BuildLine) share(slug string) *TechniqueShare {
	for i := range s.Techniques {
		if s.Techniques[i].Slug == slug {
			return &s.Techniques[i]
		}
	}
	return &TechniqueShare{}
}

func (s *Gathered) techniqueBuild(sum *BuildLine, share *TechniqueShare) TechniqueBuild {
	out := TechniqueBuild{Link: sum.Link, Garment: sum.Garment, Begun: sum.Begun}
	if share.Metres > 0 {
		metres := s.book.sumOver(say.Of("notebook.metres-sewn"), sum.Name, measure.UnitM)
		metres.add(say.Of("notebook.its-steps"), share.Metres)
		out.Metres = metres.figure(say.Of("notebook.sum-over-the-garments-steps-that-name"))
	}
	if share.Minutes > 0 {
		minutes := s.book.sumOver(say.Of("notebook.time-clocked"), sum.Name, measure.UnitMin)
		minutes.add(say.Of("notebook.its-steps"), share.Minutes)
		out.Spent = minutes.figure(say.Of("notebook.sum-of-the-journals-times-for-the"))
	}
	return out
}

// A sum adds up what builds say, each by its name.
type sum struct {
	title, of string
	unit      measure.Unit
	pad       *figure.Pad
	terms     []figure.Term
}

func (b *Book) sumOver(title, of string, unit measure.Unit) *sum {
	return &sum{title: title, of: of, unit: unit, pad: figure.NewPad(b.Style)}
}

// add takes in what a build says; nothing is not taken in.
func (s *sum) add(name string, v float64) {
	if v != 0 {
		s.terms = append(s.terms, s.pad.Found(name, v, s.unit))
	}
}

// figure is the sum; not known where no build says anything.
func (s *sum) figure(rule string) figure.Figure {
	t := s.pad.SumOr(say.Of("notebook.no-garment-says-so-yet"), s.terms)
	return s.pad.Figure("sum."+s.title, s.title, s.of, t, s.unit, rule, figure.Derived)
}
