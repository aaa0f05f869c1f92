package trade

import (
	"strings"
	"testing"
)

// TestFibreNamesAsPublished: names that were once written otherwise stand as they are
// published.
func TestFibreNamesAsPublished(t *testing.T) {
	for _, c := range []struct{ fibre, language, want, source string }{
		{"cashmere", "it", "cashmere", "GINETEX Switzerland, fibre table, no. 2"},
		{"abaca", "de", "Manila", "Textilkennzeichnungsgesetz, Anlage 1, no. 10"},
		{"flax", "de", "Leinen", "Textilkennzeichnungsgesetz, Anlage 1, no. 7: Flachs or Leinen, not both"},
		{"flax", "en", "flax", "Directive 2008/121/EC, annex I, no. 7: flax alone"},
		{"linen", "en", "flax", "the same, by the trade's word"},
	} {
		f, ok := FibreNamed(c.fibre)
		got := f.Name
		if c.language != "en" {
			got = f.Words[c.language]
		}
		if !ok || got != c.want {
			t.Errorf("%s in %s is %q, not %q (%s)", c.fibre, c.language, got, c.want, c.source)
		}
	}
}

// TestWoolInTheStates: which hairs are wool there by 15 U.S.C. 68(b): of the sheep, of the
// Angora or Cashmere goat, of camel, alpaca, llama and vicuña; no rabbit and no other hair.
func TestWoolInTheStates(t *testing.T) {
	for name, want := range map[string]bool{"wool": true, "mohair": true, "cashmere": true, "camel": true, "alpaca": true,
		"angora": false, "animal hair": false, "horsehair": false, "silk": false} {
		f, ok := FibreNamed(name)
		if !ok {
			t.Errorf("%s is not known", name)
		} else if f.USWool != want {
			t.Errorf("%s: wool %v, not %v", name, f.USWool, want)
		}
	}
}

// TestMockFellIsSSw: the mock felled seam has the code SSw of Fed-Std-751a, as a lecture on
// seam classification quotes it (NIFT).
func TestMockFellIsSSw(t *testing.T) {
	found := 0
	for _, s := range SeamTypes() {
		mock := false
		for _, a := range s.Also {
			mock = mock || a.Term == "mock fell"
		}
		switch {
		case mock && (s.US == nil || s.US.Code != "SSw"):
			t.Errorf("%s: %+v", s.Name, s.US)
		case mock:
			found++
		case s.US != nil && strings.HasPrefix(s.US.Code, "SSw"):
			t.Errorf("%s has the code of the mock fell", s.Name)
		}
	}
	if found != 1 {
		t.Errorf("%d types are called mock fell", found)
	}
}

// TestPVeryMild: dry cleaning in P with two bars is a symbol of its own, gentler than with
// one (the list of nordwestwaescherei.de and of GINETEX Germany).
func TestPVeryMild(t *testing.T) {
	rank := map[string]int{}
	for _, o := range careData().Options {
		if strings.HasPrefix(o.Name, "clean-p") {
			rank[o.Name] = o.Rank
		}
	}
	if len(rank) != 3 || rank["clean-p-very-mild"] >= rank["clean-p-mild"] || rank["clean-p-mild"] >= rank["clean-p"] {
		t.Errorf("%v", rank)
	}
}
