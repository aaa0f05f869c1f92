package label

import (
	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/record"
	"hembook/internal/trade"
	"strconv"
	"strings"
)

// checkOther faults "other fibres" that are more than the law allows.
func checkOther(c *record.Cloth, i int, faults *fault.Faults) {
	if f := &c.Fibres[i]; isOther(f.Name.V) && float64(f.V.V) > trade.OtherFibresSum {
		faults.Errorf(f.V.At, "name the fibres: at most 15 % may be other fibres (Regulation (EU) No 1007/2011, art. 9(2))", "%s %% of other fibres is too much", strconv.FormatFloat(float64(f.V.V), 'f', -1, 64))
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
		faults.Errorf(e.V.At, "it may be: "+orNothing(forms, "nothing, there is only one row"), "%s has no agreed allowance for %q", e.Name.V, e.V.V)
	}
}

func fibreThere(c *record.Cloth, name record.Text, faults *fault.Faults) bool {
	if _, ok := c.Fibres.Get(name.V); ok {
		return true
	}
	faults.Errorf(name.At, "its fibres are: "+strings.Join(c.Fibres.Names(), ", "), "there is no %q in this cloth", name.V)
	return false
}

// check looks at what concerns no single build.
func (t *Labeller) check(faults *fault.Faults) {
	for _, c := range t.room.Cloths {
		for i := range c.Fibres {
			name := c.Fibres[i].Name
			if _, ok := trade.FibreNamed(name.V); !ok && !isOther(name.V) {
				near := trade.NearestFibre(name.V)
				faults.Errorf(name.At, meant.Ask(near), "there is no fibre %q", name.V).Instead(name.V, near)
			}
			checkOther(c, i, faults)
		}
		checkDryMass(c, faults)
	}
	for _, e := range t.room.Techniques {
		for _, id := range e.Cautions {
			if !t.warner.knows(id.V) {
				faults.Errorf(id.At, t.warner.hint(id.V), "there is no caution %q", id.V)
			}
		}
	}
}
