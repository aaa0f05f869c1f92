package notebook

import (
	"slices"

	"hembook/internal/figure"
	"hembook/internal/say"
)

// A RatesPage is what the maker's own records say across builds: about
// time, and about cloth.
type RatesPage struct {
	Head
	PerMetre []Spread
	PerPiece []Spread
	Builds   []BuildCut // the latest, those whose area is known
	More     int        // earlier ones that are not listed
}

// A BuildCut is how much was cut for a build.
type BuildCut struct {
	Link
	Garment string
	Cut     figure.Figure // area of all that is cut
	Share   figure.Figure // of it that is allowance
}

// mostCut is how many builds the page of rates compares.
const mostCut = 24

// Rates lays out the page of rates from the techniques' own pages and
// the latest builds.
func (s *Gathered) Rates(all []*TechniquePage) *RatesPage {
	p := &RatesPage{Head: Head{RatesAddress, "rates", ratesName, say.Of("notebook.minutes-for-a-metre-and-for-a"), []Link{{TechniquesAddress, techniquesName}}}}
	for _, t := range all {
		for _, r := range t.Rates {
			if r.Unit.String() == "min/m" {
				p.PerMetre = append(p.PerMetre, r)
			} else {
				p.PerPiece = append(p.PerPiece, r)
			}
		}
	}
	order := func(x, y Spread) int {
		if x.Known != y.Known {
			if x.Known {
				return -1
			}
			return 1
		}
		return byName(x.Technique, y.Technique)
	}
	slices.SortFunc(p.PerMetre, order)
	slices.SortFunc(p.PerPiece, order)
	for _, sum := range s.builds {
		switch {
		case !sum.Cut.Value.Known() || sum.Cut.ID == "":
		case len(p.Builds) == mostCut:
			p.More++
		default:
			p.Builds = append(p.Builds, BuildCut{sum.Link, sum.Garment, sum.Cut, sum.Share})
		}
	}
	return p
}
