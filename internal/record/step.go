package record

import (
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/say"
)

// StepID is a step's name as one word: small letters and digits, hyphens between
// its words.
func (s *Step) StepID() string { return AsStep(s.Do.V) }

// AsStep is a name as steps are compared by: in lower case, its words joined by hyphens.
func AsStep(name string) string {
	var room [64]byte
	out, gap := room[:0], false
	for _, r := range name {
		if !unicode.IsLetter(r) && !unicode.IsDigit(r) {
			gap = len(out) > 0
			continue
		}
		if gap {
			out, gap = append(out, '-'), false
		}
		out = utf8.AppendRune(out, unicode.ToLower(r))
	}
	return string(out)
}

// stepsNamed are the steps that a name may mean, as numbers into Work: the one
// that is called so, or else all that begin with its words.
func (b *Build) stepsNamed(name string) []int {
	id := AsStep(name)
	if id == "" {
		return nil
	}
	var begin []int
	for i := range b.Work {
		switch own := b.Work[i].StepID(); {
		case own == id:
			return []int{i}
		case strings.HasPrefix(own, id+"-"):
			begin = append(begin, i)
		}
	}
	return begin
}

// stepsWith are the steps in whose names each word of a half-given name begins a
// word, its ending left off: "trace" is in "thread-trace" and in "tracing the lining".
func (b *Build) stepsWith(name string) []int {
	said := strings.Split(AsStep(name), "-")
	var out []int
	for i := range b.Work {
		own := strings.Split(b.Work[i].StepID(), "-")
		has := true
		for _, word := range said {
			stem := strings.TrimSuffix(strings.TrimSuffix(word, "ing"), "e")
			has = has && len(stem) >= 3 && slices.ContainsFunc(own, func(w string) bool { return strings.HasPrefix(w, stem) })
		}
		if has {
			out = append(out, i)
		}
	}
	return out
}

// step finds the step that a name means, and puts its whole name as one word in
// the name's place.
func (c *buildCheck) step(name *Text) {
	if !name.Given() {
		return
	}
	found := c.b.stepsNamed(name.V)
	if len(found) == 0 {
		if near := c.b.stepsWith(name.V); len(near) > 1 {
			found = near
		}
	}
	switch len(found) {
	case 1:
		name.V = c.b.Work[found[0]].StepID()
	case 0:
		var all []string
		for i := range c.b.Work {
			all = append(all, c.b.Work[i].Do.V)
		}
		known(*name, listed{"step", say.Of("record.in-this-garments-work"), all}, c.faults)
	default:
		names := make([]string, len(found))
		for i, k := range found {
			names[i] = strconv.Quote(fault.Shorten(c.b.Work[k].Do.V))
		}
		slices.Sort(names)
		c.faults.Wrong(name.At, say.Of("record.write-more-of-its-words"), say.Of("record.may-be", say.Quoted(fault.Shorten(name.V)), meant.List(names, "or")))
	}
}
