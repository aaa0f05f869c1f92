package press

import (
	"bytes"
	"fmt"
	"hash/crc32"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"hembook/internal/disk"
	"hembook/internal/notebook"
)

// markerName is the file that tells a pressed folder from any other, and lists
// what in it is the program's.
const markerName = ".hembook-pressed"

// markerText begins the marker of every notebook, with a list or without.
const markerText = "This folder was made by hembook press and is replaced as a whole the next time.\n"

const (
	listText = "The files listed here go with it; every other file is yours, and stays. Of each: a sum (CRC-32C), its bytes, its name.\n\n"
	listEnd  = "end of the list\n"
	// unfinished is the marker of a folder beside the target until its list is known
	unfinished = markerText + "It is not whole yet.\n"
)

// putMarker gives a folder its marker, whole or not at all. The one in old is
// taken over where that says the same.
func putMarker(dir, old string, text []byte) error {
	temp, at := filepath.Join(dir, markerName+".new"), filepath.Join(old, markerName)
	_ = os.Remove(temp)
	err := fs.ErrNotExist
	if old != "" && holds(at, text) {
		err = disk.Link(at, temp)
	}
	if err != nil {
		err = disk.WriteFile(temp, text, 0o644)
	}
	if err == nil {
		err = disk.Rename(temp, filepath.Join(dir, markerName))
	}
	if err != nil {
		return fmt.Errorf("%s cannot be written: %w", markerName, Reason(err))
	}
	return nil
}

// isUnfinished reports whether a folder was still being written: it has that
// marker, or nothing but a part of it.
func isUnfinished(dir string) bool {
	text, _ := os.ReadFile(filepath.Join(dir, markerName))
	if string(text) == unfinished {
		return true
	}
	entries, err := os.ReadDir(dir)
	return err == nil && len(entries) == 1 && entries[0].Name() == markerName+".new"
}

// A seal tells whether a file is still as it was written. It finds a hand's
// changes, not an adversary's.
type seal struct {
	sum  uint32
	size int64
}

var castagnoli = crc32.MakeTable(crc32.Castagnoli)

func markOf(data []byte) seal { return seal{crc32.Checksum(data, castagnoli), int64(len(data))} }

// is reports whether a file's contents are those of the mark. Line ends do not
// count: programs that keep versions of files change them.
func (m seal) is(data []byte) bool {
	return markOf(data) == m || markOf(bytes.ReplaceAll(data, []byte("\r\n"), []byte("\n"))) == m
}

// A list says of every file of a notebook what it was.
type list map[notebook.Address]seal

// names are those of the files, sorted.
func (l list) names() []notebook.Address { return slices.Sorted(maps.Keys(l)) }

// folders are those that its files lie in, the deepest last, without the
// notebook's own.
func (l list) folders() map[string]bool {
	out := map[string]bool{}
	for name := range l {
		for dir := filepath.Dir(filepath.FromSlash(string(name))); dir != "." && !out[dir]; dir = filepath.Dir(dir) {
			out[dir] = true
		}
	}
	return out
}

// markerWith is the marker of a notebook.
func markerWith(l list, names []notebook.Address) []byte {
	b := make([]byte, 0, 256+len(names)*48)
	b = append(append(b, markerText...), listText...)
	for _, a := range names {
		m := l[a]
		b = fmt.Appendf(b, "%08x %d %s\n", m.sum, m.size, a)
	}
	return append(b, listEnd...)
}

// readList reads the list of a pressed folder. listed is false where it has
// none, or one that is not whole.
func readList(dir string) (l list, listed bool) {
	text, err := os.ReadFile(filepath.Join(dir, markerName))
	if err != nil {
		return nil, false
	}
	body, found := strings.CutPrefix(strings.ReplaceAll(string(text), "\r\n", "\n"), markerText+listText)
	body, ended := strings.CutSuffix(body, listEnd)
	if !found || !ended {
		return nil, false
	}
	l = make(list, strings.Count(body, "\n")+1)
	for line := range strings.Lines(body) {
		part := strings.SplitN(strings.TrimSuffix(line, "\n"), " ", 3)
		if len(part) != 3 || !isFile(part[2]) {
			return nil, false
		}
		sum, err := strconv.ParseUint(part[0], 16, 32)
		size, err2 := strconv.ParseInt(part[1], 10, 64)
		if err != nil || err2 != nil || size < 0 {
			return nil, false
		}
		l[notebook.Address(part[2])] = seal{uint32(sum), size}
	}
	return l, true
}

// isFile reports whether a name in a list may be that of a file of the notebook:
// one below its folder, in the one way that it is written.
func isFile(name string) bool {
	return name != "." && fs.ValidPath(name) && filepath.IsLocal(filepath.FromSlash(name))
}
