// Package dxf reads the pieces that a DXF file draws, and writes pieces and
// lays as DXF, in the form of release 12: text of group codes and values, two
// lines each.
//
// It follows plain drawings and the pattern-exchange use of the format that
// ASTM D6673 describes: a block for each piece, its lines on numbered layers.
// Which number is which line is in layers.go. Where the file says its units,
// by header or by a text as that standard has it, they are followed; otherwise
// the maker must say them.
//
// It promises to name the entity, its layer and its line for whatever it
// cannot follow; binary files and entities later than release 12 that a
// pattern could not do without (splines) are refused, not guessed at. Bad
// input never panics. It leaves out everything but the geometry of lines in
// one plane, and words.
package dxf

import (
	"bytes"
	"math"
	"strconv"
	"strings"
	"unicode/utf8"

	"hembook/internal/fault"
	"hembook/internal/say"
	"hembook/internal/shape/trace"
)

// What a file may ask for.
const (
	mostBytes   = 32 << 20
	mostParts   = 500_000 // of all lines together
	mostInserts = 10_000
	mostNested  = 8 // blocks within blocks
)

// A pair is one group code with its value; line is where its code stands.
type pair struct {
	code  int
	value string
	line  int
}

// A scanner reads pairs one by one.
type scanner struct {
	text []byte
	line int
	back *pair
}

func wrong(at trace.Where, hint, message string) *fault.Fault {
	f := trace.FaultAt(at, hint, message)
	return &f
}

// refuse finds what is no DXF file, or not one that is read, at a glance.
func refuse(text []byte) *fault.Fault {
	head := text[:min(len(text), 256)]
	switch {
	case len(text) > mostBytes:
		return wrong(trace.Where{}, say.Of("dxf.export-the-pieces-alone"), say.Of("dxf.it-is-mb-at-most-mb-are", len(text)>>20, mostBytes>>20))
	case bytes.IndexByte(head, 0) >= 0 || bytes.IndexByte(head, 0x1a) >= 0:
		return wrong(trace.Where{}, say.Of("dxf.export-it-as-text-dxf-release-12"), say.Of("dxf.it-is-a-binary-file"))
	case len(bytes.TrimSpace(text)) == 0:
		return wrong(trace.Where{}, "", say.Of("dxf.it-is-empty"))
	}
	return nil
}

// next reads a pair; ok is false at the end of the file.
func (s *scanner) next() (p pair, ok bool, f *fault.Fault) {
	if s.back != nil {
		p, s.back = *s.back, nil
		return p, true, nil
	}
	code, more := s.row()
	if !more {
		return p, false, nil
	}
	p.line = s.line
	n, err := strconv.Atoi(strings.TrimSpace(code))
	if err != nil {
		if s.onlyBlank(code) {
			return p, false, nil
		}
		return p, false, wrong(trace.Where{Line: p.line, What: "file"}, say.Of("dxf.a-dxf-file-is-a-list-of"), say.Of("dxf.a-group-code-must-be-a-whole", say.Quoted(shorten(code))))
	}
	value, more := s.row()
	if !more {
		return p, false, wrong(trace.Where{Line: p.line, What: "file"}, say.Of("dxf.was-it-copied-whole"), say.Of("dxf.it-ends-in-the-middle-the-group", n))
	}
	p.code, p.value = n, strings.TrimRight(value, "\r")
	return p, true, nil
}

// row reads one line of the file.
func (s *scanner) row() (string, bool) {
	if len(s.text) == 0 {
		return "", false
	}
	row, rest, _ := bytes.Cut(s.text, []byte("\n"))
	s.text = rest
	s.line++
	return string(bytes.TrimSuffix(row, []byte("\r"))), true
}

func (s *scanner) onlyBlank(code string) bool {
	return strings.TrimSpace(code) == "" && len(bytes.TrimSpace(s.text)) == 0
}

func shorten(s string) string {
	s = strings.ToValidUTF8(s, "�")
	if utf8.RuneCountInString(s) > 30 {
		return string([]rune(s)[:30]) + "…"
	}
	return s
}

// number is a value as a number; 0 where it is none.
func (p pair) number() float64 {
	v, err := strconv.ParseFloat(strings.TrimSpace(p.value), 64)
	if err != nil || math.IsNaN(v) || math.Abs(v) > 1e12 {
		return 0
	}
	return v
}

func (p pair) whole() int {
	n, _ := strconv.Atoi(strings.TrimSpace(p.value))
	return n
}

// An entity is one drawn thing with all its pairs.
type entity struct {
	kind  string
	line  int
	pairs []pair
	kids  []entity // the vertices of a polyline
}

// get is the first value of a code.
func (e *entity) get(code int) (pair, bool) {
	for _, p := range e.pairs {
		if p.code == code {
			return p, true
		}
	}
	return pair{}, false
}

func (e *entity) number(code int) float64 {
	p, _ := e.get(code)
	return p.number()
}

func (e *entity) text(code int) string {
	p, _ := e.get(code)
	return plain(p.value)
}

func (e *entity) layer() string { return strings.TrimSpace(e.text(8)) }

func (e *entity) where() trace.Where {
	return trace.Where{Line: e.line, What: say.Of("dxf.on-layer", e.kind, say.Quoted(shorten(e.layer())))}
}

// plain undoes the ways in which values write letters beyond ASCII.
func plain(s string) string {
	for {
		i := strings.Index(s, `\U+`)
		if i < 0 || i+7 > len(s) {
			break
		}
		n, err := strconv.ParseUint(s[i+3:i+7], 16, 32)
		if err != nil {
			break
		}
		s = s[:i] + string(rune(n)) + s[i+7:]
	}
	if !utf8.ValidString(s) { // an older code page: its letters are those of Latin 1 nearly everywhere
		runes := make([]rune, len(s))
		for i := range len(s) {
			runes[i] = rune(s[i])
		}
		s = string(runes)
	}
	return s
}
