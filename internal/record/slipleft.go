package record

import (
	"reflect"
	"slices"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/say"
	"hembook/internal/trade"
)

// This file holds words that stand further left than the group they belong to.

// atVeryLeft reports whether a word has its place at the very left of some file.
func atVeryLeft(word string) bool {
	return slices.ContainsFunc(FileKinds, func(k FileKind) bool {
		_, known := kindOf(k.typ).(*structKind).planned().byKey[word]
		return known
	})
}

// outOfGroup finds a part whose first word belongs to the group in the part above it,
// as its neighbours below do; false where it does not.
func (p section) outOfGroup(above []section, text []byte) (slip, bool) {
	rows := rowsOf(p.lines)
	if len(rows) < 2 || rows[0].indent > 0 || !rows[0].keyed || rows[0].opens || rows[1].indent == 0 || atVeryLeft(rows[0].word) {
		return slip{}, false
	}
	by := strings.Repeat(" ", rows[1].indent)
	joined := append([]string{by + p.lines[0]}, p.lines[1:]...)
	s := slipAt(1, say.Of("record.stands-at-the-very-left-its-neighbour", say.Quoted(fault.Shorten(rows[0].word)), say.Quoted(fault.Shorten(rows[1].word)), spaces(rows[1].indent)),
		say.Of("record.put-so-many-before-it", spaces(rows[1].indent), "%d", strings.ReplaceAll(say.Quoted(fault.Shorten(rows[1].word)), "%", "%%")),
		swap{1, joined[0]}).from(p.first)
	s.beside = p.first + rows[1].line - 1
	for i := len(above) - 1; i >= 0; i-- {
		part := above[i]
		first := rowsOf(part.lines)
		if len(first) == 0 || !first[0].keyed {
			return slip{}, false
		}
		if first[0].opens {
			whole := section{part.first, append(append([]string(nil), part.lines...), joined...)}
			return s, whole.read(text) == nil
		}
		if len(first) > 1 || atVeryLeft(first[0].word) {
			return slip{}, false
		}
		joined = append(append([]string{by + part.lines[0]}, part.lines[1:]...), joined...)
		s.swaps = append(s.swaps, swap{part.first, by + part.lines[0]})
	}
	return slip{}, false
}

// gathered puts words that stand beside the group they belong to, and not below it,
// into that group, and says so. A group has its words elsewhere where it is empty, or
// where an unknown word behind it can be read as one of its own.
func (p *structPlan) gathered(d *decoder, t reflect.Type, pairs []pair) []pair {
	if p.rest >= 0 {
		return pairs
	}
	return grouped(pairs, func(one, next pair, _ int) bool { return p.belongs(d, t, one, next) }, d.gather)
}

// belongs reports whether a word belongs to the group before it.
func (p *structPlan) belongs(d *decoder, t reflect.Type, group, each pair) bool {
	i, known := p.byKey[group.key.V]
	if _, also := p.byKey[each.key.V]; !known || also || each.key.At.Column != group.key.At.Column || each.key.At.Line <= group.key.At.Line ||
		gone[t][each.key.V] != "" || p.was[each.key.V] != "" || p.named == each.key.V {
		return false
	}
	empty := isNull(group.value) && group.value.Value == ""
	if below := group.value.Kind == yaml.MappingNode && group.value.Style&yaml.FlowStyle == 0 && group.value.Line > int(group.key.At.Line-d.shift); !empty && !below {
		return false
	}
	switch k := kindOf(p.fields[i].of).(type) {
	case *structKind:
		_, its := k.planned().byKey[each.key.V]
		return its
	case *keyedKind:
		if trade.Nearest(each.key.V, p.keys) != "" || isNull(each.value) {
			return false
		}
		if empty {
			return true
		}
		var faults fault.Faults
		trial := *d
		trial.faults = &faults
		k.readOne(&trial, each.key, each.value, each.key.At)
		return faults.Len() == 0
	}
	return false
}

// gather answers words that stand beside their group, and returns the group with them.
func (d *decoder) gather(group pair, rest []pair) *yaml.Node {
	now := yaml.Node{Kind: yaml.MappingNode, Tag: "!!map", Line: int(rest[0].key.At.Line - d.shift), Column: int(rest[0].key.At.Column)}
	in := 2
	if group.value.Kind == yaml.MappingNode {
		now = *group.value
		now.Content = append([]*yaml.Node(nil), now.Content...)
		in = max(1, now.Column-int(group.key.At.Column))
	}
	name, further := fault.Shorten(rest[0].key.V), say.Of("record.further-in", spaces(in))
	var f *fault.Fault
	if n := len(rest) - 1; n > 0 {
		f = d.faults.Wrong(rest[0].key.At, say.Of("record.begin-them", further), say.Of("record.and-more-stand-beside-and-belong-below", say.Quoted(name), n, say.Quoted(group.key.V)))
	} else {
		f = d.faults.Wrong(rest[0].key.At, say.Of("record.begin-it", further), say.Of("record.stands-beside-and-belongs-below-it", say.Quoted(name), say.Quoted(group.key.V)))
	}
	for _, each := range rest {
		at := each.key.At
		for at.Column = 1; ; at.Line++ {
			l := strings.TrimRight(d.behind(at), "\r")
			deeper := indentOf(l) >= int(each.key.At.Column)
			if at.Line > each.key.At.Line && !deeper {
				break
			}
			f.InsteadAt(at, l, strings.Repeat(" ", in)+l)
		}
		key := yaml.Node{Kind: yaml.ScalarNode, Tag: "!!str", Value: each.key.V, Line: int(each.key.At.Line - d.shift), Column: int(each.key.At.Column)}
		now.Content = append(now.Content, &key, each.value)
	}
	return &now
}
