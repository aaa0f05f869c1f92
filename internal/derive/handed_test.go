package derive

import (
	"maps"
	"math"
	"regexp"
	"slices"
	"strings"
	"testing"

	"hembook/internal/fault"
	"hembook/internal/garment"
)

// pairText is a bodice of a pair of fronts and a pair of backs, each as far as a wearer's
// left front is drawn: middle at x = 0, side at x = 200. So of the fronts the left one is
// drawn, and of the backs the right one.
const pairText = `cloth: {shell: linen}
pieces:
  front:
    cut: 2
    outline: {hem: [200, 0], side: [200, 400], shoulder: [80, 450], neck: [0, 450], centre: [0, 0]}
    notches: {side: 60}
    darts: {hem: {at: 80, width: 10, point: [80, 150]}}
    levels: {chest: 300}
  back:
    cut: 2
    outline: {hem: [200, 0], side: [200, 400], shoulder: [80, 450], neck: [0, 450], centre: [0, 0]}
    notches: {side: 60}
    lines: {yoke: {from: [40, 200], to: [160, 210]}}
    levels: {chest: 300}
seams:
  sides: [front.side, back.side]
  shoulders: [front.shoulder, back.shoulder]
  centre front: [front.centre, front.centre]
  centre back: [back.centre, back.centre]
finishes:
  hem: {of: [front.hem, back.hem], type: single-turned-hem, depth: 20}
  necks: {of: [front.neck, back.neck], type: single-turned-hem, depth: 10}
`

func round(change string) string {
	return "fittings:\n  - {day: 2026-08-15, saw: it is uneven, change: {" + change + "}}\n"
}

// derived is a build with a round.
func derived(t *testing.T, text, change string) (*Garment, map[string]*garment.Piece) {
	t.Helper()
	g, faults := roomWith(t).desk().derive(t, head+text+round(change))
	for _, f := range faults {
		if f.Severity == fault.Error {
			t.Errorf("%s: %v", change, f)
		}
	}
	pieces := map[string]*garment.Piece{}
	for _, p := range g.Pieces {
		pieces[p.Name] = p
	}
	return g, pieces
}

func area(p *garment.Piece) float64 {
	if p == nil {
		return math.NaN()
	}
	return p.Outline.Area()
}

// TestOneOfPairAlone works three bodies out by hand. A front has 200 × 400 + 50 × (200 + 80)
// / 2 = 87 000 mm².
func TestOneOfPairAlone(t *testing.T) {
	tests := []struct {
		change string
		areas  map[string]float64
		want   map[string]float64
	}{
		// The side moves 10 outwards along hem and shoulder: the shoulder falls 50 in 120, so
		// the side ends at 400 − 10 × 50 / 120 = 395.8333, and 10 × (400 + 395.8333) / 2 are added.
		{"left front.side: 10", map[string]float64{"left front": 87000 + 10*(400+400-500.0/120)/2, "right front": 87000},
			map[string]float64{"level.chest.finished": 810, "level.hem.finished": 790, "seam.left-side.difference": 500.0 / 120, "seam.right-side.difference": 0}},
		// The shoulder is let out by 6 at its end, at the neck: it goes up the neck's own way, level,
		// so this one is let out at the side: 6 up the side, a triangle of 120 × 6 / 2 = 360.
		{"right front.shoulder: {start: 6}", map[string]float64{"left front": 87000, "right front": 87360},
			map[string]float64{"level.chest.finished": 800, "seam.right-side.difference": 6, "seam.left-side.difference": 0,
				"seam.right-shoulder.difference": 130 - math.Sqrt(120*120+44*44), "seam.left-shoulder.difference": 0}},
		// The hip of the back differs: its side goes 12 out at the hem to nothing at the
		// shoulder. At the chest, 300 of 400 up, 3 are left of it.
		{"left back.side: {start: 12}", map[string]float64{"left back": 87000 + 12*400/2.0, "right back": 87000},
			map[string]float64{"level.chest.finished": 803, "level.hem.finished": 792, "seam.left-side.difference": math.Hypot(400, 12) - 400}},
	}
	for _, test := range tests {
		g, pieces := derived(t, pairText, test.change)
		for name, want := range test.areas {
			if got := area(pieces[name]); math.Abs(got-want) > 1e-6*want {
				t.Errorf("%s: %s has %v mm², want %v", test.change, name, got, want)
			}
			if p := pieces[name]; p != nil && (p.Count != 1 || p.Mirrored) {
				t.Errorf("%s: %s is cut %d times, in pairs %t", test.change, name, p.Count, p.Mirrored)
			}
		}
		garmentIs(t, g, test.want)
	}
}

