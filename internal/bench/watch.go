package bench

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"

	"github.com/fsnotify/fsnotify"

	"hembook/internal/fault"
	"hembook/internal/say"
)

// A watcher tells when files of a workroom were saved. The system watches
// single folders, not trees, so folders are added as they appear. Only folders
// are watched, never files: editors save by putting a new file in the old
// one's place, of which a watch on the old one would hear nothing more.
type watcher struct {
	*fsnotify.Watcher
	room    string
	watched []string // absolute
	except  string   // the folder pressed to
}

func newWatcher(room string, watched []string, except string) (*watcher, error) {
	under, err := fsnotify.NewWatcher()
	if err != nil {
		return nil, fault.Wrapping(err, say.Of("bench.this-system-watches-no-folders", err))
	}
	w := &watcher{Watcher: under}
	if w.room, err = filepath.Abs(room); err == nil {
		w.except, err = filepath.Abs(except)
	}
	for _, name := range watched {
		w.watched = append(w.watched, filepath.Join(w.room, name))
	}
	if err == nil {
		err = w.Add(w.room) // to hear of a watched folder that is yet to be made
	}
	if err == nil {
		err = w.addAll()
	}
	if err != nil {
		under.Close()
		return nil, fault.Wrapping(err, say.Of("bench.the-workrooms-folders-cannot-be-watched", err))
	}
	return w, nil
}

// addAll watches every folder there is, and no others.
func (w *watcher) addAll() error {
	there := map[string]bool{w.room: true}
	for _, top := range w.watched {
		filepath.WalkDir(top, func(path string, d fs.DirEntry, err error) error {
			switch {
			case err != nil:
				return nil // gone again, or not ours to read
			case !d.IsDir():
				return nil
			case path != top && !w.matters(path):
				return fs.SkipDir
			}
			there[path] = true
			return nil
		})
	}
	for _, path := range w.WatchList() {
		if !there[path] {
			w.Remove(path) // a folder that was renamed is watched under its old name else
		}
	}
	var first error
	for path := range there {
		if err := w.Add(path); err != nil && !errors.Is(err, fs.ErrNotExist) && first == nil {
			first = err
		}
	}
	return first
}

// matters reports whether a change of the path may change a page. Hidden files
// are not read: among them are those that hembook and editors write to before
// they put them in a record's place, locks, and what is kept under .hembook.
func (w *watcher) matters(path string) bool {
	if path == w.except || strings.HasPrefix(path, w.except+string(filepath.Separator)) {
		return false
	}
	for _, top := range w.watched {
		if path == top {
			return true
		}
		rest, ok := strings.CutPrefix(path, top+string(filepath.Separator))
		if !ok {
			continue
		}
		parts := strings.Split(rest, string(filepath.Separator))
		for _, part := range parts {
			if strings.HasPrefix(part, ".") {
				return false
			}
		}
		return !byTheWay(parts[len(parts)-1])
	}
	return false
}

// byTheWay recognises what editors leave beside the files they save.
func byTheWay(name string) bool {
	return strings.HasSuffix(name, "~") || strings.HasPrefix(name, "#") && strings.HasSuffix(name, "#") ||
		strings.HasPrefix(name, "~$") || strings.HasSuffix(name, ".swp") || strings.HasSuffix(name, ".tmp") || name == "4913"
}

const (
	usualGather = 8 * time.Millisecond // an editor's save is several events
	underWay    = 3                    // times as long, where the last event left a file gone or empty
	mostGather  = 25                   // times as long, where events do not cease
)

// run sends to stirred at the first event and to saved once events have ceased
// for a while. It ends with the context and closes the watch.
func (w *watcher) run(ctx context.Context, gather time.Duration, stirred, saved chan<- struct{}) {
	defer w.Close()
	if gather <= 0 {
		gather = usualGather
	}
	quiet, late := stopped(), stopped()
	defer quiet.Stop()
	defer late.Stop()
	waiting, folders := false, false
	for {
		select {
		case <-ctx.Done():
			return
		case ev, ok := <-w.Events:
			if !ok {
				return
			}
			if !w.counts(ev) {
				continue
			}
			folders = folders || w.isFolder(ev)
			if !waiting {
				late.Reset(mostGather * gather)
				send(stirred)
			}
			waiting = true
			if halfSaved(ev) {
				quiet.Reset(underWay * gather)
			} else {
				quiet.Reset(gather)
			}
			continue
		case _, ok := <-w.Errors: // too many events at once: some are lost
			if !ok {
				return
			}
			folders = true
		case <-quiet.C:
		case <-late.C:
		}
		quiet.Stop()
		late.Stop()
		if folders {
			_ = w.addAll()
		}
		waiting, folders = false, false
		send(saved)
	}
}

// send tells once, where it was not told already.
func send(to chan<- struct{}) {
	select {
	case to <- struct{}{}:
	default:
	}
}

func stopped() *time.Timer {
	t := time.NewTimer(time.Hour)
	t.Stop()
	return t
}

// counts reports whether an event is of a file that matters, and more than a
// look at it or a change of who may read it.
func (w *watcher) counts(ev fsnotify.Event) bool {
	return ev.Op&^fsnotify.Chmod != 0 && w.matters(ev.Name)
}

// halfSaved reports whether an event shows the beginning of a save rather than
// its end: editors empty a file or move it away before they write it anew. It
// is worth a longer wait, because such a workroom looks as if it had errors.
func halfSaved(ev fsnotify.Event) bool {
	info, err := os.Lstat(ev.Name)
	return err != nil || info.Mode().IsRegular() && info.Size() == 0
}

// isFolder reports whether folders may have come or gone.
func (w *watcher) isFolder(ev fsnotify.Event) bool {
	if ev.Op&(fsnotify.Remove|fsnotify.Rename) != 0 {
		return filepath.Ext(ev.Name) == "" // it is gone: its name is all there is to go by
	}
	return ev.Op&fsnotify.Create != 0 && isDir(ev.Name)
}

func isDir(path string) bool {
	info, err := os.Lstat(path)
	return err == nil && info.IsDir()
}
