package derive

import (
	"math"
	"strings"
	"testing"

	"hembook/internal/sewn"
)

// open is a record that leaves four things open, the lines WORDS of which settle them.
const open = `cloth: {shell: linen}
pieces:
  front: {of: shell, cut: 1 on fold, outline: {from: [0, 700], waist: {to: [240, 700], level: none}, side: [240, 900], armhole: [180, 1080], shoulder: [100, 1100], neck: [0, 1000], centre: fold}, FRONT}
  back: {of: shell, cut: 1 on fold, outline: {from: [0, 700], waist: {to: [240, 700], level: none}, side: [240, 900], armhole: [180, 1080], shoulder: [100, 1100], neck: [0, 1000], centre: fold}}
  sleeve: {of: shell, cut: 2, outline: {from: [60, -300], wrist: [260, -300], left: [379.5, 0], head: {to: [0, 0], curve: [[290, 150], [89.5, 150]]}, right: [60, -300]}, SLEEVE}
  long sleeve: {of: shell, cut: 1, outline: {from: [60, -300], cuff line: [260, -300], left: [320, 0], head: [0, 0], right: [60, -300]}}
  bag: {of: shell, cut: 1, outline: {from: [0, 0], bottom: [240, 0], right: [200, 300], mouth: [0, 300], left: [0, 0]}}
  flap: {of: shell, cut: 1, outline: {from: [0, 0], root: [200, 0], slope: [150, 120], tip: [60, 120], END: [0, 0]}}
seams:
  sides: [front.side, back.side]
  shoulders: [front.shoulder, back.shoulder]
  sleeve seams: {join: [sleeve.left, sleeve.right], ease: 17}
  heads: {join: [sleeve.head, [front.armhole, back.armhole]], ease: 82.4}
  flap: [flap.root, bag.mouth]
  LONG
notions:
  zip: {length: 150, along: long sleeve.left}
`

// settle writes the words that settle what is open; those left out stay open.
func settle(words map[string]string) string {
	text := open
	for word, usual := range map[string]string{"FRONT": "grain: along", "SLEEVE": "grain: along", "END": "end", "LONG": "long seam: [long sleeve.left, long sleeve.right]"} {
		if w, said := words[word]; said {
			usual = w
		}
		text = strings.Replace(text, word, usual, 1)
	}
	return text
}

// TestChoices: each of what a record leaves open is told with both readings, and the
// word that is named for one of them settles it as that.
func TestChoices(t *testing.T) {
	kinds := func(g *Garment) (out []sewn.QuestionKind) {
		for i := range g.Choices {
			out = append(out, g.Choices[i].Kind)
		}
		return out
	}
	derive := func(words map[string]string) *Garment {
		g, faults := roomWith(t).desk().derive(t, head+settle(words))
		for _, f := range faults {
			t.Errorf("%v: %s", words, f)
		}
		return g
	}
	all := derive(nil)
	if len(all.Choices) != 3 {
		t.Fatalf("asked %v, want the way up of the flap, the zip's end and the sleeve", kinds(all))
	}
	opens := func(g *Garment, at float64) bool {
		for _, slit := range g.Sewn.Slits() {
			for _, id := range slit.Joins {
				for _, sp := range []sewn.Span{g.Sewn.Joins[id].A, g.Sewn.Joins[id].B} {
					for _, end := range []float64{sp.From, sp.To} {
						if math.Abs(g.Sewn.HeightAt(sp.Side, end)-at) < 1 {
							return true
						}
					}
				}
			}
		}
		return false
	}
	// The seam is √(60² + 300²) = 305.94 long; 155.94 of it are sewn.
	for _, c := range []struct {
		words   map[string]string
		settled sewn.QuestionKind
		holds   func(*Garment) bool
	}{
		{map[string]string{"END": "left"}, sewn.WhichWayUp, func(g *Garment) bool { return true }},
		{map[string]string{"LONG": "long seam: [long sleeve.left from head for 155.94, long sleeve.right from head for 155.94]"}, sewn.WhichEnd,
			func(g *Garment) bool { return opens(g, -300) && !opens(g, 0) }},
		{map[string]string{"LONG": "long seam: [long sleeve.left from cuff line for 155.94, long sleeve.right from cuff line for 155.94]"}, sewn.WhichEnd,
			func(g *Garment) bool { return opens(g, 0) && !opens(g, -300) }},
		{map[string]string{"FRONT": "notches: {armhole: [{at: 60, name: f}]}", "SLEEVE": "notches: {head: [{at: 60, name: f}]}"}, sewn.WhichOfPair, func(g *Garment) bool { return true }},
	} {
		g := derive(c.words)
		if len(g.Choices) != 2 {
			t.Errorf("%v: asked %v", c.words, kinds(g))
		}
		for i := range g.Choices {
			if g.Choices[i].Kind == c.settled {
				t.Errorf("%v: still asked %v", c.words, c.settled)
			}
		}
		if !c.holds(g) {
			t.Errorf("%v: the zip opens %+v", c.words, g.Sewn.Slits())
		}
	}
}
