package notebook

import (
	"slices"
	"strconv"
	"strings"

	"hembook/internal/figure"
	"hembook/internal/label"
	"hembook/internal/measure"
	"hembook/internal/prose"
	"hembook/internal/record"
	"hembook/internal/shape"
)

// A ClothPage is the page of a cloth.
type ClothPage struct {
	Head
	Colour    string
	Swatch    string
	Fibres    string
	Facts     []Fact
	About     Passage
	Picture   *Picture
	Care      []Fact
	Ledger    *Ledger // nil where nothing is written of its length
	Remnants  []Remnant
	Builds    []ClothBuild
	Cut       figure.Figure // area cut from it by all builds
	Technique []Link        // used on it
	Worked    []Worked      // how the machine was set for what was sewn of it, latest build first
}

// A Fact is something known with its name.
type Fact struct{ Name, Value string }

// A Remnant is a piece of the cloth that is left.
type Remnant struct {
	Name, Note string
	Outline    shape.Ring // millimetres, y along the selvedge
	Wide, Long float64    // the largest rectangle that can be had from it, across the cloth and along it, mm
	Area       figure.Figure
}

// A ClothBuild is a build that a cloth went into.
type ClothBuild struct {
	Link
	Part    string
	Garment string
	State   string
	Begun   record.Day
	Area    figure.Figure
	Needed  figure.Figure // to buy or to have
	IsCut   bool
}

// Cloths lays out the page of every cloth.
func (s *Gathered) Cloths() []*ClothPage {
	return pagesOf(s.book.room.Cloths, s.Cloth)
}

// Cloth lays out the page of one cloth.
func (s *Gathered) Cloth(c *record.Cloth) *ClothPage {
	const folder = "content/cloth"
	link, _ := s.book.Cloth(c.Slug)
	p := &ClothPage{
		Head:   Head{link.Address, "cloth", link.Name, c.Summary.V, []Link{{ClothsAddress, "Cloth"}}},
		Colour: c.Colour.V, Swatch: c.Swatch.V, Fibres: fibreWords(c.Fibres),
		Facts: s.book.clothFacts(c), About: passage(c.About, folder), Care: careFacts(c.Care),
	}
	if pic, ok := picture(folder, c.Picture); ok {
		p.Picture = &pic
	}
	for _, r := range c.Remnants {
		if r.Used.Given() {
			continue
		}
		p.Remnants = append(p.Remnants, remnant(r, s.book.Style))
	}
	total := s.book.sumOver("area cut", link.Name, measure.UnitM2)
	techniques := map[string]Link{}
	for _, sum := range s.cloths[c.Slug] {
		for _, share := range sum.Cloths {
			if share.Slug != c.Slug {
				continue
			}
			p.Builds = append(p.Builds, ClothBuild{
				Link: sum.Link, Part: share.Part, Garment: sum.Garment, State: sum.State, Begun: sum.Begun,
				Area: share.Area, Needed: share.Needed, IsCut: share.IsCut,
			})
			if share.Area.Value.Known() && share.Area.Value.Unit.Dimension() == measure.AreaDim {
				total.add(share.Part+" of "+sum.Link.Name, share.Area.Value.In(measure.UnitM2).Number)
			}
		}
		for _, t := range sum.Techniques {
			if l, ok := s.book.Technique(t.Slug); ok && slices.Contains(t.Cloths, c.Slug) {
				techniques[t.Slug] = l
			}
		}
	}
	p.Cut = total.figure("sum over the garments listed below")
	if p.Ledger = ledgerOf(c, s.book.Style, func(slug string) (Link, bool) { return s.book.link(prose.ToBuild, slug) }); p.Ledger != nil {
		if left := p.Ledger.Left.Value; left.Known() {
			p.Facts = append(p.Facts, Fact{"On the shelf", s.book.Style.Quantity(left.Quantity)})
		}
		p.Ledger.reserve(c.Slug, p.Builds, s.book.Style)
	}
	p.Technique = sortedLinks(techniques)
	p.Worked = s.worked(s.cloths[c.Slug], func(o *SetOn) bool { return slices.Contains(o.Cloths, c.Slug) })
	return p
}

// fibreWords lists fibres as a label would: 70 % linen, 30 % cotton.
func fibreWords(fibres record.Dict[record.Percent]) string {
	var out []string
	for _, f := range fibres {
		out = append(out, measure.Style{}.Number(float64(f.V.V), 1)+" % "+f.Name.V)
	}
	return strings.Join(out, ", ")
}

