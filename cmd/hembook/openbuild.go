package main

import (
	"io"

	"hembook/internal/derive"
	"hembook/internal/fault"
	"hembook/internal/record"
)

// A buildAtHand is one build of an open workroom, read. The room must be closed.
type buildAtHand struct {
	room   *record.Room
	tailor *derive.Tailor
	file   record.BuildFile
	build  *record.Build
	own    []fault.Fault // of the build's record
	faults []fault.Fault // of the workroom, then its own
}

// openBuild opens the workroom and reads the build that a word names; its
// faults are for the caller to judge.
func (o *options) openBuild(word string) (*buildAtHand, error) {
	room, faults, err := o.openRoom()
	if err != nil {
		return nil, err
	}
	return readAtHand(room, faults, word)
}

// openBuildAlone does the same for what needs no other build: none is looked for
// where the word is the name of a folder.
func (o *options) openBuildAlone(word string) (*buildAtHand, error) {
	room, faults, err := o.openRoomFor(word)
	if err != nil {
		return nil, err
	}
	return readAtHand(room, faults, word)
}

func readAtHand(room *record.Room, faults []fault.Fault, word string) (*buildAtHand, error) {
	bf, err := findBuild(room, word)
	if err != nil {
		room.Close()
		return nil, err
	}
	tailor, more := derive.NewTailor(room)
	b, own := room.ReadBuild(bf)
	all := append(append(append([]fault.Fault(nil), faults...), more...), own...)
	return &buildAtHand{room, tailor, bf, b, own, all}, nil
}

// openSound opens a build as [options.openBuild] does; where it or the workroom has
// errors, they are printed and the build is not opened.
func (o *options) openSound(word string, errs io.Writer) (*buildAtHand, error) {
	on, err := o.openBuild(word)
	if err != nil {
		return nil, err
	}
	if fault.HasErrors(on.faults) {
		on.room.Close()
		printFaults(errs, on.faults)
		return nil, errFaults
	}
	return on, nil
}
