package picture

import (
	"bufio"
	"bytes"
	"encoding/binary"
	"errors"
	"hembook/internal/fault"
	"hembook/internal/say"
	"io"
)

// lookJPEG walks over the segments up to the one with the size (ITU-T T.81,
// annex B), and counts what image/jpeg takes: each sample one byte, four more
// where it is refined in passes, and red, green and blue anew where they are
// stored as such.
func (h *Header) lookJPEG(in *bufio.Reader) error {
	const frameExtended, frameProgressive = 0xc1, 0xc2
	again := false
	_, _ = in.Discard(2)
	for {
		mark, err := nextMark(in)
		if err != nil {
			return err
		}
		if mark == markScan || mark == markEnd {
			return errors.New(say.Of("picture.it-begins-without-a-size"))
		}
		size, err := in.Peek(2)
		if err != nil {
			return err
		}
		long := int(binary.BigEndian.Uint16(size))
		body, _ := in.Peek(min(long, 20))
		switch {
		case long < 2:
			return errors.New(say.Of("picture.one-of-its-parts-is-too-short"))
		case mark == markFrame || mark == frameExtended || mark == frameProgressive:
			return h.frame(body, mark == frameProgressive, again)
		case mark > frameProgressive && mark < 0xd0 && mark != markHuffman && mark != 0xc8 && mark != 0xcc:
			return fault.Refusing(say.Of("picture.open-it-and-save-it-as-an"), say.Of("picture.it-is-a-rare-kind-of-jpeg"))
		case mark == markAdobe && len(body) >= 14 && string(body[2:7]) == "Adobe":
			again = body[13] == 0 // no transform: red, green and blue
		}
		if _, err := in.Discard(long); err != nil {
			return err
		}
	}
}

// nextMark reads up to the next mark of a JPEG that has a body.
func nextMark(in *bufio.Reader) (byte, error) {
	for {
		c, err := in.ReadByte()
		for err == nil && c != 0xff {
			c, err = in.ReadByte()
		}
		for err == nil && c == 0xff {
			c, err = in.ReadByte()
		}
		if err != nil {
			return 0, err
		}
		if c > 0x01 && (c < 0xd0 || c > 0xd8) {
			return c, nil
		}
	}
}

// frame reads the size and how finely each colour is stored.
func (h *Header) frame(body []byte, passes, again bool) error {
	if len(body) < 8 || len(body) < 8+3*int(body[7]) || body[7] == 0 || body[7] > 4 {
		return io.ErrUnexpectedEOF
	}
	h.High, h.Wide = int(binary.BigEndian.Uint16(body[3:])), int(binary.BigEndian.Uint16(body[5:]))
	var names []byte
	var across, down byte = 1, 1
	sum := 0.0
	for c := range int(body[7]) {
		one := body[8+3*c:]
		names = append(names, one[0])
		a, d := one[1]>>4, one[1]&15
		across, down = max(across, a), max(down, d)
		sum += float64(a) * float64(d)
	}
	if len(names) == 1 {
		across, down, sum = 1, 1, 1 // alone it is always stored in full
	}
	h.each = sum / float64(int(across)*int(down))
	if passes {
		h.each *= 5
	}
	if again || len(names) == 4 || bytes.Equal(names, []byte("RGB")) {
		h.each += 4
	}
	return nil
}

// pngCost is how many bytes a pixel takes once it is decoded, half as much
// more where the picture comes in seven passes (PNG, third edition, sections
// 11.2.1 and 8.1).
func pngCost(head []byte) float64 {
	const depth, kind, interlace = 24, 25, 28
	if len(head) <= interlace {
		return 0 // cut short: it has no size either
	}
	each := 4.0
	switch {
	case head[depth] == 16:
		each = 8
	case head[kind] == 3: // by number from a list of colours
		each = 1
	}
	if head[interlace] != 0 {
		each *= 1.5
	}
	return each
}

// webpCost is how many bytes a pixel takes while it is decoded: brightness, and
// two colours at half the fineness, in the plain form; in the others all four
// in full and the steps between (RFC 9649, sections 2.5 to 2.7, from memory).
func webpCost(head []byte) float64 {
	if len(head) >= 16 && string(head[12:16]) == "VP8 " {
		return 1.5
	}
	return 12
}
