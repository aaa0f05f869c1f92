// Package give hands out a garment's pieces and lays as pattern files, SVG or
// DXF, that other makers and their programs can open.
//
// It promises that what it gives can be read back by an outline: of a record
// with the same edges, darts, notches, levels and grain, and that nothing
// private is in it. It writes no file itself and plans no lay.
package give

import (
	"errors"
	"fmt"
	"slices"
	"strconv"

	"hembook/internal/cutting"
	"hembook/internal/garment"
	"hembook/internal/shape"
	"hembook/internal/shape/dxf"
	"hembook/internal/shape/svg"
	"hembook/internal/shape/trace"
)

// A Format is a kind of pattern file.
type Format string

// The formats.
const (
	SVG Format = "svg"
	DXF Format = "dxf"
)

// A File is one pattern file; Name has no folder in it.
type File struct {
	Name string
	Text []byte
}

// Pieces writes the pieces of a garment into one file: all of them, or those
// that are named.
func Pieces(g *garment.Garment, only []string, as Format) (File, error) {
	var given []trace.Given
	for _, p := range g.Pieces {
		if len(only) > 0 && !slices.Contains(only, p.Name) {
			continue
		}
		if len(p.Outline.Edges) == 0 {
			continue
		}
		given = append(given, of(p))
	}
	if len(given) == 0 {
		return File{}, errors.New("there is no piece with an outline to give")
	}
	name := g.Build.Slug + "." + string(as)
	if as == DXF {
		return File{name, dxf.Pieces(given)}, nil
	}
	return File{name, svg.Pieces(g.Build.Name.V, given)}, nil
}

// of is a piece as it is handed out.
func of(p *garment.Piece) trace.Given {
	out := trace.Given{Piece: trace.Piece{Name: p.Name, Outline: p.Outline, Grain: p.Grain}, Words: words(p)}
	if len(p.Cut.Ring) > 0 {
		out.Cut = append([]shape.Ring{p.Cut.Ring}, p.Cut.Holes...)
	}
	for i := range p.Darts {
		d := &p.Darts[i]
		out.Legs = append(out.Legs, trace.Legs{Name: d.Record.Name.V, Begin: d.Plan.Begin, Point: d.Plan.Point, End: d.Plan.End})
	}
	for _, n := range p.NotchesAlong() {
		out.Notches = append(out.Notches, trace.Notch{Name: n.Name, Edge: n.Edge, At: n.Along})
	}
	for _, l := range p.AtLevels {
		out.Levels = append(out.Levels, trace.Level{Name: l.Level, Y: l.Y})
	}
	return out
}

// words are what is written on a piece.
func words(p *garment.Piece) []string {
	cut := "cut " + strconv.Itoa(p.Count)
	switch {
	case p.OnFold:
		cut += " on fold"
	case p.Mirrored:
		cut += " mirrored"
	}
	out := []string{p.Name, cut}
	for i, of := range p.Of {
		if i == 0 {
			out = append(out, "of "+of)
		} else {
			out[2] += ", " + of
		}
	}
	return out
}

// Lay writes a cloth with the pieces of its plan.
func Lay(g *garment.Garment, l *cutting.Lay, as Format) (File, error) {
	if l.Plan == nil {
		return File{}, fmt.Errorf("%s has no plan: %s", l.Part, l.Why)
	}
	laid := trace.LaidCloth{Name: g.Build.Name.V + ": " + l.Part, Length: l.Length.Value.Number, Wide: l.Width.Value.Number}
	for i := range l.Chalked {
		c := &l.Chalked[i]
		laid.Pieces = append(laid.Pieces, trace.LaidPiece{Name: c.Piece, Number: c.Number, Outline: c.Outline})
	}
	name := g.Build.Slug + "-lay-" + l.Part + "." + string(as)
	if as == DXF {
		return File{name, dxf.Lay(laid)}, nil
	}
	return File{name, svg.Lay(laid)}, nil
}
