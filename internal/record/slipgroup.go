package record

import (
	"reflect"
	"regexp"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/say"
	"hembook/internal/trade"
)

// This file holds what makers write in the short forms of a group that is not read, and
// how it is written.

// betweenEdges parts edges that are named in a row without brackets.
var betweenEdges = regexp.MustCompile(`\s*,\s*|\s+(?:and|to|with|plus|\+|&)\s+`)

// edgesInRow are edges that stand in a row without brackets, as "front.side and
// back.side", as they are written; "" where they are none.
func edgesInRow(text string) string {
	parts := betweenEdges.Split(strings.TrimSpace(text), -1)
	for _, p := range parts {
		if piece, edge, ok := strings.Cut(p, "."); !ok || piece == "" || edge == "" || strings.ContainsAny(p, "[]{}:") || strings.Contains(edge, " from ") {
			return ""
		}
	}
	if len(parts) < 2 {
		return ""
	}
	return "[" + strings.Join(parts, ", ") + "]"
}

var twoNumbers = regexp.MustCompile(`^(-?[\d.]+)\s*[,; x×/]\s*(-?[\d.]+)$`)

// mayMean reports whether a value can be one that groupMeant answers: quick, for it is
// asked of every group.
func (k *structKind) mayMean(n *yaml.Node) bool {
	switch k.t {
	case reflect.TypeFor[Seam]():
		return n.Kind == yaml.ScalarNode && !isNull(n) || n.Kind == yaml.SequenceNode
	case reflect.TypeFor[Finish]():
		return n.Kind == yaml.ScalarNode && !isNull(n)
	case reflect.TypeFor[EdgeLine]():
		return n.Kind == yaml.ScalarNode && !isNull(n) || n.Kind == yaml.MappingNode && len(n.Content) == 4
	case reflect.TypeFor[Notion]():
		return n.Kind == yaml.ScalarNode && countMeant(n.Value) != ""
	}
	return false
}

// groupMeant answers a value that stands where a group is wanted, and that can be told
// to mean something; false where it cannot.
func (k *structKind) groupMeant(d *decoder, n *yaml.Node, here fault.Pos) bool {
	told := func(now, what string) bool {
		d.faults.Wrong(here, say.Of("record.write", now), what).InsteadAt(here, "", now)
		return true
	}
	switch k.t {
	case reflect.TypeFor[Seam]():
		return seamMeant(d, n, here, told)
	case reflect.TypeFor[Notion]():
		return told(say.Of("record.words", countMeant(n.Value)), say.Of("record.how-many-there-are-is-said-with"))
	case reflect.TypeFor[Finish]():
		if n.Kind == yaml.ScalarNode && strings.Contains(strings.Trim(n.Value, "."), ".") {
			d.faults.Wrong(here, say.Of("record.say-which-edge-and-how-as-type", fault.Shorten(n.Value)), say.Of("record.this-finish-says-only-which-edge-it"))
			return true
		}
	case reflect.TypeFor[EdgeLine]():
		if n.Kind == yaml.MappingNode {
			if x, y := valueBehind(n, "x"), valueBehind(n, "y"); x != nil && y != nil && len(n.Content) == 4 {
				return told("["+x.Value+", "+y.Value+"]", say.Of("record.a-corner-is-a-point-in-square"))
			}
			return false
		}
		if m := twoNumbers.FindStringSubmatch(n.Value); m != nil {
			return told("["+m[1]+", "+m[2]+"]", say.Of("record.a-corner-is-a-point-in-square"))
		}
		switch strings.ToLower(n.Value) {
		case "folded", "on fold", "on the fold", "the fold", "cut on fold":
			return told("fold", say.Of("record.an-edge-on-the-fold-is-written"))
		}
	}
	return false
}

// seamMeant answers a seam that names its edges without brackets, or its type among or
// without them.
func seamMeant(d *decoder, n *yaml.Node, here fault.Pos, told func(now, what string) bool) bool {
	switch n.Kind {
	case yaml.ScalarNode:
		if now := edgesInRow(n.Value); now != "" {
			return told(now, say.Of("record.the-edges-of-a-seam-stand-in"))
		}
		if isSeamType(n.Value) {
			d.faults.Wrong(here, say.Of("record.say-which-edges-it-joins-too-as", n.Value), say.Of("record.this-seam-says-only-its-type"))
			return true
		}
	case yaml.SequenceNode:
		last := len(n.Content) - 1
		if last < 2 || n.Content[last].Kind != yaml.ScalarNode || !isSeamType(n.Content[last].Value) {
			return false
		}
		edges := inBraces(&yaml.Node{Kind: yaml.SequenceNode, Content: n.Content[:last]})
		return told(say.Of("record.type", edges, n.Content[last].Value), say.Of("record.the-type-of-a-seam-does-not"))
	}
	return false
}

