package workings

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"hembook/internal/workings/reckon"
)

// The kinds of finds beside those of package reckon, which are named after the
// same words.
const (
	noSum         = "no sum"                     // a known figure says nothing of how it was reached
	otherShown    = "shown otherwise"            // the figure as it is printed on pages and the number its sum ends in disagree
	otherDigits   = "digits disagree"            // a figure goes in with one number of decimals and stands in the sum with another
	inputDiffers  = "input is not that figure"   // an input names a figure whose value is another
	inputNobody   = "input names no figure"      // an input names an ID that does not exist
	inputItself   = "figure is its own input"    // …
	inputOneTwice = "one figure, two values"     // two inputs of a figure name the same ID with different values
	inputLine     = "not in the line named"      // an input names a line that does not hold it
	inputNoPlace  = "input has no origin"        // neither a place nor a figure, a default or a table
	inputUnread   = "input cannot be read"       // its value is neither a quantity nor a word of the record
	whyUntrue     = "because is not true"        // what is said to be missing is there
	whyUnread     = "because is not checked"     // the judge does not know how to check it
	wrongUnits    = "units of the other system"  // millimetres in an inch room, inches in a metric one
	wrongWeight   = "grams in an inch room"      // likewise weights
	sharedID      = "two figures share an ID"    // …
	hiddenDefault = "default not shown as one"   // an input says that it is a default and is not shown so
	sourceMissing = "source of a stitch missing" // a sum over several stitches does not cite them all
	noDefault     = "default is not the type's"  // no seam type has this default
)

// A find is one thing wrong with one figure.
type find struct {
	kind, room, build, id, say string
}

// A judge looks at the rooms and writes down what it finds.
type judge struct {
	finds   []find
	figures int // looked at
	sums    int // read to the end
	worked  int // of them, those with more than a result
	inputs  int
	whys    int
	at      find // where it is
}

func (j *judge) add(kind, format string, args ...any) {
	f := j.at
	f.kind, f.say = kind, fmt.Sprintf(format, args...)
	j.finds = append(j.finds, f)
}

// look judges every figure of a room.
func (j *judge) look(r *room) {
	for i := range r.builds {
		b := &r.builds[i]
		j.ids(r, b)
		for k := range b.entries {
			e := &b.entries[k]
			j.at = find{room: r.name, build: b.slug, id: e.ID}
			j.figures++
			j.sum(e)
			for n := range e.Inputs {
				j.inputs++
				j.input(r, b, e, &e.Inputs[n])
			}
			if !b.shared { // there, figures of several builds go in
				j.twice(e)
			}
			j.because(r, b, e)
			j.unitsOf(r, e)
			j.sources(e)
		}
	}
}

// sum reads a figure's sum and works it out again.
func (j *judge) sum(e *entry) {
	switch {
	case !e.Known:
		return
	case e.Sum == "":
		j.add(noSum, "%s", e.Shown)
		return
	case e.Moment != "":
		if e.result() != e.Moment {
			j.add(string(reckon.Unreadable), "%s", e.Sum)
		} else {
			j.sums++
		}
		return
	}
	finds := reckon.Judge(e.result(), e.Value)
	for _, f := range finds {
		j.add(string(f.Kind), "%s; %s", short(e.Sum), f.Say)
	}
	if slices.ContainsFunc(finds, func(f reckon.Find) bool { return f.Kind == reckon.Unreadable }) {
		return
	}
	j.sums++
	s, _ := reckon.Read(e.result())
	if s == nil {
		return
	}
	if len(s.Links) > 1 {
		j.worked++
		j.bareRatio(e, s)
	}
	j.shown(e, s.Links[len(s.Links)-1].Amount)
	j.digits(e)
}

// result is the sum, or of a sentence what it ends in.
func (e *entry) result() string {
	if at := strings.LastIndex(e.Sum, ": "); e.Told && at >= 0 {
		return e.Sum[at+2:]
	}
	return e.Sum
}

// bareRatio looks for a ratio of lengths, areas or masses that stand without
// their units: the result needs none, so that nothing else would find it.
func (j *judge) bareRatio(e *entry, s *reckon.Sum) {
	if e.Value.Dim != reckon.None || !strings.Contains(e.Sum, "÷") {
		return
	}
	for _, l := range s.Links {
		if l.Unit {
			return
		}
	}
	for _, in := range e.Inputs {
		v, _ := reckon.Read(in.Value)
		if v != nil && v.Links[0].Dim != reckon.None {
			j.add(string(reckon.UnitsMissing), "%s; %s goes in", short(e.Sum), in.Value)
			return
		}
	}
}

var yardsAndInches = regexp.MustCompile(`^−?\d+\s?yd(\s\d+\s?in)?$`)

// shown compares the number a sum ends in with the figure as it is printed.
func (j *judge) shown(e *entry, end reckon.Amount) {
	text, _, _ := strings.Cut(e.Shown, " (") // the first of two systems
	s, _ := reckon.Read(text)
	if s == nil || len(s.Links) != 1 {
		j.add(otherShown, "%q cannot be read", e.Shown)
		return
	}
	a := s.Links[0].Amount
	if yardsAndInches.MatchString(text) {
		a.Half = max(a.Half, 25.4/2) // whole inches are shown beside yards
	}
	if off := a.Value - end.Value; a.Dim == end.Dim && max(off, -off) > a.Half+end.Half+1e-6*max(1, end.Half) {
		j.add(otherShown, "%s beside %s", short(e.Sum), e.Shown)
	}
}

// digits compares how exactly a figure goes in with how exactly it stands in
// the sum.
func (j *judge) digits(e *entry) {
	in := map[string]bool{}
	for _, one := range e.Inputs {
		for _, n := range numbersIn(one.Value) {
			in[n.digits] = true
		}
	}
	shown, _, _ := strings.Cut(e.Sum, " = ") // what it comes to may be an input's neighbour
	for _, n := range numbersIn(shown) {
		if in[n.digits] || n.decimals == 0 {
			continue
		}
		for have := range in {
			m := readNumber(have)
			if m.decimals == 0 || m.decimals == n.decimals {
				continue
			}
			coarse := 0.5 * pow10(-min(m.decimals, n.decimals))
			if off := m.value - n.value; max(off, -off) <= coarse*1.0001 && m.value != 0 {
				j.add(otherDigits, "%s goes in, %s stands in %s", have, n.digits, short(e.Sum))
				return
			}
		}
	}
}

func short(s string) string {
	if r := []rune(s); len(r) > 160 {
		return string(r[:120]) + " … " + string(r[len(r)-30:])
	}
	return s
}
