package draw

import (
	"strconv"

	"hembook/internal/drawing"
)

// A Pose is how somebody stands or sits for a photograph.
type Pose uint8

// The poses, in the order they are taken.
const (
	PoseFront Pose = iota
	PoseBack
	PoseLeft
	PoseRight
	PoseSitting
	PoseReaching
	Poses // how many there are
)

// Of the pictures of poses, in millimetres; a figure's own measures are in hundredths of
// its height.
const (
	poseWide  = 54.0
	poseHigh  = 61.0
	poseApart = 6.0
	poseSays  = 7.0 // below a picture, for its words
	poseScale = 0.62
	poseNeck  = 9.0 // hundredths below the crown, where a picture begins
)

// Posed draws the poses as the photographs are to show them, from the neck down, each with
// its number and words below it.
func Posed(says [Poses]string) *drawing.Drawing {
	d := drawing.New("body")
	d.Box = drawing.Box{Left: -0.3, Top: -0.3, Right: 3*poseWide + 2*poseApart + 0.3, Bottom: 2 * (poseHigh + poseSays)}
	for pose := range Poses {
		x, y := float64(pose%3)*(poseWide+poseApart), float64(pose/3)*(poseHigh+poseSays)
		f := bodyFigure{d: d, middle: (x + poseWide/2) / poseScale, crown: poseNeck - y/poseScale, scale: poseScale, right: pose == PoseRight, reaches: pose == PoseReaching}
		switch pose {
		case PoseFront:
			f.trunk(fromFront)
		case PoseBack:
			f.trunk(fromBack)
		case PoseSitting:
			f.middle += 6
			f.crown -= 14 // its feet stand on the floor too
			f.trunk(onChair)
		default:
			f.trunk(fromSide)
		}
		floor := d.Draw(drawing.ClothEdge)
		floor.Move(x+4, y+(100-poseNeck)*poseScale).Line(x+poseWide-4, y+(100-poseNeck)*poseScale)
		d.Draw(drawing.ScaleBar).Rect(x, y, x+poseWide, y+poseHigh)
		d.Say(drawing.Label{X: x, Y: y + poseHigh + 4.6, Words: strconv.Itoa(int(pose)+1) + "  " + says[pose], Voice: drawing.Plain})
	}
	return d
}

// Of the strip, in millimetres.
const (
	stripFields = 16
	stripField  = 10.0
	stripHigh   = 9.0
	stripAround = 6.0
)

// ScaleStrip draws a strip of centimetres to cut out and to pin flat to a garment, by which
// lengths are read from a photograph. It is drawn at its true size; says stands below it.
func ScaleStrip(says string) *drawing.Drawing {
	d := drawing.New("body")
	d.Title = says
	d.Box = drawing.Box{Left: -stripAround, Top: -stripAround, Right: stripFields*stripField + stripAround, Bottom: stripHigh + stripAround + 2}
	d.Draw(drawing.LeftOver).Rect(d.Box.Left+0.2, d.Box.Top+0.2, d.Box.Right-0.2, d.Box.Bottom-0.2)
	d.Draw(drawing.CodeGround).Rect(0, 0, stripFields*stripField, stripHigh)
	for k := range stripFields {
		left := float64(k) * stripField
		if k%2 == 1 {
			d.Draw(drawing.CodeSquare).Rect(left, 0, left+stripField, stripHigh)
		}
		d.Say(drawing.Label{X: left + stripField/2, Y: -1.6, Words: strconv.Itoa(k + 1), Voice: drawing.NetSmall, Anchor: drawing.Middle})
	}
	d.Draw(drawing.ScaleBar).Rect(0, 0, stripFields*stripField, stripHigh)
	d.Say(drawing.Label{X: stripFields * stripField / 2, Y: stripHigh + 4.6, Words: says, Voice: drawing.NetSmall, Anchor: drawing.Middle})
	return d
}
