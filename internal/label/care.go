package label

import (
	"slices"
	"strconv"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// A Care is what a garment stands (figure 19): on each axis the strictest of
// all its layers.
type Care struct {
	Limits    trade.CareLimits
	Axes      []CareAxis // in the order of the label
	Layers    []CareLayer
	Unknown   []CareGap // layers of which nobody knows what they stand
	Conflicts []string  // what does not go together, in words
	Remarks   []string  // what the maker should look at: a supplier who allows more than is usual
	Forbidden bool      // it can be neither washed nor cleaned
	Because   string    // why the maker decided otherwise; empty where nothing was decided
	BecauseAt fault.Pos
}

// Hidden reports whether there is a cloth of which nobody knows what it stands: what the
// rest stands would mislead then, and is not said.
func (c *Care) Hidden() bool {
	return slices.ContainsFunc(c.Unknown, func(gap CareGap) bool { return gap.Cloth })
}

// A CareAxis is one of the five groups of the label.
type CareAxis struct {
	Name    string             // wash, bleach, dry, iron, professional
	Title   string             // "Washing"
	Options []trade.CareOption // its symbols, in order; one or two
	SetBy   []string           // the layers that set it
	Chosen  bool               // the maker decided otherwise …
	Laxer   bool               // … and allows more than the layers stand
	Working figure.Working
}

// A CareLayer is one thing the garment is made of with what it stands.
type CareLayer struct {
	Name   string // "shell, Rust linen twill", "zip of polyester"
	Part   string // the part its cloth plays; empty for a notion
	Made   string // the structure it is, by its name in the table of care; empty for what is a thing
	Point  bool   // something hard at a point, that an iron goes round
	Limits trade.CareLimits
	At     fault.Pos
	Source trade.Source
	Notes  []string // what its fibres ask for beside the symbols
}

// A CareGap is a layer of which nobody knows what it stands.
type CareGap struct {
	Name     string
	Of       string // the part of a cloth, or what a notion is
	Material string // of a notion; may be empty
	Why      string
	At       fault.Pos
	Cloth    bool // a cloth: the whole care is in doubt, not a trim's alone
}

const (
	careRule                = "on each axis the strictest of all layers: the most fragile component decides"
	careSource trade.Source = "GINETEX Switzerland licensing FAQ; axis by axis derived"
)

// Care works out what a garment stands. It is worked out when it is asked for
// and not with the other figures.
func (t *Labeller) Care(g *garment.Garment) *Care {
	c := &Care{}
	for _, cloth := range g.Cloths { // one that nothing is cut from too: what came to be mended is washed with its mending
		c.clothLayer(cloth)
	}
	for _, n := range g.Notions {
		c.notionLayer(n)
	}
	c.structureLayers(g)
	for i, l := range c.Layers {
		if i == 0 {
			c.Limits = l.Limits
			continue
		}
		c.Limits = c.Limits.Meet(l.Limits)
	}
	layers := c.Limits
	c.choose(&g.Build.Packet.Care)
	c.findConflicts(layers)
	if len(c.Layers) > 0 {
		for _, a := range trade.CareAxes() {
			c.Axes = append(c.Axes, c.axis(a, layers, &g.Build.Packet.Care))
		}
	}
	return c
}

// clothLayer adds a cloth: what its supplier allows, and for the axes the
// supplier says nothing of, what its fibres and weave stand.
func (c *Care) clothLayer(cloth *garment.Cloth) {
	if cloth.Cloth == nil {
		c.Unknown = append(c.Unknown, CareGap{Name: cloth.Part, Of: cloth.Part, Why: say.Of("label.the-cloth-is-not-on-the-shelf"), At: cloth.Use.At, Cloth: true})
		return
	}
	name := cloth.Part + ", " + cloth.Cloth.Name.Or(cloth.Cloth.Slug)
	usual, notes, strange := usualCare(cloth.Cloth)
	given := cloth.Cloth.Care
	if len(strange) > 0 && !allAxes(given) {
		c.Unknown = append(c.Unknown, CareGap{Name: name, Of: cloth.Part, Why: say.Of("label.no-usual-care-is-known-for", strings.Join(strange, " and ")), At: cloth.Cloth.At, Cloth: true})
		if len(cloth.Cloth.Fibres) == len(strange) && !anyAxis(given) {
			return
		}
	}
	l := CareLayer{Name: name, Part: cloth.Part, Limits: usual, At: cloth.Cloth.At, Source: "its fibres' usual limits: common practice, no source", Notes: notes}
	if anyAxis(given) {
		l.Limits, l.At, l.Source = withSupplier(usual, given), given.At, "the supplier, as the cloth's record says"
		for _, axis := range laxerAxes(l.Limits, usual) {
			if len(strange) == 0 {
				c.Remarks = append(c.Remarks, say.Of("label.the-supplier-allows-more-at-than-its", name, axis))
			}
		}
	}
	c.Layers = append(c.Layers, l)
}

// usualCare is what the fibres and the weave of a cloth usually stand, what
// they ask for beside, and the fibres nothing is known of.
func usualCare(cloth *record.Cloth) (limits trade.CareLimits, notes, strange []string) {
	first := true
	meet := func(m trade.CareLimits) {
		if first {
			limits, first = m, false
		} else {
			limits = limits.Meet(m)
		}
		for _, n := range m.Notes {
			if !slices.Contains(notes, n) {
				notes = append(notes, n)
			}
		}
	}
	for i := range cloth.Fibres {
		f, ok := trade.FibreNamed(cloth.Fibres[i].Name.V)
		if !ok || f.Care == nil {
			strange = append(strange, cloth.Fibres[i].Name.V)
			continue
		}
		meet(dyed(f, cloth.Colour.V))
	}
	if len(cloth.Fibres) == 0 {
		strange = append(strange, say.Of("label.a-cloth-without-fibres"))
	}
	for _, word := range []string{cloth.Weave.V, cloth.Structure.V} {
		if m, ok := trade.CareMaterialNamed(word); ok && word != "" {
			meet(m.Care)
		}
	}
	limits.Notes = nil
	return limits, notes, strange
}

// careMaterial is the material that a notion is called by, by its whole name or by what
// it is.
func careMaterial(n *record.Notion) (trade.CareMaterial, bool) {
	if m, ok := trade.CareMaterialNamed(n.Name.V); ok {
		return m, true
	}
	return trade.CareMaterialNamed(n.Is())
}

// notionLayer adds a notion, by what it is made of and by what it is.
func (c *Care) notionLayer(n *garment.Notion) {
	r := n.Record
	name := r.Name.V
	if r.Material.Given() {
		name += say.Of("label.of", r.Material.V)
	}
	found := materialCare(r.Material.V)
	if kind, ok := careMaterial(r); ok {
		found = append(found, kind.Care)
	}
	if len(found) == 0 {
		why := say.Of("label.its-record-does-not-say-what-it")
		if r.Material.Given() {
			why = say.Of("label.no-usual-care-is-known-for", r.Material.V)
		}
		c.Unknown = append(c.Unknown, CareGap{Name: name, Of: r.Name.V, Material: r.Material.V, Why: why, At: r.At})
		return
	}
	l := CareLayer{Name: name, Limits: found[0], At: r.At, Source: "common practice, no source"}
	for _, m := range found[1:] {
		l.Limits = l.Limits.Meet(m)
	}
	l.Notes, l.Limits.Notes = l.Limits.Notes, nil
	if words.AnyOf(r.Is(), points) { // an iron goes round it: the sheet says so
		l.Limits.Iron, l.Limits.NoSteam, l.Point = hottestIron, false, true
	}
	c.Layers = append(c.Layers, l)
}

// points are notions that are hard and lie at a point (terms of the trade).
var points = []string{"button", "hook", "eye", "bar", "snap", "stud", "popper", "press fastener", "buckle", "rivet", "eyelet", "grommet", "toggle", "clasp"}

// hottestIron is the sole plate of the hottest symbol, °C.
const hottestIron = 200

// undyed are colours of cloth that no dye can run out of (general usage).
var undyed = []string{"white", "unbleached", "natural", "ecru", "undyed", "bleached", "raw white", "off-white", "ivory", "cream", "loomstate"}

// dyed is what a fibre usually stands in a colour: cotton and linen that are dyed are
// washed at 40 °C (gewetex.de, Pflegehinweise, and serviceok.at: dark or intense colours
// 40), and so are those of which the record does not say that they are white.
func dyed(f trade.Fibre, colour string) trade.CareLimits {
	out := *f.Care
	if (f.Name == "cotton" || f.Name == "flax") && !words.AnyOf(colour, undyed) {
		out.Wash.Degrees = min(out.Wash.Degrees, 40)
	}
	return out
}

// materialCare finds what a material in the maker's words stands: as a whole,
// else word by word.
func materialCare(material string) []trade.CareLimits {
	one := func(word string) (trade.CareLimits, bool) {
		if m, ok := trade.CareMaterialNamed(word); ok {
			return m.Care, true
		}
		if f, ok := trade.FibreNamed(word); ok && f.Care != nil {
			return *f.Care, true
		}
		return trade.CareLimits{}, false
	}
	if material == "" {
		return nil
	}
	if m, ok := one(material); ok {
		return []trade.CareLimits{m}
	}
	var out []trade.CareLimits
	for word := range strings.FieldsSeq(material) {
		if m, ok := one(strings.Trim(word, ",.;()")); ok {
			out = append(out, m)
		}
	}
	return out
}

// choose lets the maker decide otherwise.
func (c *Care) choose(choice *record.CareChoice) {
	if !anyAxis(choice.Limits()) {
		return
	}
	c.Limits = withSupplier(c.Limits, choice.Limits())
	c.Because, c.BecauseAt = choice.Because.V, choice.At
	if !allAxes(choice.Limits()) {
		return
	}
	// The maker's word is whole: it stands for the layers nobody knows.
	for _, gap := range c.Unknown {
		if gap.Cloth {
			c.Remarks = append(c.Remarks, say.Of("label.the-care-of-is-the-makers-word", gap.Name, gap.Why))
		}
	}
	c.Unknown = slices.DeleteFunc(c.Unknown, func(gap CareGap) bool { return gap.Cloth })
	if len(c.Layers) == 0 {
		c.Layers = append(c.Layers, CareLayer{Name: say.Of("label.the-maker"), Limits: c.Limits, At: choice.At, Source: figure.Recorded})
	}
}

// findConflicts says what does not go together.
func (c *Care) findConflicts(layers trade.CareLimits) {
	c.Forbidden = len(c.Layers) > 0 && c.Limits.Forbidden()
	if c.Forbidden {
		var wash, clean []string
		for _, l := range c.Layers {
			if l.Limits.Wash.Degrees == 0 {
				wash = append(wash, l.Name)
			}
			if !canClean(l.Limits) {
				clean = append(clean, l.Name)
			}
		}
		c.Conflicts = append(c.Conflicts, say.Of("label.it-can-be-neither-washed-nor-cleaned", orNothing(wash, "nothing"), orNothing(clean, say.Of("label.no-layer-alone"))))
		return
	}
	if canClean(layers) {
		return
	}
	for _, l := range c.Layers {
		if !canClean(l.Limits) {
			return // one layer forbids it; that is no conflict
		}
	}
	if len(c.Layers) > 0 {
		c.Conflicts = append(c.Conflicts, say.Of("label.its-layers-allow-different-kinds-of"))
	}
}

func orNothing(list []string, nothing string) string {
	if len(list) == 0 {
		return nothing
	}
	return strings.Join(list, " and ")
}

func canClean(l trade.CareLimits) bool {
	return len(l.Professional.Solvents) > 0 || l.Professional.Wet
}

// axis works out one group of the label.
func (c *Care) axis(a trade.CareAxis, layers trade.CareLimits, choice *record.CareChoice) CareAxis {
	out := CareAxis{Name: a.Name, Title: a.Title}
	pad := figure.NewPad(measure.Style{})
	for _, name := range axisOptions(a.Name, c.Limits) {
		if o, ok := trade.CareOptionNamed(name); ok {
			if a.Name == "wash" { // with its temperature, which the symbol for hands does not show
				o.Words = c.Limits.Wash.Words()
			}
			out.Options = append(out.Options, o)
		}
	}
	want := axisWords(a.Name, layers)
	for i, l := range c.Layers {
		own := axisWords(a.Name, l.Limits)
		pad.Remark(figure.Written, l.Name, own, l.At, string(l.Source))
		if own == want || c.tightens(a.Name, i, want) {
			out.SetBy = append(out.SetBy, l.Name)
		}
	}
	words := say.Of("label.the-strictest-of-is-set-by", countWords(len(c.Layers)), want, orNothing(out.SetBy, say.Of("label.none-alone")))
	if axisGiven(a.Name, choice.Limits()) {
		out.Chosen = true
		out.Laxer = slices.Contains(laxerAxes(c.Limits, layers), a.Name)
		pad.Remark(figure.Written, say.Of("label.the-makers-choice"), axisWords(a.Name, c.Limits), choice.At, "")
		words += say.Of("label.the-maker-decides-because", axisWords(a.Name, c.Limits), choice.Because.V)
	}
	out.Working = pad.Words(words, careRule, careSource)
	return out
}

func countWords(n int) string {
	if n == 1 {
		return say.Of("label.one-layer")
	}
	return say.Of("label.layers", strconv.Itoa(n))
}

// tightens reports whether an axis is laxer without one layer.
func (c *Care) tightens(axis string, without int, want string) bool {
	first := true
	var rest trade.CareLimits
	for i, l := range c.Layers {
		switch {
		case i == without:
		case first:
			rest, first = l.Limits, false
		default:
			rest = rest.Meet(l.Limits)
		}
	}
	return !first && axisWords(axis, rest) != want
}
