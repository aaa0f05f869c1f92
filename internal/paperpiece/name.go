package paperpiece

import (
	"bytes"
	"encoding/xml"
	"regexp"
	"strconv"
	"strings"

	"hembook/internal/fault"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/shape"
	"hembook/internal/shape/trace"
	"hembook/internal/tracing"
)

// Numbers are names for edges that get theirs later, by [Home.NameEdges].
func Numbers(count int) (out []tracing.EdgeName) {
	for i := range count {
		out = append(out, tracing.EdgeName{Name: say.Of("paperpiece.edge", strconv.Itoa(i+1))})
	}
	return out
}

// numbered is an edge that has a number for a name in a pattern file of a traced piece.
var numbered = regexp.MustCompile(`(<path class="sewing")[^>]*?( d="[^"]*"><title>)(?:edge|fold) edge (\d+)(</title>)`)

var isNumber = regexp.MustCompile(`^edge \d+$`)

// Unnamed are the traced pieces of a record whose edges have numbers for names, with their
// outlines.
func Unnamed(room *record.Room, file record.BuildFile, b *record.Build) (homes []Home, outlines []shape.Outline) {
	for i := range b.Pieces {
		p := &b.Pieces[i]
		h := Home{Room: room, File: file, Piece: p.Name.V}
		if p.Outline == nil || p.Outline.File.V != h.SVG()+"#"+h.Piece {
			continue
		}
		o, ok := h.outlineIn(room, b)
		if !ok || !allNumbered(o) {
			continue
		}
		homes, outlines = append(homes, h), append(outlines, o)
	}
	return homes, outlines
}

func allNumbered(o shape.Outline) bool {
	for _, s := range o.Sides() {
		if !isNumber.MatchString(s.Name) {
			return false
		}
	}
	return true
}

// NameEdges gives the edges of a traced piece their names, in its pattern file, and moves
// its corners: against the clock from the lower left, as they are numbered. Where it has
// just these names already it does nothing.
func (h Home) NameEdges(names []tracing.EdgeName, shifts []Shift) error {
	seen := map[string]bool{}
	for _, n := range names {
		m := trace.MeaningOf(n.Name)
		switch {
		case strings.TrimSpace(n.Name) == "":
			return fault.Refusing(say.Of("paperpiece.tap-it-and-say-what-it-is"), say.Of("paperpiece.an-edge-of-has-no-name", h.Piece))
		case seen[n.Name]:
			return fault.Refusing(say.Of("paperpiece.call-one-of-them-otherwise-as-front"), say.Of("paperpiece.two-edges-of-are-called", h.Piece, n.Name))
		case m.Role != trace.Sewing || strings.ContainsAny(n.Name, ".:{}[]\"#,"):
			return fault.Refusing(say.Of("paperpiece.call-it-otherwise-as-side-or-hem"), say.Of("paperpiece.cannot-be-the-name-of-an-edge", say.Quoted(n.Name)))
		}
		seen[n.Name] = true
	}
	return h.redraw(func(text []byte) ([]byte, error) {
		if h.named(text, names) {
			return text, nil
		}
		then, err := h.renamed(text, names)
		if err != nil || len(shifts) == 0 {
			return then, err
		}
		return h.shifted(then, shifts)
	})
}

// renamed is the text of a pattern file whose edges have numbers, with names for them.
func (h Home) renamed(text []byte, names []tracing.EdgeName) ([]byte, error) {
	found, most := map[int]bool{}, 0
	then := numbered.ReplaceAllFunc(text, func(path []byte) []byte {
		m := numbered.FindSubmatch(path)
		k, _ := strconv.Atoi(string(m[3]))
		most = max(most, k)
		found[k] = true
		if k < 1 || k > len(names) {
			return path
		}
		var word bytes.Buffer
		xml.EscapeText(&word, []byte(trace.Spell(names[k-1].Name, names[k-1].Fold, h.Piece)))
		return bytes.Join([][]byte{m[1], m[2], word.Bytes(), m[4]}, nil)
	})
	if len(found) != len(names) || most != len(names) {
		return nil, fault.Refusing(say.Of("paperpiece.name-all-of-them-or-name-them"), say.Of("paperpiece.has-edges-without-names-and-names-came", h.Piece, len(found), len(names)))
	}
	return then, nil
}

// named reports whether a pattern file has just these names in their order.
func (h Home) named(text []byte, names []tracing.EdgeName) bool {
	at := 0
	for _, n := range names {
		var word bytes.Buffer
		xml.EscapeText(&word, []byte(trace.Spell(n.Name, n.Fold, h.Piece)))
		k := bytes.Index(text[at:], append(append([]byte("<title>"), word.Bytes()...), "</title>"...))
		if k < 0 {
			return false
		}
		at += k + 1
	}
	return true
}
