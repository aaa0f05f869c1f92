package capture

import (
	"slices"
	"strings"
	"time"

	"hembook/internal/bench"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/record/amend"
	"hembook/internal/say"
)

const (
	mostName = 60   // characters of the name of what was measured
	leastMM  = -200 // of a drop, in mm, as the reader of records has it
	mostMM   = 500
)

// measured enters a finished dimension. One that stood there before is written
// anew, and the journal says what it was.
func (e *entering) measured() (string, error) {
	name, bare := strings.TrimSpace(e.slip.Name), unitOf(e.build, e.room)
	if len([]rune(name)) > mostName {
		return "", refuse(say.Of("capture.the-name-of-what-was-measured-is", mostName))
	}
	long, err := measure.ParseLength(e.slip.Value, bare)
	switch {
	case err != nil:
		return "", refuse(name + ": " + err.Error())
	case long <= 0:
		return "", refuse(say.Of("capture.nothing-measures", name, e.slip.Value))
	}
	value, was := amend.Figure(e.slip.Value), ""
	err = e.record.Change(func(text []byte) ([]byte, error) {
		old, _, err := amend.Read(text, amend.At("measured", name))
		if err != nil {
			return nil, err
		}
		if was = old.Text(); was == value.Text() {
			return text, nil
		}
		if e.again && e.receipt.Found && was != e.receipt.Was {
			return nil, refuse(say.Of("capture.was-changed-meanwhile-to", name, was))
		}
		e.receipt.Found, e.receipt.Was = true, was
		if err := e.mark(); err != nil {
			return nil, err
		}
		return e.setMeasured(text, name, was, value)
	})
	if err != nil {
		return "", orRefusal(err)
	}
	if was != "" && was != value.Text() {
		return say.Of("capture.before-in", name, value.Text(), was, e.file.Name), nil
	}
	return say.Of("capture.in", name, value.Text(), e.file.Name), nil
}

// setMeasured is the record's text with the value, and with a line of the
// journal where another stood there.
func (e *entering) setMeasured(text []byte, name, was string, value amend.Value) ([]byte, error) {
	next, err := amend.Set(text, amend.At("measured", name), value)
	if err != nil || was == "" {
		return next, err
	}
	line := bench.Entry{At: e.receipt.At, Note: say.Of("capture.measured-again-before", name, value.Text(), was)}
	return amend.Append(next, amend.At("journal"), line.Value())
}

// unitOf is what a bare length of a build is in.
func unitOf(b *record.Build, room *record.Room) measure.Unit {
	if u, ok := measure.ParseUnit(b.Units.V); b.Units.Given() && ok {
		return u
	}
	return room.BareUnit()
}

// hang enters how far a hem dropped, station by station.
func (e *entering) hang() (string, error) {
	s, bare := &e.slip, unitOf(e.build, e.room)
	for _, ref := range s.Of {
		if !hasEdge(e.build, ref) {
			return "", refuse(say.Of("capture.has-no-edge-any-more", e.file.Name, say.Quoted(ref)))
		}
	}
	drops := make([]amend.Value, len(s.Drops))
	for i, d := range s.Drops {
		long, err := measure.ParseSigned(d, bare)
		switch {
		case err != nil:
			return "", refuse(say.Of("capture.place", i+1, err))
		case long.MM() < leastMM || long.MM() > mostMM:
			return "", refuse(say.Of("capture.place-is-more-than-a-hem-drops", i+1, d))
		}
		drops[i] = amend.Figure(d)
	}
	fields := []amend.Field{{Name: "of", Value: edges(s.Of)}, {Name: "day", Value: amend.Figure(e.receipt.At.Format(time.DateOnly))}}
	if s.After != "" {
		if _, err := measure.ParseDuration(s.After); err != nil {
			return "", refuse(say.Of("capture.how-long-it-hung", err))
		}
		fields = append(fields, amend.Field{Name: "after", Value: amend.Figure(s.After)})
	}
	if s.First != "" {
		if long, err := measure.ParseLength(s.First, bare); err != nil || long < 0 {
			return "", refuse(say.Of("capture.where-the-first-place-is", s.First))
		}
		fields = append(fields, amend.Field{Name: "first", Value: amend.Figure(s.First)})
	}
	fields = append(fields, amend.Field{Name: "drops", Value: amend.List(drops...)})
	if note := strings.TrimSpace(s.Note); note != "" {
		fields = append(fields, amend.Field{Name: "note", Value: amend.Words(note)})
	}
	if err := e.append(amend.At("hang"), amend.Group(fields...)); err != nil {
		return "", err
	}
	return say.Of("capture.hem-drop-at-places-of-in", len(drops), strings.Join(s.Of, ", "), e.file.Name), nil
}

func edges(of []string) amend.Value {
	if len(of) == 1 {
		return amend.Words(of[0])
	}
	list := make([]amend.Value, len(of))
	for i, ref := range of {
		list[i] = amend.Words(ref)
	}
	return amend.List(list...)
}

// hasEdge reports whether a finish or a hem of the record names the edge.
func hasEdge(b *record.Build, ref string) bool {
	return slices.ContainsFunc(hemsOf(b), func(of []string) bool { return slices.Contains(of, ref) })
}

// hemsOf are the hems of a build that may hang: those whose drops are written
// already, and the finished edges that are called a hem.
func hemsOf(b *record.Build) [][]string {
	var out [][]string
	add := func(of []record.EdgeRef) {
		names := make([]string, len(of))
		for i, r := range of {
			names[i] = r.Piece + "." + r.Edge
		}
		if len(names) > 0 && !slices.ContainsFunc(out, func(o []string) bool { return slices.Equal(o, names) }) {
			out = append(out, names)
		}
	}
	for i := range b.Finishes {
		f := &b.Finishes[i]
		hem := strings.Contains(f.Type.V, "hem") || strings.Contains(f.Name.V, "hem")
		for _, r := range f.Of {
			hem = hem || strings.Contains(r.Edge, "hem")
		}
		if hem {
			add(f.Of)
		}
	}
	for i := range b.Hang {
		add(b.Hang[i].Of)
	}
	return out
}
