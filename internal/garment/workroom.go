package garment

import (
	"errors"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/trade"
)

// ownSeamTypes reads the workroom's own seam types and places their faults.
func ownSeamTypes(room *record.Room, faults *fault.Faults) []trade.SeamType {
	node := room.Workroom.SeamTypes.Node
	if node == nil {
		return nil
	}
	list, err := trade.SeamTypesFromNode(node)
	if err == nil {
		return list
	}
	src := room.Workroom.At.Source
	var bad fault.List
	if !errors.As(err, &bad) {
		faults.Wrong(fault.Pos{Source: src, Line: int32(node.Line), Column: int32(node.Column)}, "", say.Of("garment.seam-types", err))
		return nil
	}
	for _, f := range bad {
		at := fault.Pos{Source: src, Line: f.At.Line, Column: max(f.At.Column, 1)}
		if !f.At.Given() {
			at.Line, at.Column = int32(node.Line), int32(node.Column)
		}
		faults.Wrong(at, f.Hint, f.Message)
	}
	return nil
}

// checkRoom looks at what concerns no single build.
func (t *Tailor) checkRoom(faults *fault.Faults) {
	for _, e := range t.room.Techniques {
		t.checkTechnique(e, faults)
	}
}

// checkTechnique looks whether the seam types a technique names are there, and
// whether its measures are those of the first, whose cross-section is drawn.
func (t *Tailor) checkTechnique(e *record.Technique, faults *fault.Faults) {
	for _, kind := range e.Seams {
		if _, ok := t.types[kind.V]; !ok {
			near := trade.NearestSeamType(t.list, kind.V)
			faults.Wrong(kind.At, meant.Ask(near), say.Of("garment.there-is-no-seam-type-or-finish", say.Quoted(kind.V))).Instead(kind.V, near)
		}
	}
	if len(e.Seams) == 0 || t.types[e.Seams[0].V] == nil {
		return
	}
	s := t.types[e.Seams[0].V]
	for i := range e.With {
		if _, err := s.Values(trade.Params{e.With[i].Name.V: e.With[i].V.V.MM()}); err != nil {
			faults.Wrong(e.With[i].Name.At, "", err.Error())
		}
	}
}
