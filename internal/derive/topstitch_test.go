package derive

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"hembook/internal/fault"
	"hembook/internal/garment"
	"hembook/internal/shape"
	"hembook/internal/trade"
)

// Rows beside seams, worked by hand. Front and back are 200 wide and 300 high, each cut
// twice, with 15 of allowance; the sides are 2 × 300 = 0.6 m, the hem is 4 × 200 = 0.8 m.
//
//	sides:  pressed to one side: one row, and topstitching at 2 and 8 in copper, 3.5 mm
//	        long: 0.6 × 1.25 of white above, 2 × 0.6 × 1.25 = 1.5 m of copper
//	centre: pressed open: a row of 0.6 m, edge-stitched at 2 on both sides, 2 × 0.6 m, in white
//	hem:    turned twice by 20 with one row, topstitched at 6: 2 × 0.8 m
//
// White above: (0.6 + 0.6 + 1.2 + 1.6) × 1.25 = 5 m. What is sewn counts each line once:
// 0.6 + 0.6 + 0.8 = 2 m.
const topped = `
cloth: {shell: linen}
thread:
  white: white
  copper: {colour: copper, stitch-length: 3.5 mm, needle: 100 topstitch}
pieces:
  front: {cut: 2, rectangle: [200, 300], allowance: 15, edges: {bottom: {allowance: 40}, top: {allowance: 0}}}
  back: {cut: 2, rectangle: [200, 300], allowance: 15, edges: {bottom: {allowance: 40}, top: {allowance: 0}}}
seams:
  sides: {join: [front.right, back.left], type: plain-to-one-side, topstitch: {at: [2, 8], thread: copper}}
  centre: {join: [front.left, back.right], edge-stitch: 2}
finishes:
  hem: {of: [front.bottom, back.bottom], type: double-turned-hem, topstitch: 6}
  top: {of: [front.top, back.top], type: raw}
`

func TestTopstitching(t *testing.T) {
	g := deriveClean(t, roomWith(t), topped)
	g.is(t, 1e-6, map[string]float64{
		"thread.white.needle": 5, "thread.white.under": 5, "thread.copper.needle": 1.5, "thread.copper.under": 1.5,
		"total.sewn": 2, "seam.sides.total": 0.6, "seam.centre.total": 0.6, "finish.hem.total": 0.8,
	})
	for _, c := range []struct {
		kind  garment.RowKind
		of    string
		words []string
	}{
		{garment.SeamRow, "sides", []string{"stitch 15 mm from the cut edges ×1", "topstitch 2 mm from the seam ×1", "topstitch 8 mm from the seam ×1"}},
		{garment.SeamRow, "centre", []string{"stitch 15 mm from the cut edges ×1", "edge-stitch 2 mm from the seam, on both sides ×2"}},
		{garment.FinishRow, "hem", []string{"turn 20 mm up twice and stitch 2 mm from the inner fold ×1", "topstitch 6 mm from the edge ×1"}},
	} {
		var got []string
		for _, r := range g.RowsOf(c.kind, c.of) {
			got = append(got, fmt.Sprintf("%s ×%d", r.Do(nil), r.Rows))
		}
		if !slices.Equal(got, c.words) {
			t.Errorf("%s: %q, want %q", c.of, got, c.words)
		}
	}
	set := slices.IndexFunc(g.Machine, func(m garment.MachineSet) bool { return m.Thread == "copper" })
	if set < 0 || g.Machine[set].StitchLength.MM() != 3.5 || !slices.Equal(g.Machine[set].For, []garment.SetFor{{Name: "sides", Beside: trade.Topstitch}}) {
		t.Errorf("the machine is set %+v", g.Machine)
	}
}

