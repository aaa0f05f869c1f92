package main

import (
	"context"
	"strings"

	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/garment"
	"hembook/internal/notebook"
	"hembook/internal/order"
	"hembook/internal/record"
	"hembook/internal/words"
)

// checkAll finds everything that is wrong in a workroom.
func checkAll(opt *options, bar *progress) (checked, error) {
	defer collectSeldom()()
	room, opened, err := opt.openRoom()
	if err != nil {
		return checked{}, err
	}
	defer room.Close()
	defer bar.done()
	found := checked{dir: room.Dir, builds: len(room.Builds)}
	var all fault.Faults
	all.Add(opened...)
	tailor, faults := derive.NewTailor(room)
	all.Add(faults...)
	book := notebook.New(room)
	all.Add(book.CheckRoom()...)
	done := 0
	survey(room, tailor, func(_ record.BuildFile, g *derive.Garment, faults []fault.Fault) {
		all.Add(faults...)
		all.Add(book.CheckBuild(g.Build, figuresOf(g))...)
		all.Add(room.UnnamedPhotos(g.Build)...)
		all.Add(order.Faults(g.Garment, g.Order, words.Tape(room.UnitOf(g.Build)))...)
		all.Add(shortCloth(room, tailor, g)...)
		found.tell(g)
		done++
		bar.at(done, len(room.Builds))
	})
	found.faults = all.Sorted()
	return found, nil
}

// figuresOf are the figures of a garment, once somebody asks for them.
func figuresOf(g *derive.Garment) func() []*figure.Figure {
	return func() []*figure.Figure { return g.Lineage().Figures() }
}

// checkOne finds what is wrong with one garment: in its own files, in those of
// its cloths and its wearer, and in the workroom's own.
func checkOne(opt *options, word string) (checked, error) {
	on, err := opt.openBuildAlone(word)
	if err != nil {
		return checked{}, err
	}
	defer on.room.Close()
	b, book := on.build, notebook.New(on.room)
	g := on.tailor.Derive(b)
	var all fault.Faults
	found := checked{dir: on.room.Dir, builds: 1}
	found.tell(g)
	uses := filesOf(b)
	others := on.faults[:len(on.faults)-len(on.own)]
	for _, f := range append(others[:len(others):len(others)], book.CheckRoom()...) {
		if file := f.At.File(); uses[file] || strings.HasPrefix(file, b.Folder+"/") {
			all.Add(f)
		} else {
			found.others++
		}
	}
	all.Add(withFigures(on.own, g.Faults)...)
	all.Add(book.CheckBuild(b, figuresOf(g))...)
	all.Add(on.room.UnnamedPhotos(b)...)
	all.Add(order.Faults(g.Garment, g.Order, words.Tape(on.room.UnitOf(b)))...)
	all.Add(shortCloth(on.room, on.tailor, g)...)
	found.faults = all.Sorted()
	return found, nil
}

// shortCloth warns of cloth that is still to be cut, and of which the shelf has less
// than a lay takes that was planned already.
func shortCloth(room *record.Room, tailor *derive.Tailor, g *derive.Garment) []fault.Fault {
	b := g.Build
	var parts []string
	for i := range b.Cloth {
		use := &b.Cloth[i]
		if c, ok := room.Cloth(use.V.Use.V); ok && garment.OnShelf(c) && !b.HasCut(c, use.Name.V) {
			parts = append(parts, use.Name.V)
		}
	}
	if parts == nil {
		return nil
	}
	return cutting.NewCutter(context.Background(), room, tailor, cutting.Options{Mode: cutting.KeptOnly, Parts: parts}).Lay(g).Short()
}

// filesOf names the files beside its own that a garment's figures come from.
func filesOf(b *record.Build) map[string]bool {
	uses := map[string]bool{"content/workroom.yaml": true}
	for _, c := range b.Cloth {
		uses["content/cloth/"+c.V.Use.V+".yaml"] = true
	}
	if who := b.Wearer.Open(record.ToTheMaker); who.Given() {
		uses["content/wearers/"+who.V+".yaml"] = true
	}
	return uses
}
