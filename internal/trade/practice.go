package trade

import "slices"

// A TruingLimit is how far what must meet may be off, in mm or in degrees.
type TruingLimit struct {
	Name   string  `yaml:"name"`
	What   string  `yaml:"what"`
	Value  float64 `yaml:"value"`
	Unit   string  `yaml:"unit"`
	Source Source  `yaml:"source"`
}

type practiceTable struct {
	Truing []TruingLimit `yaml:"truing"`
}

var practiceData = onceTable[practiceTable]("practice")

// TruingLimits are how far what must meet may be off.
func TruingLimits() []TruingLimit { return slices.Clone(practiceData().Truing) }
