package notebook

import (
	"slices"
	"strings"

	"hembook/internal/derive"
	"hembook/internal/garment"
	"hembook/internal/trade"
)

// A SetOn is how a machine was set for something that was sewn in a build, and on which
// cloths.
type SetOn struct {
	garment.Setting
	Thread    string   // which, and what it is spun from
	For       string   // what was sewn: "French seam", "darts", "topstitch"; of a step that sews no row, the step
	Technique string   // slug; "" where no page tells of it
	Cloths    []string // slugs
}

func (s *SetOn) same(o SetOn) bool {
	return s.Setting == o.Setting && s.Thread == o.Thread && s.For == o.For && s.Technique == o.Technique && slices.Equal(s.Cloths, o.Cloths)
}

// A Worked is how the machine was set for something in one build, and on which cloths.
type Worked struct {
	garment.Setting
	Thread string
	For    Link // the technique; without an address where no page tells of it
	Build  Link
	Cloths []Link
}

// settings are how the machine was set in a build for its rows, and for steps that sew
// none, each once and in the record's order.
func (b *Book) settings(g *derive.Garment) (out []SetOn) {
	sewn := clothsSewn(g)
	sews := map[int]bool{}
	add := func(s SetOn) {
		if !slices.ContainsFunc(out, s.same) {
			out = append(out, s)
		}
	}
	for i := range g.Rows {
		r := &g.Rows[i]
		for _, k := range r.Steps() {
			sews[k] = true
		}
		if r.Set.Given() {
			add(b.settingOfRow(g, r, sewn))
		}
	}
	for i := range g.Build.Work {
		s := &g.Build.Work[i]
		if set := garment.SettingOf(&s.Setting); set.Given() && !sews[i] {
			add(SetOn{Setting: set.Clone(), For: strings.Clone(s.Do.V), Technique: strings.Clone(s.Technique.V)})
		}
	}
	return out
}

// settingOfRow says of a row what it makes, on which cloths, and which page tells of it.
func (b *Book) settingOfRow(g *derive.Garment, r *garment.Row, sewn map[string][]string) SetOn {
	s := SetOn{Setting: r.Set.Clone(), Thread: threadWords(g, r.Thread), For: string(r.Kind)}
	switch {
	case r.Beside != "":
		s.For, s.Technique = r.Beside, b.room.PageCalled(r.Beside)
		s.Cloths = sewn[r.Of]
	case r.Kind == garment.SeamRow:
		if i := slices.IndexFunc(g.Seams, func(s *garment.Seam) bool { return s.Name == r.Of }); i >= 0 {
			s.For, s.Technique = typeWords(g.Seams[i].Type, r.Of), g.Seams[i].Record.Technique.V
		}
		s.Cloths = sewn[r.Of]
	case r.Kind == garment.FinishRow:
		if i := slices.IndexFunc(g.Finishes, func(f *garment.Finish) bool { return f.Name == r.Of }); i >= 0 {
			s.For, s.Technique = typeWords(g.Finishes[i].Type, r.Of), g.Finishes[i].Record.Technique.V
		}
		s.Cloths = sewn[r.Of]
	default:
		for _, p := range r.Pieces() {
			s.Cloths = clothsOfPiece(p, s.Cloths, g)
		}
		for _, k := range r.Steps() {
			if t := g.Build.Work[k].Technique.V; t != "" {
				s.Technique = t
			}
		}
	}
	if _, ok := b.Technique(s.Technique); ok { // its name says what was sewn
		s.For = ""
	} else {
		s.Technique = ""
	}
	s.For, s.Technique = strings.Clone(s.For), strings.Clone(s.Technique)
	return s
}

// typeWords is what a seam or finish is: its type, else its own name.
func typeWords(t trade.SeamType, name string) string {
	if t.Title == "" {
		return name
	}
	return t.Title
}

// threadWords name a thread with what it is spun from.
func threadWords(g *derive.Garment, name string) string {
	t, ok := g.Build.Thread.Get(name)
	if !ok || t.Fibre.V == "" || strings.Contains(name, t.Fibre.V) {
		return strings.Clone(name)
	}
	return name + ", " + t.Fibre.V
}

// worked are the settings of all builds that fit, latest build first.
func (s *Gathered) worked(lines []*BuildLine, fits func(*SetOn) bool) (out []Worked) {
	for _, line := range lines {
		for i := range line.Set {
			set := &line.Set[i]
			if !fits(set) {
				continue
			}
			w := Worked{set.Setting, set.Thread, Link{Name: set.For}, line.Link, s.clothLinks(set.Cloths)}
			if l, ok := s.book.Technique(set.Technique); ok {
				w.For = l
			}
			out = append(out, w)
		}
	}
	return out
}
