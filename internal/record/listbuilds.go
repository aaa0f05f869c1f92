package record

import (
	"cmp"
	"errors"
	"io/fs"
	"path"
	"path/filepath"
	"runtime"
	"strings"
	"sync"
	"sync/atomic"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/say"
)

// A peeked is the name a record was seen to have.
type peeked struct {
	stamp Stamp
	name  string
}

// BuildStamps are those of the folder of Builds[i]: as they were when the room
// was opened where [Room.Again] opened it, else as they are now.
func (r *Room) BuildStamps(i int) *Stamps {
	if st := r.stamps[i]; st != nil {
		return st
	}
	return StampsOf(r.BuildFolder(r.Builds[i].Slug))
}

// BuildFolder is where the folder of a build lies on the system.
func (r *Room) BuildFolder(slug string) string {
	return filepath.Join(r.Dir, "content", "builds", slug)
}

// stampAgain takes the stamps of the folders of builds, many at once, where
// they were taken before: nil for all others.
func (r *Room) stampAgain(entries []fs.DirEntry) []*Stamps {
	out := make([]*Stamps, len(entries))
	if r.before == nil {
		return out
	}
	atOnce(len(entries), func(i int) {
		slug := entries[i].Name()
		if !entries[i].IsDir() || strings.HasPrefix(slug, ".") {
			return
		}
		folder := r.BuildFolder(slug)
		was := &Stamps{}
		if k, ok := r.before.builds[slug]; ok && r.before.stamps[k] != nil {
			was = r.before.stamps[k]
		}
		out[i] = was.again(folder)
	})
	return out
}

// atOnce calls do for every number below n, many at once.
func atOnce(n int, do func(i int)) {
	var next atomic.Int64
	var wait sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), n) {
		wait.Go(func() {
			for i := int(next.Add(1)) - 1; i < n; i = int(next.Add(1)) - 1 {
				do(i)
			}
		})
	}
	wait.Wait()
}

// listOne lists the build of a folder alone, if there is one.
func (r *Room) listOne(slug string) bool {
	file, seen, ok := r.lookFor(slug)
	if ok {
		r.peeked[file.Path] = seen
		r.addBuild(slug, file.Path, file.Name, nil)
	}
	return ok
}

// lookFor looks for the build of a folder, whatever the room knows of others.
func (r *Room) lookFor(slug string) (file BuildFile, seen peeked, ok bool) {
	if slug == "" || strings.HasPrefix(slug, ".") || !fs.ValidPath(slug) || strings.Contains(slug, "/") {
		return file, seen, false
	}
	p := path.Join("content/builds", slug, "build.yaml")
	if _, err := fs.Stat(r.FS, p); err != nil {
		return file, seen, false
	}
	found := r.peekName(p, nil)
	return BuildFile{slug, p, cmp.Or(found.name, slug)}, found.peeked, true
}

// addBuild adds a build, which is called as its folder is where its record does
// not say what it is called.
func (r *Room) addBuild(slug, p, name string, taken *Stamps) {
	if name == "" {
		name = slug
	}
	r.builds[slug] = len(r.Builds)
	r.Builds = append(r.Builds, BuildFile{slug, p, name})
	r.stamps = append(r.stamps, taken)
}

func (r *Room) listBuilds(faults *fault.Faults) {
	const dir = "content/builds"
	entries, err := fs.ReadDir(r.FS, dir)
	if err != nil {
		return
	}
	taken := r.stampAgain(entries)
	names := r.peekNames(dir, entries, taken)
	for i, e := range entries {
		p := path.Join(dir, e.Name(), "build.yaml")
		if strings.HasPrefix(e.Name(), ".") {
			continue
		}
		if !e.IsDir() {
			if path.Ext(e.Name()) == ".yaml" || path.Ext(e.Name()) == ".yml" {
				faults.LookAgain(fault.Pos{Source: &fault.Source{Path: path.Join(dir, e.Name())}, Line: 1, Column: 1}, say.Of("record.move-it-to", path.Join(dir, slugOf(e.Name()), "build.yaml")), say.Of("record.this-file-is-not-read-every-garment"))
			}
			continue
		}
		if !names[i].found {
			faults.LookAgain(fault.Pos{Source: &fault.Source{Path: path.Join(dir, e.Name())}, Line: 1, Column: 1}, say.Of("record.put-the-record-there-or-move-the"), say.Of("record.there-is-no-record-in-this-folder"))
			continue
		}
		r.peeked[p] = names[i].peeked
		r.addBuild(e.Name(), p, names[i].name, taken[i])
	}
}

// A peek is what was seen of a record; found where there is one.
type peek struct {
	peeked
	found bool
}

// peekNames peeks at the records of all folders, many at once.
func (r *Room) peekNames(dir string, entries []fs.DirEntry, taken []*Stamps) []peek {
	out := make([]peek, len(entries))
	atOnce(len(entries), func(i int) {
		if e := entries[i]; e.IsDir() && !strings.HasPrefix(e.Name(), ".") {
			out[i] = r.peekName(path.Join(dir, e.Name(), "build.yaml"), taken[i])
		}
	})
	return out
}

// peekName finds the record's name without reading all of it, so that pages
// can link to builds by name before those are read. A name written in some
// other way than on a line of its own is found when the build is read.
func (r *Room) peekName(p string, taken *Stamps) peek {
	file := filepath.Join(r.Dir, filepath.FromSlash(p))
	var stamp Stamp
	if taken != nil {
		stamp = taken.of(file)
	}
	if stamp == (Stamp{}) {
		stamp = StampOf(file)
	}
	if r.before != nil {
		if was, ok := r.before.peeked[p]; ok && was.stamp.Same(stamp) {
			return peek{was, true}
		}
	}
	name, found := r.readName(p)
	return peek{peeked{stamp, name}, found}
}

func (r *Room) readName(p string) (string, bool) {
	f, err := r.FS.Open(p)
	if err != nil {
		return "", !errors.Is(err, fs.ErrNotExist) // what cannot be opened is told when the build is read
	}
	defer f.Close()
	head := make([]byte, 2048)
	n, _ := f.Read(head)
	for line := range strings.Lines(string(head[:n])) {
		if strings.HasPrefix(line, "name:") {
			var one struct {
				Name string `yaml:"name"`
			}
			if yaml.Unmarshal([]byte(line), &one) == nil {
				return strings.TrimSpace(one.Name), true
			}
			return "", true
		}
	}
	return "", true
}
