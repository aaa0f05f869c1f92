// Package tabletop makes up photographs of paper pieces on a table with cards beside
// them, for tests only: through a leaning camera whose lens bends lines, with uneven
// light, the shadow of a hand, blur, noise, and what JPEG makes of it all.
//
// Where everything lies is known exactly, and how it is seen is worked out here a second
// time, sharing nothing with the rooms that find it again but the making of the cards.
package tabletop

import (
	"image"
	"math"
	"math/rand/v2"

	"golang.org/x/image/vector"

	"hembook/internal/card"
	"hembook/internal/shape"
)

// A Placed is a card on the table: its middle, how far it is turned against the clock in
// radians, and how many millimetres it floats above the table.
type Placed struct {
	Number      int
	X, Y, Turn  float64
	Raised      float64
	Print       float64 // how large it is printed for what it should be; 0 for 1
	SpreadByInk float64 // mm that ink goes further on all sides
}

// A Colour is linear red, green and blue, 0 to 1.
type Colour [3]float64

// A Scene is a table to be photographed. Lengths are millimetres, x to the right and y
// up; angles radians.
type Scene struct {
	Piece        []shape.Point   // the paper's outline
	Others       [][]shape.Point // more paper
	Lines        [][]shape.Point // drawn on the paper, 0.8 mm wide
	Cards        []Placed
	Print        *image.Gray // on the paper, its upper left corner at (0, 0); nil for none
	PrintEach    float64     // mm of one of its pixels
	Paper, Table Colour

	Wide, High      int     // of the picture
	Tilt, From      float64 // how far the camera leans, and to which side
	Roll            float64 // how it is turned
	Fill            float64 // share of the picture that what lies on the table takes; 0 for 0.9
	F, K1, K2       float64 // focal length for the longer side, radial terms
	OffMid          float64 // how far the lens's middle is off the picture's, as a share
	Blur            float64 // pixels
	Noise           float64 // of 255
	Uneven          float64 // how much darker one side is, as a share
	Shadow          []shape.Point
	ShadowDark      float64 // share of light it takes
	ShadowSoft      float64 // mm
	Quality         int     // of the JPEG; 0 for 90
	Seed            uint64
	fromX, fromY    float64 // what the camera aims at
	distance, focal float64
	rot             [9]float64
}

// step is how fine the table is drawn before it is photographed, in millimetres.
const step = 0.25

// A cover is how far each spot of a part of the table is covered, 0 to 255.
type cover struct {
	left, top  float64
	wide, high int
	of         []uint8
}

func coverOf(rings ...[]shape.Point) *cover {
	left, right, low, top := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, ring := range rings {
		for _, p := range ring {
			left, right, low, top = min(left, p.X), max(right, p.X), min(low, p.Y), max(top, p.Y)
		}
	}
	c := &cover{left: left - 2*step, top: top + 2*step}
	c.wide, c.high = int((right-left)/step)+5, int((top-low)/step)+5
	ras := vector.NewRasterizer(c.wide, c.high)
	for _, ring := range rings {
		for i, p := range ring {
			x, y := float32((p.X-c.left)/step), float32((c.top-p.Y)/step)
			if i == 0 {
				ras.MoveTo(x, y)
			} else {
				ras.LineTo(x, y)
			}
		}
		ras.ClosePath()
	}
	mask := image.NewAlpha(image.Rect(0, 0, c.wide, c.high))
	ras.Draw(mask, mask.Rect, image.Opaque, image.Point{})
	c.of = mask.Pix
	return c
}

// at is how far a place is covered, 0 to 1.
func (c *cover) at(x, y float64) float64 {
	u, v := (x-c.left)/step-0.5, (c.top-y)/step-0.5
	i, j := int(math.Floor(u)), int(math.Floor(v))
	if i < 0 || j < 0 || i+1 >= c.wide || j+1 >= c.high {
		return 0
	}
	fu, fv := u-float64(i), v-float64(j)
	at := j*c.wide + i
	a, b := float64(c.of[at]), float64(c.of[at+1])
	d, e := float64(c.of[at+c.wide]), float64(c.of[at+c.wide+1])
	return ((a*(1-fu)+b*fu)*(1-fv) + (d*(1-fu)+e*fu)*fv) / 255
}

