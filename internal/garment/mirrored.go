package garment

import (
	"slices"

	"hembook/internal/meant"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// mirrors reports whether a piece is the left one to a right one that it is like, or the
// right one to a left: it is drawn as its mirror image.
func mirrors(r *record.Piece) bool {
	if !r.Like.Given() {
		return false
	}
	whole, side := halfOf(r.Name.V)
	of, other := halfOf(r.Like.V)
	return side != "" && other != "" && side != other && whole == of
}

// hasImage reports whether another piece is drawn as the mirror image of one.
func (w *index) hasImage(p *Piece) bool {
	return slices.ContainsFunc(w.g.Pieces, func(q *Piece) bool { return q.Record.Like.V == p.Name && mirrors(q.Record) })
}

// coverOf is the piece that one is like and may lie on, as a lining on its shell; "" of a
// mirror image, which lies beside the piece it is like.
func (p *Piece) coverOf() string {
	if mirrors(p.Record) {
		return ""
	}
	return p.Record.Like.V
}

// mirror turns a form over: every x becomes −x. What is measured from where an edge
// begins as it was drawn stays so.
func (f *form) mirror() {
	if f.why != "" {
		return
	}
	f.corners = f.cornersMirrored()
	f.outline, f.turned, f.reversed = f.outline.Mirrored(), !f.turned, !f.reversed
	slices.Reverse(f.notes)
	f.mirrorMarks(true, true)
}

// mirrorMarks turns over what is marked by points.
func (f *form) mirrorMarks(darts, lines bool) {
	if darts {
		f.darts = slices.Clone(f.darts)
		for i := range f.darts {
			f.darts[i].Point.V.X = 0 - f.darts[i].Point.V.X
		}
	}
	if lines {
		f.lines = slices.Clone(f.lines)
		for i := range f.lines {
			mirrorLine(&f.lines[i])
		}
	}
}

// cornersMirrored are the corners that levels belong to once the form is turned over: at
// each begins the edge that ended there.
func (f *form) cornersMirrored() map[string][]string {
	if f.corners == nil {
		return nil
	}
	out := map[string][]string{}
	n := len(f.notes)
	for level, list := range f.corners {
		for _, name := range list {
			if first, count := f.find(name); count > 0 {
				name = f.notes[(first+n-1)%n].name
			}
			out[level] = append(out[level], name)
		}
	}
	return out
}

func mirrorLine(l *record.LineSpec) {
	l.From.V.Point.X = 0 - l.From.V.Point.X
	l.To.V.Point.X = 0 - l.To.V.Point.X
	l.Bend.V.Rise = 0 - l.Bend.V.Rise
	for k := range l.Bend.V.Handles {
		l.Bend.V.Handles[k].X = 0 - l.Bend.V.Handles[k].X
	}
	l.Path = slices.Clone(l.Path)
	for k := range l.Path {
		l.Path[k] = mirroredPoint(l.Path[k])
	}
}

// mirroredLine is a closed line turned over, and run the same way round as before.
func mirroredLine(l shape.Line) shape.Line {
	out := make(shape.Line, len(l))
	for k, p := range l {
		out[len(l)-1-k] = mirroredPoint(p)
	}
	return out
}

func mirroredPoint(p shape.Point) shape.Point { return shape.Point{X: 0 - p.X, Y: p.Y} }

// asDrawn is a point of a form where the record draws it.
func (f *form) asDrawn(p shape.Point) shape.Point {
	if f.turned {
		return mirroredPoint(p)
	}
	return p
}

// MirrorImages says in one line which pieces are drawn as the mirror images of those
// they are like; "" where none is.
func (g *Garment) MirrorImages() string {
	var said []string
	for _, p := range g.Pieces {
		if mirrors(p.Record) && p.Record.Pair == "" && p.form.why == "" && !p.form.ownImage() {
			said = append(said, say.Of("garment.the-mirror-image-of", p.Name, p.Record.Like.V))
		}
	}
	if said == nil {
		return ""
	}
	return meant.List(said, "and")
}
