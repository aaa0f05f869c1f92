package derive

import (
	"math"
	"reflect"
	"strings"
	"sync"
	"testing"

	"hembook/internal/figure"
	"hembook/internal/shape"
)

// Where an edge's allowance comes from, in the order of asking.
func TestAllowanceOrder(t *testing.T) {
	r := roomWith(t).file("content/workroom.yaml", "name: Test\nusual: {allowance: 12}\n")
	g := deriveClean(t, r, `
cloth: {shell: linen}
pieces:
  own: {allowance: 20, rectangle: [200, 300], edges: {right: 25}}
  bare: {rectangle: [200, 300]}
seams:
  side: {join: [bare.right, own.left], type: french, first: 6, second: 8}
  open: {join: [bare.left, own.right], type: plain}
finishes:
  hem: {of: [own.bottom, bare.bottom], type: double-turned-hem, depth: 18}
`)
	const (
		ownRule      = "the edge's own allowance"
		finishRule   = "what the finish needs, as nothing is written at the edge"
		pieceRule    = "the piece's allowance, as nothing is written at the edge"
		seamRule     = "what the seam needs, as nothing is written at the edge or the piece"
		workroomRule = "the workroom's usual allowance, as nothing is written at the edge or the piece and no seam asks for one"
	)
	for id, want := range map[string]struct {
		mm   float64
		rule string
		line int32 // where the first input stands; 0 for a default
	}{
		"piece.own.edge.right.allowance":   {25, ownRule, 7},
		"piece.own.edge.bottom.allowance":  {36, finishRule, 13},
		"piece.own.edge.left.allowance":    {20, pieceRule, 7},
		"piece.bare.edge.right.allowance":  {14, seamRule, 10},
		"piece.bare.edge.bottom.allowance": {36, finishRule, 13},
		"piece.bare.edge.left.allowance":   {25, seamRule, 11}, // a plain seam follows what its other edge has
		"piece.bare.edge.top.allowance":    {12, workroomRule, 2},
	} {
		f := g.find(t, id)
		if f.Value.Number != want.mm || f.Working.Rule != want.rule {
			t.Errorf("%s = %v by %q, want %v by %q", id, f.Value.Number, f.Working.Rule, want.mm, want.rule)
		}
		if got := f.Working.Inputs()[0].At.Line; got != want.line {
			t.Errorf("%s comes from line %d, want %d", id, got, want.line)
		}
	}
}

// A plain seam where nothing is written takes the workroom's usual, an
// overlocked one its own 6 mm.
func TestUsualAllowance(t *testing.T) {
	r := roomWith(t).file("content/workroom.yaml", "name: Test\nusual: {allowance: 12}\n")
	g := deriveClean(t, r, twoPanels+`seams:
  side: {join: [one.right, two.left], type: plain}
  other: {join: [one.left, two.right], type: overlocked}
`)
	g.is(t, 0, map[string]float64{"seam.side.takes-1": 12, "seam.other.takes-2": 6, "piece.one.edge.right.allowance": 12, "piece.one.edge.left.allowance": 6})
}

// How often runs are sewn: a waist round the body once, armholes twice.
func TestRuns(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen, lining: linen}
pieces:
  front:
    of: [shell, lining]
    cut: 1 on fold
    outline:
      from: [0, 0]
      waist: [100, 0]
      side: [100, 50]
      armhole: [70, 90]
      top: [0, 90]
      centre: {to: [0, 0], fold: true}
  back:
    like: front
    cut: 2
    edges: {centre: {fold: false}}
  sleeve: {of: shell, cut: 2, rectangle: [106, 200]}
  band: {of: shell, rectangle: [430, 60]}
seams:
  sides: {join: [front.side, back.side], type: plain}
  armholes: {join: [[front.armhole, back.armhole], [sleeve.top]], type: plain, ease: 6}
  waist: {join: [[band.bottom], [front.waist, back.waist]], type: plain, overlap: 30}
`)
	g.is(t, 1e-9, map[string]float64{
		"seam.sides.total":         4 * 0.05, // left and right, in shell and in lining
		"seam.armholes.length":     100,      // 50 + 50, a 3-4-5 slope each
		"seam.armholes.total":      0.2,
		"seam.armholes.difference": 0,
		"seam.waist.side-2":        400,
		"seam.waist.total":         0.4,
		"seam.waist.difference":    0,
	})
}

// Gathers: 360 into 200 is 1.8.
func TestGathers(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen}
pieces:
  skirt: {rectangle: [360, 300]}
  band: {rectangle: [200, 60]}
seams: {waist: {join: [skirt.top, band.bottom], type: plain, gather: 1.8}}
`)
	g.is(t, 1e-9, map[string]float64{"seam.waist.fullness": 1.8, "seam.waist.length": 200, "seam.waist.difference": 0})
}

