package garment

import (
	"math"
	"strconv"

	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// foldsOf are the folds of a pleat: one, or two that lie away from each other or
// towards each other. At a fold of the cloth half of it is in the piece.
func (f *form) foldsOf(p *Piece, spec *record.PleatSpec, edge string, way shape.Point, at, length, depth float64) []shape.PleatFold {
	const out = 3 // the depths that the folds of a box pleat drawn open lie off its middle
	var list []shape.PleatFold
	switch spec.Kind.V {
	case record.BoxPleat:
		if !spec.Drawn.V { // what goes under meets behind the middle, straight across
			from, to := f.outline.AcrossFrom(edge, way, at, -depth), f.outline.AcrossFrom(edge, way, at, depth)
			list = []shape.PleatFold{{Along: from, Depth: depth, Onward: true}, {Along: to, Depth: depth}}
			break
		}
		list = []shape.PleatFold{{Along: at - out*depth, Depth: depth, Onward: true}, {Along: at + out*depth, Depth: depth}}
	case record.InvertedPleat:
		list = []shape.PleatFold{{Along: at, Depth: depth}, {Along: at, Depth: depth, Onward: true}}
	default:
		onward := f.laidToStart(p, spec, edge, at, length)
		if !spec.Place.Given() && !spec.First.Given() && !spec.Last.Given() {
			at += besideMiddle(spec, onward, depth, length)
		}
		return []shape.PleatFold{{Along: at, Depth: depth, Onward: onward}}
	}
	switch first, last := f.atTheFold(edge, at, length); {
	case first:
		return list[1:]
	case last:
		return list[:1]
	}
	return list
}

// atTheFold reports whether a place on an edge is its beginning, or its end, at the fold
// of the cloth.
func (f *form) atTheFold(edge string, at, length float64) (first, last bool) {
	first, last = f.onFoldAt(edge)
	return first && at < touches+leastPart/2.0, last && at > length-touches-leastPart/2.0
}

// wayOfPleats is how the pleats of an edge run into the piece, of which the outermost lie
// there: as at the middle between them, and one at the fold of the cloth along it.
func (f *form) wayOfPleats(edge string, least, most, length float64) shape.Point {
	if most-least < touches {
		i, count := f.find(edge)
		o, n := f.outline, len(f.outline.Edges)
		switch first, last := f.atTheFold(edge, least, length); {
		case first:
			return o.Start((i + n - 1) % n).Sub(o.Start(i))
		case last:
			k := (i + count) % n
			return o.Edges[k].To.Sub(o.Start(k))
		}
	}
	return f.outline.PleatWay(edge, (least+most)/2)
}

// besideMiddle is how far the fold of a pleat lies beside its place where pleats are
// spread evenly: drawn open, what it takes lies about it; else it is moved as far as what
// goes under needs, which may be all that is seen of it.
func besideMiddle(spec *record.PleatSpec, onward bool, depth, length float64) float64 {
	half := length / float64(2*max(spec.Count.Or(1), 1))
	by := min(max(depth-half, 0), half)
	if spec.Drawn.V {
		by = depth
	}
	if onward {
		return -by
	}
	return by
}

// onFoldAt reports whether an edge begins or ends at the fold of the cloth.
func (f *form) onFoldAt(edge string) (first, last bool) {
	i, count := f.find(edge)
	n := len(f.outline.Edges)
	return f.outline.Edges[(i+n-1)%n].Fold, f.outline.Edges[(i+count)%n].Fold
}

// laidToStart reports whether a fold is laid towards where the edge begins, as the
// outline runs: it goes under what lies onward.
func (f *form) laidToStart(p *Piece, spec *record.PleatSpec, edge string, at, length float64) bool {
	if spec.Towards.Given() {
		if to, ok := f.spot(p.formerly(spec.Edge.V), p.formerly(spec.Towards.V)); ok {
			return f.fromStart(to, length) < at
		}
	}
	if spec.Count.V > 1 { // several all lie one way, from the fold of the cloth to the side
		_, last := f.onFoldAt(edge)
		return last
	}
	return at < length/2-touches
}

// pleatPlaces are where the pleats lie, along the edge as the outline runs.
func (w *pleater) pleatPlaces(p *Piece, spec *record.PleatSpec, edge string, length float64, own bool) ([]float64, bool) {
	f := &p.form
	n := max(spec.Count.Or(1), 1)
	good := true
	place := func(at record.Where) float64 {
		l := w.alongOf(p, spec.Edge.V, at, own)
		if at.V.Plain() {
			l = record.Length{V: at.V.By, At: at.At}
			if l.V.MM() > length+touches {
				w.pleatFault(own, at.At, say.Of("garment.measure-less"), say.Of("garment.is-past-the-end-is-long", w.tape().Exact(l.V.MM()), p.Name, edge, w.tape().About(length)))
				good = false
			}
		}
		good = good && l.Given()
		return l.V.MM()
	}
	every := spec.Every.V.MM()
	out := make([]float64, n)
	spread := func(first, step float64) {
		for k := range out {
			out[k] = first + float64(step*float64(k))
		}
	}
	switch first, last := spec.First, spec.Last; {
	case spec.Place.Given():
		spread(place(spec.Place), 0)
	case first.Given() && last.Given():
		a, b := place(first), place(last)
		if every > 0 {
			gaps := math.Round(math.Abs(b-a) / every)
			if !spec.Count.Given() {
				n, out = int(gaps)+1, make([]float64, int(min(gaps, mostPlaces))+1)
			}
			if math.Abs(float64(every*float64(n-1))-math.Abs(b-a)) > divides {
				w.pleatFault(own, spec.Every.At, say.Of("garment.leave-every-or-last-out"), say.Of("garment.pleats-from-to-are-not-apart", n, w.written(a), w.written(b), w.written(every)))
				return nil, false
			}
		}
		spread(a, (b-a)/float64(max(n-1, 1)))
	case first.Given() || last.Given():
		at := first
		if last.Given() {
			at = last
		}
		a := place(at)
		way := 1.0
		if from, ok := f.spot(p.formerly(spec.Edge.V), p.formerly(at.V.From)); ok && !at.V.Plain() && (from >= length-touches || from > a+touches) {
			way = -1
		}
		if last.Given() {
			way = -way
		}
		if every == 0 && n > 1 {
			every = math.Abs(length-2*a) / float64(n-1)
		}
		spread(a, way*every)
	case every > 0:
		spread(length/2-float64(every*float64(n-1))/2, every)
	default:
		spread(length/float64(2*n), length/float64(n))
	}
	for k := range out {
		if out[k] < -touches || out[k] > length+touches {
			if good {
				w.pleatFault(own, spec.At, say.Of("garment.let-them-lie-nearer"), say.Of("garment.pleats-do-not-fit-is-long", n, p.Name, edge, w.tape().About(length)))
			}
			return nil, false
		}
		out[k] = f.fromStart(min(max(out[k], 0), length), length)
	}
	return out, good
}

// pastTheEdge tells of pleats laid to the pattern of the cloth that take more of it than
// the edge has.
func (w *pleater) pastTheEdge(p *Piece, spec *record.PleatSpec, edge string, length float64, own bool) bool {
	n, has := spec.Count.Or(1), length*p.halved()
	takes := float64(n) * spec.Every.V.MM()
	if !spec.Drawn.V || spec.Repeats == 0 || takes <= has+touches {
		return false
	}
	word := say.Of("garment.repeats")
	if spec.Repeats == 1 {
		word = " repeat"
	}
	hint := say.Of("garment.lengthen-the-edge")
	if most := int((has + touches) / spec.Every.V.MM()); most > 0 {
		hint = say.Of("garment.at-most-of-them-or-lengthen-the", strconv.Itoa(most))
	}
	w.pleatFault(own, spec.Every.At, hint, say.Of("garment.pleats-of-are-has", n, strconv.FormatFloat(spec.Repeats, 'f', -1, 64), word, w.tape().About(takes), p.Name, edge, w.tape().About(has)))
	return true
}

// halved is 2 for a piece that is drawn as half of itself, else 1.
func (p *Piece) halved() float64 {
	c := p.form.cut.V
	if !p.form.cut.Given() {
		c, _ = p.usualCut()
	}
	if c.OnFold {
		return 2
	}
	return 1
}

// pleatDepth is how deep each is: as written, or as it follows from what they close to.
func (w *pleater) pleatDepth(p *Piece, spec *record.PleatSpec, edge string, length float64, n int, own bool) (float64, bool) {
	whole := length * p.halved()
	into := spec.Into.V.MM()
	folds := float64(n*spec.Folds()) * p.halved()
	switch {
	case spec.Depth.Given() && spec.Into.Given():
		closed := whole
		if spec.Drawn.V {
			closed -= 2 * spec.Depth.V.MM() * folds
		}
		if math.Abs(closed-into) > w.tolerance {
			hint := say.Of("garment.leave-into-out-or-correct-the-outline")
			if !spec.Drawn.V && math.Abs(closed-2*spec.Depth.V.MM()*folds-into) <= w.tolerance {
				hint = say.Of("garment.is-it-drawn-with-them-open-write")
			}
			w.pleatFault(own, spec.Into.At, hint, say.Of("garment.is-once-they-are-folded-into-says", p.Name, edge, w.tape().About(closed), w.tape().Exact(into)))
		}
	case spec.Into.Given():
		if whole-into < 1 {
			w.pleatFault(own, spec.Into.At, say.Of("garment.draw-it-longer-or-let-into-be"), say.Of("garment.is-long-nothing-is-left-for-pleats", p.Name, edge, w.tape().About(whole), w.tape().Exact(into)))
			return 0, false
		}
		return (whole - into) / (2 * folds), true
	}
	return spec.Depth.V.MM(), spec.Depth.Given()
}

// pleatsApart tells of pleats that lie over each other.
func (w *pleater) pleatsApart(p *Piece, edge string, all []setPleat, open, own bool) bool {
	takes := 0.0
	for i := range all {
		for _, fold := range all[i].folds {
			takes += 2 * fold.Depth
		}
	}
	if length, _ := p.form.outline.LengthOf(edge); open && takes >= length {
		w.pleatFault(own, all[0].spec.At, say.Of("garment.take-in-less-or-lengthen-the-edge"), say.Of("garment.is-long-its-pleats-take", p.Name, edge, w.tape().About(length), w.tape().About(takes)))
		return false
	}
	for k := 0; k+1 < len(all); k++ {
		a, b := &all[k], &all[k+1]
		if len(a.folds) == 0 || len(b.folds) == 0 {
			continue
		}
		depth := max(a.folds[0].Depth, b.folds[0].Depth, a.folds[0].Taper.Depth, b.folds[0].Taper.Depth)
		apart := b.middle - a.middle
		two := a.spec.Folds()+b.spec.Folds() > 2
		takes := a.folds[0].Depth*float64(a.spec.Folds()) + b.folds[0].Depth*float64(b.spec.Folds())
		if open {
			apart -= takes
		}
		switch {
		case apart < -touches:
			w.pleatFault(own, b.spec.At, say.Of("garment.let-them-lie-farther-apart"), say.Of("garment.pleats-of-lie-over-each-other-by", p.Name, edge, w.tape().Tenth(-apart)))
			return false
		case two && a.spec == b.spec && apart < 2*depth-0.05:
			most := apart / 2
			if open {
				most = (b.middle - a.middle) / 6
				if a.spec.Into.Given() {
					most = apart / 2
				}
			}
			w.pleatFault(own, a.spec.At, say.Of("garment.depth-at-most", w.written(math.Floor(most*10+1e-6)/10)), say.Of("garment.pleats-overlap-behind-by-deep-apart", w.tape().Tenth(2*depth-apart), w.tape().Tenth(depth), w.tape().Tenth(apart)))
			return false
		}
	}
	return true
}
