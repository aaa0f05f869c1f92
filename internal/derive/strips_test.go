package derive

import (
	"strings"
	"testing"
)

// A skirt of two panels of 480 × 600, so 960 round, with 200 of its left side a zip.
const elasticSkirt = `
cloth: {shell: linen, rib: linen}
pieces:
  front: {of: shell, cut: 1, rectangle: [480, 600], edges: {top: {level: waist}}}
  back: {of: shell, cut: 1, rectangle: [480, 600], edges: {top: {level: waist}}}
seams:
  right side: {join: [front.right, back.left], type: plain}
  left side: {join: [front.left, back.right], type: plain}
  opening: {join: [front.left from top for 200, back.right from top for 200], type: ZIP}
finishes:
  waist: {of: [front.top, back.top], FINISH}
  hem: {of: [front.bottom, back.bottom], type: double-turned-hem}
`

func skirtOf(t *testing.T, zip, finish, more string) *Garment {
	t.Helper()
	text := strings.NewReplacer("ZIP", zip, "FINISH", finish).Replace(elasticSkirt)
	g, faults := roomWith(t).desk().derive(t, head+text+more)
	for _, f := range faults {
		t.Errorf("%s, %s: %s", zip, finish, f)
	}
	for _, f := range g.Faults {
		t.Errorf("%s, %s: %s", zip, finish, f)
	}
	return g
}

// TestElasticDrawsIn: elastic of 0.85 of a waist of 960 is 816 long, and so is the waist
// then; of 0.9 it is 864; one of 800 is what it is. A casing's elastic is the notion that
// lies in it, and is not taken twice. The arithmetic is exact.
func TestElasticDrawsIn(t *testing.T) {
	for _, c := range []struct {
		finish, notions string
		want            map[string]float64
	}{
		{"type: plush-elastic", "", map[string]float64{
			"finish.waist.strip-1.cut": 10, "finish.waist.strip-1.each": 816, "finish.waist.strip-1.length": 0.816, "finish.waist.drawn": 0.85, "level.waist.finished": 816}},
		{"type: plush-elastic, share: 0.9", "", map[string]float64{"finish.waist.strip-1.each": 864, "level.waist.finished": 864}},
		{"type: plush-elastic, length: 800", "", map[string]float64{"finish.waist.strip-1.each": 800, "finish.waist.strip-1.length": 0.8, "level.waist.finished": 800}},
		{"type: casing", "", map[string]float64{"finish.waist.strip-1.cut": 20, "finish.waist.strip-1.each": 864, "level.waist.finished": 864}},
		{"type: casing", "notions: {elastic: {in: waist, length: 800}}\n", map[string]float64{"notion.elastic.length": 800, "level.waist.finished": 800}},
		{"type: casing", "notions: {elastic: {in: waist, share: 0.8}}\n", map[string]float64{"notion.elastic.length": 768, "level.waist.finished": 768}},
		{"type: turned-edge", "notions: {front elastic: {along: front.top, share: 0.75}}\n", map[string]float64{ // 0.75 × 480 and 480
			"notion.front-elastic.length": 360, "piece.front.edge.top.drawn": 0.75, "level.waist.finished": 840}},
		{"type: drawstring-casing", "", map[string]float64{ // 960 and two ends of 250; a cord keeps no length
			"finish.waist.strip-1.each": 1460, "finish.waist.strip-1.length": 1.46, "level.waist.finished": 960, "level.waist.let-out": 18}},
		{"type: rib-band, strip: rib, width: 30", "", map[string]float64{ // cut twice 30 and 6; 0.072 × 0.816 of the cloth
			"finish.waist.strip-1.cut": 72, "finish.waist.strip-1.each": 816, "cloth.rib.cut-area": 0.058752, "level.waist.let-out": 0}},
		{"type: bound-edge", "", map[string]float64{"finish.waist.strip-1.length": 0.96, "level.waist.finished": 960}},
	} {
		g := skirtOf(t, "zip-centred", c.finish, c.notions)
		holds(t, g, c.want)
		if strings.Contains(c.finish, "casing") && c.notions != "" {
			if n := len(g.Finishes[0].Strips); n != 0 {
				t.Errorf("%s with its elastic as a notion takes %d strips more", c.finish, n)
			}
		}
	}
}

