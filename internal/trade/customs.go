package trade

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"hembook/internal/meant"
)

// A CustomsGarment is a kind of garment with its headings in chapters 61
// (knitted or crocheted) and 62 (not knitted or crocheted) of the Harmonized
// System.
type CustomsGarment struct {
	Name    string        `yaml:"name"`
	Also    []Also        `yaml:"also,omitempty"`
	Knitted CustomsChoice `yaml:"knitted"`
	Woven   CustomsChoice `yaml:"woven"`
	Source  Source        `yaml:"source"`
}

// A CustomsChoice is a four-digit heading with its six-digit lines by fibre
// group, as far as they are known.
type CustomsChoice struct {
	Heading string            `yaml:"heading"`
	Lines   map[string]string `yaml:"lines,omitempty"` // group → six digits: 6204.42
}

type customsTable struct {
	Garments []CustomsGarment `yaml:"garments"`
}

var customsData = onceTable[customsTable]("customs")

// An HS is a customs heading with how it was found.
type HS struct {
	Code    string // 6204.49, or the bare heading 6202 when Whole is false
	Whole   bool   // all six digits are known
	Working string
	Source  Source
}

// HSHeading finds the customs heading of women's garments (and of men's where
// the name says so) by whether the cloth is knitted or crocheted, and by the
// fibre group that predominates by weight: wool, cotton, silk, synthetic,
// artificial or other (Fibre.Customs, PredominantGroup). Countries add digits
// of their own.
func HSHeading(garment string, knitted bool, group string) (HS, error) {
	g, err := customsGarment(garment)
	if err != nil {
		return HS{}, err
	}
	choice, made := g.Woven, "woven"
	if knitted {
		choice, made = g.Knitted, "knitted"
	}
	if len(choice.Lines) == 0 {
		return HS{choice.Heading, false, fmt.Sprintf("%s, %s: heading %s; its last two digits are not in the table", g.Name, made, choice.Heading), g.Source}, nil
	}
	line, asked := customsLine(choice.Lines, group)
	if line == "" {
		return HS{}, fmt.Errorf("no fibre group %q in customs; there are wool, cotton, silk, synthetic, artificial and other", group)
	}
	return HS{line, true, fmt.Sprintf("%s, %s, mostly %s: the line for %s is %s", g.Name, made, group, asked, line), g.Source}, nil
}

// customsLine picks the line of a group: its own, that of man-made fibres
// together, or the one for other textiles.
func customsLine(lines map[string]string, group string) (line, asked string) {
	ways := map[string][]string{
		"wool": {"wool", "other"}, "cotton": {"cotton", "other"}, "silk": {"silk", "other"}, "other": {"other"},
		"synthetic": {"synthetic", "man-made", "other"}, "artificial": {"artificial", "man-made", "other"},
	}
	for _, way := range ways[group] {
		if lines[way] != "" {
			return lines[way], way
		}
	}
	return "", ""
}

func customsGarment(word string) (CustomsGarment, error) {
	var names []string
	for _, g := range customsData().Garments {
		names = append(names, g.Name)
		if root(g.Name) == root(word) || slices.ContainsFunc(g.Also, func(a Also) bool { return root(a.Term) == root(word) }) {
			return g, nil
		}
	}
	if h := meant.Hint(word, names); h != "" {
		return CustomsGarment{}, fmt.Errorf("no customs heading is known for %q; %s", word, h)
	}
	return CustomsGarment{}, fmt.Errorf("no customs heading is known for %q; there are %s", word, strings.Join(names, ", "))
}

// A FibreShare is a fibre and its part of the mass, in per cent or any unit.
type FibreShare struct {
	Fibre string
	Share float64
}

// PredominantGroup is the customs group with the greatest mass, fibres of one
// group taken together; of equals the one that comes last in the chapters
// counts. Source: from memory (HS Section XI note 2).
func PredominantGroup(shares []FibreShare) (string, error) {
	order := []string{"silk", "wool", "cotton", "other", "synthetic", "artificial"} // as chapters 50 to 55
	sums := map[string]float64{}
	for _, s := range shares {
		f, ok := FibreNamed(s.Fibre)
		if !ok {
			return "", fmt.Errorf("no fibre %q is known%s", s.Fibre, orNothing(meant.Ask(NearestFibre(s.Fibre))))
		}
		if !(s.Share >= 0) {
			return "", fmt.Errorf("%s has no share", s.Fibre)
		}
		sums[f.Customs] += s.Share
	}
	if len(sums) == 0 {
		return "", fmt.Errorf("no fibres are given")
	}
	sort.SliceStable(order, func(i, j int) bool { return sums[order[i]] < sums[order[j]] })
	return order[len(order)-1], nil
}

func orNothing(hint string) string {
	if hint == "" {
		return ""
	}
	return "; " + hint
}
