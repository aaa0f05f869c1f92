package trade

import (
	"math"
	"slices"
	"strconv"

	"hembook/internal/say"
)

// Rows of stitching that lie beside a seam, or inside a finished edge, and that its type
// does not have: topstitching and edge stitching.

// A Beside is one row, or one on each side of the seam, so far from the finished line.
type Beside struct {
	Do     string  // what is done, as "topstitch"
	At     float64 // mm
	On     []Half  // the sides it is sewn on
	Stitch string
}

// A Half is one side of a finished seam as its section is drawn.
type Half int

// The halves of a section: to the left of the finished line, where side a goes on, and to
// its right. A finished edge lies on the left alone.
const (
	LeftHalf Half = iota
	RightHalf
)

func (s Half) sign() float64 {
	if s == LeftHalf {
		return -1
	}
	return 1
}

// flatRun is how far the garment goes on in a section that is reckoned with, mm: farther
// than any row lies from its seam.
const flatRun = 1000

// leastHeld is how far from the edge of the cloth that it holds a row lies at least, mm
// (common practice, no source).
const leastHeld = 1

// StackBeside is what lies on each other so far from the finished line, cloth having no
// thickness.
//
// It returns the error of a formula that comes to nothing with these measures.
func (t SeamType) StackBeside(given Params, side Half, mm float64) (Stack, error) {
	f, err := t.flat(given)
	return f.stackAt(side.sign() * mm), err
}

// flat is the section with cloth of no thickness, far enough out for any row.
func (t SeamType) flat(given Params) (*Section, error) {
	p, err := t.Values(given)
	if err != nil {
		return &Section{}, err
	}
	d := drawer{p: p.and(0, flatRun)}
	d.aside = d.p
	s := &Section{}
	for _, l := range t.Drawing.Layers {
		s.Layers = append(s.Layers, Layer{Role: t.roleOn(l.Of), End: l.End, Path: d.path(l.Path)})
	}
	return s, d.err
}

// Held is from where to where, in mm from the finished line, a row on one side of it
// passes two plies or more: the cloth that goes on there, and what is pressed against it
// or lies behind it. Both are 0 where no row holds anything; most is endless where two
// plies go on as one.
//
// It returns the error of a formula that comes to nothing with these measures.
func (t SeamType) Held(given Params, side Half) (least, most float64, err error) {
	f, err := t.flat(given)
	if err != nil {
		return 0, 0, err
	}
	at := []float64{0}
	for i := range f.Layers {
		for _, p := range f.Layers[i].Path {
			if x := p.X * side.sign(); x > 1e-6 {
				at = append(at, x)
			}
		}
	}
	slices.Sort(at)
	begun := false
	for i := 1; i < len(at); i++ {
		if at[i]-at[i-1] < 1e-6 {
			continue
		}
		held := f.stackAt(side.sign()*(at[i]+at[i-1])/2).Plies() >= 2
		switch {
		case held && !begun:
			begun, least = true, at[i-1]
		case !held && begun:
			return least, at[i-1], nil
		}
		if held {
			most = at[i]
		}
	}
	if most >= flatRun-1 {
		most = math.Inf(1)
	}
	return least, most, nil
}

// RowHolds reports whether a row so far from the finished line holds what lies on that side.
func (t SeamType) RowHolds(given Params, side Half, mm float64) bool {
	least, most, err := t.Held(given, side)
	return err == nil && most > 0 && mm > least+1e-6 && mm <= most-leastHeld+1e-6
}

// HasRow reports whether a row that stays lies there already.
func (t SeamType) HasRow(given Params, side Half, mm float64) bool {
	p, err := t.Values(given)
	if err != nil {
		return false
	}
	d := drawer{p: p.and(0, flatRun)}
	d.aside = d.p
	return slices.ContainsFunc(t.Drawing.Stitches, func(r StitchRule) bool {
		from, to := d.point(r.From), d.point(r.To)
		return !t.Passes[r.Row-1].Temporary && len(r.Round) == 0 && from.X == to.X && math.Abs(from.X*side.sign()-mm) < 0.5
	})
}

// OwnRows is how far inside the edge each of its straight rows lies, mm; outside it where
// negative, as stay stitching in the allowance.
func (t SeamType) OwnRows(given Params) (inside []float64) {
	p, err := t.Values(given)
	if err != nil {
		return nil
	}
	d := drawer{p: p.and(0, flatRun)}
	d.aside = d.p
	for _, r := range t.Drawing.Stitches {
		from, to := d.point(r.From), d.point(r.To)
		if len(r.Round) == 0 && from.X == to.X {
			inside = append(inside, -from.X)
		}
	}
	return inside
}

// PressedTo says where the allowances lie in the end: the last that its passes tell.
func (t SeamType) PressedTo() (to Pressed) {
	for i := range t.Passes {
		if p := t.Passes[i].Pressed; p != pressedUntold {
			to = p
		}
	}
	return to
}

