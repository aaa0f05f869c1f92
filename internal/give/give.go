// Package give hands out a garment's pieces and lays as pattern files, SVG or
// DXF, that other makers and their programs can open.
//
// It promises that what it gives can be read back by an outline: of a record
// with the same edges, darts, notches, levels and grain, and that nothing
// private is in it. It writes no file itself and plans no lay.
package give

import (
	"errors"
	"slices"

	"hembook/internal/cutting"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/garment"
	"hembook/internal/say"
	"hembook/internal/shape/dxf"
	"hembook/internal/shape/svg"
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
	var given []*drawing.Drawing
	for _, p := range g.Pieces {
		if len(only) > 0 && !slices.Contains(only, p.Name) {
			continue
		}
		if len(p.Outline.Edges) == 0 {
			continue
		}
		given = append(given, draw.Piece(p, draw.PieceStyle{Scale: 1, Parts: draw.ToGive, Build: g.Build.Name.V}))
	}
	if len(given) == 0 {
		return File{}, errors.New(say.Of("give.there-is-no-piece-with-an-outline"))
	}
	name := g.Build.Slug + "." + string(as)
	if as == DXF {
		return File{name, dxf.Pieces(given)}, nil
	}
	return File{name, svg.Pieces(g.Build.Name.V, given)}, nil
}

// Lay writes a cloth with the pieces of its plan.
func Lay(g *garment.Garment, l *cutting.Lay, as Format) (File, error) {
	if l.Plan == nil {
		return File{}, errors.New(say.Of("give.has-no-plan", l.Part, l.Why))
	}
	d := draw.LayToGive(l, g.Build.Name.V+": "+l.Part)
	name := g.Build.Slug + "-lay-" + l.Part + "." + string(as)
	if as == DXF {
		return File{name, dxf.Lay(d)}, nil
	}
	return File{name, svg.Lay(d)}, nil
}
