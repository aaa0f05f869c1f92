package trade

import (
	"errors"
	"slices"
	"strings"

	"hembook/internal/meant"
	"hembook/internal/say"
	"hembook/internal/words"
)

// A customsKind is a kind of garment with its headings in chapters 61
// (knitted or crocheted) and 62 (not knitted or crocheted) of the Harmonized
// System.
type customsKind struct {
	Name    string        `yaml:"name"`
	Also    []Also        `yaml:"also,omitempty"`
	Knitted customsChoice `yaml:"knitted"`
	Woven   customsChoice `yaml:"woven"`
	Source  Source        `yaml:"source"`
}

// A customsChoice is a four-digit heading with its six-digit lines by fibre
// group, as far as they are known.
type customsChoice struct {
	Heading string            `yaml:"heading"`
	Lines   map[string]string `yaml:"lines,omitempty"` // group → six digits: 6204.42
}

type customsTable struct {
	Garments []customsKind `yaml:"garments"`
}

var customsData = onceTable[customsTable]("customs")

// An HS is a customs heading with how it was found.
type HS struct {
	Code    string // 6204.49, or the bare heading 6202 when Whole is false
	Whole   bool   // all six digits are known
	Garment string // as the table names it: dress
	Line    string // the line taken: cotton, man-made, other; empty where Whole is false
	Source  Source
}

// HSHeading finds the customs heading of women's garments (and of men's where
// the name says so) by whether the cloth is knitted or crocheted, and by the
// fibre group that predominates by weight (Fibre.Customs, Predominant).
// Countries add digits of their own.
func HSHeading(garment string, knitted bool, group string) (HS, error) {
	g, err := customsGarment(garment)
	if err != nil {
		return HS{}, err
	}
	choice := g.Woven
	if knitted {
		choice = g.Knitted
	}
	if len(choice.Lines) == 0 {
		return HS{Code: choice.Heading, Garment: g.Name, Source: g.Source}, nil
	}
	line, asked := customsLine(choice.Lines, group)
	if line == "" {
		return HS{}, errors.New(say.Of("trade.no-fibre-group-in-customs-there-are", say.Quoted(group), strings.Join(customsGroups(), ", ")))
	}
	return HS{Code: line, Whole: true, Garment: g.Name, Line: asked, Source: g.Source}, nil
}

// customsLine picks the line of a group: its own, that of man-made fibres
// together, or the one for other textiles.
func customsLine(lines map[string]string, group string) (line, asked string) {
	ways := map[string][]string{
		"wool": {"wool", "other"}, "cotton": {"cotton", "other"}, "silk": {"silk", "other"},
		"hair": {"other"}, "plant": {"other"}, "other": {"other"},
		"synthetic": {"synthetic", "man-made", "other"}, "artificial": {"artificial", "man-made", "other"},
	}
	for _, way := range ways[group] {
		if lines[way] != "" {
			return lines[way], way
		}
	}
	return "", ""
}

func customsGroups() []string {
	var out []string
	for _, c := range customsChapters {
		out = append(out, c.groups...)
	}
	return out
}

func customsGarment(word string) (customsKind, error) {
	var names []string
	for _, g := range customsData().Garments {
		names = append(names, g.Name)
		if words.Stem(g.Name) == words.Stem(word) || slices.ContainsFunc(g.Also, func(a Also) bool { return words.Stem(a.Term) == words.Stem(word) }) {
			return g, nil
		}
	}
	if h := meant.Hint(word, names); h != "" {
		return customsKind{}, errors.New(say.Of("trade.no-customs-heading-is-known-for", say.Quoted(word), h))
	}
	return customsKind{}, errors.New(say.Of("trade.no-customs-heading-is-known-for-there", say.Quoted(word), strings.Join(names, ", ")))
}

// A FibreShare is a fibre and its part of the mass, in per cent or any unit.
type FibreShare struct {
	Fibre string
	Share float64
}

// A customs chapter with the groups of fibres in it: chapters 50 to 53, then 54
// and 55, which count as one. Source: HTSUS, Section XI, notes 2(A), 2(B)(c);
// chapter 51, note 1 (its text as in the HS); fibres of none of them last.
var customsChapters = []struct {
	chapter string
	groups  []string // in the order of their headings
}{
	{"50", []string{"silk"}},
	{"51", []string{"wool", "hair"}},
	{"52", []string{"cotton"}},
	{"53", []string{"plant"}},
	{"54, 55", []string{"synthetic", "artificial"}},
	{"", []string{"other"}},
}

// A CustomsPart is what a chapter or a group of fibres has of the mass.
type CustomsPart struct {
	Chapter string // 51; 54, 55; empty for fibres of no chapter
	Group   string // empty where the part is a whole chapter
	Share   float64
}

// A Predominance is how the textile is found that a garment counts as made of:
// the chapter first, then the group within it.
type Predominance struct {
	Chapters []CustomsPart // those that hold something, in their order
	Chapter  CustomsPart   // the one chosen
	Groups   []CustomsPart // those of the chosen chapter that hold something
	Group    string        // the one chosen
	Equal    bool          // another chapter, or group of the chosen one, has as much: the last in order counts
}

// Predominant finds the customs group that counts: of the chapter with the
// greatest mass the group with the greatest mass; of equals the last in order.
// Source: HTSUS, Section XI, notes 2(A) and 2(B)(b) and (c) (their text as in the HS).
func Predominant(shares []FibreShare) (*Predominance, error) {
	sums := map[string]float64{}
	for _, s := range shares {
		f, ok := FibreNamed(s.Fibre)
		if !ok {
			return nil, errors.New(say.Of("trade.no-fibre-is-known", say.Quoted(s.Fibre), orNothing(meant.Ask(NearestFibre(s.Fibre)))))
		}
		if !(s.Share >= 0) {
			return nil, errors.New(say.Of("trade.has-no-share", s.Fibre))
		}
		sums[f.Customs] += s.Share
	}
	if len(sums) == 0 {
		return nil, errors.New(say.Of("trade.no-fibres-are-given"))
	}
	out, groups := &Predominance{}, map[string][]CustomsPart{}
	for _, c := range customsChapters {
		chapter := CustomsPart{Chapter: c.chapter}
		for _, g := range c.groups {
			if share, held := sums[g]; held {
				chapter.Share += share
				groups[c.chapter] = append(groups[c.chapter], CustomsPart{c.chapter, g, share})
			}
		}
		if len(groups[c.chapter]) > 0 {
			out.Chapters = append(out.Chapters, chapter)
		}
	}
	out.Chapter = heaviest(out.Chapters)
	out.Groups = groups[out.Chapter.Chapter]
	group := heaviest(out.Groups)
	out.Group = group.Group
	out.Equal = equals(out.Chapters, out.Chapter) > 1 || equals(out.Groups, group) > 1
	return out, nil
}

// lighter reports whether a part has less than another, by more than the last
// digit of a sum.
func lighter(a, b CustomsPart) bool { return a.Share < b.Share-1e-9 }

// heaviest is the part with the greatest mass, of equals the last.
func heaviest(parts []CustomsPart) CustomsPart {
	out := parts[0]
	for _, p := range parts[1:] {
		if !lighter(p, out) {
			out = p
		}
	}
	return out
}

// equals counts the parts that have as much as one of them.
func equals(parts []CustomsPart, one CustomsPart) int {
	n := 0
	for _, p := range parts {
		if !lighter(p, one) && !lighter(one, p) {
			n++
		}
	}
	return n
}

func orNothing(hint string) string {
	if hint == "" {
		return ""
	}
	return "; " + hint
}
