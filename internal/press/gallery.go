package press

import (
	"errors"
	"io/fs"
	"path/filepath"
	"sync"
	"sync/atomic"

	"golang.org/x/sync/semaphore"

	"hembook/internal/fault"
	"hembook/internal/notebook"
	"hembook/internal/picture"
	"hembook/internal/record"
	"hembook/internal/say"
)

// A gallery holds the pictures of a notebook: each is scaled once, whatever
// page asks for it first, and kept for the next press under .hembook/.
type gallery struct {
	room *record.Room
	out  *target

	mu     sync.Mutex
	before map[string]*hanging // of the last press
	hung   map[string]*hanging // by path in the workroom
	names  map[notebook.Address]bool
	scaler *semaphore.Weighted // bytes that pictures being decoded may take together

	made atomic.Int64 // pictures that were not kept
	tell func()       // that one more is made

	ahead sync.WaitGroup // of pictures that are hung before a page comes to them
	hands chan struct{}  // as many of them at once
	shut  atomic.Bool
}

// A hanging is a picture that is asked for, perhaps by several at once.
type hanging struct {
	once  sync.Once
	stamp record.Stamp
	set   []shot
	why   error // why it cannot be shown
	err   error // writing failed
}

// A shot is a picture in one width.
type shot struct {
	address    notebook.Address
	wide, high int
}

func newGallery(room *record.Room, out *target, before map[string]*hanging, hands int, tell func()) *gallery {
	return &gallery{room: room, out: out, before: before, hung: map[string]*hanging{}, names: map[notebook.Address]bool{},
		scaler: semaphore.NewWeighted(picture.MostMemory), hands: make(chan struct{}, hands), tell: tell}
}

func (g *gallery) count() int {
	g.mu.Lock()
	defer g.mu.Unlock()
	return len(g.names)
}

// show returns a picture in its widths, smallest first. A picture that cannot
// be shown is a fault of the record that names it.
func (g *gallery) show(p notebook.Picture, faults *fault.Faults) (*hanging, error) {
	h := g.hangOnce(p.Path)
	if h.why != nil {
		why, hint := fault.Words(h.why)
		faults.Wrong(p.At, hint, say.Of("press.the-picture-cannot-be-shown", p.Path, why))
	}
	return h, h.err
}

// hangOnce hangs a picture unless it hangs already, or waits until it does.
func (g *gallery) hangOnce(path string) *hanging {
	g.mu.Lock()
	h := g.hung[path]
	if h == nil {
		h = &hanging{}
		g.hung[path] = h
	}
	g.mu.Unlock()
	h.once.Do(func() { g.hang(h, path) })
	return h
}

// hangAhead begins to hang pictures that pages will come to one after the other, so
// that those of one page alone keep all processors busy.
func (g *gallery) hangAhead(paths []string) {
	for _, path := range paths {
		g.ahead.Go(func() {
			g.hands <- struct{}{}
			defer func() { <-g.hands }()
			if !g.shut.Load() {
				g.hangOnce(path)
			}
		})
	}
}

// close ends what is hung ahead: what no page has come to is left alone.
func (g *gallery) close() {
	g.shut.Store(true)
	g.ahead.Wait()
}

// stamp is how the file of a picture is now.
func (g *gallery) stamp(path string) record.Stamp {
	return record.StampOf(filepath.Join(g.room.Dir, filepath.FromSlash(path)))
}

// again hangs a picture that is as it was in the last press.
func (g *gallery) again(h *hanging, path string) bool {
	was := g.before[path]
	if was == nil || was.why != nil || was.err != nil || !was.stamp.Same(h.stamp) {
		return false
	}
	h.stamp, h.set = was.stamp, was.set
	h.err = g.carry(h.set)
	return true
}

// carry takes over the files of a picture.
func (g *gallery) carry(set []shot) error {
	for _, s := range set {
		if g.first(s.address) {
			if err := g.out.carry(s.address); err != nil {
				return err
			}
		}
	}
	return nil
}

// keep remembers a picture that no page asked for anew.
func (g *gallery) keep(path string, h *hanging) {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.hung[path] == nil {
		g.hung[path] = h
	}
}

// hang reads, scales and writes a picture.
func (g *gallery) hang(h *hanging, path string) {
	h.stamp = g.stamp(path)
	if g.again(h, path) {
		return
	}
	data, err := g.read(path)
	if err != nil {
		h.why = err
		return
	}
	prints, err := g.prints(data)
	if err != nil {
		h.why = err
		return
	}
	for _, p := range prints {
		a := notebook.Address("pictures/" + hashOf(p.data) + p.ext)
		if g.first(a) {
			if h.err = g.out.write(a, p.data); h.err != nil {
				return
			}
		}
		h.set = append(h.set, shot{a, p.wide, p.high})
	}
}

// first reports whether the address is new: the same picture may lie in the
// workroom twice.
func (g *gallery) first(a notebook.Address) bool {
	g.mu.Lock()
	defer g.mu.Unlock()
	if g.names[a] {
		return false
	}
	g.names[a] = true
	return true
}

func (g *gallery) read(path string) ([]byte, error) {
	f, err := g.room.FS.Open(path)
	if err != nil {
		return nil, plainWhy(err)
	}
	defer f.Close()
	info, err := f.Stat()
	switch {
	case err != nil:
		return nil, plainWhy(err)
	case !info.Mode().IsRegular():
		return nil, errors.New(say.Of("press.it-is-not-a-file"))
	}
	if err := picture.CheckBytes(info.Size()); err != nil {
		return nil, err
	}
	return picture.ReadBytes(f)
}

func plainWhy(err error) error {
	if e := Reason(err); e != nil && e != fs.ErrNotExist {
		return e
	}
	return errors.New(say.Of("press.there-is-no-such-file"))
}
