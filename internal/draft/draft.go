// Package draft writes the record of a garment from measurements: a draft is data,
// formulas over named measures, and what it writes is a record like any other.
package draft

import (
	"embed"
	"fmt"
	"path"
	"slices"
	"strconv"
	"strings"
	"sync"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/trade"
	"hembook/internal/words"
)

//go:embed drafts/*.yaml
var files embed.FS

// BuiltIn are the drafts of the program itself, by name.
var BuiltIn = sync.OnceValue(func() []*record.Draft {
	entries, err := files.ReadDir("drafts")
	if err != nil {
		panic(err)
	}
	var out []*record.Draft
	for _, e := range entries {
		text, err := files.ReadFile(path.Join("drafts", e.Name()))
		if err != nil {
			panic(err)
		}
		d, faults := record.ReadDraft("drafts/"+e.Name(), strings.TrimSuffix(e.Name(), ".yaml"), text)
		if len(faults) > 0 {
			panic(fmt.Sprintf("draft: %v", faults)) // a test reads them all
		}
		out = append(out, d)
	}
	return out
})

// Among are the drafts of a workroom: its own, and of the program's those whose
// name it has not taken.
func Among(own []*record.Draft) []*record.Draft {
	out := slices.Clone(own)
	for _, d := range BuiltIn() {
		if !slices.ContainsFunc(own, func(o *record.Draft) bool { return o.Slug == d.Slug }) {
			out = append(out, d)
		}
	}
	return out
}

// Named finds a draft by its name or file name; what is refused says which there are.
func Named(drafts []*record.Draft, name string) (*record.Draft, error) {
	var names []string
	for _, d := range drafts {
		if strings.EqualFold(d.Slug, name) || strings.EqualFold(d.Name.V, name) {
			return d, nil
		}
		names = append(names, d.Slug)
	}
	return nil, fault.Refusing(meant.Among(name, names, say.Of("draft.there-are")), say.Of("draft.there-is-no-draft-called", say.Quoted(name)))
}

// Values are what a draft is drawn for: lengths in millimetres and counts, by the names
// its measures, choices and counts have.
type Values map[string]float64

// An Ask is one thing a draft wants to know or lets be chosen.
type Ask struct {
	Name, About string
	Usual       float64 // mm, or a count; where it must not be asked
	Must        bool    // nothing is usual
	Count       bool
	least, most float64 // 0 where there is no bound
}

// Asks lists what a draft can be told, what it must be told first.
func Asks(d *record.Draft) []Ask {
	var out []Ask
	for _, m := range d.Measures {
		a := Ask{Name: m.Name.V, About: m.About.V, Must: true}
		a.bound(m.Least, m.Most)
		out = append(out, a)
	}
	for _, c := range d.Choices {
		a := Ask{Name: c.Name.V, About: c.About.V, Usual: c.Usual.V.MM()}
		a.bound(c.Least, c.Most)
		out = append(out, a)
	}
	for _, c := range d.Counts {
		out = append(out, Ask{Name: c.Name.V, About: c.About.V, Usual: float64(c.Usual.V), Count: true,
			least: float64(c.Least.V), most: float64(c.Most.V)})
	}
	return out
}

func (a *Ask) bound(least, most record.Length) {
	if least.Given() {
		a.least = least.V.MM()
	}
	if most.Given() {
		a.most = most.V.MM()
	}
}

// Read reads what is said in one line, "waist 74 cm, hip 98 cm, gores 8", into values.
// A bare length is in unit.
func (v Values) Read(d *record.Draft, line string, unit measure.Unit) error {
	asks := Asks(d)
	for part := range strings.SplitSeq(line, ",") {
		part = strings.TrimSpace(strings.Replace(part, "=", " ", 1))
		if part == "" {
			continue
		}
		if part[0] >= '0' && part[0] <= '9' {
			return fault.Refusing(say.Of("draft.write-a-point-in-a-number-as"), say.Of("draft.stands-without-a-name", say.Quoted(part)))
		}
		i := longest(asks, part)
		if i < 0 {
			name := strings.TrimRight(part, " 0123456789./cmin")
			return fault.Refusing(meant.Among(name, names(asks), say.Of("draft.it-can-be-told")), say.Of("draft.knows-nothing-called", d.Name.V, say.Quoted(name)))
		}
		said := strings.TrimSpace(part[len(asks[i].Name):])
		for _, a := range asks {
			if before, after, two := strings.Cut(said, " "+a.Name+" "); two {
				return fault.Refusing(say.Of("draft.put-a-comma-between-them", asks[i].Name, before, a.Name, after), say.Of("draft.names-two-measurements", say.Quoted(part)))
			}
		}
		if err := v.Set(asks[i], said, unit); err != nil {
			return err
		}
	}
	return nil
}

