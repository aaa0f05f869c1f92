package main

import (
	"cmp"
	"fmt"
	"time"

	"hembook/internal/paperpiece"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/tracing"
)

// runAltered makes a round of fitting of altered paper.
func (j *traceJob) runAltered(home paperpiece.Home, b *record.Build, photos []string, how tracing.Options) error {
	if len(j.edges)+len(j.marks) > 0 {
		return misused(say.Of("hembook.edges-and-marks-belong-to-a-new"))
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
	if err := home.WriteRound(done, time.Now(), cmp.Or(j.saw, say.Of("hembook.altered-on-paper"))); err != nil {
		return err
	}
	fmt.Fprintln(j.out, say.Of("hembook.of-edges-changed-from-cards-within-mm", home.Piece, len(done.Changes), len(old.Sides()), len(seen.Cards), fmt.Sprintf("%.1f", max(done.Off, 0.1))))
	for _, c := range done.Changes {
		fmt.Fprintf(j.out, "    %s\n", c.Said())
	}
	fmt.Fprintln(j.out, say.Of("hembook.written-a-round-of-fitting-in", home.File.Path))
	if done.Doubt {
		fmt.Fprintln(j.errs, say.Of("hembook.is-much-alike-both-ways-round-look", home.Piece))
	}
	if done.Over {
		fmt.Fprintln(j.errs, say.Of("hembook.the-paper-lay-face-down-it-was"))
	}
	return j.show(seen, pictures)
}
