package trade

import (
	"fmt"
	"hembook/internal/words"
	"strings"
)

// Natural is drying in the air. The zero value says nothing of it.
type Natural struct {
	Said  bool // something is known
	Flat  bool // lying flat; else on a line
	Drip  bool // dripping wet, not wrung or spun
	Shade bool // out of the sun
}

// meet is the drying two layers stand together: flat goes before a line,
// dripping before wrung, shade before sun. Derived from the rule that the most
// fragile component decides.
func (n Natural) meet(m Natural) Natural {
	return Natural{n.Said || m.Said, n.Flat || m.Flat, n.Drip || m.Drip, n.Shade || m.Shade}
}

// Option is the name of its symbol; "" where nothing is said.
func (n Natural) Option() string {
	if !n.Said {
		return ""
	}
	name := "dry-line"
	if n.Flat {
		name = "dry-flat"
	}
	if n.Drip {
		name += "-drip"
	}
	if n.Shade {
		name += "-shade"
	}
	return name
}

// Option is the name of the symbol of a washing limit.
func (w Wash) Option() string {
	switch {
	case w.Degrees == 0:
		return "do-not-wash"
	case w.Hand:
		return "wash-hand"
	}
	return fmt.Sprintf("wash-%d%s", w.Degrees, cycleName(w.Action))
}

// Option is the name of the symbol of a bleaching limit.
func (b Bleach) Option() string {
	if b == anyBleach || b == oxygen {
		return "bleach-" + string(b)
	}
	return "bleach-none"
}

// Option is the name of the symbol of a tumble-drying limit.
func (t Tumble) Option() string {
	if t == LowTumble || t == FullTumble {
		return "tumble-" + string(t)
	}
	return "tumble-none"
}

// Options are the names of the symbols of professional care: a solvent, wet
// cleaning, or both; "clean-none" where neither may be.
func (c Clean) Options() []string {
	var out []string
	switch {
	case c.allows("P"):
		out = append(out, "clean-p"+cycleName(c.Action))
	case c.allows("F"):
		out = append(out, "clean-f"+onlyMild(c.Action))
	}
	if c.Wet {
		out = append(out, "wet"+cycleName(c.Action))
	}
	if len(out) == 0 {
		return []string{"clean-none"}
	}
	return out
}

// IronOption is the name of the symbol of an ironing limit.
func (c CareLimits) IronOption() string {
	switch {
	case c.Iron <= 0:
		return "iron-none"
	case c.NoSteam:
		return "iron-no-steam"
	case c.Iron < 150:
		return "iron-110"
	case c.Iron < 200:
		return "iron-150"
	}
	return "iron-200"
}

// cycleName is how a cycle ends the name of a symbol.
func cycleName(c Cycle) string {
	if cycleOf(c) == Normal {
		return ""
	}
	return "-" + strings.ReplaceAll(string(c), " ", "-")
}

// onlyMild is cycleName where the strictest symbol has one bar.
func onlyMild(c Cycle) string {
	if cycleOf(c) == Normal {
		return ""
	}
	return "-mild"
}

// CareOptionNamed finds a symbol by its name.
func CareOptionNamed(name string) (CareOption, bool) {
	for _, o := range careData().Options {
		if o.Name == name {
			return o, true
		}
	}
	return CareOption{}, false
}

// CareMaterialNamed finds a trim or other material by any word for it.
func CareMaterialNamed(word string) (CareMaterial, bool) {
	for _, m := range careData().Materials {
		if words.Stem(m.Name) == words.Stem(word) {
			return m, true
		}
		for _, a := range m.Also {
			if words.Stem(a.Term) == words.Stem(word) {
				return m, true
			}
		}
	}
	return CareMaterial{}, false
}
