package trade

import (
	"fmt"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/meant"
	"hembook/internal/say"
)

// What becomes of the sides of a seam: from the cut edge, pass by pass, to what
// is left when it is sewn, and how much of that the seam needs to be sewn again.

// Names that formulas of what a side keeps and holds may use beside the
// measures of the type.
const (
	// CutName is how wide the side's allowance was cut, in millimetres: more
	// than the type gives up where the maker left more.
	CutName = "as_cut"
	// MarginName is the least that must stay beyond a row, as the workroom has
	// it.
	MarginName = "margin"
	// AllName is all that the side keeps: the seam cannot be sewn again in its
	// own way with less.
	AllName = "all"
)

// Pressed says where allowances lie.
type Pressed string

// Where allowances may lie.
const (
	pressedUntold  Pressed = ""
	pressedOpen    Pressed = "open"     // each on its own side
	pressedOneSide Pressed = "one side" // both the same way, to either side
	pressedOverA   Pressed = "over a"
	pressedOverB   Pressed = "over b"
	pressedFlat    Pressed = "flat"   // lapped or butted
	pressedTurned  Pressed = "turned" // between the plies, which are turned right side out
)

var pressings = []Pressed{pressedOpen, pressedOneSide, pressedOverA, pressedOverB, pressedFlat, pressedTurned}

// Corner says how the allowance of a finish ends where the edge beside it runs
// on a slant.
type Corner string

// How an allowance may end.
const (
	CornerMitre  Corner = "mitre"  // the two cut lines are carried on until they meet
	CornerSquare Corner = "square" // at a right angle to the edge: nothing is turned onto the piece
	CornerMirror Corner = "mirror" // mirrored at each fold, so that it lies on what it is folded over
)

var corners = []Corner{CornerMitre, CornerSquare, CornerMirror}

// leastMirrored is the allowance below which a hem is too small to be mirrored,
// in millimetres (common practice, no source).
const leastMirrored = 8

// Shape is how the allowance of a finish with these measures ends at its
// corners, and, where it is mirrored, how deep each fold is.
func (t SeamType) Shape(p Params) (Corner, []float64, error) {
	if t.Corner != CornerMirror {
		return t.Corner, nil, nil
	}
	var folds []float64
	sum := 0.0
	for _, e := range t.Folds {
		v, err := e.Value(p)
		if err != nil {
			return t.Corner, nil, err
		}
		folds, sum = append(folds, v), sum+v
	}
	if sum < leastMirrored {
		return CornerSquare, nil, nil
	}
	return CornerMirror, folds, nil
}

// Least are the least widths that must stay of each side.
type Least struct {
	A Most `yaml:"a"`
	B Most `yaml:"b,omitempty"`
	C Most `yaml:"c,omitempty"`
}

// Most is one formula or several, of which the largest counts.
type Most []Expr

// oneOrMore are the values of a list, or the one value that stands in its place.
func oneOrMore(n *yaml.Node) []*yaml.Node {
	if n.Kind == yaml.SequenceNode {
		return n.Content
	}
	return []*yaml.Node{n}
}

// UnmarshalYAML reads a formula or a list of them.
func (m *Most) UnmarshalYAML(n *yaml.Node) error {
	for _, c := range oneOrMore(n) {
		var e Expr
		if err := e.UnmarshalYAML(c); err != nil {
			return err
		}
		*m = append(*m, e)
	}
	return nil
}

// Largest is the formula that comes to most with these measures, and what it
// comes to; the zero Expr where there is none.
func (m Most) Largest(p Params) (most Expr, mm float64, err error) {
	for _, e := range m {
		v, err := e.Value(p)
		if err != nil {
			return Expr{}, 0, err
		}
		if !most.Given() || v > mm {
			most, mm = e, v
		}
	}
	return most, mm, nil
}

// Through names the plies that the needle passes, row by row as drawn; a
// single list is that of every row.
type Through [][]Role

// plyWords are the words for plies in through.
var plyWords = func() []string {
	out := make([]string, len(roles))
	for i, r := range roles {
		out[i] = r.word
	}
	return out
}()

// UnmarshalYAML reads "a a b", or a list of such.
func (t *Through) UnmarshalYAML(n *yaml.Node) error {
	list := []*yaml.Node{n}
	if n.Kind == yaml.SequenceNode {
		list = n.Content
	}
	for _, c := range list {
		if c.Kind != yaml.ScalarNode {
			return valueFault(c, say.Of("trade.plies-please-such-as-a-a-b"))
		}
		var row []Role
		for _, word := range strings.Fields(c.Value) {
			i := slices.Index(plyWords, word)
			if i < 0 {
				return valueFault(c, say.Of("trade.a-row-passes-plies-called-not", meant.List(plyWords, "and"), say.Quoted(word)))
			}
			row = append(row, roles[i].role)
		}
		*t = append(*t, row)
	}
	return nil
}

// Of is the formula of side a (0), b (1) or c (2).
func (s Sides) Of(side int) Expr { return [...]Expr{s.A, s.B, s.C}[side] }

// Of are the formulas of side a (0), b (1) or c (2).
func (l Least) Of(side int) Most { return [...]Most{l.A, l.B, l.C}[side] }

// Sides is how many edges the type takes: one of a finish, two of a seam, three of a
// seam that has a side c.
func (t *SeamType) Sides() int {
	switch {
	case t.Kind == Finish:
		return 1
	case t.Gives.C.Given():
		return 3
	}
	return 2
}

