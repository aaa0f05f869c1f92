package garment

import (
	"errors"
	"math"
	"slices"
	"strings"

	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// cutBorder makes of the form of a piece the strip of it that runs along its edges, the
// darts that open on them folded out.
func (w *derivation) cutBorder(p *Piece) {
	f, r := &p.form, p.Record.Border
	if f.why != "" {
		return
	}
	if !r.Width.Given() || len(r.Along) == 0 {
		f.why = say.Of("garment.it-could-not-be-read")
		return
	}
	half := f.outline.FoldEdge() >= 0
	first, count, ok := w.borderRun(p)
	if !ok {
		f.why = say.Of("garment.its-edges-do-not-lie-beside-each")
		return
	}
	strip, was, err := f.outline.StripAlong(first, count, r.Width.V.MM(), "inner")
	if err != nil {
		w.borderFault(p, err)
		f.why = say.Of("garment.it-cannot-be-drawn")
		return
	}
	f.takeStrip(strip, was, r)
	if half && strip.FoldEdge() < 0 {
		f.cut = record.Val[record.Cut]{V: record.Cut{N: 2 * max(f.cut.V.N, 1)}, At: p.Record.At}
	}
	for i := len(f.darts) - 1; i >= 0; i-- {
		d := f.darts[i]
		c := &record.Change{At: r.Width.At, Dart: d.Edge, Close: record.Flag{V: true, At: r.Width.At}}
		if d.Length.Given() && d.Length.V <= r.Width.V {
			w.faults.Wrong(r.Width.At, say.Of("garment.make-it-narrower-than-that-or-close"), say.Of("garment.is-as-wide-as-the-dart-on", p.Name, p.Record.Like.V, d.Edge.V, w.tape().Exact(d.Length.V.MM())))
			f.why = say.Of("garment.it-cannot-be-drawn")
			return
		}
		if !w.altering.reshape(p, f, Alteration{Change: c, Piece: p.Name, border: true}, i) {
			f.why = say.Of("garment.it-cannot-be-drawn")
			return
		}
	}
}

// borderRun is where on the outline the edges of a border lie, and how many of its
// parts they are; false where they do not follow each other.
func (w *derivation) borderRun(p *Piece) (first, count int, ok bool) {
	f, r := &p.form, p.Record.Border
	n := len(f.notes)
	in := make([]bool, n)
	for _, ref := range r.Along {
		at, parts := f.find(f.called(ref.Edge))
		for k := range parts {
			if in[(at+k)%n] = true; f.outline.Edges[(at+k)%n].Fold {
				w.faults.Wrong(ref.At, say.Of("garment.leave-it-out-the-border-goes-on"), say.Of("garment.lies-on-the-fold", ref.String()))
				return 0, 0, false
			}
		}
		if parts == 0 {
			return 0, 0, false // told by the reader
		}
	}
	starts := 0
	for i := range n {
		if in[i] {
			if count++; !in[(i+n-1)%n] {
				first, starts = i, starts+1
			}
		}
	}
	if starts > 1 {
		w.faults.Wrong(r.Along[0].At, say.Of("garment.name-what-lies-between-them-too-or"), say.Of("garment.the-edges-of-do-not-lie-beside", p.Name))
	}
	return first, count, starts == 1 || count == n
}

// borderFault tells why no border can be drawn.
func (w *derivation) borderFault(p *Piece, err error) {
	r := p.Record.Border
	var edges []string
	for _, e := range r.Along {
		edges = append(edges, e.Edge)
	}
	along, other := strings.Join(edges, " and "), p.Record.Like.V
	switch {
	case errors.Is(err, shape.ErrStripRound):
		w.faults.Wrong(r.Along[0].At, say.Of("garment.leave-out-an-edge"), say.Of("garment.goes-round-nearly-all-of", p.Name, other))
	case errors.Is(err, shape.ErrStripSmooth):
		w.faults.Wrong(r.Along[0].At, say.Of("garment.name-the-edge-beside-it-too-or"), say.Of("garment.has-no-end-the-edge-beside-goes", p.Name, along))
	default:
		w.faults.Wrong(r.Width.At, say.Of("garment.make-it-narrower-or-write-the-whole", other), say.Of("garment.is-wider-than-at", p.Name, other, along))
	}
}

// takeStrip takes a strip in place of the outline, with what lies on the edges it runs
// along.
func (f *form) takeStrip(strip shape.Outline, was []int, r *record.BorderSpec) {
	notes := make([]edgeNote, len(was))
	for i, of := range was {
		if of < 0 {
			notes[i] = edgeNote{name: "inner", at: r.Width.At, to: r.Width.At}
			continue
		}
		notes[i] = f.notes[of]
		if a, b := strip.Edges[i].To, f.outline.Edges[of].To; math.Hypot(a.X-b.X, a.Y-b.Y) > 1e-6 {
			notes[i].to = notes[i].at // it was cut short: no line of the record says where it ends
		}
	}
	on := func(edge string) bool {
		return slices.ContainsFunc(r.Along, func(e record.EdgeRef) bool { return f.called(e.Edge) == f.called(edge) })
	}
	f.darts = slices.DeleteFunc(slices.Clone(f.darts), func(d record.DartSpec) bool { return !on(d.Edge.V) })
	f.notches = slices.DeleteFunc(slices.Clone(f.notches), func(n record.NotchSpec) bool { return !on(n.Edge.V) })
	f.outline, f.notes = strip, notes
	f.levels = slices.DeleteFunc(slices.Clone(f.levels), func(l record.Named[record.Length]) bool { return len(strip.WidthsAt(l.V.V.MM())) == 0 })
	f.pleats, f.gathers, f.lines, f.laid, f.corners = nil, nil, nil, nil, nil
	f.ring, f.skirt, f.godet, f.band, f.slit, f.panels = nil, nil, nil, nil, false, 0
	f.parts, f.divided = nil, nil
}
