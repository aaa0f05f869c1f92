package draw

// Spread adds a small picture of how observations lie to dst: a line from the
// least to the greatest, a bar between the quartiles, a tack at the median, on
// a thin line that is the scale. from and to bound the scale that several such
// pictures share.
func Spread(dst []byte, least, lower, median, upper, most, from, to float64, title string) []byte {
	const wide, mid = 520, 20
	k := 0.0
	if to > from {
		k = wide / (to - from)
	}
	at := func(v float64) float64 { return (v - from) * k }
	dst = open(dst, "spread", box{-10, 0, wide + 10, 2 * mid}, title, "")
	p := pen{dst: append(dst, `<path class="ruler" d="`...)}
	p.move(0, mid-8)
	p.line(0, mid+8)
	p.move(0, mid)
	p.line(wide, mid)
	p = pen{dst: append(append(p.dst, `"/>`...), `<path class="grain" d="`...)}
	p.move(at(least), mid)
	p.line(at(most), mid)
	p.move(at(least), mid-8)
	p.line(at(least), mid+8)
	p.move(at(most), mid-8)
	p.line(at(most), mid+8)
	dst = append(p.dst, `"/>`...)
	p = pen{dst: append(dst, `<path class="between" d="`...)}
	p.move(at(lower), mid-8)
	p.line(at(upper), mid-8)
	p.line(at(upper), mid+8)
	p.line(at(lower), mid+8)
	p.close()
	dst = append(p.dst, `"/>`...)
	p = pen{dst: append(dst, `<path class="tack" d="`...)}
	p.move(at(median)-8, mid-14)
	p.line(at(median)+8, mid+14)
	p.move(at(median)+8, mid-14)
	p.line(at(median)-8, mid+14)
	return append(p.dst, `"/></svg>`...)
}
