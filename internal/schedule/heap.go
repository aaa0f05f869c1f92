package schedule

import (
	"cmp"
	"slices"
)

// A heap gives the item of least key first, and of equal ones the least item.
// The standard library's would box each of them.
type heap struct {
	items []int32
	key   []int64 // by item; must not change while the item is in the heap
}

func (h *heap) before(a, b int32) bool {
	return h.key[a] < h.key[b] || h.key[a] == h.key[b] && a < b
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
		least := 2*i + 1
		if least >= last {
			return first
		}
		if right := least + 1; right < last && h.before(h.items[right], h.items[least]) {
			least = right
		}
		if !h.before(h.items[least], h.items[i]) {
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
