package main

import (
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"hembook/internal/derive"
	"hembook/internal/document"
	"hembook/internal/fault"
	"hembook/internal/garment"
	"hembook/internal/meant"
	"hembook/internal/measure"
	"hembook/internal/paper"
	"hembook/internal/pattern"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/words"
)

// patternOptions are the flags of pattern.
type patternOptions struct {
	pieces []string
	paper  string
	to     string
	round  int
	cards  bool // instead of pieces

	svg, dxf string // folders for pattern files
}

func newPattern(opt *options) *cobra.Command {
	var o patternOptions
	cmd := &cobra.Command{
		Use:        "pattern BUILD",
		Short:      say.Of("hembook.pattern-short"),
		Long:       say.Of("hembook.pattern-long"),
		Example:    say.Of("hembook.pattern-example"),
		SuggestFor: []string{"give"},
		Args: func(cmd *cobra.Command, args []string) error {
			if o.cards {
				return cobra.NoArgs(cmd, args)
			}
			return oneArg(say.Of("hembook.which-garment-hembook-pattern-build"))(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if o.cards {
				if !cmd.Flags().Changed("paper") {
					o.paper = ""
				}
				return runCards(opt, o, cmd.ErrOrStderr())
			}
			return runPattern(opt, o, args[0], cmd.ErrOrStderr())
		},
		ValidArgsFunction: opt.completeBuilds,
	}
	f := cmd.Flags()
	f.StringArrayVar(&o.pieces, "piece", nil, say.Of("hembook.only-this-piece-may-be-given-several"))
	f.StringVar(&o.paper, "paper", "a4", say.Of("hembook.what-it-is-printed-on-a4-letter"))
	f.IntVar(&o.round, "round", -1, say.Of("hembook.as-after-this-fitting-0-is-the"))
	f.StringVar(&o.to, "to", "", say.Of("hembook.write-the-pdf-into-this-file-else"))
	f.StringVar(&o.svg, "svg", "", say.Of("hembook.write-an-svg-pattern-file-into-this"))
	f.StringVar(&o.dxf, "dxf", "", say.Of("hembook.write-a-dxf-pattern-file-into-this"))
	f.BoolVar(&o.cards, "cards", false, say.Of("hembook.ten-cards-to-lay-beside-a-paper"))
	opt.completeOf(cmd, "piece", pieceNames)
	opt.completeOf(cmd, "round", roundNumbers)
	completeFixed(cmd, "paper", "a4", "letter", "roll:914", "roll:36in")
	return cmd
}

func runPattern(opt *options, o patternOptions, word string, errs io.Writer) error {
	stock, cover, err := stockCalled(o.paper)
	if err != nil {
		return err
	}
	on, err := opt.openSound(word, errs)
	if err != nil {
		return err
	}
	defer on.room.Close()
	room, tailor, bf, b := on.room, on.tailor, on.file, on.build
	g, err := asOf(tailor, b, o.round)
	if err != nil {
		return err
	}
	if fault.HasErrors(g.Faults) {
		printFaults(errs, g.Faults)
		return errFaults
	}
	pieces, err := piecesCalled(g.Pieces, o.pieces)
	if err != nil {
		return err
	}
	if o.svg != "" || o.dxf != "" {
		names := make([]string, len(pieces))
		for i, p := range pieces {
			names[i] = p.Name
		}
		if err := givePieces(g.Garment, names, o.svg, o.dxf, errs); err != nil || o.to == "" {
			return err
		}
	}
	to, err := outFile(cmp.Or(o.to, bf.Slug+"-pattern.pdf"), bf.Slug+"-pattern.pdf")
	if err != nil {
		return err
	}
	sheets, err := printed(room, g, pieces, stock, cover).Set()
	if err != nil {
		return fault.Wrapping(err, say.Of("hembook.cannot-be-printed", bf.Name, err))
	}
	if err := writeWhole(to, sheets.PDF); err != nil {
		return fault.Wrapping(err, say.Of("hembook.the-pattern-could-not-be-written", err))
	}
	for _, left := range sheets.Left {
		fmt.Fprintln(errs, say.Of("hembook.not-printed", left))
	}
	fmt.Fprintln(errs, say.Of("hembook.print-page-1-at-100-and-measure", to, words.Count(sheets.Printed, "piece"), words.Count(1+len(sheets.Plan.Tiles), "page")))
	return nil
}

// printed is a garment's pattern as it is to be printed.
func printed(room *record.Room, g *derive.Garment, pieces []*garment.Piece, stock paper.Stock, cover document.Size) pattern.Print {
	return pattern.Print{Garment: g.Build.Name.V, Pieces: pieces, Stock: stock, Cover: cover, Author: room.Workroom.Name.V, AsOf: roundWords(g),
		Style: pattern.Style{Measure: room.Workroom.Style()}}
}

// asOf derives a build as it stood after a round of fitting; −1 for the last.
func asOf(tailor *derive.Tailor, b *record.Build, round int) (*derive.Garment, error) {
	if round < 0 {
		return tailor.Derive(b), nil
	}
	g := tailor.DeriveAt(b, round)
	if g.Round != round {
		if len(b.Fittings) == 0 {
			return nil, misused(say.Of("hembook.there-is-no-fitting-this-garment-has", round))
		}
		return nil, misused(say.Of("hembook.there-is-no-fitting-leave-round-out", round))
	}
	return g, nil
}

// roundWords says which round of fitting a build's outlines are as of; empty
// for a build that was not fitted.
func roundWords(g *derive.Garment) string {
	switch {
	case g.Round > 0:
		return asAfter(g.Round)
	case len(g.Build.Fittings) > 0:
		return say.Of("hembook.as-drafted")
	}
	return ""
}

// stockCalled is the paper a word means, and the size of the cover page.
func stockCalled(word string) (paper.Stock, document.Size, error) {
	switch plain := strings.ToLower(strings.TrimSpace(word)); {
	case plain == "a4":
		return paper.StockOf(document.A4), document.A4, nil
	case plain == "letter":
		return paper.StockOf(document.Letter), document.Letter, nil
	case strings.HasPrefix(plain, "roll:"):
		wide, err := measure.ParseLength(strings.TrimPrefix(plain, "roll:"), measure.UnitMM)
		if err != nil {
			return paper.Stock{}, 0, misused(say.Of("hembook.paper", word, err))
		}
		stock := paper.Stock{Wide: wide.MM()}
		if err := stock.Check(); err != nil {
			return paper.Stock{}, 0, misused(say.Of("hembook.paper", word, err))
		}
		return stock, document.A4, nil
	}
	return paper.Stock{}, 0, misused(say.Of("hembook.paper-must-be-a4-letter-or-roll", say.Quoted(word)))
}

// piecesCalled are the pieces of those names, in the record's order; all
// where none is named.
func piecesCalled(all []*garment.Piece, names []string) ([]*garment.Piece, error) {
	if len(names) == 0 {
		return all, nil
	}
	for _, name := range names {
		if slices.ContainsFunc(all, func(p *garment.Piece) bool { return p.Name == name }) {
			continue
		}
		has := make([]string, len(all))
		for i, p := range all {
			has[i] = p.Name
		}
		return nil, misused(say.Of("hembook.there-is-no-piece", say.Quoted(name), meant.Among(name, has, say.Of("hembook.there-are"))))
	}
	var out []*garment.Piece
	for _, p := range all {
		if slices.Contains(names, p.Name) {
			out = append(out, p)
		}
	}
	return out, nil
}
