package derive

import "testing"

// A lining like the back takes its dart's slit and its fold along, and not the line that a
// strap is set on; one that is named on the lining it keeps, and so does a front that is
// like the back in the same cloth.
func TestLiningWithoutPlaces(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen, lining: linen}
thread: {white: white}
pieces:
  back:
    cut: 1
    rectangle: [300, 500]
    lines:
      strap place: {from: [100, 100], to: [140, 100]}
      label place: {from: [100, 400], to: [140, 400]}
      crease: {along: 30 inside bottom, fold: true}
      vent: {from: bottom at 150, length: 100, slit: true}
  front: {like: back}
  back lining: {like: back, of: lining}
seams:
  sides: {join: [front.left, back.right]}
  other sides: {join: [front.right, back.left]}
finishes:
  label: {of: back lining.label place, type: hand-stitched}
  vents: {of: [back.vent, front.vent, back lining.vent], type: faced-slit}
`)
	want := map[string]string{"back": "strap place, label place, crease, vent", "front": "strap place, label place, crease, vent", "back lining": "label place, crease, vent"}
	for _, p := range g.Pieces {
		if want[p.Name] == "" {
			continue
		}
		got := ""
		for i := range p.Lines {
			if got != "" {
				got += ", "
			}
			got += p.Lines[i].Name
		}
		if got != want[p.Name] {
			t.Errorf("%s has the lines %s, want %s", p.Name, got, want[p.Name])
		}
	}
}
