package press

import (
	"fmt"
	"path/filepath"
	"strings"
	"sync"
	"testing"
)

// TestManyPicturesOfOneBuild presses a garment with several photographs by one worker
// and by eight: the pages are the same, and whoever watches is told of the garment and
// of every photograph that is made, once; of none where they were kept.
func TestManyPicturesOfOneBuild(t *testing.T) {
	const photos = 6
	f := small()
	const file = "content/builds/apron/build.yaml"
	list := "state: sewing\npictures:\n"
	for i := range photos {
		list += fmt.Sprintf("  - {file: photos/%d.jpg, alt: side %d}\n", i, i)
		f[fmt.Sprintf("content/builds/apron/photos/%d.jpg", i)] = string(photo(t, quarters(500+10*i, 300), 1))
	}
	f[file] = strings.Replace(f[file], "state: sewing\n", list, 1)
	watched := func(dir, to string, workers int) (last Progress, names map[string]bool) {
		var mu sync.Mutex
		names = map[string]bool{}
		_, faults, err := pressWith(t, dir, nil, Options{To: to, Workers: workers, Progress: func(p Progress) {
			mu.Lock()
			defer mu.Unlock()
			names[p.Name] = true
			last = Progress{max(last.Done, p.Done), p.All, p.Name, max(last.Pictures, p.Pictures)}
		}})
		if err != nil {
			t.Fatalf("%v: %v", err, faults)
		}
		return last, names
	}
	dir, to := room(t, f), t.TempDir()
	for _, c := range []struct {
		name    string
		workers int
		dir     string
		made    int
	}{{"one", 1, dir, photos}, {"eight", 8, room(t, f), photos}, {"kept", 8, dir, 0}} {
		last, names := watched(c.dir, filepath.Join(to, c.name), c.workers)
		if want := (Progress{1, 1, "Apron", c.made}); last != want || !names["Apron"] {
			t.Errorf("%s: told %+v of %v, want %+v", c.name, last, names, want)
		}
	}
	one := tree(t, filepath.Join(to, "one"))
	if n := strings.Count(one["builds/apron.html"], "<figure class=\"photo\">"); n != photos {
		t.Errorf("%d photographs stand on the page", n)
	}
	same(t, one, tree(t, filepath.Join(to, "eight")))
	same(t, one, tree(t, filepath.Join(to, "kept")))
}
