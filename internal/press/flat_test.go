package press

import (
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"go.uber.org/goleak"
)

// TestMemoryStaysFlat: after a hundred edits, none like another, the memory
// of pressing holds no more than it did after the first few, no goroutine is
// left, and nothing lies beside the pressed folder. HEMBOOK_EDITS=1000 makes so
// many.
func TestMemoryStaysFlat(t *testing.T) {
	if testing.Short() {
		t.Skip("presses again and again, as TestAgainIsLikeAfresh does")
	}
	defer goleak.VerifyNone(t, goleak.IgnoreCurrent())
	few, many := 40, edited(t, 120)
	p := newPreview(t, several())
	var first uint64
	for i := range many {
		p.oneOfAKind(i)
		if rep, faults, err := p.press(); err != nil || rep.Written+rep.Removed == 0 {
			t.Fatal(i, rep, faults, err)
		}
		if i == few-1 {
			first = live()
		}
	}
	// 4 KB an edit are let pass, for what varies from one press to the next; a
	// memory that kept all it learnt was measured to grow by 270 KB an edit
	last, slack := live(), uint64(many-few)*4<<10
	t.Logf("%d KB live after %d edits, %d KB after %d", first>>10, few, last>>10, many)
	if last > first+slack {
		t.Errorf("%d KB are live after %d edits, %d KB after %d", first>>10, few, last>>10, many)
	}
	runtime.KeepAlive(p)
	p.memory.Close()
	onlyOne(t, filepath.Dir(p.to))
}

// oneOfAKind edits figures and words, makes a build of a name that was not
// there before and removes the one made before it, a photograph with it.
func (p *preview) oneOfAKind(i int) {
	const file = "content/builds/skirt-0/build.yaml"
	made := func(i int) string { return fmt.Sprintf("content/builds/made-%d/", i) }
	switch i % 4 {
	case 0:
		p.save(file, strings.NewReplacer("[500, 700]", fmt.Sprintf("[%d, 700]", 501+i)).Replace(skirt(0)), true)
	case 1:
		p.save("content/techniques/plain-way.md", plainWay(i), false)
	case 2:
		p.save(made(i)+"photos/a.jpg", photograph(i%4), true)
		p.save(made(i)+"build.yaml", strings.Replace(skirt(6), "Skirt 6", fmt.Sprintf("Made %d", i), 1)+"\npicture: {file: photos/a.jpg, alt: it hangs}\n", true)
	default:
		if err := os.RemoveAll(p.path(made(i - 1))); err != nil {
			p.t.Fatal(err)
		}
	}
}

// plainWay is the text of a technique that builds use.
func plainWay(i int) string {
	return strings.Replace(small()["content/techniques/plain-way.md"], "1. Sew.", fmt.Sprintf("1. Sew the %dth time.", i), 1)
}

// live is how many bytes are in use once all that can be freed is.
func live() uint64 {
	var m runtime.MemStats
	runtime.GC()
	runtime.GC() // what a finalizer held
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}
