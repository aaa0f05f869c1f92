package main

import (
	"path/filepath"
	"strings"
	"testing"
)

// TestKeepingFollowsTheCloth: how the garment is put away and what to do when something
// happens follow its cloth, its trims and its seams, in the wearer's language, beside the
// maker's own words.
func TestKeepingFollowsTheCloth(t *testing.T) {
	t.Parallel()
	const build, cloth = "content/builds/skirt/build.yaml", "content/cloth/green.yaml"
	all := []string{"Put it away clean", "a knit grows long", "crushed pile", "bones keep a fold", "Moths eat", "A button comes off", "Hang it by its band."}
	for _, c := range []struct {
		name  string
		swaps [][3]string
		want  []string
	}{
		{"poplin with a zip", nil, []string{"Put it away clean"}},
		{"knitted wool", [][3]string{{cloth, "fibres: {cotton: 100}", "fibres: {wool: 100}\nstructure: knitted"}}, []string{"Put it away clean", "a knit grows long", "Moths eat"}},
		{"silk with a pile", [][3]string{{cloth, "fibres: {cotton: 100}", "fibres: {silk: 100}\nsurface: raised"}}, []string{"Put it away clean", "crushed pile", "Moths eat"}},
		{"with boning", [][3]string{{build, "notions:\n", "notions:\n  boning: {count: 2, length: 200, material: steel, weight: 4 g}\n"}}, []string{"Put it away clean", "bones keep a fold"}},
		{"with buttons, and a word of its maker", [][3]string{{build, "notions:\n", "notions:\n  buttons: {count: 3, size: 18, material: corozo, weight: 1 g}\n"}, {build, "  box: [the skirt]", "  box: [the skirt]\n  store: [Hang it by its band.]"}},
			[]string{"Put it away clean", "A button comes off", "Hang it by its band."}},
	} {
		base := readArchive(t, filepath.Join(packetDir, "base.txtar"))
		for _, s := range c.swaps {
			swapped(t, base, s[0], s[1], s[2])
		}
		got := packedSkirt(t, base)("box")
		for _, says := range all {
			wanted := false
			for _, w := range c.want {
				wanted = wanted || w == says
			}
			if strings.Contains(got, says) != wanted {
				t.Errorf("%s: says %q: %v", c.name, says, !wanted)
			}
		}
	}
}
