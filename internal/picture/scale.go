package picture

import (
	"image"
	"math"

	"golang.org/x/image/draw"
)

// Sized decodes a picture within the limits, once, and gives it the right way
// up in each of the sizes that are wanted for its size, largest last; none may
// be larger than the picture. A photograph stays as brightness and colours, in
// which it is scaled in whole numbers, so that every machine gives the same
// bytes. Errors are of type *[fault.Refusal].
func Sized(data []byte, wanted func(wide, high int) []image.Point) ([]image.Image, Header, error) {
	img, h, held, err := read(data)
	if err != nil {
		return nil, h, err
	}
	size := img.Bounds().Size()
	if held >= 5 {
		size.X, size.Y = size.Y, size.X
	}
	sizes := wanted(size.X, size.Y)
	out := make([]image.Image, len(sizes))
	if s := planesOf(img); s != nil {
		for i := len(sizes) - 1; i >= 0; i-- { // what is halved for one is halved further for the next
			to := asHeld(sizes[i], held)
			s = s.halved(to)
			out[i] = s.fitted(to).turned(held).image(sizes[i])
		}
		return out, h, nil
	}
	img = upright(img, held)
	for i := len(sizes) - 1; i >= 0; i-- {
		img = halved(img, sizes[i])
		out[i] = fitted(img, sizes[i])
	}
	return out, h, nil
}

// asHeld is a size before it is turned upright.
func asHeld(size image.Point, held int) image.Point {
	if held >= 5 {
		return image.Pt(size.Y, size.X)
	}
	return size
}

// halved returns planes halved coarsely while they are at least twice as large
// as that size.
func (s planes) halved(to image.Point) planes {
	for s[0].wide >= 2*float64(to.X) && s[0].high >= 2*float64(to.Y) {
		out := make(planes, len(s))
		for i, p := range s {
			out[i] = p.halved()
		}
		s = out
	}
	return s
}

// halved makes one sample of each four.
func (p plane) halved() plane {
	cols, rows := (p.cols+1)/2, (p.rows+1)/2
	out := plane{make([]byte, cols*rows), cols, cols, rows, p.wide / 2, p.high / 2}
	for y := range rows {
		a := p.pix[2*y*p.stride:][:p.cols]
		b := a
		if 2*y+1 < p.rows {
			b = p.pix[(2*y+1)*p.stride:][:p.cols]
		}
		to := out.pix[y*cols:][:cols]
		for x := range p.cols / 2 {
			to[x] = byte((uint(a[2*x]) + uint(a[2*x+1]) + uint(b[2*x]) + uint(b[2*x+1]) + 2) / 4)
		}
		if p.cols%2 == 1 {
			to[cols-1] = byte((uint(a[p.cols-1]) + uint(b[p.cols-1]) + 1) / 2)
		}
	}
	return out
}

// fitted scales planes finely to just that size, the colours to half of it.
func (s planes) fitted(to image.Point) planes {
	out := make(planes, len(s))
	for i, p := range s {
		each := 1
		if i > 0 {
			each = 2
		}
		cols, rows := (to.X+each-1)/each, (to.Y+each-1)/each
		if p.cols == cols && p.rows == rows && p.wide*float64(each) == float64(to.X) && p.high*float64(each) == float64(to.Y) {
			out[i] = p // each sample would be made of itself alone
			continue
		}
		across := weigh(p.cols, cols, p.wide*float64(each)/float64(to.X))
		down := weigh(p.rows, rows, p.high*float64(each)/float64(to.Y))
		out[i] = p.fitted(across, down)
	}
	return out
}

// one is what the weights of a sample add up to.
const one, oneBits = 1 << 14, 14

// A share is the samples that one new sample is made of, from the first on,
// with their weights.
type share struct {
	first   int
	weights []int32
}

// weigh says what n new samples are made of, where each stands for so many of
// the old ones; Catmull and Rom's cubic, widened as far as each reaches (Mitchell
// and Netravali, Reconstruction filters in computer graphics, 1988, with B 0
// and C 1/2, from memory).
func weigh(old, n int, each float64) []share {
	out := make([]share, n)
	wide := math.Max(each, 1)
	for i := range out {
		middle := (float64(i)+0.5)*each - 0.5
		from, to := int(math.Ceil(middle-2*wide)), int(math.Floor(middle+2*wide))
		first, last := min(max(from, 0), old-1), max(min(to, old-1), 0)
		exact, sum := make([]float64, last-first+1), 0.0
		for j := from; j <= to; j++ {
			w := cubic((float64(j) - middle) / wide)
			exact[min(max(j, first), last)-first] += w
			sum += w
		}
		out[i] = share{first, rounded(exact, sum)}
	}
	return out
}

// rounded makes whole weights that add up to one; the largest takes what
// rounding leaves.
func rounded(exact []float64, sum float64) []int32 {
	out, most, left := make([]int32, len(exact)), 0, int32(one)
	for i, w := range exact {
		out[i] = int32(math.RoundToEven(w / sum * one))
		left -= out[i]
		if out[i] > out[most] {
			most = i
		}
	}
	out[most] += left
	return out
}

