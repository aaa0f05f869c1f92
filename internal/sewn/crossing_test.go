package sewn

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// crossed says what a seam runs over, place by place, with what ends there on its far side.
func crossed(t *testing.T, p Plan, name string) string {
	t.Helper()
	s := clean(t, p)
	seam := slices.IndexFunc(s.Plan.Seams, func(x Seam) bool { return x.Name == name })
	var out []string
	for _, c := range s.Crossings(seam) {
		words := s.Plan.Seams[c.Ends].Name + " on " + s.piece(c.On[0]).Name
		for _, o := range c.Over {
			words += " over " + s.Plan.Seams[o.Ends].Name
		}
		out = append(out, words)
	}
	slices.Sort(out)
	return fmt.Sprint(strings.Join(out, ", "))
}

func TestCrossings(t *testing.T) {
	// The waist seam runs over both side seams of the bodice and those of the skirt below;
	// the shoulders end at neck and armhole, which no seam sews.
	skirt := piece("front skirt", pt(0, 0), "hem", pt(240, 0), "side", pt(240, 700), "waist", pt(0, 700), "fold", pt(0, 0))
	dress := bodice(bodiceHalf("front"), bodiceHalf("back"))
	dress.Pieces = append(dress.Pieces, skirt, skirt.called("back skirt"))
	dress.Seams = append(dress.Seams, seam("skirt sides", "front skirt.side", "back skirt.side"), seam("waist", "front.waist + back.waist", "front skirt.waist + back skirt.waist"))
	if got := crossed(t, dress, "waist"); got != "sides on back over skirt sides, sides on back over skirt sides, skirt sides on back skirt over sides, skirt sides on back skirt over sides" {
		t.Errorf("the waist runs over %s", got)
	}
	if got := crossed(t, dress, "sides"); got != "" {
		t.Errorf("the sides end at the waist and run over nothing, not %s", got)
	}
	// A band in one piece, of 960, begins at the middle of the front, where no seam ends.
	banded := bodice(bodiceHalf("front"), bodiceHalf("back"))
	banded.Pieces = append(banded.Pieces, box("band", 960, 40))
	banded.Seams = append(banded.Seams, seam("band ends", "band.left", "band.right"), seam("waist", "band.top", "front.waist + back.waist"))
	if got := crossed(t, banded, "waist"); got != "band ends on band, sides on back, sides on back" {
		t.Errorf("the band runs over %s", got)
	}
	// The insides of the legs end between two seams, and on neither.
	if got := crossed(t, trousers(), "front rise"); got != "" {
		t.Errorf("the rise of the fronts runs over %s", got)
	}
}
