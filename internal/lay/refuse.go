package lay

import (
	"fmt"
	"math"

	"hembook/internal/fault"
)

const (
	maxPoints = 20_000 // of one outline
	maxCopies = 5_000
	maxCoord  = 1e9
)

// check returns what is wrong with a problem, nil when nothing is. Whether
// each piece fits the cloth at all is found later, by Make.
func check(p *Problem) fault.List {
	var fs fault.List
	fs = append(fs, clothFaults(&p.Cloth)...)
	if len(p.Pieces) == 0 {
		fs = append(fs, fault.Fault{Severity: fault.Error, Message: "there are no pieces to lay"})
	}
	copies := 0
	for i := range p.Pieces {
		fs = append(fs, pieceFaults(&p.Pieces[i], i)...)
		copies += max(1, min(p.Pieces[i].Quantity, maxCopies+1))
	}
	if copies > maxCopies {
		fs = append(fs, fault.Fault{Severity: fault.Error, Message: fmt.Sprintf("%d copies are more than the %d a lay may hold", copies, maxCopies)})
	}
	return append(fs, tieFaults(p)...)
}

func clothFaults(c *Cloth) fault.List {
	var fs fault.List
	say := func(format string, a ...any) {
		fs = append(fs, fault.Fault{Severity: fault.Error, Message: fmt.Sprintf(format, a...)})
	}
	if c.Outline != nil {
		if t := outlineFault(c.Outline); t != "" {
			say("remnant: %s", t)
		}
	} else if !(c.Width > 0) || c.Width > maxCoord {
		say("usable width must be above 0, it is %g", c.Width)
	}
	if !(c.Length >= 0) || c.Length > maxCoord {
		say("length on the shelf must be 0 or more, it is %g", c.Length)
	}
	if !(c.Clearance >= 0) || c.Clearance > maxCoord {
		say("clearance must be 0 or more, it is %g", c.Clearance)
	}
	if !(c.RepeatAlong >= 0 && c.RepeatAcross >= 0) || math.IsInf(c.RepeatAlong+c.RepeatAcross, 0) {
		say("a repeat must be 0 or more")
	}
	if !(math.Abs(c.Line) <= maxCoord) {
		say("where a leading line runs is not a number")
	}
	for i, h := range c.Holes {
		if t := outlineFault(h); t != "" {
			say("hole %d: %s", i+1, t)
		}
	}
	for i, h := range c.Flaws {
		if t := outlineFault(h); t != "" {
			say("flaw %d: %s", i+1, t)
		}
	}
	return fs
}

func pieceFaults(p *Piece, i int) fault.List {
	var fs fault.List
	say := func(format string, a ...any) {
		fs = append(fs, fault.Fault{Of: pieceName(p, i), Severity: fault.Error, Message: fmt.Sprintf(format, a...)})
	}
	if t := outlineFault(p.Outline); t != "" {
		say("%s", t)
		return fs
	}
	if p.Quantity < 0 {
		say("quantity must be 1 or more, it is %d", p.Quantity)
	}
	for _, t := range p.Turns {
		if math.IsNaN(t) || math.IsInf(t, 0) {
			say("a turn is not a number")
		}
	}
	if p.OnFold {
		if t := foldFault(p); t != "" {
			say("%s", t)
		}
	}
	return fs
}

func pieceName(p *Piece, i int) string {
	if p.Name != "" {
		return p.Name
	}
	return fmt.Sprintf("#%d", i+1)
}

func finite(p Point) bool {
	return math.Abs(p.X) <= maxCoord && math.Abs(p.Y) <= maxCoord // false for NaN
}

// foldFault says why FoldEdge cannot lie on a fold.
func foldFault(p *Piece) string {
	n := len(p.Outline)
	if p.FoldEdge < 0 || p.FoldEdge >= n {
		return fmt.Sprintf("fold edge %d: the outline has edges 0 to %d", p.FoldEdge, n-1)
	}
	a, b := p.Outline[p.FoldEdge], p.Outline[(p.FoldEdge+1)%n]
	l := distance(a, b)
	if l == 0 {
		return "the fold edge has no length"
	}
	left, right := 0.0, 0.0
	for _, q := range p.Outline {
		d := turnOf(a, b, q) / l
		left, right = math.Max(left, d), math.Max(right, -d)
	}
	if math.Min(left, right) > 1e-6*math.Max(left, right) {
		return "the outline lies on both sides of its fold edge"
	}
	return ""
}