// TestOneOfPairHasItsHand: the left front lies as it is drawn and the right one is turned
// over; of the back, which is drawn as a right one, it is the other way round, and with it
// its line, its notch and its dart. What no round names stays a pair.
func TestOneOfPairHasItsHand(t *testing.T) {
	_, pieces := derived(t, pairText, "left front.side: 10, right back.side: 10")
	for name, sign := range map[string]float64{"left front": 1, "right front": -1, "left back": -1, "right back": 1} {
		p := pieces[name]
		if p == nil {
			t.Fatalf("no %s among %v", name, slices.Collect(maps.Keys(pieces)))
		}
		low, high := p.Outline.Bounds()
		if sign*(low.X+high.X) <= 0 {
			t.Errorf("%s lies from %v to %v", name, low.X, high.X)
		}
		if strings.HasSuffix(name, "front") {
			if at := p.Darts[0].Plan.Point; at.X != sign*80 || at.Y != 150 {
				t.Errorf("the dart of %s ends at %v", name, at)
			}
		} else if at := p.Lines[0].Points[0]; at.X != sign*40 || at.Y != 200 {
			t.Errorf("the line of %s begins at %v", name, at)
		}
	}
	_, pieces = derived(t, pairText, "left front.side: 10")
	if p := pieces["back"]; p == nil || p.Count != 2 {
		t.Errorf("the backs are no pair any more: %v", slices.Collect(maps.Keys(pieces)))
	}
}

// TestOneOfPairIsTheOthersMirrorImage: what a round does to the left, done to the right,
// makes the mirror image of the same garment; done to both it makes what it makes of the pair.
func TestOneOfPairIsTheOthersMirrorImage(t *testing.T) {
	turned := strings.NewReplacer("left", "right", "right", "left")
	changes := []string{"left front.side: 7", "left front.shoulder: {start: 5}", "left front.side: {curve: [[210, 120], [205, 290]]}", "left front.hem dart: {width: 16}"}
	for text, changes := range map[string][]string{
		pairText:    append(changes, "left back.side: {start: 9, end: 2}", "left back.side: {curve: [[210, 120], [205, 300]]}"),
		dressedText: append(changes, "left sleeve.front underarm: 4", "left sleeve.wrist: {curve: [[-40, -310], [30, -290]]}", "left facing.inner: 8", "left cuff.top: 5", "left pocket.top: 6"),
	} {
		for _, change := range changes {
			one, _ := derived(t, text, change)
			other, _ := derived(t, text, turned.Replace(change))
			got, want := figuresOf(other), map[string]float64{}
			for id, v := range figuresOf(one) {
				want[turned.Replace(id)] = v
			}
			if len(want) < 100 {
				t.Errorf("%s: only %d figures", change, len(want))
			}
			sameFigures(t, change, got, want)
			_, edge, _ := strings.Cut(change, " ")
			both, _ := derived(t, text, change+", "+turned.Replace(change))
			pair, _ := derived(t, text, edge)
			sums := func(id string) bool {
				return !strings.HasPrefix(id, "level.") && !strings.HasPrefix(id, "cloth.") && !strings.HasPrefix(id, "thread.")
			}
			got, want = figuresOf(both), figuresOf(pair)
			for id, v := range got { // what goes round each arm has a level at either side
				if eachArm.MatchString(id) {
					delete(got, id)
					got[eachArm.ReplaceAllString(id, "level.")] = v
				}
			}
			maps.DeleteFunc(got, func(id string, _ float64) bool { return sums(id) })
			maps.DeleteFunc(want, func(id string, _ float64) bool { return sums(id) })
			if len(want) < 8 {
				t.Errorf("%s: only %d sums", change, len(want))
			}
			sameFigures(t, change+" of both", got, want)
		}
	}
}

