package trade

import (
	"errors"
	"math"
	"sort"
	"strings"

	"hembook/internal/say"
)

// Kind tells seams, which join two edges, from finishes, which make one neat.
type Kind string

// The two kinds of construction.
const (
	Seam   Kind = "seam"
	Finish Kind = "finish"
)

// A SeamType is one way of joining two edges or of finishing one, as data: its
// words, its passes, and what it takes from the cloth as formulas over its
// parameters. Workrooms add their own in the same form (SeamTypesFromNode).
//
// Side A is the ply that lies on top or is named first, side B the other; some seams
// have a third, side C; a finish has side A alone. What becomes of the sides stands in
// left.go.
type SeamType struct {
	Name       string      `yaml:"name"` // slug: flat-felled
	Title      string      `yaml:"title"`
	Kind       Kind        `yaml:"kind"`
	Also       []Also      `yaml:"also,omitempty"`
	Summary    string      `yaml:"summary"` // one sentence
	Use        string      `yaml:"use"`     // when to choose it
	Cautions   []string    `yaml:"cautions,omitempty"`
	ISO        *Code       `yaml:"iso4916,omitempty"`
	US         *Code       `yaml:"us,omitempty"` // ASTM D6193, formerly Fed-Std-751A
	Parameters []Parameter `yaml:"parameters,omitempty"`
	Gives      Sides       `yaml:"gives"`                // allowance each side gives up, mm
	Keeps      Sides       `yaml:"keeps"`                // cloth left of each side when it is sewn, mm
	Holds      Least       `yaml:"holds"`                // least of it that must stay to sew it so again, mm
	Clipped    bool        `yaml:"clipped,omitempty"`    // what is left is clipped: nothing of it can be let out
	Turns      bool        `yaml:"turns,omitempty"`      // side b lies behind side a afterwards, as a facing does
	RowsShow   bool        `yaml:"rows-show,omitempty"`  // rows of it are seen outside, and so are their holes when it is let out
	TapeHolds  bool        `yaml:"tape-holds,omitempty"` // a tape of fixed length holds it
	RowsOnly   bool        `yaml:"rows-only,omitempty"`  // of a finish: it makes no edge neat, which is sewn or finished besides
	Width      Expr        `yaml:"width"`                // what shows or lies flat when done, mm
	Plies      int         `yaml:"plies"`                // most layers on top of each other, the garment counted
	Corner     Corner      `yaml:"corner,omitempty"`     // of a finish: how its allowance ends beside a slanting edge
	Folds      []Expr      `yaml:"folds,omitempty"`      // of a finish: depth of each turn, from the finished edge inwards, mm
	Wants      Places      `yaml:"wants,omitempty"`      // what it is sewn to or on; any edge where nothing is said
	Widens     Expr        `yaml:"widens,omitempty"`     // of a finish of slits: how much longer each makes the edge that it is cut from, mm
	Band       *BandRule   `yaml:"band,omitempty"`       // of a seam: how a band is sewn on with it
	Strips     []Strip     `yaml:"strips,omitempty"`
	Pieces     []PieceRule `yaml:"pieces,omitempty"` // pieces it brings, cut to measure
	Passes     []Pass      `yaml:"passes,omitempty"`
	Checks     []Check     `yaml:"checks,omitempty"`
	Drawing    SectionRule `yaml:"section"`
	Source     Source      `yaml:"source"`

	line, column int

	beside []Beside // rows that lie beside it, each the last of its passes
	turned bool     // sides a and b are exchanged in its section
}

// A Code is a standard's code for a seam. Class is the ISO 4916 class digit,
// or 0 for codes of other standards.
type Code struct {
	Class  int    `yaml:"class,omitempty"`
	Code   string `yaml:"code,omitempty"`
	Source Source `yaml:"source"`
}

// A Parameter is a measure the maker may set, in millimetres.
type Parameter struct {
	Name    string  `yaml:"name"`
	Title   string  `yaml:"title"`
	Default float64 `yaml:"default"`
}

// Sides are formulas for each side, in millimetres from the finished seam line
// or edge.
type Sides struct {
	A Expr `yaml:"a,omitempty"`
	B Expr `yaml:"b,omitempty"`
	C Expr `yaml:"c,omitempty"`
}

// Together says which sides of the cloth face each other during a pass.
type Together string

// How plies lie during a pass.
const (
	RightTogether Together = "right" // right sides together
	WrongTogether Together = "wrong" // wrong sides together
	LaidFlat      Together = "flat"  // neither: laid flat, turned or lapped
)

