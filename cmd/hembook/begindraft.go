package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"maps"
	"math"
	"slices"
	"strings"

	"hembook/internal/draft"
	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/words"
)

// A drafting is what the command line says of a record that is drawn from measurements.
type drafting struct {
	from   string // the draft
	with   string // "waist 74 cm, hip 98 cm"
	wearer string
	size   string // "misses 12": of a published table
	cloth  string
}

// draftText draws a record. What the draft must know and nobody said is asked at a
// terminal, where ask is not nil.
func draftText(room *record.Room, how drafting, ask io.Reader, out io.Writer) ([]byte, error) {
	d, err := draft.Named(draft.Among(room.Drafts), how.from)
	if err != nil {
		return nil, useError{refusalOf(err)}
	}
	unit := room.BareUnit()
	values := draft.Values{}
	if how.wearer != "" {
		if err := sizeOf(room, how.wearer, d, values, out); err != nil {
			return nil, err
		}
	}
	if how.size != "" {
		if err := tableSize(how.size, d, values, unit, out); err != nil {
			return nil, useError{refusalOf(err)}
		}
	}
	if err := values.Read(d, how.with, unit); err != nil {
		return nil, useError{refusalOf(err)}
	}
	if missing := values.Missing(d); len(missing) > 0 {
		if ask == nil {
			return nil, misused(say.Of("hembook.asks-for-as-with", d.Name.V, askedFor(missing), exampleOf(missing, unit)))
		}
		fmt.Fprint(out, say.Of("hembook.where-the-tape-goes-is-drawn-on"))
		if err := askFor(missing, values, unit, ask, out); err != nil {
			return nil, err
		}
	}
	text, err := draft.Write(d, values, unit)
	if err != nil {
		return nil, err
	}
	cloth, err := clothFor(room, how.cloth, ask, out)
	if err != nil {
		return nil, err
	}
	body := strings.NewReplacer("UNITS", unit.String(), "CLOTH", cloth).Replace(string(text))
	return []byte(say.Of("hembook.drawn-from-the-draft-yours-to-change", say.Quoted(d.Name.V), body)), nil
}

// refusalOf is an error as a refusal.
func refusalOf(err error) *fault.Refusal {
	message, hint := fault.Words(err)
	return fault.Refuse(hint, "%s", message)
}

func askedFor(asks []draft.Ask) string {
	var out []string
	for _, a := range asks {
		out = append(out, a.Name+" ("+a.About+")")
	}
	return strings.Join(out, ", ")
}

// exampleOf shows how measurements are written, with none of anybody's.
func exampleOf(asks []draft.Ask, unit measure.Unit) string {
	var out []string
	for _, a := range asks {
		out = append(out, a.Name+" … "+unit.String())
	}
	return strings.Join(out, ", ")
}

// askFor asks for measurements one by one, again where an answer cannot be meant.
func askFor(asks []draft.Ask, into draft.Values, unit measure.Unit, from io.Reader, out io.Writer) error {
	lines := bufio.NewScanner(from)
	for _, a := range asks {
		if drawn := draft.Tape(a.Name); drawn != "" {
			fmt.Fprintf(out, "\n%s\n", drawn)
		}
		for {
			fmt.Fprint(out, say.Of("hembook.in", a.Name, a.About, unit))
			if !lines.Scan() {
				return errors.New(say.Of("hembook.no-answer-came-is-not-known-yet", a.Name))
			}
			err := into.Set(a, strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(lines.Text()), a.Name+" ")), unit)
			if err == nil {
				break
			}
			fmt.Fprintln(out, err)
		}
	}
	return nil
}

// sizeStep is what a wearer's measurements are rounded up to, in mm: a record is public, a
// body is not.
func sizeStep(unit measure.Unit) float64 {
	if unit == measure.UnitIn {
		return 25.4
	}
	return 20
}

