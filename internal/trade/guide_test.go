package trade

import (
	"fmt"
	"math"
	"os"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"
)

// TestGuideListsEveryType: the guide names every type in a row of its own, with each of
// its measures as they are by default, to a tenth of a millimetre.
func TestGuideListsEveryType(t *testing.T) {
	page := guidePage(t)
	for _, s := range SeamTypes() {
		_, row, ok := strings.Cut(page, "\n| `"+s.Name+"` |")
		if !ok {
			t.Errorf("the guide does not list %s", s.Name)
			continue
		}
		row, _, _ = strings.Cut(row, "\n")
		measures := map[string]float64{}
		if cells := strings.Split(row, "|"); strings.TrimSpace(cells[1]) != "" {
			if err := yaml.Unmarshal([]byte("{"+strings.Trim(cells[1], " `")+"}"), &measures); err != nil {
				t.Errorf("%s: %v", s.Name, err)
			}
		}
		if len(measures) != len(s.Parameters) {
			t.Errorf("%s has %d measures, and the guide says %v", s.Name, len(s.Parameters), measures)
		}
		for _, p := range s.Parameters {
			if got, ok := measures[p.Name]; !ok || math.Abs(got-p.Default) > 0.0501 {
				t.Errorf("%s: %s is %v, and the guide says %v", s.Name, p.Name, p.Default, measures)
			}
		}
	}
}

// TestGuidesOwnType: the type of its own that the guide writes is read without a fault,
// and every word a type may have is told below it.
func TestGuidesOwnType(t *testing.T) {
	page := guidePage(t)
	_, text, _ := strings.Cut(page, "~~~yaml a type of your own\n")
	text, told, ok := strings.Cut(text, "\n~~~")
	if !ok {
		t.Fatal("the guide has no type of its own")
	}
	list, err := parseSeamTypes([]byte(text))
	if err != nil || len(list) != 1 {
		t.Fatalf("%d types: %v", len(list), err)
	}
	for _, word := range []string{"name", "title", "summary", "use", "kind", "parameters", "gives", "keeps", "holds", "width", "plies", "clipped", "turns", "rows-show",
		"tape-holds", "corner", "folds", "strips", "pieces", "band", "wants", "passes", "checks", "section", "source"} {
		if !strings.Contains(told, fmt.Sprintf("`%s`", word)) {
			t.Errorf("the guide does not tell of %s", word)
		}
	}
}

func guidePage(t *testing.T) string {
	t.Helper()
	text, err := os.ReadFile("../../content/pages/ways-to-seam.md")
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}