// The overlap of a lapped seam is its own measure.
func TestLap(t *testing.T) {
	g := deriveClean(t, roomWith(t), twoPanels+"seams: {side: {join: [one.right, two.left], type: lapped-raw, overlap: 8}}\n")
	g.is(t, 0, map[string]float64{"seam.side.takes-1": 0, "seam.side.takes-2": 8, "seam.side.difference": 0})
}

// box is a rectangle 100 × 60 drawn from the lower left.
func box() shape.Outline {
	o, _ := shape.Rectangle(100, 60)
	return o
}

func TestMoveStraightEdge(t *testing.T) {
	for edge, want := range map[int][2]float64{0: {100, 70}, 1: {110, 60}, 2: {100, 70}, 3: {110, 60}} {
		o, err := box().EdgeMoved(edge, 1, 10)
		if err != nil {
			t.Fatal(err)
		}
		least, most := o.Bounds()
		if most.X-least.X != want[0] || most.Y-least.Y != want[1] || math.Abs(o.Area()-want[0]*want[1]) > 1e-9 {
			t.Errorf("edge %d moved by 10: %v to %v, want %v", edge, least, most, want)
		}
	}
}

// Ends slide along slanting neighbours: the top of a trapezoid 100 at the foot
// and 60 at the top, 40 high, moved in by 20 is 80 wide.
func TestMoveSlides(t *testing.T) {
	tr, _ := shape.Trapezoid(100, 60, 40)
	o, err := tr.EdgeMoved(2, 1, -20)
	if err != nil {
		t.Fatal(err)
	}
	if got, _ := o.LengthOf("top"); math.Abs(got-80) > 1e-9 {
		t.Errorf("the top is %v long, want 80", got)
	}
}

// A quarter circle moved out by 10 is a quarter circle of 10 more, within the
// hundredth that its cubics allow.
func TestMoveCurve(t *testing.T) {
	for _, by := range []float64{-20, -6, 5, 30} {
		skirt, _ := shape.NewRingSkirt(0.5, 100*math.Pi, 200, 2) // radii 100 and 300
		o := skirt.Panel
		hem, _ := o.Side("hem")
		moved, err := o.EdgeMoved(hem.First, hem.Count, by)
		if err != nil {
			t.Fatal(err)
		}
		if got, want := must(moved.LengthOf("hem")), (300+by)*math.Pi/2; math.Abs(got-want) > 0.05 {
			t.Errorf("moved by %v the hem is %v long, want %v", by, got, want)
		}
		if got := must(moved.LengthOf("left")); math.Abs(got-200-by) > 1e-6 {
			t.Errorf("moved by %v the side is %v long, want %v", by, got, 200+by)
		}
	}
}

func must(v float64, _ bool) float64 { return v }

// A dart planned here is the dart the shape room plans.
func TestDartAgrees(t *testing.T) {
	g := deriveClean(t, supperRoom(t), supper)
	for _, p := range g.Pieces {
		for _, d := range p.Darts {
			r := d.Record
			want, err := shape.Dart{Edge: r.Edge.V, At: r.Along.V.MM(), Width: r.Width.V.MM(), Length: r.Length.V.MM()}.Plan(p.Outline)
			if err != nil {
				t.Fatal(err)
			}
			if far(d.Plan.Begin, want.Begin) || far(d.Plan.End, want.End) || far(d.Plan.Point, want.Point) ||
				math.Abs(d.Plan.Leg-want.Leg) > 1e-9 || d.Plan.Inside != want.Inside || d.Plan.Fits != want.Fits {
				t.Errorf("%s: %+v, want %+v", p.Name, d.Plan, want)
			}
		}
	}
}

func far(a, b shape.Point) bool { d := a.Sub(b); return math.Hypot(d.X, d.Y) > 1e-6 }

// The whole cut outline of a piece on fold has twice the area of the half's.
func TestOpenedCut(t *testing.T) {
	g := deriveClean(t, supperRoom(t), supper)
	for _, p := range g.Pieces {
		times := 1.0
		if p.OnFold {
			times = 2
		}
		if got, want := p.CutWhole.Area(), times*p.Cut.Ring.Area(); math.Abs(got-want) > 1e-6 {
			t.Errorf("%s: the whole cut outline encloses %v, want %v", p.Name, got, want)
		}
	}
}

