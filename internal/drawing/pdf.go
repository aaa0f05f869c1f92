package drawing

import "hembook/internal/shape"

// A PDFPage is a page of a PDF, as high as High, with a path drawn on it K times
// as large, (0, 0) at (X, Y) from its upper left corner; all in millimetres.
type PDFPage struct{ X, Y, K, High float64 }

const pointsPerMM = 72 / 25.4

// PDF adds to the content stream of a leaf what draws a path with a pen
// (ISO 32000-1, 8.4 and 8.5). The stream's own state is left as it was.
func (l *Look) PDF(dst []byte, p Path, pen Pen, at PDFPage) []byte {
	draws := pen.Ink != NoInk && pen.Weight > 0
	how := "S"
	switch {
	case draws && pen.Fill != NoInk:
		how = "B*"
	case pen.Fill != NoInk:
		how = "f*"
	case !draws:
		return dst
	}
	dst = append(dst, "q\n"...)
	if draws {
		dst = l.pdfPen(dst, pen, at.K*pointsPerMM)
	}
	if pen.Fill != NoInk {
		dst = append(l.pdfInk(dst, pen.Fill), "rg\n"...)
	}
	dst = appendPDFPath(dst, p, at)
	return append(append(dst, how...), "\nQ\n"...)
}

// pdfPen sets weight, ink, dashes and ends of lines, k points for a millimetre.
func (l *Look) pdfPen(dst []byte, pen Pen, k float64) []byte {
	dst = append(l.pdfInk(dst, pen.Ink), "RG "...)
	dst = append(appendPDF(dst, pen.Weight*k), "w "...)
	if len(pen.Dash) > 0 {
		dst = append(dst, '[')
		for _, v := range pen.Dash {
			dst = appendPDF(dst, v*k)
		}
		dst = append(dst, "] 0 d "...)
	}
	if pen.Butt || len(pen.Dash) > 0 {
		return append(dst, "0 J 1 j\n"...)
	}
	return append(dst, "1 J 1 j\n"...)
}

func (l *Look) pdfInk(dst []byte, i Ink) []byte {
	r, g, b := l.RGB(i)
	for _, v := range [...]byte{r, g, b} {
		dst = appendPDF(dst, float64(v)/255)
	}
	return dst
}

// appendPDF adds a number and a space; a thousandth of a point is 0.35 µm.
func appendPDF(dst []byte, v float64) []byte { return append(shape.AppendNumber(dst, v, 3), ' ') }

func appendPDFPath(dst []byte, p Path, at PDFPage) []byte {
	p.Each(func(op Op, points []Point) {
		for _, q := range points {
			dst = appendPDF(dst, (at.X+float64(q.X*at.K))*pointsPerMM)
			dst = appendPDF(dst, (at.High-at.Y-float64(q.Y*at.K))*pointsPerMM)
		}
		dst = append(dst, [...]string{MoveTo: "m\n", LineTo: "l\n", CurveTo: "c\n", ClosePath: "h\n"}[op]...)
	})
	return dst
}
