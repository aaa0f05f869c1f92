package derive

import (
	"hembook/internal/label"
	"strings"
	"testing"
)

// TestNotionsOfChildren: notions in makers' words, by age and place of the body,
// and what the published limits say of each. EN 14682 and ASTM F1816 are known
// here by published summaries alone, named by their letters:
//
//	C  CCPC, Information video on unsafe cords and drawstrings in children's
//	   clothing, 22 June 2010 (EN 14682:2007)
//	T  Finnish Safety and Chemicals Agency (Tukes), summary of EN 14682
//	S  Singapore Consumer Product Safety Office, Safety tips on children's apparel
//	B  Baijian test house note on EN 14682:2007, 2011
//	G  garmentstech.com (a belt of 36 cm, at least 3 cm wide)
//	H  Hohenstein as reported by cleankids.de, 2014 (zip pulls of 75 mm)
//	U  CPSC FAQ and 16 CFR 1120 (76 FR 42502); UL summary of ASTM F1816-18
//	–  nothing published names it: what is not classed is asked about
func TestNotionsOfChildren(t *testing.T) {
	const young, older, teen, short = "{who: girl, age: 5}", "{who: boy, age: 10}", "{who: girl, age: 15}", "{who: boy, height: 1250}"
	for i, c := range []struct {
		who, notion, want, source string
	}{
		{young, "ribbon: {where: neck}", "asked", "–"},
		{young, "satin ribbon: {where: neck, kind: tie}", "refused", "C T"},
		{young, "velvet ribbon: {where: neck, kind: sewn flat}", "passed", "C T"},
		{young, "sash: {where: neck, length: 200}", "refused", "C T"},
		{young, "drawcord: {where: neck}", "refused", "C T"},
		{young, "drawstring: {where: hood}", "refused", "C T"},
		{young, "Hood cord with cord stops: {where: front}", "refused", "C T"},
		{young, "bow: {where: neck}", "asked", "–"},
		{young, "bow: {where: neck, kind: sewn flat}", "passed", "C T"},
		{young, "pussy bow: {}", "refused", "C T"},
		{young, "lace: {where: neck}", "asked", "–"},
		{young, "lace edging: {where: neck}", "passed", "C T"},
		{young, "halter ties: {where: back}", "refused", "C T"},
		{young, "bonnet strings: {}", "refused", "C T"},
		{young, "tassels: {where: hood}", "refused", "C T"},
		{young, "toggles: {where: hood}", "asked", "–"},
		{young, "cord locks: {where: hood}", "refused", "C T"},
		{young, "elastic: {where: neck}", "passed", "T"},
		{young, "elastic cord: {where: hood}", "refused", "C T"},
		{young, "button loop: {where: neck, length: 30}", "noted", "B"},
		{young, "rouleau loop: {where: neck, length: 90}", "refused", "B"},
		{young, "hanging loop: {where: neck}", "asked", "B"},
		{young, "zip: {where: neck}", "passed", "H"},
		{young, "zipper: {where: front, free: 90}", "refused", "H"},
		{young, "drawstring: {where: waist}", "asked", "C S"},
		{young, "draw cord: {where: waist, free: 140}", "noted", "C S"},
		{young, "drawstring: {where: waist, free: 160}", "refused", "C S"},
		{young, "drawstring: {where: waist, length: 900}", "asked", "C S"},
		{young, "cord stop: {where: waist}", "refused", "B"},
		{young, "ties: {where: waist, length: 120}", "noted", "C S"},
		{young, "ties: {where: waist, length: 300}", "refused", "C S"},
		{young, "tie belt: {where: waist, length: 360}", "noted", "C G"},
		{young, "sash: {where: front, length: 400}", "refused", "C G"},
		{young, "sash: {where: back, length: 300}", "noted", "B S"},
		{young, "apron strings: {where: back, length: 300}", "refused", "B"},
		{young, "ties: {where: back, length: 520}", "refused", "B"},
		{young, "tie: {kind: sash, where: back, length: 520}", "refused", "B S C"},
		{young, "drawstring: {where: hem, free: 50}", "refused", "C B"},
		{young, "ankle ties: {where: ankle}", "refused", "C B"},
		{young, "elastic: {where: ankle}", "passed", "C B"},
		{young, "cuff ties: {where: sleeve}", "unruled", "–"},
		{young, "shoelaces: {kind: sewn flat, where: front}", "asked", "–"},
		{young, "sash: {}", "asked", "–"},
		{young, "sash: {where: other}", "asked", "–"},
		{young, "belt: {where: waist}", "asked", "–"},
		{young, "whatsit: {what: other, where: neck}", "asked", "–"},
		{young, "corozo buttons: {where: back}", "passed", "–"},
		{young, "poppers: {where: front}", "passed", "–"},
		{young, "petersham: {where: waist}", "passed", "–"},
		{"{who: baby, age: 1}", "pompoms: {where: head}", "noted", "–"},
		{"girl", "neck tie: {}", "refused", "C T"}, // age unsaid: the stricter case
		{short, "drawcord: {where: hood}", "refused", "C T"},
		{older, "drawstring: {where: hood}", "refused", "C S"},
		{older, "drawcord and toggles: {where: hood}", "refused", "C S"},
		{older, "cord: {kind: tie, where: neck, length: 75}", "noted", "C"},
		{older, "cord: {kind: tie, where: neck, length: 80}", "refused", "C"},
		{older, "ribbon: {where: neck}", "asked", "–"},
		{older, "sash: {where: back, length: 350}", "noted", "B S"},
		{older, "drawstring: {where: waist, free: 150}", "refused", "C S"},
		{older, "duffel toggles: {kind: closure, where: front}", "passed", "–"},
		{teen, "drawstring: {where: waist, free: 150}", "passed", "EN 14682 to 14 years"},
		{teen + " us", "drawstring: {where: waist, free: 150}", "refused", "U"},
		{teen + " us", "drawstring: {where: waist, free: 75}", "noted", "U"},
		{teen + " us", "drawstring: {where: hood}", "passed", "U (hood: sizes 2T to 12)"},
		{older + " us", "drawstring: {where: waist, free: 100}", "refused", "U"},
		{older + " us", "hood string: {}", "refused", "C S U"},
		{"{who: girl, age: 17} us", "drawstring: {where: waist, free: 150}", "passed", "U"},
		{"woman", "halter ties: {where: neck, length: 500}", "passed", "grown"},
	} {
		who, us := strings.CutSuffix(c.who, " us")
		r := roomWith(t)
		if us {
			r.file("content/workroom.yaml", "name: Test workroom\nrules: US\n")
		}
		g, faults := r.desk().derive(t, "name: Test\nstate: sewing\ngarment: jacket\nfor: "+who+"\nnotions: {"+c.notion+"}\n")
		for _, f := range faults {
			t.Errorf("%d %s: %s", i, c.notion, f)
		}
		got, says := "passed", ""
		for _, m := range g.Children {
			if word := [...]string{"noted", "unruled", "refused", "asked"}[m.Verdict]; got == "passed" || m.Verdict > label.Noted {
				got, says = word, m.String()
			}
		}
		if got != c.want {
			t.Errorf("%s: {%s} is %s (%s), and is to be %s (%s)", c.who, c.notion, got, says, c.want, c.source)
		}
		t.Logf("| %d | %s | %s | %s | %s |", i+1, c.who, c.notion, got, c.source)
	}
}

