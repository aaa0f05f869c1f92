package record

import (
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/measure"
	"hembook/internal/say"
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
		return Down{}, wrong(say.Of("record.write-all"), say.Of("record.does-not-say-how-far-down", say.Quoted(fault.Shorten(text)))).Whole("all")
	}
	by, bad := readLength(d, text, lim)
	switch {
	case bad != nil && !strings.ContainsAny(text, "0123456789"):
		return Down{}, wrong(say.Of("record.write-a-length-as-60-a-level"), say.Of("record.does-not-say-how-far-down", say.Quoted(fault.Shorten(text))))
	case bad != nil:
		return Down{}, bad
	case by <= 0:
		return Down{}, wrong(say.Of("record.leave-stitched-out-where-they-are-only"), say.Of("record.pleats-stitched-down-by-nothing-are-not"))
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
		return Reach{}, wrong(say.Of("record.write-a-length-as-120-or-a"), say.Of("record.does-not-say-how-far-in", say.Quoted(fault.Shorten(text))))
	case bad != nil:
		return Reach{}, bad
	case by <= 0:
		return Reach{}, wrong(say.Of("record.leave-runs-out-where-they-go-on"), say.Of("record.pleats-that-run-in-by-nothing-are"))
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
		c.faults.Wrong(at, say.Of("record.leave-runs-out-or-say-kind-knife"), say.Of("record.tucks-keep-one-depth-all-their-length")).Without(at)
	case len(q.Closes.Levels) > 0:
		c.faults.Wrong(at, say.Of("record.leave-runs-out"), say.Of("record.into-tells-how-pleats-taper")).Without(at)
	case !q.Drawn.V:
		c.faults.Wrong(at, say.Of("record.draw-its-edge-with-them-open-as"), say.Of("record.pleats-that-run-out-within-leave-the", p.Name.V))
	case level != "" && !slices.Contains(c.levelsOf(p), level):
		levels := c.levelsOf(p)
		c.faults.Wrong(at, meant.Among(level, levels, say.Of("record.it-has")), say.Of("record.is-no-level-of", say.Quoted(fault.Shorten(level)), p.Name.V)).Instead(level, meant.Nearest(level, levels))
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
		c.faults.Wrong(q.At, say.Of("record.add-how-far-each-goes-under-as"), say.Of("record.the-pleats-on-have-no-depth", p.Name.V, q.Edge.V))
	}
	if q.Into.Given() && !q.Depth.Given() && !q.Drawn.V {
		c.faults.Wrong(q.Into.At, say.Of("record.write-drawn-true-or-depth"), say.Of("record.into-tells-the-depth-only-where-the"))
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
		c.faults.Wrong(q.Place.At, say.Of("record.write-first-and-every-or-leave-at"), say.Of("record.at-is-the-place-of-one-pleat", q.Count.V))
	case q.Place.Given() && len(many) > 0:
		c.faults.Wrong(many[0].At, say.Of("record.keep-at-of-a-single-pleat-or"), say.Of("record.sets-several-out-at-one", many[0].V))
	}
	switch {
	case q.Towards.Given() && q.Folds() > 1:
		c.faults.Wrong(q.Towards.At, say.Of("record.leave-towards-out"), say.Of("record.box-and-inverted-pleats-have-a-fold")).Without(q.Towards.At)
	case q.Towards.Given():
		c.placeOn(q.Edge.V, q.Towards, p)
	}
	if q.Stitched.Given() && !q.Stitched.V.All && strings.HasSuffix(q.Kind.V, "tuck") {
		c.faults.Wrong(q.Stitched.At, say.Of("record.leave-stitched-out-or-say-kind-knife"), say.Of("record.a-tuck-is-stitched-all-its-length")).Without(q.Stitched.At)
	}
	if q.Soft.V && q.Tuck() {
		c.faults.Wrong(q.Soft.At, say.Of("record.leave-soft-out"), say.Of("record.a-tuck-lies-flat-all-its-length")).Without(q.Soft.At)
	}
	if level := q.Stitched.V.Level; level != "" {
		if levels := c.levelsOf(p); !slices.Contains(levels, level) {
			c.faults.Wrong(q.Stitched.At, meant.Among(level, levels, say.Of("record.it-has")), say.Of("record.is-no-level-of", say.Quoted(fault.Shorten(level)), p.Name.V))
		}
	}
}
