package draw

import (
	"math"

	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/measure"
)

// The sizes of a cross-section through a roll, in millimetres on paper.
const (
	rollApart = 5.0   // the middles of the two cloths
	rollMost  = 12.0  // for each millimetre of cloth
	rollTight = 9.0   // the least bend of the inner cloth
	rollLeg   = 16.0  // on either side of the roll
	rollRound = 200.0 // degrees: what is rolled farther is drawn without legs
	rollStep  = 3.0   // degrees between the points of an arc
)

// A rollDrawing is a section through two cloths that are rolled over together, both as long
// as they are cut: where the outer one has not what it needs, it ends short.
type rollDrawing struct {
	*drawing.Drawing
	r     *garment.Rolled
	k     float64 // mm on paper for each of cloth
	ply   float64 // how thick a cloth is drawn
	tight float64 // the bend of the inner cloth
	angle float64 // radians, as it is drawn
	short float64 // what the outer ply lacks, as it is drawn; negative where it has more
	leg   float64 // before the roll, and of the inner cloth after it
}

// Roll draws a section through a piece that is rolled over what lies under it: both begin
// together, and beside their other ends stands what the outer one lacks. It is nil where
// that is not known.
func Roll(r *garment.Rolled, style measure.Style) *drawing.Drawing {
	if !r.Apart.Value.Known() || !r.Needs.Value.Known() || !r.Has.Value.Known() || r.Apart.Value.Number <= 0 {
		return nil
	}
	lacks := r.Needs.Value.Number - r.Has.Value.Number
	d := &rollDrawing{Drawing: drawing.New("section"), r: r, k: min(rollApart/r.Apart.Value.Number, rollMost)}
	d.angle, d.short = r.Angle*math.Pi/180, lacks*d.k
	d.ply = r.Apart.Value.Number * d.k * plyShare
	d.tight = max(rollTight, (letters(d.under())*smallWide+3*gap)/2)
	d.leg = max(rollLeg, math.Abs(d.short)+rollLeg/2)
	if r.Angle > rollRound {
		d.leg, d.tight = 0, max(d.tight, rollLeg)
	}
	d.cloth(drawing.PlyTwo, 0, d.leg)
	d.cloth(drawing.PlyOne, r.Apart.Value.Number*d.k, d.leg-d.short)
	d.lacks(lacks, style)
	d.names()
	d.frame()
	return d.Drawing
}

// under is the name of the inner cloth; "" where it is a ply of the piece itself.
func (d *rollDrawing) under() string {
	if d.r.Under == nil {
		return ""
	}
	return d.r.Under.Name
}

// leave is a point so far outside the inner cloth and so far beyond the roll. A cloth begins
// with a leg upwards, is rolled to the right, and goes on straight; one that goes round has
// no legs, and what is beyond lies on the same arc.
func (d *rollDrawing) leave(out, beyond float64) drawing.Point {
	r, angle := d.tight+out, d.angle
	if d.leg == 0 {
		angle, beyond = angle+beyond/(d.tight+d.r.Apart.Value.Number*d.k), 0
	}
	sin, cos := math.Sincos(angle)
	return drawing.Point{X: -float64(r*cos) + float64(beyond*sin), Y: float64(r*sin) + float64(beyond*cos)}
}

// cloth draws one cloth, so far outside the inner one and so long beyond the roll.
func (d *rollDrawing) cloth(m drawing.Meaning, out, beyond float64) {
	r, angle := d.tight+out, d.angle
	line := []drawing.Point{{X: -r, Y: -d.leg}, {X: -r}}
	if d.leg == 0 {
		line, angle = line[1:], angle+beyond/r
	}
	steps := max(int(angle*180/math.Pi/rollStep), 4)
	for i := 1; i <= steps; i++ {
		sin, cos := math.Sincos(angle * float64(i) / float64(steps))
		line = append(line, drawing.Point{X: -float64(r * cos), Y: float64(r * sin)})
	}
	if d.leg > 0 {
		line = append(line, d.leave(out, beyond))
	}
	d.Thick(drawing.PlyEdge, d.ply).Lines(drawing.Frame{K: 1}, line)
	d.Thick(m, d.ply-0.6).Lines(drawing.Frame{K: 1}, line)
	for _, q := range line {
		d.Box.Add(q.X-d.ply/2, -q.Y-d.ply/2)
		d.Box.Add(q.X+d.ply/2, -q.Y+d.ply/2)
	}
}

// lacks measures what the outer cloth lacks at its end, or has over.
func (d *rollDrawing) lacks(mm float64, style measure.Style) {
	if math.Abs(mm) < 0.5 {
		return
	}
	const parts = 12
	out := d.r.Apart.Value.Number*d.k + d.ply/2 + 1.6
	p := d.Draw(drawing.Measured)
	for _, end := range [...]float64{d.leg - d.short, d.leg} { // a tick across each end
		a, b := d.leave(out-tick, end), d.leave(out+tick, end)
		p.Move(a.X, -a.Y).Line(b.X, -b.Y)
	}
	for i := range parts + 1 {
		q := d.leave(out, d.leg-d.short+d.short*float64(i)/parts)
		d.Box.Add(q.X, -q.Y+tick)
		if i == 0 {
			p.Move(q.X, -q.Y)
			continue
		}
		p.Line(q.X, -q.Y)
	}
	at, off := d.leave(out, d.leg-d.short/2), d.leave(out+1, d.leg-d.short/2)
	way := drawing.Point{X: off.X - at.X, Y: off.Y - at.Y}
	l := drawing.Label{Words: style.Length(measure.MM(math.Round(math.Abs(mm)*10) / 10)), Voice: drawing.Small,
		X: at.X + way.X*(tick+0.8), Y: -at.Y - way.Y*(tick+0.8)}
	switch {
	case way.X < -0.5:
		l.Anchor = drawing.End
	case way.X < 0.5:
		l.Anchor = drawing.Middle
	}
	if way.Y < 0.5 { // its letters hang below the place, or stand beside it
		l.Y += textHeight * (0.5 - way.Y/2)
	}
	d.tell(l)
}

// names writes which cloth is which: the outer one's beside its leg, the inner one's within.
func (d *rollDrawing) names() {
	out := d.tight + d.r.Apart.Value.Number*d.k + d.ply/2
	if d.under() == "" {
		return
	}
	d.tell(drawing.Label{Words: d.r.Piece.Name, Voice: drawing.Small, Anchor: drawing.End, X: -out - 1, Y: d.leg*0.7 - d.rise()})
	d.tell(drawing.Label{Words: d.under(), Voice: drawing.Small, X: -d.tight + d.ply/2 + 1, Y: d.leg*0.35 + textHeight/2})
}

// rise is how far up the name of the outer cloth stands where it goes round: clear of what is
// measured there.
func (d *rollDrawing) rise() float64 {
	if d.leg == 0 {
		return d.tight * 0.8
	}
	return 0
}

func (d *rollDrawing) tell(l drawing.Label) {
	b := wordsOf(l, smallWide)
	d.Box.Add(b.Left, b.Top)
	d.Box.Add(b.Right, b.Bottom)
	d.Say(l)
}

// frame leaves room round the drawing, and says in words what it shows.
func (d *rollDrawing) frame() {
	d.Box.Left, d.Box.Top = d.Box.Left-margin, d.Box.Top-margin
	d.Box.Right, d.Box.Bottom = d.Box.Right+margin, d.Box.Bottom+margin
}
