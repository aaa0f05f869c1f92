package main

import (
	"errors"
	"io/fs"
	"path"
	"path/filepath"

	"hembook/internal/meant"
	"hembook/internal/press"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/themes"
)

// plainweave is the look that the program brings.
const plainweave = "plainweave"

// roomTheme is the look of a workroom's notebook: plainweave with what the
// workroom lays over it, or a theme of the workroom's own. One of its own that
// has no frame.html is plainweave with other files laid over it.
func roomTheme(room *record.Room) (*press.Theme, error) {
	name := room.Workroom.Theme.Or(plainweave)
	folder := path.Join("themes", name)
	if !fs.ValidPath(folder) || path.Dir(folder) != "themes" {
		return nil, errors.New(say.Of("hembook.a-theme-is-a-folder-in-themes", room.Workroom.Theme.At, say.Quoted(name)))
	}
	own, err := fs.Sub(room.FS, folder)
	if err != nil {
		return nil, err
	}
	if name == plainweave {
		return press.LoadTheme(themes.Plainweave(), own)
	}
	if info, err := fs.Stat(room.FS, folder); err != nil || !info.IsDir() {
		return nil, errors.New(say.Of("hembook.there-is-no-theme", room.Workroom.Theme.At, say.Quoted(name), otherThemes(room, name)))
	}
	if _, err := fs.Stat(own, "frame.html"); errors.Is(err, fs.ErrNotExist) {
		return press.LoadTheme(themes.Plainweave(), own)
	}
	return press.LoadTheme(own, nil)
}

// A keptTheme is the theme last read. It is read again where the workroom names
// another, or any file of its folder is not as it was: reading it takes longer
// than the pages of a build.
type keptTheme struct {
	theme  *press.Theme
	name   string
	stamps *record.Stamps
}

// of is the theme of a workroom.
func (k *keptTheme) of(room *record.Room) (*press.Theme, error) {
	name := room.Workroom.Theme.Or(plainweave)
	stamps := record.StampsOf(filepath.Join(room.Dir, "themes", filepath.FromSlash(name)))
	if k.theme != nil && k.name == name && k.stamps.Same(stamps) {
		return k.theme, nil
	}
	theme, err := roomTheme(room)
	*k = keptTheme{theme, name, stamps}
	return theme, err
}

// otherThemes says which theme was probably meant.
func otherThemes(room *record.Room, name string) string {
	names := []string{plainweave}
	entries, _ := fs.ReadDir(room.FS, "themes")
	for _, e := range entries {
		if e.IsDir() && e.Name() != plainweave {
			names = append(names, e.Name())
		}
	}
	return meant.Among(name, names, say.Of("hembook.there-are"))
}
