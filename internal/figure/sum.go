package figure

import "hembook/internal/measure"

// SumOr is Σ of terms; of none it is not known.
func (p *Pad) SumOr(none string, terms []Term) Term {
	if len(terms) == 0 {
		return p.Unknown(none)
	}
	return p.Sum(terms...)
}

// AtLeastNothing is a length, or nothing where it is less.
func (p *Pad) AtLeastNothing(t Term) Term {
	if t.Known() && t.MM() < 0 {
		return p.Greatest(t, p.Constant(0, measure.UnitMM))
	}
	return t
}

// eachOf are figures as terms, each named by what it is of; what is not known
// says of which it is not.
func (p *Pad) eachOf(figures []*Figure) []Term {
	out := make([]Term, len(figures))
	for i, f := range figures {
		out[i] = p.Of(f.Of, f)
		if !f.Value.Known() {
			out[i] = out[i].Unless(f.Of + ": " + f.Value.Why)
		}
	}
	return out
}

// Total adds up figures of one dimension; one that is not known makes the sum so.
func (p *Pad) Total(id, title, of string, unit measure.Unit, figures []*Figure, empty, rule string) Figure {
	t := p.Unknown(empty)
	if len(figures) > 0 {
		t = p.Sum(p.eachOf(figures)...)
	}
	return p.Figure(id, title, of, t, unit, rule, Derived)
}
