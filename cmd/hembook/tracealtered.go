package main

import (
	"cmp"
	"fmt"
	"time"

	"hembook/internal/paperpiece"
	"hembook/internal/record"
	"hembook/internal/tracing"
)

// runAltered makes a round of fitting of altered paper.
func (j *traceJob) runAltered(home paperpiece.Home, b *record.Build, photos []string, how tracing.Options) error {
	if len(j.edges)+len(j.marks) > 0 {
		return useErrorf("--edges and --marks belong to a new piece: an altered one keeps the names it has")
	}
	old, err := home.Outline(b)
	if err != nil {
		return err
	}
	pictures, err := readPictures(photos)
	if err != nil {
		return err
	}
	seen, err := tracing.Trace(pictures, how)
	if err != nil {
		return err
	}
	if err := j.takeOff(seen, paperpiece.FoldOn(seen, old)); err != nil {
		return err
	}
	done, err := paperpiece.Altered(old, seen)
	if err != nil {
		return err
	}
	if err := home.WriteRound(done, time.Now(), cmp.Or(j.saw, "altered on paper")); err != nil {
		return err
	}
	fmt.Fprintf(j.out, "%s: %d of %d edges changed, from %d cards, within %.1f mm\n", home.Piece, len(done.Changes), len(old.Sides()), len(seen.Cards), max(done.Off, 0.1))
	for _, c := range done.Changes {
		fmt.Fprintf(j.out, "    %s\n", c.Said())
	}
	fmt.Fprintf(j.out, "written: a round of fitting in %s\n", home.File.Path)
	if done.Doubt {
		fmt.Fprintf(j.errs, "%s is much alike both ways round: look whether these are the edges you altered; it is taken to lie face up and as in the record\n", home.Piece)
	}
	if done.Over {
		fmt.Fprintf(j.errs, "the paper lay face down: it was turned over\n")
	}
	return j.show(seen, pictures)
}