// Where the rows lie on the pieces: the sides on the front alone, 2 and 8 inside its right
// side, which runs at 200; the centre 2 inside both of its edges; the hem 6 inside both.
func TestTopstitchingOnPieces(t *testing.T) {
	g := deriveClean(t, roomWith(t), topped)
	if got, want := besideLines(g.Pieces[0]), []string{"right 198", "right 192", "left 2", "bottom 6"}; !slices.Equal(got, want) {
		t.Errorf("the front has %q, want %q", got, want)
	}
	if got, want := besideLines(g.Pieces[1]), []string{"right 198", "bottom 6"}; !slices.Equal(got, want) {
		t.Errorf("the back has %q, want %q", got, want)
	}
	// Pressed towards the back, they lie there, and pass two plies of it.
	g = deriveClean(t, roomWith(t), strings.Replace(topped, "thread: copper}", "thread: copper, towards: back}", 1))
	if got, want := besideLines(g.Pieces[1]), []string{"left 2", "left 8", "right 198", "bottom 6"}; !slices.Equal(got, want) {
		t.Errorf("towards the back, it has %q, want %q", got, want)
	}
	pass := g.Seams[0].Type.Passes[1]
	if got := fmt.Sprint(pass.Through); got != "[[cloth a cloth b cloth b]]" {
		t.Errorf("towards the back it passes %s", got)
	}
}

// besideLines are the edges of a piece with where the rows beside them run: x of those
// that run up, y of those that run across.
func besideLines(p *garment.Piece) (out []string) {
	for _, l := range p.Beside {
		a, b := l.Line[0], l.Line[len(l.Line)-1]
		at := a.X
		if math.Abs(a.X-b.X) > 1 {
			at = a.Y
		}
		out = append(out, fmt.Sprintf("%s %.0f", l.Edge, at))
	}
	return out
}

// A row follows a curved edge at its distance (geometry, exact: the nearest point of a
// circle's arc lies on the radius).
func TestTopstitchingCurved(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen}
pieces:
  front: {cut: 2, outline: {hem: [200, 0], side: {to: [200, 300], curve: -30}, top: [0, 300], centre: [0, 0]}, allowance: 20}
seams:
  sides: {join: [front.side, front.side], type: plain-to-one-side, topstitch: 7}
finishes:
  rest: {of: [front.hem, front.top, front.centre], type: raw}
