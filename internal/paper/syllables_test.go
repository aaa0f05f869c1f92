package paper

import (
	"strings"
	"testing"
)

// TestSyllables: words are parted as the tables of each language's dictionaries do, from
// memory, with three letters at least before a hyphen; what is no word is not.
func TestSyllables(t *testing.T) {
	for _, want := range []string{
		"Ober-schen-kel", "Spe-zial-schon-wasch-gang", "Naht-zu-gabe", "Stoff-bruch", "Klei-dungs-stück", "Hand-wä-sche", // German
		"mer-ce-rie", "emman-chure", "bou-ton-nière", "cou-ture", // French
		"manu-ten-zione", "imbot-ti-tura", // Italian
		"plan-chado", "abo-to-na-dura", // Spanish
		"knoops-ga-ten", "bin-nen-been-naad", // Dutch
		"(Ober-schen-kel),", "hem", "https://example.test/abcdefgh", "front.shoulder", "2026-08-03",
	} {
		word := want
		if !strings.ContainsAny(want, "/.") && !strings.HasPrefix(want, "2") {
			word = strings.ReplaceAll(want, "-", "")
		}
		letters, at, got := []rune(word), 0, ""
		for _, k := range syllables(word) {
			got += string(letters[at:k]) + "-"
			at = k
		}
		if got += string(letters[at:]); got != want {
			t.Errorf("%s is parted %s", want, got)
		}
	}
}

// TestWideWordsArePartedAtSyllables: a word wider than its column is parted with a hyphen
// where a syllable ends, no line is wider than the column, and no letter is lost; an address
// gets no hyphen.
func TestWideWordsArePartedAtSyllables(t *testing.T) {
	for _, c := range []struct {
		words string
		wide  float64 // in millimetres, of letters of 10 points
		want  string
	}{
		{"Spezialschonwaschgang", 22, "Spezialschon-|waschgang"},
		{"am Oberschenkel innen", 14, "am Ober-|schenkel|innen"},
		{"example.test/abcdefghijkl", 20, ""},
		{"Schrumpfst", 8, ""}, // one syllable
	} {
		var a atomiser
		a.add(c.words, setting{face: serif(), size: 10})
		var got []string
		for _, l := range fill(a.atoms, c.wide) {
			line := ""
			for _, p := range l.pieces {
				line += p.text
			}
			if l.wide > c.wide+1e-6 {
				t.Errorf("%q is %.1f mm wide", line, l.wide)
			}
			got = append(got, line)
		}
		said := strings.ReplaceAll(strings.Join(got, "|"), string(softHyphen), "-")
		if c.want != "" && said != c.want {
			t.Errorf("%s is set %s", c.words, said)
		}
		if c.want == "" && (len(got) < 2 || strings.Join(got, "") != c.words) {
			t.Errorf("%s is set %s", c.words, said)
		}
	}
}