// A seenCard is a card as it is drawn: in its own frame.
type seenCard struct {
	Placed
	dark, light *cover
	sin, cos    float64
}

func drawn(p Placed) seenCard {
	out := seenCard{Placed: p}
	out.sin, out.cos = math.Sincos(p.Turn)
	if out.Print == 0 {
		out.Print = 1
	}
	corners := card.Corners()
	grow := func(q shape.Point, middle float64) shape.Point {
		return shape.Point{X: q.X + math.Copysign(p.SpreadByInk, q.X-middle), Y: q.Y + math.Copysign(p.SpreadByInk, q.Y)}
	}
	var dark [][]shape.Point
	for _, first := range []int{0, 4} {
		var ring []shape.Point
		for _, q := range corners[first : first+4] {
			ring = append(ring, grow(q, card.Apart/2*math.Copysign(1, q.X)))
		}
		dark = append(dark, ring)
	}
	dark = append(dark, bar(-25, 25, -19.5), bar(-3, 3, 0))
	out.dark = coverOf(dark...)
	var light [][]shape.Point
	for _, at := range card.Pips(p.Number) {
		light = append(light, disc(at, card.PipRound-p.SpreadByInk))
	}
	out.light = coverOf(light...)
	return out
}

func bar(left, right, y float64) []shape.Point {
	return []shape.Point{{X: left, Y: y - 0.1}, {X: right, Y: y - 0.1}, {X: right, Y: y + 0.1}, {X: left, Y: y + 0.1}}
}

func disc(at shape.Point, r float64) (out []shape.Point) {
	for i := range 48 {
		s, c := math.Sincos(float64(i) * math.Pi / 24)
		out = append(out, shape.Point{X: at.X + r*c, Y: at.Y + r*s})
	}
	return out
}

// cardReach is how far a card reaches from its middle at most, in millimetres.
const cardReach = 60

// paint is the colour that a card has at a place of the table as the camera sees it;
// ok is false beside it. A card that floats hides what lies beyond it.
func (c *seenCard) paint(x, y float64, foot [3]float64) (Colour, bool) {
	nearer := 1 - c.Raised/foot[2]
	x, y = foot[0]+nearer*(x-foot[0])-c.X, foot[1]+nearer*(y-foot[1])-c.Y
	if x*x+y*y > cardReach*cardReach {
		return Colour{}, false
	}
	x, y = (c.cos*x+c.sin*y)/c.Print, (c.cos*y-c.sin*x)/c.Print
	if math.Abs(x) > card.Wide/2 || math.Abs(y) > card.High/2 {
		return Colour{}, false
	}
	ink := c.dark.at(x, y) * (1 - c.light.at(x, y))
	v := 0.85*(1-ink) + 0.03*ink
	return Colour{v, v, v}, true
}

// A table is a scene ready to be looked at.
type table struct {
	*Scene
	cards  []seenCard
	paper  *cover
	others []*cover
	lines  *cover
	shadow *cover // softened, each spot shadeStep wide
	grain  [64]float64
	foot   [3]float64 // the place below the camera, and how high it stands
}

func (s *Scene) lay() *table {
	t := &table{Scene: s, paper: coverOf(s.Piece)}
	for _, c := range s.Cards {
		t.cards = append(t.cards, drawn(c))
	}
	for _, o := range s.Others {
		t.others = append(t.others, coverOf(o))
	}
	if len(s.Lines) > 0 {
		t.lines = coverOf(thick(s.Lines, 0.4)...)
	}
	if len(s.Shadow) > 0 {
		t.shade()
	}
	t.foot = [3]float64{s.fromX - s.rot[6]*s.distance, s.fromY + s.rot[7]*s.distance, s.rot[8] * s.distance}
	rng := rand.New(rand.NewPCG(s.Seed, 7))
	for i := range t.grain {
		t.grain[i] = 1 + 0.06*rng.NormFloat64()
	}
	return t
}

