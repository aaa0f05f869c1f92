package label

import (
	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/trade"
	"strconv"
	"strings"
)

// checkOther faults "other fibres" that are more than the law allows.
func checkOther(c *record.Cloth, i int, faults *fault.Faults) {
	if f := &c.Fibres[i]; isOther(f.Name.V) && float64(f.V.V) > trade.OtherFibresSum {
		faults.Wrong(f.V.At, say.Of("label.name-the-fibres-at-most-15-may"), say.Of("label.of-other-fibres-is-too-much", strconv.FormatFloat(float64(f.V.V), 'f', -1, 64)))
	}
}

// checkDryMass looks whether a cloth has the fibres its dry mass speaks of, and
// the fibres the forms.
func checkDryMass(c *record.Cloth, faults *fault.Faults) {
	for i := range c.DryMass.Lost {
		fibreThere(c, c.DryMass.Lost[i].Name, faults)
	}
	for i := range c.DryMass.Form {
		e := &c.DryMass.Form[i]
		if !fibreThere(c, e.Name, faults) {
			continue
		}
		f, _ := trade.FibreNamed(e.Name.V)
		if _, ok := f.Allowance(e.V.V); ok {
			continue
		}
		var forms []string
		for _, a := range f.Allowances {
			if a.Form != "" {
				forms = append(forms, a.Form)
			}
		}
		faults.Wrong(e.V.At, say.Of("label.it-may-be", orNothing(forms, say.Of("label.nothing-there-is-only-one-row"))), say.Of("label.has-no-agreed-allowance-for", e.Name.V, say.Quoted(e.V.V)))
	}
}

func fibreThere(c *record.Cloth, name record.Text, faults *fault.Faults) bool {
	if _, ok := c.Fibres.Get(name.V); ok {
		return true
	}
	faults.Wrong(name.At, say.Of("label.its-fibres-are", strings.Join(c.Fibres.Names(), ", ")), say.Of("label.there-is-no-in-this-cloth", say.Quoted(name.V)))
	return false
}

// check looks at what concerns no single build.
func (t *Labeller) check(faults *fault.Faults) {
	for _, c := range t.room.Cloths {
		for i := range c.Fibres {
			name := c.Fibres[i].Name
			if _, ok := trade.FibreNamed(name.V); !ok && !isOther(name.V) {
				near := trade.NearestFibre(name.V)
				faults.Wrong(name.At, meant.Ask(near), say.Of("label.there-is-no-fibre-2", say.Quoted(name.V))).Instead(name.V, near)
			}
			checkOther(c, i, faults)
		}
		checkDryMass(c, faults)
	}
	for _, e := range t.room.Techniques {
		for _, id := range e.Cautions {
			if !t.warner.knows(id.V) {
				faults.Wrong(id.At, t.warner.hint(id.V), say.Of("label.there-is-no-caution", say.Quoted(id.V)))
			}
		}
	}
}
