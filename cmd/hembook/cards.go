package main

import (
	"cmp"
	"fmt"
	"io"
	"strings"

	"hembook/internal/document"
	"hembook/internal/pattern"
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
		return useErrorf("--paper %s: cards are printed on a4 or letter", o.paper)
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
		return fmt.Errorf("the cards could not be written: %w", err)
	}
	fmt.Fprintf(errs, "%s: 10 cards, 1 page\n    print it at 100 %% on white paper, measure a line of 50 mm, cut along the fine lines\n", to)
	return nil
}
