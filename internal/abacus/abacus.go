// Package abacus is the second calculator: it works out the main figures of a
// garment again, from the same workroom, plainly and slowly, so that the
// program's own arithmetic has something to be held against.
//
// It was written from what a maker may read (the guide, the words of a record,
// the trade's tables) and not from the program's code. It shares nothing with
// it: it reads YAML and lengths by itself, draws curves as many short straight
// lines, and finds the area of what is cut by slicing it into strips. Where
// the two differ, one of them is wrong.
//
// Lengths inside are float64 millimetres, areas mm², masses grams, times
// minutes, money exact fractions. Only tests use this package.
package abacus

import (
	"fmt"
	"math/big"
	"strings"
)

// A Figure is one value as the second calculator finds it.
type Figure struct {
	Value float64  // in Unit; the amount for money; 0 where not known
	Unit  string   // as the program's JSON writes it: mm, cm², m², m, g, %, min, °, ×
	Money *big.Rat // the exact amount before it is rounded to the currency's smallest coin; set for money
	Words string   // set for what is no number: names in order, a moment
	Why   string   // why it is not known; empty where it is
}

// Figures are the figures of a build by their IDs.
type Figures map[string]Figure

func (f Figures) put(id string, value float64, unit string) {
	f.set(id, Figure{Value: value, Unit: unit})
}

func (f Figures) unknown(id, why string) { f.set(id, Figure{Why: why}) }

// set refuses to give one figure two values: the test's own mistake.
func (f Figures) set(id string, fig Figure) {
	if _, twice := f[id]; twice {
		panic("abacus: " + id + " is worked out twice")
	}
	f[id] = fig
}

// A Workroom is a workroom as text: what stands in each file, by its path from
// the workroom's folder ("content/workroom.yaml").
type Workroom map[string]string

// Reckon works out the figures of one build, as they are after a round of
// fitting; round −1 means after the last. It reports an error where the record
// holds something that this calculator was not taught.
func Reckon(room Workroom, tables *Tables, build string, round int) (figures Figures, err error) {
	defer func() {
		if r := recover(); r != nil {
			u, ok := r.(untaught)
			if !ok {
				panic(r)
			}
			err = fmt.Errorf("abacus: %s", string(u))
		}
	}()
	g := newGarment(room, tables, build, round)
	g.makePieces()
	g.makeSeams()
	out := Figures{}
	g.bring(out)
	g.findAllowances()
	g.pieceFigures(out)
	g.seamFigures(out)
	g.crossFigures(out)
	g.levelFigures(out)
	g.stripFigures(out)
	g.clothFigures(out)
	g.threadFigures(out)
	g.notionFigures(out)
	g.timeFigures(out)
	g.totalFigures(out)
	g.costFigures(out)
	g.contentFigures(out)
	return out, nil
}

// untaught is what this calculator gives up with.
type untaught string

func giveUp(format string, args ...any) {
	panic(untaught(fmt.Sprintf(format, args...)))
}

// slug makes the part of an ID that names a thing: small letters and hyphens.
func slug(name string) string {
	var out strings.Builder
	gap := false
	for _, r := range strings.ToLower(name) {
		if r >= 'a' && r <= 'z' || r >= '0' && r <= '9' {
			if gap && out.Len() > 0 {
				out.WriteByte('-')
			}
			gap = false
			out.WriteRune(r)
			continue
		}
		gap = true
	}
	return out.String()
}
