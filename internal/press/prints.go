package press

import (
	"bytes"
	"context"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"image"
	"image/jpeg"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"hembook/internal/disk"
	"hembook/internal/fault"
	"hembook/internal/picture"
	"hembook/internal/say"
)

// widths are those that photographs are shown in; none is ever scaled up.
var widths = []int{480, 960, 1600}

const (
	jpegQuality = 82
	// bareQuality is how finely a photograph may have been rounded that is shown
	// as it came, without its notes; a finer one is encoded anew.
	bareQuality = 90
	// printsVersion is part of the names under which scaled pictures are kept;
	// raise it when scaling or encoding changes.
	printsVersion = "4"
)

// A print is a picture in one width, encoded.
type print struct {
	wide, high int
	ext        string
	data       []byte
}

// prints returns a picture in its widths, from what is kept where it is there.
func (g *gallery) prints(data []byte) (out []print, err error) {
	sum := sha256.Sum256(append([]byte(printsVersion+"\n"), data...))
	dir := filepath.Join(g.room.Dir, ".hembook", "pictures", hex.EncodeToString(sum[:16]))
	if out = kept(dir); out != nil {
		return out, nil
	}
	head, err := picture.Look(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	takes := head.Memory() // at most all there is: larger ones are refused
	if err := g.scaler.Acquire(context.Background(), takes); err != nil {
		return nil, err
	}
	defer g.scaler.Release(takes)
	if out, err = scale(data); err == nil {
		keep(dir, out) // where it cannot be kept it is made again next time
		g.made.Add(1)
		g.tell()
	}
	return out, err
}

// kept reads prints that were kept, nil where they are not all there as they
// were written.
func kept(dir string) []print {
	list, err := readKept(filepath.Join(dir, "list"), 1<<10)
	if err != nil {
		return nil
	}
	out, hashes, ok := parseKept(string(list))
	if !ok {
		return nil
	}
	for i := range out {
		p := &out[i]
		if p.data, err = readKept(filepath.Join(dir, p.keptName(hashes[i])), picture.MostBytes); err != nil || hashOf(p.data) != hashes[i] {
			return nil
		}
		if c, _, err := image.DecodeConfig(bytes.NewReader(p.data)); err != nil || c.Width != p.wide || c.Height != p.high {
			return nil
		}
	}
	return out
}

// keptName is the name of a kept print: its size, its hash and its kind.
func (p *print) keptName(hash string) string {
	return fmt.Sprintf("%dx%d.%s%s", p.wide, p.high, hash, p.ext)
}

// parseKept reads a list of kept prints, which has just the names that keep
// writes, from the narrowest on.
func parseKept(list string) (prints []print, hashes []string, ok bool) {
	last := 0
	for name := range strings.Lines(list) {
		name = strings.TrimSuffix(name, "\n")
		parts := strings.Split(name, ".")
		if len(parts) != 3 || len(prints) == len(widths) {
			return nil, nil, false
		}
		across, down, _ := strings.Cut(parts[0], "x")
		p := print{ext: "." + parts[2]}
		p.wide, _ = strconv.Atoi(across)
		p.high, _ = strconv.Atoi(down)
		inside := p.wide > last && p.wide <= widths[len(widths)-1] && p.high > 0 && p.high <= picture.MostSide
		if !inside || p.ext != ".jpg" && p.ext != ".png" || p.keptName(parts[1]) != name || parts[1] != filepath.Base(parts[1]) {
			return nil, nil, false
		}
		last = p.wide
		prints, hashes = append(prints, p), append(hashes, parts[1])
	}
	return prints, hashes, len(prints) > 0
}

// readKept reads a plain file of at most so many bytes.
func readKept(path string, most int64) ([]byte, error) {
	f, err := disk.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	var data bytes.Buffer
	if info, err := f.Stat(); err == nil {
		data.Grow(int(min(info.Size(), most)) + bytes.MinRead) // else it would be read in many small bites
	}
	_, err = data.ReadFrom(io.LimitReader(f, most+1))
	if err == nil && int64(data.Len()) > most {
		err = errors.New(say.Of("press.it-is-larger-than-what-was-kept"))
	}
	return data.Bytes(), err
}

// keep writes prints for the next press, the list last: without it they do not
// count.
func keep(dir string, prints []print) {
	if os.MkdirAll(dir, 0o755) != nil {
		return
	}
	var list []string
	for _, p := range prints {
		name := p.keptName(hashOf(p.data))
		if os.WriteFile(filepath.Join(dir, name), p.data, 0o644) != nil {
			return
		}
		list = append(list, name)
	}
	_ = os.WriteFile(filepath.Join(dir, "list"), []byte(strings.Join(list, "\n")+"\n"), 0o644)
}

// scale decodes a picture, sets it upright and encodes it anew in each width,
// so that nothing of its metadata is left; where the largest is the picture as it
// came, it stays so, without its metadata.
func scale(data []byte) ([]print, error) {
	list, head, err := picture.Sized(data, sizesOf)
	if err != nil {
		return nil, err
	}
	out := make([]print, len(list))
	for i, img := range list {
		if size := img.Bounds(); size.Dx() == head.Wide && size.Dy() == head.High {
			if bare, ok := picture.Bare(data, bareQuality); ok {
				out[i] = print{head.Wide, head.High, ".jpg", bare}
				continue
			}
		}
		if out[i], err = encode(img, head.Lossless); err != nil {
			return nil, fault.Wrapping(err, say.Of("press.it-cannot-be-encoded", err))
		}
	}
	return out, nil
}

// sizesOf are the sizes a picture is shown in, smallest first: the widths below
// its own, which is the largest unless it is too large. A width so near its own
// that the screen it is for would gain little is left out.
func sizesOf(wide, high int) []image.Point {
	whole := wide <= widths[len(widths)-1]
	var out []image.Point
	for _, w := range widths {
		if w < wide && !(whole && 3*wide <= 4*w) {
			out = append(out, image.Pt(w, max(1, (high*w+wide/2)/wide)))
		}
	}
	if whole {
		out = append(out, image.Pt(wide, high))
	}
	return out
}

// encode writes a JPEG; a drawing that came without loss becomes a PNG where
// that is smaller or where it is not opaque.
func encode(img image.Image, lossless bool) (print, error) {
	p := print{wide: img.Bounds().Dx(), high: img.Bounds().Dy(), ext: ".jpg"}
	var buf bytes.Buffer
	if err := jpeg.Encode(&buf, img, &jpeg.Options{Quality: jpegQuality}); err != nil {
		return p, err
	}
	p.data = buf.Bytes()
	if !lossless {
		return p, nil
	}
	var whole bytes.Buffer
	if err := (&png.Encoder{CompressionLevel: png.BestCompression}).Encode(&whole, img); err != nil {
		return p, err
	}
	if whole.Len() < len(p.data) || !opaque(img) {
		p.data, p.ext = whole.Bytes(), ".png"
	}
	return p, nil
}

func opaque(img image.Image) bool {
	o, ok := img.(interface{ Opaque() bool })
	return ok && o.Opaque()
}
