package garment

import (
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/trade"
)

// A source says where a measure comes from that is not written where it is
// asked for.
type source struct {
	kind figure.Kind
	at   fault.Pos
	from string
}

// measures are the measures of a seam type or finish as one construction has
// them: those written with their places, the others as its table has them.
type measures struct {
	kind     *seamType
	params   trade.Params
	written  record.Dict[record.Length]
	lap      record.Length // an overlap: of the seam that is its type's measure; not given otherwise
	followed source        // where the allowance comes from, where it is not written
	follows  bool
	band     *bandWidth  // where a measure comes from that is as wide as the band; nil where none is
	along    figure.Term // the length of the edge, in formulas of how long a strip is
	edge     *PieceEdge  // of which is asked what is left; nil elsewhere
	side     int         // of its seam
	margin   figure.Setting
}

func seamMeasures(s *Seam) *measures {
	m := &measures{kind: s.kind, params: s.Params, written: s.Record.With, followed: s.followed, follows: s.followed != source{}, band: s.bandWide}
	if s.laps {
		m.lap = s.Record.Overlap
	}
	return m
}

func finishMeasures(f *Finish) *measures {
	return &measures{kind: f.kind, params: f.Params, written: f.Record.With}
}

// left are the measures with those of what is left of an edge on a side of its seam.
func (m *measures) left(e *PieceEdge, side int, margin figure.Setting) *measures {
	m.edge, m.side, m.margin = e, side, margin
	return m
}

// measure is one measure.
func (w *desk) measure(m *measures, name string) figure.Term {
	title := name
	for i := range m.kind.Parameters {
		if m.kind.Parameters[i].Name == name {
			title = m.kind.Parameters[i].Title
		}
	}
	for i := range m.written {
		if m.written[i].Name.V == name {
			return w.Length(title, m.written[i].V)
		}
	}
	if name == trade.AlongName {
		return m.along
	}
	if m.edge != nil {
		switch name {
		case trade.CutName:
			return w.Of(m.edge.ref, &m.edge.Allowance)
		case trade.MarginName:
			return m.margin.Term(w.Pad, say.Of("garment.least-margin"), mm)
		case trade.AllName:
			return w.formula(m.kind.Keeps.Of(m.side), m)
		}
	}
	v := m.params[name]
	switch {
	case m.band != nil && name == m.kind.Band.Width:
		return m.band.term(w, title)
	case name == lapMeasure && m.lap.Given():
		return w.Written(title, v, mm, m.lap.At)
	case name == followed && m.follows:
		return w.Sourced(m.followed.kind, title, v, mm, m.followed.at, m.followed.from)
	}
	return w.Sourced(figure.Default, title, v, mm, fault.Pos{}, say.Of("garment.default-of-the-seam-type"))
}

// formula is a seam type's formula with the measures of one construction.
func (w *desk) formula(e trade.Expr, m *measures) figure.Term {
	b := &formulaTerms{w, m}
	return b.length(trade.Build(e, b))
}

// formulaTerms puts a formula together of terms. A bare number that is added
// to a length is one of millimetres.
type formulaTerms struct {
	w *desk
	m *measures
}

func (b *formulaTerms) Number(v float64) figure.Term { return b.w.Number(v) }
func (b *formulaTerms) Pi() figure.Term              { return b.w.Pi() }
func (b *formulaTerms) Name(name string) figure.Term { return b.w.measure(b.m, name) }
func (b *formulaTerms) Negate(t figure.Term) figure.Term {
	return b.w.Constant(0, mm).Minus(b.length(t))
}

func (b *formulaTerms) Join(op string, x, y figure.Term) figure.Term {
	switch op {
	case "×":
		return x.Times(y)
	case "÷":
		return x.Over(y)
	}
	if x.Bare() != y.Bare() {
		x, y = b.length(x), b.length(y)
	}
	if op == "−" {
		return x.Minus(y)
	}
	return x.Plus(y)
}

// length is a term as a length.
func (b *formulaTerms) length(t figure.Term) figure.Term {
	if t.Bare() {
		return b.w.Constant(t.In(measure.NoUnit), mm)
	}
	return t
}