// sizeOf takes the size a wearer falls in: each measurement the draft asks for, rounded up.
func sizeOf(room *record.Room, name string, d *record.Draft, into draft.Values, out io.Writer) error {
	held, there := room.Wearers[name]
	if !there {
		names := slices.Sorted(maps.Keys(room.Wearers))
		return misused(say.Of("hembook.there-is-no-wearer-called", say.Quoted(name), meant.Among(name, names, say.Of("hembook.there-are"))))
	}
	unit := room.BareUnit()
	var said []string
	step := sizeStep(unit)
	for _, m := range d.Measures {
		for _, e := range held.Open(record.ToTheMaker).Body {
			if e.Name.V == m.Name.V {
				size := math.Ceil(e.V.V.MM()/step-1e-9) * step
				into[m.Name.V] = size
				said = append(said, m.Name.V+" "+words.Tape(unit).Written(size)+" "+unit.String())
			}
		}
	}
	if said != nil {
		fmt.Fprintln(out, say.Of("hembook.drawn-for-the-size-the-next-above", strings.Join(said, ", "), name, said[0]))
	}
	return nil
}

// tableSize takes what a published table says of a size, as far as the draft asks for it.
func tableSize(said string, d *record.Draft, into draft.Values, unit measure.Unit, out io.Writer) error {
	t, column, err := draft.SizeNamed(said)
	if err != nil {
		return err
	}
	var known, open []string
	for _, m := range d.Measures {
		mm, ok := t.Of(m.Name.V, column)
		if !ok {
			open = append(open, m.Name.V)
			continue
		}
		into[m.Name.V] = mm
		known = append(known, m.Name.V+" "+words.Tape(unit).Written(mm)+" "+unit.String())
	}
	if known == nil {
		return fault.Refusing("measure: "+strings.Join(open, ", "), say.Of("hembook.has-nothing-that-asks-for", t.Name, d.Name.V))
	}
	fmt.Fprintln(out, say.Of("hembook.drawn-for", t.Name, t.Sizes[column], strings.Join(known, ", "), t.Source))
	return nil
}

// clothFor is the cloth a new record names: the one said, the only one on the shelf, or
// which is asked for at a terminal.
func clothFor(room *record.Room, name string, ask io.Reader, out io.Writer) (string, error) {
	var names []string
	for _, c := range room.Cloths {
		if c.Slug == name {
			return name, nil
		}
		names = append(names, c.Slug)
	}
	if name == "" && len(names) > 1 && ask != nil {
		fmt.Fprint(out, say.Of("hembook.cut-from-which-cloth", strings.Join(names, ", ")))
		lines := bufio.NewScanner(ask)
		lines.Scan()
		return clothFor(room, strings.TrimSpace(lines.Text()), nil, out)
	}
	switch {
	case name == "" && len(names) > 1:
		return "", misused(say.Of("hembook.cut-from-which-cloth-say-cloth-and", strings.Join(names, ", ")))
	case name != "":
		return "", misused(say.Of("hembook.there-is-no-cloth-called", say.Quoted(name), meant.Among(name, names, say.Of("hembook.there-are"))))
	case names == nil:
		return "", misused(say.Of("hembook.there-is-no-cloth-in-content-cloth"))
	}
	return names[0], nil
}

// listDrafts prints what can be drawn, from which measurements, and for which sizes.
func listDrafts(own []*record.Draft, out io.Writer) {
	for _, d := range draft.Among(own) {
		var must, may []string
		for _, a := range draft.Asks(d) {
			if a.Must {
				must = append(must, a.Name)
			} else {
				may = append(may, a.Name)
			}
		}
		fmt.Fprintln(out, say.Of("hembook.asks-for", d.Slug, d.Summary.V, strings.Join(must, ", ")))
		if may != nil {
			fmt.Fprintln(out, say.Of("hembook.may-be-told", strings.Join(may, ", ")))
		}
	}
	fmt.Fprint(out, say.Of("hembook.sizes-as-size-misses-12"))
	for _, t := range draft.SizeTables() {
		fmt.Fprintf(out, "  %s %s\n    %s\n", t.Name, strings.Join(t.Sizes, ", "), t.Source)
	}
}
