package garment

import (
	"cmp"
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/record"
)

// toldOnce tells once, of the pair, what is wrong with the left and the right alike where a
// record names one of a pair: the maker drew them once.
func toldOnce(b *record.Build, list []fault.Fault) []fault.Fault {
	if b.Whole == nil {
		return list
	}
	left, right := ofPair(b, record.Left), ofPair(b, record.Right)
	gone := make([]bool, len(list))
	for i := range list {
		for k := range list {
			one, other := &list[i], &list[k]
			message := left.Replace(one.Message)
			if i == k || gone[i] || gone[k] || one.At != other.At || one.Severity != other.Severity ||
				message == one.Message || message != right.Replace(other.Message) {
				continue
			}
			one.Message, one.Hint, gone[k] = message, left.Replace(one.Hint), true
		}
	}
	var out []fault.Fault
	for i := range list {
		if !gone[i] {
			out = append(out, list[i])
		}
	}
	return out
}

// ofPair puts the name of what the record has in the place of the one on a side.
func ofPair(b *record.Build, hand record.Hand) *strings.Replacer {
	var names [][2]string
	for i := range b.Pieces {
		if p := &b.Pieces[i]; p.Hand == hand {
			names = append(names, [2]string{p.Name.V, p.Pair})
		}
	}
	for i := range b.Whole.Pieces {
		name := b.Whole.Pieces[i].Name.V
		names = append(names, [2]string{string(hand) + " " + name, name})
	}
	for i := range b.Seams {
		if s := &b.Seams[i]; s.Pair != "" && strings.HasPrefix(s.Name.V, string(hand)+" ") {
			names = append(names, [2]string{s.Name.V, s.Pair})
		}
	}
	slices.SortStableFunc(names, func(x, y [2]string) int { return cmp.Compare(len(y[0]), len(x[0])) })
	var words []string
	for _, n := range names {
		words = append(words, n[0], n[1])
	}
	return strings.NewReplacer(words...)
}