// Told reports whether the type says what becomes of its sides, so that it can
// be said how far it can be let out.
func (t SeamType) Told() bool {
	for side := range t.Sides() {
		if !t.Keeps.Of(side).Given() || len(t.Holds.Of(side)) == 0 {
			return false
		}
	}
	return true
}

// left checks what the type says of what becomes of its sides.
func (c *seamChecker) left(known []string) {
	t := c.t
	for side := t.Sides(); side < len(sideRoles); side++ {
		if !t.Keeps.Of(side).Given() && len(t.Holds.Of(side)) == 0 {
			continue
		}
		if t.Kind == Finish {
			c.fault("", say.Of("trade.is-a-finish-and-has-only-side", c.who()))
		} else {
			c.fault(say.Of("trade.write-what-it-gives-too-or-leave"), say.Of("trade.keeps-or-holds-something-of-a-side", c.who(), fmt.Sprintf("%c", "abc"[side])))
		}
	}
	cut, held := append(slices.Clone(known), CutName), append(slices.Clone(known), CutName, MarginName, AllName)
	for side := range t.Sides() {
		name := string("abc"[side])
		keeps, holds := t.Keeps.Of(side), t.Holds.Of(side)
		if keeps.Given() != (len(holds) > 0) {
			c.fault(say.Of("trade.write-keeps-what-is-left-when-it", name),
				say.Of("trade.keeps-and-holds-go-together-and-side", c.who(), name))
		}
		if keeps.Given() {
			c.wants("keeps, "+name, keeps, cut)
		}
		for _, e := range holds {
			c.wants("holds, "+name, e, held)
		}
	}
	for _, e := range t.Folds {
		c.wants("folds", e, known)
	}
	if t.Corner != "" && !slices.Contains(corners, t.Corner) {
		c.fault(meant.Hint(string(t.Corner), []string{"mitre", "square", "mirror"}), say.Of("trade.a-corner-is-mitre-square-or-mirror", c.who(), say.Quoted(t.Corner)))
	}
	if t.Kind == Seam && (t.Corner != "" || len(t.Folds) > 0) {
		c.fault("", say.Of("trade.is-a-seam-corner-and-folds-are", c.who()))
	}
	if (t.Corner == CornerMirror) != (len(t.Folds) > 0) {
		c.fault(say.Of("trade.write-both-corner-mirror-and-folds-depth"), say.Of("trade.a-mirrored-corner-and-its-folds-go", c.who()))
	}
	if t.RowsOnly && t.Kind == Seam {
		c.fault(say.Of("trade.leave-rows-only-out"), say.Of("trade.is-a-seam-rows-only-is-for", c.who()))
	}
	if t.Plies < 0 {
		c.fault("", say.Of("trade.has-plies", c.who(), t.Plies))
	}
	for i := range t.Passes {
		p := &t.Passes[i]
		if p.Pressed != pressedUntold && !slices.Contains(pressings, p.Pressed) {
			c.fault(say.Of("trade.write-open-one-side-over-a-over"), say.Of("trade.pass-is-pressed", c.who(), i+1, say.Quoted(p.Pressed)))
		}
		for side := range sideRoles {
			for _, e := range []Expr{p.Leaves.Of(side), p.Under.Of(side)} {
				if e.Given() {
					c.wants(say.Of("trade.what-a-pass-leaves"), e, cut)
				}
			}
		}
	}
}

// drawn checks that the section shows as much cloth of each side as is left:
// the path of a side, with no thickness, is as long as what is left beyond the
// finished line.
func (c *seamChecker) drawn() {
	t := c.t
	if !t.Told() {
		return
	}
	for side, role := range sideRoles[:t.Sides()] {
		p, err := t.Values(nil)
		if err != nil {
			return
		}
		if p[CutName], err = t.Gives.Of(side).Value(p); err != nil {
			return
		}
		left, err := t.Keeps.Of(side).Value(p)
		if err != nil {
			return
		}
		for _, l := range t.Drawing.Layers {
			if l.Of != role || l.Start != "" && l.Start != GoesOn {
				continue
			}
			shown, err := t.beyond(l, p)
			if off := shown - left; err == nil && (off > drawnWithin*(1+left) || -off > drawnWithin*(1+left)) {
				c.fault(say.Of("trade.without-ply-the-path-of-must-come", string(role), number(left)), say.Of("trade.the-section-shows-mm-of-beyond-the", c.who(), number(shown), role, number(left)))
			}
		}
	}
}

// drawnWithin is the share by which a section may show more or less cloth than
// is left: a coil is drawn as half circles.
const drawnWithin = 0.07

// beyond is how much of a layer lies beyond the finished line, with no
// thickness.
func (t SeamType) beyond(l LayerRule, p Params) (float64, error) {
	const run = 1000
	d := drawer{p: p.and(0, run)}
	d.aside = d.p
	sum, n := 0.0, 0
	var last Pt
	for _, r := range l.Path {
		pts := []Pt{}
		if r.Arc != nil {
			pts = d.arc(r)
		} else {
			pts = append(pts, d.point(r))
		}
		for _, q := range pts {
			if n++; n > 1 {
				sum += distance(last, q)
			}
			last = q
		}
	}
	if l.End == GoesOn { // beyond the line too
		sum -= run
	}
	return sum - run, d.err
}
