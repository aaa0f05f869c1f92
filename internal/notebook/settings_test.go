package notebook

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
)

// TestTechniquesGatherSettings: the page of a technique gathers how the machine was set for
// what it makes: for a seam by its type, with what the thread says where the seam does not;
// for rows beside a seam by their word; for a step that sews no row by what the step says.
// Each stands on its own page alone.
func TestTechniquesGatherSettings(t *testing.T) {
	files := workroom()
	maps.Copy(files, map[string]string{
		"content/cloth/fusible.yaml":         "name: Fusible\nfibres: {cotton: 100}\nwidth: 90 cm\n",
		"content/techniques/entredeux.md":    "---\nname: Joining with entredeux\nsummary: s\nseam: entredeux\n---\nx\n",
		"content/techniques/topstitching.md": "---\nname: Topstitching\nalso: [topstitch]\nsummary: s\n---\nx\n",
		"content/techniques/fusing.md":       "---\nname: Fusing\nsummary: s\n---\nx\n",
		"content/builds/christening/build.yaml": `name: Petticoat
garment: bag
state: sent
begun: 2027-01-02
cloth: {shell: linen, fusing: fusible}
thread: {white: {colour: white, fibre: cotton, needle: 60 sharp, stitch-length: 1.5}}
pieces:
  a: {rectangle: [100, 100]}
  b: {rectangle: [100, 100]}
  c: {rectangle: [100, 100]}
  d: {rectangle: [100, 100], of: [shell, fusing]}
seams:
  lace: {join: [a.right, b.left], type: entredeux, foot: edge foot}
  side: {join: [c.right, d.left], topstitch: {at: [6], needle: 100 topstitch, stitch-length: 3.5}}
work:
  fuse d: {takes: 10 min, foot: walking foot, tension: "3"}
  sew: {sews: [lace, side]}
`,
	})
	_, shelf := gather(t, open(t, files))
	want := map[string]string{
		"Joining with entredeux": "60 sharp 1.5 edge foot - white, cotton on Linen in Petticoat",
		"Topstitching":           "100 topstitch 3.5 - - white, cotton on Fusible, Linen in Petticoat",
		"Fusing":                 "- 0 walking foot 3 - on  in Petticoat",
	}
	for _, p := range shelf.Techniques() {
		var got []string
		for _, w := range p.Worked {
			said := []any{w.Needle, w.StitchLength.MM(), w.Foot, w.Tension, w.Thread}
			for i := range said {
				if said[i] == "" {
					said[i] = "-"
				}
			}
			var cloths []string
			for _, c := range w.Cloths {
				cloths = append(cloths, c.Name)
			}
			slices.Sort(cloths)
			got = append(got, fmt.Sprintf("%v %v %v %v %v on %s in %s", append(said, strings.Join(cloths, ", "), w.Build.Name)...))
		}
		if w, ok := want[p.Heading]; ok && strings.Join(got, "; ") != w {
			t.Errorf("%s gathers %q, want %q", p.Heading, got, w)
		}
		delete(want, p.Heading)
	}
	if len(want) > 0 {
		t.Errorf("there is no page of %v", want)
	}
}
