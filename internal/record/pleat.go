package record

import (
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/measure"
)

func (p *PleatSpec) faulty() { p.Unread = true }

// Folds is how many folds one of them has.
func (p *PleatSpec) Folds() int {
	if p.Kind.V == BoxPleat || p.Kind.V == InvertedPleat {
		return 2
	}
	return 1
}

// Tuck reports whether they are stitched all their length.
func (p *PleatSpec) Tuck() bool { return strings.HasSuffix(p.Kind.V, "tuck") || p.Stitched.V.All }

// The kinds of pleats that have two folds.
const (
	BoxPleat      = "box"
	InvertedPleat = "inverted"
)

// Down is how far down from an edge something is stitched.
type Down struct {
	By    measure.Length
	Level string // down to a level
	All   bool   // all the way
}

// readDown reads how far down something is stitched: 60, to hip, or all.
func readDown(d *decoder, text string, lim limits) (Down, *fault.Fault) {
	text = strings.TrimSpace(text)
	if level, ok := strings.CutPrefix(text, "to "); ok {
		return Down{Level: strings.TrimSpace(level)}, nil
	}
	switch strings.ToLower(text) {
	case "all":
		return Down{All: true}, nil
	case "true", "yes", "whole", "all the way", "fully":
		return Down{}, wrongf("write all", "%q does not say how far down", fault.Shorten(text)).Whole("all")
	}
	by, bad := readLength(d, text, lim)
	switch {
	case bad != nil && !strings.ContainsAny(text, "0123456789"):
		return Down{}, wrongf("write a length as 60, a level as to hip, or all", "%q does not say how far down", fault.Shorten(text))
	case bad != nil:
		return Down{}, bad
	case by <= 0:
		return Down{}, wrongf("leave stitched: out where they are only pressed", "pleats stitched down by nothing are not stitched")
	}
	return Down{By: by}, nil
}

// Reach is how far in from an edge something goes.
type Reach struct {
	By    measure.Length
	Level string // to a level
}

// readReach reads how far in something goes: 120, or to elbow.
func readReach(d *decoder, text string, lim limits) (Reach, *fault.Fault) {
	text = strings.TrimSpace(text)
	if level, ok := strings.CutPrefix(text, "to "); ok {
		return Reach{Level: strings.TrimSpace(level)}, nil
	}
	by, bad := readLength(d, text, lim)
	switch {
	case bad != nil && !strings.ContainsAny(text, "0123456789"):
		return Reach{}, wrongf("write a length as 120, or a level as to elbow", "%q does not say how far in", fault.Shorten(text))
	case bad != nil:
		return Reach{}, bad
	case by <= 0:
		return Reach{}, wrongf("leave runs: out where they go on through the piece", "pleats that run in by nothing are none")
	}
	return Reach{By: by}, nil
}

// runsOut checks pleats that run out within the piece.
func (c *buildCheck) runsOut(q *PleatSpec, p *Piece) {
	if !q.Runs.Given() {
		return
	}
	at := q.Runs.At
	switch level := q.Runs.V.Level; {
	case q.Tuck():
		c.faults.Errorf(at, "leave runs: out, or say kind: knife", "tucks keep one depth all their length").Without(at)
	case len(q.Closes.Levels) > 0:
		c.faults.Errorf(at, "leave runs: out", "into: tells how pleats taper").Without(at)
	case !q.Drawn.V:
		c.faults.Errorf(at, "draw its edge with them open, as wide as it is cut, and say drawn: true", "pleats that run out within %s leave the rest as wide as it is drawn", p.Name.V)
	case level != "" && !slices.Contains(c.levelsOf(p), level):
		levels := c.levelsOf(p)
		c.faults.Errorf(at, meant.Among(level, levels, "it has "), "%q is no level of %s", fault.Shorten(level), p.Name.V).Instead(level, meant.Nearest(level, levels))
	default:
		return
	}
	q.Unread = true
}

// pleats checks what is said of the pleats of an edge.
func (c *buildCheck) pleats(q *PleatSpec, p *Piece) {
	if !q.At.Given() {
		return
	}
	if !q.Depth.Given() && !q.Closes.Given() && !q.Unread {
		c.faults.Errorf(q.At, "add how far each goes under, as depth: 20", "the pleats on %s.%s have no depth", p.Name.V, q.Edge.V)
	}
	if q.Into.Given() && !q.Depth.Given() && !q.Drawn.V {
		c.faults.Errorf(q.Into.At, "write drawn: true, or depth:", "into: tells the depth only where the outline is drawn with the pleats open")
		q.Unread = true
	}
	c.into(q, p)
	c.runsOut(q, p)
	for _, at := range []Where{q.Place, q.First, q.Last} {
		c.where(q.Edge.V, at, p)
	}
	many := givenWords([]Text{{"first", q.First.At}, {"last", q.Last.At}, {"every", q.Every.At}})
	switch {
	case q.Place.Given() && q.Count.V > 1:
		c.faults.Errorf(q.Place.At, "write first: and every:, or leave at: out", "at: is the place of one pleat, there are %d", q.Count.V)
	case q.Place.Given() && len(many) > 0:
		c.faults.Errorf(many[0].At, "keep at: of a single pleat, or first:, last: and every: of several", "%s: sets several out, at: one", many[0].V)
	}
	switch {
	case q.Towards.Given() && q.Folds() > 1:
		c.faults.Errorf(q.Towards.At, "leave towards: out", "box and inverted pleats have a fold each way").Without(q.Towards.At)
	case q.Towards.Given():
		c.placeOn(q.Edge.V, q.Towards, p)
	}
	if q.Stitched.Given() && !q.Stitched.V.All && strings.HasSuffix(q.Kind.V, "tuck") {
		c.faults.Errorf(q.Stitched.At, "leave stitched: out, or say kind: knife", "a tuck is stitched all its length").Without(q.Stitched.At)
	}
	if q.Soft.V && q.Tuck() {
		c.faults.Errorf(q.Soft.At, "leave soft: out", "a tuck lies flat all its length").Without(q.Soft.At)
	}
	if level := q.Stitched.V.Level; level != "" {
		if levels := c.levelsOf(p); !slices.Contains(levels, level) {
			c.faults.Errorf(q.Stitched.At, meant.Among(level, levels, "it has "), "%q is no level of %s", fault.Shorten(level), p.Name.V)
		}
	}
}
