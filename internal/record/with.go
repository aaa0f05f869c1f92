package record

import (
	"bytes"
	"io/fs"
	"path"
	"time"
)

// With is the workroom with another text in one of the files of its garments, which are
// read when they are asked for; it is closed with the room itself.
func (r *Room) With(file string, text []byte) *Room {
	room := *r
	room.FS = instead{r.FS, file, text}
	return &room
}

// Reread is the workroom as it would be with another text in one of its files, all of it
// read anew. It is to be closed.
func (r *Room) Reread(file string, text []byte) (*Room, error) {
	root, err := openRoot(r.Dir)
	if err != nil {
		return nil, err
	}
	room := unread(r.Dir, root)
	room.FS = instead{room.FS, file, text}
	room.read("")
	return room, nil
}

// instead is a folder in which one file holds another text.
type instead struct {
	fs.FS
	name string
	text []byte
}

func (i instead) Open(name string) (fs.File, error) {
	if name != i.name {
		return i.FS.Open(name)
	}
	return &insteadFile{bytes.NewReader(i.text), i}, nil
}

// insteadFile is that file, open.
type insteadFile struct {
	*bytes.Reader
	of instead
}

func (f *insteadFile) Stat() (fs.FileInfo, error) { return f, nil }
func (f *insteadFile) Close() error               { return nil }
func (f *insteadFile) Name() string               { return path.Base(f.of.name) }
func (f *insteadFile) Mode() fs.FileMode          { return 0o444 }
func (f *insteadFile) ModTime() time.Time         { return time.Time{} }
func (f *insteadFile) IsDir() bool                { return false }
func (f *insteadFile) Sys() any                   { return nil }
func (f *insteadFile) Size() int64                { return int64(len(f.of.text)) }
