package order

import (
	"slices"

	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/sewn"
)

// An Alter is what is to be known before a level is let out.
type Alter struct {
	Level *garment.Level
	Gives []Numbered // seams that give there
	Open  []Numbered // what is opened, in that order: what was sewn last first
	Grows []Numbered // what grows with it: seams and hems at the ends of those that give
	Other []string   // other layers that bear the level
}

// Alter says what is to be known before a level of the build is let out.
func (t *Together) Alter(l *garment.Level) Alter {
	a := Alter{Level: l}
	add := func(list *[]Numbered, number int) {
		if number > 0 && !slices.ContainsFunc(*list, func(n Numbered) bool { return n.Number == number }) {
			*list = append(*list, t.Numbered[number-1])
		}
	}
	layers := map[string]bool{}
	for i := range l.Girths {
		layers[l.Girths[i].Layer] = true
		for _, id := range l.Girths[i].Crossed(t.Sewn) {
			j := &t.Sewn.Joins[id]
			if j.Kind != sewn.Sewn || t.Spare(j.A.Side, j)+t.Spare(j.B.Side, j) <= 0 {
				continue
			}
			own := t.NumberOfSeam(j.Seam)
			add(&a.Gives, own)
			add(&a.Open, own)
			for _, number := range t.besides(j) {
				if number == own {
					continue
				}
				add(&a.Grows, number)
				if number > own {
					add(&a.Open, number)
				}
			}
		}
	}
	if l.Fast() { // what could give is held there
		a.Gives = nil
	}
	byNumber := func(x, y Numbered) int { return x.Number - y.Number }
	slices.SortFunc(a.Gives, byNumber)
	slices.SortFunc(a.Grows, byNumber)
	slices.SortFunc(a.Open, func(x, y Numbered) int { return y.Number - x.Number })
	for _, layer := range t.Sewn.Layers() {
		if !layers[layer] && slices.Contains(t.Sewn.Levels(layer), l.Name) {
			a.Other = append(a.Other, layer)
		}
	}
	return a
}

// besides are the numbers of what is sewn along the edges beside a join.
func (t *Together) besides(j *sewn.Join) []int {
	var out []int
	for _, sp := range []sewn.Span{j.A, j.B} {
		side := &t.Sewn.Sides[sp.Side]
		sides := t.Sewn.Copies[side.Copy].Sides
		n := len(sides)
		for _, by := range []int{1, n - 1} {
			next := sides[(side.Index+by)%n]
			for _, id := range t.Sewn.JoinsOf(next) {
				if k := &t.Sewn.Joins[id]; k.Kind != sewn.Fold && k.Seam >= 0 {
					out = append(out, t.NumberOfSeam(k.Seam))
				}
			}
			if f := t.finishOf(sewn.Span{Side: next}); f != "" {
				out = append(out, t.NumberOfFinish(f))
			}
		}
	}
	return out
}

// Spare is what a side can give at a join, or in its finish where that is nil: as
// a plain seam where that gives more; nothing where it is not known.
func (t *Together) Spare(id sewn.SideID, j *sewn.Join) float64 {
	own, plain := t.spares(id, j)
	most := 0.0
	for _, f := range []*figure.Figure{own, plain} {
		if f != nil && f.ID != "" && f.Value.Known() {
			most = max(most, f.Value.Number)
		}
	}
	return most
}

// Holds is the notion that lies in the seam of a side and keeps it from giving anything,
// as boning; "" where none does.
func (t *Together) Holds(id sewn.SideID) string {
	if e := t.edgeOf(id); e != nil {
		return e.Holds
	}
	return ""
}

// spares are the figures of what a side can give: sewn again in its own way, and
// as a plain seam where that gives more; nil where there are none.
func (t *Together) spares(id sewn.SideID, j *sewn.Join) (own, plain *figure.Figure) {
	e := t.edgeOf(id)
	switch {
	case e == nil:
		return nil, nil
	case j != nil && j.B.Side == id && e.SpareOther.ID != "":
		return &e.SpareOther, &e.SpareOtherPlain
	}
	return &e.Spare, &e.SparePlain
}

// edgeOf is the edge of which a side is one occurrence.
func (t *Together) edgeOf(id sewn.SideID) *garment.PieceEdge {
	side := &t.Sewn.Sides[id]
	return t.edges[edgeOfPiece{t.Sewn.Copies[side.Copy].Name, side.Edge}]
}

// A Giving is an edge and what it can give.
type Giving struct {
	Numbered
	Edge       string
	Own, Plain *figure.Figure
}

// Giving lists what every edge of a net can give, by the number of its seam or
// finish; those that can give nothing are left out.
func (t *Together) Giving(n *sewn.Net) []Giving {
	var out []Giving
	add := func(number int, sp sewn.Span, j *sewn.Join) {
		own, plain := t.spares(sp.Side, j)
		if own == nil || own.ID == "" || own.Value.Known() && t.Spare(sp.Side, j) <= 0 {
			return
		}
		if number > 0 && !slices.ContainsFunc(out, func(o Giving) bool { return o.Own == own && o.Number == number }) {
			out = append(out, Giving{t.Numbered[number-1], t.edgeName(sp), own, plain})
		}
	}
	for _, m := range n.Meetings {
		j := &t.Sewn.Joins[m.Join]
		if j.Kind != sewn.Sewn {
			continue
		}
		for k, sp := range []sewn.Span{j.A, j.B} {
			if m.Here[k] {
				add(t.NumberOfSeam(j.Seam), sp, j)
			}
		}
	}
	for _, l := range n.Openings {
		for _, sp := range l.Spans {
			if len(t.Sewn.JoinsOf(sp.Side)) == 0 {
				add(t.NumberOfFinish(t.finishOf(sp)), sp, nil)
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Giving) int { return a.Number - b.Number })
	return out
}
