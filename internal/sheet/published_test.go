package sheet

import "testing"

// TestAnimalPartsAsPublished: the sentence on parts of animal origin, article 12 of
// Regulation (EU) No 1007/2011, in the words that are published.
func TestAnimalPartsAsPublished(t *testing.T) {
	for code, c := range map[string]struct{ want, source string }{
		"nl": {"Bevat niet uit textiel bestaande delen van dierlijke oorsprong", "NVWA, Etikettering textiel"},
		"de": {"Enthält nichttextile Teile tierischen Ursprungs", "IHK Aschaffenburg"},
		"fr": {"Contient des parties non textiles d'origine animale", "bonasavoir.ch"},
		"it": {"Contiene parti non tessili di origine animale", "Camera di commercio di Torino"},
	} {
		if got := newTongue(code).say("content.animal"); got != c.want {
			t.Errorf("%s: %q, published (%s) %q", code, got, c.source, c.want)
		}
	}
}
