package record

import (
	"reflect"
	"slices"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/say"
)

// closedToKind reads one length, or one for the edge and one for a level.
type closedToKind struct{}

func (closedToKind) read(d *decoder, n *yaml.Node, into reflect.Value, lim limits) {
	var out ClosedTo
	if at := d.resolve(n); at != nil && at.Kind == yaml.MappingNode {
		kindOf(reflect.TypeFor[Dict[Length]]()).read(d, n, reflect.ValueOf(&out.Levels).Elem(), lim)
	} else if at != nil {
		kindOf(reflect.TypeFor[Length]()).read(d, n, reflect.ValueOf(&out.Edge).Elem(), lim)
	}
	into.Set(reflect.ValueOf(out))
}

func (closedToKind) schema(s *schemaWriter, lim limits) map[string]any {
	return map[string]any{"anyOf": []any{s.of(reflect.TypeFor[Length](), lim), s.of(reflect.TypeFor[Dict[Length]](), lim)}}
}

// settleInto parts what the edge closes to from what a level does.
func (p *PleatSpec) settleInto() {
	if !p.Closes.Given() {
		return
	}
	p.Into = p.Closes.Edge
	for _, each := range p.Closes.Levels {
		if each.Name.V == p.Edge.V {
			p.Into = each.V
		} else if !p.Level.Given() {
			p.Level, p.AtLevel = each.Name, each.V
		}
	}
}

// into checks what pleats close to by level.
func (c *buildCheck) into(q *PleatSpec, p *Piece) {
	levels := c.levelsOf(p)
	for i, each := range q.Closes.Levels {
		switch {
		case each.Name.V == q.Edge.V || !each.V.Given():
		case !slices.Contains(levels, each.Name.V):
			c.faults.Wrong(each.Name.At, meant.Among(each.Name.V, append(slices.Clone(levels), q.Edge.V), say.Of("record.it-has")), say.Of("record.is-no-level-of", say.Quoted(fault.Shorten(each.Name.V)), p.Name.V)).
				Instead(each.Name.V, meant.Nearest(each.Name.V, levels))
			q.Unread = true
		case each.Name.V != q.Level.V:
			c.faults.Wrong(q.Closes.Levels[i].Name.At, say.Of("record.keep-the-one-at-which-they-are"), say.Of("record.pleats-taper-from-their-edge-to-one", q.Level.V, each.Name.V))
			q.Unread = true
		}
	}
	switch {
	case len(q.Closes.Levels) == 0 || q.Unread:
	case !q.Into.Given():
		c.faults.Wrong(q.Closes.Levels[0].Name.At, say.Of("record.add-how-long-the-edge-itself-becomes", q.Edge.V), say.Of("record.into-says-nothing-of", p.Name.V, q.Edge.V))
		q.Unread = true
	case q.Depth.Given():
		c.faults.Wrong(q.Depth.At, say.Of("record.leave-depth-out"), say.Of("record.the-depth-of-tapering-pleats-follows")).Without(q.Depth.At)
		q.Unread = true
	case q.Tuck():
		c.faults.Wrong(q.Closes.Levels[0].Name.At, say.Of("record.write-one-length-or-say-kind-knife"), say.Of("record.tucks-keep-one-depth-all-their-length"))
	}
}
