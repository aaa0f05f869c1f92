package svg

import (
	"testing"

	"pgregory.net/rapid"

	"hembook/internal/drawing"
	"hembook/internal/shape/trace"
	"hembook/internal/shape/trace/tracetest"
)

// pieceNames are those of one file: ten pieces, so that a run of a hundred
// files is a thousand outlines.
var pieceNames = []string{"front", "back", "front lining", "Rücken", "sleeve", "collar", "cuff 2", "pocket", "fly", "belt"}

// TestRoundTrip writes random pieces and reads them back: the same outlines
// within a hundredth of a millimetre, with names, grain, darts, notches and
// levels.
func TestRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		want := make([]trace.Piece, len(pieceNames))
		drawn := make([]*drawing.Drawing, len(pieceNames))
		for i, name := range pieceNames {
			want[i] = tracetest.Piece(t, name)
			drawn[i] = tracetest.Drawing(want[i])
		}
		got, fault := Read(Pieces("one", drawn))
		if fault != nil {
			t.Fatal(fault)
		}
		if fault := got.Resize(0, 0); fault != nil {
			t.Fatal(fault)
		}
		if len(got.Pieces) != len(want) {
			t.Fatalf("%d pieces, want %d", len(got.Pieces), len(want))
		}
		for i := range want {
			if name := got.Pieces[i].Name; name != want[i].Name {
				t.Fatalf("a piece is called %q, want %q", name, want[i].Name)
			}
			piece, faults := got.Pieces[i].Assemble(trace.Options{})
			for _, f := range faults {
				t.Fatal(f)
			}
			tracetest.Compare(t, want[i], piece, 0.01)
		}
	})
}
