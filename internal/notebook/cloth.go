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
	"hembook/internal/say"
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
	Outline    shape.Ring   // millimetres, y along the selvedge
	Holes      []shape.Ring // places in it that no piece may cover
	Wide, Long float64      // the largest rectangle that can be had from it, across the cloth and along it, mm
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
		Head:   Head{link.Address, "cloth", link.Name, c.Summary.V, []Link{{ClothsAddress, say.Of("notebook.cloth")}}},
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
	total := s.book.sumOver(say.Of("notebook.area-cut"), link.Name, measure.UnitM2)
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
				total.add(say.Of("notebook.of", share.Part, sum.Link.Name), share.Area.Value.In(measure.UnitM2).Number)
			}
		}
		for _, t := range sum.Techniques {
			if l, ok := s.book.Technique(t.Slug); ok && slices.Contains(t.Cloths, c.Slug) {
				techniques[t.Slug] = l
			}
		}
	}
	p.Cut = total.figure(say.Of("notebook.sum-over-the-garments-listed-below"))
	if p.Ledger = ledgerOf(c, s.book.Style, func(slug string) (Link, bool) { return s.book.link(prose.ToBuild, slug) }); p.Ledger != nil {
		if left := p.Ledger.Left.Value; left.Known() {
			p.Facts = append(p.Facts, Fact{say.Of("notebook.on-the-shelf"), s.book.Style.Quantity(left.Quantity)})
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
	add(say.Of("notebook.weave"), c.Weave.Given(), words(c.Weave))
	add(say.Of("notebook.structure"), c.Structure.Given(), words(c.Structure))
	add(say.Of("notebook.surface"), c.Surface.Given(), words(c.Surface))
	add(say.Of("notebook.sheer"), c.Sheer.V, func() string { return "yes" })
	add(say.Of("notebook.weight"), c.Mass.Given(), func() string {
		words := b.Style.Quantity(measure.Quantity{Number: float64(c.Mass.V), Unit: measure.UnitGPerM2})
		if c.Weighed.V == "washed" {
			words += say.Of("notebook.weighed-washed")
		}
		return words
	})
	add(say.Of("notebook.thickness"), c.Thick.Given(), func() string { return measure.Style{Language: b.Style.Language}.Precise(c.Thick.V) })
	add(say.Of("notebook.width"), c.Width.Given(), length(c.Width))
	add(say.Of("notebook.selvedge"), c.Selvedge.Given(), length(c.Selvedge))
	add(say.Of("notebook.shrinks"), c.Shrink.Along.Given() || c.Shrink.Across.Given(), func() string { return shrinks(c.Shrink) })
	add(say.Of("notebook.stretches"), c.Stretch.Given(), func() string { return stretches(c) })
	add("One-way", c.OneWay.V, func() string { return say.Of("notebook.yes-cut-every-piece-the-same-way") })
	add(say.Of("notebook.right-side"), c.Faces.Given(), func() string { return faceWords(c.Faces.V) })
	return out
}

// shrinks says by how much a cloth shrinks, each way that is known.
func shrinks(s record.Shrinkage) string {
	var out []string
	if s.Along.Given() {
		out = append(out, say.Of("notebook.in-length", percent(s.Along)))
	}
	if s.Across.Given() {
		out = append(out, say.Of("notebook.in-width", percent(s.Across)))
	}
	return strings.Join(out, ", ")
}

// stretches says by how much a cloth stretches, each way that is known, and how much of
// that goes back.
func stretches(c *record.Cloth) string {
	var out []string
	if c.Stretch.Across.Given() {
		out = append(out, say.Of("notebook.across", percent(c.Stretch.Across)))
	}
	if c.Stretch.Along.Given() {
		out = append(out, say.Of("notebook.along", percent(c.Stretch.Along)))
	}
	if c.Recovery.Given() {
		out = append(out, say.Of("notebook.of-it-goes-back", percent(c.Recovery)))
	}
	return strings.Join(out, ", ")
}

// faceWords says which face of a cloth is its right side.
func faceWords(faces string) string {
	if faces == "two" {
		return say.Of("notebook.either-face")
	}
	return say.Of("notebook.one-face")
}

func percent(p record.Percent) string { return measure.Style{}.Number(float64(p.V), 1) + " %" }

// careFacts lists the supplier's limits, one for each axis of care.
func careFacts(c record.CareLimits) []Fact {
	var out []Fact
	for _, f := range []struct {
		name string
		text record.Text
	}{{say.Of("notebook.wash"), c.Wash}, {say.Of("notebook.bleach"), c.Bleach}, {say.Of("notebook.dry"), c.Dry}, {say.Of("notebook.iron"), c.Iron}, {say.Of("notebook.professional"), c.Professional}} {
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
		limit = say.Of("notebook.at-most-c", head)
		if rest != "" {
			limit += ", " + rest
		}
	}
	return limit
}

func remnant(r record.Remnant, style measure.Style) Remnant {
	out := Remnant{Name: r.Name.V, Note: r.Note.V}
	out.Outline, out.Holes = r.Rings()
	holds := shape.LargestRectangle(out.Outline, out.Holes...)
	out.Wide, out.Long = holds.Most.X-holds.Least.X, holds.Most.Y-holds.Least.Y
	whole, lost := r.Areas()
	pad := figure.NewPad(style)
	pad.Remark(figure.Written, "corners", strconv.Itoa(len(out.Outline)), r.At, "")
	t := pad.Found(say.Of("notebook.within-its-corners"), whole, measure.UnitMM2)
	if lost > 0 {
		t = t.Minus(pad.Found(say.Of("notebook.within-the-corners-of-its-holes"), lost, measure.UnitMM2))
	}
	out.Area = pad.Figure("remnant.area", "area", out.Name, t, measure.UnitM2, say.Of("notebook.half-the-sum-of-x-y-x"), "geometry: the area of a polygon")
	return out
}
