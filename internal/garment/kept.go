package garment

import (
	"encoding/binary"
	"hash/maphash"
	"math"
	"slices"
	"sync"

	"hembook/internal/shape"
)

// A keeper remembers the measured edges and the cut outlines of outlines seen
// before. Finding a cut outline is the costliest step of a derivation, and
// when a record is edited most of its outlines stay as they were. What is kept
// depends on nothing but the outline and the allowances, so remembering it
// changes no figure. It is safe for concurrent use.
type keeper struct {
	mu   sync.Mutex
	seed maphash.Seed
	kept map[uint64]*keptOutline
}

// mostKept bounds the outlines remembered; when there are more, all are let go.
const mostKept = 1024

// mostCuts bounds the cut outlines remembered for one outline.
const mostCuts = 4

// A keptOutline is an outline with what was worked out from it. Its outline
// and sides never change.
type keptOutline struct {
	outline shape.Outline
	sides   []shape.NamedEdge
	cuts    []keptCut
}

type keptCut struct {
	allow   []float64
	corners []shape.Corner
	cut     shape.Cut
}

func newKeeper() *keeper {
	return &keeper{seed: maphash.MakeSeed(), kept: map[uint64]*keptOutline{}}
}

// outline returns what is kept of an outline, measuring it where it is new.
func (k *keeper) outline(o shape.Outline) *keptOutline {
	key := k.key(o)
	k.mu.Lock()
	old := k.kept[key]
	k.mu.Unlock()
	if old != nil && same(old.outline, o) {
		return old
	}
	o.Edges = slices.Clone(o.Edges) // nobody else can change what is kept
	fresh := &keptOutline{outline: o, sides: o.Sides()}
	k.mu.Lock()
	if len(k.kept) >= mostKept {
		clear(k.kept)
	}
	k.kept[key] = fresh
	k.mu.Unlock()
	return fresh
}

// cut is [shape.Outline.CutOutline], remembered. The result is shared and must
// not be changed.
func (k *keeper) cut(o *keptOutline, allow []float64, corners []shape.Corner) (shape.Cut, error) {
	k.mu.Lock()
	for i := range o.cuts {
		if c := &o.cuts[i]; slices.Equal(c.allow, allow) && slices.Equal(c.corners, corners) {
			cut := c.cut
			k.mu.Unlock()
			return cut, nil
		}
	}
	k.mu.Unlock()
	cut, err := o.outline.CutOutline(allow, corners)
	if err != nil {
		return cut, err
	}
	fresh := keptCut{slices.Clone(allow), slices.Clone(corners), cut}
	k.mu.Lock()
	if len(o.cuts) >= mostCuts {
		o.cuts = nil
	}
	o.cuts = append(o.cuts, fresh)
	k.mu.Unlock()
	return cut, nil
}

func same(a, b shape.Outline) bool { return a.From == b.From && slices.Equal(a.Edges, b.Edges) }

// key hashes an outline.
func (k *keeper) key(o shape.Outline) uint64 {
	var room [512]byte
	b := appendPoint(room[:0], o.From)
	for i := range o.Edges {
		e := &o.Edges[i]
		b = append(appendPoint(b, e.To), e.Name...)
		if e.Curved {
			b = appendPoint(appendPoint(b, e.C1), e.C2)
		}
		if e.Fold {
			b = append(b, 1)
		}
	}
	return maphash.Bytes(k.seed, b)
}

func appendPoint(b []byte, p shape.Point) []byte {
	b = binary.LittleEndian.AppendUint64(b, math.Float64bits(p.X))
	return binary.LittleEndian.AppendUint64(b, math.Float64bits(p.Y))
}
