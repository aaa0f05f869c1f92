package trade

import (
	"slices"
	"strings"
)

// A Country is where a parcel comes from or goes to.
type Country struct {
	Code   string `yaml:"code"` // ISO 3166-1, two letters
	Name   string `yaml:"name"`
	Also   []Also `yaml:"also,omitempty"`
	Union  bool   `yaml:"union,omitempty"` // a member state of the European Union
	Source Source `yaml:"source"`
}

var countryData = onceTable[[]Country]("countries")

// Market is whose rules on labels hold in a country, as far as they are known here: eu,
// us, or none of them.
func (c Country) Market() string {
	switch {
	case c.Union:
		return "eu"
	case c.Code == "US":
		return "us"
	}
	return ""
}

// CountryNamed finds a country by its name in English or its own languages, or
// by its code. Not every country is listed.
func CountryNamed(word string) (Country, bool) {
	word = strings.TrimSpace(word)
	for _, c := range countryData() {
		same := func(name string) bool { return strings.EqualFold(name, word) }
		if same(c.Name) || same(c.Code) || slices.ContainsFunc(c.Also, func(a Also) bool { return same(a.Term) }) {
			return c, true
		}
	}
	return Country{}, false
}
