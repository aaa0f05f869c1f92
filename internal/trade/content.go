package trade

import (
	"math"
	"slices"
)

// OtherFibres is what stands on a label for fibres too small, or too hard to
// tell, to be named.
const OtherFibres = "other fibres"

// The limits of the laws on fibre content, in per cent.
const (
	mustLabelShare = 30.0 // Regulation (EU) No 1007/2011, art. 11(2): a component under this need not be labelled, main linings apart
	OtherFibresSum = 15.0 // the same: several together up to this
	smallFibreUS   = 5.0  // 15 U.S.C. 70b(b)(1) and 16 CFR 303.6: below this a fibre is "other fiber"
)

// A DryShare is a fibre's part of the clean dry mass, with what is added to it.
type DryShare struct {
	Percent   float64 // of the clean dry mass
	Allowance float64 // agreed allowance, %
	Lost      float64 // lost in preparing the specimen, %
}

// RoundTo100 rounds shares that add up to 100 to so many decimals (0 to 3) so
// that they still do: each is cut off, and what is missing goes to those that
// lost most (the largest remainder; of equals the earlier). Both worked labels
// of Regulation (EU) No 1007/2011, Annex VIII, chapter 3, IV come out so. It
// does nothing to shares whose sum is further from 100 than rounding explains.
func RoundTo100(shares []float64, decimals int) []float64 {
	unit := math.Pow(10, float64(decimals))
	whole := make([]float64, len(shares))
	rest := make([]float64, len(shares))
	sum, total := 0.0, 0.0
	for i, s := range shares {
		scaled := math.Round(s*unit*1e6) / 1e6 // 48.4 × 10 is 484, not a hair less
		whole[i] = math.Floor(scaled)
		rest[i] = scaled - whole[i]
		sum += whole[i]
		total += s
	}
	missing := int(math.Round(100*unit - sum))
	if math.Abs(total-100) > 0.1 || missing < 0 || missing > len(shares) {
		return slices.Clone(shares)
	}
	order := make([]int, len(shares))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case rest[a] > rest[b]:
			return -1
		case rest[a] < rest[b]:
			return 1
		}
		return 0
	})
	for _, i := range order[:missing] {
		whole[i]++
	}
	for i := range whole {
		whole[i] /= unit
	}
	return whole
}

// MustLabel reports whether a component with this share of the garment's
// textile mass, in per cent, must be labelled by itself under art. 11(2). A
// share that is not known (negative) must, to be on the safe side.
func MustLabel(share float64, mainLining bool) bool {
	return mainLining || share < 0 || share >= mustLabelShare
}

// NamedInUS reports whether a fibre of this share must be named on a label in
// the United States, or is named all the same: those that stretch because they
// have a definite function (16 CFR 303.3), wool because it is named whatever its
// share (15 U.S.C. 68b(a)(2)(A)); hair of rabbits and others is no wool there.
func NamedInUS(f Fibre, share float64) bool {
	return share >= smallFibreUS || stretches(f.Name) || f.USWool
}

func stretches(name string) bool {
	return slices.Contains([]string{"elastane", "elastodiene", "elastomultiester", "elastolefin"}, name)
}

// LabelName is what a fibre is called where the rules are those of the market,
// "us" or any other.
func (f Fibre) LabelName(market string) string {
	if market == "us" && f.US != "" {
		return f.US
	}
	return f.Name
}
