package trade

import (
	"fmt"
	"math"
	"slices"
)

// A Stitch is a stitch type of ISO 4915 with the thread it takes.
type Stitch struct {
	Type    string       `yaml:"type"` // three digits: 301
	Name    string       `yaml:"name"`
	Also    []Also       `yaml:"also,omitempty"`
	Needles int          `yaml:"needles"` // needle threads
	Unders  int          `yaml:"unders"`  // bobbin, looper and cover threads
	Use     string       `yaml:"use"`
	Hand    bool         `yaml:"hand,omitempty"`
	Ratio   *ThreadRatio `yaml:"ratio,omitempty"`
	Others  []Sourced    `yaml:"others,omitempty"` // other published totals
	Formula *ThreadRule  `yaml:"formula,omitempty"`
	Source  Source       `yaml:"source"`
}

// Class is the ISO 4915 class: 100, 200, … 600.
func (s Stitch) Class() int { return int(s.Type[0]-'0') * 100 }

// A ThreadRatio is thread length per length of seam, all threads together,
// and its shares in per cent.
type ThreadRatio struct {
	Total  float64 `yaml:"total"`
	Needle float64 `yaml:"needle"` // %
	Under  float64 `yaml:"under"`  // %
	Source Source  `yaml:"source"`
}

// A ThreadRule holds the constants of a published thread formula
//
//	C = base + (thickness × T + width × W) ÷ stitch length
//
// with T the thickness of the seam under the needle and W the width of the
// stitch. The publications write S, stitches per inch, for 1 ÷ stitch length.
type ThreadRule struct {
	Base      float64 `yaml:"base"`
	Thickness float64 `yaml:"thickness"`
	Width     float64 `yaml:"width,omitempty"`
	Source    Source  `yaml:"source"`
}

type stitchTable struct {
	Stitches []Stitch `yaml:"stitches"`
}

var stitchData = onceTable[stitchTable]("stitches")

// Stitches are the stitch types known here, by number.
func Stitches() []Stitch { return slices.Clone(stitchData().Stitches) }

// Consumption is the thread per length of seam, all threads together, from
// the published geometric formula. Thickness of the seam, stitch length and
// stitch width are in millimetres (any one unit would do).
func (s Stitch) Consumption(thickness, length, width float64) (Worked, error) {
	f := s.Formula
	switch {
	case f == nil:
		return Worked{}, fmt.Errorf("no thread formula is published for stitch %s", s.Type)
	case !(length > 0) || math.IsInf(length, 0):
		return Worked{}, fmt.Errorf("stitch %s: the stitch length must be more than 0 mm", s.Type)
	case !(thickness >= 0) || !(width >= 0):
		return Worked{}, fmt.Errorf("stitch %s: thickness and width cannot be negative", s.Type)
	case f.Width > 0 && width == 0:
		return Worked{}, fmt.Errorf("stitch %s: its formula needs the stitch width", s.Type)
	}
	p := Params{"thickness": thickness, "length": length, "width": width}
	text := fmt.Sprintf("%v + %v * thickness / length", f.Base, f.Thickness)
	if f.Width > 0 {
		text = fmt.Sprintf("%v + (%v * thickness + %v * width) / length", f.Base, f.Thickness, f.Width)
	}
	return mustExpr(text).Eval(p)
}

// Thread is a length of thread split between needles and under threads, in
// the unit of the seam length given.
type Thread struct {
	Total, Needle, Under Worked
}

// Thread is what a seam of the given length takes by the ratio table, without
// waste: seam × rows × ratio.
func (s Stitch) Thread(seam float64, rows int) (Thread, error) {
	if s.Ratio == nil {
		return Thread{}, fmt.Errorf("no thread ratio is known for stitch %s", s.Type)
	}
	p := Params{"seam": seam, "rows": float64(rows), "ratio": s.Ratio.Total, "needle": s.Ratio.Needle, "under": s.Ratio.Under}
	var t Thread
	var err error
	if t.Total, err = mustExpr("seam * rows * ratio").Eval(p); err != nil {
		return t, err
	}
	if t.Needle, err = mustExpr("seam * rows * ratio * needle / 100").Eval(p); err != nil {
		return t, err
	}
	t.Under, err = mustExpr("seam * rows * ratio * under / 100").Eval(p)
	return t, err
}
