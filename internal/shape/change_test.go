package shape

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// bodiceOutline draws a random bodice: straight and curved edges, corners
// moved about by up to 15 mm.
func bodiceOutline(t *rapid.T) Outline {
	o := Outline{From: Point{0, 0}, Edges: []Edge{
		{Name: "waist", To: Point{220, 0}},
		{Name: "side", To: Point{250, 210}, Curved: true, C1: Point{225, 70}, C2: Point{245, 140}},
		{Name: "armhole", To: Point{175, 390}, Curved: true, C1: Point{205, 230}, C2: Point{172, 310}},
		{Name: "shoulder", To: Point{85, 420}},
		{Name: "neck", To: Point{0, 330}, Curved: true, C1: Point{80, 366}, C2: Point{52, 330}},
		{Name: "centre", To: Point{0, 0}},
	}}
	for i := range o.Edges {
		by := func(what string) float64 { return rapid.Float64Range(-15, 15).Draw(t, what) }
		o = o.withPoint(i, Point{by("x"), by("y")})
	}
	return o
}

func (o Outline) withPoint(i int, by Point) Outline {
	out := Outline{From: o.From, Edges: append([]Edge(nil), o.Edges...)}
	setStart(&out, (i+1)%len(o.Edges), o.Edges[i].To.Add(by))
	return out
}

func mostOff(a, b Outline) float64 {
	off := 0.0
	for i := range a.Edges {
		p, q := a.Edges[i], b.Edges[i]
		off = max(off, distance(p.To, q.To))
		if p.Curved {
			off = max(off, distance(p.C1, q.C1), distance(p.C2, q.C2))
		}
	}
	return off
}

// TestUndo: a change taken out of the outline it made gives the outline back,
// whichever change and whichever edge, or says that it finds none, which it may
// do once in a while where an edge is between straight and curved.
func TestUndo(t *testing.T) {
	made, refused := 0, 0
	defer func() {
		if refused > 2+made/100 {
			t.Errorf("%d of %d changes were not undone", refused, made)
		}
	}()
	rapid.Check(t, func(t *rapid.T) {
		o := bodiceOutline(t)
		i := rapid.IntRange(0, len(o.Edges)-1).Draw(t, "edge")
		d := rapid.Float64Range(-12, 12).Draw(t, "by")
		changes := map[string]func(Outline) (Outline, error){
			"move":     func(o Outline) (Outline, error) { return o.EdgeMoved(i, 1, d) },
			"start":    func(o Outline) (Outline, error) { return o.EndsMoved(i, 1, d, 0) },
			"end":      func(o Outline) (Outline, error) { return o.EndsMoved(i, 1, 0, d) },
			"lengthen": func(o Outline) (Outline, error) { return o.Lengthened(i, d, false) },
		}
		change := changes[rapid.SampledFrom([]string{"move", "start", "end", "lengthen"}).Draw(t, "change")]
		after, err := change(o)
		if err != nil {
			t.Skip(err)
		}
		made++
		back, err := after.Before(change)
		if err != nil {
			refused++
			t.Skip(err)
		}
		if again, err := change(back); err != nil || mostOff(again, after) > 1e-6 {
			t.Fatalf("the outline found makes another: %v, %v off", err, mostOff(again, after))
		}
		if off := mostOff(back, o); off > 1e-4 {
			t.Fatalf("undone, the outline is %v mm off", off)
		}
	})
}

// An edge lengthened by d is d longer, straight or curved, and keeps its line.
func TestLengthened(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := bodiceOutline(t)
		i := rapid.IntRange(0, len(o.Edges)-1).Draw(t, "edge")
		d := rapid.Float64Range(-20, 20).Draw(t, "by")
		start := rapid.Bool().Draw(t, "start")
		made, err := o.Lengthened(i, d, start)
		if err != nil {
			t.Skip(err)
		}
		if got := made.EdgeLength(i) - o.EdgeLength(i); math.Abs(got-d) > 1e-4 {
			t.Fatalf("lengthened by %v it is %v longer", d, got)
		}
	})
}

