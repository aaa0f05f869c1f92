package main

import (
	"fmt"

	"hembook/internal/paperpiece"
	"hembook/internal/record"
	"hembook/internal/say"
)

// runMove moves corners of a piece that was traced, by hand.
func (j *traceJob) runMove(home paperpiece.Home, b *record.Build, photos []string) error {
	if j.altered != "" || len(photos)+len(j.edges)+len(j.marks)+len(j.far) > 0 {
		return misused(say.Of("hembook.move-stands-alone-with-into-trace-the"))
	}
	var shifts []paperpiece.Shift
	for _, said := range j.move {
		s, err := paperpiece.ParseShift(said)
		if err != nil {
			return err
		}
		shifts = append(shifts, s)
	}
	was, err := home.Outline(b)
	if err != nil {
		return err
	}
	if err := home.MoveCorners(shifts); err != nil {
		return err
	}
	then, _ := home.Room.ReadBuild(home.File) // the one that was read knows the file as it was
	is, err := home.Outline(then)
	if err != nil {
		return err
	}
	for _, s := range is.Sides() {
		if before, ok := was.LengthOf(s.Name); ok && fmt.Sprintf("%.1f", before) != fmt.Sprintf("%.1f", s.Length) {
			fmt.Fprintln(j.out, say.Of("hembook.mm-2", s.Name, fmt.Sprintf("%.1f", before), fmt.Sprintf("%.1f", s.Length)))
		}
	}
	fmt.Fprintln(j.out, say.Of("hembook.written", home.FilePath()))
	return nil
}
