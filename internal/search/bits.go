package search

import "math/bits"

// alphabet are the characters that numbers are written with: those of ASCII
// that can be seen and need no escape in a string of a script, "<" apart. Two
// of them hold 13 bits, because 91² is just above 2¹³.
const alphabet = "!#$%&'()*+,-./0123456789:;=>?@ABCDEFGHIJKLMNOPQRSTUVWXYZ[]^_`abcdefghijklmnopqrstuvwxyz{|}~"

// A bitWriter packs bits into characters of the alphabet.
type bitWriter struct {
	held uint64
	n    int // bits held
	out  []byte
}

// write adds the lowest n bits of v, highest first; n is at most 32.
func (w *bitWriter) write(v uint64, n int) {
	w.held = w.held<<n | v&(1<<n-1)
	w.n += n
	for w.n >= 13 {
		w.n -= 13
		x := w.held >> w.n & (1<<13 - 1)
		w.out = append(w.out, alphabet[x/91], alphabet[x%91])
	}
}

// gamma writes a number from 1 in Elias's gamma code (IEEE Trans. Inf. Theory
// 21, 1975).
func (w *bitWriter) gamma(v int) {
	n := bits.Len(uint(v))
	w.write(0, n-1)
	w.write(uint64(v), n)
}

// rice writes a number from 0 in Rice's code: v>>k in ones, a nought, then k bits.
func (w *bitWriter) rice(v, k int) {
	q := v >> k
	for ; q >= 16; q -= 16 {
		w.write(1<<16-1, 16)
	}
	w.write(1<<(q+1)-2, q+1)
	w.write(uint64(v), k)
}

// take ends the word being written and returns its characters: a last odd one
// holds up to six bits.
func (w *bitWriter) take() string {
	switch {
	case w.n > 6:
		w.write(0, 13-w.n)
	case w.n > 0:
		w.out = append(w.out, alphabet[w.held<<(6-w.n)&63])
	}
	s := string(w.out)
	w.held, w.n, w.out = 0, 0, w.out[:0]
	return s
}

// riceBits is the k that suits so many numbers spread over a span.
func riceBits(count, span int) int {
	k := 0
	for count*3<<(k+1) <= 2*span {
		k++
	}
	return k
}

// digits writes a number with a fixed count of characters, highest first.
func digits(v, width int) string {
	out := make([]byte, width)
	for i := width - 1; i >= 0; i-- {
		out[i] = alphabet[v%91]
		v /= 91
	}
	return string(out)
}
