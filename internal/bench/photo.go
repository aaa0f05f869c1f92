package bench

import (
	"bytes"
	"errors"
	"fmt"
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

	"hembook/internal/picture"
)

const (
	mostPhoto    = 64 << 20    // bytes of a picture file, as the reader of records has it
	mostPixels   = 100_000_000 // of a picture, as the reader of records has it
	photoQuality = 92          // of JPEG: a copy that is kept loses little; own choice, no source
)

// A Photo is a picture that may be kept: upright, and nothing in it but what
// can be seen.
type Photo struct {
	Data       []byte
	Ext        string // ".jpg" or ".png"
	Wide, High int
}

// ReadPhoto reads a JPEG or PNG picture, turns it upright and encodes it anew,
// by which place, date, camera and owner are left out. What is no picture, is
// damaged, or is larger than 64 MB or 100 million pixels is refused before it
// can do harm.
func ReadPhoto(r io.Reader) (Photo, error) {
	data, err := io.ReadAll(io.LimitReader(r, mostPhoto+1))
	switch {
	case err != nil:
		return Photo{}, err
	case len(data) > mostPhoto:
		return Photo{}, errors.New("it is larger than 64 MB")
	}
	config, format, err := image.DecodeConfig(bytes.NewReader(data))
	switch {
	case err != nil || format != "jpeg" && format != "png":
		return Photo{}, errors.New(notPicture(data))
	case config.Width <= 0 || config.Height <= 0:
		return Photo{}, errors.New("it has no size")
	case int64(config.Width)*int64(config.Height) > mostPixels:
		return Photo{}, fmt.Errorf("it is %d by %d pixels, more than 100 million", config.Width, config.Height)
	}
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return Photo{}, fmt.Errorf("it is damaged: %w", err)
	}
	return developed(picture.Upright(img, picture.HeldAs(data, format)), format)
}

// notPicture answers a file that is not one, with what to do about those that
// phones make.
func notPicture(data []byte) string {
	const say = "it is neither a JPEG nor a PNG picture"
	if len(data) > 12 && string(data[4:8]) == "ftyp" {
		return say + "\n    it looks like HEIC, AVIF or a film: have the phone save JPEG, or convert it first"
	}
	return say
}

// developed encodes a picture; drawings that came as PNG stay lossless.
func developed(img image.Image, format string) (Photo, error) {
	var b bytes.Buffer
	p := Photo{Wide: img.Bounds().Dx(), High: img.Bounds().Dy(), Ext: ".jpg"}
	var err error
	if format == "png" {
		p.Ext = ".png"
		err = png.Encode(&b, img)
	} else {
		err = jpeg.Encode(&b, img, &jpeg.Options{Quality: photoQuality})
	}
	p.Data = b.Bytes()
	if err == nil && len(p.Data) > mostPhoto {
		err = errors.New("it is larger than 64 MB once it is upright")
	}
	return p, err
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
		if was, err := root.ReadFile(path.Join(folder, had)); err == nil && bytes.Equal(was, p.Data) {
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
