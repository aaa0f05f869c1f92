package cutting

import (
	"errors"
	"fmt"
	"math"
	"strconv"

	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/record/amend"
	"hembook/internal/say"
	"hembook/internal/shape"
)

// A Kept is what Keep wrote into the record of a cloth.
type Kept struct {
	Remnants []string // the names of those added
	Cut      string   // the length cut off as it is written; empty where nothing was noted
}

// Keep writes into the record of a cloth what a lay took of it on a day, and the
// remnants it leaves, each named after the build and the part. Nothing else of
// the file is touched. A cut or a remnant whose name stands there already is not
// added again.
func Keep(room *record.Room, g *record.Build, l *Lay, day record.Day) (Kept, error) {
	switch {
	case l.Plan == nil:
		return Kept{}, errors.New(say.Of("cutting.no-lay-plan-of", l.Part, l.Why))
	case l.Stopped:
		return Kept{}, errors.New(say.Of("cutting.the-search-was-stopped-early", l.Part))
	case l.Cloth.Cloth == nil:
		return Kept{}, errors.New(say.Of("cutting.no-cloth-yet", l.Part))
	}
	names, entries := l.leftovers(g, room.BareUnit())
	what, took := g.Slug+" "+l.Part, written(l.cutOff(room), room.BareUnit())
	var kept Kept
	file := amend.File{Folder: room.Dir, Path: l.Cloth.Cloth.At.File()}
	err := file.Change(func(text []byte) ([]byte, error) {
		kept = Kept{}
		noted, err := namesIn(text, "cut")
		if err != nil {
			return nil, err
		}
		there, err := namesIn(text, "remnants")
		if err != nil {
			return nil, err
		}
		if !noted[what] {
			kept.Cut = took
			entry := amend.Group(amend.Field{Name: "length", Value: amend.Figure(took)}, amend.Field{Name: "day", Value: amend.Figure(day.String())})
			if text, err = amend.Set(text, amend.At("cut", what), entry); err != nil {
				return nil, err
			}
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
		return text, nil
	})
	if err != nil {
		return Kept{}, err
	}
	return kept, nil
}

// cutOff is the length a lay takes off the cloth, in whole mm.
func (l *Lay) cutOff(room *record.Room) float64 {
	u := usualOf(room)
	return math.Ceil(l.straightened(&u).MM() - 1e-6)
}

// leftovers are the names of a lay's remnants and what is written behind each.
func (l *Lay) leftovers(g *record.Build, bare measure.Unit) (names []string, entries []amend.Value) {
	for i := range l.Left {
		for _, layer := range twinsOf(&l.Left[i]) {
			name := fmt.Sprintf("%s %s %d%s", g.Slug, l.Part, i+1, layer.word)
			names = append(names, name)
			entries = append(entries, entryOf(layer.outline, g.Slug, bare))
		}
	}
	return names, entries
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

// A twin is one of the remnants that folded cloth leaves twice.
type twin struct {
	word    string
	outline []shape.Point
}

func twinsOf(r *Remnant) []twin {
	if !r.Folded {
		return []twin{{"", r.Outline}}
	}
	far := 0.0
	for _, q := range r.Outline {
		far = max(far, q.X)
	}
	lower := make([]shape.Point, len(r.Outline))
	for i, q := range r.Outline {
		lower[len(lower)-1-i] = shape.Point{X: tenth(far - q.X), Y: q.Y}
	}
	return []twin{{say.Of("cutting.upper"), r.Outline}, {say.Of("cutting.lower"), lower}}
}

// entryOf is a remnant as it is written behind its name.
func entryOf(outline []shape.Point, from string, bare measure.Unit) amend.Value {
	length := func(mm float64) amend.Value { return amend.Figure(written(mm, bare)) }
	corners := make([]amend.Value, len(outline))
	for i, q := range outline {
		corners[i] = amend.List(length(q.X), length(q.Y))
	}
	return amend.Group(
		amend.Field{Name: "outline", Value: amend.List(corners...)},
		amend.Field{Name: "from", Value: amend.Words(from)},
	)
}

// namesIn are the names that stand under a word of a cloth's record.
func namesIn(text []byte, word string) (map[string]bool, error) {
	out := map[string]bool{}
	named, ok, err := amend.Read(text, amend.At(word))
	if err != nil || !ok {
		return out, err
	}
	for _, r := range named.Fields() {
		out[r.Name] = true
	}
	return out, nil
}
