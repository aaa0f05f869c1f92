package bench

import (
	"bytes"
	"errors"
	"image"
	"image/jpeg"
	"image/png"
	"io"
	"io/fs"
	"os"
	"path"
	"strconv"
	"strings"

	"crypto/rand"

	"github.com/gosimple/slug"

	"hembook/internal/disk"
	"hembook/internal/picture"
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
		return 0, &picture.Refusal{Why: "it is larger than 64 MB once it is upright", Hint: "save it smaller, or as an ordinary JPEG"}
	}
	b.data = append(b.data, p...)
	return len(p), nil
}

// Keep puts the picture into the folder photos beside a record, under a name
// made from its date and words, and never over another file. folder is the
// record's, from the workroom's. The name returned is relative to folder.
func (p Photo) Keep(room, folder, day, words string) (name string, err error) {
	return p.KeepAs(room, folder, day, words, "", func(string) error { return nil })
}

// KeepAs is Keep for a caller that may be cut off in between and begin again.
// claim is told each name just before it is taken, and may refuse with an
// error; had is the name claimed the last time, if any: where the same picture
// stands under it, it is kept already.
func (p Photo) KeepAs(room, folder, day, words, had string, claim func(name string) error) (name string, err error) {
	root, err := os.OpenRoot(room)
	if err != nil {
		return "", err
	}
	defer root.Close()
	dir := path.Join(folder, "photos")
	if had != "" {
		if was, err := disk.ReadIn(root, path.Join(folder, had)); err == nil && bytes.Equal(was, p.Data) {
			return had, nil
		}
	}
	if err := root.MkdirAll(dir, 0o777); err != nil {
		return "", err
	}
	temp := path.Join(dir, ".photo.writing-"+rand.Text()[:12])
	if err := p.write(root, temp); err != nil {
		root.Remove(temp)
		return "", err
	}
	defer root.Remove(temp)
	stem := photoStem(day, words)
	for n := 1; ; n++ {
		base := stem + p.Ext
		if n > 1 {
			base = stem + "-" + strconv.Itoa(n) + p.Ext
		}
		if _, err := root.Lstat(path.Join(dir, base)); err == nil && n < 10_000 {
			continue
		}
		if err := claim("photos/" + base); err != nil {
			return "", err
		}
		err := root.Link(temp, path.Join(dir, base))
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
func (p Photo) write(root *os.Root, name string) error {
	file, err := root.OpenFile(name, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
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
	root, err := os.OpenRoot(room)
	if err != nil {
		return err
	}
	defer root.Close()
	return root.Remove(path.Join(folder, name))
}