func TestWorkingReadsAsASentenceOfNumbers(t *testing.T) {
	g := deriveClean(t, supperRoom(t), supper)
	for id, want := range map[string]string{
		"piece.front.edge.side.length": "√((240 mm − 180 mm)² + (80 mm − 0 mm)²) = 100 mm",
		"piece.front.edge.waist.sewn":  "180 mm − 20 mm = 160 mm",
		"piece.skirt.inner-radius":     "660 mm ÷ (2 × π × 0.75) = 140.056 mm",
		"level.waist.finished":         "160 mm × 2 + 170 mm × 2 − 10 mm × 2 = 640 mm",
		"level.waist.ease":             "640 mm − 620 mm = 20 mm",
		"seam.sides.takes-1":           "6 mm + 9 mm = 15 mm",
		"notion.boning.cut-1":          "100 mm − 2 × 10 mm = 80 mm",
		"step.sides.rate":              "30 min ÷ 0.32166 m = 93.27 min/m",
		"seam.sides.difference":        "100 mm − 100 mm = 0 mm",
	} {
		if got := g.find(t, id).Working.Sum(); got != want {
			t.Errorf("%s\n got %s\nwant %s", id, got, want)
		}
	}
	f := g.find(t, "level.waist.finished")
	var inputs []string
	for _, in := range f.Working.Inputs() {
		inputs = append(inputs, in.Name+" "+in.Value)
	}
	if got, want := strings.Join(inputs, "; "), "front.waist 160 mm; back.waist 170 mm; beyond the hooks 10 mm; skirt.waist 330 mm"; got != want {
		t.Errorf("inputs\n got %s\nwant %s", got, want)
	}
}

// Where a measure of a seam type comes from is said at its input.
func TestFollowedAllowanceSaysWhere(t *testing.T) {
	r := roomWith(t).file("content/workroom.yaml", "name: Test\nusual: {allowance: 12}\n")
	g := deriveClean(t, r, `
cloth: {shell: linen}
pieces:
  one: {rectangle: [200, 300], edges: {left: 20}}
  two: {rectangle: [200, 300]}
  three: {rectangle: [200, 300]}
seams:
  near: {join: [one.left, two.right], type: plain}
  usual: {join: [one.right, two.left], type: plain}
  own: {join: [one.top, three.bottom], type: overlocked}
  said: {join: [one.bottom, two.top], type: plain, allowance: 9}
`)
	for id, want := range map[string]figure.Input{
		"seam.near.takes-1":  {Value: "20 mm", From: "piece.one.edge.left.allowance"},
		"seam.usual.takes-1": {Value: "12 mm"},
		"seam.own.takes-1":   {Value: "6 mm", From: "default of the seam type"},
		"seam.said.takes-1":  {Value: "9 mm"},
	} {
		got := g.find(t, id).Working.Inputs()[0]
		if got.Value != want.Value || got.From != want.From || (want.From == "") != got.At.Given() {
			t.Errorf("%s has the input %+v, want %+v", id, got, want)
		}
	}
}

// Many goroutines may derive at once, and all get the same.
func TestDeriveTogether(t *testing.T) {
	d := supperRoom(t).desk()
	d.derive(t, head+supper)
	b, _ := d.room.ReadBuild(d.bf)
	want := d.tailor.Derive(b).Figures()
	var wait sync.WaitGroup
	for range 8 {
		wait.Go(func() {
			got := d.tailor.Derive(b).Figures()
			if !reflect.DeepEqual(got, want) {
				t.Error("two derivations of one build differ")
			}
		})
	}
	wait.Wait()
}

// A hem of a piece cut in shell and lining is sewn in both; fusing counts not.
func TestFinishInEveryCloth(t *testing.T) {
	g := deriveClean(t, roomWith(t), `
cloth: {shell: linen, lining: linen, fusing: linen}
pieces: {one: {of: [shell, lining, fusing], rectangle: [200, 300]}}
finishes: {hem: {of: one.bottom, type: rolled-hem}}
`)
	g.is(t, 1e-12, map[string]float64{"finish.hem.total": 0.4})
}

// A piece drawn the other way round has its darts where they were drawn: 30
// from the start of the edge as written.
func TestDartOfClockwisePiece(t *testing.T) {
	const drawn = `
cloth: {shell: linen}
pieces:
  one:
    outline:
      from: [0, 0]
      left: [0, 300]
      top: [200, 300]
      right: [200, 0]
      bottom: [0, 0]
    darts: {bottom: {at: 30, width: 20, length: 100}}
`
	g := deriveClean(t, roomWith(t), drawn)
	if far(g.Pieces[0].Darts[0].Plan.Point, shape.Point{X: 170, Y: 100}) {
		t.Errorf("the dart's point is %v, want 170, 100", g.Pieces[0].Darts[0].Plan.Point)
	}
	if a := g.Pieces[0].Outline.Area(); a != 60000 {
		t.Errorf("the outline's area is %v, want 60000", a)
	}
}
