package label

import (
	"math"
	"slices"
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

// A Content is what a garment is made of, by fibre (figure 18).
type Content struct {
	Market     string        // whose rules it follows: eu, us
	Mass       figure.Figure // of all components
	Components []Component   // in the order of the record; cloths of the same fibres together
	LeftOut    []LeftOut     // what the law leaves out of the reckoning
	Whole      []FibrePart   // over all components by mass, largest first; empty where a mass is not known
	WholeWhy   string        // why not
	Unknown    []LeftOut     // cloths whose fibres are not known
	Animal     []string      // parts of animal origin that are no textile
	Held       bool          // borders ask for papers of some of their kind: feathers, furs, skins, shells
}

// A Component is one or more cloths of the same fibres.
type Component struct {
	Parts   []string      // "shell", "overlay"
	Cloths  []string      // their names on the shelf
	Mass    figure.Figure // of the cloths in the garment
	Share   figure.Figure // of the mass of all components, %
	Main    bool          // a main lining: stated whatever its share
	Lining  bool
	Must    bool // the law would have it on a label
	Why     string
	Fibres  []FibrePart // largest first; their labels add up to 100
	DryMass bool        // agreed allowances were added

	masses []*figure.Figure // of its cloths
}

// A FibrePart is one fibre's share.
type FibrePart struct {
	Name    string        // as the law of the market calls it, in English
	Fibre   trade.Fibre   // not set for "other fibres"
	Other   bool          // "other fibres"
	Percent figure.Figure // before rounding
	Label   float64       // rounded so that all add up to 100, %
	Of      []string      // which fibres "other fibres" are, where known

	terms []figure.Term // what its share is the sum of
}

// A LeftOut is a cloth that is not stated, with why.
type LeftOut struct {
	Part   string
	Why    string
	At     fault.Pos
	Hidden bool // it lies between the others: stiffening, interlining, backing
}

// Content works out what a garment is made of. It is worked out when it is
// asked for and not with the other figures.
func (t *Labeller) Content(g *garment.Garment) *Content {
	return t.ContentBy(g, strings.ToLower(t.room.Workroom.Rules.Or("EU")))
}

// ContentBy is the same by the rules of a market: eu or us.
func (t *Labeller) ContentBy(g *garment.Garment, market string) *Content {
	c := &Content{Market: market}
	w := t.reading(g)
	lining := mainLining(g)
	for _, cloth := range g.Cloths { // one that nothing is cut from too: the garment came in it
		w.addComponent(c, cloth, lining)
	}
	w.componentShares(c)
	for i := range c.Components {
		c.Components[i].decide(c.Market)
	}
	w.wholeContent(c)
	c.Animal, c.Held = animalParts(g)
	return c
}

// The parts of a garment that the laws leave out of the reckoning: Regulation
// (EU) No 1007/2011, Annex VII(a) and (g); 15 U.S.C. 70j(a) and 16 CFR
// 303.12(a)(1) leave out much the same.
var leftOutParts = []struct {
	words  []string
	why    string
	hidden bool
}{
	{[]string{"fusing", "fusible", "interfacing", "interlining", "canvas", "stiffening", "backing", "reinforcement", "underlining"}, "stiffening, interlining or reinforcement (Regulation (EU) No 1007/2011, Annex VII(g); 15 U.S.C. 70j(a))", true},
	{[]string{"patch", "mend", "mending", "darn"}, "what it was mended with (Regulation (EU) No 1007/2011, Annex VII(a), as trimming)", false},
	{[]string{"binding", "trim", "trimming", "piping", "edging", "bias", "loop", "tape"}, "edging or trimming (Regulation (EU) No 1007/2011, Annex VII(a); 16 CFR 303.12(a))", false},
}

func leftOut(part string) (why string, hidden, out bool) {
	for _, kind := range leftOutParts {
		if words.AnyOf(part, kind.words) {
			return kind.why, kind.hidden, true
		}
	}
	return "", false, false
}

// isLining reports whether a part's name says that it lines the garment.
func isLining(part string) bool {
	return words.AnyOf(part, []string{"lining"})
}

// mainLining is the lining the record calls main, else the heaviest one; ""
// where there is none.
func mainLining(g *garment.Garment) string {
	best, most := "", -1.0
	for _, c := range g.Cloths {
		if c.Use.Main.V {
			return c.Part
		}
		if isLining(c.Part) && c.Mass.Value.Number > most {
			best, most = c.Part, c.Mass.Value.Number
		}
	}
	return best
}

// addComponent adds a cloth to the component of the same fibres, or makes one.
func (w *reading) addComponent(c *Content, cloth *garment.Cloth, lining string) {
	if why, hidden, out := leftOut(cloth.Part); out {
		c.LeftOut = append(c.LeftOut, LeftOut{cloth.Part, why, cloth.Use.At, hidden})
		return
	}
	if cloth.Cloth == nil || len(cloth.Cloth.Fibres) == 0 {
		why := say.Of("label.its-record-names-no-fibres")
		if cloth.Cloth == nil {
			why = say.Of("label.the-cloth-is-not-on-the-shelf")
		}
		c.Unknown = append(c.Unknown, LeftOut{Part: cloth.Part, Why: why, At: cloth.Use.At})
		return
	}
	if bad := unknownFibre(cloth.Cloth); bad != "" {
		c.Unknown = append(c.Unknown, LeftOut{Part: cloth.Part, Why: say.Of("label.there-is-no-fibre-2", bad), At: cloth.Cloth.At})
		return
	}
	main, lines := cloth.Part == lining, isLining(cloth.Part)
	fibres := w.fibresOf(c.Market, cloth)
	name := cloth.Cloth.Name.Or(cloth.Cloth.Slug)
	for i := range c.Components {
		k := &c.Components[i]
		if k.Main == main && k.Lining == lines && k.DryMass == cloth.Cloth.DryMass.Shares.V && sameLabels(k.Fibres, fibres) {
			k.Parts = append(k.Parts, cloth.Part)
			if !slices.Contains(k.Cloths, name) {
				k.Cloths = append(k.Cloths, name)
			}
			k.masses = append(k.masses, &cloth.Mass)
			k.Mass = w.sum(k.Mass.ID, say.Of("label.weight-of-the-component"), measure.UnitG, k.masses, "", say.Of("label.of-its-cloths"))
			return
		}
	}
	masses := []*figure.Figure{&cloth.Mass}
	mass := w.sum(w.Join("content.", cloth.Slug, ".mass"), say.Of("label.weight-of-the-component"), measure.UnitG, masses, "", say.Of("label.of-its-cloths"))
	c.Components = append(c.Components, Component{
		Parts: []string{cloth.Part}, Cloths: []string{name}, Mass: mass, Main: main, Lining: lines,
		Fibres: fibres, DryMass: cloth.Cloth.DryMass.Shares.V, masses: masses,
	})
}

func unknownFibre(c *record.Cloth) string {
	for i := range c.Fibres {
		name := c.Fibres[i].Name.V
		if _, ok := trade.FibreNamed(name); !ok && !isOther(name) {
			return name
		}
	}
	return ""
}

func isOther(name string) bool {
	return words.Plain(name) == trade.OtherFibres || words.Plain(name) == "other fibers"
}

func sameLabels(a, b []FibrePart) bool {
	return slices.EqualFunc(a, b, func(x, y FibrePart) bool { return x.Name == y.Name && math.Abs(x.Label-y.Label) < 1e-9 })
}

// fibresOf are a cloth's fibres as a label states them.
func (w *reading) fibresOf(market string, cloth *garment.Cloth) []FibrePart {
	c := cloth.Cloth
	shares, rule, source := make([]float64, len(c.Fibres)), say.Of("label.as-the-cloths-record-says"), figure.Recorded
	for i := range c.Fibres {
		shares[i] = float64(c.Fibres[i].V.V)
	}
	decimals := decimalsOf(shares)
	var dry []trade.DryShare
	var all []figure.Term
	if c.DryMass.Shares.V {
		dry = drySharesOf(c)
		for i := range dry {
			all = append(all, dryTerm(w, c, dry, i))
		}
		rule, source, decimals = say.Of("label.p-times-1-a-b-by-p"), "Regulation (EU) No 1007/2011, Annex VIII, chapter 3, I.8.2, and Annex IX", 1
	}
	var out []FibrePart
	for i := range c.Fibres {
		r := &c.Fibres[i]
		f, _ := trade.FibreNamed(r.Name.V)
		name := f.LabelName(market)
		if isOther(r.Name.V) {
			name = trade.OtherFibres
		}
		t := w.Written(r.Name.V, float64(r.V.V), measure.UnitPercent, r.V.At)
		if dry != nil {
			t = dryTerm(w, c, dry, i).Over(w.Sum(all...))
		}
		id := w.Join("content.", cloth.Slug, ".", plainID(r.Name.V))
		out = append(out, FibrePart{Name: name, Fibre: f, Other: isOther(r.Name.V),
			Percent: w.Figure(id, say.Of("label.share-of", name), cloth.Part, t, measure.UnitPercent, rule, source), terms: []figure.Term{t}})
	}
	out = w.foldNames(out)
	if market == "us" {
		out = w.foldSmall(out)
	}
	return labelled(out, decimals)
}

// dryTerm is a fibre's dry mass with what is added to it.
func dryTerm(w *reading, c *record.Cloth, dry []trade.DryShare, i int) figure.Term {
	r, d := &c.Fibres[i], &dry[i]
	more := w.Number(1).Plus(w.Row(say.Of("label.agreed-allowance-of", r.Name.V), d.Allowance, measure.UnitPercent, "Regulation (EU) No 1007/2011, Annex IX"))
	if lost, ok := c.DryMass.Lost.Get(r.Name.V); ok && lost.Given() {
		more = more.Plus(w.Written(say.Of("label.lost-in-preparing", r.Name.V), d.Lost, measure.UnitPercent, lost.At))
	}
	return w.Written(r.Name.V, d.Percent, measure.UnitPercent, r.V.At).Times(more)
}

// drySharesOf are a cloth's shares of dry mass with what is added to them.
func drySharesOf(c *record.Cloth) []trade.DryShare {
	out := make([]trade.DryShare, len(c.Fibres))
	for i := range c.Fibres {
		name := c.Fibres[i].Name.V
		form, _ := c.DryMass.Form.Get(name)
		lost, _ := c.DryMass.Lost.Get(name)
		f, _ := trade.FibreNamed(name)
		agreed, ok := f.Allowance(form.V)
		if !ok {
			agreed, _ = f.Allowance("")
		}
		out[i] = trade.DryShare{Percent: float64(c.Fibres[i].V.V), Allowance: agreed.Percent, Lost: float64(lost.V)}
	}
	return out
}

// decimalsOf is how many decimals shares are written with, at most one.
func decimalsOf(shares []float64) int {
	for _, s := range shares {
		if math.Abs(s-math.Round(s)) > 1e-9 {
			return 1
		}
	}
	return 0
}

// foldNames takes together fibres that the market calls by one name.
func (w *reading) foldNames(list []FibrePart) []FibrePart {
	var out []FibrePart
	for _, f := range list {
		i := slices.IndexFunc(out, func(o FibrePart) bool { return o.Name == f.Name })
		if i < 0 {
			out = append(out, f)
			continue
		}
		out[i].add(w, &f)
	}
	return out
}

// add takes another fibre into a share.
func (f *FibrePart) add(w *reading, other *FibrePart) {
	p := &f.Percent
	f.terms = append(f.terms, other.terms...)
	*p = w.Figure(p.ID, p.Title, p.Of, w.Sum(f.terms...), measure.UnitPercent, p.Working.Rule, p.Working.Source)
}

// foldSmall takes together the fibres that a label in the United States need
// not name.
func (w *reading) foldSmall(list []FibrePart) []FibrePart {
	var out []FibrePart
	other := FibrePart{Name: trade.OtherFibres, Other: true}
	for i := range list {
		f := &list[i]
		if !f.Other && trade.NamedInUS(f.Fibre, f.Percent.Value.Number) {
			out = append(out, *f)
			continue
		}
		if len(other.Of) == 0 {
			other.Percent, other.terms = f.Percent, f.terms
		} else {
			other.add(w, f)
		}
		other.Of = append(other.Of, f.Name)
	}
	if len(other.Of) > 0 {
		other.Percent.Working.Source = "15 U.S.C. 70b(b)(1); 16 CFR 303.3: below 5 % a fibre without a function of its own is \"other fiber\""
		out = append(out, other)
	}
	return out
}

// labelled sorts fibres, largest first and "other fibres" last, and rounds
// their shares so that they add up to 100.
func labelled(list []FibrePart, decimals int) []FibrePart {
	slices.SortStableFunc(list, func(a, b FibrePart) int {
		switch {
		case a.Other != b.Other && a.Other:
			return 1
		case a.Other != b.Other:
			return -1
		case a.Percent.Value.Number > b.Percent.Value.Number+1e-9:
			return -1
		case a.Percent.Value.Number < b.Percent.Value.Number-1e-9:
			return 1
		}
		return strings.Compare(a.Name, b.Name)
	})
	shares := make([]float64, len(list))
	for i := range list {
		shares[i] = list[i].Percent.Value.Number
	}
	for i, v := range trade.RoundTo100(shares, decimals) {
		list[i].Label = v
	}
	return list
}

func plainID(name string) string { return strings.ReplaceAll(words.Plain(name), " ", "-") }