// TestZipSeamOpens: a seam of a zip's type is a slit as long as its edges, takes a zip
// of that length and none where the record has one, and is sewn all along itself.
func TestZipSeamOpens(t *testing.T) {
	g := skirtOf(t, "zip-lapped", "type: bound-edge", "")
	holds(t, g, map[string]float64{
		"seam.opening.strip-1.cut": 25, "seam.opening.strip-1.each": 200, "seam.opening.total": 0.2, "seam.left-side.total": 0.4, "level.waist.finished": 960,
	})
	if len(g.Slits) != 1 || g.Slits[0].By != "zip of opening" || g.Slits[0].Length.Value.Number != 200 {
		t.Errorf("slits: %+v", g.Slits)
	}
	if rows := g.RowsOf("seam", "opening"); len(rows) != 3 || !rows[0].Temporary {
		t.Errorf("%d rows", len(rows))
	}
	g = skirtOf(t, "zip-invisible", "type: bound-edge", "")
	holds(t, g, map[string]float64{"seam.opening.strip-1.each": 225})
	g = skirtOf(t, "zip-lapped", "type: bound-edge", "notions: {brass zip: {length: 200, in: opening}}\n")
	if len(g.Slits) != 1 || g.Slits[0].By != "brass zip" || len(g.Seams[2].Strips) != 0 {
		t.Errorf("slits %+v, strips %+v", g.Slits, g.Seams[2].Strips)
	}
	holds(t, g, map[string]float64{"seam.opening.total": 0.2})
}

// TestFlyBringsPieces: a fly of 200 brings a facing of 45 and 15 by 200 and 20, and a
// shield of twice 40 and 15 less twice 6 by as much; both are cut from the first cloth.
// The panels have 15 at the sides, 40 at the hem and none at the bound waist:
// 2 × 0.510 × 0.640 + 0.06 × 0.22 + 0.086 × 0.22 = 0.68492 m².
func TestFlyBringsPieces(t *testing.T) {
	g := skirtOf(t, "zip-fly", "type: bound-edge", "")
	holds(t, g, map[string]float64{
		"seam.opening.piece-1.cut": 60, "seam.opening.piece-1.each": 220, "seam.opening.piece-2.cut": 86, "seam.opening.piece-2.each": 220,
		"cloth.shell.cut-area": 0.68492,
	})
}

// TestShareOfNothing: a share is said of a type with a strip.
func TestShareOfNothing(t *testing.T) {
	_, faults := roomWith(t).desk().derive(t, head+strings.NewReplacer("ZIP", "plain", "FINISH", "type: turned-edge, share: 0.9").Replace(elasticSkirt))
	g, _ := roomWith(t).desk().derive(t, head+strings.NewReplacer("ZIP", "plain", "FINISH", "type: turned-edge, share: 0.9").Replace(elasticSkirt))
	told := ""
	for _, f := range append(faults, g.Faults...) {
		told += f.String() + "\n"
	}
	if want := "waist: turned-edge has no strip, so share: means nothing here"; !strings.Contains(told, want) {
		t.Errorf("%q is not told in\n%s", want, told)
	}
}

// TestDrawstringOfAChild: a cord that a casing takes of itself is asked about as a notion
// is: refused at a child's neck, and at its waist until it is said how long it hangs.
func TestDrawstringOfAChild(t *testing.T) {
	for place, want := range map[string]string{"neck": "refused", "waist": "asked"} {
		text := strings.NewReplacer("ZIP", "zip-centred", "FINISH", "type: drawstring-casing", "level: waist", "level: "+place, "  waist: {of: [front.top", "  "+place+": {of: [front.top").Replace(elasticSkirt)
		g, _ := roomWith(t).desk().derive(t, head+"for: {who: girl, age: 5}\n"+text)
		got := ""
		for _, m := range g.Children {
			if m.What == "drawstring at the "+place {
				got = [...]string{"noted", "unruled", "refused", "asked"}[m.Verdict]
			}
		}
		if got != want {
			t.Errorf("a drawstring at the %s of a child is %q, not %q: %v", place, got, want, g.Children)
		}
	}
}

