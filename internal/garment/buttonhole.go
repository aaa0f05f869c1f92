package garment

import (
	"math"

	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/trade"
	"hembook/internal/words"
)

// Where buttonholes are published. Authorities disagree on their length: others add up
// to an eighth of an inch, or take 20 to 25 % over the width of the button.
const (
	holeSource  trade.Source = `"Buttons and Buttonholes" (Sewing Skills 1), University of Minnesota Agricultural Extension, 1965`
	standSource trade.Source = "Standards of quality, Association of Sewing and Design Professionals (half the button and at least 1/4 in beyond the centre line)"
)

// holeBeyond is how far a buttonhole begins beyond the place of its button, where the
// shank lies: towards the edge, or upwards where it lies upright, mm (1/8 in: the same
// bulletin, and a sewing machine's manual, model 645, pages 31 and 32).
const holeBeyond = 25.4 / 8

// standBeyond is how far the edge lies at least beyond the button, mm (1/4 in).
const standBeyond = 25.4 / 4

// shank is how long the shank of thread is that a button stands on, mm, and sewnThrough
// how many stitches hold a button (the cycle for four holes: "Thread Recommendations for
// Buttonsew, Buttonholes & Bartacks", a thread maker's technical bulletin). Each goes
// there and back.
const (
	shank       = 3
	sewnThrough = 16
	sewnOn      = "derived (16 stitches there and back: a thread maker's technical bulletin on buttonsew, buttonholes and bartacks)"
)

// spareFor is for how many buttons one is put by (common practice, no source).
const spareFor = 10

// holeLong is how long the buttonhole of a notion is, mm; 0 where it has none.
func holeLong(n *record.Notion) float64 {
	if !n.NeedsHoles() {
		return 0
	}
	return n.Size.V.MM() + thickness(n).V
}

// thickness is how thick a button is.
func thickness(n *record.Notion) figure.Setting {
	if n.Thick.Given() {
		return figure.Setting{V: n.Thick.V.MM(), At: n.Thick.At, Source: figure.Recorded}
	}
	return figure.Setting{V: usualThick, Source: figure.Practice}
}

// chalk marks the places of a notion on its piece, with their buttonholes where these
// lie along no line of their own.
func (w *notionReckoner) chalk(n *record.Notion, s *spreadOut) {
	holes := holeLong(n)
	if n.HolesOn.Given() {
		holes = 0
	}
	w.chalkAlong(n, s.piece, n.Along.V, s.places, holes, false)
}

// chalkHoles marks buttonholes that lie along a line of their own: as far from where its
// edge begins, or from where it ends if that lies opposite, as the buttons do.
func (w *notionReckoner) chalkHoles(n *record.Notion, s *spreadOut) {
	ref := n.HolesOn.V
	p := w.named[ref.Piece]
	if !n.HolesOn.Given() || p == nil || p.form.why != "" || holeLong(n) == 0 {
		return
	}
	f := &p.form
	length, ok := f.lengthAlong(p.formerly(ref.Edge))
	own, _ := s.piece.form.lengthAlong(s.piece.formerly(n.Along.V.Edge))
	if !ok {
		return // told by the reader
	}
	places := make([]float64, len(s.places))
	turned := p == s.piece // the other end of a cuff or of a band runs the other way
	for k, at := range s.places {
		if places[k] = at * length / own; math.Abs(length-own) < 1 {
			places[k] = at
		}
		if turned {
			places[k] = length - places[k]
		}
	}
	w.chalkAlong(n, p, ref, places, holeLong(n), true)
}

// chalkAlong marks places along an edge, or a line inside it.
func (w *notionReckoner) chalkAlong(n *record.Notion, p *Piece, ref record.EdgeRef, places []float64, holes float64, only bool) {
	f := &p.form
	lines := make([]Chalked, 0, len(places))
	for k, along := range places {
		at, way, ok := f.pointAlong(p.formerly(ref.Edge), along)
		if !ok {
			return
		}
		c := Chalked{Notion: n.Name.V, At: at, HoleOnly: only}
		if n.Button() {
			c.Size = n.Size.V.MM()
		}
		if in := ref.Inside.MM(); in != 0 { // the inside lies to the left
			c.At = shape.Point{X: at.X - float64(way.Y*in), Y: at.Y + float64(way.X*in)}
		}
		if k < len(n.Drawn) && !only {
			c.At = n.Drawn[k].At
			c.Hole, c.Open = n.Drawn[k].Hole, n.Drawn[k].Open && !n.Size.Given()
		}
		if holes > 0 {
			c.Hole, c.Open = w.hole(n, c.At, way, holes), true
			if k < len(n.Drawn) && n.Drawn[k].Open && !n.Holes.Given() {
				c.Hole = n.Drawn[k].Hole
			}
		}
		lines = append(lines, c)
	}
	w.holesFit(n, p, ref, lines, holes)
	p.Chalked = append(p.Chalked, lines...)
}

