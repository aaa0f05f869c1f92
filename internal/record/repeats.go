package record

import (
	"math"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/say"
	"hembook/internal/words"
)

// repeatsIn is how many repeats of a cloth a length is written in, as "2 repeats".
func repeatsIn(text string) (n float64, ok bool) {
	text, ok = strings.CutSuffix(strings.TrimSuffix(strings.TrimSpace(text), "s"), " repeat")
	text = strings.TrimSpace(text)
	if q, err := measure.ParseRatio(text); err == nil {
		return q.Number, ok
	}
	n, err := strconv.ParseFloat(text, 64) // none, or fewer, which is told
	return n, ok && err == nil
}

// notRepeats answers repeats where only a length can stand.
func notRepeats(text string) *fault.Fault {
	return wrong(say.Of("record.write-how-long-that-is-in-the"), say.Of("record.only-rectangles-trapezoids-and-pleats", fault.Shorten(text)))
}

// inRepeats notes a length that is written in repeats of a cloth: which cloth it is, and
// how long its repeat, is known when all is read. It is false for other lengths.
func (d *decoder) inRepeats(n *yaml.Node, at fault.Pos, into reflect.Value, lim limits) bool {
	many, ok := repeatsIn(n.Value)
	switch {
	case !ok || !lim.repeats:
		return false
	case !(many > 0) || math.IsInf(many, 0):
		d.misread(n, at, wrong(say.Of("record.write-how-many-there-are-as-2"), say.Of("record.is-no-length", fault.Shorten(n.Value))))
		return true
	}
	if d.repeats == nil {
		d.repeats = map[fault.Pos]float64{}
	}
	d.repeats[at] = many
	into.Set(reflect.ValueOf(Length{measure.MM(many), at}))
	return true
}

// A repeatReader makes lengths of what is written in repeats of a cloth.
type repeatReader struct {
	r      *Room
	b      *Build
	faults *fault.Faults
	told   map[fault.Pos]bool // pieces that are like several stand in their place
}

// readRepeats finds how long all is that is written in repeats.
func (r *Room) readRepeats(b *Build, faults *fault.Faults) {
	if len(b.repeats) == 0 {
		return
	}
	q := &repeatReader{r, b, faults, map[fault.Pos]bool{}}
	for i := range b.Pieces {
		p := &b.Pieces[i]
		if s := p.Rectangle; s != nil {
			q.length(p, &s.Across, true)
			q.length(p, &s.Along, false)
		}
		if s := p.Trapezoid; s != nil {
			q.length(p, &s.Bottom, true)
			q.length(p, &s.Top, true)
			q.length(p, &s.Height, false)
		}
		for k := range p.Pleats {
			q.pleats(p, &p.Pleats[k])
		}
	}
}

// pleats measures pleats along their edge.
func (q *repeatReader) pleats(p *Piece, s *PleatSpec) {
	across, ok := q.runsAcross(p, s.Edge.V)
	for _, l := range []*Length{&s.Depth, &s.Into, &s.AtLevel, &s.Every} {
		many, written := q.b.repeats[l.At]
		switch {
		case !written:
			continue
		case l == &s.Every:
			s.Repeats = many
		}
		if !ok {
			q.fault(l.At, say.Of("record.write-how-long-that-is-as-182"), say.Of("record.is-no-straight-edge-along-or-across", p.Name.V, s.Edge.V))
			*l = Length{}
		}
		if !q.length(p, l, across) {
			s.Unread = true
		}
	}
}

func (q *repeatReader) fault(at fault.Pos, hint, message string) {
	if !q.told[at] {
		q.told[at] = true
		q.faults.Wrong(at, hint, message)
	}
}

