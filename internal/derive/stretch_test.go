package derive

import (
	"strings"
	"testing"
)

const (
	ribJersey = "name: Otter jersey\nfibres: {cotton: 95, elastane: 5}\nstructure: knitted\nwidth: 1500\nstretch: {across: 50, along: 20}\nrecovery: 90\n"
	jerseyTop = `cloth: {shell: jersey}
drafted-for: {waist: 920}
usual: {least-ease: {waist: -200}, seam: {type: plain, stitch: 504}}
pieces:
  front: {cut: 1 on fold, outline: {hem: {to: [184, 0], level: none}, side: [184, 300], waist: [0, 300], centre: fold}}
  back: {like: front, cut: 1 on fold}
seams:
  sides: [front.side, back.side]
finishes:
  hem: {of: [front.hem, back.hem], type: cover-stitched-hem}
  top: {of: [front.waist, back.waist], type: cover-stitched-hem}
`
)

// A body of 92 cm in a cloth of 50 % of which half is used wants 92 ÷ (1 + 0.5 × 0.5) =
// 73.6 cm: elementary geometry. So a waist of 4 × 184 = 736 mm on 920 has −184 of ease,
// is stretched by 184 ÷ 736 = 25 % when it is worn and by 50 %, to 736 × 1.5 = 1104, at
// the most; of the 184 a tenth, 18.4, does not go back.
func TestStretchedOnTheBody(t *testing.T) {
	room := roomWith(t).file("content/cloth/jersey.yaml", ribJersey)
	deriveClean(t, room, jerseyTop).is(t, 1e-9, map[string]float64{
		"level.waist.finished": 736, "level.waist.ease": -184, "level.waist.ease-part": -20,
		"level.waist.most": 1104, "level.waist.worn": 25, "level.waist.stays": 18.4,
	})
	// Across the grain the length of the cloth lies round the body, which gives 20 %: the
	// back alone, 368 × 1.5 + 368 × 1.2 = 993.6.
	turned := strings.Replace(jerseyTop, "back: {like: front, cut: 1 on fold}", "back: {like: front, cut: 1 on fold, grain: across}", 1)
	deriveClean(t, room, turned+"\n").is(t, 1e-9, map[string]float64{"level.waist.most": 993.6})
	// A woven back gives nothing: 368 × 1.5 + 368 = 920, which is just enough.
	woven := strings.NewReplacer("{shell: jersey}", "{shell: jersey, panel: linen}", "back: {like: front, ", "back: {like: front, of: panel, ").Replace(jerseyTop)
	deriveClean(t, room, woven).is(t, 1e-9, map[string]float64{"level.waist.most": 920})
}

func TestStretchIsJudged(t *testing.T) {
	for _, c := range []struct{ old, now, cloth, want, hint string }{
		{"waist: 920}", "waist: 1110}", "", "waist: 736 mm stretches to 1104 mm at most, the body is 1110 mm", "widen the pieces, or take a cloth that gives more"},
		{"waist: 920}", "waist: 1104}", "", "waist: −368 mm of ease, you asked for −200 mm", ""},
		{"back: {like: front,", "back: {like: front, of: [shell, fusing],", "", "", ""}, // 368 × 1.5 + 368 = 920
		{"waist: 920}", "waist: 930}", "stretch: {across: 20}", "waist: 736 mm stretches to 883 mm at most, the body is 930 mm", ""},
		{"waist: -200", "waist: -100", "", "waist: −184 mm of ease, you asked for −100 mm", ""},
		{"stitch: 504", "stitch: 301", "", "sides: stitch 301 (lockstitch) does not stretch, and Otter jersey does", "stitch: 504 (overlock) stretches, so does 304 (zigzag)"},
		{"stitch: 504", "stitch: 301", "stretch: {across: 50, along: 18}", "", ""}, // the sides run up the cloth
		{"stitch: 504", "stitch: 304", "", "", ""},
		{"finishes:", "notions: {stay tape: {along: front.side}}\nfinishes:", "", "", ""},
		{"type: cover-stitched-hem}\n  top", "type: double-turned-hem, depth: 20}\n  top", "", "hem: stitch 301 (lockstitch) does not stretch, and Otter jersey does", ""},
		{"type: cover-stitched-hem}\n  top", "type: twin-needle-hem}\n  top", "", "", ""},
	} {
		cloth := ribJersey
		if c.cloth != "" {
			cloth = strings.Replace(cloth, "stretch: {across: 50, along: 20}", c.cloth, 1)
		}
		text := strings.Replace(jerseyTop, c.old, c.now, 1)
		if strings.Contains(c.now, "fusing") {
			text = strings.Replace(text, "{shell: jersey}", "{shell: jersey, fusing: linen}", 1)
		}
		if strings.Contains(c.now, "stay tape") {
			text = strings.Replace(text, "stitch: 504", "stitch: 301", 1)
		}
		g, faults := roomWith(t).file("content/cloth/jersey.yaml", cloth).desk().derive(t, head+text)
		found := false
		faults = append(faults, g.Faults...)
		for _, f := range faults {
			said := f.Message == c.want && strings.Contains(f.Hint, c.hint)
			found = found || said
			if !said && (strings.Contains(f.Message, "stretch") || strings.Contains(f.Message, "ease")) {
				t.Errorf("%s: %s (%s)", c.now, f.Message, f.Hint)
			}
		}
		if found != (c.want != "") {
			t.Errorf("%s: nothing said %q; %v", c.now, c.want, faults)
		}
	}
}

// A band of share 0.8 must stretch by 1 ÷ 0.8 − 1 = 25 %: just what a rib of 25 gives
// across; cut across the cloth it lies along it.
func TestBandsMustStretch(t *testing.T) {
	const tube = `cloth: {shell: jersey, rib: rib}
usual: {seam: {type: plain, stitch: 504}}
pieces:
  sleeve: {cut: 2, rectangle: [250, 400]}
  cuff: {cut: 2, of: rib, band: {width: 50, share: 0.8}}
seams:
  arms: [sleeve.right, sleeve.left]
  cuffs: [cuff.bottom, sleeve.bottom]
`
	for _, c := range []struct{ stretch, grain, share, want string }{
		{"{across: 25, along: 10}", "", "0.8", ""},
		{"{across: 24, along: 10}", "", "0.8", "cuff must stretch 25 %, Rib gives 24 there"},
		{"{across: 25, along: 10}", "grain: across, ", "0.8", "cuff must stretch 25 %, Rib gives 10 there"},
		{"{across: 60}", "", "0.5", "cuff must stretch 100 %, Rib gives 60 there"},
	} {
		text := strings.NewReplacer("of: rib, ", "of: rib, "+c.grain, "share: 0.8", "share: "+c.share).Replace(tube)
		room := roomWith(t).file("content/cloth/jersey.yaml", ribJersey).
			file("content/cloth/rib.yaml", "name: Rib\nfibres: {cotton: 100}\nstructure: knitted\nwidth: 900\nstretch: "+c.stretch+"\n")
		g, faults := room.desk().derive(t, head+text)
		told := ""
		for _, f := range append(faults, g.Faults...) {
			if strings.Contains(f.Message, "must stretch") {
				told = f.Message
			}
		}
		if told != c.want {
			t.Errorf("%v: told %q", c, told)
		}
	}
}