// A Pass is one time through the machine or one row by hand.
type Pass struct {
	Do        string   `yaml:"do"`   // what is stitched; {name} stands for a value
	At        Expr     `yaml:"at"`   // distance of the row, mm
	From      string   `yaml:"from"` // from which edge or fold that is measured
	Together  Together `yaml:"together"`
	Stitch    string   `yaml:"stitch"`              // ISO 4915 type, default 301
	Rows      int      `yaml:"rows"`                // rows of stitching, default 1
	Temporary bool     `yaml:"temporary,omitempty"` // basted, taken out again
	Stretches bool     `yaml:"stretches,omitempty"` // its rows give more than their stitch alone, as two needles over one bobbin
	Leaves    Sides    `yaml:"leaves,omitempty"`    // what trimming leaves of a side beyond the finished line, mm
	Under     Sides    `yaml:"under,omitempty"`     // what is turned under of a side, mm
	Pressed   Pressed  `yaml:"pressed,omitempty"`   // where the allowances lie after it
	Through   Through  `yaml:"through"`             // the plies that each drawn row passes
	Then      string   `yaml:"then,omitempty"`      // trim, turn, press
}

// A Check is a comparison that must hold, and what to say when it does not.
// {name} in the words stands for a value.
type Check struct {
	Must Expr   `yaml:"must"`
	Say  string `yaml:"say"`
}

// Values fills in the defaults for every parameter not given. It refuses a
// name the seam type does not have, and a value that is negative or no number.
func (t SeamType) Values(given Params) (Params, error) {
	p := Params{}
	names := make([]string, 0, len(t.Parameters))
	for _, par := range t.Parameters {
		p[par.Name] = par.Default
		names = append(names, par.Name)
	}
	for _, name := range sortedNames(given) {
		v := given[name]
		if _, ok := p[name]; !ok {
			return nil, errors.New(say.Of("trade.has-no-measure", t.Title, say.Quoted(name), t.measureHint(name, names)))
		}
		if v < 0 || math.IsNaN(v) || math.IsInf(v, 0) {
			return nil, errors.New(say.Of("trade.cannot-be-mm", t.Title, name, number(v)))
		}
		p[name] = v
	}
	return p, nil
}

func (t SeamType) measureHint(name string, names []string) string {
	if h := Meant(name, names, say.Of("trade.it-has")); h != "" {
		return "; " + h
	}
	if len(names) == 0 {
		return say.Of("trade.it-has-none")
	}
	return ""
}

// Allowances are what side A and side B give up, in millimetres from the
// finished line to the cut edge. For a finish, b is the zero Worked.
func (t SeamType) Allowances(given Params) (a, b Worked, err error) {
	p, err := t.Values(given)
	if err != nil {
		return a, b, err
	}
	if a, err = t.Gives.A.Eval(p); err != nil {
		return a, b, err
	}
	if t.Gives.B.Given() {
		b, err = t.Gives.B.Eval(p)
	}
	return a, b, err
}

// FinishedWidth is the width of the finished seam or finish, in millimetres.
func (t SeamType) FinishedWidth(given Params) (Worked, error) {
	p, err := t.Values(given)
	if err != nil {
		return Worked{}, err
	}
	return t.Width.Eval(p)
}

// A Broken check is one that the given measures do not satisfy.
type Broken struct {
	Say     string // what is wrong, for the maker
	Working string // "trim < second: 6 < 5"
}

// Broken lists the checks that do not hold, in the order of the table. length prints the
// lengths they speak of; nil prints millimetres.
func (t SeamType) Broken(given Params, length func(mm float64) string) ([]Broken, error) {
	if length == nil {
		length = millimetres
	}
	p, err := t.Values(given)
	if err != nil {
		return nil, err
	}
	var out []Broken
	for _, c := range t.Checks {
		ok, working, err := c.Must.Holds(p)
		if err != nil {
			return nil, err
		}
		if !ok {
			say, err := fillIn(c.Say, p, length)
			if err != nil {
				return nil, err
			}
			out = append(out, Broken{say, working})
		}
	}
	return out, nil
}

// RowCount is a number of rows of one stitch type, for thread.
type RowCount struct {
	Stitch    string
	Rows      int
	Temporary bool
}

// RowCounts adds up the rows stitched, by stitch type in the order of the
// passes, rows to be taken out again apart.
func (t SeamType) RowCounts() []RowCount {
	var out []RowCount
next:
	for _, p := range t.Passes {
		for i := range out {
			if out[i].Stitch == p.Stitch && out[i].Temporary == p.Temporary {
				out[i].Rows += p.Rows
				continue next
			}
		}
		out = append(out, RowCount{p.Stitch, p.Rows, p.Temporary})
	}
	return out
}

// fillIn replaces {formula} in a text by its value, written by length.
func fillIn(text string, p Params, length func(float64) string) (string, error) {
	var b strings.Builder
	for {
		head, rest, ok := strings.Cut(text, "{")
		b.WriteString(head)
		if !ok {
			return b.String(), nil
		}
		formula, tail, ok := strings.Cut(rest, "}")
		if !ok {
			return "", errors.New(say.Of("trade.lacks-a-closing-brace", say.Quoted(text)))
		}
		e, err := ReadExpr(formula)
		if err != nil {
			return "", err
		}
		w, err := e.Eval(p)
		if err != nil {
			return "", err
		}
		b.WriteString(length(w.Value))
		text = tail
	}
}

func sortedNames(p Params) []string {
	names := make([]string, 0, len(p))
	for n := range p {
		names = append(names, n)
	}
	sort.Strings(names)
	return names
}
