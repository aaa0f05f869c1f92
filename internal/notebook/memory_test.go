package notebook

import (
	"fmt"
	"runtime"
	"testing"

	"hembook/internal/derive"
)

// TestBuildLinesAreSmall: what is kept of each build must not keep the rest of
// it in memory, or a notebook of ten thousand builds would not fit.
func TestBuildLinesAreSmall(t *testing.T) {
	const n, most = 1000, 4 << 10
	files := workroom()
	for i := range n {
		files[fmt.Sprintf("content/builds/b%d/build.yaml", i)] = buildText(fmt.Sprint("Build ", i), 2026, 12)
	}
	room := open(t, files)
	b := New(room)
	tailor, _ := derive.NewTailor(room)
	kept := make([]*BuildLine, n)
	one := func(i int) *BuildLine {
		r, _ := room.ReadBuild(room.Builds[i])
		return b.BuildLine(i, tailor.Derive(r))
	}
	for i := range 50 {
		one(i) // fills what is kept once for all
	}
	before := heap()
	for i := range kept {
		kept[i] = one(i)
	}
	if each := (int64(heap()) - int64(before)) / n; each > most {
		t.Errorf("%d bytes are kept of each build; at most %d should be", each, most)
	}
	runtime.KeepAlive(kept)
}

func heap() uint64 {
	runtime.GC()
	runtime.GC()
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}
