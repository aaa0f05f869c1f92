package trade

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"
)

// Wearer says whose range a measurement is held against.
type Wearer string

// The wearers with a range; Child has none published here, so only what no
// child could be is refused.
const (
	Anyone Wearer = ""
	Woman  Wearer = "woman"
	Man    Wearer = "man"
	Child  Wearer = "child"
)

// A Measurement is a measurement of the body by its standard name.
type Measurement struct {
	Name       string `yaml:"name"` // slug: back-waist-length
	Title      string `yaml:"title"`
	Unit       string `yaml:"unit"` // mm, or kg for mass
	Definition string `yaml:"definition"`
	Also       []Also `yaml:"also,omitempty"`
	Women      *Range `yaml:"women,omitempty"`
	Men        *Range `yaml:"men,omitempty"`
	Survey     string `yaml:"survey,omitempty"` // what the survey calls it
	Source     Source `yaml:"source"`           // of the definition; ranges have RangeSource
}

// A Range is how a measurement is spread over the people of a survey.
type Range struct {
	Min, P1, P5, P50, P95, P99, Max, Mean, SD float64
}

// UnmarshalYAML reads [min, p1, p5, p50, p95, p99, max, mean, sd].
func (r *Range) UnmarshalYAML(n *yaml.Node) error {
	v, err := numbersOf(n, 9)
	if err != nil {
		return err
	}
	*r = Range{v[0], v[1], v[2], v[3], v[4], v[5], v[6], v[7], v[8]}
	return nil
}

func numbersOf(n *yaml.Node, count int) ([]float64, error) {
	if n.Kind != yaml.SequenceNode || len(n.Content) != count {
		return nil, valueFault(n, fmt.Sprintf("a list of %d numbers is wanted here", count))
	}
	v := make([]float64, count)
	for i, c := range n.Content {
		f, err := strconv.ParseFloat(c.Value, 64)
		if err != nil || math.IsNaN(f) || math.IsInf(f, 0) {
			return nil, valueFault(c, fmt.Sprintf("%q is not a number", c.Value))
		}
		v[i] = f
	}
	return v, nil
}

// A Ratio is how one measurement relates to another over a survey.
type Ratio struct {
	Of     string     `yaml:"of"`
	To     string     `yaml:"to"`
	Women  RatioRange `yaml:"women"`
	Men    RatioRange `yaml:"men"`
	Source Source     `yaml:"source"`
}

// A RatioRange is the spread of a ratio.
type RatioRange struct{ Min, P1, P50, P99, Max float64 }

// UnmarshalYAML reads [min, p1, p50, p99, max].
func (r *RatioRange) UnmarshalYAML(n *yaml.Node) error {
	v, err := numbersOf(n, 5)
	if err != nil {
		return err
	}
	*r = RatioRange{v[0], v[1], v[2], v[3], v[4]}
	return nil
}

// Ease is a published least wearing ease in mm; Most equals Least where the
// publication gives one number.
type Ease struct {
	Garment string  `yaml:"garment"`
	At      string  `yaml:"at"` // name of a measurement
	Least   float64 `yaml:"least"`
	Most    float64 `yaml:"most"`
	Source  Source  `yaml:"source"`
}

// An EaseWarning is the ease in mm below which a fitted garment of woven cloth
// is doubtful.
type EaseWarning struct {
	At     string  `yaml:"at"`
	Least  float64 `yaml:"least"`
	Source Source  `yaml:"source"`
}

// A SizeChart is a published table of sizes.
type SizeChart struct {
	Sizes  []string  `yaml:"sizes"`
	Rows   []SizeRow `yaml:"rows"`
	Source Source    `yaml:"source"`
}

// A SizeRow is one dimension of a size chart, in inches as published.
type SizeRow struct {
	Title       string   `yaml:"title"`
	Measurement string   `yaml:"measurement,omitempty"` // our name for it, where there is one
	Inches      []Inches `yaml:"inches"`
}

// Inches is a length in inches, written like 31 1/8.
type Inches float64

// MM is the length in millimetres.
func (i Inches) MM() float64 { return float64(i) * 25.4 }

