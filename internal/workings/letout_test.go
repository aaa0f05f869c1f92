package workings

import (
	"fmt"
	"slices"
	"strings"
)

// letOutClaims are what stands against letting a garment out, and against
// saying how wide it is.
var letOutClaims = []claim{
	said(`two seams, (.*) and (.*), share the allowance of (.*)`, func(r *room, b *build, e *entry, words []string) bool {
		one, two := r.named(b, "seams", words[0]), r.named(b, "seams", words[1])
		return one != nil && two != nil && mentions(one["join"], words[2]) && mentions(two["join"], words[2])
	}),
	said(`(.*) joins (.*), which does not go round with the others here`, func(r *room, b *build, e *entry, words []string) bool {
		s := r.named(b, "seams", words[0])
		return s != nil && strings.Contains(fmt.Sprint(s["join"]), words[1]+".")
	}),
	said(`(.*) goes round here too, and nothing tells what it is sewn to`, func(r *room, b *build, e *entry, words []string) bool {
		if name, layer, in := strings.Cut(words[0], " in "); in {
			p := r.named(b, "pieces", name)
			return p != nil && mentions(p["of"], layer)
		}
		return !strings.Contains(fmt.Sprint(r.record(b)["seams"]), words[0]+".")
	}),
	said(`(.*) is finished with a strip, which must be let out with it`, func(r *room, b *build, e *entry, words []string) bool {
		return slices.ContainsFunc(list(r.record(b)["finishes"]), func(f map[string]any) bool {
			return mentions(f["of"], words[0]) && slices.Contains([]string{"bias-faced-hem", "bound-edge", "double-bound-edge"}, text(f["type"]))
		})
	}),
	said(`(.*) is sewn to (.*) and holds it`, func(r *room, b *build, e *entry, words []string) bool {
		return slices.ContainsFunc(list(r.record(b)["notions"]), func(n map[string]any) bool {
			return text(n["name"]) == words[0] && (mentions(n["along"], words[1]) || n["in"] != nil)
		})
	}),
	said(`the finished width is not known|the garment's girth is not known|it is not known how far round it goes`, func(r *room, b *build, e *entry, _ []string) bool {
		return b.unknown("level." + part(e.ID, 1) + ".finished")
	}),
	said(`the width of (.*) at (.*) is not known: .*`, func(r *room, b *build, e *entry, words []string) bool {
		return b.unknown("piece." + slugOf(words[0]) + ".level." + slugOf(words[1]))
	}),
	said(`the dart on (.*) opens here from the side, and how wide the piece is once it is sewn is not worked out yet: measure the paper with the dart closed`, func(r *room, b *build, e *entry, words []string) bool {
		p := r.named(b, "pieces", strings.ReplaceAll(part(e.ID, 1), "-", " "))
		return p != nil && slices.ContainsFunc(list(p["darts"]), func(d map[string]any) bool { return text(d["name"]) == words[0] })
	}),
}

// named is the entry of a list of the record that has a name.
func (r *room) named(b *build, group, name string) map[string]any {
	for _, one := range list(r.record(b)[group]) {
		if text(one["name"]) == name {
			return one
		}
		set, isSet := one["like"].([]any) // "front lining" is of the set lining, like front
		if first, ok := strings.CutSuffix(name, " "+text(one["name"])); ok && isSet && slices.ContainsFunc(set, func(like any) bool { return text(like) == first }) {
			return one
		}
	}
	return nil
}

// mentions reports whether a word stands in a value, however deep.
func mentions(v any, word string) bool {
	switch v := v.(type) {
	case []any:
		return slices.ContainsFunc(v, func(one any) bool { return mentions(one, word) })
	default:
		return text(v) == word
	}
}
