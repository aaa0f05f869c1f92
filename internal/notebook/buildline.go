package notebook

import (
	"slices"
	"strings"
	"time"

	"hembook/internal/derive"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/measure"
	"hembook/internal/order"
	"hembook/internal/record"
)

// A BuildLine is what is kept of a build once its page is laid out: enough for
// the lists, the technique and cloth pages, the rates and the search.
type BuildLine struct {
	Link
	Lead       string // one sentence
	Garment    string
	State      string
	Begun      record.Day
	Ended      record.Day // the day it was sent
	Touched    time.Time  // the last moment its record knows of; zero where it knows none
	Picture    *Picture
	Spent      measure.Quantity // time clocked so far; none where nothing was
	Sewn       measure.Quantity // length of all rows; none where it is not known
	Cut        figure.Figure    // area of all that is cut
	Share      figure.Figure    // of it that is allowance
	Cloths     []ClothShare
	Techniques []TechniqueShare
	Set        []SetOn // how the machine was set for what was sewn
}

// A ClothShare is what a build took of a cloth.
type ClothShare struct {
	Slug   string
	Part   string
	Area   figure.Figure // as cut, allowances included
	Needed figure.Figure // length to have
	IsCut  bool
}

// A TechniqueShare is how a build used a technique.
type TechniqueShare struct {
	Slug    string
	Cloths  []string            // slugs of the cloths it was used on
	Metres  float64             // of seam sewn with it
	Minutes float64             // clocked
	Rates   []order.Observation // steps that were clocked, measured and finished
	Sides   [3]string           // the pieces of the first seam or hem made with it; "" where they are too many to name
}

// Year is the year a build began, 0 where that is not known.
func (s *BuildLine) Year() int { return s.Begun.Year }

// BuildLine keeps of build number i what other pages need.
func (b *Book) BuildLine(i int, g *derive.Garment) *BuildLine {
	r := g.Build
	s := &BuildLine{
		Link: Link{b.builds[i].Address, r.Name.Or(b.builds[i].Name)},
		Lead: strings.Clone(r.Summary.V), Garment: strings.Clone(r.Garment.V), State: r.State.V,
		Begun: r.Begun.V, Ended: r.Sent.V,
	}
	if pic, ok := picture(r.Folder, r.Picture.Photo()); ok {
		pic.Show = strings.Clone(r.Picture.Show.V)
		s.Picture = &pic
	}
	for _, c := range g.Cloths {
		if c.Cloth != nil {
			s.Cloths = append(s.Cloths, ClothShare{c.Cloth.Slug, strings.Clone(c.Part), lean(c.CutArea), lean(c.Needed), r.HasCut(c.Cloth, c.Part)})
		}
	}
	s.Cut, s.Share = leanSum(g.Totals.CutArea), leanSum(g.Totals.Share)
	if spent := &g.Order.Spent; spent.ID != "" && spent.Value.Known() {
		s.Spent = spent.Value.Quantity
	}
	if sewn := &g.Totals.Seams; sewn.ID != "" && sewn.Value.Known() {
		s.Sewn = sewn.Value.Quantity
	}
	s.Touched, _ = g.LastMoment()
	if end := s.Ended; end != (record.Day{}) && end.Time().After(s.Touched) {
		s.Touched = end.Time()
	}
	s.Set = b.settings(g)
	s.Techniques = techniqueShares(g)
	for i := range s.Set {
		if t := &s.Set[i]; t.Technique != "" {
			s.technique(t.Technique).addCloths(t.Cloths)
		}
	}
	return s
}

// lean is a figure without what its working holds of the build: the page of
// the build shows that. Texts are copied, because those of a garment share
// pages of memory that a line would keep from being freed.
func lean(f figure.Figure) figure.Figure {
	out := figure.Figure{ID: "kept", Title: strings.Clone(f.Title), Value: f.Value}
	out.Value.Why = strings.Clone(f.Value.Why)
	out.Working.Rule = strings.Clone(f.Working.Rule)
	out.Working.Source = f.Working.Source
	return out
}