// length measures what runs across the grain of a piece or along it; false where the
// cloth has no such repeat, which is told.
func (q *repeatReader) length(p *Piece, l *Length, across bool) bool {
	many, written := q.b.repeats[l.At]
	if !written || !l.Given() {
		return l.Given() || !written
	}
	switch q.grain(p) {
	case "across":
		across = !across
	case "bias":
		q.fault(l.At, say.Of("record.write-how-long-that-is-as-182"), say.Of("record.is-cut-on-the-bias-repeats-cannot", p.Name.V))
		*l = Length{}
		return false
	}
	cloth := q.clothOf(p)
	if cloth == nil { // told by the part that names it
		*l = Length{}
		return false
	}
	word, one := "along", cloth.WashedRepeat(across)
	if across {
		word = "across"
	}
	switch mm := many * one; {
	case one == 0 && cloth.Repeat == RepeatSpec{}:
		q.fault(l.At, say.Of("record.add-the-repeat-to-its-file-as-2", word), say.Of("record.has-no-repeat", cloth.Slug))
	case one == 0:
		q.fault(l.At, say.Of("record.add-it-there-as-repeat-91", word), say.Of("record.has-no-repeat-2", cloth.Slug, word))
	case mm > longestPiece:
		q.fault(l.At, say.Of("record.write-fewer"), say.Of("record.repeats-of-are", trim(many), cloth.Slug, words.Tape(q.r.UnitOf(q.b)).About(mm)))
	default:
		l.V = measure.MM(mm)
		return true
	}
	*l = Length{}
	return false
}

// WashedRepeat is how long one repeat of the pattern is once the cloth is washed, across
// or along; 0 where there is none.
func (c *Cloth) WashedRepeat(across bool) float64 {
	if across {
		return c.Repeat.Across.V.MM() * (1 - float64(c.Shrink.Across.V)/100)
	}
	return c.Repeat.Along.V.MM() * (1 - float64(c.Shrink.Along.V)/100)
}

// from is a piece and what it is like, one after the other.
func (q *repeatReader) from(p *Piece) (chain []*Piece) {
	for p != nil && len(chain) <= len(q.b.Pieces) {
		chain = append(chain, p)
		i := slices.IndexFunc(q.b.Pieces, func(o Piece) bool { return p.Like.Given() && o.Name.V == p.Like.V })
		if i < 0 {
			break
		}
		p = &q.b.Pieces[i]
	}
	return chain
}

func (q *repeatReader) grain(p *Piece) string {
	for _, each := range q.from(p) {
		if each.Grain.Given() {
			return each.Grain.V
		}
	}
	return "along"
}

// clothOf is the outermost cloth a piece is cut in; nil where it is not known.
func (q *repeatReader) clothOf(p *Piece) *Cloth {
	part := ""
	for _, each := range q.from(p) {
		if len(each.Of) > 0 {
			part = each.Of[0].V
			break
		}
	}
	for i := range q.b.Cloth {
		if use := &q.b.Cloth[i]; part == "" || use.Name.V == part {
			c, _ := q.r.Cloth(use.V.Use.V)
			return c
		}
	}
	return nil
}

// runsAcross reports whether an edge of a piece runs across its grain, or else along it;
// false where it does neither.
func (q *repeatReader) runsAcross(p *Piece, edge string) (across, ok bool) {
	for _, each := range q.from(p) {
		for _, e := range each.Edges {
			if e.V.Name.V == edge {
				edge = e.Name.V
			}
		}
		switch {
		case each.Rectangle != nil, each.Trapezoid != nil:
			across = edge == "bottom" || edge == "top"
			return across, across || each.Rectangle != nil
		case each.Outline != nil:
			return each.Outline.runsAcross(edge)
		}
	}
	return false, false
}

// runsAcross tells it of an edge as it is drawn, from end to end.
func (o *OutlineSpec) runsAcross(edge string) (across, ok bool) {
	from, begun, by := o.From.V, false, XY{}
	for i := range o.Edges {
		e := &o.Edges[i]
		if e.Name.V == edge {
			by.X, by.Y, begun = by.X+e.To.V.X-from.X, by.Y+e.To.V.Y-from.Y, true
		}
		from = e.To.V
	}
	const straight = 0.05 // how far it may slope, for its length; own choice, no source
	wide, high := math.Abs(by.X), math.Abs(by.Y)
	return wide > high, begun && min(wide, high) <= straight*max(wide, high)
}
