package trade

import (
	"slices"
	"strings"

	"hembook/internal/meant"
)

// FibreClass groups fibres as customs and care do.
type FibreClass string

// The classes of fibre.
const (
	animal     FibreClass = "animal"     // wool, hair, silk
	plant      FibreClass = "plant"      // cotton, flax, hemp
	artificial FibreClass = "artificial" // made from natural polymers: viscose, acetate
	synthetic  FibreClass = "synthetic"  // made from synthesised polymers: polyester
	mineral    FibreClass = "mineral"    // glass, metal
	paperYarn  FibreClass = "paper"
)

// A Fibre is a textile fibre with what law and care say about it.
type Fibre struct {
	Name       string            `yaml:"name"`            // name on an EU label
	US         string            `yaml:"us,omitempty"`    // generic name in the United States, where it differs
	Words      map[string]string `yaml:"words,omitempty"` // name by language code
	Also       []Also            `yaml:"also,omitempty"`
	Annex      string            `yaml:"annex,omitempty"` // number in Annex IX of Regulation (EU) 1007/2011
	Class      FibreClass        `yaml:"class"`
	Allowances []Agreed          `yaml:"allowances"`
	Exempt1610 bool              `yaml:"exempt-1610,omitempty"` // in the list of 16 CFR 1610.1(d)(2)
	USWool     bool              `yaml:"us-wool,omitempty"`     // "wool" in 15 U.S.C. 68(b): of sheep, Angora or Cashmere goat, camel, alpaca, llama, vicuña
	Customs    string            `yaml:"customs"`               // group of chapters 50 to 55: silk, wool (and fine hair), hair (coarse), cotton, plant, synthetic, artificial; other
	Care       *CareLimits       `yaml:"care,omitempty"`
	Source     Source            `yaml:"source"`
}

// Agreed is an agreed allowance: per cent added to the clean dry mass.
type Agreed struct {
	Form    string  `yaml:"form,omitempty"` // combed, carded, staple, filament, …; the first row is the default
	Percent float64 `yaml:"percent"`
	Source  Source  `yaml:"source"`
}

var fibreData = onceTable[[]Fibre]("fibres")

// FibreNamed finds a fibre by its label name, its United States name or any
// other word for it, whatever the case.
func FibreNamed(word string) (Fibre, bool) {
	for _, f := range fibreData() {
		if slices.ContainsFunc(f.names(), func(n string) bool { return slug(n) == slug(word) }) {
			return f, true
		}
	}
	return Fibre{}, false
}

// NearestFibre is the fibre name nearest to an unknown one; empty when none is near.
func NearestFibre(word string) string {
	var all []string
	for _, f := range fibreData() {
		all = append(all, f.names()...)
	}
	return meant.Nearest(strings.TrimSpace(word), all)
}

func (f Fibre) names() []string {
	names := []string{f.Name}
	if f.US != "" {
		names = append(names, f.US)
	}
	for _, a := range f.Also {
		names = append(names, a.Term)
	}
	return names
}

// Allowance is the agreed allowance in per cent for the form named, or for
// the first form of the table when form is empty.
func (f Fibre) Allowance(form string) (Agreed, bool) {
	for _, a := range f.Allowances {
		if form == "" || a.Form == form {
			return a, true
		}
	}
	return Agreed{}, false
}