// outlineFault says why a ring of points bounds no simple region.
func outlineFault(pts []Point) string {
	if len(pts) < 3 {
		return fmt.Sprintf("an outline needs three points, there are %d", len(pts))
	}
	if len(pts) > maxPoints {
		return fmt.Sprintf("an outline may have %d points, there are %d", maxPoints, len(pts))
	}
	for i, p := range pts {
		if !finite(p) {
			return fmt.Sprintf("point %d is not a number within %g", i+1, maxCoord)
		}
	}
	ring := tidy(pts)
	if len(ring) < 3 {
		return "the outline encloses no area"
	}
	b := boxOf(ring)
	if math.Abs(signedArea(ring)) <= 1e-9*b.width()*b.width()+1e-9*b.height()*b.height() {
		return "the outline encloses no area to speak of"
	}
	if p, ok := doublesBack(pts); ok {
		return fmt.Sprintf("the outline runs back along itself at (%g, %g)", p.X, p.Y)
	}
	if i, j := crossing(ring); i >= 0 {
		p, q := ring[i], ring[j]
		return fmt.Sprintf("the outline crosses or touches itself: the edge from (%g, %g) and the edge from (%g, %g)", p.X, p.Y, q.X, q.Y)
	}
	return ""
}

// doublesBack finds a point where an outline turns round and runs back along
// the line it came by. Tidying would leave such a spike out without a word.
func doublesBack(pts []Point) (Point, bool) {
	ring := append([]Point(nil), pts...)
	for i, since := 0, 0; len(ring) >= 3 && since < len(ring); {
		n := len(ring)
		i %= n
		a, b, c := ring[(i+n-1)%n], ring[i], ring[(i+1)%n]
		switch {
		case b != c && turnOf(a, b, c) != 0:
			i++
			since++
			continue
		case b != c && a != b && dot(b.X-a.X, b.Y-a.Y, c.X-b.X, c.Y-b.Y) < 0:
			return b, true
		}
		ring = append(ring[:i], ring[i+1:]...)
		since = 0
		i += len(ring) - 1 // the point before has another neighbour now
	}
	return Point{}, false
}

// crossing returns two edges that share more than they should, or -1.
func crossing(ring []Point) (int, int) {
	n := len(ring)
	boxes := make([]box, n)
	for i := range ring {
		boxes[i] = boxOf([]Point{ring[i], ring[(i+1)%n]})
	}
	for i := range n {
		a, b := ring[i], ring[(i+1)%n]
		for j := i + 1; j < n; j++ {
			if !touches(boxes[i], boxes[j]) {
				continue
			}
			c, d := ring[j], ring[(j+1)%n]
			switch {
			case j == i+1:
				if onSegment(d, a, b) || onSegment(a, c, d) {
					return i, j
				}
			case i == 0 && j == n-1:
				if onSegment(c, a, b) || onSegment(b, c, d) {
					return i, j
				}
			case segmentsMeet(a, b, c, d):
				return i, j
			}
		}
	}
	return -1, -1
}

func onSegment(p, a, b Point) bool {
	return turnOf(a, b, p) == 0 &&
		min(a.X, b.X) <= p.X && p.X <= max(a.X, b.X) && min(a.Y, b.Y) <= p.Y && p.Y <= max(a.Y, b.Y)
}

func segmentsMeet(a, b, c, d Point) bool {
	s1, s2 := turnOf(a, b, c), turnOf(a, b, d)
	s3, s4 := turnOf(c, d, a), turnOf(c, d, b)
	if (s1 > 0) != (s2 > 0) && (s3 > 0) != (s4 > 0) && s1 != 0 && s2 != 0 && s3 != 0 && s4 != 0 {
		return true
	}
	return onSegment(c, a, b) || onSegment(d, a, b) || onSegment(a, c, d) || onSegment(b, c, d)
}
