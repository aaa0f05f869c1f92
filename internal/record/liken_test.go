package record

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

// TestLike: what is like several is written out for each, and the seams among them
// join the edges that those join, as the set says or as the other seam is sewn.
func TestLike(t *testing.T) {
	room := &Room{Workroom: &Workroom{}, FS: fstest.MapFS{"build.yaml": {Data: []byte(`name: Slip
garment: slip
state: planned
cloth: {shell: drill, lining: drill}
thread: {white: white, grey: grey}
pieces:
  front: {cut: 1, rectangle: [400, 600]}
  back: {cut: 1, rectangle: [400, 600], edges: {left: flank}}
  front loose: {like: front lining}
  back loose: {like: back lining}
  lining: {like: [front, back], of: lining, cut: 1, change: {top: -2}}
seams:
  left side: {join: [front.right, back.flank], type: french, first: 6, thread: white}
  right side: {join: [front.left, back.right], ease: 3, note: by hand}
  lining: {like: [left side, right side], thread: grey}
  loose: {like: left side, second: 9, ease: 4}
work:
  cut: 1 h
  sides: {sews: [left side, right side], takes: 1 h}
  lining: 30 min
  loose: 5 min
`)}}}
	b, faults := room.ReadBuild(BuildFile{Slug: "slip", Path: "build.yaml"})
	for _, f := range faults {
		if !strings.Contains(f.String(), "in content/cloth") { // which is not read here
			t.Error(f)
		}
	}
	var pieces, seams []string
	for i := range b.Pieces {
		p := &b.Pieces[i]
		pieces = append(pieces, p.Name.V+" like "+p.Like.V)
	}
	if want := []string{"front like ", "back like ", "front loose like front lining", "back loose like back lining", "front lining like front", "back lining like back"}; !slices.Equal(pieces, want) {
		t.Errorf("pieces %q, want %q", pieces, want)
	}
	for i := range b.Seams {
		s := &b.Seams[i]
		seams = append(seams, s.Name.V+": "+s.Join[0][0].String()+" and "+s.Join[1][0].String()+", "+s.Type.V+", "+s.Thread.V)
	}
	if want := []string{
		"left side: front.right and back.flank, french, white",
		"right side: front.left and back.right, plain, ",
		"lining left side: front lining.right and back lining.flank, french, grey",
		"lining right side: front lining.left and back lining.right, plain, grey",
		"loose left side: front loose.right and back loose.flank, french, white",
	}; !slices.Equal(seams, want) {
		t.Errorf("seams %q, want %q", seams, want)
	}
	if s := &b.Seams[3]; s.Ease.V.MM() != 3 || s.Note.Given() {
		t.Errorf("eased %v, note %q: it is sewn as the other, whose note is its own", s.Ease.V, s.Note.V)
	}
	loose := &b.Seams[4]
	if first, _ := loose.With.Get("first"); loose.Ease.V.MM() != 4 || len(loose.With) != 2 || first.V.MM() != 6 || len(b.Seams[0].With) != 1 {
		t.Errorf("eased %v with %v: what is said of it is added to how the other is sewn, which stays as it is", loose.Ease.V, loose.With)
	}
	var sews []string
	for _, w := range b.Work[2].Sews {
		sews = append(sews, w.V)
	}
	if want := []string{"lining left side", "lining right side"}; !slices.Equal(sews, want) {
		t.Errorf("the step sews %q, want %q", sews, want)
	}
}

// TestLikeLeftAndRight: a seam of the left one of a pair has its like at the left one of the
// pair that is like it.
func TestLikeLeftAndRight(t *testing.T) {
	room := &Room{Workroom: &Workroom{}, FS: fstest.MapFS{"build.yaml": {Data: []byte(`name: Skirt
garment: skirt
state: planned
cloth: {shell: drill, lining: drill}
pieces:
  front: {cut: 2, outline: {hem: [300, 0], side: [290, 600], waist: [0, 600], centre: [0, 0]}}
  back: {cut: 1, rectangle: [600, 600]}
  lining: {like: [front, back], of: lining}
seams:
  left side: [left front.side, back.right]
  right side: [right front.side, back.left]
  front: [left front.centre, right front.centre]
  lining: {like: [left side, right side, front]}
`)}}}
	b, faults := room.ReadBuild(BuildFile{Slug: "skirt", Path: "build.yaml"})
	for _, f := range faults {
		if !strings.Contains(f.String(), "in content/cloth") { // which is not read here
			t.Error(f)
		}
	}
	var seams []string
	for i := 3; i < len(b.Seams); i++ {
		s := &b.Seams[i]
		if len(s.Join) != 2 {
			t.Fatalf("%s joins %v", s.Name.V, s.Join)
		}
		seams = append(seams, s.Name.V+": "+s.Join[0][0].String()+" and "+s.Join[1][0].String())
	}
	if want := []string{
		"lining left side: left front lining.side and back lining.right",
		"lining right side: right front lining.side and back lining.left",
		"lining front: left front lining.centre and right front lining.centre",
	}; !slices.Equal(seams, want) {
		t.Errorf("seams %q, want %q", seams, want)
	}
}
