package record

import "testing"

// everyForm is a record that uses every short form there is.
const everyForm = `name: Every form
garment: skirt
for: woman
state: planned
cloth: {shell: rust-linen}
thread: {rust: rust}
usual: {seam: {type: french, first: 6, second: 9}, thread: rust, least-ease: {waist: 10}, truing: {angle: 80, step: 90}}
pieces:
  front:
    outline:
      hem: [240, 0]
      side: {to: [190, 600], curve: 13}
      waist: {to: [0, 600], level: waist}
      centre: fold
    darts:
      waist: [{at: 50, width: 10, length: 100}, {at: 120, width: 10, length: 100}]
    pleats: {hem: {depth: 5}, waist: [{kind: box, at: centre, into: 300, drawn: true, stitched: to hip}, {count: 2, first: 20 from side, every: 35, depth: 4, towards: side, stitched: 60}, {kind: pin tuck, depth: 2, first: 20, last: 40, soft: false}]}
    levels: {hip: 400}
    notches: {side: [60, 174, {at: 300, name: hip}, 20 from hip, 1 1/4 in from waist, middle], waist: 20}
  back: {like: front, change: {hem: -2, waist dart: [], side: [1, {end: 2}]}}
  band: {rectangle: [700, 60], edges: {top: upper, bottom: 12}}
seams:
  sides: [front.side, back.side]
  waist: {join: [[front.waist, back.waist], band.bottom], type: plain, gather: 2}
  sleeve: {join: [band.left, band.right], ease: [8 from front to top, 1/4 in from top to end], gather: 1.5 from end}
  pocket: {join: [front.side from hip for 160, front.side from hem to hip], type: plain}
finishes: {hem: {of: [front.hem, back.hem], type: raw}, mouth: {of: front.side from waist to hip, type: raw}}
lengths: {down: front.side, round: [front.hem, back.hem]}
notions: {zip: {length: 200, along: front.side}, buttons: {along: 12 inside front.side, first: 20 from hip, last: middle, count: 3}, button: {along: front.side from waist to hip, at: middle}, hooks: {along: front.side, every: 20}}
bias: {straps: {cut: 30, length: 900}}
work:
  cut:
  sew the sides: 40 min
  sew the band: {takes: 1 h, after: [cut, sew the sides]}
  hang it up: {wait: 24 h, after: sew the band}
fittings:
  - {day: 2026-08-09, saw: too long, agreed: both, note: and a pocket, change: {front.hem: -10}}
journal:
  - {at: 2026-08-05, did: hang it, for: 5 min}
`

// TestLinesOfABlock: words behind a bar are entries of a list, a line each; a list says
// the same.
func TestLinesOfABlock(t *testing.T) {
	const head = "name: Box\ngarment: skirt\nfor: woman\nstate: planned\ncloth: {shell: rust-linen}\npacket:\n"
	for name, text := range map[string]string{
		"a block": head + "  box: |\n    the skirt: on a card\n\n    a spare button, in paper\n",
		"a list":  head + "  box:\n    - \"the skirt: on a card\"\n    - a spare button, in paper\n",
	} {
		room := baseRoom(t, map[string]string{"content/builds/box/build.yaml": text})
		bf, _ := room.BuildNamed("box")
		b, faults := room.ReadBuild(bf)
		for _, f := range faults {
			t.Errorf("%s: %s", name, f)
		}
		if err := validate(compileSchemas(t), "build", []byte(text)); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		if box := b.Packet.Box; len(box) != 2 || box[0].V != "the skirt: on a card" || box[1].V != "a spare button, in paper" {
			t.Errorf("%s: the box holds %v", name, box)
		}
	}
	if b, _ := baseRoom(t, map[string]string{"content/builds/box/build.yaml": head + "  box: |\n    one\n\n    two\n"}).ReadBuild(BuildFile{Slug: "box", Path: "content/builds/box/build.yaml"}); b.Packet.Box[1].At.Line != 10 {
		t.Errorf("the second entry is said to stand on line %d, not 10", b.Packet.Box[1].At.Line)
	}
}

// TestEveryFormIsRead: reader and schema take every short form, and what was said
// once is where it belongs.
func TestEveryFormIsRead(t *testing.T) {
	room := baseRoom(t, map[string]string{"content/builds/forms/build.yaml": everyForm})
	bf, _ := room.BuildNamed("forms")
	b, faults := room.ReadBuild(bf)
	for _, f := range faults {
		t.Errorf("%s", f)
	}
	if err := validate(compileSchemas(t), "build", []byte(everyForm)); err != nil {
		t.Error(err)
	}
	front := &b.Pieces[0]
	if e := front.Outline.Edges; e[len(e)-1].To.V != (XY{}) || !e[len(e)-1].Fold.V || len(front.Darts) != 2 || len(front.Notches) != 7 {
		t.Errorf("read %+v", front)
	}
	if e := b.Pieces[2].Edges; e[0].V.Name.V != "upper" || e[1].V.Allowance.V.MM() != 12 {
		t.Errorf("edges %+v", e)
	}
	if s := b.Seams[0]; s.Type.V != "french" || s.Thread.V != "rust" || len(s.With) != 2 {
		t.Errorf("the usual seam: %+v", s)
	}
	if p := b.Seams[3].Join[0][0]; p.Edge != "side" || p.Part.From != "hip" || p.Part.For.MM() != 160 || p.String() != "front.side from hip for 160" {
		t.Errorf("a part of an edge: %+v", p)
	}
	if s := b.Seams[2]; len(s.Stretches) != 3 || s.Ease.Given() || s.Stretches[1].Ease.V.MM() != 6.35 || s.Stretches[1].To.V != "end" || s.Stretches[2].Gather.V != 1.5 {
		t.Errorf("ease between notches: %+v", s.Stretches)
	}
	if c := b.Fittings[0].Change; len(c) != 2 || c[0].Agreed.V != "both" || c[1].Note.V != "and a pocket" || b.Fittings[0].Round.V != 1 {
		t.Errorf("a round: %+v", b.Fittings[0])
	}
	if b.Journal[0].Did.V != "hang-it-up" || b.Work[2].After[1].V != "sew-the-sides" {
		t.Errorf("steps by their first words: %q, %q", b.Journal[0].Did.V, b.Work[2].After[1].V)
	}
}
