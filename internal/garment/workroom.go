package garment

import (
	"errors"

	"hembook/internal/record"
	"hembook/internal/trade"
)

// ownSeamTypes reads the workroom's own seam types and places their faults.
func ownSeamTypes(room *record.Room, faults *record.Faults) []trade.SeamType {
	node := room.Workroom.SeamTypes.Node
	if node == nil {
		return nil
	}
	list, err := trade.SeamTypesFromNode(node)
	if err == nil {
		return list
	}
	src := room.Workroom.At.Source
	var bad trade.Faults
	if !errors.As(err, &bad) {
		faults.Errorf(record.Pos{Source: src, Line: int32(node.Line), Column: int32(node.Column)}, "", "seam-types: %s", err)
		return nil
	}
	for _, f := range bad {
		at := record.Pos{Source: src, Line: int32(f.Line), Column: int32(max(f.Column, 1))}
		if f.Line == 0 {
			at.Line, at.Column = int32(node.Line), int32(node.Column)
		}
		faults.Errorf(at, f.Hint, "%s", f.Text)
	}
	return nil
}

// checkRoom looks at what concerns no single build.
func (t *Tailor) checkRoom(faults *record.Faults) {
	for _, e := range t.room.Techniques {
		t.checkTechnique(e, faults)
	}
}

// checkTechnique looks whether the seam type a technique names is there, and
// whether its measures are those of the type.
func (t *Tailor) checkTechnique(e *record.Technique, faults *record.Faults) {
	if !e.Seam.Given() {
		return
	}
	s, ok := t.types[e.Seam.V]
	if !ok {
		faults.Errorf(e.Seam.At, trade.SeamTypeHint(t.list, e.Seam.V), "there is no seam type or finish %q", e.Seam.V)
		return
	}
	for i := range e.With {
		if _, err := s.Values(trade.Params{e.With[i].Name.V: e.With[i].V.V.MM()}); err != nil {
			faults.Errorf(e.With[i].Name.At, "", "%s", err)
		}
	}
}
