package cutting

import (
	"errors"
	"fmt"
	"strconv"

	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/record/amend"
	"hembook/internal/shape"
)

// Keep adds the remnants of a lay to the record of its cloth, each named after
// the build and the part, and returns the names added. Nothing else of the
// file is touched, and a remnant whose name stands there already is not added
// again.
func Keep(room *record.Room, g *record.Build, l *Lay) ([]string, error) {
	switch {
	case l.Plan == nil:
		return nil, errors.New("there is no plan of " + l.Part + ": " + l.Why)
	case l.Stopped:
		return nil, errors.New("the work on " + l.Part + " was broken off: lay it once more")
	case l.Cloth.Cloth == nil:
		return nil, errors.New("the cloth of " + l.Part + " is not known")
	}
	var names []string
	var entries []amend.Value
	for i := range l.Left {
		for _, layer := range layersOf(&l.Left[i]) {
			name := fmt.Sprintf("%s %s %d%s", g.Slug, l.Part, i+1, layer.word)
			names = append(names, name)
			entries = append(entries, entryOf(name, layer.outline, "left by "+g.Name.V, room.BareUnit()))
		}
	}
	if len(names) == 0 {
		return nil, nil
	}
	var added []string
	file := amend.File{Folder: room.Dir, Path: l.Cloth.Cloth.At.File()}
	err := file.Change(func(text []byte) ([]byte, error) {
		added = nil
		there, err := namesIn(text)
		if err != nil {
			return nil, err
		}
		for i, e := range entries {
			if there[names[i]] {
				continue
			}
			if text, err = amend.Append(text, amend.At("remnants"), e); err != nil {
				return nil, err
			}
			added = append(added, names[i])
		}
		return text, nil
	})
	if err != nil {
		return nil, err
	}
	return added, nil
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

// entryOf is a remnant as it is written. Bare numbers are millimetres where
// bare lengths are; elsewhere they get their unit.
func entryOf(name string, outline []shape.Point, note string, bare measure.Unit) amend.Value {
	length := func(mm float64) amend.Value {
		text := strconv.FormatFloat(mm, 'f', -1, 64)
		if bare != measure.UnitMM {
			text += " mm"
		}
		return amend.Figure(text)
	}
	corners := make([]amend.Value, len(outline))
	for i, q := range outline {
		corners[i] = amend.List(length(q.X), length(q.Y))
	}
	return amend.Group(
		amend.Field{Name: "name", Value: amend.Words(name)},
		amend.Field{Name: "outline", Value: amend.List(corners...)},
		amend.Field{Name: "note", Value: amend.Words(note)},
	)
}

// namesIn are the names of the remnants a cloth's record has.
func namesIn(text []byte) (map[string]bool, error) {
	out := map[string]bool{}
	list, ok, err := amend.Read(text, amend.At("remnants"))
	if err != nil || !ok {
		return out, err
	}
	for _, r := range list.Items() {
		if name, ok := r.Get("name"); ok {
			out[name.Text()] = true
		}
	}
	return out, nil
}
