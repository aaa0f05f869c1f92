package trade

import "slices"

// A Stitch is a stitch type of ISO 4915 with the thread it takes.
type Stitch struct {
	Type      string       `yaml:"type"` // three digits: 301
	Name      string       `yaml:"name"`
	Also      []Also       `yaml:"also,omitempty"`
	Needles   int          `yaml:"needles"` // needle threads
	Unders    int          `yaml:"unders"`  // bobbin, looper and cover threads
	Use       string       `yaml:"use"`
	Hand      bool         `yaml:"hand,omitempty"`
	Stretches bool         `yaml:"stretches,omitempty"` // a seam in it gives with its cloth
	Ratio     *ThreadRatio `yaml:"ratio,omitempty"`
	Others    []Sourced    `yaml:"others,omitempty"` // other published totals
	Source    Source       `yaml:"source"`
}

// A ThreadRatio is thread length per length of seam, all threads together,
// and its shares in per cent.
type ThreadRatio struct {
	Total  float64 `yaml:"total"`
	Needle float64 `yaml:"needle"` // %
	Under  float64 `yaml:"under"`  // %
	Source Source  `yaml:"source"`
}

type stitchTable struct {
	Stitches []Stitch `yaml:"stitches"`
}

var stitchData = onceTable[stitchTable]("stitches")

// StitchName is the name of a stitch type; "" where none has this number.
func StitchName(number string) string {
	list := stitchData().Stitches
	if i := slices.IndexFunc(list, func(s Stitch) bool { return s.Type == number }); i >= 0 {
		return list[i].Name
	}
	return ""
}

// Stitches are the stitch types known here, by number.
func Stitches() []Stitch { return slices.Clone(stitchData().Stitches) }
