// Package cutting joins the lay-plan engine to garments and cloths: it makes a
// problem of what is cut from one cloth of a garment, keeps the plans that
// solve it, and turns a plan into the figures a maker buys and chalks by.
//
// It promises that no plan leaves it unless the independent checker finds
// nothing wrong with it, whether it was made now or read back; that the same
// garment and the same amount of work give the same plan and the same figures
// on any machine; and that what cannot be told says why. Kept plans may be
// deleted at any time.
//
// On the cloth, x runs along it from its cut end and y across it from the
// inner edge of the left selvedge (from the fold where it is folded), the cloth
// lying right side up with its cut end towards you. Lengths are in
// millimetres. The package draws nothing and writes no HTML.
package cutting

import (
	"strings"

	"hembook/internal/derive"
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/fitting"
	"hembook/internal/garment"
	"hembook/internal/lay"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// A Cutting is a garment with the lays of its cloths.
type Cutting struct {
	Garment *derive.Garment
	Lays    []*Lay          // one for each cloth that anything is cut from, in the order of the record
	Rounds  *fitting.Rounds // what the rounds of fitting did; nil where none altered a line
}

// Figures returns every public figure of the garment, of its lays and of its
// rounds of fitting, each once.
func (c *Cutting) Figures() []figure.Figure {
	lists := [][]figure.Figure{c.Garment.Figures()}
	for _, l := range c.Lays {
		lists = append(lists, l.Figures())
	}
	if c.Rounds != nil {
		lists = append(lists, c.Rounds.Figures())
	}
	var out []figure.Figure
	met := map[string]bool{}
	for _, list := range lists {
		for i := range list {
			if id := list[i].ID; !met[id] {
				met[id] = true
				out = append(out, list[i])
			}
		}
	}
	return out
}

// A Lay is everything that is known of how one cloth of a garment is laid.
type Lay struct {
	Part    string
	Cloth   *garment.Cloth
	Problem *Problem  // nil where none could be made
	Plan    *lay.Plan // nil where there is none
	Why     string    // why there is no plan; empty where there is one
	Misfits []Misfit  // what would let the pieces fit that do not
	Stopped bool      // the plan is the best that was found before the work was broken off

	Width     figure.Figure   // usable width
	Length    figure.Figure   // of the lay, the shorter way
	Other     figure.Figure   // of the lay the other way, open or folded; not set where there is none
	Used      figure.Figure   // area of the pieces ÷ area of the cloth laid on, %
	Share     figure.Figure   // area of the allowances ÷ area of the cloth laid on, %
	Bound     figure.Figure   // no lay is shorter than this
	Gain      figure.Figure   // how much could still be won at most
	Needed    figure.Figure   // cloth to have, shrinkage and straightening included, in shop steps
	Mass      figure.Figure   // of the cloth needed
	Matches   []Matched       // what must meet in the pattern of the cloth, and how it does
	LeftOver  []figure.Figure // how far those are off
	MatchCost figure.Figure   // how much longer the lay is for it; not set where nothing is matched
	OnHand    figure.Figure   // what is over on the shelf, or what is missing
	Enough    bool            // the cloth on the shelf is enough, or was: it is cut; false also where it is not known
	Ways      []WayOut        // to get by where the shelf has too little
	Bought    figure.Private
	ToBuy     figure.Private
	Chalked   []Position // in the order of chalking
	Doing     []string   // how folded cloth is folded, chalked and cut, in order
	Left      []Remnant  // what is left within the length of the lay
	Shelf     []OnShelf  // remnants of the cloth that are there already, and whether they would do

	build *record.Build
	worn  *garment.Garment // whose cloth it is
	pad   *figure.Pad      // its figures are written on
}

// Figures returns the public figures of a lay that are set, in order.
func (l *Lay) Figures() []figure.Figure {
	var out []figure.Figure
	for _, f := range []*figure.Figure{&l.Width, &l.Length, &l.Other, &l.Used, &l.Share, &l.Bound, &l.Gain, &l.MatchCost, &l.Needed, &l.Mass, &l.OnHand} {
		if f.ID != "" {
			out = append(out, *f)
		}
	}
	out = append(out, l.LeftOver...)
	for i := range l.Left {
		out = append(out, l.Left[i].Area)
	}
	return out
}

// Use is the name of the lay's cloth, as far as it is known.
func (l *Lay) Use() string {
	switch {
	case l.Cloth.Cloth != nil && l.Cloth.Cloth.Name.Given():
		return l.Cloth.Cloth.Name.V
	case l.Cloth.Use != nil && l.Cloth.Use.Use.Given():
		return l.Cloth.Use.Use.V
	}
	return say.Of("cutting.a-cloth-that-is-not-known")
}

// A Position is one cut piece on the cloth: what one chalks from.
type Position struct {
	Number   int // from 1, in the order of chalking
	Piece    string
	Copy     int     // from 1
	Pair     bool    // folded cloth: the lower layer gives copy Copy+1, mirrored
	OnFold   bool    // lies on the fold of folded cloth
	Opened   bool    // drawn as half, and laid whole where there is no fold
	Alone    bool    // folded cloth: it is cut from the upper layer alone
	Turn     float64 // degrees clockwise, cut end towards you; 0: as drawn, its top away from you
	Mirrored bool
	Stage    int // from 1
	Grain    string
	Strip    float64 // of cloth that strip is cut from, how wide that is, mm; else 0

	Side, SideTo float64       // from the left selvedge (from the fold) to where the piece begins and ends
	End, EndTo   float64       // from the cut end likewise
	Outline      []shape.Point // x along the cloth, y across
}

// A Remnant is cloth left over that is worth keeping.
type Remnant struct {
	Name    string
	Outline []shape.Point // as a record has it: x across, y along the selvedge, from its own corner
	On      []shape.Point // where it lies in the lay: x along, y across
	Largest shape.Oblong  // the largest rectangle that can be had from it, where it lies; of what lies on the fold, opened out
	Folded  bool          // one of two alike, one from each layer
	Area    figure.Figure // in cm²
}

// An OnShelf says whether a remnant from an earlier build would hold the lay.
type OnShelf struct {
	Remnant *record.Remnant
	Name    string
	Plan    *lay.Plan // set where all pieces fit
	Problem *lay.Problem
	Why     string // why they do not fit, or are not known to
}

// A Misfit is a piece that does not fit its cloth: Of names it. Or holds what
// would help besides the hint.
type Misfit struct {
	fault.Fault
	Or []string
}

// Hints are all that would help, the nearest first.
func (m Misfit) Hints() []string {
	if m.Hint == "" {
		return m.Or
	}
	return append([]string{m.Hint}, m.Or...)
}

// String prints the misfit on one line.
func (m Misfit) String() string {
	s := m.Placed()
	if hints := m.Hints(); len(hints) > 0 {
		s += " (" + strings.Join(hints, "; ") + ")"
	}
	return s
}
