package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"hembook/internal/paper"
	"hembook/internal/sheet"
)

// packMarker tells a packet's folder from any other.
const packMarker = ".hembook-packet"

const packMarkerText = "This folder was written by hembook pack and is replaced as a whole when the build is packed again. It holds what is private.\n"

// A packFile is one file of a packet.
type packFile struct {
	name string
	data []byte
}

// packFiles sets every sheet by itself and all together.
func packFiles(packet *sheet.Packet, opt paper.Options) ([]packFile, error) {
	var out []packFile
	add := func(name string, b paper.Book) error {
		html, err := paper.HTML(b)
		if err != nil {
			return err
		}
		pdf, err := paper.PDF(b, opt)
		if err != nil {
			return err
		}
		out = append(out, packFile{name + ".html", html}, packFile{name + ".pdf", pdf})
		return nil
	}
	if err := add("packet", packet.Book()); err != nil {
		return nil, err
	}
	for _, s := range packet.Sheets {
		if err := add(s.Name, paper.Alone(s.Document)); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// writeFolder writes files into a folder beside its place, and then puts it
// there: all at once or not at all. It refuses a folder that holds anything
// but an earlier packet.
func writeFolder(to, room string, files []packFile) error {
	to, err := filepath.Abs(to)
	if err != nil {
		return err
	}
	if err := clearForPacket(to, room); err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
		return fmt.Errorf("%s cannot be made: %w", filepath.Dir(to), reasonOf(err))
	}
	stage, err := os.MkdirTemp(filepath.Dir(to), "."+filepath.Base(to)+".new-")
	if err != nil {
		return fmt.Errorf("a folder beside %s cannot be made: %w", to, reasonOf(err))
	}
	defer os.RemoveAll(stage)
	for _, f := range append(files, packFile{packMarker, []byte(packMarkerText)}) {
		if err := os.WriteFile(filepath.Join(stage, f.name), f.data, 0o600); err != nil {
			return fmt.Errorf("%s cannot be written: %w", f.name, reasonOf(err))
		}
	}
	return swapFolder(stage, to)
}

// swapFolder puts the new folder in the place of the old one, which is brought
// back where that fails.
func swapFolder(stage, to string) error {
	old := stage + ".old"
	had := false
	switch err := os.Rename(to, old); {
	case err == nil:
		had = true
	case !errors.Is(err, fs.ErrNotExist):
		return fmt.Errorf("%s cannot be replaced: %w", to, reasonOf(err))
	}
	if err := os.Rename(stage, to); err != nil {
		if had {
			err = errors.Join(err, os.Rename(old, to))
		}
		return fmt.Errorf("%s cannot be replaced: %w", to, reasonOf(err))
	}
	if had {
		return os.RemoveAll(old)
	}
	return nil
}

// clearForPacket refuses a folder that is not ours to replace.
func clearForPacket(to, room string) error {
	room, err := filepath.Abs(room)
	if err != nil {
		return err
	}
	inside := func(path, folder string) bool {
		rel, err := filepath.Rel(folder, path)
		return err == nil && rel != ".." && !strings.HasPrefix(rel, ".."+string(filepath.Separator))
	}
	if inside(room, to) {
		return useErrorf("%s holds the workroom: pack into a folder of its own", to)
	}
	for _, own := range []string{"content", "themes", "pressed", ".hembook", ".git"} {
		if inside(to, filepath.Join(room, own)) {
			return useErrorf("%s lies in the workroom's %s: pack into a folder of its own", to, own)
		}
	}
	entries, err := os.ReadDir(to)
	switch {
	case errors.Is(err, fs.ErrNotExist) || err == nil && len(entries) == 0:
		return nil
	case err != nil:
		return fmt.Errorf("%s cannot be packed into: %w", to, reasonOf(err))
	}
	if info, err := os.Lstat(filepath.Join(to, packMarker)); err != nil || !info.Mode().IsRegular() {
		return useErrorf("%s holds files that no packet put there: pack into another folder", to)
	}
	return nil
}

// reasonOf is an error without the path it names a second time.
func reasonOf(err error) error {
	var path *fs.PathError
	if errors.As(err, &path) {
		return path.Err
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		return link.Err
	}
	return err
}
