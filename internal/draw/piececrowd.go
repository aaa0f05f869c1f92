package draw

import (
	"math"

	"hembook/internal/drawing"
	"hembook/internal/shape"
)

// A hurdle is a straight stretch of a line in a drawing, or of the frame of words.
type hurdle struct {
	a, b  drawing.Point
	words bool
}

// A crowd is what further words on a piece keep off: its lines and the words so far.
type crowd []hurdle

// How words lie about their base line, of their letters' size, and how far they keep off.
const (
	lettersUp   = 0.74
	lettersDown = 0.2
	wordsFree   = 0.3  // mm
	wordsWorse  = 1000 // one hurdle of other words is worse than so many of lines
)

// crowded is a crowd of all that is drawn so far.
func crowded(d *drawing.Drawing) crowd {
	var c crowd
	for i := range d.Marks {
		if d.Marks[i].Means != drawing.Words {
			c = c.path(d.Path(i))
		}
	}
	return c
}

// path adds the lines of a path; curves as so many straight stretches.
func (c crowd) path(p drawing.Path) crowd {
	const stretches = 12
	var at, begin drawing.Point
	to := func(q drawing.Point) {
		c = append(c, hurdle{a: at, b: q})
		at = q
	}
	p.Each(func(op drawing.Op, q []drawing.Point) {
		switch op {
		case drawing.MoveTo:
			at, begin = q[0], q[0]
		case drawing.LineTo:
			to(q[0])
		case drawing.CurveTo:
			from := at
			for k := range stretches {
				t := float64(k+1) / stretches
				u := 1 - t
				to(drawing.Point{
					X: float64(u*u*u*from.X) + float64(3*u*u*t*q[0].X) + float64(3*u*t*t*q[1].X) + float64(t*t*t*q[2].X),
					Y: float64(u*u*u*from.Y) + float64(3*u*u*t*q[0].Y) + float64(3*u*t*t*q[1].Y) + float64(t*t*t*q[2].Y),
				})
			}
		case drawing.ClosePath:
			to(begin)
		}
	})
	return c
}

// A plot is where words stand: an upright box in directions of their own.
type plot struct {
	at       drawing.Point // on the base line
	sin, cos float64       // of how far they are turned against the clock
	box      drawing.Box   // up is less, as everywhere in a drawing
}

// plotOf is where a label stands, so wide and with letters so large.
func plotOf(l drawing.Label, wide, size float64) plot {
	p := plot{at: drawing.Point{X: l.X, Y: l.Y}, box: drawing.Box{Top: -lettersUp * size, Bottom: lettersDown * size, Right: wide}}
	p.sin, p.cos = math.Sincos(l.Turn * math.Pi / 180)
	switch l.Anchor {
	case drawing.Middle:
		p.box.Left, p.box.Right = -wide/2, wide/2
	case drawing.End:
		p.box.Left, p.box.Right = -wide, 0
	}
	return p
}

// in is a place of the drawing in the directions of the words.
func (p plot) in(q drawing.Point) (x, y float64) {
	dx, dy := q.X-p.at.X, q.Y-p.at.Y
	return float64(dx*p.cos) - float64(dy*p.sin), float64(dx*p.sin) + float64(dy*p.cos)
}

// out is a place in the directions of the words in the drawing.
func (p plot) out(x, y float64) drawing.Point {
	return drawing.Point{X: p.at.X + float64(x*p.cos) + float64(y*p.sin), Y: p.at.Y - float64(x*p.sin) + float64(y*p.cos)}
}

// meets says how bad it is to put words there: 0 where they meet nothing.
func (c crowd) meets(p plot) int {
	bad := 0
	for _, s := range c {
		ax, ay := p.in(s.a)
		bx, by := p.in(s.b)
		from, to := 0.0, 1.0
		if clip(ax, bx-ax, p.box.Left-wordsFree, p.box.Right+wordsFree, &from, &to) && clip(ay, by-ay, p.box.Top-wordsFree, p.box.Bottom+wordsFree, &from, &to) && from < to {
			if bad++; s.words {
				bad += wordsWorse
			}
		}
	}
	return bad
}

// with is the crowd and words that stand there: their frame, and across it, so that words
// within are met too.
func (c crowd) with(p plot) crowd {
	b := p.box
	corners := [4]drawing.Point{p.out(b.Left, b.Top), p.out(b.Right, b.Top), p.out(b.Right, b.Bottom), p.out(b.Left, b.Bottom)}
	for i := range corners {
		for k := i + 1; k < len(corners); k++ {
			c = append(c, hurdle{corners[i], corners[k], true})
		}
	}
	return c
}

// plotOf is where a label of this piece stands.
func (d *pieceDrawing) plotOf(l drawing.Label) plot { return plotOf(l, d.wide(l), d.size(l)) }

// bad says how bad it is to say these labels together: what they, or what is between them,
// meet, and that they leave the piece.
func (d *pieceDrawing) bad(labels ...drawing.Label) int {
	p := d.plotOf(labels[0])
	for _, l := range labels[1:] {
		q := d.plotOf(l)
		p.box.Add(p.in(q.out(q.box.Left, q.box.Top)))
		p.box.Add(p.in(q.out(q.box.Right, q.box.Bottom)))
	}
	bad, flat := d.crowd.meets(p), d.flattened()
	for _, x := range [...]float64{p.box.Left, p.box.Right} {
		for _, y := range [...]float64{p.box.Top, p.box.Bottom} {
			if !flat.Contains(d.pieceAt(p.out(x, y))) {
				bad += wordsWorse
			}
		}
	}
	return bad
}

// pieceAt is a place of the drawing on the piece.
func (d *pieceDrawing) pieceAt(q drawing.Point) shape.Point {
	return shape.Point{X: q.X/d.f.K + d.f.Left, Y: d.f.Top - q.Y/d.f.K}
}

// sayAll says labels, and has later ones keep off them.
func (d *pieceDrawing) sayAll(labels ...drawing.Label) {
	for _, l := range labels {
		d.Say(l)
		if d.has(Label) {
			d.crowd = d.crowd.with(d.plotOf(l))
		}
	}
}

// A choice is the best of the ways to say something that were tried so far.
type choice struct {
	labels []drawing.Label
	bad    int
}

// try has a choice consider one more way; it reports whether nothing can be better.
func (d *pieceDrawing) try(c *choice, labels ...drawing.Label) (clear bool) {
	if bad := d.bad(labels...); c.labels == nil || bad < c.bad {
		c.labels, c.bad = labels, bad
	}
	return c.bad == 0
}
