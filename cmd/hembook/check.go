package main

import (
	"bufio"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"hembook/internal/derive"
	"hembook/internal/document"
	"hembook/internal/fault"
	"hembook/internal/say"
	"hembook/internal/words"
)

func newCheck(opt *options) *cobra.Command {
	var asJSON, correct, yes bool
	var drawn string
	cmd := &cobra.Command{
		Use:        "check [BUILD]",
		Short:      say.Of("hembook.check-short"),
		Long:       say.Of("hembook.check-long"),
		Example:    say.Of("hembook.check-example"),
		SuggestFor: []string{"true"},
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return misused(say.Of("hembook.one-garment-at-a-time-or-all"))
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			switch {
			case yes && !correct:
				return misused(say.Of("hembook.yes-says-yes-to-corrections-hembook-check"))
			case drawn != "" && !correct:
				return misused(say.Of("hembook.drawn-draws-corrections-hembook-check-correct-drawn", drawn))
			case correct && asJSON:
				return misused(say.Of("hembook.json-only-tells-leave-out-json-or"))
			case correct:
				return runCorrect(opt, args, yes, drawn, cmd)
			}
			return runCheck(opt, args, asJSON, cmd.OutOrStdout(), cmd.ErrOrStderr())
		},
		ValidArgsFunction: opt.completeBuilds,
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, say.Of("hembook.for-editors"))
	cmd.Flags().BoolVar(&correct, "correct", false, say.Of("hembook.write-corrections-each-when-you-say-yes"))
	cmd.Flags().BoolVar(&yes, "yes", false, say.Of("hembook.with-correct-write-all-corrections-of-errors"))
	cmd.Flags().StringVar(&drawn, "drawn", "", say.Of("hembook.with-correct-a-page-as-proposed-html"))
	return cmd
}

// A checked is what check found.
type checked struct {
	dir    string // the workroom's folder
	faults []fault.Fault
	builds int
	others int      // faults of other garments, where one alone was asked for
	unsaid []string // what was taken for granted that ruins cloth where it is wrong
}

// tell notes what was taken for granted of a garment.
func (c *checked) tell(g *derive.Garment) {
	if cuts := g.UnsaidCuts(); cuts != "" {
		c.unsaid = append(c.unsaid, g.Build.Name.V+": "+cuts)
	}
	if images := g.MirrorImages(); images != "" {
		c.unsaid = append(c.unsaid, g.Build.Name.V+": "+images)
	}
	if marked := g.Build.Inches; len(marked) > 0 {
		c.unsaid = append(c.unsaid, say.Of("hembook.lengths-with-a-mark-are-read-as", g.Build.Name.V, marked[0].V, marked[0].At.Line))
	}
}

// findWrong checks the garment that is named, or all.
func findWrong(opt *options, args []string, bar *progress) (checked, error) {
	if len(args) == 0 {
		return checkAll(opt, bar)
	}
	return checkOne(opt, args[0])
}

// runCorrect goes through what check proposes, then says what is still wrong.
func runCorrect(opt *options, args []string, yes bool, drawn string, cmd *cobra.Command) error {
	out, errs := cmd.OutOrStdout(), cmd.ErrOrStderr()
	c, err := newCorrector(cmd.InOrStdin(), out, yes)
	if err != nil {
		return err
	}
	c.check = func() (checked, error) { return findWrong(opt, args, newProgress(io.Discard, "")) }
	if drawn != "" {
		c.draw = drawnBeside(opt, drawn, !yes, errs)
	}
	found, err := c.run()
	if c.written > 0 || err == nil {
		fmt.Fprintln(errs, c.summary())
	}
	if err != nil {
		return err
	}
	fmt.Fprintln(errs, faultSummary(found.faults, found.builds))
	if fault.HasErrors(found.faults) {
		fmt.Fprintln(errs, say.Of("hembook.to-see-the-rest-hembook-check"))
		return errFaults
	}
	return nil
}

func runCheck(opt *options, args []string, asJSON bool, out, errs io.Writer) error {
	found, err := findWrong(opt, args, newProgress(errs, "checking"))
	if err != nil {
		return err
	}
	if asJSON {
		err = printFaultsJSON(out, found.faults)
	} else {
		printFound(out, found)
		fmt.Fprintln(errs, faultSummary(found.faults, found.builds))
		if found.others > 0 {
			fmt.Fprintln(errs, say.Of("hembook.in-other-files-hembook-check-shows-all", verb(found.others, say.Of("hembook.more-thing-is-wrong"), say.Of("hembook.more-things-are-wrong"))))
		}
	}
	if err == nil && fault.HasErrors(found.faults) {
		return errFaults
	}
	return err
}

// printFound prints what is wrong, then what was taken for granted.
func printFound(out io.Writer, found checked) {
	printFaults(out, found.faults)
	for _, line := range found.unsaid {
		fmt.Fprintln(out, line)
	}
}

func printFaults(out io.Writer, faults []fault.Fault) {
	w := bufio.NewWriter(out) // there may be thousands
	defer w.Flush()
	for _, f := range faults {
		fmt.Fprintln(w, f)
	}
}

func printFaultsJSON(out io.Writer, faults []fault.Fault) error {
	if faults == nil {
		faults = []fault.Fault{}
	}
	return document.PrintJSON(out, faults)
}

func faultSummary(faults []fault.Fault, builds int) string {
	errors, warnings := 0, 0
	for _, f := range faults {
		if f.Severity == fault.Error {
			errors++
		} else {
			warnings++
		}
	}
	if errors+warnings == 0 {
		return say.Of("hembook.everything-fits-together", words.Count(builds, "garment"))
	}
	said := words.Count(builds, "garment") + ": "
	if errors > 0 {
		said += verb(errors, say.Of("hembook.thing-wrong"), say.Of("hembook.things-wrong"))
	}
	if errors > 0 && warnings > 0 {
		said += ", "
	}
	if warnings > 0 {
		said += verb(warnings, say.Of("hembook.thing-to-look-at-again"), say.Of("hembook.things-to-look-at-again"))
	}
	return said
}
