package figure

// A stock is a list that only grows. It lies in leaves of equal size, so that what is
// in it need not be copied when there is more.
type stock[T any] struct {
	leaves [][]T
	n      int32
}

const (
	leafBits = 7
	leafSize = 1 << leafBits
)

// at is the item in a place. What a place holds may be changed until the next is added.
func (s *stock[T]) at(i int32) *T { return &s.leaves[i>>leafBits][i&(leafSize-1)] }

// add puts one more in, and says its place. The first leaf grows, as most pads of one
// figure need little of it.
func (s *stock[T]) add(item T) int32 {
	i := s.n
	if int(i>>leafBits) == len(s.leaves) {
		var leaf []T
		if i > 0 {
			leaf = make([]T, 0, leafSize)
		}
		s.leaves = append(s.leaves, leaf)
	}
	last := &s.leaves[len(s.leaves)-1]
	*last = append(*last, item)
	s.n++
	return i
}
