package garment

import (
	"errors"

	"hembook/internal/record"
	"hembook/internal/trade"
	"hembook/internal/words"
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
	for _, kept := range t.room.Wearers {
		checkWearer(kept.Open(record.ToCheck), faults)
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

// checkWearer holds a wearer's body against what people measure. What is said
// of it never quotes a value.
func checkWearer(w *record.Wearer, faults *record.Faults) {
	who := WhoIs(w.For.Who.V)
	checkBody(w.Body, who, faults)
	checkRatios(w.Body, who, faults)
	for i := range w.Earlier {
		checkBody(w.Earlier[i].Body, who, faults)
		checkRatios(w.Earlier[i].Body, who, faults)
	}
}

// WhoIs is whose range a wearer is held against, by the record's word.
func WhoIs(word string) trade.Wearer {
	switch word {
	case "woman":
		return trade.Woman
	case "man":
		return trade.Man
	case "girl", "boy", "child", "baby":
		return trade.Child
	}
	return trade.Anyone
}

func checkBody(body record.Dict[record.Length], who trade.Wearer, faults *record.Faults) {
	for i := range body {
		name, v := body[i].Name, body[i].V
		m, ok := trade.MeasurementNamed(name.V)
		if !ok {
			faults.Warnf(name.At, trade.MeasurementHint(name.V), "%q is no body measurement with a standard name", name.V)
			continue
		}
		if m.Unit != "mm" {
			faults.Errorf(name.At, "leave it out: only lengths are written here", "%q is no length", name.V)
			continue
		}
		if !v.Given() {
			continue
		}
		switch level, _ := trade.Plausible(name.V, v.V.MM(), who); level {
		case trade.Odd:
			faults.Warnf(v.At, "measure again to be sure", "this %s is outside everyone measured in the survey", name.V)
		case trade.Wrong:
			faults.Errorf(v.At, "is the unit the right one?", "this %s cannot be a body's", name.V)
		}
	}
}

// checkRatios looks for measurements that do not go with each other.
func checkRatios(body record.Dict[record.Length], who trade.Wearer, faults *record.Faults) {
	taken := make(map[string]record.Length, len(body))
	for i := range body {
		if m, ok := trade.MeasurementNamed(body[i].Name.V); ok && body[i].V.Given() {
			taken[m.Name] = body[i].V
		}
	}
	for _, r := range trade.Ratios() {
		a, ok := taken[r.Of]
		b, also := taken[r.To]
		if !ok || !also {
			continue
		}
		if level, _ := trade.PlausibleRatio(r.Of, r.To, a.V.MM(), b.V.MM(), who); level == trade.Odd {
			faults.Warnf(a.At, "measure both again to be sure", "this %s beside this %s is outside everyone measured in the survey", words.Plain(r.Of), words.Plain(r.To))
		}
	}
}
