package bench

import (
	"bytes"
	"errors"
	"image"
	"image/jpeg"
	"image/png"
	"io"
	"io/fs"
	"path"
	"strconv"
	"strings"

	"github.com/gosimple/slug"

	"hembook/internal/disk"
	"hembook/internal/fault"
	"hembook/internal/picture"
	"hembook/internal/say"
)

const (
	// MostPhoto is the largest picture file that is read, in bytes.
	MostPhoto = picture.MostBytes

	photoQuality = 92 // of JPEG: a copy that is kept loses little; own choice, no source
)

// A Photo is a picture that may be kept: upright, and nothing in it but what
// can be seen.
type Photo struct {
	Data       []byte
	Ext        string // ".jpg" or ".png"
	Wide, High int
}

// ReadPhoto reads a picture, turns it upright and encodes it anew, by which
// place, date, camera and owner are left out. What is beyond the limits of
// package picture is refused before it can do harm.
func ReadPhoto(r io.Reader) (Photo, error) {
	data, err := picture.ReadBytes(r)
	if err != nil {
		return Photo{}, err
	}
	img, head, err := picture.Read(data)
	if err != nil {
		return Photo{}, err
	}
	return developed(img, head.Lossless)
}

// Image is the picture itself.
func (p Photo) Image() (image.Image, error) {
	img, _, err := picture.Read(p.Data)
	return img, err
}

// developed encodes a picture; drawings that came without loss stay so.
func developed(img image.Image, lossless bool) (Photo, error) {
	var b bounded
	p := Photo{Wide: img.Bounds().Dx(), High: img.Bounds().Dy(), Ext: ".jpg"}
	var err error
	if lossless {
		p.Ext = ".png"
		err = png.Encode(&b, img)
	} else {
		err = jpeg.Encode(&b, img, &jpeg.Options{Quality: photoQuality})
	}
	p.Data = b.data
	return p, err
}

// A bounded buffer takes no more than a picture file may have.
type bounded struct{ data []byte }

func (b *bounded) Write(p []byte) (int, error) {
	if len(b.data)+len(p) > picture.MostBytes {
		return 0, fault.Refusing(say.Of("bench.save-it-smaller-or-as-an-ordinary"), say.Of("bench.it-is-larger-than-64-mb-once"))
	}
	b.data = append(b.data, p...)
	return len(p), nil
}

// A KeptPhoto is a picture that lies beside a record which does not name it
// yet. Where the program is stopped before the record does, a later one takes
// the picture away: see [EndErrand].
type KeptPhoto struct {
	Name   string // from the record's folder
	errand *disk.Errand
}

// Settled says that the record names the picture now, or that it is gone again.
// It is safe on nil.
func (k *KeptPhoto) Settled() {
	if k != nil {
		k.errand.End()
		k.errand = nil
	}
}

// Keep puts the picture into the folder photos beside a record, under a name
// made from its date and words, and never over another file. folder is the
// record's, from the workroom's.
func (p Photo) Keep(room, folder, day, words string) (*KeptPhoto, error) {
	return p.KeepAs(room, folder, day, words, "", func(string) error { return nil })
}

// KeepAs is Keep for a caller that may be cut off in between and begin again.
// claim is told each name just before it is taken, and may refuse with an
// error; had is the name claimed the last time, if any: where the same picture
// stands under it, it is kept already.
func (p Photo) KeepAs(room, folder, day, words, had string, claim func(name string) error) (*KeptPhoto, error) {
	root, err := disk.OpenRoot(room)
	if err != nil {
		return nil, err
	}
	defer root.Close()
	if had != "" {
		if was, err := root.ReadFile(path.Join(folder, had)); err == nil && bytes.Equal(was, p.Data) {
			return &KeptPhoto{Name: had}, nil
		}
	}
	dir := path.Join(folder, "photos")
	kept := &KeptPhoto{errand: disk.BeginErrand(room, draftsErrand+dir)}
	kept.Name, err = p.keepIn(root, dir, photoStem(day, words), func(name string) error {
		kept.errand.Add(photoErrand(path.Join(dir, name), p.Data))
		return claim("photos/" + name)
	})
	if err != nil {
		kept.Settled()
		return nil, err
	}
	return kept, nil
}

// keepIn puts the picture into a folder under the first name that is free.
func (p Photo) keepIn(root *disk.Root, dir, stem string, claim func(name string) error) (string, error) {
	if err := root.MkdirAll(dir, 0o777); err != nil {
		return "", err
	}
	draft, err := root.Draft(path.Join(dir, "photo"), p.Data, 0o666)
	if err != nil {
		return "", err
	}
	defer draft.Drop()
	for n := 1; ; n++ {
		base := stem + p.Ext
		if n > 1 {
			base = stem + "-" + strconv.Itoa(n) + p.Ext
		}
		if _, err := root.Lstat(path.Join(dir, base)); err == nil && n < 10_000 {
			continue
		}
		if err := claim(base); err != nil {
			return "", err
		}
		err := draft.Link(path.Join(dir, base))
		if err != nil && !errors.Is(err, fs.ErrExist) { // a file system without links
			err = p.write(root, path.Join(dir, base))
		}
		if errors.Is(err, fs.ErrExist) && n < 10_000 {
			continue
		}
		return "photos/" + base, err
	}
}

// write makes a file that must not be there yet.
func (p Photo) write(root *disk.Root, name string) error {
	file, err := root.Create(name, 0o666)
	if err != nil {
		return err
	}
	_, err = file.Write(p.Data)
	if err == nil {
		err = file.Sync()
	}
	return errors.Join(err, file.Close())
}

// photoStem is a file's name without its end: the day and the first words.
func photoStem(day, words string) string {
	const most = 48
	s := slug.Make(words)
	if len(s) > most {
		s = s[:most]
		if i := strings.LastIndexByte(s, '-'); i > 0 {
			s = s[:i]
		}
	}
	return strings.Trim(day+"-"+strings.Trim(s, "-"), "-")
}

// RemovePhoto takes a kept picture away again, whose entry could not be written.
func RemovePhoto(room, folder, name string) error {
	root, err := disk.OpenRoot(room)
	if err != nil {
		return err
	}
	defer root.Close()
	return root.Remove(path.Join(folder, name))
}