// UnmarshalYAML reads a whole number, a fraction or both.
func (i *Inches) UnmarshalYAML(n *yaml.Node) error {
	total := 0.0
	for _, part := range strings.Fields(n.Value) {
		top, bottom, isFraction := strings.Cut(part, "/")
		v, err := strconv.ParseFloat(top, 64)
		if err == nil && isFraction {
			var d float64
			if d, err = strconv.ParseFloat(bottom, 64); err == nil && d > 0 {
				v /= d
			}
		}
		if err != nil {
			return valueFault(n, fmt.Sprintf("%q is no length in inches, such as 31 1/8", n.Value))
		}
		total += v
	}
	if n.Kind != yaml.ScalarNode || !(total > 0) || math.IsInf(total, 0) {
		return valueFault(n, "a length in inches is wanted here, such as 31 1/8")
	}
	*i = Inches(total)
	return nil
}

// WomenSizes is the EN 13402-3 table in cm. It is from memory and must not be
// shown to readers before someone has checked the standard.
type WomenSizes struct {
	Source Source    `yaml:"source"`
	Bust   []float64 `yaml:"bust"`
	Waist  []float64 `yaml:"waist"`
	Hip    []float64 `yaml:"hip"`
}

type cupTable struct {
	Source Source `yaml:"source"`
	Rows   []struct {
		Cup  string  `yaml:"cup"`
		Low  float64 `yaml:"low"`  // cm, excluded
		High float64 `yaml:"high"` // cm, included
	} `yaml:"rows"`
}

type sizeTable struct {
	RangeSource  Source        `yaml:"range-source"`
	Measurements []Measurement `yaml:"measurements"`
	Ratios       []Ratio       `yaml:"ratios"`
	Ease         []Ease        `yaml:"ease"`
	EaseWarnings []EaseWarning `yaml:"ease-warnings"`
	ASTM         SizeChart     `yaml:"astm-d5585"`
	EN           WomenSizes    `yaml:"en-13402-3"`
	Cups         cupTable      `yaml:"cups"`
}

var sizeData = onceTable[sizeTable]("sizes")

// Measurements are the body measurements with a standard name.
func Measurements() []Measurement { return slices.Clone(sizeData().Measurements) }

// Ratios are the ratios that give typing errors away.
func Ratios() []Ratio { return slices.Clone(sizeData().Ratios) }

// RangeSource is where the ranges and ratios come from.
func RangeSource() Source { return sizeData().RangeSource }

// LeastEase is the table of published wearing ease.
func LeastEase() []Ease { return slices.Clone(sizeData().Ease) }

// EaseWarnings are the eases below which a fitted woven garment is doubtful.
func EaseWarnings() []EaseWarning { return slices.Clone(sizeData().EaseWarnings) }

// MissesSizes is ASTM D5585-11e1, Table 1, as far as it was read.
func MissesSizes() SizeChart { return sizeData().ASTM }

// UncheckedWomenSizes is EN 13402-3 from memory; see WomenSizes.
func UncheckedWomenSizes() WomenSizes { return sizeData().EN }

// MeasurementNamed finds a measurement by its name or any word for it.
func MeasurementNamed(word string) (Measurement, bool) {
	for _, m := range sizeData().Measurements {
		if slug(m.Name) == slug(word) || slug(m.Title) == slug(word) {
			return m, true
		}
	}
	for _, m := range sizeData().Measurements {
		if slices.ContainsFunc(m.Also, func(a Also) bool { return slug(a.Term) == slug(word) }) {
			return m, true
		}
	}
	return Measurement{}, false
}

// MeasurementHint offers the measurement name nearest to an unknown one.
func MeasurementHint(word string) string {
	var names []string
	for _, m := range sizeData().Measurements {
		names = append(names, m.Name)
	}
	return nearest(slug(word), names)
}

// BraSize is the EN 13402 label for an underbust and a bust girth in cm.
func BraSize(underbust, bust float64) (string, error) {
	band := int(math.Round(underbust/5)) * 5
	for _, r := range sizeData().Cups.Rows {
		if d := bust - underbust; d > r.Low && d <= r.High {
			return fmt.Sprintf("%d%s", band, r.Cup), nil
		}
	}
	return "", fmt.Errorf("a bust %s cm above the underbust is outside the cups known here", number(bust-underbust))
}
