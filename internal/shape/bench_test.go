package shape

import "testing"

// bodice is an invented half front: straight but for the armhole and the
// neck.
func bodice() Outline {
	return Outline{Edges: []Edge{
		{Name: "waist", To: Point{172, 0}},
		{Name: "side", To: Point{236, 208}},
		{Name: "armhole", To: Point{198, 372}, C1: Point{196, 236}, C2: Point{190, 320}, Curved: true},
		{Name: "shoulder", To: Point{92, 408}},
		{Name: "neck", To: Point{0, 318}, C1: Point{84, 340}, C2: Point{40, 318}, Curved: true},
		{Name: "centre", To: Point{0, 0}, Fold: true},
	}}
}

func straightBodice() Outline {
	o := bodice()
	for i := range o.Edges {
		o.Edges[i].Curved = false
	}
	return o
}

func curvedBodice() Outline {
	o := bodice()
	o.Edges[1].Curved, o.Edges[1].C1, o.Edges[1].C2 = true, Point{180, 80}, Point{215, 150}
	return o
}

func benchmarkCut(b *testing.B, o Outline) {
	allow := []float64{15, 15, 10, 15, 6, 0}
	if border, _ := o.border(allow, nil); border != nil {
		if _, direct := border.offset(); !direct {
			b.Fatal("not the direct way")
		}
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := o.CutOutline(allow, nil); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkCutStraight(b *testing.B)    { benchmarkCut(b, straightBodice()) }
func BenchmarkCutThreeCurves(b *testing.B) { benchmarkCut(b, curvedBodice()) }

// TestUsualPiecesAreCutDirectly keeps the union for what needs it.
func TestUsualPiecesAreCutDirectly(t *testing.T) {
	for _, o := range []Outline{straightBodice(), bodice(), curvedBodice()} {
		for _, rule := range []Corner{Mitre, Square, Mirror} {
			for i := range o.Edges {
				corners := make([]Corner, len(o.Edges))
				corners[i] = rule
				b, _ := o.border([]float64{40, 15, 10, 15, 6, 0}, corners)
				if _, direct := b.offset(); !direct {
					t.Errorf("rule %v at %s takes the union", rule, o.Edges[i].Name)
				}
				bothWays(t, o, []float64{40, 15, 10, 15, 6, 0}, corners)
			}
		}
	}
}

func BenchmarkCutUnion(b *testing.B) {
	o := curvedBodice()
	border, _ := o.border([]float64{15, 15, 10, 15, 6, 0}, nil)
	for b.Loop() {
		if _, err := border.union(); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkCurveLength measures the three curves of a bodice, as every derivation does.
func BenchmarkCurveLength(b *testing.B) {
	o := curvedBodice()
	for b.Loop() {
		for i := range o.Edges {
			o.EdgeLength(i)
		}
	}
}
