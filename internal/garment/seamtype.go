package garment

import (
	"cmp"
	"errors"
	"maps"
	"slices"
	"strings"
	"sync"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/trade"
)

// A seamType is a seam type of the trade or the workroom with what every
// garment asks of it worked out once.
type seamType struct {
	trade.SeamType
	rows        []trade.RowCount
	main        string  // the stitch that a record's own stands for
	follows     bool    // its measure "allowance" follows the edges
	allowance   float64 // the default of that measure
	plain       trade.Params
	a, b, width float64 // with all defaults

	stacks func() []trade.Stack // what lies on each other across it
}

// followed is the measure of a seam type that follows what its edges have
// where the maker does not write it.
const followed = "allowance"

func newSeamType(s trade.SeamType) *seamType {
	t := &seamType{SeamType: s, rows: s.RowCounts()}
	t.main = mainStitch(t.rows)
	for _, p := range s.Parameters {
		if p.Name == followed {
			t.follows, t.allowance = true, p.Default
		}
	}
	t.plain, _ = s.Values(nil) // the tables are checked: defaults always work out
	t.a, _ = s.Gives.A.Value(t.plain)
	t.b, _ = s.Gives.B.Value(t.plain)
	t.width, _ = s.Width.Value(t.plain)
	t.stacks = sync.OnceValue(s.Stacks)
	return t
}

// gives is the formula of what a side gives up.
func (t *seamType) gives(side int) trade.Expr {
	if side == 1 {
		return t.Gives.B
	}
	return t.Gives.A
}

// lockstitch is what a pass is sewn with where nothing is said.
const lockstitch = "301"

// mainStitch is the stitch that a record's own stands for: that of the lasting
// passes of which the table says nothing, so that an edge neatened with an
// overlock stays so when the seam is chain-stitched; where it says something of
// all of them, that of the first.
func mainStitch(rows []trade.RowCount) string {
	first := ""
	for _, r := range rows {
		switch {
		case r.Temporary:
		case r.Stitch == lockstitch:
			return lockstitch
		case first == "":
			first = r.Stitch
		}
	}
	return cmp.Or(first, lockstitch)
}

// seamTypeOf finds the type a seam or finish names, and faults one that is not
// known or of the wrong kind.
func (w *derivation) seamTypeOf(name record.Text, kind trade.Kind) *seamType {
	if !name.Given() {
		return nil
	}
	t := w.t.types[name.V]
	switch {
	case t == nil:
		of := trade.OfKind(w.t.list, kind)
		near := trade.NearestSeamType(of, name.V)
		w.faults.Wrong(name.At, cmp.Or(meant.Ask(near), trade.SeamTypesLike(of, name.V)), say.Of("garment.there-is-no", kindWord(kind), say.Quoted(name.V))).Instead(name.V, near)
	case t.Kind != kind:
		w.faults.Wrong(name.At, belongs(t.Kind), say.Of("garment.is-a-not-a", name.V, kindWord(t.Kind), kindWord(kind)))
		return nil
	}
	return t
}

// belongs says where a type of this kind is written.
func belongs(k trade.Kind) string {
	if k == trade.Finish {
		return say.Of("garment.write-it-under-finishes")
	}
	return say.Of("garment.write-it-under-seams")
}

func kindWord(k trade.Kind) string {
	if k == trade.Finish {
		return "finish"
	}
	return say.Of("garment.seam-type")
}

// given collects the measures a record gives a seam type, and faults those the
// type does not have. followed is left out where nothing was written.
func (w *derivation) given(t *seamType, with record.Dict[record.Length]) trade.Params {
	if len(with) == 0 {
		return nil
	}
	out := make(trade.Params, len(with))
	for i := range with {
		name, v := with[i].Name, with[i].V
		if _, ok := t.plain[name.V]; !ok {
			w.noMeasure(t, name)
			continue
		}
		if v.V < 0 {
			w.faults.Wrong(v.At, say.Of("garment.write-it-without-the-minus-sign"), say.Of("garment.cannot-be-negative", name.V)).Delete("-")
			continue
		}
		if v.Given() {
			out[name.V] = v.V.MM()
		}
	}
	return out
}

// noMeasure tells of a measure that a type does not have, and whether another, or
// another word of the record, was probably meant.
func (w *derivation) noMeasure(t *seamType, name record.Text) {
	_, err := t.Values(trade.Params{name.V: 1})
	says, hint, _ := strings.Cut(firstLine(err), "; ")
	now := meant.Nearest(name.V, slices.Sorted(maps.Keys(t.plain)))
	if word := record.SewingWord(t.Kind == trade.Finish, name.V); now == "" && word != "" {
		now, hint = word, say.Of("garment.did-you-mean-3", word)
	}
	w.faults.Wrong(name.At, hint, says).Instead(name.V, now)
}

func firstLine(err error) string {
	if err == nil {
		err = errors.New(say.Of("garment.the-measure-is-not-known"))
	}
	return err.Error()
}

// oneLine says several things that are wrong after one another.
func oneLine(err error) string { return strings.ReplaceAll(err.Error(), "\n", "; ") }

// filled is the type's measures with the defaults filled in.
func (t *seamType) filled(given trade.Params) trade.Params {
	if len(given) == 0 {
		return t.plain
	}
	out := make(trade.Params, len(t.plain))
	for k, v := range t.plain {
		out[k] = v
	}
	for k, v := range given {
		out[k] = v
	}
	return out
}

// broken faults the type's own checks that do not hold, in its own words, at
// the first measure written that the check speaks of, else at the type.
func (w *desk) broken(t *seamType, who string, p trade.Params, with record.Dict[record.Length], at fault.Pos) {
	for i := range t.Checks {
		ok, working, err := t.Checks[i].Must.Holds(p)
		if err != nil || ok {
			continue
		}
		say := working
		if list, err := t.Broken(p, w.tape().Exact); err == nil {
			for _, b := range list {
				if b.Working == working {
					say = b.Say
				}
			}
		}
		w.faults.Errorf(checkPlace(&t.Checks[i], with, at), "", "%q: %s", who, say)
	}
}

func checkPlace(c *trade.Check, with record.Dict[record.Length], at fault.Pos) fault.Pos {
	for _, name := range c.Must.Names() {
		for i := range with {
			if with[i].Name.V == name {
				return with[i].V.At
			}
		}
	}
	return at
}
