package bench

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"io/fs"
	"path"
	"strings"

	"hembook/internal/disk"
	"hembook/internal/record/amend"
)

// The errands of this room, by how their lines begin.
const (
	draftsErrand = "drafts "     // the folder in which files are written
	namedErrand  = "photograph " // the sum of a picture, then its file
	clockErrand  = "clocks"      // they are being changed
)

func photoErrand(file string, data []byte) string {
	sum := sha256.Sum256(data)
	return namedErrand + hex.EncodeToString(sum[:]) + " " + file
}

// DraftsErrand is the line of an errand during which files are written in a
// folder of the workroom.
func DraftsErrand(folder string) string { return draftsErrand + folder }

// EndErrand clears away what a program that was stopped left of one line of an
// errand: drafts, clocks that are noted already, a photograph that its record
// does not name. known is false for lines of other rooms.
func EndErrand(room, line string) (known bool, err error) {
	if line == clockErrand {
		return true, ClocksOf(room).tidy()
	}
	if folder, ok := strings.CutPrefix(line, draftsErrand); ok {
		root, err := disk.OpenRoot(room)
		if err != nil {
			return true, err
		}
		defer root.Close()
		root.Sweep(folder)
		return true, nil
	}
	if rest, ok := strings.CutPrefix(line, namedErrand); ok {
		sum, file, _ := strings.Cut(rest, " ")
		return true, dropUnnamed(room, file, sum)
	}
	return false, nil
}

// dropUnnamed takes away a photograph that no entry names. It must be the very
// picture that was kept: the maker may have put another under its name since.
// It looks while nobody else can write the record.
func dropUnnamed(room, file, sum string) error {
	root, err := disk.OpenRoot(room)
	if err != nil {
		return err
	}
	defer root.Close()
	data, err := root.ReadFile(file)
	if has := sha256.Sum256(data); err != nil || hex.EncodeToString(has[:]) != sum {
		return gone(err)
	}
	folder := path.Dir(path.Dir(file))
	rec := amend.File{Folder: room, Path: path.Join(folder, "build.yaml")}
	return gone(rec.Change(func(text []byte) ([]byte, error) {
		named, err := namesIn(root, folder, path.Base(file))
		if err != nil || named {
			return text, err
		}
		return text, root.Remove(file)
	}))
}

// namesIn reports whether a file of a build, or a version of its record that is
// kept beside it, has a name in its text.
func namesIn(root *disk.Root, folder, name string) (bool, error) {
	list, err := fs.ReadDir(root.FS(), folder)
	if err != nil {
		return false, err
	}
	for _, e := range list {
		if !e.Type().IsRegular() || !strings.Contains(e.Name(), ".yaml") && !strings.HasSuffix(e.Name(), ".md") {
			continue
		}
		if text, err := root.ReadFile(path.Join(folder, e.Name())); err != nil || bytes.Contains(text, []byte(name)) {
			return true, err
		}
	}
	return false, nil
}

// gone takes it that what is not there needs no clearing away.
func gone(err error) error {
	if errors.Is(err, fs.ErrNotExist) {
		return nil
	}
	return err
}

// tidy ends what clocks were stopped in: drafts are swept, and a clock whose
// time was being noted is taken away where the record has it by now, and goes
// on where it has not. Whoever notes holds the lock, so nobody does just then.
func (s *Clocks) tidy() error {
	err := s.in(func(*drawer) error { return nil })
	if err != nil {
		return gone(err) // no clock was ever begun
	}
	return s.change(func(d *drawer) error {
		d.root.Sweep(".")
		names, err := d.names()
		for _, name := range names {
			c, bad := d.read(name)
			if bad != nil || c.noting == nil {
				continue
			}
			rec := amend.File{Folder: s.room, Path: "content/builds/" + c.Build + "/build.yaml"}
			n, bad := c.noting.in(rec)
			if bad != nil {
				continue // it cannot be told yet
			}
			if n > c.had {
				err = errors.Join(err, d.remove(name))
				continue
			}
			c.noting, c.had = nil, 0
			err = errors.Join(err, d.write(&c))
		}
		return err
	})
}

// OfPhotograph reports whether a line of an errand is about a photograph.
func OfPhotograph(line string) bool { return strings.HasPrefix(line, namedErrand) }
