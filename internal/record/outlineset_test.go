package record

import (
	"slices"
	"strings"
	"testing"
)

// TestSetFromFile: a file named as a whole is a piece for each that it draws, the name
// in the record stands for all of them, and what is like it is like each.
func TestSetFromFile(t *testing.T) {
	const head = "name: Skirt\ngarment: skirt\nstate: sewing\ncloth: {shell: rust-linen}\npieces:\n"
	read := func(text string) (*Build, []string) {
		room := baseRoom(t, map[string]string{"content/builds/skirt/build.yaml": head + text, "content/builds/skirt/pattern/skirt.svg": twoHalves})
		b, faults := room.ReadBuild(room.Builds[0])
		var told []string
		for _, f := range faults {
			told = append(told, f.String())
		}
		return b, told
	}
	b, told := read(`  panels: {outline: pattern/skirt.svg, of: shell, levels: {knee: 100}}
  lining: {like: panels, of: shell}
seams:
  sides: {join: [front.side, back.side], tolerance: 30}
  lining: {like: sides}
finishes:
  hem: {of: [panels.hem, lining.hem], type: double-turned-hem}
`)
	var pieces []string
	for i := range b.Pieces {
		p := &b.Pieces[i]
		knee, _ := p.Levels.Get("knee")
		pieces = append(pieces, strings.TrimSpace(p.Name.V+" "+p.Like.V)+" "+knee.V.String())
	}
	if want := []string{"front 100 mm", "back 100 mm", "front lining front 0 mm", "back lining back 0 mm"}; !slices.Equal(pieces, want) {
		t.Errorf("pieces %q, want %q", pieces, want)
	}
	if got, want := refs(b.Finishes[0].Of), []string{"front.hem", "back.hem", "front lining.hem", "back lining.hem"}; !slices.Equal(got, want) {
		t.Errorf("the hem is of %q, want %q", got, want)
	}
	if s := &b.Seams[1]; s.Name.V != "lining sides" || s.Join[1][0].String() != "back lining.side" {
		t.Errorf("the lining's seam %q joins %v", s.Name.V, s.Join)
	}
	if len(b.Pieces) == 4 && (len(b.Pieces[0].Outline.Edges) != 4 || len(b.Pieces[1].Outline.Edges) != 4 || len(b.Pieces[0].Darts) != 1 || len(b.Pieces[1].Darts) != 0) {
		t.Error("the pieces are not drawn as the file draws them")
	}
	if len(told) > 0 {
		t.Error(told)
	}
	if _, told := read("  all: {outline: pattern/skrt.svg}\nseams: {side: [front.side, back.side]}\n"); len(told) != 1 {
		t.Errorf("of a file that is not there is told %q, once is enough", told)
	}
	for text, want := range map[string]string{
		"  front: {outline: pattern/skirt.svg}\n":                                             "build.yaml:6:20: error: pattern/skirt.svg draws 2 pieces, and the outline does not say which\n    write # and a name after it; it draws: front and back",
		"  all: {outline: pattern/skirt.svg}\n  my back: {outline: pattern/skirt.svg#back}\n": "build.yaml:6:18: error: pattern/skirt.svg draws 2 pieces",
		"  all: {outline: pattern/skirt.svg}\nfinishes: {hem: {of: all.hme, type: faced}}\n":  `build.yaml:7:26: error: of all, front has no edge "hme"`,
		"  all: {outline: pattern/skirt.svg}\n  front: {rectangle: [10, 20], cut: 1}\n":       `build.yaml:7:3: error: two pieces are called "front"`,
		"  all: {outline: pattern/skirt.svg}\nfinishes: {hem: {of: side.hem, type: faced}}\n": `build.yaml:7:22: error: there is no piece "side" in this garment`,
		"  all: {outline: pattern/skrt.svg}\n":                                                `build.yaml:6:18: error: the pattern file "pattern/skrt.svg" cannot be read`,
	} {
		if _, told := read(text); len(told) == 0 || !strings.Contains(told[0], want) {
			t.Errorf("%s: told %q, want %q", text, told, want)
		}
	}
}
