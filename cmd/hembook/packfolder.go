package main

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"hembook/internal/document"
	"hembook/internal/fault"
	"hembook/internal/paper"
	"hembook/internal/press"
	"hembook/internal/say"
	"hembook/internal/sheet"
)

// packMarker tells a packet's folder from any other.
const packMarker = ".hembook-packet"

func packMarkerText() string { return say.Of("hembook.pack-marker") + "\n" }

// A packFile is one file of a packet.
type packFile struct {
	name  string
	data  []byte
	first bool // a bundle, or a sheet that has none
}

// packFiles sets every bundle, and every sheet by itself.
func packFiles(packet *sheet.Packet, opt paper.Options) ([]packFile, error) {
	var out []packFile
	add := func(name string, first bool, b document.Book) error {
		html, err := document.OneFile(b)
		if err != nil {
			return err
		}
		out = append(out, packFile{name + ".html", html, first})
		if slices.ContainsFunc(b.Documents, func(d document.Document) bool { return d.NoPDF }) {
			return nil
		}
		pdf, err := paper.PDF(b, opt)
		if err != nil {
			return err
		}
		out = append(out, packFile{name + ".pdf", pdf, first})
		return nil
	}
	names, books := packet.Bundled()
	for i, b := range books {
		if err := add(string(names[i]), true, b); err != nil {
			return nil, err
		}
	}
	for _, s := range packet.Sheets {
		if err := add(s.Name, !slices.Contains(names, s.Bundle), document.Alone(s.Document)); err != nil {
			return nil, err
		}
	}
	return out, nil
}

// writeFolder writes files into a folder beside its place, and then puts it
// there: all at once or not at all. It refuses a folder that holds anything
// but an earlier packet.
func writeFolder(to, room string, files []packFile) error {
	to, err := packTo(to, room)
	if err != nil {
		return err
	}
	if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
		return fault.Wrapping(press.Reason(err), say.Of("hembook.cannot-be-made", filepath.Dir(to), press.Reason(err)))
	}
	stage, err := os.MkdirTemp(filepath.Dir(to), stageName(to)+"*")
	if err != nil {
		return fault.Wrapping(press.Reason(err), say.Of("hembook.a-folder-beside-cannot-be-made", to, press.Reason(err)))
	}
	defer os.RemoveAll(stage) // the new folder until it is in its place, the old one then
	for _, f := range append([]packFile{{name: packMarker, data: []byte(packMarkerText())}}, files...) {
		if err := os.MkdirAll(filepath.Join(stage, filepath.Dir(f.name)), 0o700); err != nil {
			return fault.Wrapping(press.Reason(err), say.Of("hembook.cannot-be-written", f.name, press.Reason(err)))
		}
		if err := os.WriteFile(filepath.Join(stage, f.name), f.data, 0o600); err != nil {
			return fault.Wrapping(press.Reason(err), say.Of("hembook.cannot-be-written", f.name, press.Reason(err)))
		}
	}
	_, err = os.Lstat(to)
	if err := press.Exchange(stage, to, err == nil); err != nil {
		return fault.Wrapping(press.Reason(err), say.Of("hembook.cannot-be-replaced", to, press.Reason(err)))
	}
	sweepPackets(to)
	return nil
}

// packTo is where a packet goes: an absolute path, links followed, for the
// folder is exchanged and not a link to it. What is not ours to replace, or
// cannot be replaced, is refused.
func packTo(to, room string) (string, error) {
	to, err := filepath.Abs(to)
	if err != nil {
		return "", err
	}
	if to, err = press.Replaceable(to, "packet"); err != nil {
		return "", err
	}
	return to, clearForPacket(to, room)
}

// stageName begins the name of a folder that a packet is written to before it
// is put in its place.
func stageName(to string) string { return "." + filepath.Base(to) + ".new-" }

// packTakes is longer than any packet takes to be written: a folder that is
// older was left by a run that was cut off.
const packTakes = time.Minute

// sweepPackets removes what runs that were cut off left beside a packet: it
// holds what is private. It is called when the new packet is in its place, so
// that an old one set aside is not lost before.
func sweepPackets(to string) {
	entries, _ := os.ReadDir(filepath.Dir(to))
	for _, e := range entries {
		info, err := e.Info()
		if err != nil || !e.IsDir() || !strings.HasPrefix(e.Name(), stageName(to)) || time.Since(info.ModTime()) < packTakes {
			continue
		}
		left := filepath.Join(filepath.Dir(to), e.Name())
		if marker, err := os.Lstat(filepath.Join(left, packMarker)); err == nil && marker.Mode().IsRegular() {
			_ = os.RemoveAll(left)
		}
	}
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
	rooms := []string{room}
	if real, err := filepath.EvalSymlinks(room); err == nil {
		rooms = append(rooms, real)
	}
	for _, room := range rooms {
		if inside(room, to) {
			return misused(say.Of("hembook.holds-the-workroom-pack-into-a-folder", to))
		}
		for _, own := range []string{"content", "themes", "pressed", ".hembook", ".git"} {
			if inside(to, filepath.Join(room, own)) {
				return misused(say.Of("hembook.lies-in-the-workrooms-pack-into-a", to, own))
			}
		}
	}
	entries, err := os.ReadDir(to)
	switch {
	case errors.Is(err, fs.ErrNotExist) || err == nil && len(entries) == 0:
		return nil
	case err != nil:
		return fault.Wrapping(press.Reason(err), say.Of("hembook.cannot-be-packed-into", to, press.Reason(err)))
	}
	if info, err := os.Lstat(filepath.Join(to, packMarker)); err != nil || !info.Mode().IsRegular() {
		return misused(say.Of("hembook.holds-files-that-no-packet-put-there", to))
	}
	return nil
}