// asWalked are figures whose names count along an edge from where it begins, which of a
// mirror image is its other end, or in the order of their size; and what is held against
// the limits at the left alone, as the right has it from there.
var asWalked = regexp.MustCompile(`^truing\..*\.(notch|stretch)-\d|^opening\.(inner|wrist)|^truing\..*\.dart-\d\.line$`)

var eachArm = regexp.MustCompile(`^level\.(left|right)-`)

// figuresOf are the figures of a garment that are known, by their names.
func figuresOf(g *Garment) map[string]float64 {
	out := map[string]float64{}
	for _, f := range g.Figures() {
		if f.Value.Known() && !asWalked.MatchString(f.ID) {
			out[f.ID] = f.Value.Number
		}
	}
	return out
}

func sameFigures(t *testing.T, what string, got, want map[string]float64) {
	t.Helper()
	for _, id := range slices.Sorted(maps.Keys(want)) {
		if have, ok := got[id]; !ok || math.Abs(have-want[id]) > 1e-6*math.Max(1, math.Abs(want[id])) {
			t.Errorf("%s: %s = %v (there: %t), want %v", what, id, have, ok, want[id])
		}
	}
	for _, id := range slices.Sorted(maps.Keys(got)) {
		if _, ok := want[id]; !ok {
			t.Errorf("%s: %s is too much", what, id)
		}
	}
}

// dressedText is a bodice with all that goes with a front: the back on the fold, sleeves
// with cuffs, a facing, a pocket set on, a collar over the whole neck and buttons.
const dressedText = `for: woman
cloth: {shell: linen}
pieces:
  front:
    cut: 2
    outline: {hem: [200, 0], side: [200, 300], armhole: {to: [150, 430], curve: [[170, 310], [145, 380]]}, shoulder: [70, 450], neck: {to: [0, 380], curve: [[65, 400], [40, 380]]}, centre: [0, 0]}
    darts: {hem: {at: 80, width: 10, point: [80, 150]}}
    levels: {chest: 300}
  facing: {border: {along: front.centre, width: 50}}
  pocket: {cut: 2, rectangle: [80, 90]}
  back:
    outline: {hem: [200, 0], side: [200, 300], armhole: {to: [150, 435], curve: [[175, 310], [150, 380]]}, shoulder: [70, 455], neck: {to: [0, 440], curve: [[60, 445], [40, 440]]}, centre: fold}
    levels: {chest: 300}
  sleeve:
    cut: 2
    outline: {from: [-100, -300], wrist: [100, -300], front underarm: [150, 0], front head: {to: [0, 90], curve: [[100, 10], [80, 90]]}, back head: {to: [-150, 0], curve: [[-80, 90], [-105, 20]]}, back underarm: [-100, -300]}
    levels: {bicep: -10}
  cuff: {cut: 2, band: 50}
  collar: {rectangle: [367, 60], cut: 1}
seams:
  sides: [front.side, back.side]
  shoulders: [front.shoulder, back.shoulder]
  underarm: [sleeve.front underarm, sleeve.back underarm]
  armholes: {join: [[front.armhole, back.armhole], [sleeve.front head, sleeve.back head]], tolerance: 30}
  cuffs: [sleeve.wrist, cuff.bottom]
  facings: [front.centre, facing.centre]
  neck: {join: [[front.neck, back.neck], collar.bottom], tolerance: 30}
  pocket place: {join: [pocket, front], at: [60, 160]}
finishes:
  hem: {of: [front.hem, back.hem], type: single-turned-hem, depth: 20}
  cuff edges: {of: cuff.top, type: single-turned-hem, depth: 10}
notions:
  buttons: {along: 15 inside front.centre, count: 5, size: 12, first: 20 from neck}
lengths: {front length: front.centre}
`