// MayTurn reports whether its allowances may be pressed to either side, so that its sides
// may be exchanged as it is drawn.
func (t SeamType) MayTurn() bool { return t.PressedTo() == pressedOneSide }

// Turned is the type with its allowances pressed the other way: sides a and b exchanged
// in its section.
func (t SeamType) Turned() SeamType {
	t.turned = !t.turned
	return t
}

// IsTurned reports whether its sides are exchanged so.
func (t SeamType) IsTurned() bool { return t.turned }

// roleOn is the role of a layer in the section: sides a and b may be exchanged.
func (t *SeamType) roleOn(r Role) Role {
	switch {
	case t.turned && r == ClothA:
		return ClothB
	case t.turned && r == ClothB:
		return ClothA
	}
	return r
}

// With is the type with rows beside it: each is a further pass, drawn in its section. They
// are seen, and so are their holes when the seam is let out.
func (t SeamType) With(given Params, rows []Beside) SeamType {
	t.Passes = slices.Clone(t.Passes)
	for _, r := range rows {
		t.Passes = append(t.Passes, t.passOf(given, r))
	}
	t.beside, t.RowsShow = rows, t.RowsShow || len(rows) > 0
	return t
}

// Beside are the rows that lie beside it.
func (t SeamType) Beside() []Beside { return t.beside }

// Alike reports whether two types are one, with the same rows beside them.
func (t SeamType) Alike(o SeamType) bool {
	return t.Name == o.Name && t.turned == o.turned && slices.EqualFunc(t.beside, o.beside, func(a, b Beside) bool {
		return a.Do == b.Do && a.At == b.At && a.Stitch == b.Stitch && slices.Equal(a.On, b.On)
	})
}

func (t SeamType) passOf(given Params, r Beside) Pass {
	at := strconv.FormatFloat(r.At, 'f', -1, 64)
	from, do := "seam line", ""
	switch far, both := "{"+at+"}", len(r.On) > 1; {
	case t.Kind == Finish && both:
		from, do = "finished edge", say.Of("trade.row-from-the-edge-on-both-sides", r.Do, far)
	case t.Kind == Finish:
		from, do = "finished edge", say.Of("trade.row-from-the-edge", r.Do, far)
	case both:
		do = say.Of("trade.row-from-the-seam-on-both-sides", r.Do, far)
	default:
		do = say.Of("trade.row-from-the-seam", r.Do, far)
	}
	p := Pass{Do: do, From: from, Together: LaidFlat, Stitch: r.Stitch, Rows: len(r.On)}
	p.At, _ = ReadExpr(at)
	for _, side := range r.On {
		stack, _ := t.StackBeside(given, side, r.At) // what cannot be worked out passes nothing
		var row []Role
		for role, n := range stack.Roles() {
			for range n {
				row = append(row, role)
			}
		}
		p.Through = append(p.Through, row)
	}
	return p
}

// stitchBeside draws the rows that lie beside the seam through all that lies there, and
// says how far from it they are.
func (s *Section) stitchBeside(t *SeamType) {
	first := len(t.Passes) - len(t.beside)
	for i, r := range t.beside {
		for k, side := range r.On {
			x := side.sign() * r.At
			low, high := s.heightAt(x)
			if low > high {
				continue
			}
			s.Stitches = append(s.Stitches, SectionStitch{From: Pt{x, high + 0.7*s.Ply}, To: Pt{x, low - 0.7*s.Ply}, Row: first + i + 1})
			if k == 0 {
				y := low - (1.6+1.1*float64(i))*s.Ply
				from, to := Pt{min(x, 0), y}, Pt{max(x, 0), y}
				s.Dims = append(s.Dims, Dim{From: from, To: to, Name: dimOf(r.Do), Value: r.At, Text: dimOf(r.Do) + " " + millimetres(r.At)})
			}
		}
	}
}

// dimOf names the measure of a row.
func dimOf(do string) string {
	if do == EdgeStitch {
		return say.Of("trade.edge-stitching")
	}
	return "topstitching"
}

// What is done in rows beside a seam.
const (
	Topstitch  = "topstitch"
	EdgeStitch = "edge-stitch"
)

// heightAt is from where to where plies lie at a place across the section.
func (s *Section) heightAt(x float64) (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for i := range s.Layers {
		path := s.Layers[i].Path
		for k := 1; k < len(path); k++ {
			a, b := path[k-1], path[k]
			if (a.X < x) != (b.X < x) {
				y := a.Y + (b.Y-a.Y)*(x-a.X)/(b.X-a.X)
				low, high = min(low, y), max(high, y)
			}
		}
	}
	return low, high
}

// Plies is how many plies a stack has.
func (s Stack) Plies() (n int) {
	for _, k := range s {
		n += k
	}
	return n
}
