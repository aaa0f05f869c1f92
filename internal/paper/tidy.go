package paper

import (
	"slices"

	"hembook/internal/document"
)

// A last page of which less than orphanShare is filled is taken back where text smaller by
// at most orphanSteps steps saves it. One that is filled by less than leastFilled is given
// more of the page before it.
const (
	orphanShare = 0.3
	orphanSteps = 3
	leastFilled = 0.25
	leastRows   = 5 // of a table on either side of its end, where it is parted for this
)

// tidy sets blocks on pages whose last one is worth turning to.
func (s *setter) tidy(list []document.Block, wide float64) []page {
	slabs := s.blocks(list, wide)
	pages := paginate(slabs, s.room)
	n := len(pages)
	if n > 1 && pages[n-1].used < s.room*orphanShare {
		smaller := *s
		for range orphanSteps {
			if smaller.size -= textStep; smaller.size < smallestText {
				break
			}
			fine := smaller.blocks(list, wide)
			if fewer := paginate(fine, s.room); len(fewer) < n {
				slabs, pages = fine, fewer
				break
			}
		}
	}
	return s.written(list, wide, balance(slabs, pages, s.room))
}

// written gives the long answers of a form as many more lines to write on as its page has
// room for, so that every page begins as it did.
func (s *setter) written(list []document.Block, wide float64, pages []page) []page {
	asked := slices.ContainsFunc(list, func(b document.Block) bool {
		form, is := b.(document.Asks)
		return is && len(form.Items) == 0
	})
	if !asked {
		return pages
	}
	for more := moreLines; more > 0; more-- {
		wider := *s
		wider.lines = more
		slabs := wider.blocks(list, wide)
		if fuller := balance(slabs, paginate(slabs, s.room), s.room); slices.EqualFunc(fuller, pages, func(a, b page) bool { return a.first == b.first }) {
			return fuller
		}
	}
	return pages
}

// balance turns the page before the last earlier, where the last one would
// hold little: before a heading if that can be, else before another block or
// in a table with enough rows on either side, else between any groups. Pages
// stay as they are where no such turn fills both.
func balance(slabs []slab, pages []page, room float64) []page {
	n := len(pages)
	least := room * leastFilled
	if n < 2 || pages[n-1].used >= least {
		return pages
	}
	first, last := pages[n-2].first, pages[n-1].first
	var best []page
	bestRank := noTurn
	for at := first; at < last; at = groupEnd(slabs, at) {
		if at == first {
			continue
		}
		rank := turnRank(slabs, first, at)
		if rank < bestRank {
			continue // a better one, or as good a one further down, is kept
		}
		turned := paginate(slabs, room, at)
		if len(turned) == n && turned[n-1].first == at && turned[n-2].used >= least && turned[n-1].used >= least {
			best, bestRank = turned, rank
		}
	}
	if best == nil {
		return pages
	}
	return best
}

// How good a place is to turn the page.
const (
	noTurn = iota
	turnAnywhere
	turnBlock
	turnHeading
)

// turnRank is how good it is to turn the page before the slab at, where its
// page begins with the slab first.
func turnRank(slabs []slab, first, at int) int {
	switch slabs[at].opens {
	case opensHeading:
		return turnHeading
	case opensBlock:
		return turnBlock
	}
	table := slabs[at].table
	if table == 0 {
		return turnAnywhere
	}
	above, below := 0, 0
	for i := first; i < len(slabs); i++ {
		switch {
		case slabs[i].table != table:
		case i < at:
			above++
		default:
			below++
		}
	}
	if above >= leastRows && below >= leastRows {
		return turnBlock
	}
	return turnAnywhere
}