// leanSum is lean that keeps the sum with its numbers.
func leanSum(f figure.Figure) figure.Figure {
	out := f.Clone()
	out.ID, out.Title, out.Of = "kept", strings.Clone(f.Title), strings.Clone(f.Of)
	out.Value.Why = strings.Clone(f.Value.Why)
	return out
}

// technique is what a build did with a technique, begun where nothing is noted yet.
func (s *BuildLine) technique(slug string) *TechniqueShare {
	i := slices.IndexFunc(s.Techniques, func(t TechniqueShare) bool { return t.Slug == slug })
	if i < 0 {
		i, s.Techniques = len(s.Techniques), append(s.Techniques, TechniqueShare{Slug: slug})
	}
	return &s.Techniques[i]
}

// techniqueShares gathers what a build did with each technique it names.
func techniqueShares(g *derive.Garment) []TechniqueShare {
	var line BuildLine
	get := line.technique
	sewn := clothsSewn(g)
	for _, s := range g.Seams {
		if s.Record != nil && s.Record.Technique.Given() {
			t := get(s.Record.Technique.V)
			t.addCloths(sewn[s.Name])
			t.addSides(s.SideNames())
		}
	}
	for _, f := range g.Finishes {
		if f.Record != nil && f.Record.Technique.Given() {
			get(f.Record.Technique.V).addCloths(sewn[f.Name])
		}
	}
	for _, st := range g.Steps {
		if st.Record == nil || !st.Record.Technique.Given() {
			continue
		}
		get(st.Record.Technique.V).addStep(st, sewn)
	}
	for _, o := range order.Observe(g.Order) {
		t := get(o.Technique)
		t.Rates = append(t.Rates, o)
	}
	return line.Techniques
}

// clothsSewn are the slugs of the cloths in every seam and finish, by its name.
func clothsSewn(g *derive.Garment) map[string][]string {
	sewn := map[string][]string{}
	for _, s := range g.Seams {
		sewn[s.Name] = clothsOf(s.Sides[0].Edges, clothsOf(s.Sides[1].Edges, nil, g), g)
		for i := range s.Plies {
			sewn[s.Name] = clothsOf(s.Plies[i].Edges, sewn[s.Name], g)
		}
	}
	for _, f := range g.Finishes {
		sewn[f.Name] = clothsOf(f.Edges, nil, g)
	}
	return sewn
}

// clothsOf adds the slugs of the cloths that edges are cut in.
func clothsOf(edges []garment.EdgeUse, to []string, g *derive.Garment) []string {
	for _, e := range edges {
		if e.Piece != nil {
			to = clothsOfPiece(e.Piece, to, g)
		}
	}
	return to
}

// clothsOfPiece adds the slugs of the cloths that a piece is cut in.
func clothsOfPiece(p *garment.Piece, to []string, g *derive.Garment) []string {
	for _, part := range p.Of {
		for _, c := range g.Cloths {
			if c.Part == part && c.Cloth != nil && !slices.Contains(to, c.Cloth.Slug) {
				to = append(to, c.Cloth.Slug)
			}
		}
	}
	return to
}

// addSides takes the names of a seam's pieces, where none are known yet.
func (t *TechniqueShare) addSides(names [3]string) {
	if t.Sides == ([3]string{}) {
		for i, name := range names {
			t.Sides[i] = strings.Clone(name)
		}
	}
}

func (t *TechniqueShare) addCloths(slugs []string) {
	for _, s := range slugs {
		if !slices.Contains(t.Cloths, s) {
			t.Cloths = append(t.Cloths, s)
		}
	}
}

func (t *TechniqueShare) addStep(st *order.Step, sewn map[string][]string) {
	for _, name := range st.Record.Sews {
		t.addCloths(sewn[name.V])
	}
	if m := st.Metres; m.ID != "" && m.Value.Known() {
		t.Metres += m.Value.In(measure.UnitM).Number
	}
	if s := st.Spent; s.ID != "" && s.Value.Known() {
		t.Minutes += s.Value.In(measure.UnitMin).Number
	}
}
