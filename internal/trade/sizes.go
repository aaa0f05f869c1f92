package trade

import (
	"math"
	"slices"
	"strconv"

	"gopkg.in/yaml.v3"

	"hembook/internal/meant"
	"hembook/internal/say"
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

// WhoIs is whose range a wearer is held against, by the record's word.
func WhoIs(word string) Wearer {
	switch word {
	case "woman":
		return Woman
	case "man":
		return Man
	case "girl", "boy", "child", "baby":
		return Child
	}
	return Anyone
}

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
	Source     Source `yaml:"source"`           // of the definition; the ranges are computed from ANSUR II, as their table says
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
		return nil, valueFault(n, say.Of("trade.a-list-of-numbers-please", count))
	}
	v := make([]float64, count)
	for i, c := range n.Content {
		f, err := strconv.ParseFloat(c.Value, 64)
		if err != nil || math.IsNaN(f) || math.IsInf(f, 0) {
			return nil, valueFault(c, say.Of("trade.is-not-a-number", say.Quoted(c.Value)))
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

// An EaseWarning is the ease in mm below which a fitted garment of woven cloth
// is doubtful.
type EaseWarning struct {
	At     string  `yaml:"at"`
	Least  float64 `yaml:"least"`
	Source Source  `yaml:"source"`
}

type sizeTable struct {
	Measurements []Measurement `yaml:"measurements"`
	Ratios       []Ratio       `yaml:"ratios"`
	EaseWarnings []EaseWarning `yaml:"ease-warnings"`
}

var sizeData = onceTable[sizeTable]("sizes")

// Measurements are the body measurements with a standard name.
func Measurements() []Measurement { return slices.Clone(sizeData().Measurements) }

// Ratios are the ratios that give typing errors away.
func Ratios() []Ratio { return slices.Clone(sizeData().Ratios) }

// EaseWarnings are the eases below which a fitted woven garment is doubtful.
func EaseWarnings() []EaseWarning { return slices.Clone(sizeData().EaseWarnings) }

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

// NearestMeasurement is the measurement name nearest to an unknown one; empty when
// none is near.
func NearestMeasurement(word string) string {
	var names []string
	for _, m := range sizeData().Measurements {
		names = append(names, m.Name)
	}
	return meant.Nearest(slug(word), names)
}