`)
	for _, l := range g.Pieces[0].Beside {
		for _, at := range l.Line[1 : len(l.Line)-1] {
			if d := nearest(g.Pieces[0].Outline, "side", at); math.Abs(d-7) > 0.02 {
				t.Fatalf("at %v it lies %v inside: %v", at, d, l.Line[:4])
			}
		}
	}
	if len(g.Pieces[0].Beside) != 1 {
		t.Errorf("%d rows", len(g.Pieces[0].Beside))
	}
}

func nearest(o shape.Outline, edge string, at shape.Point) float64 {
	length, _ := o.LengthOf(edge)
	least := math.Inf(1)
	for k := range 2001 {
		p, _, _ := o.PointOn(edge, length*float64(k)/2000)
		least = min(least, math.Hypot(p.X-at.X, p.Y-at.Y))
	}
	return least
}

// What cannot be sewn so is told, with what was probably meant.
func TestTopstitchingTold(t *testing.T) {
	for _, c := range []struct{ from, to, want, hint string }{
		{"at: [2, 8]", "at: [2, 18]", "sides: a row 18 mm from the seam misses its allowances, which are 15 mm wide there", "let it lie at most 14 from the seam"},
		{"at: [2, 8]", "at: 60", "sides: a row 60 mm from the seam misses its allowances, which are 15 mm wide there", "did you mean 6? It lies at most 14 from the seam"},
		{"topstitch: 6", "topstitch: 25", "hem: a row 25 mm from the edge misses what is turned in or sewn under it, which ends 20 mm from there", "let it lie at most 19 from the edge"},
		{"type: raw", "type: raw, topstitch: 3", "top: raw holds nothing beside it that a row could catch", "leave it out, or sew it so that something lies under the row"},
		{"thread: copper}", "thread: copper, towards: bak}", "sides: it does not join bak", `did you mean "back"?`},
		{"type: plain-to-one-side, topstitch: {at: [2, 8], thread: copper}", "type: flat-felled, topstitch: {at: 4, towards: back}", "sides: a flat-felled lies on front, not on back", "leave towards: out, or let the edges change places in join:"},
		{"at: [2, 8]", "at: [2, 2]", "sides: two rows lie 2 mm from it", "leave one of them out"},
		{"type: plain-to-one-side, topstitch: {at: [2, 8], thread: copper}", "type: topstitched-open, topstitch: 6", "sides: topstitched-open has a row 6 mm from it already", "leave it out"},
		{"topstitch: 6", "topstitch: {at: 6, towards: front}", "hem: a finished edge has one side, and its rows lie inside it", "leave it out"},
		{"at: [2, 8]", "at: [2, 8], stitch: '999'", `there is no stitch type "999"`, ""},
	} {
		text := strings.Replace(topped, c.from, c.to, 1)
		if text == topped {
			t.Fatalf("nothing becomes %q", c.to)
		}
		g, _ := roomWith(t).desk().derive(t, text)
		k := slices.IndexFunc(g.Faults, func(f fault.Fault) bool { return f.Message == c.want })
		if k < 0 {
			t.Errorf("%s: nothing says %q, but %v", c.to, c.want, g.Faults)
		} else if c.hint != "" && g.Faults[k].Hint != c.hint {
			t.Errorf("%s: %q, want %q", c.to, g.Faults[k].Hint, c.hint)
		}
	}
}

// Rows that are usual: beside the sides, which say no type, and not beside the centre, which
// does, nor in the lining. The step sews the sides, 0.6 m, and two rows beside them, 1.2 m;
// the hem, 0.8 m, and edge stitching inside it: 1.8 + 1.6 m in all.
func TestTopstitchingUsual(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen, lining: linen}
usual: {seam: {type: plain-to-one-side, topstitch: [2, 8]}, hem: {type: double-turned-hem, edge-stitch: 2}}
pieces:
  front: {cut: 2, rectangle: [200, 300], allowance: 15, levels: {hip: 100}, edges: {bottom: {allowance: 40}, top: {allowance: 0}}}
  back: {cut: 2, rectangle: [200, 300], allowance: 15, levels: {hip: 100}, edges: {bottom: {allowance: 40}, top: {allowance: 0}}}
  front lining: {like: front, of: lining}
  back lining: {like: back, of: lining}
seams:
  sides: [front.right, back.left]
  centre: {join: [front.left, back.right], type: plain}
  lining: {like: sides}
  lining centre: [front lining.left, back lining.right]
finishes:
  hem: {of: [front.bottom, back.bottom], depth: 15}
  tops: {of: [front.top, back.top, front lining.top, back lining.top], type: raw}
  lining hem: {of: [front lining.bottom, back lining.bottom], depth: 15}
work:
  sew: {sews: [sides, hem], takes: 1 h}
  rest: {sews: [centre, lining sides, lining centre, tops, lining hem], takes: 1 h}
`)
	for name, want := range map[string]int{"sides": 2, "centre": 0, "lining sides": 0, "lining centre": 0} {
		for _, s := range g.Seams {
			if s.Name == name && len(s.Type.Beside()) != want {
				t.Errorf("%s has %d rows beside it, want %d", name, len(s.Type.Beside()), want)
			}
		}
	}
	for _, f := range g.Finishes {
		if want := map[string]int{"hem": 1}[f.Name]; len(f.Type.Beside()) != want {
			t.Errorf("%s has %d rows, want %d", f.Name, len(f.Type.Beside()), want)
		}
	}
	g.is(t, 1e-6, map[string]float64{"step.sew.metres": 1.8 + 1.6})
	for _, f := range g.Figures() {
		if f.ID == "level.hip.let-out" && !strings.Contains(f.Working.Rule, "; the rows beside sides come out first, and their holes show") {
			t.Errorf("letting out says %q", f.Working.Rule)
		}
	}
}
