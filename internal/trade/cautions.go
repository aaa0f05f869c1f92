package trade

import (
	"slices"
	"strings"
)

// A Caution is a warning shown where the work can hurt someone or break a
// rule. It states general facts and defers to local law.
type Caution struct {
	ID      string    `yaml:"id"`
	Title   string    `yaml:"title"`
	Applies string    `yaml:"applies"` // when, in plain words
	When    Condition `yaml:"when"`
	Text    string    `yaml:"text"`
	Defer   string    `yaml:"defer,omitempty"`
	Source  Source    `yaml:"source"`
}

// A Condition says when a caution applies. Every field given must hold; of a
// list one entry is enough. Condition{} never applies.
type Condition struct {
	Always     bool     `yaml:"always,omitempty"`
	ChildUnder float64  `yaml:"child-under,omitempty"` // wearer younger than, years
	ChildFrom  float64  `yaml:"child-from,omitempty"`  // and at least, years
	ChildBelow float64  `yaml:"child-below,omitempty"` // in place of the years where only the height is known, mm
	ChildAbove float64  `yaml:"child-above,omitempty"` // and taller than, mm
	Flag       []string `yaml:"flag,omitempty"`        // state of the flammability flag of any cloth
	Surfaces   []string `yaml:"surfaces,omitempty"`    // surface of any flagged cloth
	Cords      []string `yaml:"cords,omitempty"`       // cords or drawstrings at these places
	Garments   []string `yaml:"garments,omitempty"`
	Notions    []string `yaml:"notions,omitempty"`
	Materials  []string `yaml:"materials,omitempty"` // fibres and other materials
	Tools      []string `yaml:"tools,omitempty"`     // tools and kinds of work
	Markets    []string `yaml:"markets,omitempty"`   // eu, us
	Sold       bool     `yaml:"sold,omitempty"`
	Ships      bool     `yaml:"ships,omitempty"`
}

// Facts are what is known of a garment when cautions are chosen. Words are
// the maker's own; singular and plural are alike.
type Facts struct {
	ChildAge  *float64     // years; nil when the wearer is no child or the age is unknown
	ChildTall float64      // height in mm of a child whose age is not known, else 0
	Cloths    []ClothFacts // every cloth in the garment
	Cords     []string     // where there are cords, drawstrings or ties
	Garments  []string     // dress, nightwear, costume …
	Notions   []string     // zip, boning, hooks …
	Materials []string     // fibres, leather, feathers …
	Tools     []string     // iron, rotary cutter, laser … and what is done
	Markets   []string     // eu, us
	Sold      bool         // made for sale or for someone else
	Ships     bool         // sent by post or carrier
}

// ClothFacts are what the flammability question needs of one cloth.
type ClothFacts struct {
	Name    string
	Fibres  []string
	Mass    float64 // g/m², 0 when not known
	Surface Surface
}

// Flag is the flammability flag of the cloth.
func (c ClothFacts) Flag() Flag { return Flammability(c.Fibres, c.Mass, c.Surface) }

type cautionTable struct {
	Defer    string    `yaml:"defer"`
	Cautions []Caution `yaml:"cautions"`
}

var cautionData = once(func() ([]Caution, error) {
	t, err := table[cautionTable]("cautions")
	if err != nil {
		return nil, err
	}
	for i := range t.Cautions {
		if t.Cautions[i].Defer == "" {
			t.Cautions[i].Defer = t.Defer
		}
	}
	return t.Cautions, nil
})

// Cautions are all cautions known here.
func Cautions() []Caution { return slices.Clone(cautionData()) }

// CautionsFor are the cautions that apply to a garment, in table order.
func CautionsFor(f Facts) []Caution {
	var out []Caution
	for _, c := range cautionData() {
		if c.When.Holds(f) {
			out = append(out, c)
		}
	}
	return out
}

// Holds reports whether the condition applies to the facts.
func (c Condition) Holds(f Facts) bool {
	if c.Always {
		return true
	}
	given := false
	need := func(asked, holds bool) bool {
		given = given || asked
		return !asked || holds
	}
	return need(c.ChildUnder > 0, c.child(f)) &&
		need(len(c.Flag) > 0, c.anyCloth(f)) &&
		need(len(c.Cords) > 0, shares(c.Cords, f.Cords)) &&
		need(len(c.Garments) > 0, shares(c.Garments, f.Garments)) &&
		need(len(c.Notions) > 0, shares(c.Notions, f.Notions)) &&
		need(len(c.Materials) > 0, shares(c.Materials, f.Materials)) &&
		need(len(c.Tools) > 0, shares(c.Tools, f.Tools)) &&
		need(len(c.Markets) > 0, shares(c.Markets, f.Markets)) &&
		need(c.Sold, f.Sold) && need(c.Ships, f.Ships) && given
}

// child decides by age, and by height only where the age is not known.
func (c Condition) child(f Facts) bool {
	if f.ChildAge != nil {
		return *f.ChildAge >= c.ChildFrom && *f.ChildAge < c.ChildUnder
	}
	return f.ChildTall > 0 && c.ChildBelow > 0 && f.ChildTall <= c.ChildBelow && f.ChildTall > c.ChildAbove
}

func (c Condition) anyCloth(f Facts) bool {
	return slices.ContainsFunc(f.Cloths, func(cl ClothFacts) bool {
		if !slices.Contains(c.Flag, string(cl.Flag().State)) {
			return false
		}
		return len(c.Surfaces) == 0 || slices.Contains(c.Surfaces, string(cl.Surface))
	})
}

// shares reports whether the two lists have a word in common.
func shares(a, b []string) bool {
	return slices.ContainsFunc(a, func(x string) bool {
		return slices.ContainsFunc(b, func(y string) bool { return root(x) == root(y) })
	})
}

// root makes a word comparable: no case, no hyphens, no plural s.
func root(s string) string {
	s = strings.ReplaceAll(slug(s), "-", " ")
	for _, es := range []string{"sses", "xes", "ches", "shes"} {
		if strings.HasSuffix(s, es) {
			return strings.TrimSuffix(s, "es")
		}
	}
	if len(s) > 3 && strings.HasSuffix(s, "s") && !strings.HasSuffix(s, "ss") {
		s = s[:len(s)-1]
	}
	return s
}
