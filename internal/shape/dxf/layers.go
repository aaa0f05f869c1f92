package dxf

import (
	"strconv"
	"strings"

	"hembook/internal/shape/trace"
)

// The numbered layers of pattern exchange. All from memory (ASTM D6673,
// "Standard practice for sewn products pattern data interchange"); nothing of
// it was looked up.
const (
	layerBoundary   = 1  // piece boundary: the cut line
	layerTurns      = 2  // turn points: the boundary's corners
	layerCurves     = 3  // curve points: its other points
	layerNotches    = 4  // notches
	layerReference  = 5  // grade reference
	layerMirror     = 6  // the line a half piece is mirrored about
	layerGrain      = 7  // grain line
	layerInside     = 8  // internal lines
	layerStripes    = 9  // stripe reference
	layerPlaid      = 10 // plaid reference
	layerCutOuts    = 11 // internal cut-outs
	layerDrillHoles = 13 // drill holes
	layerSewing     = 14 // sewing lines
	layerWords      = 15 // annotation
	layerTNotch     = 80 // further kinds of notch, up to 83
	layerLastNotch  = 83
)

// numbered is what lines of a numbered layer are.
var numbered = map[int]trace.Role{
	layerBoundary: trace.Boundary, layerTurns: trace.Turn, layerCurves: trace.Aside, layerNotches: trace.NotchMark, layerReference: trace.Aside,
	layerMirror: trace.Mirror, layerGrain: trace.Grain, layerInside: trace.Aside, layerStripes: trace.Aside, layerPlaid: trace.Aside,
	layerCutOuts: trace.Aside, layerDrillHoles: trace.Aside, layerSewing: trace.Sewing, layerWords: trace.Aside,
}

// meaningOf is what a line on a layer is: by the layer's number, else by its
// name, as the names of an SVG file's elements are read.
func meaningOf(layer string, piece ...string) trace.Meaning {
	if n, err := strconv.Atoi(strings.TrimSpace(layer)); err == nil && n != 0 {
		role, known := numbered[n]
		switch {
		case n >= layerTNotch && n <= layerLastNotch:
			role = trace.NotchMark
		case !known:
			role = trace.Aside
		}
		return trace.Meaning{Role: role, Told: true}
	}
	for _, p := range piece {
		if strings.EqualFold(layer, p) {
			return trace.Meaning{}
		}
	}
	m := trace.MeaningOf(layer, piece...)
	if !m.Told {
		m.Name = "" // a layer names what kind of line it holds, not an edge
	}
	return m
}

// isNumbered reports whether a layer is one of the numbered ones.
func isNumbered(layer string) bool {
	n, err := strconv.Atoi(strings.TrimSpace(layer))
	return err == nil && n != 0
}

// insUnits are millimetres of a unit by the number that the header's
// $INSUNITS gives it (from memory: DXF reference, header variables).
var insUnits = map[int]float64{1: 25.4, 2: 304.8, 4: 1, 5: 10, 6: 1000, 10: 914.4, 14: 100}
