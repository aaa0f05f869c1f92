// Package camera finds out from photographs of flat things how the camera stood, what
// its lens does, and where on the table the things lay.
//
// The plane is in millimetres, x to the right and y up; pictures are in pixels, y down,
// the upper left pixel's middle at (0.5, 0.5). A lens has a focal length, the same both
// ways, a middle and two radial terms (D. C. Brown, "Close-Range Camera Calibration",
// Photogrammetric Engineering 37, 1971); nothing of it is taken as known but how far
// lenses usually stray. Everything is found at once by least squares.
//
// It finds nothing in pictures and knows of no cards.
package camera

import (
	"math"

	"hembook/internal/shape"
)

// A Lens is how a camera draws: focal length and middle in pixels, and the radial terms
// K1 and K2, so that what would be drawn r focal lengths from the middle is drawn
// 1 + K1 r² + K2 r⁴ times as far.
type Lens struct{ F, CX, CY, K1, K2 float64 }

// A Pose is how the plane lies before the camera: turned by R, row by row, and moved by
// T millimetres, in the camera's x to the right, y down, z away from it.
type Pose struct {
	R [9]float64
	T [3]float64
}

// A View is a photograph's lens and pose: where everything on the plane is seen.
type View struct {
	Lens
	Pose
}

// See is where a point of the plane is seen; ok is false for what lies behind the camera.
func (v View) See(p shape.Point) (at shape.Point, ok bool) {
	x := v.R[0]*p.X - v.R[1]*p.Y + v.T[0]
	y := v.R[3]*p.X - v.R[4]*p.Y + v.T[1]
	z := v.R[6]*p.X - v.R[7]*p.Y + v.T[2]
	if !(z > 1) { // a millimetre before the lens
		return shape.Point{}, false
	}
	x, y = x/z, y/z
	r := x*x + y*y
	k := v.F * (1 + r*(v.K1+r*v.K2))
	return shape.Point{X: v.CX + k*x, Y: v.CY + k*y}, true
}

// OnPlane is the point of the plane that is seen at a place of the picture; ok is false
// where the camera looks past the plane.
func (v View) OnPlane(at shape.Point) (p shape.Point, ok bool) {
	x, y := v.straighten((at.X-v.CX)/v.F, (at.Y-v.CY)/v.F)
	r, t := &v.R, &v.T
	// The ray (x, y, 1) turned back into the plane's frame, and the camera's own place.
	dx, dy, dz := r[0]*x+r[3]*y+r[6], r[1]*x+r[4]*y+r[7], r[2]*x+r[5]*y+r[8]
	cx, cy, cz := r[0]*t[0]+r[3]*t[1]+r[6]*t[2], r[1]*t[0]+r[4]*t[1]+r[7]*t[2], r[2]*t[0]+r[5]*t[1]+r[8]*t[2]
	if !(math.Abs(dz) > 1e-9) || cz/dz <= 0 {
		return shape.Point{}, false
	}
	far := cz / dz
	return shape.Point{X: far*dx - cx, Y: cy - far*dy}, true
}

// straighten undoes the radial terms, by Newton's method along the radius.
func (l Lens) straighten(x, y float64) (float64, float64) {
	want := math.Hypot(x, y)
	if want < 1e-12 {
		return x, y
	}
	r := want
	for range 12 {
		q := r * r
		slope := 1 + q*(3*l.K1+5*q*l.K2)
		if slope < 0.1 {
			break // beyond what such a lens can draw
		}
		r -= (r*(1+q*(l.K1+q*l.K2)) - want) / slope
	}
	return x * r / want, y * r / want
}

// Finest is how many millimetres of the plane one pixel covers where a point is seen,
// the coarser way.
func (v View) Finest(p shape.Point) float64 {
	at, ok := v.See(p)
	right, ok1 := v.See(shape.Point{X: p.X + 1, Y: p.Y})
	up, ok2 := v.See(shape.Point{X: p.X, Y: p.Y + 1})
	if !ok || !ok1 || !ok2 {
		return math.Inf(1)
	}
	a, b, c, d := right.X-at.X, up.X-at.X, right.Y-at.Y, up.Y-at.Y
	half, det := (a*a+b*b+c*c+d*d)/2, a*d-b*c
	least := math.Sqrt(max(half-math.Sqrt(max(half*half-det*det, 0)), 0))
	return 1 / max(least, 1e-9)
}

// turnedBy is a pose turned a little further, by an angle about each axis of the camera.
func (p Pose) turnedBy(w [3]float64) Pose {
	angle := math.Sqrt(w[0]*w[0] + w[1]*w[1] + w[2]*w[2])
	if angle < 1e-15 {
		return p
	}
	x, y, z := w[0]/angle, w[1]/angle, w[2]/angle
	s, c := math.Sincos(angle)
	k := 1 - c
	e := [9]float64{c + x*x*k, x*y*k - z*s, x*z*k + y*s, y*x*k + z*s, c + y*y*k, y*z*k - x*s, z*x*k - y*s, z*y*k + x*s, c + z*z*k}
	out := Pose{T: p.T}
	for i := range 3 {
		for j := range 3 {
			out.R[3*i+j] = e[3*i]*p.R[j] + e[3*i+1]*p.R[3+j] + e[3*i+2]*p.R[6+j]
		}
	}
	return out
}
