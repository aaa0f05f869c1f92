package notebook

import (
	"slices"
	"strings"

	"hembook/internal/cutting"
	"hembook/internal/figure"
	"hembook/internal/meant"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// A LayPlan is how one cloth of a garment is laid, without what it costs.
type LayPlan struct {
	Part    string
	Cloth   string
	Why     string   // why there is no plan; empty where there is one
	Misfits []string // pieces that do not fit, with what would help

	Figures []figure.Figure // length, width, how well the cloth is used, what is needed and on hand
	Across  string          // what distances across the cloth are measured from: "the selvedge"
	Along   string          // and those along it: "the cut end"
	Doing   []string        // how folded cloth is folded, chalked and cut, in order
	Chalked []cutting.Position
	Left    []LayRemnant
	Notes   []string // what a reader of the plan should know
	Matches []cutting.Matched
	Stripes []shape.Stripes // of the cloth, as it lies; none where it has none
	Enough  bool            // the cloth on the shelf is enough; see the figure of what is on hand
	OnHand  figure.Figure
	Anchor  string // of its drawing
	Drawing []byte // SVG, set by who draws
	Narrow  []byte // the same for a narrow screen
	Ways    []LayWay
}

// A LayWay is a way to get by with too little cloth.
type LayWay struct {
	What        string
	Takes, Over float64 // of cloth, and what the shelf then has over, mm; below 0 it is still short
	Drawing     []byte  // SVG; none where the lay stays as it is
}

// A LayRemnant is cloth that the lay leaves.
type LayRemnant struct {
	Name       string
	Wide, Long float64 // the largest rectangle that can be had from it, across the cloth and along it, mm
	Area       figure.Figure
}

// layPlan takes from a lay what may be published.
func layPlan(l *cutting.Lay) LayPlan {
	out := LayPlan{Part: l.Part, Cloth: l.Use(), Why: l.Why, Doing: l.Doing, Chalked: l.Chalked, Matches: l.Matches, Enough: l.Enough, OnHand: l.OnHand, Stripes: l.Stripes()}
	if l.Plan != nil {
		out.Across, out.Along = cutting.AcrossFrom(l.Plan.Folding), cutting.AlongFrom(l.Plan.Folding)
	}
	if p := l.Problem; p != nil {
		out.Notes = p.Told()
	}
	out.Anchor = "plan-" + strings.TrimSuffix(strings.TrimPrefix(l.Needed.ID, "cloth."), ".needed")
	for _, f := range []*figure.Figure{&l.Width, &l.Length, &l.Other, &l.Used, &l.Share, &l.MatchCost, &l.Needed, &l.Mass} {
		if f.ID != "" && (f != &l.MatchCost || f.Value.Number > 0) {
			out.Figures = append(out.Figures, *f)
		}
	}
	for _, w := range l.Ways {
		out.Ways = append(out.Ways, LayWay{What: w.What, Takes: w.Takes, Over: w.Over})
	}
	for _, r := range l.Misfits {
		out.Misfits = append(out.Misfits, r.String())
	}
	for i := range l.Left {
		one := LayRemnant{Name: l.Left[i].Name, Wide: l.Left[i].Across(), Long: l.Left[i].Along(), Area: l.Left[i].Area}
		out.Left = append(out.Left, one)
	}
	return out
}

// fromRemnants notes which remnants a cloth of a garment was cut from, where its ledger says that
// nothing of it was cut off the roll.
func (p *LayPlan) fromRemnants(l *cutting.Lay, build string) {
	if l.Cloth == nil || l.Cloth.Cloth == nil {
		return
	}
	c := l.Cloth.Cloth
	none := slices.ContainsFunc(c.Movements(), func(m record.Movement) bool {
		return m.Kind == record.WasCut && m.Build == build && m.Part == l.Part && m.Length.V == 0
	})
	if !none {
		return
	}
	var from []string
	for i := range c.Remnants {
		r := &c.Remnants[i]
		switch {
		case r.Used.V != build:
		case r.Note.Given():
			from = append(from, say.Of("notebook.remnant-with-its-note", r.Name.V, r.Note.V))
		default:
			from = append(from, say.Of("notebook.remnant", r.Name.V))
		}
	}
	if len(from) > 0 {
		p.Notes = append(p.Notes, say.Of("notebook.all-of-it-comes-from", meant.List(from, "and")))
	}
}
