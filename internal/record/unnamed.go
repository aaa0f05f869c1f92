package record

import (
	"io/fs"
	"net/url"
	"path"
	"slices"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/say"
)

// photoEnds are the ends of names of photographs that may be shown.
var photoEnds = []string{".jpg", ".jpeg", ".png", ".webp"}

// UnnamedPhotos warns of the photographs in a build's folder photos that
// neither its record nor its notes name: they are shown nowhere. Of a record
// that cannot be read nothing is said, as it may name them.
func (r *Room) UnnamedPhotos(b *Build) []fault.Fault {
	folder := path.Join(b.Folder, "photos")
	list, err := fs.ReadDir(r.FS, folder)
	if err != nil || len(list) == 0 {
		return nil
	}
	var faults fault.Faults
	text, err := fs.ReadFile(r.FS, b.At.File())
	if _, ok := parseYAML(b.At.Source, text, 0, &fault.Faults{}); err != nil || !ok {
		return nil
	}
	all := string(text)
	if b.Notes != nil {
		all += "\n" + string(b.Notes.Text)
	}
	named := map[string]bool{}
	for _, p := range b.allPhotos() {
		named[path.Clean(p.File.V)] = true
	}
	for _, e := range list {
		name, rel := e.Name(), path.Join("photos", e.Name())
		if !e.Type().IsRegular() || strings.HasPrefix(name, ".") || !slices.Contains(photoEnds, strings.ToLower(path.Ext(name))) ||
			named[rel] || strings.Contains(all, rel) || strings.Contains(all, "photos/"+url.PathEscape(name)) {
			continue
		}
		faults.LookAgain(fault.Pos{Source: &fault.Source{Path: path.Join(b.Folder, rel)}, Line: 1, Column: 1}, say.Of("record.add-photo-to-an-entry-of-the", rel),
			say.Of("record.nothing-shows-this-photograph-neither"))
	}
	return faults.Sorted()
}
