package main

import (
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"

	"hembook/internal/disk"
	"hembook/internal/paper"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/sheet"
)

// largestFont is the largest file that is looked at as a font, in bytes.
const largestFont = 80 << 20

// lettering is how the sheets are set: with the font that was named, or the workroom's,
// or, where letters are lacking, with the one that lacks fewest of those where fonts
// usually lie.
func (o packOptions) lettering(room *record.Room, packet *sheet.Packet) (paper.Options, error) {
	name, says := o.font, say.Of("hembook.the-font", o.font)
	if name == "" && room.Workroom.Font.Given() {
		name = room.Workroom.Font.V
		says = say.Of("hembook.font", room.Workroom.Font.At.String(), name)
		if !filepath.IsAbs(name) {
			name = filepath.Join(room.Dir, filepath.FromSlash(name))
		}
	}
	if name != "" {
		data, err := disk.ReadFile(name)
		if err != nil {
			return paper.Options{}, misused(say.Of("hembook.cannot-be-read", says, plainError(err)))
		}
		return paper.Options{MoreFont: data}, nil
	}
	lacks := map[rune]bool{}
	for i := range packet.Sheets {
		list, err := paper.Unset(packet.Sheets[i].Document, paper.Options{})
		if err != nil {
			return paper.Options{}, err
		}
		for _, r := range list {
			lacks[r] = true
		}
	}
	return paper.Options{MoreFont: fontFor(slices.Sorted(maps.Keys(lacks)), fontFolders())}, nil
}

// fontFor is the font under some folders that lacks fewest of the letters; nil where each
// lacks all.
func fontFor(letters []rune, folders []string) []byte {
	if len(letters) == 0 {
		return nil
	}
	var best []byte
	fewest := len(letters)
	for _, file := range fontFiles(folders) {
		data, err := disk.ReadFile(file)
		if err != nil {
			continue
		}
		if n := paper.Lacks(data, letters); n < fewest {
			best, fewest = data, n
		}
		if fewest == 0 {
			break
		}
	}
	return best
}

// fontFiles are the TrueType files and collections under some folders, those first whose
// names say that they are for the writing of East Asia, or for much.
func fontFiles(folders []string) []string {
	var out []string
	for _, folder := range folders {
		_ = filepath.WalkDir(folder, func(path string, e fs.DirEntry, err error) error {
			if err != nil {
				return nil // a folder that may not be read has no font for us
			}
			if ext := strings.ToLower(filepath.Ext(path)); ext == ".ttf" || ext == ".ttc" {
				if info, err := e.Info(); err == nil && info.Mode().IsRegular() && info.Size() <= largestFont {
					out = append(out, path)
				}
			}
			return nil
		})
	}
	slices.SortStableFunc(out, func(a, b string) int { return fontRank(a) - fontRank(b) })
	return out
}

func fontRank(path string) int {
	name := strings.ToLower(filepath.Base(path))
	for i, words := range [][]string{{"mincho", "serifjp", "serif-jp", "ipam", "takaom"}, {"gothic", "sansjp", "sans-jp", "ipag", "meiryo", "takao", "cjk", "hiragino"}, {"fallback", "unicode", "droid"}} {
		if slices.ContainsFunc(words, func(w string) bool { return strings.Contains(name, w) }) {
			return i
		}
	}
	return len(name) + 9 // the rest, plain names before those of bold and narrow cuts
}

// fontFolders are where fonts usually lie, the user's own before those of the system.
func fontFolders() []string {
	home, _ := os.UserHomeDir()
	own := func(parts ...string) string {
		if home == "" {
			return ""
		}
		return filepath.Join(append([]string{home}, parts...)...)
	}
	var out []string
	switch runtime.GOOS {
	case "windows":
		out = []string{filepath.Join(os.Getenv("LOCALAPPDATA"), "Microsoft", "Windows", "Fonts"), filepath.Join(os.Getenv("WINDIR"), "Fonts")}
	case "darwin":
		out = []string{own("Library", "Fonts"), "/Library/Fonts", "/System/Library/Fonts"}
	default:
		data := os.Getenv("XDG_DATA_HOME")
		if data == "" {
			data = own(".local", "share")
		}
		out = []string{filepath.Join(data, "fonts"), own(".fonts"), "/usr/local/share/fonts", "/usr/share/fonts"}
	}
	return slices.DeleteFunc(out, func(folder string) bool { return !filepath.IsAbs(folder) })
}
