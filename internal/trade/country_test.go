package trade

import "testing"

func TestCountryNamed(t *testing.T) {
	union := 0
	seen := map[string]string{}
	for _, c := range countryData() {
		if c.Union {
			union++
		}
		for _, name := range append([]string{c.Name, c.Code}, also(c.Also)...) {
			if seen[name] != "" && seen[name] != c.Code {
				t.Errorf("%q is both %s and %s", name, seen[name], c.Code)
			}
			seen[name] = c.Code
		}
	}
	if union != 27 { // from memory: member states since 2020
		t.Errorf("%d member states", union)
	}
	for word, code := range map[string]string{"ireland": "IE", " The Netherlands ": "NL", "Deutschland": "DE", "usa": "US", "CH": "CH"} {
		if c, ok := CountryNamed(word); !ok || c.Code != code {
			t.Errorf("%q: %+v", word, c)
		}
	}
	if _, ok := CountryNamed("Atlantis"); ok {
		t.Error("Atlantis is listed")
	}
}
