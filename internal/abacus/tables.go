package abacus

import (
	"os"
	"path/filepath"
	"slices"
)

// Tables are the trade's tables, read as data.
type Tables struct {
	types    map[string]seamType
	stitches map[string]stitch
}

// A seamType is a seam type or a finish.
type seamType struct {
	names    []string // of its parameters, in order
	defaults map[string]float64
	gives    [2]string // formulas: what each side gives up; a finish has the first alone
	third    string    // and a third side, of the few that have one
	width    string
	corner   string   // how its allowance ends, of a finish
	folds    []string // formulas: how deep each turn is, of one that is mirrored
	strips   []stripOf
	pieces   []pieceOf
	rowsOnly bool   // it makes no edge neat and takes none: rows beside an edge
	widens   string // by how much a slit of it makes the edge longer that it is cut from
	passes   []pass
	plies    float64 // the most that lie on each other

	bandOn    int    // the side that is a band; -1 where either may be
	bandWide  string // the measure that is as wide as the band; "" where none is
	bandInner string // what becomes of the inner edge of a folded one; "" where it is left alone
}

type stripOf struct {
	cut   string
	count float64
	share float64 // its length for one of the edge
	each  string  // or how long each is, of the length of its edge; "" where its share says
	as    string  // what it is; a tape where nothing is said
}

// bought reports whether such a strip is never cut from a cloth: elastic, zips, cords
// and braid are bought.
func (s *stripOf) bought() bool {
	return slices.Contains([]string{"elastic", "zip", "cord", "braid"}, s.as)
}

// drawsIn reports whether such a strip, shorter than its edge, draws it in.
func (s *stripOf) drawsIn() bool { return s.as == "elastic" || s.as == "ribbing" }

type pass struct {
	rows      float64
	stitch    string // "" for the seam's own
	temporary bool   // taken out again
	pressed   string // how the allowances lie after it
}

// sewn reports whether something is sewn that stays: neither a raw edge is, nor what is
// basted and pulled out again.
func (t *seamType) sewn() bool {
	return slices.ContainsFunc(t.passes, func(p pass) bool { return !p.temporary })
}

// A stitch says how much thread a length of it takes.
type stitch struct {
	known, hand   bool
	total         float64 // thread per length of seam
	needle, under float64 // shares
}

// ReadTables reads the tables of seam types, finishes and stitches from a
// folder.
func ReadTables(dir string) (*Tables, error) {
	t := &Tables{types: map[string]seamType{}, stitches: map[string]stitch{}}
	for _, pattern := range []string{"seams-*.yaml", "finishes-*.yaml"} {
		files, err := filepath.Glob(filepath.Join(dir, pattern))
		if err != nil {
			return nil, err
		}
		for _, file := range files {
			text, err := os.ReadFile(file)
			if err != nil {
				return nil, err
			}
			t.addTypes(readYAML(file, string(text)))
		}
	}
	text, err := os.ReadFile(filepath.Join(dir, "stitches.yaml"))
	if err != nil {
		return nil, err
	}
	for _, s := range readYAML("stitches.yaml", string(text)).get("stitches").list() {
		st := stitch{hand: s.get("hand").yes()}
		if r := s.get("ratio"); r.there() {
			st.known, st.total = true, r.get("total").number()
			st.needle, st.under = r.get("needle").number()/100, r.get("under").number()/100
		}
		t.stitches[s.get("type").text()] = st
	}
	return t, nil
}

func (t *Tables) addTypes(list node) {
	for _, e := range list.list() {
		st := seamType{defaults: map[string]float64{}, width: e.get("width").text(), corner: e.get("corner").text(), folds: e.get("folds").texts(),
			rowsOnly: e.get("rows-only").yes(), bandOn: -1, bandWide: e.get("band").get("width").text(), bandInner: e.get("band").get("inner").text()}
		switch e.get("band").get("side").text() {
		case "a":
			st.bandOn = 0
		case "b":
			st.bandOn = 1
		}
		for _, p := range e.get("parameters").list() {
			name := p.get("name").text()
			st.names = append(st.names, name)
			st.defaults[name] = p.get("default").number()
		}
		st.third = e.get("gives").get("c").text()
		st.gives = [2]string{e.get("gives").get("a").text(), e.get("gives").get("b").text()}
		for _, s := range e.get("strips").list() {
			st.strips = append(st.strips, stripOf{s.get("cut").text(), numberOr(s.get("count"), 1), numberOr(s.get("share"), 1), s.get("length").text(), s.get("as").text()})
		}
		st.widens = e.get("widens").text()
		for _, p := range e.get("pieces").list() {
			st.pieces = append(st.pieces, pieceOf{p.get("what").text(), p.get("cut").text(), p.get("length").text(), p.get("of").text(), p.get("folds").texts(), numberOr(p.get("count"), 1)})
		}
		for _, p := range e.get("passes").list() {
			st.passes = append(st.passes, pass{numberOr(p.get("rows"), 1), p.get("stitch").text(), p.get("temporary").yes(), p.get("pressed").text()})
		}
		st.plies = numberOr(e.get("plies"), 0)
		t.types[e.get("name").text()] = st
	}
}

func numberOr(v node, otherwise float64) float64 {
	if !v.there() {
		return otherwise
	}
	return v.number()
}
