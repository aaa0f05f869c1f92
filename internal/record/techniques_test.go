package record

import (
	"strings"
	"testing"
	"testing/fstest"
)

// TestTechniquesFollow: a seam, finish or step leads to the page that makes its type,
// or after which it is called, and to none where that is not one page alone.
func TestTechniquesFollow(t *testing.T) {
	page := func(words string) *fstest.MapFile {
		return &fstest.MapFile{Data: []byte("---\n" + words + "\n---\nSo.\n")}
	}
	room := &Room{Workroom: &Workroom{}, cloths: map[string]*Cloth{}, techniques: map[string]*Technique{}, pages: map[string]*Page{}, FS: fstest.MapFS{
		"content/techniques/felling.md":              page("name: Felling\nsummary: s\nseam: [flat-felled, hand-felled]\nalso: [work of the hand]"),
		"content/techniques/french-seam.md":          page("name: French seam\nsummary: s\nseam: french"),
		"content/techniques/a-zip-in-french-seam.md": page("name: Zip in a seam\nsummary: s\nseam: french"),
		"content/techniques/tailor-binding.md":       page("name: Tailor's binding\nsummary: s\nseam: bound"),
		"content/techniques/other-binding.md":        page("name: Other binding\nsummary: s\nseam: bound"),
		"content/techniques/buttonholes.md":          page("name: Worked buttonhole\nsummary: s"),
		"content/techniques/tracing.md":              page("name: Thread-tracing\nsummary: s\nalso: [tracing with basting]"),
		"build.yaml": {Data: []byte(`name: Slip
garment: slip
state: planned
thread: {white: white}
usual: {hem: hand-felled}
pieces:
  front: {cut: 1, rectangle: [400, 600]}
  back: {cut: 1, rectangle: [400, 600]}
seams:
  left: {join: [front.right, back.left], type: french}
  right: {join: [front.left, back.right], type: flat-felled, technique: tracing}
  top: {join: [front.top, back.top], type: bound}
finishes:
  hem: {of: front.bottom}
  back hem: {of: back.bottom, technique: none}
work:
  trace all pieces with thread: 1 h
  work five buttonholes: 1 h
  sew: {sews: left, takes: 1 h}
  press: {sews: left, takes: 1 h}
  hand work: {sews: right, takes: 1 h}
  close: {sews: [hem, left], takes: 1 h}
  hem: 1 h
  zip: {sews: top, technique: a-zip-in-french-seam, takes: 1 h}
  fell the back hem: {sews: back hem, technique: none, takes: 1 h}
`)}}}
	room.readProse(nil)
	room.readWays()
	b, faults := room.ReadBuild(BuildFile{Slug: "slip", Path: "build.yaml"})
	for _, f := range faults {
		if !strings.Contains(f.String(), "is sewn twice") {
			t.Error(f)
		}
	}
	got := map[string]string{}
	for i := range b.Seams {
		got[b.Seams[i].Name.V] = b.Seams[i].Technique.V
	}
	for i := range b.Finishes {
		got["finish "+b.Finishes[i].Name.V] = b.Finishes[i].Technique.V
	}
	for i := range b.Work {
		got["step "+b.Work[i].Do.V] = b.Work[i].Technique.V
	}
	for name, want := range map[string]string{
		"left":                              "french-seam", // two pages make it, this one is called after it
		"right":                             "tracing",     // said
		"top":                               "",            // two pages make it
		"finish hem":                        "felling",     // of the usual type
		"finish back hem":                   "",            // said that there is none
		"step trace all pieces with thread": "tracing",
		"step work five buttonholes":        "buttonholes",
		"step sew":                          "french-seam", // as what it sews
		"step press":                        "",            // it sews nothing anew
		"step hand work":                    "felling",     // its words go before what it sews
		"step close":                        "",            // two ways
		"step hem":                          "felling",
		"step zip":                          "a-zip-in-french-seam",
		"step fell the back hem":            "",
	} {
		if got[name] != want {
			t.Errorf("%s leads to %q, want %q", name, got[name], want)
		}
	}
}

// TestStems: words are the same whatever their endings.
func TestStems(t *testing.T) {
	for _, row := range [][]string{
		{"fell", "felling", "felled", "fells"}, {"trace", "tracing", "traced"}, {"buttonhole", "buttonholes"},
		{"press", "pressing", "pressed", "presses"}, {"cut", "cutting", "cuts"}, {"hem", "hems", "hemming", "hemmed"}, {"gather", "gathers", "gathering"},
	} {
		for _, word := range row[1:] {
			if verbStem(word) != verbStem(row[0]) {
				t.Errorf("%s is %s, %s is %s", row[0], verbStem(row[0]), word, verbStem(word))
			}
		}
	}
	for _, pair := range [][2]string{{"bind", "bone"}, {"line", "lay"}, {"bias", "base"}, {"zip", "zigzag"}} {
		if verbStem(pair[0]) == verbStem(pair[1]) {
			t.Errorf("%s and %s are both %s", pair[0], pair[1], verbStem(pair[0]))
		}
	}
}
