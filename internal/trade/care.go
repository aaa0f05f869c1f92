package trade

import (
	"slices"

	"hembook/internal/say"
)

// CareLimits are the most severe treatments a cloth stands on each axis.
type CareLimits struct {
	Wash         Wash     `yaml:"wash"`
	Bleach       Bleach   `yaml:"bleach"`
	Tumble       Tumble   `yaml:"tumble"`
	Natural      Natural  `yaml:"-"`    // drying in the air, where the supplier says
	Iron         int      `yaml:"iron"` // sole plate °C: 0 (do not iron), 110, 150 or 200
	NoSteam      bool     `yaml:"no-steam,omitempty"`
	Professional Clean    `yaml:"professional"`
	Notes        []string `yaml:"notes,omitempty"`
	Source       Source   `yaml:"source"`
}

// Wash is the washing limit. Degrees 0 means do not wash.
type Wash struct {
	Degrees int   `yaml:"degrees"` // °C: 0, 30, 40, 50, 60, 70, 95
	Action  Cycle `yaml:"action,omitempty"`
	Hand    bool  `yaml:"hand,omitempty"` // by hand only
}

// Cycle is the mechanical action: no bar, one bar, two bars.
type Cycle string

// The cycles, mildest last. An empty cycle is the normal one.
const (
	Normal   Cycle = "normal"
	Mild     Cycle = "mild"
	VeryMild Cycle = "very mild"
)

// Bleach says what bleach is allowed.
type Bleach string

// The bleaches allowed, strictest first.
const (
	noBleach  Bleach = "none"
	oxygen    Bleach = "oxygen"
	anyBleach Bleach = "any"
)

// Tumble is the tumble-drying limit.
type Tumble string

// The tumble-drying limits, strictest first.
const (
	NoTumble   Tumble = "none"
	LowTumble  Tumble = "low"    // exhaust at most 60 °C
	FullTumble Tumble = "normal" // exhaust at most 80 °C
)

// Clean is professional care. No solvent and no wet clean means: do not. The
// solvent P allows all that F allows as well (from memory, ISO 3758).
type Clean struct {
	Solvents []string `yaml:"solvents,omitempty"` // P, F
	Wet      bool     `yaml:"wet,omitempty"`
	Action   Cycle    `yaml:"action,omitempty"`
}

var (
	cycles  = []Cycle{VeryMild, Mild, Normal}
	bleachs = []Bleach{noBleach, oxygen, anyBleach}
	tumbles = []Tumble{NoTumble, LowTumble, FullTumble}
)

// Meet is the care two layers of one garment stand together: on each axis the
// milder treatment, for solvents those both allow. The most fragile component
// decides (GINETEX Switzerland licensing FAQ); the combination axis by axis is
// derived. Notes of both are kept; the source is left empty.
func (c CareLimits) Meet(d CareLimits) CareLimits {
	return CareLimits{
		Wash:         c.Wash.meet(d.Wash),
		Bleach:       stricter(bleachs, c.Bleach, d.Bleach),
		Tumble:       stricter(tumbles, c.Tumble, d.Tumble),
		Natural:      c.Natural.meet(d.Natural),
		Iron:         min(c.Iron, d.Iron),
		NoSteam:      c.NoSteam || d.NoSteam,
		Professional: c.Professional.meet(d.Professional),
		Notes:        append(slices.Clone(c.Notes), d.Notes...),
	}
}

func (w Wash) meet(v Wash) Wash {
	m := Wash{Degrees: min(w.Degrees, v.Degrees)}
	if m.Degrees == 0 {
		return m // do not wash: no action to speak of
	}
	m.Action = stricter(cycles, w.cycle(), v.cycle())
	m.Hand = w.Hand || v.Hand
	return m
}

func (w Wash) cycle() Cycle { return cycleOf(w.Action) }

func cycleOf(c Cycle) Cycle {
	if c == "" {
		return Normal
	}
	return c
}

func (c Clean) meet(d Clean) Clean {
	m := Clean{Wet: c.Wet && d.Wet}
	for _, s := range []string{"P", "F"} {
		if c.allows(s) && d.allows(s) {
			m.Solvents = []string{s}
			break
		}
	}
	if len(m.Solvents) > 0 || m.Wet {
		m.Action = stricter(cycles, cycleOf(c.Action), cycleOf(d.Action))
	}
	return m
}

func (c Clean) allows(solvent string) bool {
	return slices.Contains(c.Solvents, solvent) || solvent == "F" && slices.Contains(c.Solvents, "P")
}

// Forbidden reports whether the article can be neither washed nor cleaned; a
// label must then say so (16 CFR 423.6(b)).
func (c CareLimits) Forbidden() bool {
	return c.Wash.Degrees == 0 && len(c.Professional.Solvents) == 0 && !c.Professional.Wet
}

// stricter is the one of two values that comes first in order, strictest
// first. A value not in the list counts as strictest, to be on the safe side.
func stricter[T comparable](order []T, a, b T) T {
	if slices.Index(order, a) <= slices.Index(order, b) {
		return a
	}
	return b
}

// A CareOption is one symbol of one axis, with what it is called.
type CareOption struct {
	Axis   string `yaml:"axis"` // wash, bleach, dry (tumble), natural, iron, professional, wet
	Name   string `yaml:"name"` // as a slug: wash-30-very-mild
	Words  string `yaml:"words"`
	Rank   int    `yaml:"rank"` // 0 is the strictest of its axis
	Source Source `yaml:"source"`
}

// A CareMaterial is a trim or other material that is no fibre, with its care.
type CareMaterial struct {
	Name string     `yaml:"name"`
	Also []Also     `yaml:"also,omitempty"`
	Care CareLimits `yaml:"care"`
}

type careTable struct {
	Order      []CareAxis      `yaml:"order"`
	Options    []CareOption    `yaml:"options"`
	Materials  []CareMaterial  `yaml:"materials"`
	Structures []CareStructure `yaml:"structures"`
}

// A CareStructure is a way to make a garment that limits its care beyond what its
// materials stand.
type CareStructure struct {
	Name  string     `yaml:"name"`  // boned, canvassed, fused, raw-edged, painted
	Title string     `yaml:"title"` // what of the garment it is: its boning
	Care  CareLimits `yaml:"care"`
}

// CareStructures are those known.
func CareStructures() []CareStructure { return slices.Clone(careData().Structures) }

// A CareAxis is one of the five groups of a care label, in label order.
type CareAxis struct {
	Name   string `yaml:"name"`
	Title  string `yaml:"title"`
	Source Source `yaml:"source"`
}

var careData = onceTable[careTable]("care")

// CareAxes are the five groups in the order of the label.
func CareAxes() []CareAxis { return slices.Clone(careData().Order) }

// Words says the washing limit plainly.
func (w Wash) Words() string {
	switch {
	case w.Degrees == 0:
		return say.Of("trade.do-not-wash")
	case w.Hand:
		return say.Of("trade.wash-by-hand-at-most-c", w.Degrees)
	case cycleOf(w.Action) == Normal:
		return say.Of("trade.wash-at-most-c", w.Degrees)
	default:
		return say.Of("trade.wash-at-most-c-cycle", w.Degrees, w.Action)
	}
}
