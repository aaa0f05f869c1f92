package trade

import (
	"slices"

	"hembook/internal/meant"
	"hembook/internal/say"
)

// A BandRule says of a seam how a band is sewn on with it.
type BandRule struct {
	Side  string    `yaml:"side,omitempty"`  // a or b: the side that is the band; "" where either may be
	Width string    `yaml:"width,omitempty"` // the measure that is as wide as the band; "" where none is
	Inner InnerEdge `yaml:"inner,omitempty"` // what becomes of the inner edge of a folded band
}

// An InnerEdge is what becomes of the inner edge of a band that is folded over.
type InnerEdge string

// What a seam does with the inner edge of a folded band; "" where it leaves it alone.
const (
	InnerCaught InnerEdge = "caught" // it lies with the other edges under the same rows
	InnerTurned InnerEdge = "turned" // it is turned in and stitched down
)

var innerEdges = []InnerEdge{InnerCaught, InnerTurned}

// On is the number of the side that is the band; −1 where either may be.
func (r *BandRule) On() int {
	if r == nil {
		return -1
	}
	return slices.Index([]string{"a", "b"}, r.Side)
}

// Takes reports whether the inner edge of a folded band is sewn with the seam.
func (r *BandRule) Takes() bool { return r != nil && r.Inner != "" }

// band checks what is said of bands.
func (c *seamChecker) band() {
	r := c.t.Band
	if r == nil {
		return
	}
	if c.t.Kind == Finish {
		c.fault("", say.Of("trade.is-a-finish-and-band-belongs-to", c.who()))
	}
	if r.Side != "" && r.On() < 0 {
		c.fault("", say.Of("trade.the-band-on-side-there-are-a", c.who(), say.Quoted(r.Side)))
	}
	if r.Width != "" && !slices.ContainsFunc(c.t.Parameters, func(p Parameter) bool { return p.Name == r.Width }) {
		c.fault("", say.Of("trade.the-width-of-the-band-is-which", c.who(), say.Quoted(r.Width)))
	}
	if r.Inner != "" && !slices.Contains(innerEdges, r.Inner) {
		c.fault(meant.Hint(string(r.Inner), []string{string(InnerCaught), string(InnerTurned)}), say.Of("trade.the-inner-edge-of-a-band-there", c.who(), say.Quoted(r.Inner)))
	}
}
