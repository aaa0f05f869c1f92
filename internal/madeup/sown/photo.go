package sown

import (
	"bytes"
	"compress/zlib"
	"encoding/base64"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"
	"iter"
	"maps"
	"slices"
)

// inOrder goes through files by name.
func inOrder(files map[string]string) iter.Seq2[string, string] {
	return func(yield func(string, string) bool) {
		for _, name := range slices.Sorted(maps.Keys(files)) {
			if !yield(name, files[name]) {
				return
			}
		}
	}
}

// photographs adds pictures that carry secrets beside what they show, and one
// that no record names.
func (g *sower) photographs(files map[string]string, build string) {
	files[build+"photos/one.jpg"] = g.jpeg()
	files[build+"photos/two.png"] = g.png()
	files[build+"photos/three.webp"] = g.webp()
	files[build+"photos/"+g.word("name of a photograph", nil)+".jpg"] = g.jpeg()
	files[build+"pattern/unused.svg"] = `<svg xmlns="http://www.w3.org/2000/svg" width="10mm" height="10mm" viewBox="0 0 10 10"><!-- ` + g.remark() + ` --><metadata>` + g.word("pattern file", nil) + `</metadata><path d="M0 0L10 0L10 10Z"/></svg>`
}

func (g *sower) picture() image.Image {
	m := image.NewRGBA(image.Rect(0, 0, 24, 16))
	for i := range m.Pix {
		m.Pix[i] = uint8(g.IntN(256))
	}
	for y := range 16 {
		m.Set(0, y, color.White)
	}
	return m
}

// jpeg has an Exif segment, one of XMP, a remark, and something behind its end.
func (g *sower) jpeg() string {
	var b bytes.Buffer
	if err := jpeg.Encode(&b, g.picture(), nil); err != nil {
		panic(err)
	}
	segment := func(mark byte, text string) string {
		return string([]byte{0xff, mark, byte((len(text) + 2) >> 8), byte(len(text) + 2)}) + text
	}
	data := b.String()
	return data[:2] + segment(0xe1, "Exif\x00\x00"+g.exif()) + segment(0xe1, "http://ns.adobe.com/xap/1.0/\x00"+g.xmp()) +
		segment(0xfe, g.word("JPEG remark", nil)) + data[2:] + g.word("behind a JPEG", nil)
}

// exif says who took the picture: tag 315 (Exif 2.3, 4.6.4), its text behind
// the one directory.
func (g *sower) exif() string {
	who := g.word("Exif", nil) + "\x00"
	return "II*\x00\x08\x00\x00\x00\x01\x00\x3b\x01\x02\x00" + string(binary.LittleEndian.AppendUint32(nil, uint32(len(who)))) + "\x1a\x00\x00\x00\x00\x00\x00\x00" + who
}

func (g *sower) xmp() string {
	return `<x:xmpmeta xmlns:x="adobe:ns:meta/"><dc:creator>` + g.word("XMP", nil) + `</dc:creator></x:xmpmeta>`
}

// png has chunks of text, plain and packed, and Exif (ISO/IEC 15948, 11.3).
func (g *sower) png() string {
	var b bytes.Buffer
	if err := png.Encode(&b, g.picture()); err != nil {
		panic(err)
	}
	chunk := func(kind, text string) string {
		body := kind + text
		return string(binary.BigEndian.AppendUint32(nil, uint32(len(text)))) + body + string(binary.BigEndian.AppendUint32(nil, crc32.ChecksumIEEE([]byte(body))))
	}
	var packed bytes.Buffer
	w := zlib.NewWriter(&packed)
	w.Write([]byte(g.word("PNG zTXt", nil)))
	w.Close()
	data := b.String()
	const head = 8 + 25 // the signature and IHDR
	return data[:head] + chunk("tEXt", "Author\x00"+g.word("PNG tEXt", nil)) + chunk("zTXt", "Comment\x00\x00"+packed.String()) +
		chunk("iTXt", "XML:com.adobe.xmp\x00\x00\x00\x00\x00"+g.xmp()) + chunk("eXIf", g.exif()) + data[head:]
}

// webp is a picture of 32 by 16 pixels as a browser wrote it, with Exif and XMP
// (RFC 9649, 2.7.1.5).
func (g *sower) webp() string {
	part := func(name, data string) string {
		out := name + string(binary.LittleEndian.AppendUint32(nil, uint32(len(data)))) + data
		if len(data)%2 == 1 {
			out += "\x00"
		}
		return out
	}
	lossy, err := base64.StdEncoding.DecodeString("sAIAnQEqIAAQAADAEiWgAnS8CeAfgB+wH8gAiScAAP78bJf//Wjy/9i71zdf/FJ//4fxjxcM1X+tW///6L6wOHhLJ5QAAA==")
	if err != nil {
		panic(err)
	}
	body := "WEBP" + part("VP8X", string([]byte{0x0c, 0, 0, 0, 31, 0, 0, 15, 0, 0})) + part("VP8 ", string(lossy)) + part("EXIF", g.exif()) + part("XMP ", g.xmp())
	return "RIFF" + string(binary.LittleEndian.AppendUint32(nil, uint32(len(body)))) + body
}
