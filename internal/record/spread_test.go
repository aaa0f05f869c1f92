package record

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

// TestSpread: an edge of a set is that edge of each of its pieces, a seam that is
// changed all its edges, and a notion along a seam lies along an edge of it.
func TestSpread(t *testing.T) {
	record := func(more string) (*Build, []string) {
		room := &Room{Workroom: &Workroom{}, FS: fstest.MapFS{"build.yaml": {Data: []byte(`name: Slip
garment: slip
state: planned
thread: {white: white}
pieces:
  front: {cut: 1, rectangle: [400, 600], edges: {bottom: hem}}
  back: {cut: 1, rectangle: [400, 600], edges: {bottom: hem}}
  band: {cut: 1, rectangle: [800, 60]}
  lining: {like: [front, back], cut: 1}
seams:
  left: [front.right, back.left]
  right: [front.left, back.right]
  waist: [lining.top, band.bottom]
  lining: {like: [left, right]}
` + more)}}}
		b, faults := room.ReadBuild(BuildFile{Slug: "slip", Path: "build.yaml"})
		var told []string
		for _, f := range faults {
			told = append(told, f.String())
		}
		return b, told
	}
	b, told := record(`finishes:
  hem: {of: [front.hem, lining.hem], type: double-turned-hem}
lengths: {hem: lining.hem}
notions:
  zip: {along: left, length: 200}
  tape: {along: hem, length: 200}
  cord: {along: right from top to bottom}
fittings:
  - {day: 2026-08-01, saw: tight, change: {left: 5, lining.hem: {move: -3, agreed: maker}, waist: {note: good}, lining: 1}}
`)
	var changes []string
	for _, c := range b.Fittings[0].Change {
		changes = append(changes, c.Edge.V)
	}
	for _, row := range []struct {
		what      string
		got, want []string
	}{
		{"hem", refs(b.Finishes[0].Of), []string{"front.hem", "front lining.hem", "back lining.hem"}},
		{"waist", refs(b.Seams[2].Join[0]), []string{"front lining.top", "back lining.top"}},
		{"length", refs(b.Lengths[0].Along), []string{"front lining.hem", "back lining.hem"}},
		{"zip", refs(List[EdgeRef]{b.Notions[0].Along.V}), []string{"front.right"}},
		{"cord", refs(List[EdgeRef]{b.Notions[2].Along.V}), []string{"front.left from top to bottom"}},
		{"changes", changes, []string{"front.right", "back.left", "front lining.hem", "back lining.hem", "front lining.top", "back lining.top", "band.bottom",
			"front lining.right", "back lining.left", "front lining.left", "back lining.right"}},
		{"told", told, []string{"build.yaml:20:17: error: not yet: hem, along several edges in a row\n    name one: front.hem, front lining.hem or back lining.hem; what lies in its channel has in: hem"}},
	} {
		if !slices.Equal(row.got, row.want) {
			t.Errorf("%s: %q, want %q", row.what, row.got, row.want)
		}
	}
	if c := b.Fittings[0].Change[3]; c.Move.V.MM() != -3 || c.Agreed.V != "maker" {
		t.Errorf("the change of the set's second piece is %v, agreed by %q", c.Move.V, c.Agreed.V)
	}

	for more, want := range map[string]string{
		"finishes: {hem: {of: lining.hme, type: faced}}":                      `build.yaml:15:29: error: of lining, front lining has no edge "hme"`,
		"notions: {zip: {along: lft, length: 200}}":                           `build.yaml:15:24: error: "lft" is no edge of a piece, seam or finish`,
		"notions: {zip: {along: 12 inside left, length: 200}}":                `build.yaml:15:24: error: not yet: 12 inside left, a part of a seam, finish or line`,
		"fittings: [{day: 2026-08-01, saw: tight, change: {lining.side: 3}}]": `build.yaml:15:58: error: of lining, front lining has no edge "side"`,
	} {
		_, told := record(more)
		if len(told) != 1 || !strings.HasPrefix(told[0], want) {
			t.Errorf("%s: told %q, want %q", more, told, want)
		}
	}
}

func refs(list List[EdgeRef]) []string {
	var out []string
	for _, e := range list {
		out = append(out, e.String())
	}
	return out
}
