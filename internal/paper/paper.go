// Package paper sets documents on paper: PDF pages of A4 or Letter, and
// drawings at full size over as many sheets as they need.
//
// It promises: every font embedded, text that can be selected in reading
// order, lengths of drawings exact, no blank page, no heading left behind at
// the foot of a page, table rows whole, and the same bytes on every run.
//
// What is set are the blocks of package document, with the words its HTML has,
// in the same order. It makes up no words but those it is given. The PDF is not
// tagged and does not kern, hyphenate or run from right to left; the HTML is
// the accessible original.
package paper

// smallestText is the smallest body text in points: Fit does not go below,
// for smaller is hard to read for many.
const smallestText = 8.5

const (
	mmPerInch  = 25.4
	pointsInch = 72.0
	mmPerPoint = mmPerInch / pointsInch
)