// A yoke of 400 on a back of 400, its inside a piece of its own or the same one cut twice.
const doubleYoke = `
cloth: {shell: linen}
pieces:
  back: {of: shell, cut: 1, rectangle: [400, 700]}
  yoke: {of: YOKE, cut: 1, rectangle: [400, 120]}
  INNER
seams:
  yoke seam: {join: [back.top, yoke.bottom OTHER], type: yoke-enclosed}
finishes:
  hem: {of: back.bottom, type: double-turned-hem}
`

// TestThirdSide: the second row of an enclosed yoke passes the yoke twice, the back and
// the inner yoke twice: five layers, whichever way the inner yoke is said. A yoke alone
// is told of.
func TestThirdSide(t *testing.T) {
	for _, c := range []struct{ of, inner, other, told string }{
		{"shell", "inner yoke: {like: yoke, cut: 1, of: shell}", ", inner yoke.bottom", ""},
		{"[shell, shell]", "", "", ""},
		{"shell", "", "", "yoke seam: yoke-enclosed joins three edges, and no third one lies behind yoke.bottom"},
	} {
		d := roomWith(t).desk()
		g, faults := d.derive(t, head+strings.NewReplacer("YOKE", c.of, "INNER", c.inner, "OTHER", c.other).Replace(doubleYoke))
		told := ""
		for _, f := range append(faults, g.Faults...) {
			if strings.Contains(f.Message, "three edges") {
				told += f.Message
			}
		}
		if told != c.told {
			t.Errorf("%s: told %q", c.of, told)
		}
		if c.told != "" {
			continue
		}
		for _, r := range d.tailor.Through(g.Garment) {
			if r.Row.Of == "yoke seam" && r.Row.Pass == 2 && r.Plies.Value.Number != 5 {
				t.Errorf("%s: the second row passes %v layers", c.of, r.Plies.Value)
			}
		}
	}
}

// A sleeve cut on the fold is 500 round its wrist, drawn as a half of 250: elastic of 300
// lies in it once and draws it in to 0.6, and a cord is 500 + 2 × 250 long. Two fronts of
// 200 and a back of 500, open in front, have one band of 0.85 × 900 = 765 along the hem.
func TestStripsRunOverFoldsAndSeams(t *testing.T) {
	const sleeves = `
cloth: {shell: linen}
pieces:
  sleeve: {cut: 2 on fold, rectangle: [250, 400], edges: {left: fold}}
  front: {cut: 2, rectangle: [200, 500]}
  back: {cut: 1 on fold, rectangle: [250, 500], edges: {left: fold}}
seams:
  sides: {join: [front.right, back.right], type: plain}
finishes:
  wrists: {of: sleeve.bottom, FINISH}
  hem: {of: [front.bottom, back.bottom], type: rib-band}
`
	for finish, want := range map[string]map[string]float64{
		"type: casing, length: 300": {"finish.wrists.drawn": 0.6, "finish.wrists.strip-1.each": 300, "finish.wrists.strip-1.length": 0.6},
		"type: drawstring-casing":   {"finish.wrists.strip-1.each": 1000, "finish.wrists.strip-1.length": 2},
		"type: plush-elastic":       {"finish.wrists.strip-1.each": 425, "finish.wrists.strip-1.length": 0.85},
	} {
		want["finish.hem.strip-1.each"], want["finish.hem.strip-1.length"] = 765, 0.765
		g, _ := roomWith(t).desk().derive(t, head+strings.ReplaceAll(sleeves, "FINISH", finish))
		holds(t, g, want)
	}
}