// Nightwear of children by any of its names waits for an answer; a coat of a
// child and the nightshirt of a grown woman do not.
func TestNightwearOfChildren(t *testing.T) {
	for _, c := range []struct {
		garment, who, more string
		want               int // −1 where nothing is said
	}{
		{"nightshirt", "{who: girl, age: 5}", "", int(label.Asked)},
		{"dressing gown", "{who: boy, age: 12}", "", int(label.Asked)},
		{"pyjama trousers", "{who: boy, age: 3}", "", int(label.Asked)},
		{"flannel pajamas", "child", "", int(label.Asked)},
		{"sleepsuit", "baby", "", int(label.Asked)},
		{"onesie", "{who: girl, age: 9}", "", int(label.Asked)},
		{"bathrobe", "{who: girl, age: 14}", "", int(label.Asked)},
		{"nightie", "{who: girl, age: 5}", "packet: {nightwear: tested to EN 14878 by the mill}\n", int(label.Noted)},
		{"nightie", "{who: girl, age: 15}", "", -1},
		{"coat", "{who: girl, age: 5}", "", -1},
		{"nightshirt", "woman", "", -1},
	} {
		g, _ := roomWith(t).desk().derive(t, "name: Test\nstate: sewing\ngarment: "+c.garment+"\nfor: "+c.who+"\n"+c.more)
		got := -1
		for _, m := range g.Children {
			got = int(m.Verdict)
		}
		if got != c.want {
			t.Errorf("%s for %s: %v", c.garment, c.who, g.Children)
		}
	}
}

