package main

import (
	"hembook/internal/garment"
	"hembook/internal/notebook"
	"hembook/internal/record"
)

// checkAll finds everything that is wrong in a workroom, and says how many
// builds it has.
func checkAll(opt *options, bar *progress) ([]record.Fault, int, error) {
	room, opened, err := opt.openRoom()
	if err != nil {
		return nil, 0, err
	}
	defer room.Close()
	defer bar.done()
	var all record.Faults
	all.Add(opened...)
	tailor, faults := garment.NewTailor(room)
	all.Add(faults...)
	book := notebook.New(room)
	all.Add(book.CheckRoom()...)
	done := 0
	survey(room, tailor, func(_ record.BuildFile, g *garment.Garment, faults []record.Fault) {
		all.Add(faults...)
		all.Add(book.CheckBuild(g.Build)...)
		done++
		bar.at(done, len(room.Builds))
	})
	return all.Sorted(), len(room.Builds), nil
}
