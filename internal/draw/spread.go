package draw

import "hembook/internal/drawing"

// Spread draws a small picture of how observations lie: a line from the least
// to the greatest, a bar between the quartiles, a tack at the median, on a
// thin line that is the scale. from and to bound the scale that several such
// pictures share.
func Spread(least, lower, median, upper, most, from, to float64, title string) *drawing.Drawing {
	const mid, high = spreadMid, 0.8
	d, at := spread(from, to, title)
	p := d.Draw(drawing.SpreadReach).Move(at(least), mid).Line(at(most), mid)
	for _, v := range []float64{least, most} {
		p.Move(at(v), mid-high).Line(at(v), mid+high)
	}
	d.Draw(drawing.SpreadHalf).Rect(at(lower), mid-high, at(upper), mid+high)
	tackAt(d, at(median), mid, 0.8)
	return d
}

// Few draws times that are too few for more: a mark at the least and the greatest.
func Few(least, most, from, to float64, title string) *drawing.Drawing {
	d, at := spread(from, to, title)
	p := d.Draw(drawing.SpreadReach)
	for _, v := range []float64{least, most} {
		p.Move(at(v), spreadMid-1.2).Line(at(v), spreadMid+1.2)
		if least == most {
			break
		}
	}
	return d
}

// spreadMid is the middle of a picture of times, from its top.
const spreadMid = 2

// spread begins a picture of times with its scale; at is where on it a time lies.
func spread(from, to float64, title string) (d *drawing.Drawing, at func(float64) float64) {
	const wide, mid, high = 52, spreadMid, 0.8
	k := 0.0
	if to > from {
		k = wide / (to - from)
	}
	d = drawing.New("spread")
	d.Title, d.Box = title, drawing.Box{Left: -1, Right: wide + 1, Bottom: 2 * mid}
	d.Draw(drawing.SpreadScale).Move(0, mid-high).Line(0, mid+high).Move(0, mid).Line(wide, mid)
	return d, func(v float64) float64 { return (v - from) * k }
}

// tackAt marks a median.
func tackAt(d *drawing.Drawing, x, y, half float64) { d.Draw(drawing.Median).Cross(x, y, half, tick) }
