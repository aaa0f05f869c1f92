// Package trade holds the tables of the sewing trade as data: seam types and
// finishes with their arithmetic and cross-sections, stitches and the thread
// they take, fibres, body measurements, care, cautions, customs headings and
// the words of the trade.
//
// It promises that every row names its source, that a number computed here
// comes with the substitution that led to it, and that the embedded tables are
// read once, strictly, and never change afterwards. All lengths are plain
// millimetres, masses per area g/m², temperatures °C and shares per cent.
//
// It leaves out records, cloth bought, outlines and drawing: it answers
// questions about the trade, never about one garment.
package trade

import (
	"embed"
	"fmt"
	"sync"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/say"
)

//go:embed tables/*.yaml
var tables embed.FS

// table reads the embedded file tables/name.yaml strictly into a T.
func table[T any](name string) (T, error) {
	var v T
	file := "tables/" + name + ".yaml"
	data, err := tables.ReadFile(file)
	if err != nil {
		return v, fault.Wrapping(err, say.Of("trade.built-in-table", name, err))
	}
	var doc yaml.Node
	if err := yaml.Unmarshal(data, &doc); err != nil {
		return v, fmt.Errorf("%s: %w", file, err)
	}
	if faults := decodeStrict(&doc, &v); len(faults) > 0 {
		return v, fmt.Errorf("%s: %w", file, faults)
	}
	return v, nil
}

// once returns a function that reads a table the first time it is asked and
// hands out the same value ever after. The tables are part of the program and
// a test reads every one of them, so a fault in one is our own bug.
func once[T any](read func() (T, error)) func() T {
	load := sync.OnceValues(read)
	return func() T {
		v, err := load()
		if err != nil {
			panic(err)
		}
		return v
	}
}

// onceTable is once for a table that needs no further work after reading.
func onceTable[T any](name string) func() T {
	return once(func() (T, error) { return table[T](name) })
}
