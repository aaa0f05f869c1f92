package trade

// CareLimits are the most severe treatments a cloth stands on each axis.
type CareLimits struct {
	Wash         Wash     `yaml:"wash"`
	Bleach       Bleach   `yaml:"bleach"`
	Tumble       Tumble   `yaml:"tumble"`
	Iron         int      `yaml:"iron"` // sole plate °C: 0 (do not iron), 110, 150 or 200
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

// The cycles, mildest last.
const (
	Normal   Cycle = "normal"
	Mild     Cycle = "mild"
	VeryMild Cycle = "very mild"
)

// Bleach says what bleach is allowed.
type Bleach string

// The bleaches allowed, strictest first.
const (
	NoBleach  Bleach = "none"
	Oxygen    Bleach = "oxygen"
	AnyBleach Bleach = "any"
)

// Tumble is the tumble-drying limit.
type Tumble string

// The tumble-drying limits, strictest first.
const (
	NoTumble   Tumble = "none"
	LowTumble  Tumble = "low"    // exhaust at most 60 °C
	FullTumble Tumble = "normal" // exhaust at most 80 °C
)

// Clean is professional care. No solvent and no wet clean means: do not.
type Clean struct {
	Solvents []string `yaml:"solvents,omitempty"` // P, F
	Wet      bool     `yaml:"wet,omitempty"`
	Action   Cycle    `yaml:"action,omitempty"`
}
