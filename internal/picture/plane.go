package picture

import "image"

// A plane is one colour of a picture, a byte a sample, row after row. Of a
// photograph the two colours are most often stored half as finely as the
// brightness. How far the picture itself reaches is kept apart from how many
// samples there are, since the last one of a row may stand half outside.
type plane struct {
	pix        []byte
	stride     int
	cols, rows int
	wide, high float64 // samples that the picture covers
}

// planes are the brightness of a picture and its two colours, which are
// missing where it is grey.
type planes []plane

// planesOf takes a decoded JPEG or WebP apart, without a copy; nil where the
// picture is stored in another way.
func planesOf(img image.Image) planes {
	switch p := img.(type) {
	case *image.Gray:
		return planes{whole(p.Pix[p.PixOffset(p.Rect.Min.X, p.Rect.Min.Y):], p.Stride, p.Rect.Dx(), p.Rect.Dy())}
	case *image.YCbCr:
		b := p.Rect
		across, down := finer(p.SubsampleRatio)
		if across == 0 || b.Min.X%across != 0 || b.Min.Y%down != 0 {
			return nil
		}
		colour := func(pix []byte) plane {
			c := whole(pix[p.COffset(b.Min.X, b.Min.Y):], p.CStride, (b.Dx()+across-1)/across, (b.Dy()+down-1)/down)
			c.wide, c.high = float64(b.Dx())/float64(across), float64(b.Dy())/float64(down)
			return c
		}
		return planes{whole(p.Y[p.YOffset(b.Min.X, b.Min.Y):], p.YStride, b.Dx(), b.Dy()), colour(p.Cb), colour(p.Cr)}
	}
	return nil
}

func whole(pix []byte, stride, cols, rows int) plane {
	return plane{pix, stride, cols, rows, float64(cols), float64(rows)}
}

// finer is how many samples of brightness stand across and down for one of
// colour.
func finer(r image.YCbCrSubsampleRatio) (across, down int) {
	switch r {
	case image.YCbCrSubsampleRatio444:
		return 1, 1
	case image.YCbCrSubsampleRatio422:
		return 2, 1
	case image.YCbCrSubsampleRatio420:
		return 2, 2
	case image.YCbCrSubsampleRatio440:
		return 1, 2
	case image.YCbCrSubsampleRatio411:
		return 4, 1
	case image.YCbCrSubsampleRatio410:
		return 4, 2
	}
	return 0, 0
}

// image puts planes together again, the colours at half the fineness.
func (s planes) image(size image.Point) image.Image {
	r := image.Rectangle{Max: size}
	if len(s) == 1 {
		return &image.Gray{Pix: s[0].pix, Stride: s[0].stride, Rect: r}
	}
	return &image.YCbCr{Y: s[0].pix, Cb: s[1].pix, Cr: s[2].pix, YStride: s[0].stride, CStride: s[1].stride,
		SubsampleRatio: image.YCbCrSubsampleRatio420, Rect: r}
}

// turned turns and mirrors as upright does.
func (s planes) turned(held int) planes {
	if held <= 1 || held > 8 {
		return s
	}
	out := make(planes, len(s))
	for i, p := range s {
		out[i] = p.turned(held)
	}
	return out
}

func (p plane) turned(held int) plane {
	out := plane{stride: p.cols, cols: p.cols, rows: p.rows, wide: p.wide, high: p.high}
	if held >= 5 {
		out = plane{stride: p.rows, cols: p.rows, rows: p.cols, wide: p.high, high: p.wide}
	}
	out.pix = make([]byte, p.cols*p.rows)
	for y := range p.rows {
		row := p.pix[y*p.stride:][:p.cols]
		u, v := turned(held, 0, y, p.cols, p.rows)
		at, step := v*out.stride+u, 0
		if p.cols > 1 {
			u, v = turned(held, 1, y, p.cols, p.rows)
			step = v*out.stride + u - at
		}
		for _, c := range row {
			out.pix[at] = c
			at += step
		}
	}
	return out
}
