package draw

import (
	"strings"

	"hembook/internal/garment"
	"hembook/internal/measure"
)

// Of a hem unrolled, in units.
const (
	hemWide   = 1500 // the hem, all round
	hemHigh   = 300  // the longest drop
	hemTop    = 60   // above the line that was cut
	hemBelow  = 96   // below the longest drop, for the stations' words
	hemLabels = 16   // more stations than that are not all written at
)

// Hem adds a hem that hung, unrolled, to dst: the line to which it was cut, how
// it hangs station by station, and the line to which it is levelled. Drops are
// drawn much larger than the hem is long. It adds nothing where no drop and
// place are known.
func Hem(dst []byte, h *garment.Hang, style measure.Style) []byte {
	d := hemDrawing{h: h, style: style}
	if !d.read() {
		return dst
	}
	b := box{-margin, -margin, hemWide + margin, d.y(d.most) + hemBelow}
	dst = open(dst, "hem", b, "The hem "+h.Name+" as it hung, unrolled", HemWords(h, style))
	dst = d.lines(dst)
	dst = d.hanging(dst)
	dst = d.stations(dst)
	return append(dst, "</svg>"...)
}

// A hemDrawing is one hem being drawn.
type hemDrawing struct {
	h           *garment.Hang
	style       measure.Style
	spots       []hemSpot // in order along the hem
	around      float64
	least, most float64
}

type hemSpot struct {
	along, drop float64
	s           *garment.Station
}

// read collects the stations whose place and drop are known.
func (d *hemDrawing) read() bool {
	if !d.h.Around.Value.Known() {
		return false
	}
	d.around = d.h.Around.Value.Number
	for i := range d.h.Stations {
		s := &d.h.Stations[i]
		if !s.Along.Value.Known() || !s.Drop.Value.Known() || s.Along.Value.Number > d.around {
			continue
		}
		spot := hemSpot{s.Along.Value.Number, s.Drop.Value.Number, s}
		at := len(d.spots)
		for at > 0 && d.spots[at-1].along > spot.along {
			at--
		}
		d.spots = append(d.spots[:at], append([]hemSpot{spot}, d.spots[at:]...)...)
		if len(d.spots) == 1 {
			d.least, d.most = spot.drop, spot.drop
		}
		d.least, d.most = min(d.least, spot.drop), max(d.most, spot.drop)
	}
	return len(d.spots) > 0
}

func (d *hemDrawing) x(along float64) float64 { return hemWide * along / d.around }

// y is how low a drop is drawn. The line that was cut lies at a drop of 0.
func (d *hemDrawing) y(drop float64) float64 {
	high := max(d.most, 0) - min(d.least, 0)
	if high == 0 {
		return hemTop
	}
	return hemTop + hemHigh*(drop-min(d.least, 0))/high
}

// lines draws where the hem was cut and where it is levelled.
func (d *hemDrawing) lines(dst []byte) []byte {
	p := pen{dst: append(dst, `<path class="asCut grain" d="`...)}
	p.move(0, d.y(0))
	p.line(hemWide, d.y(0))
	p.dst = append(p.dst, `"/><path class="levelled sew" d="`...)
	p.move(0, d.y(d.least))
	p.line(hemWide, d.y(d.least))
	dst = text(append(p.dst, `"/>`...), "small", 0, 0, hemTop-16, "as cut, and broken: as levelled")
	return text(dst, "small", 'e', hemWide, hemTop-16, "drop in mm, angle to the grain")
}

// hanging draws the hem as it hung, on from its last station to its first.
func (d *hemDrawing) hanging(dst []byte) []byte {
	first, last := d.spots[0], d.spots[len(d.spots)-1]
	seam := first.drop // the drop at the hem's beginning, between its neighbours
	if over := d.around - last.along + first.along; over > 0 {
		seam = last.drop + (first.drop-last.drop)*(d.around-last.along)/over
	}
	p := pen{dst: append(dst, `<path class="hanging bar" d="`...)}
	p.move(0, d.y(seam))
	for _, s := range d.spots {
		p.line(d.x(s.along), d.y(s.drop))
	}
	p.line(hemWide, d.y(seam))
	return append(p.dst, `"/>`...)
}

// stations draws what is levelled off at each station, and a mark where the
// cloth hangs on the bias.
func (d *hemDrawing) stations(dst []byte) []byte {
	p := pen{dst: append(dst, `<path class="levelling grain" d="`...)}
	for _, s := range d.spots {
		p.move(d.x(s.along), d.y(d.least))
		p.line(d.x(s.along), d.y(s.drop))
	}
	p.dst = append(p.dst, `"/><path class="stations bar" d="`...)
	foot := d.y(d.most) + 24
	for _, s := range d.spots {
		p.move(d.x(s.along), foot)
		p.line(d.x(s.along), foot+tick)
	}
	dst = append(p.dst, `"/>`...)
	every := 1 + (len(d.spots)-1)/hemLabels
	for i, s := range d.spots {
		if i%every != 0 && s.drop != d.most {
			continue
		}
		anchor := byte('m')
		switch x := d.x(s.along); {
		case x < 30:
			anchor = 0
		case x > hemWide-30:
			anchor = 'e'
		}
		dst = text(dst, "", anchor, d.x(s.along), foot+tick+28, d.style.Number(s.drop, 1))
		if g := s.s.Grain.Value; g.Known() {
			dst = text(dst, "small", anchor, d.x(s.along), foot+tick+56, d.style.Number(g.Number, 0), "°")
		}
	}
	return dst
}

// HemWords says in words what a hem drawing shows.
func HemWords(h *garment.Hang, style measure.Style) string {
	var b strings.Builder
	add := func(head string, f *garment.Figure, tail string) {
		if f.ID != "" && f.Value.Known() {
			b.WriteString(head + style.Quantity(f.Value.Quantity) + tail)
		}
	}
	add("The hem is ", &h.Around, " round.")
	add(" It dropped by up to ", &h.Longest, "")
	add(", at least by ", &h.Least, ".")
	add(" Levelling takes off up to ", &h.Spread, ".")
	if h.Bias.Value.Known() {
		add(" At the longest drop the cloth hangs at ", &h.Bias, " to its lengthwise grain")
		if h.OnBias {
			b.WriteString(", on the bias.")
		} else {
			b.WriteString(", not on the bias.")
		}
	}
	b.WriteString(" Below each station stand its drop in millimetres and that angle.")
	return b.String()
}
