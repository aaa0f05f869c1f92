package shape

// curvesOf lists where in the control line of an edge its curves begin.
func curvesOf(o Outline, first, count int) []int {
	var at []int
	k := 0
	for part := range count {
		if !o.Edges[(first+part)%len(o.Edges)].Curved {
			k++
			continue
		}
		at = append(at, k)
		k += 3
	}
	return at
}

// fitOffset sets the two handles of a moved curve, whose ends stand and whose
// handles keep their ways, so that it lies d to the right of the curve it was:
// the least squares, at places along it, of how far it is off square to its
// line (after Hoschek 1988, from memory). A handle that hardly matters, as on a
// curve that is nearly straight, keeps the length that its polygon gave it.
func fitOffset(was cubic, now []Point, d float64) {
	a, b := was[1].Sub(was[0]), was[3].Sub(was[2])
	aa, bb := dot(a, a), dot(b, b)
	if aa == 0 || bb == 0 {
		return
	}
	const places, hold = 12, 1e-4
	alpha, beta := dot(now[1].Sub(now[0]), a)/aa, dot(now[3].Sub(now[2]), b)/bb
	// The normal equations of the two unknowns, by how much the handles change.
	m11, m12, m22 := float64(hold*aa), 0.0, float64(hold*bb)
	var r1, r2 float64
	for k := 1; k < places; k++ {
		t := float64(k) / places
		dir, ok := way(Point{}, was.velocity(t))
		if !ok {
			continue
		}
		normal := Point{X: dir.Y, Y: -dir.X}
		off := dot(along(was.at(t), normal, d).Sub(cubic(now).at(t)), normal)
		u := 1 - t
		ga := float64(3*u*u*t) * dot(a, normal)
		gb := -float64(3*u*t*t) * dot(b, normal)
		m11 += float64(ga * ga)
		m12 += float64(ga * gb)
		m22 += float64(gb * gb)
		r1 += float64(ga * off)
		r2 += float64(gb * off)
	}
	det := float64(m11*m22) - float64(m12*m12)
	if !(det > 0) {
		return
	}
	alpha += (float64(r1*m22) - float64(r2*m12)) / det
	beta += (float64(r2*m11) - float64(r1*m12)) / det
	const least, most = 0.4, 2.5
	now[1] = along(now[0], a, min(max(alpha, least), most))
	now[2] = along(now[3], b, -min(max(beta, least), most))
}

// endAt lets a moved line begin and end elsewhere. What lies ahead in the line
// is reached along it: a straight part is longer or shorter, a curve is carried
// on or cut off. What lies beside it bends the line, and so does all of it where the
// edge beside it runs on alike, which tells too little of where the line is to end.
func endAt(line []Point, curved []int, start, end Point, onAtStart, onAtEnd bool) {
	last := len(line) - 1
	from, to := 0.0, 1.0
	byStart, byEnd := start.Sub(line[0]), end.Sub(line[last])
	startDir, endDir := leaving(line), arriving(line)
	ahead, behind := dot(byStart, startDir), dot(byEnd, endDir)
	if onAtStart {
		ahead = 0
	}
	if onAtEnd {
		behind = 0
	}
	if len(curved) > 0 && curved[0] == 0 {
		from = reachedAt(cubic(line[:4]), startDir, ahead, 0)
	} else {
		line[0] = along(line[0], startDir, ahead)
	}
	if n := len(curved); n > 0 && curved[n-1] == last-3 {
		to = reachedAt(cubic(line[last-3:]), endDir, behind, 1)
	} else {
		line[last] = along(line[last], endDir, behind)
	}
	switch {
	case len(curved) > 0 && last == 3: // one curve alone
		part(line, from, to)
	default:
		if from != 0 {
			part(line[:4], from, 1)
		}
		if to != 1 {
			part(line[last-3:], 0, to)
		}
	}
	bend(line, start.Sub(line[0]), end.Sub(line[last]))
}

// reachedAt is the parameter at which a curve has come by so much along a way from
// where it is at another: beyond its end where that is carried on. Where it
// would have to be carried on for more than half its length, it stays.
func reachedAt(c cubic, dir Point, by, at float64) float64 {
	t := at
	for range 4 {
		speed := dot(c.velocity(t), dir)
		if !(speed > 0) {
			return at
		}
		t -= (dot(c.at(t).Sub(c.at(at)), dir) - by) / speed
	}
	if t < -0.5 || t > 1.5 || !(t == t) {
		return at
	}
	return t
}

// part cuts a curve to what lies between two parameters, or carries it on.
func part(c []Point, from, to float64) {
	if from == 0 && to == 1 {
		return
	}
	e := Edge{C1: c[1], C2: c[2], To: c[3]}
	c[0], c[3] = cutCurve(&e, c[0], from, to)
	c[1], c[2] = e.C1, e.C2
}

// bend moves the two ends of a line by so much each and what lies between in
// proportion.
func bend(line []Point, start, end Point) {
	for i := range line {
		t := float64(i) / float64(len(line)-1)
		line[i] = along(along(line[i], start, 1-t), end, t)
	}
}
