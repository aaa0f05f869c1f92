package draw

import (
	"hembook/internal/fitting"
	"strings"

	"hembook/internal/drawing"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/say"
)

// Of a hem unrolled.
const (
	hemWide   = 150 // the hem, all round
	hemHigh   = 30  // the longest drop
	hemTop    = 6   // above the line that was cut
	hemBelow  = 9.6 // below the longest drop, for the stations' words
	hemLabels = 16  // more stations than that are not all written at
)

// Hem draws a hem that hung, unrolled: the line to which it was cut, how it
// hangs station by station, and the line to which it is levelled. Drops are
// drawn much larger than the hem is long. It is nil where no drop and place
// are known.
func Hem(h *fitting.Hang, style measure.Style) *drawing.Drawing {
	w := hemDrawing{h: h, style: style}
	if !w.read() {
		return nil
	}
	d := drawing.New("hem")
	d.Box = drawing.Box{Left: -margin, Top: -margin, Right: hemWide + margin, Bottom: w.y(w.most) + hemBelow}
	d.Title, d.Desc = say.Of("draw.the-hem-as-it-hung-unrolled", h.Name), hemWords(h, style)
	d.Draw(drawing.AsCut).Move(0, w.y(0)).Line(hemWide, w.y(0))
	d.Draw(drawing.Levelled).Move(0, w.y(w.least)).Line(hemWide, w.y(w.least))
	write(d, drawing.Small, drawing.Begin, 0, hemTop-1.6, say.Of("draw.as-cut-and-broken-as-levelled"))
	write(d, drawing.Small, drawing.End, hemWide, hemTop-1.6, say.Of("draw.drop-in-mm-angle-to-the-grain"))
	w.hanging(d.Draw(drawing.Hanging))
	w.stations(d)
	return d
}

// A hemDrawing is one hem being drawn.
type hemDrawing struct {
	h           *fitting.Hang
	style       measure.Style
	spots       []hemSpot // in order along the hem
	around      float64
	least, most float64
}

type hemSpot struct {
	along, drop float64
	s           *fitting.Station
}

// read collects the stations whose place and drop are known.
func (w *hemDrawing) read() bool {
	if !w.h.Around.Value.Known() {
		return false
	}
	w.around = w.h.Around.Value.Number
	for i := range w.h.Stations {
		s := &w.h.Stations[i]
		if !s.Along.Value.Known() || !s.Drop.Value.Known() || s.Along.Value.Number > w.around {
			continue
		}
		spot := hemSpot{s.Along.Value.Number, s.Drop.Value.Number, s}
		at := len(w.spots)
		for at > 0 && w.spots[at-1].along > spot.along {
			at--
		}
		w.spots = append(w.spots[:at], append([]hemSpot{spot}, w.spots[at:]...)...)
		if len(w.spots) == 1 {
			w.least, w.most = spot.drop, spot.drop
		}
		w.least, w.most = min(w.least, spot.drop), max(w.most, spot.drop)
	}
	return len(w.spots) > 0
}

func (w *hemDrawing) x(along float64) float64 { return hemWide * along / w.around }

// y is how low a drop is drawn. The line that was cut lies at a drop of 0.
func (w *hemDrawing) y(drop float64) float64 {
	high := max(w.most, 0) - min(w.least, 0)
	if high == 0 {
		return hemTop
	}
	return hemTop + hemHigh*(drop-min(w.least, 0))/high
}

// hanging draws the hem as it hung, on from its last station to its first.
func (w *hemDrawing) hanging(p *drawing.Path) {
	first, last := w.spots[0], w.spots[len(w.spots)-1]
	seam := first.drop // the drop at the hem's beginning, between its neighbours
	if over := w.around - last.along + first.along; over > 0 {
		seam = last.drop + (first.drop-last.drop)*(w.around-last.along)/over
	}
	p.Move(0, w.y(seam))
	for _, s := range w.spots {
		p.Line(w.x(s.along), w.y(s.drop))
	}
	p.Line(hemWide, w.y(seam))
}

// stations draws what is levelled off at each station, and a mark where the
// cloth hangs on the bias.
func (w *hemDrawing) stations(d *drawing.Drawing) {
	p := d.Draw(drawing.LevelledOff)
	for _, s := range w.spots {
		p.Move(w.x(s.along), w.y(w.least)).Line(w.x(s.along), w.y(s.drop))
	}
	p = d.Draw(drawing.StationMark)
	foot := w.y(w.most) + 2.4
	for _, s := range w.spots {
		p.Move(w.x(s.along), foot).Line(w.x(s.along), foot+tick)
	}
	every := 1 + (len(w.spots)-1)/hemLabels
	for i, s := range w.spots {
		if i%every != 0 && s.drop != w.most {
			continue
		}
		x, anchor := w.x(s.along), drawing.Middle
		switch {
		case x < 3:
			anchor = drawing.Begin
		case x > hemWide-3:
			anchor = drawing.End
		}
		write(d, drawing.Plain, anchor, x, foot+tick+2.8, w.style.Number(s.drop, 1))
		if g := s.s.Grain.Value; g.Known() {
			write(d, drawing.Small, anchor, x, foot+tick+5.6, w.style.Number(g.Number, 0)+"°")
		}
	}
}

// hemWords says in words what a hem drawing shows.
func hemWords(h *fitting.Hang, style measure.Style) string {
	var b strings.Builder
	add := func(head string, f *figure.Figure, tail string) {
		if f.ID != "" && f.Value.Known() {
			b.WriteString(head + style.Quantity(f.Value.Quantity) + tail)
		}
	}
	add(say.Of("draw.the-hem-is"), &h.Around, say.Of("draw.round"))
	add(say.Of("draw.it-dropped-by-up-to"), &h.Longest, "")
	if h.Least.Value.Number >= 0.5 {
		add(say.Of("draw.at-least-by"), &h.Least, "")
	}
	b.WriteString(".")
	add(say.Of("draw.levelling-takes-off-up-to"), &h.Spread, ".")
	if h.Bias.Value.Known() {
		add(say.Of("draw.at-the-longest-drop-the-cloth-hangs"), &h.Bias, say.Of("draw.to-its-lengthwise-grain"))
		if h.OnBias {
			b.WriteString(say.Of("draw.on-the-bias"))
		} else {
			b.WriteString(say.Of("draw.not-on-the-bias"))
		}
	}
	b.WriteString(say.Of("draw.below-each-place-stand-its-drop-in"))
	return b.String()
}
