package trade

import "slices"

// A Shrinkage is a published first-wash shrinkage in per cent, as a prompt
// when no wash test is recorded. Along is warp, Across is weft.
type Shrinkage struct {
	Cloth  string  `yaml:"cloth"`
	Along  Percent `yaml:"along"`
	Across Percent `yaml:"across"`
	Source Source  `yaml:"source"`
}

// Percent is a span of per cent; Least equals Most for a single value.
type Percent struct {
	Least float64 `yaml:"least"`
	Most  float64 `yaml:"most"`
}

// A HemDepth is a published depth of hem in mm.
type HemDepth struct {
	Garment string  `yaml:"garment"`
	Least   float64 `yaml:"least"`
	Most    float64 `yaml:"most"`
	Printed string  `yaml:"printed"` // as published
	Source  Source  `yaml:"source"`
}

// A CommonMeasure is a usual measure of the trade in mm: an allowance, a
// stitch length, a clearance.
type CommonMeasure struct {
	Name   string  `yaml:"name"`
	What   string  `yaml:"what"`
	Least  float64 `yaml:"least"`
	Most   float64 `yaml:"most"`
	Source Source  `yaml:"source"`
}

// A Fullness is the ratio of cut to finished length for gathers and pleats.
type Fullness struct {
	Use    string  `yaml:"use"`
	Least  float64 `yaml:"least"`
	Most   float64 `yaml:"most"`
	Source Source  `yaml:"source"`
}

// A Habit is something the trade does and why.
type Habit struct {
	Name   string `yaml:"name"`
	Text   string `yaml:"text"`
	Source Source `yaml:"source"`
}

// A TruingLimit is how far what must meet may be off, in mm or in degrees.
type TruingLimit struct {
	Name   string  `yaml:"name"`
	What   string  `yaml:"what"`
	Value  float64 `yaml:"value"`
	Unit   string  `yaml:"unit"`
	Source Source  `yaml:"source"`
}

type practiceTable struct {
	Shrinkage []Shrinkage     `yaml:"shrinkage"`
	Hems      []HemDepth      `yaml:"hems"`
	Measures  []CommonMeasure `yaml:"measures"`
	Fullness  []Fullness      `yaml:"fullness"`
	Truing    []TruingLimit   `yaml:"truing"`
	Habits    []Habit         `yaml:"habits"`
}

var practiceData = onceTable[practiceTable]("practice")

// Shrinkages are prompts for cloth without a wash test.
func Shrinkages() []Shrinkage { return slices.Clone(practiceData().Shrinkage) }

// HemDepths are published hem depths.
func HemDepths() []HemDepth { return slices.Clone(practiceData().Hems) }

// CommonMeasures are usual allowances and other measures.
func CommonMeasures() []CommonMeasure { return slices.Clone(practiceData().Measures) }

// CommonMeasureNamed finds a usual measure by its name.
func CommonMeasureNamed(name string) (CommonMeasure, bool) {
	for _, m := range practiceData().Measures {
		if m.Name == name {
			return m, true
		}
	}
	return CommonMeasure{}, false
}

// TruingLimits are how far what must meet may be off.
func TruingLimits() []TruingLimit { return slices.Clone(practiceData().Truing) }

// Fullnesses are ratios for gathers and pleats.
func Fullnesses() []Fullness { return slices.Clone(practiceData().Fullness) }

// Habits are the trade's ways of working.
func Habits() []Habit { return slices.Clone(practiceData().Habits) }