// clothFacts lists what the shelf knows of a cloth.
func (b *Book) clothFacts(c *record.Cloth) []Fact {
	var out []Fact
	add := func(name string, given bool, value func() string) {
		if given {
			out = append(out, Fact{name, value()})
		}
	}
	length := func(l record.Length) func() string { return func() string { return b.Style.Length(l.V) } }
	words := func(t record.Text) func() string { return func() string { return t.V } }
	add("Weave", c.Weave.Given(), words(c.Weave))
	add("Structure", c.Structure.Given(), words(c.Structure))
	add("Surface", c.Surface.Given(), words(c.Surface))
	add("Sheer", c.Sheer.V, func() string { return "yes" })
	add("Weight", c.Mass.Given(), func() string {
		words := b.Style.Quantity(measure.Quantity{Number: float64(c.Mass.V), Unit: measure.UnitGPerM2})
		if c.Weighed.V == "washed" {
			words += ", weighed washed"
		}
		return words
	})
	add("Thickness", c.Thick.Given(), func() string { return measure.Style{Language: b.Style.Language}.Precise(c.Thick.V) })
	add("Width", c.Width.Given(), length(c.Width))
	add("Selvedge", c.Selvedge.Given(), length(c.Selvedge))
	add("Shrinks", c.Shrink.Along.Given() || c.Shrink.Across.Given(), func() string { return shrinks(c.Shrink) })
	add("Stretches", c.Stretch.Given(), func() string { return stretches(c) })
	add("One-way", c.OneWay.V, func() string { return "yes: cut every piece the same way up" })
	add("Right side", c.Faces.Given(), func() string { return faceWords(c.Faces.V) })
	return out
}

// shrinks says by how much a cloth shrinks, each way that is known.
func shrinks(s record.Shrinkage) string {
	var out []string
	if s.Along.Given() {
		out = append(out, percent(s.Along)+" in length")
	}
	if s.Across.Given() {
		out = append(out, percent(s.Across)+" in width")
	}
	return strings.Join(out, ", ")
}

// stretches says by how much a cloth stretches, each way that is known, and how much of
// that goes back.
func stretches(c *record.Cloth) string {
	var out []string
	if c.Stretch.Across.Given() {
		out = append(out, percent(c.Stretch.Across)+" across")
	}
	if c.Stretch.Along.Given() {
		out = append(out, percent(c.Stretch.Along)+" along")
	}
	if c.Recovery.Given() {
		out = append(out, percent(c.Recovery)+" of it goes back")
	}
	return strings.Join(out, ", ")
}

// faceWords says which face of a cloth is its right side.
func faceWords(faces string) string {
	if faces == "two" {
		return "either face"
	}
	return "one face"
}

func percent(p record.Percent) string { return measure.Style{}.Number(float64(p.V), 1) + " %" }

// careFacts lists the supplier's limits, one for each axis of care.
func careFacts(c record.CareLimits) []Fact {
	var out []Fact
	for _, f := range []struct {
		name string
		text record.Text
	}{{"Wash", c.Wash}, {"Bleach", c.Bleach}, {"Dry", c.Dry}, {"Iron", c.Iron}, {"Professional", c.Professional}} {
		if f.text.Given() {
			out = append(out, Fact{f.name, careWords(f.name, f.text.V)})
		}
	}
	return out
}

// careWords says a limit in words; degrees get their sign.
func careWords(axis, limit string) string {
	if limit == "none" {
		return "no"
	}
	if words := label.LimitWords(strings.ToLower(axis), limit); words != "" {
		return words
	}
	head, rest, _ := strings.Cut(limit, " ")
	if strings.Trim(head, "0123456789") == "" {
		limit = "at most " + head + " °C"
		if rest != "" {
			limit += ", " + rest
		}
	}
	return limit
}

func remnant(r record.Remnant, style measure.Style) Remnant {
	out := Remnant{Name: r.Name.V, Note: r.Note.V}
	for _, p := range r.Outline {
		out.Outline = append(out.Outline, shape.Point{X: p.V.X, Y: p.V.Y})
	}
	holds := shape.LargestRectangle(out.Outline)
	out.Wide, out.Long = holds.Most.X-holds.Least.X, holds.Most.Y-holds.Least.Y
	area := out.Outline.Area()
	if area < 0 {
		area = -area
	}
	pad := figure.NewPad(style)
	pad.Remark(figure.Written, "corners", strconv.Itoa(len(out.Outline)), r.At, "")
	t := pad.Found("within its corners", area, measure.UnitMM2)
	out.Area = pad.Figure("remnant.area", "area", out.Name, t, measure.UnitM2, "half the sum of x·y′ − x′·y over the corners", "geometry: the area of a polygon")
	return out
}
