package main

import (
	"cmp"
	"fmt"
	"io"
	"strings"

	"hembook/internal/document"
	"hembook/internal/fault"
	"hembook/internal/pattern"
	"hembook/internal/say"
)

// runCards writes the cards that are laid beside a paper piece, on the paper that is
// asked for, else on the workroom's.
func runCards(opt *options, o patternOptions, errs io.Writer) error {
	room, _, err := opt.openRoom()
	if err != nil {
		return err
	}
	defer room.Close()
	size := document.A4
	switch strings.ToLower(cmp.Or(o.paper, room.Workroom.Paper.V)) {
	case "", "a4":
	case "letter":
		size = document.Letter
	default:
		return misused(say.Of("hembook.paper-cards-are-printed-on-a4-or", o.paper))
	}
	to, err := outFile(cmp.Or(o.to, "cards.pdf"), "cards.pdf")
	if err != nil {
		return err
	}
	pdf, err := pattern.Cards(size, room.Workroom.Name.V)
	if err != nil {
		return err
	}
	if err := writeWhole(to, pdf); err != nil {
		return fault.Wrapping(err, say.Of("hembook.the-cards-could-not-be-written", err))
	}
	fmt.Fprintln(errs, say.Of("hembook.10-cards-1-page-print-it-at", to))
	return nil
}