// thick are lines as areas, each stretch alone.
func thick(lines [][]shape.Point, half float64) (out [][]shape.Point) {
	for _, l := range lines {
		for i := 1; i < len(l); i++ {
			a, b := l[i-1], l[i]
			long := math.Hypot(b.X-a.X, b.Y-a.Y)
			x, y := (a.Y-b.Y)/long*half, (b.X-a.X)/long*half
			out = append(out, []shape.Point{{X: a.X + x, Y: a.Y + y}, {X: a.X - x, Y: a.Y - y}, {X: b.X - x, Y: b.Y - y}, {X: b.X + x, Y: b.Y + y}})
		}
	}
	return out
}

// bare is what the table itself sends back from a place.
func (t *table) bare(x, y float64) Colour {
	out := t.Table
	wood := t.grain[int(math.Abs(math.Floor((y+8*math.Sin(x/140))/7)))%len(t.grain)]
	for c := range out {
		out[c] *= wood
	}
	return out
}

// colour is what a place sends back on which no other cards lie than those.
func (t *table) colour(x, y float64, cards []*seenCard) Colour {
	for i := len(cards) - 1; i >= 0; i-- { // the last is on top
		if on, ok := cards[i].paint(x, y, t.foot); ok {
			return on
		}
	}
	share := t.paper.at(x, y)
	if share == 1 && t.lines == nil && t.others == nil && t.Print == nil {
		return t.Paper
	}
	out := t.bare(x, y)
	out.lay(t.Paper, share)
	for _, o := range t.others {
		out.lay(t.Paper, o.at(x, y))
	}
	if t.Print != nil {
		out.lay(Colour{0.04, 0.04, 0.04}, share*t.printed(x, y))
	}
	if t.lines != nil {
		out.lay(Colour{0.1, 0.1, 0.12}, t.lines.at(x, y))
	}
	return out
}

// printed is how dark the print is at a place, 0 to 1.
func (s *Scene) printed(x, y float64) float64 {
	u, v := x/s.PrintEach-0.5, -y/s.PrintEach-0.5
	i, j := int(math.Floor(u)), int(math.Floor(v))
	at := func(i, j int) float64 {
		if !(image.Point{X: i, Y: j}).In(s.Print.Rect) {
			return 0
		}
		return 1 - float64(s.Print.GrayAt(i, j).Y)/255
	}
	u, v = u-float64(i), v-float64(j)
	return (at(i, j)*(1-u)+at(i+1, j)*u)*(1-v) + (at(i, j+1)*(1-u)+at(i+1, j+1)*u)*v
}

// lay covers a share of a colour with another one.
func (c *Colour) lay(on Colour, share float64) {
	for i := range c {
		c[i] += share * (on[i] - c[i])
	}
}

// shadeStep is how fine a shadow is kept, in millimetres.
const shadeStep = 2.0

// shade softens the shadow: each spot has the mean of what lies about it.
func (t *table) shade() {
	hard := coverOf(t.Shadow)
	rim := 2 * t.ShadowSoft
	soft := &cover{left: (hard.left - rim) * step / shadeStep, top: (hard.top + rim) * step / shadeStep}
	soft.wide, soft.high = int((float64(hard.wide)*step+2*rim)/shadeStep), int((float64(hard.high)*step+2*rim)/shadeStep)
	soft.of = make([]uint8, soft.wide*soft.high)
	for i := range soft.of {
		x, y := hard.left-rim+(float64(i%soft.wide)+0.5)*shadeStep, hard.top+rim-(float64(i/soft.wide)+0.5)*shadeStep
		sum := 0.0
		for k := range 81 {
			sum += hard.at(x+float64(k%9-4)*t.ShadowSoft/4, y+float64(k/9-4)*t.ShadowSoft/4)
		}
		soft.of[i] = uint8(255*sum/81 + 0.5)
	}
	t.shadow = soft
}

// light is how much light falls on a place.
func (t *table) light(x, y float64) float64 {
	out := 1 - t.Uneven*(0.5+x/2400+y/3000)
	if t.shadow != nil {
		out *= 1 - t.ShadowDark*t.shadow.at(x*step/shadeStep, y*step/shadeStep)
	}
	return out
}
