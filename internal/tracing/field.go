package tracing

import (
	"math"
	"slices"

	"hembook/internal/camera"
	"hembook/internal/card"
	"hembook/internal/fault"
	"hembook/internal/photo"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// A field is the table seen from above in small squares, coarse: enough to tell paper
// from table, with what is known of each square.
type field struct {
	left, top  float64 // of the first square, on the plane
	step       float64 // side of a square, in millimetres
	wide, high int
	of         []tone   // the colour of each
	is         []ground // what each is
}

// A tone is a colour as logarithms of its light: the same shadow takes the same from
// each.
type tone [3]float64

// A ground is what a square of a field is.
type ground uint8

// The grounds.
const (
	unsure ground = iota
	table
	paper
	cardboard // a card, and the table close about it
	unseen    // outside the photograph
)

// How fine a field is: so many squares across, at most that coarse and that fine.
const (
	fieldSquares = 900
	fieldFinest  = 0.6
	fieldCoarse  = 2.5
)

// faint is added to light before its logarithm, so that noise in the dark counts little.
const faint = 0.01

// fieldOf looks at the table about the cards from above.
func fieldOf(s *shot, lies []lie) *field {
	least, most := hullBox(lies)
	wide, high := most.X-least.X, most.Y-least.Y
	rim := 0.35*max(wide, high) + 60
	f := &field{left: least.X - rim, top: most.Y + rim}
	f.step = min(max((max(wide, high)+2*rim)/fieldSquares, fieldFinest), fieldCoarse)
	f.wide, f.high = int((wide+2*rim)/f.step)+1, int((high+2*rim)/f.step)+1
	f.of, f.is = make([]tone, f.wide*f.high), make([]ground, f.wide*f.high)
	f.colour(s)
	for _, l := range lies {
		f.cover(l)
	}
	return f
}

// middle is the middle of a square on the plane.
func (f *field) middle(i int) shape.Point {
	return shape.Point{X: f.left + (float64(i%f.wide)+0.5)*f.step, Y: f.top - (float64(i/f.wide)+0.5)*f.step}
}

// colour gives every square its tone, from the photograph made as small as the field.
func (f *field) colour(s *shot) {
	by := max(int(f.step/s.view.Finest(f.middle(len(f.of)/2+f.wide/2))), 1)
	rgb := photo.Small(s.img, by)
	bounds := s.img.Bounds()
	for i := range f.of {
		at, ok := s.view.See(f.middle(i))
		if !ok || !s.inside(at, bounds.Dx(), bounds.Dy()) {
			f.is[i] = unseen
			continue
		}
		for c := range rgb {
			f.of[i][c] = math.Log(rgb[c].At(at.X/float64(by), at.Y/float64(by)) + faint)
		}
	}
}

// inside reports whether a place lies in the picture and the lens draws it there: radial
// terms far outside may fold back.
func (s *shot) inside(at shape.Point, wide, high int) bool {
	const rim = 2
	return at.X > rim && at.Y > rim && at.X < float64(wide)-rim && at.Y < float64(high)-rim
}

// A lie is a card on the plane.
type lie struct {
	number int
	camera.Lie
}

// cover marks a card, with a millimetre about it.
func (f *field) cover(l lie) {
	reach := math.Hypot(card.Wide, card.High)/2 + 3
	f.about(l, reach, func(i int, x, y float64) {
		if math.Abs(x) < card.Wide/2+1.5 && math.Abs(y) < card.High/2+1.5 && f.is[i] != unseen {
			f.is[i] = cardboard
		}
	})
}

// about calls visit with every square within reach of a card's middle, and where it lies
// in the card's own frame.
func (f *field) about(l lie, reach float64, visit func(i int, x, y float64)) {
	sin, cos := math.Sincos(l.Turn)
	x0, x1 := max(int((l.X-reach-f.left)/f.step), 0), min(int((l.X+reach-f.left)/f.step)+1, f.wide)
	y0, y1 := max(int((f.top-l.Y-reach)/f.step), 0), min(int((f.top-l.Y+reach)/f.step)+1, f.high)
	for y := y0; y < y1; y++ {
		for x := x0; x < x1; x++ {
			p := f.middle(y*f.wide + x)
			dx, dy := p.X-l.X, p.Y-l.Y
			visit(y*f.wide+x, cos*dx+sin*dy, cos*dy-sin*dx)
		}
	}
}

// tableTones are the tone of the table beside each card: the middle one of a rim of a
// few millimetres about it.
func (f *field) tableTones(lies []lie) []tone {
	out := make([]tone, len(lies))
	for k, l := range lies {
		var of [3][]float64
		f.about(l, math.Hypot(card.Wide, card.High)/2+14, func(i int, x, y float64) {
			far := max(math.Abs(x)-card.Wide/2, math.Abs(y)-card.High/2)
			if far < 3 || far > 12 || f.is[i] != unsure {
				return
			}
			for c := range of {
				of[c] = append(of[c], f.of[i][c])
			}
		})
		for c := range of {
			out[k][c] = median(of[c])
		}
	}
	return out
}

func median(of []float64) float64 {
	if len(of) == 0 {
		return math.NaN()
	}
	slices.Sort(of)
	return of[len(of)/2]
}

// tableAt is what tone the table probably has at a place: that beside the cards, the
// nearer the more.
func tableAt(p shape.Point, lies []lie, tones []tone) (out tone) {
	sum := 0.0
	for k, l := range lies {
		if math.IsNaN(tones[k][0]) {
			continue
		}
		dx, dy := p.X-l.X, p.Y-l.Y
		w := 1 / (dx*dx + dy*dy + 1e4)
		sum += w
		for c := range out {
			out[c] += w * tones[k][c]
		}
	}
	for c := range out {
		out[c] /= sum
	}
	return out
}

func (a tone) less(b tone) tone { return tone{a[0] - b[0], a[1] - b[1], a[2] - b[2]} }
func (a tone) times(b tone) float64 {
	return float64(a[0]*b[0]) + float64(a[1]*b[1]) + float64(a[2]*b[2])
}

// What a shadow, and the grain of wood and paper, may change of a tone: standard
// deviations, our own choice, no source.
const (
	shadeStray = 0.35
	grainStray = 0.12
	leastTell  = 2.5 // of these that paper must differ from the table
)

// telling is the direction in which two tones differ that shadows disturb least, of such
// a length that a step of one along it is one standard deviation of what disturbs.
func telling(differ tone) (way tone, far float64) {
	// The inverse of grain² + shade² in the direction of (1, 1, 1)/√3 · √3 (Sherman and
	// Morrison's formula).
	g, s := grainStray*grainStray, shadeStray*shadeStray
	sum := differ[0] + differ[1] + differ[2]
	k := s / (g * (g + 3*s))
	for c := range way {
		way[c] = differ[c]/g - k*sum
	}
	far = math.Sqrt(way.times(differ))
	for c := range way {
		way[c] /= max(far, 1e-12)
	}
	return way, far
}

// part tells paper from table. The piece is what differs from the table and is largest;
// what is between two tones is decided by where the tone changes most.
func (f *field) part(lies []lie) error {
	tones := f.tableTones(lies)
	off := make([]tone, len(f.of))
	for i := range f.of {
		if f.is[i] == unsure {
			off[i] = f.of[i].less(tableAt(f.middle(i), lies, tones))
		}
	}
	piece, ok := f.paperTone(off, lies)
	way, far := telling(piece)
	if !ok || far < leastTell {
		return fault.Refusing(say.Of("tracing.lay-it-on-a-table-or-a"), say.Of("tracing.the-paper-does-not-stand-out-from"))
	}
	for i := range f.of {
		if f.is[i] != unsure {
			continue
		}
		switch score := way.times(off[i]) / far; {
		case score > 0.75 && score < 1.6:
			f.is[i] = paper
		case score < 0.25:
			f.is[i] = table
		}
	}
	f.keepCore()
	f.flood()
	return nil
}

// paperTone is by how much paper differs from the table: the tone that most squares have
// of those that differ clearly, among the cards.
func (f *field) paperTone(off []tone, lies []lie) (tone, bool) {
	hull := hullOf(lies)
	var far []float64
	for i := range off {
		if f.is[i] == unsure && within(hull, f.middle(i)) {
			far = append(far, size(off[i]))
		}
	}
	if len(far) == 0 {
		return tone{}, false
	}
	cut := otsu(far)
	var of [3][]float64
	for i := range off {
		if f.is[i] == unsure && size(off[i]) > cut && within(hull, f.middle(i)) {
			for c := range of {
				of[c] = append(of[c], off[i][c])
			}
		}
	}
	if len(of[0]) < 100 {
		return tone{}, false
	}
	return tone{median(of[0]), median(of[1]), median(of[2])}, true
}

// size is how far a tone differs, a shadow counting little.
func size(t tone) float64 {
	_, far := telling(t)
	return far
}

// otsu parts numbers in two so that the two differ most (N. Otsu, "A threshold selection
// method from gray-level histograms", IEEE Transactions on Systems, Man and Cybernetics
// 9, 1979).
func otsu(of []float64) float64 {
	const bins = 256
	most := slices.Max(of)
	if most <= 0 {
		return 0
	}
	var count [bins]float64
	for _, v := range of {
		count[min(int(v/most*bins), bins-1)]++
	}
	total, all := 0.0, float64(len(of))
	for i, n := range count {
		total += n * float64(i)
	}
	best, at, n, sum := -1.0, 0, 0.0, 0.0
	for i := range bins - 1 {
		n, sum = n+count[i], sum+count[i]*float64(i)
		if n == 0 || n == all {
			continue
		}
		d := sum/n - (total-sum)/(all-n)
		if between := n * (all - n) * d * d; between > best {
			best, at = between, i
		}
	}
	return (float64(at) + 1) / bins * most
}
