package trade

import (
	"slices"
)

// A Caution is a warning shown where the work can hurt someone or break a
// rule. It states general facts and defers to local law.
type Caution struct {
	ID      string    `yaml:"id"`
	Title   string    `yaml:"title"`
	Applies string    `yaml:"applies"` // when, in plain words
	When    Condition `yaml:"when"`
	Text    string    `yaml:"text"`
	Defer   string    `yaml:"defer,omitempty"`
	Source  Source    `yaml:"source"`
}

// A Condition says when a caution applies. Every field given must hold; of a
// list one entry is enough; the words are comparable without their plural s. A
// condition of nothing never applies.
type Condition struct {
	Always    bool     `yaml:"always,omitempty"`
	Children  bool     `yaml:"children,omitempty"` // the table of children's clothes calls for it
	Flag      []string `yaml:"flag,omitempty"`     // state of the flammability flag of any cloth
	Surfaces  []string `yaml:"surfaces,omitempty"` // surface of any flagged cloth
	Garments  []string `yaml:"garments,omitempty"`
	Notions   []string `yaml:"notions,omitempty"`
	Materials []string `yaml:"materials,omitempty"` // fibres and other materials
	Tools     []string `yaml:"tools,omitempty"`     // tools and kinds of work
	Markets   []string `yaml:"markets,omitempty"`   // eu, us
	Sold      bool     `yaml:"sold,omitempty"`
	Ships     bool     `yaml:"ships,omitempty"`
}

type cautionTable struct {
	Defer    string    `yaml:"defer"`
	Cautions []Caution `yaml:"cautions"`
}

var cautionData = once(func() ([]Caution, error) {
	t, err := table[cautionTable]("cautions")
	if err != nil {
		return nil, err
	}
	for i := range t.Cautions {
		if t.Cautions[i].Defer == "" {
			t.Cautions[i].Defer = t.Defer
		}
	}
	return t.Cautions, nil
})

// Cautions are all cautions known here.
func Cautions() []Caution { return slices.Clone(cautionData()) }