// longest is the ask whose name a part begins with, the longest such: waist ease before
// waist; -1 where there is none.
func longest(asks []Ask, part string) int {
	found := -1
	for i, a := range asks {
		if strings.HasPrefix(part, a.Name+" ") && (found < 0 || len(a.Name) > len(asks[found].Name)) {
			found = i
		}
	}
	return found
}

func names(asks []Ask) []string {
	out := make([]string, len(asks))
	for i, a := range asks {
		out[i] = a.Name
	}
	return out
}

// Set reads one answer and holds it against what can be meant.
func (v Values) Set(a Ask, text string, unit measure.Unit) error {
	var x float64
	if a.Count {
		n, err := strconv.Atoi(text)
		if err != nil {
			return fault.Refusing(say.Of("draft.as-6", a.Name), say.Of("draft.is-a-number-of-things-not", a.Name, say.Quoted(text)))
		}
		x = float64(n)
	} else {
		l, err := measure.ParseLength(text, unit)
		if err != nil {
			message, hint := fault.Words(err)
			if hint == "" {
				hint = say.Of("draft.a-length-as-74-cm")
			}
			return fault.Refuse(hint, "%s: %s", a.Name, message)
		}
		x = l.MM()
	}
	show := func(x float64) string {
		if a.Count {
			return strconv.Itoa(int(x))
		}
		return words.Tape(unit).Written(x) + " " + unit.Symbol()
	}
	if a.least != 0 && x < a.least || a.most != 0 && x > a.most {
		return fault.Refusing(say.Of("draft.look-at-the-unit"), say.Of("draft.is-not-between-and", a.Name, show(x), show(a.least), show(a.most)))
	}
	if a.Must && !a.Count {
		if level, _ := trade.Plausible(a.Name, x, trade.Anyone); level == trade.Wrong {
			m, _ := trade.MeasurementNamed(a.Name)
			least, most, _ := m.Span(trade.Anyone)
			return fault.Refusing(say.Of("draft.look-at-the-unit"), say.Of("draft.nobody-has-a-of-to-were-measured", a.Name, show(x), words.Tape(unit).Written(least), show(most)))
		}
	}
	v[a.Name] = x
	return nil
}

// Missing are the measures nothing is known of yet.
func (v Values) Missing(d *record.Draft) []Ask {
	var out []Ask
	for _, a := range Asks(d) {
		if _, have := v[a.Name]; a.Must && !have {
			out = append(out, a)
		}
	}
	return out
}

// Write writes the record: lengths in unit, to a tenth of a millimetre or a thousandth of an
// inch, for a dozen gores add up what is left out.
func Write(d *record.Draft, v Values, unit measure.Unit) ([]byte, error) {
	params, err := work(d, v)
	if err != nil {
		return nil, err
	}
	var b strings.Builder
	for _, p := range d.Parts() {
		if p.Formula == "" {
			b.WriteString(p.Words)
			continue
		}
		x, err := value(p.Formula, params)
		switch {
		case err != nil:
			return nil, err
		case p.Number:
			b.WriteString(words.PlainNumber(x, 3))
		default:
			b.WriteString(words.Tape(unit).Written(x))
		}
	}
	return []byte(b.String()), nil
}

// work gives every name of a draft its value, in millimetres.
func work(d *record.Draft, v Values) (trade.Params, error) {
	params := trade.Params{}
	for _, a := range Asks(d) {
		x, have := v[a.Name]
		if !have && a.Must {
			return nil, fault.Refusing("", say.Of("draft.asks-for", d.Name.V, a.Name, a.About))
		}
		if !have {
			x = a.Usual
		}
		params[record.FormulaName(a.Name)] = x
	}
	for _, s := range d.Sums {
		x, err := value(s.Is.V, params)
		if err != nil {
			return nil, err
		}
		params[record.FormulaName(s.Name.V)] = x
	}
	for _, c := range d.Checks {
		e, err := trade.ReadExpr(c.Must.V)
		if err != nil {
			return nil, err
		}
		holds, _, err := e.Holds(params)
		if err != nil {
			return nil, err
		}
		if !holds {
			return nil, fault.Refuse("", "%s", c.Say.V)
		}
	}
	return params, nil
}

func value(formula string, params trade.Params) (float64, error) {
	e, err := trade.ReadExpr(formula)
	if err != nil {
		return 0, err
	}
	return e.Value(params)
}