// Where the record does not say who it is for, its words and measurements may:
// then it is asked, and judged as for a young child.
func TestUnsaidChild(t *testing.T) {
	for _, c := range []struct {
		build string
		asked bool
	}{
		{"name: Child's pinafore\ngarment: pinafore\n", true},
		{"name: Pinafore\ngarment: girl's dress\n", true},
		{"name: Pinafore\ngarment: dress\nsummary: A dress for a toddler.\n", true},
		{"name: Pinafore\ngarment: dress\ndrafted-for: {chest: 570}\n", true},
		{"name: Pinafore\ngarment: dress\ndrafted-for: {chest: 570}\nfor: anyone\n", true},
		{"name: Pinafore\ngarment: dress\ndrafted-for: {chest: 570}\nfor: woman\n", false},
		{"name: Pinafore\ngarment: dress\nfor: {height: 1200}\n", true},
		{"name: Pinafore\ngarment: dress\nfor: {height: 1700}\n", false},
		{"name: Pinafore\ngarment: dress\ndrafted-for: {bust: 840}\n", false},
	} {
		g, _ := roomWith(t).desk().derive(t, "state: sewing\nnotions: {halter ties: {length: 300}}\n"+c.build)
		_, cautioned := g.cautioned("cords-young-child")
		asked := len(g.Children) > 0 && g.Children[0].Verdict == label.Asked && g.Children[0].What == "who it is for"
		if asked != c.asked || cautioned != c.asked {
			t.Errorf("%q: asked %v, cautioned %v", c.build, asked, cautioned)
		}
	}
}

// A piece that is called a tie is asked about until a notion tells of it.
func TestPieceThatHangs(t *testing.T) {
	const build = "for: {who: girl, age: 5}\ncloth: {shell: linen}\npieces: {back tie: {of: shell, cut: 2, rectangle: [60, 300]}}\n"
	for more, want := range map[string]int{"": 1, "notions: {tie: {kind: sash, where: back, length: 300}}\n": 0} {
		g, _ := roomWith(t).desk().derive(t, head+build+more)
		n := 0
		for _, m := range g.Children {
			if m.Verdict == label.Asked {
				n++
			}
		}
		if n != want {
			t.Errorf("%q: %v", more, g.Children)
		}
	}
}

// Bands, collars and yokes are pieces of any garment and nobody is asked about
// them; a belt may hang.
func TestPiecesThatDoNotHang(t *testing.T) {
	for name, asked := range map[string]bool{"neck band": false, "button band": false, "collar": false, "waistband": false, "lace yoke": false, "front": false, "belt": true, "hood drawstring": true} {
		build := "for: {who: girl, age: 5}\ncloth: {shell: linen}\npieces: [{name: " + name + ", of: shell, cut: 2, rectangle: [60, 300]}]\n"
		if g, _ := roomWith(t).desk().derive(t, head+build); (len(g.Children) > 0) != asked {
			t.Errorf("%s: %v", name, g.Children)
		}
	}
}