// hole is where the ends of a buttonhole lie whose button is put at a place. way is how
// the edge runs there; the inside lies to its left.
func (w *notionReckoner) hole(n *record.Notion, at, way shape.Point, long float64) [2]shape.Point {
	to := shape.Point{X: way.Y, Y: -way.X} // towards the edge
	if w.b.Upright(n) {
		if to = way; to.Y < -1e-9 || math.Abs(to.Y) <= 1e-9 && to.X < 0 {
			to = shape.Point{X: -way.X, Y: -way.Y}
		}
	}
	off := func(by float64) shape.Point {
		return shape.Point{X: at.X + float64(to.X*by), Y: at.Y + float64(to.Y*by)}
	}
	begin := min(holeBeyond, long/2)
	return [2]shape.Point{off(begin), off(begin - long)}
}

// holesFit tells of buttonholes that leave their piece, or run into each other.
func (w *notionReckoner) holesFit(n *record.Notion, p *Piece, ref record.EdgeRef, lines []Chalked, long float64) {
	if long == 0 || len(lines) == 0 || n.Size.V.MM() > mostButton || ref.Inside.MM() > seldomInside {
		return // the rest is told of such
	}
	at := n.Along.At
	if n.HolesOn.Given() {
		at = n.HolesOn.At
	}
	on := p.Name + "." + ref.Edge
	for k := range lines {
		c := &lines[k]
		if ref.Inside > 0 && c.leaves(&p.form.outline) != nil {
			hint := say.Of("garment.move-their-line-or-take-smaller-buttons")
			if w.b.Upright(n) {
				end := "first"
				if k > 0 {
					end = "last"
				}
				hint = say.Of("garment.set-the-one-farther-from-the-end", end, w.writtenUp(long))
			}
			w.faults.LookAgain(at, hint, say.Of("garment.a-buttonhole-of-long-runs-off", n.Name.V, w.tape().Exact(long), w.tape().Tenth(c.left(&p.form.outline)), p.Name))
			return
		}
		if k > 0 && w.b.Upright(n) {
			if apart := far(c.At, lines[k-1].At); apart < long {
				w.faults.Wrong(n.Along.At, say.Of("garment.let-them-lie-farther-apart-or-level"), say.Of("garment.buttonholes-of-on-are-long-and-apart", n.Name.V, on, w.tape().Exact(long), w.tape().Tenth(apart)))
				return
			}
		}
	}
}

// leaves is the end of a buttonhole that lies off its piece; nil where none does.
func (c *Chalked) leaves(o *shape.Outline) *shape.Point {
	for k := range c.Hole {
		if !o.Contains(c.Hole[k]) {
			return &c.Hole[k]
		}
	}
	return nil
}

// left is how much of a buttonhole lies off its piece, mm.
func (c *Chalked) left(o *shape.Outline) float64 {
	in, out := c.At, *c.leaves(o)
	if !o.Contains(in) {
		return far(in, out)
	}
	whole := out
	for range 40 {
		mid := shape.Point{X: (in.X + out.X) / 2, Y: (in.Y + out.Y) / 2}
		if o.Contains(mid) {
			in = mid
		} else {
			out = mid
		}
	}
	return far(whole, out)
}

// holesLie says how buttonholes lie, who works them, and on which of a pair they are:
// a woman's right front laps over the left, a man's left over the right (standards of
// quality of the same association).
func (w *notionReckoner) holesLie(n *record.Notion) string {
	out := "level"
	if w.b.Upright(n) {
		out = "upright"
	}
	if out += say.Of("garment.by-machine"); n.By.V == record.ByHand {
		out = out[:len(out)-len("machine")] + "hand"
	}
	p := w.named[n.Along.V.Piece]
	switch who := w.b.For.Who.V; {
	case n.HolesOn.Given():
		out += say.Of("garment.on", n.HolesOn.V.Piece, n.HolesOn.V.Edge)
	case p == nil || p.Record.Cut.V.N == 1 && !p.Record.Cut.V.OnFold || words.AnyOf(p.Name, limbPieces):
	case who == "woman" || who == "girl":
		out += say.Of("garment.on-the-right-buttons-on-the-left")
	case who == "man" || who == "boy":
		out += say.Of("garment.on-the-left-buttons-on-the-right")
	}
	return out
}

// ButtonCount is how many places of buttons are marked on a piece.
func (p *Piece) ButtonCount() int {
	n := 0
	for i := range p.Chalked {
		if c := &p.Chalked[i]; c.Size > 0 && !c.HoleOnly {
			n++
		}
	}
	return n
}

// drawnPlaces takes the places of a notion from the pattern file that draws them.
func (w *notionReckoner) drawnPlaces(n *record.Notion, s *spreadOut) {
	along := s.piece.formerly(n.Along.V.Edge)
	if _, ok := s.piece.form.lengthAlong(along); !ok {
		return // they are drawn along an edge or a line
	}
	s.drawn = true
	for _, q := range n.Drawn {
		s.places = append(s.places, s.piece.form.nearestAlong(along, q.At))
	}
	s.first, s.last = s.places[0], s.places[len(s.places)-1]
}