// The corner slides along the edge beside it: a box 100 × 60 raised by 10 at
// the left of its top keeps its right side.
func TestEndsMoved(t *testing.T) {
	o, err := Rectangle(100, 60)
	if err != nil {
		t.Fatal(err)
	}
	got, err := o.EndsMoved(2, 1, 0, 10)
	if err != nil || got.Edges[2].To != (Point{0, 70}) || got.Edges[1].To != (Point{100, 60}) {
		t.Errorf("%v, %v", got, err)
	}
	got, err = o.EndsMoved(2, 1, -5, 10)
	if err != nil || got.Edges[2].To != (Point{0, 70}) || got.Edges[1].To != (Point{100, 55}) {
		t.Errorf("%v, %v", got, err)
	}
}

// TestDartTurned: turning a dart keeps the area, every length but those of the
// two edges, and the angle at its point; the legs of the new dart are as long
// as the slash.
func TestDartTurned(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		o := bodiceOutline(t)
		d := Dart{"waist", rapid.Float64Range(60, 140).Draw(t, "at"), rapid.Float64Range(6, 40).Draw(t, "width"), rapid.Float64Range(60, 160).Draw(t, "length")}
		plan, err := d.Plan(o)
		if err != nil || !plan.Inside || !plan.Fits {
			t.Skip()
		}
		to := rapid.SampledFrom([]string{"side", "armhole", "shoulder", "neck", "centre"}).Draw(t, "to")
		length, _ := o.LengthOf(to)
		s := rapid.Float64Range(0.1, 0.9).Draw(t, "where") * length
		r, err := o.DartTurned(plan, "waist", to, s)
		if err != nil {
			t.Skip(err)
		}
		for _, side := range o.Sides() {
			want := side.Length
			switch side.Name {
			case "waist":
				want -= d.Width
			case to:
				want += r.Opened.Width
			}
			if got, _ := r.Outline.LengthOf(side.Name); math.Abs(got-want) > 1e-3 {
				t.Fatalf("%s is %v long, want %v", side.Name, got, want)
			}
		}
		if len(r.From) != len(r.Outline.Edges) {
			t.Fatalf("%d edges of %d", len(r.From), len(r.Outline.Edges))
		}
		now, err := r.Opened.Plan(r.Outline)
		if err != nil {
			t.Fatal(err)
		}
		was := math.Atan(d.Width / 2 / d.Length)
		if is := math.Atan(r.Opened.Width / 2 / r.Opened.Length); math.Abs(is-was) > 1e-5 {
			t.Fatalf("half the angle was %v and is %v", was, is)
		}
		wedges := d.Width*d.Length/2 - r.Opened.Width*r.Opened.Length/2
		if lost := o.Area() - r.Outline.Area(); math.Abs(lost-wedges) > 1e-2 {
			t.Fatalf("the area shrinks by %v, the wedges by %v", lost, wedges)
		}
		if now.Leg <= 0 {
			t.Fatal("no leg")
		}
	})
}

// A facing 20 deep: the dart's legs, 10 either side at the edge, stand 6 either
// side of its middle at the far edge, 30 of the 50 to the point.
func TestDartFolded(t *testing.T) {
	o, _ := Rectangle(100, 20)
	plan, err := Dart{"bottom", 50, 20, 50}.Plan(o)
	if err != nil {
		t.Fatal(err)
	}
	r, err := o.DartFolded(plan)
	if err != nil {
		t.Fatal(err)
	}
	bottom, _ := r.Outline.LengthOf("bottom")
	top, _ := r.Outline.LengthOf("top")
	if math.Abs(bottom-80) > 1e-4 || math.Abs(top-88) > 1e-4 {
		t.Errorf("bottom %v, top %v, want 80 and 88", bottom, top)
	}
	if want := 2000 - (20+12)/2*20.0; math.Abs(r.Outline.Area()-want) > 1e-2 {
		t.Errorf("area %v, want %v", r.Outline.Area(), want)
	}
	if _, err := o.DartFolded(DartPlan{Begin: Point{40, 0}, End: Point{60, 0}, Point: Point{50, 10}}); err == nil {
		t.Error("a dart whose point lies inside was folded out")
	}
}
