package main

import (
	"hembook/internal/drawing"
	"hembook/internal/lay"
	"hembook/internal/shape"
)

// picture shows a lay 250 mm wide.
func picture(p *lay.Problem, plan *lay.Plan) []byte {
	d, long := drawing.New("lay"), plan.Length/plan.Layers()
	f := drawing.Frame{Top: plan.Width, K: 250 / long}
	d.Box = drawing.Box{Right: long * f.K, Bottom: plan.Width * f.K}
	d.Draw(drawing.LayCloth).Rect(0, 0, d.Box.Right, d.Box.Bottom)
	for _, at := range plan.Placements {
		var ring shape.Ring
		for _, q := range p.Placed(at) {
			ring = append(ring, shape.Point(q))
		}
		d.Draw(drawing.SheetArea).Ring(f, ring)
	}
	return d.SVGFile(&drawing.Print)
}
