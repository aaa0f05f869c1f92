package record

import (
	"reflect"
	"slices"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/meant"
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
			c.faults.Errorf(each.Name.At, meant.Among(each.Name.V, append(slices.Clone(levels), q.Edge.V), "it has "), "%q is no level of %s", fault.Shorten(each.Name.V), p.Name.V).
				Instead(each.Name.V, meant.Nearest(each.Name.V, levels))
			q.Unread = true
		case each.Name.V != q.Level.V:
			c.faults.Errorf(q.Closes.Levels[i].Name.At, "keep the one at which they are widest", "pleats taper from their edge to one level, and here are %s and %s", q.Level.V, each.Name.V)
			q.Unread = true
		}
	}
	switch {
	case len(q.Closes.Levels) == 0 || q.Unread:
	case !q.Into.Given():
		c.faults.Errorf(q.Closes.Levels[0].Name.At, "add how long the edge itself becomes, as "+q.Edge.V+": 365", "into: says nothing of %s.%s", p.Name.V, q.Edge.V)
		q.Unread = true
	case q.Depth.Given():
		c.faults.Errorf(q.Depth.At, "leave depth: out", "the depth of tapering pleats follows from what they close to").Without(q.Depth.At)
		q.Unread = true
	case q.Tuck():
		c.faults.Errorf(q.Closes.Levels[0].Name.At, "write one length, or say kind: knife", "tucks keep one depth all their length")
	}
}
