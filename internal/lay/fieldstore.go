package lay

import "sync"

// A fieldStore keeps the fields of a problem's pieces. Cloth is folded this way and that,
// each time with a model of its own, and the same pieces meet in all of them.
type fieldStore struct {
	lock   sync.Mutex
	bases  []base
	fields map[fieldKey]*storedField
}

// A fieldKey is a pair of bases by their numbers, how the second lies, and what else its
// field depends on.
type fieldKey struct {
	a, b, way, cells int
	gap              float64
}

// A storedField is a field that is made once, its parts before its grid.
type storedField struct {
	parts, grid sync.Once
	f           *field
}

// base gives an outline its number, and its convex parts.
func (s *fieldStore) base(pts []Point) (known int, parts [][]Point) {
	s.lock.Lock()
	defer s.lock.Unlock()
	for i := range s.bases {
		if samePoints(s.bases[i].pts, pts) {
			return i, s.bases[i].parts
		}
	}
	s.bases = append(s.bases, base{pts: pts, parts: convexParts(pts)})
	return len(s.bases) - 1, s.bases[len(s.bases)-1].parts
}

// at is the place of one field.
func (s *fieldStore) at(key fieldKey) *storedField {
	s.lock.Lock()
	defer s.lock.Unlock()
	f := s.fields[key]
	if f == nil {
		f = new(storedField)
		if s.fields == nil {
			s.fields = map[fieldKey]*storedField{}
		}
		s.fields[key] = f
	}
	return f
}
