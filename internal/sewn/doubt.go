package sewn

import "slices"

// Readings are what is taken as meant, where a plan leaves it open.
type readings struct {
	rounds map[string]Round // by the name of a seam: a ring or tubes
	second *doubt           // of this the second reading; of all else the first
}

// A doubt is what may be meant otherwise than it is read.
type doubt struct {
	kind   QuestionKind
	name   string // of the seam, closure or piece
	pieces []string
}

func (d *doubt) is(o *doubt) bool { return o != nil && d.kind == o.kind && d.name == o.name }

// doubt notes that something may be meant otherwise, and reports whether it is read so
// now.
func (b *builder) doubt(d doubt) (second bool) {
	if !slices.ContainsFunc(b.doubts, func(o doubt) bool { return o.is(&d) }) {
		b.doubts = append(b.doubts, d)
	}
	return d.is(b.said.second)
}

// askBoth asks of all that may be meant otherwise, with the garment put together both
// ways.
func (b *builder) askBoth(p Plan) {
	for i := range b.doubts {
		d := &b.doubts[i]
		other := build(p, readings{b.said.rounds, d})
		q := Question{Kind: d.kind, Seam: -1, Closure: -1, Pieces: d.pieces, Readings: [2]*Surface{b.s, other.s}}
		switch d.kind {
		case WhichEnd:
			q.Closure = slices.IndexFunc(b.s.Plan.Closures, func(c Closure) bool { return c.Name == d.name })
		case WhichOfPair, WhichWayUp:
			q.Seam = slices.IndexFunc(b.s.Plan.Seams, func(s Seam) bool { return s.Name == d.name })
		}
		b.ask(q)
	}
}

// putBehind lets a piece lie behind others, where that is the reading.
func (b *builder) putBehind() {
	d := b.said.second
	if d == nil || d.kind != BesideOrBehind {
		return
	}
	for i := range b.s.Plan.Pieces {
		if p := &b.s.Plan.Pieces[i]; p.Name == d.name {
			p.Behind = true
		}
	}
}
