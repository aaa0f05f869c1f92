package schedule

import (
	"cmp"
	"slices"
)

// A heap gives the first of its items by an order of its own. The standard
// library's would box each of them.
type heap struct {
	items  []int32
	before func(a, b int32) bool
}

func (h *heap) push(item int32) {
	h.items = append(h.items, item)
	for i := len(h.items) - 1; i > 0; {
		up := (i - 1) / 2
		if !h.before(h.items[i], h.items[up]) {
			return
		}
		h.items[i], h.items[up] = h.items[up], h.items[i]
		i = up
	}
}

func (h *heap) pop() int32 {
	first, last := h.items[0], len(h.items)-1
	h.items[0] = h.items[last]
	h.items = h.items[:last]
	for i := 0; ; {
		least := i
		for _, down := range []int{2*i + 1, 2*i + 2} {
			if down < last && h.before(h.items[down], h.items[least]) {
				least = down
			}
		}
		if least == i {
			return first
		}
		h.items[i], h.items[least] = h.items[least], h.items[i]
		i = least
	}
}

// sortBy orders items by a key, and those of equal key by themselves.
func sortBy(items []int32, key func(int32) int64) {
	slices.SortFunc(items, func(a, b int32) int {
		return cmp.Or(cmp.Compare(key(a), key(b)), cmp.Compare(a, b))
	})
}

// sortRank orders items by rank.
func sortRank(items []int32, rank func(a, b int32) int) { slices.SortFunc(items, rank) }