// nearestAlong is how far along an edge or a line, as the record has it, the point lies that
// is nearest to another.
func (f *form) nearestAlong(name string, q shape.Point) float64 {
	if l := f.laidLine(name); l != nil {
		along, _ := l.Nearest(q)
		return along
	}
	edge := f.called(name)
	length, _ := f.outline.LengthOf(edge)
	return f.fromStart(nearestAlong(f.outline, edge, length, q), length)
}

// far is how far two points lie from each other, the straight way.
func far(a, b shape.Point) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }

// nearestAlong is how far along a named edge the point lies that is nearest to another.
func nearestAlong(o shape.Outline, edge string, length float64, q shape.Point) float64 {
	const steps = 400
	apart := func(s float64) float64 {
		at, _, _ := o.PointOn(edge, s)
		return far(at, q)
	}
	best := 0.0
	for k := range steps + 1 {
		if s := length * float64(k) / steps; apart(s) < apart(best) {
			best = s
		}
	}
	for step := length / steps; step > 1e-4; step /= 2 {
		for _, s := range [...]float64{best - step, best + step} {
			if s >= 0 && s <= length && apart(s) < apart(best) {
				best = s
			}
		}
	}
	return best
}

// holeRows are the buttonholes of buttons whose size is written, as long as the button is
// wide and thick, and the thread that sews the buttons on.
func (w *stitching) holeRows() {
	for _, n := range w.g.Notions {
		r := n.Record
		if !r.Button() || !r.Size.Given() {
			continue
		}
		base := w.Join("notion.", n.Slug)
		if r.NeedsHoles() {
			w.buttonholeOf(n, base)
		}
		w.buttonOn(n, base)
	}
}

func (w *stitching) buttonholeOf(n *Notion, base string) {
	r := n.Record
	n.Hole = w.Figure(w.Join(base, ".hole"), say.Of("garment.length-of-a-buttonhole"), r.Name.V, w.Length("size", r.Size).Plus(thickness(r).Term(w.Pad, "thickness", mm)), mm,
		say.Of("garment.size-of-the-button-its-thickness"), holeSource)
	n.HolesSewn = w.Figure(w.Join(base, ".holes"), say.Of("garment.length-of-buttonholes"), r.Name.V, w.Of(say.Of("garment.length-of-one"), &n.Hole).Times(w.Of("number", &n.Count)), measure.UnitM,
		say.Of("garment.length-of-one-times-how-many"), figure.Derived)
	n.Stand = w.Figure(w.Join(base, ".stand"), say.Of("garment.least-stand"), r.Name.V, w.Length("size", r.Size).Part(2).Plus(w.Row(say.Of("garment.beyond-the-button"), standBeyond, mm, standSource)), mm,
		say.Of("garment.half-the-button-what-must-lie-beyond"), standSource)
	row := Row{Kind: HoleRow, Of: r.Name.V, Thread: w.threadName(""), Stitch: holeStitchHand, Rows: 1, Length: &n.HolesSewn, Hand: true,
		what: w.Join("buttonholes for ", r.Name.V), do: say.Of("garment.round-the-slit"), ratios: [2]float64{holeByHand, 0}, source: handHoles}
	if r.By.V != record.ByHand {
		row.Stitch, row.Hand, row.ratios, row.source = holeStitchMachine, false, [2]float64{holeByMachine / 2.0, holeByMachine / 2.0}, machineHoles
	}
	if p := w.named[r.Along.V.Piece]; p != nil && r.Along.Given() {
		row.plies, row.Thread = []ply{{p, ""}}, w.threadName(w.threadOfPiece(p))
	}
	w.sewsRow(row)
}

// buttonOn is the thread that sews buttons on, and how many of them are to be had.
func (w *stitching) buttonOn(n *Notion, base string) {
	r := n.Record
	count := w.Of("number", &n.Count)
	n.ToHave = w.Figure(w.Join(base, ".have"), say.Of("garment.to-have-with-spare-ones"), r.Name.V, count.Plus(count.Part(spareFor).Up(w.Number(1))), measure.UnitCount,
		say.Of("garment.number-one-spare-for-each-ten-or"), figure.Practice)
	deep := thickness(r).Term(w.Pad, "thickness", mm).Plus(w.Usual(say.Of("garment.shank-of-thread"), shank, mm))
	n.SewnOn = w.Figure(w.Join(base, ".sewn-on"), say.Of("garment.thread-through-the-buttons-once"), r.Name.V, deep.Times(count), measure.UnitM,
		say.Of("garment.thickness-of-the-button-shank-of-thread"), figure.Practice)
	row := Row{Kind: ButtonRow, Of: r.Name.V, Thread: w.threadName(""), Stitch: holeStitchHand, Rows: 1, Length: &n.SewnOn, Hand: true,
		what: r.Name.V, do: say.Of("garment.through-the-button-and-the-cloth-there"), ratios: [2]float64{2 * sewnThrough, 0}, source: sewnOn}
	if p := w.named[r.Along.V.Piece]; p != nil && r.Along.Given() {
		row.plies, row.Thread = []ply{{p, ""}}, w.threadName(w.threadOfPiece(p))
	}
	w.sewsRow(row)
}