// cubic is Catmull and Rom's. Each product is rounded by itself, since some
// processors would else add to it more exactly than others.
func cubic(x float64) float64 {
	x = math.Abs(x)
	x2 := float64(x * x)
	x3 := float64(x2 * x)
	switch {
	case x < 1:
		return float64(1.5*x3) - float64(2.5*x2) + 1
	case x < 2:
		return float64(-0.5*x3) + float64(2.5*x2) - float64(4*x) + 2
	}
	return 0
}

// more is how many bits more a sample has between the two ways it is scaled, so that
// it is rounded once.
const more = 6

// fitted scales each row, then down all columns at once.
func (p plane) fitted(across, down []share) plane {
	cols, rows := len(across), len(down)
	between := make([]int16, cols*p.rows)
	eights := inEights(across, p.cols)
	for y := range p.rows {
		row, to := p.pix[y*p.stride:][:p.cols], between[y*cols:][:cols]
		if eights != nil {
			acrossInEights(to, row, eights)
		} else {
			acrossRow(to, row, across)
		}
	}
	out := whole(make([]byte, cols*rows), cols, cols, rows)
	sums := make([]int32, cols)
	for y, s := range down {
		for x := range sums {
			sums[x] = 1 << (oneBits + more - 1)
		}
		line := func(k int) []int16 { return between[(s.first+k)*cols:][:len(sums)] }
		k := 0
		for ; k+4 <= len(s.weights); k += 4 { // four at once: the sums are fetched and put back seldom
			a, b, c, d := line(k), line(k+1), line(k+2), line(k+3)
			wa, wb, wc, wd := s.weights[k], s.weights[k+1], s.weights[k+2], s.weights[k+3]
			for x := range sums {
				sums[x] += wa*int32(a[x]) + wb*int32(b[x]) + wc*int32(c[x]) + wd*int32(d[x])
			}
		}
		for ; k < len(s.weights); k++ {
			w := s.weights[k]
			for x, c := range line(k) {
				sums[x] += w * int32(c)
			}
		}
		to := out.pix[y*cols:][:cols]
		for x, sum := range sums {
			to[x] = byte(min(max(sum>>(oneBits+more), 0), 255))
		}
	}
	return out
}

// acrossRow scales a row.
func acrossRow(to []int16, row []byte, across []share) {
	for x, s := range across {
		sum := int32(1 << (oneBits - more - 1))
		from := row[s.first:][:len(s.weights)]
		for k, w := range s.weights {
			sum += w * int32(from[k])
		}
		to[x] = int16(sum >> (oneBits - more))
	}
}

// An eight is a share of at most eight samples, as all are where a picture is made less
// than twice as small: it needs no loop.
type eight struct {
	first   int
	weights [8]int32
}

// inEights is the same shares in eights of a row of so many samples; nil where one is
// larger or the row is shorter than that.
func inEights(shares []share, cols int) []eight {
	if cols < 8 {
		return nil
	}
	out := make([]eight, len(shares))
	for i, s := range shares {
		if len(s.weights) > 8 {
			return nil
		}
		out[i].first = min(s.first, cols-8) // at the rim it begins sooner
		copy(out[i].weights[s.first-out[i].first:], s.weights)
	}
	return out
}

// acrossInEights scales a row by shares in eights.
func acrossInEights(to []int16, row []byte, across []eight) {
	to = to[:len(across)]
	for x := range across {
		w, from := &across[x].weights, (*[8]byte)(row[across[x].first:])
		sum := int32(1<<(oneBits-more-1)) +
			w[0]*int32(from[0]) + w[1]*int32(from[1]) + w[2]*int32(from[2]) + w[3]*int32(from[3]) +
			w[4]*int32(from[4]) + w[5]*int32(from[5]) + w[6]*int32(from[6]) + w[7]*int32(from[7])
		to[x] = int16(sum >> (oneBits - more))
	}
}

// halved returns a picture halved coarsely while it is at least twice as large
// as that size.
func halved(img image.Image, to image.Point) image.Image {
	for img.Bounds().Dx() >= 2*to.X && img.Bounds().Dy() >= 2*to.Y && to.X > 0 {
		half := image.NewRGBA(image.Rect(0, 0, (img.Bounds().Dx()+1)/2, (img.Bounds().Dy()+1)/2))
		draw.ApproxBiLinear.Scale(half, half.Bounds(), img, img.Bounds(), draw.Src, nil)
		img = half
	}
	return img
}

// fitted returns a picture finely scaled to just that size.
func fitted(img image.Image, to image.Point) *image.RGBA {
	out := image.NewRGBA(image.Rectangle{Max: to})
	if img.Bounds().Size() == to {
		draw.Draw(out, out.Bounds(), img, img.Bounds().Min, draw.Src)
		return out
	}
	draw.CatmullRom.Scale(out, out.Bounds(), img, img.Bounds(), draw.Src, nil)
	return out
}
