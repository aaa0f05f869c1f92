package draw

import (
	"strconv"

	"hembook/internal/drawing"
	"hembook/internal/sewn"
)

// A Stage says how far something is in the order of work.
type Stage uint8

// The stages.
const (
	NotYet Stage = iota
	Now
	Done
)

// A StepStyle says how far each seam and finish is when a step is done.
type StepStyle struct {
	NetStyle
	SeamAt   func(seam int) Stage
	FinishAt func(name string) Stage
}

// NetStep draws a garment laid flat as far as it is sewn: what this step sews
// heavy, with its number, and what was sewn before as a plain line. It is nil where nothing is
// laid.
func NetStep(s *sewn.Surface, n *sewn.Net, style StepStyle) *drawing.Drawing {
	d := newNet(s, n, style.NetStyle)
	if d == nil {
		return nil
	}
	for i := range n.Laid {
		d.Draw(drawing.NetPiece).Outline(d.f, d.outline(&n.Laid[i]))
	}
	now := func(sp sewn.Span, number int, stage Stage, said bool) {
		if stage == NotYet {
			return
		}
		line := d.onDrawing(sp)
		switch {
		case len(line) < 2:
			return
		case stage == Done:
			d.line(drawing.DartLeg, line)
			return
		}
		d.line(drawing.NetNow, line)
		if said && number > 0 {
			d.besideLine(strconv.Itoa(number), line)
		}
	}
	for i := range n.Meetings {
		m := &n.Meetings[i]
		j := &s.Joins[m.Join]
		if j.Seam < 0 || j.Kind == sewn.Closing {
			continue
		}
		stage, number := style.SeamAt(j.Seam), style.Seam(j.Seam)
		for k, sp := range []sewn.Span{j.A, j.B} {
			if m.Here[k] {
				now(sp, number, stage, k == 0 || m.Far)
			}
		}
	}
	for _, loop := range n.Openings {
		for _, sp := range loop.Spans {
			if name := s.FinishOf(sp.Side); name != "" {
				now(sp, style.Finish(name), style.FinishAt(name), true)
			}
		}
	}
	d.drawDiscs()
	d.frame()
	return d.Drawing
}

// line draws a line whose points are those of the drawing already.
func (d *netDrawing) line(m drawing.Meaning, line []drawing.Point) {
	p := d.Draw(m)
	for i, q := range drawing.ThinnedLine(line, drawing.Eye) {
		if i == 0 {
			p.Move(q.X, q.Y)
		} else {
			p.Line(q.X, q.Y)
		}
	}
}
