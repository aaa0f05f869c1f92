package cutting

import (
	"errors"
	"fmt"
	"math"
	"strconv"

	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/record/amend"
	"hembook/internal/shape"
)

// A Kept is what Keep wrote into the record of a cloth.
type Kept struct {
	Remnants []string // the names of those added
	OnHand   string   // the length now on hand as it is written; empty where it was left alone
}

// Keep adds the remnants of a lay to the record of its cloth, each named after
// the build and the part, and takes the length that was cut off from what is
// on hand. Nothing else of the file is touched. A remnant whose name stands
// there already is not added again, and where none is added the cloth counts
// as cut before: what is on hand then stays.
func Keep(room *record.Room, g *record.Build, l *Lay) (Kept, error) {
	switch {
	case l.Plan == nil:
		return Kept{}, errors.New("no lay plan of " + l.Part + ": " + l.Why)
	case l.Stopped:
		return Kept{}, errors.New("the search for " + l.Part + " was stopped early: lay it once more")
	case l.Cloth.Cloth == nil:
		return Kept{}, errors.New("no cloth for " + l.Part + " yet")
	}
	names, entries := l.leftovers(g, room.BareUnit())
	if len(names) == 0 {
		return Kept{}, nil
	}
	rest, known := l.leftOnHand()
	var kept Kept
	file := amend.File{Folder: room.Dir, Path: l.Cloth.Cloth.At.File()}
	err := file.Change(func(text []byte) ([]byte, error) {
		kept = Kept{}
		there, err := namesIn(text)
		if err != nil {
			return nil, err
		}
		for i, e := range entries {
			if there[names[i]] {
				continue
			}
			if text, err = amend.Set(text, amend.At("remnants", names[i]), e); err != nil {
				return nil, err
			}
			kept.Remnants = append(kept.Remnants, names[i])
		}
		if len(kept.Remnants) == 0 || !known {
			return text, nil
		}
		kept.OnHand = written(rest, room.BareUnit())
		return amend.Set(text, amend.At("on-hand"), amend.Figure(kept.OnHand))
	})
	if err != nil {
		return Kept{}, err
	}
	return kept, nil
}

// leftovers are the names of a lay's remnants and what is written behind each.
func (l *Lay) leftovers(g *record.Build, bare measure.Unit) (names []string, entries []amend.Value) {
	for i := range l.Left {
		for _, layer := range layersOf(&l.Left[i]) {
			name := fmt.Sprintf("%s %s %d%s", g.Slug, l.Part, i+1, layer.word)
			names = append(names, name)
			entries = append(entries, entryOf(layer.outline, "from "+g.Name.V, bare))
		}
	}
	return names, entries
}

// leftOnHand is the length on hand after the lay is cut off, in mm; not known
// where the cloth does not say what is on hand, or that was too short for it.
func (l *Lay) leftOnHand() (mm float64, known bool) {
	if !l.Enough {
		return 0, false
	}
	return max(0, math.Floor(l.OnHand.Value.In(millimetres).Number+1e-6)), true
}

// written is a length as a record has it. Bare numbers are millimetres where
// bare lengths are; elsewhere they get their unit.
func written(mm float64, bare measure.Unit) string {
	text := strconv.FormatFloat(mm, 'f', -1, 64)
	if bare != measure.UnitMM {
		text += " mm"
	}
	return text
}

// A layer is one of the remnants that folded cloth leaves twice.
type layer struct {
	word    string
	outline []shape.Point
}

func layersOf(r *Remnant) []layer {
	if !r.Folded {
		return []layer{{"", r.Outline}}
	}
	far := 0.0
	for _, q := range r.Outline {
		far = max(far, q.X)
	}
	lower := make([]shape.Point, len(r.Outline))
	for i, q := range r.Outline {
		lower[len(lower)-1-i] = shape.Point{X: tenth(far - q.X), Y: q.Y}
	}
	return []layer{{" upper", r.Outline}, {" lower", lower}}
}

// entryOf is a remnant as it is written behind its name.
func entryOf(outline []shape.Point, note string, bare measure.Unit) amend.Value {
	length := func(mm float64) amend.Value { return amend.Figure(written(mm, bare)) }
	corners := make([]amend.Value, len(outline))
	for i, q := range outline {
		corners[i] = amend.List(length(q.X), length(q.Y))
	}
	return amend.Group(
		amend.Field{Name: "outline", Value: amend.List(corners...)},
		amend.Field{Name: "note", Value: amend.Words(note)},
	)
}

// namesIn are the names of the remnants a cloth's record has.
func namesIn(text []byte) (map[string]bool, error) {
	out := map[string]bool{}
	named, ok, err := amend.Read(text, amend.At("remnants"))
	if err != nil || !ok {
		return out, err
	}
	for _, r := range named.Fields() {
		out[r.Name] = true
	}
	return out, nil
}
