package trace

import (
	"testing"

	"hembook/internal/shape"
)

func TestMeaningOf(t *testing.T) {
	for name, want := range map[string]Meaning{
		"side":              {Name: "side"},
		"front-side":        {Name: "side"},
		"front.centre back": {Name: "centre back"},
		"fold centre":       {Role: Sewing, Told: true, Name: "centre", Fold: true},
		"fold":              {Role: Sewing, Told: true, Name: "fold", Fold: true},
		"level-hip":         {Role: LevelLine, Told: true, Name: "hip"},
		"front-dart 2":      {Role: DartLine, Told: true, Name: "2"},
		"Notches":           {Role: NotchMark, Told: true},
		"grain line":        {Role: Grain, Told: true},
		"cut-line":          {Role: Boundary, Told: true},
		"scale 100 mm":      {Role: Scale, Told: true, Name: "100 mm"},
		"edge level":        {Role: Sewing, Told: true, Name: "level"},
		"path37":            {},
		"Layer 1":           {},
		"g12-3":             {},
		"":                  {},
	} {
		if got := MeaningOf(name, "front"); got != want {
			t.Errorf("%q means %+v, want %+v", name, got, want)
		}
	}
	if got := FromID("fold_x20_centre_2_"); got != "fold centre" {
		t.Errorf("the id means %q", got)
	}
}

// box is a rectangle drawn as one closed line, clockwise from its upper right.
func box(w, h float64) Stroke {
	return Stroke{From: shape.Point{X: w, Y: h}, Closed: true, Parts: []shape.Edge{{To: shape.Point{X: w}}, {}, {To: shape.Point{Y: h}}}}
}

// TestClosedLineIsNamedFromTheLowerLeft: against the clock, however it was drawn.
func TestClosedLineIsNamedFromTheLowerLeft(t *testing.T) {
	d := Drawn{Name: "band", Strokes: []Stroke{box(300, 40)}}
	p, faults := d.Assemble(Options{Names: []string{"bottom", "right", "top", "left"}})
	if len(faults) > 0 {
		t.Fatal(faults)
	}
	for name, want := range map[string]float64{"bottom": 300, "right": 40, "top": 300, "left": 40} {
		if got, _ := p.Outline.LengthOf(name); got != want {
			t.Errorf("%s is %g long, want %g", name, got, want)
		}
	}
	if p.Outline.From != (shape.Point{}) || p.Outline.Edges[0].To != (shape.Point{X: 300}) {
		t.Errorf("it begins %+v", p.Outline)
	}
	if _, faults := d.Assemble(Options{Names: []string{"a", "b"}}); len(faults) != 1 {
		t.Errorf("two names for four edges: %v", faults)
	}
}

// TestGrainTurnsThePiece: a grain line three degrees off upright turns the
// piece by as much; one near the diagonal makes it a bias piece.
func TestGrainTurnsThePiece(t *testing.T) {
	for _, c := range []struct {
		to          shape.Point
		grain       string
		least, most float64 // degrees turned
	}{
		{shape.Point{Y: 100}, "along", 0, 0},
		{shape.Point{X: 100}, "across", 0, 0},
		{shape.Point{X: 100, Y: 100}, "bias", 0, 0},
		{shape.Point{X: 5.240778, Y: 100}, "along", 2.9999, 3.0001}, // tan 3° = 0.05240778
		{shape.Point{X: -100, Y: -5.240778}, "across", -3.0001, -2.9999},
		{shape.Point{X: 101, Y: 100}, "bias", 0.28, 0.29},
	} {
		d := Drawn{Strokes: []Stroke{box(300, 40), {Role: Grain, Parts: []shape.Edge{{To: c.to}}}}}
		p, faults := d.Assemble(Options{})
		if len(faults) > 0 || p.Grain != c.grain || p.Turned < c.least || p.Turned > c.most {
			t.Errorf("%v: %q, turned by %g°, %v; want %q, %g to %g", c.to, p.Grain, p.Turned, faults, c.grain, c.least, c.most)
		}
	}
}

// TestMarkedCorner: a corner too flat to be found is found where it is marked.
func TestMarkedCorner(t *testing.T) {
	flat := Stroke{Closed: true, Parts: []shape.Edge{{To: shape.Point{X: 100, Y: -5}}, {To: shape.Point{X: 200}}, {To: shape.Point{X: 100, Y: 90}}}}
	mark := Stroke{Role: Corner, From: shape.Point{X: 100.3, Y: -5.2}}
	without, _ := (&Drawn{Strokes: []Stroke{flat}}).Assemble(Options{})
	with, faults := (&Drawn{Strokes: []Stroke{flat, mark}}).Assemble(Options{})
	if a, b := len(without.Outline.Sides()), len(with.Outline.Sides()); a != 3 || b != 4 {
		t.Errorf("%d edges without the mark, %d with it, %v; want 3 and 4", a, b, faults)
	}
	if sharp, _ := (&Drawn{Strokes: []Stroke{flat}}).Assemble(Options{Corner: 3}); len(sharp.Outline.Sides()) != 4 {
		t.Error("corners of more than three degrees leave the flat one out")
	}
}