func isSeamType(word string) bool {
	_, ok := trade.FindSeamType(trade.SeamTypes(), word)
	return ok
}

// manyMeant answers several values behind a name whose things have words each, as
// waist: [95, 14, 90] of a dart. Of any others only she knows which is which: nothing is
// proposed for them.
func (k *keyedKind) manyMeant(d *decoder, name Text, list *yaml.Node) bool {
	group := kindOf(k.elem).(*structKind)
	if group.planned().short.value >= 0 || len(list.Content) == 0 {
		return false
	}
	var words []string
	for _, item := range list.Content {
		if item.Kind != yaml.ScalarNode || isNull(item) {
			return false
		}
		words = append(words, item.Value)
	}
	at := d.pos(list)
	if k.elem == reflect.TypeFor[DartSpec]() && len(words) == 3 {
		now := say.Of("record.width-length", words[0], words[1], words[2])
		d.faults.Wrong(at, say.Of("record.did-you-mean", now), say.Of("record.each-number-of-a-dart-has-its")).InsteadAt(at, "", now)
		return true
	}
	d.faults.Wrong(at, say.Of("record.say-which-is-which", meant.List(group.planned().keys, "and")), say.Of("record.each-of-these-has-its-word-at", fault.Shorten(name.V)))
	return true
}

// byKeys proposes to write a list by its names whose entries are named already, as
// [side: 200, side: 560] or one below the other, each after a dash; false where they
// are not.
func (k *keyedKind) byKeys(d *decoder, list *yaml.Node, at fault.Pos) bool {
	var names []string
	values := map[string][]string{}
	for _, item := range list.Content {
		if item.Kind != yaml.MappingNode || len(item.Content) != 2 || item.Content[0].Value == k.key.was || item.Content[0].Kind != yaml.ScalarNode {
			return false
		}
		name := item.Content[0].Value
		if values[name] == nil {
			names = append(names, name)
		}
		values[name] = append(values[name], inBraces(item.Content[1]))
	}
	if len(names) == 0 || len(names) < len(list.Content) && !k.key.several {
		return false
	}
	if list.Style&yaml.FlowStyle == 0 && len(names) == len(list.Content) {
		f := d.faults.Wrong(at, say.Of("record.leave-the-dashes-out"), say.Of("record.are-written-by-without-a-dash", k.key.many, k.key.by))
		for _, item := range list.Content {
			dash := d.pos(item)
			dash.Column = int32(list.Column)
			f.InsteadAt(dash, "- ", "  ")
		}
		return true
	}
	var parts []string
	for _, name := range names {
		now := strings.Join(values[name], ", ")
		if len(values[name]) > 1 {
			now = "[" + now + "]"
		}
		parts = append(parts, name+": "+now)
	}
	now := "{" + strings.Join(parts, ", ") + "}"
	d.faults.Wrong(at, say.Of("record.write", fault.Shorten(now)), say.Of("record.are-written-by-in-braces", k.key.many, k.key.by)).InsteadAt(at, "", now)
	return true
}

// cutPlace answers a place that is written with a comma, as first: 65, neck.
func (p *structPlan) cutPlace(d *decoder, before, each pair) bool {
	i, known := p.byKey[before.key.V]
	if !known || !isNull(each.value) || each.value.Value != "" || before.value.Kind != yaml.ScalarNode || !isPlace(p.fields[i].of) ||
		before.value.Value == "" || !isFigure(before.value.Value[0]) {
		return false
	}
	at, old := d.pos(before.value), before.value.Value
	now := say.Of("record.from", old, each.key.V)
	gap := int(each.key.At.Column-at.Column) - len([]rune(old)) - 1
	if gap < 0 || each.key.At.Line != at.Line {
		return false
	}
	d.faults.Wrong(each.key.At, say.Of("record.write-6", before.key.V, now), say.Of("record.a-place-is-so-far-from-something")).
		InsteadAt(at, old+","+strings.Repeat(" ", gap)+each.key.V, now)
	return true
}

func isPlace(t reflect.Type) bool { return t == reflect.TypeFor[Where]() }
