package main

import (
	"bufio"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"hembook/internal/derive"
	"hembook/internal/document"
	"hembook/internal/fault"
	"hembook/internal/words"
)

func newCheck(opt *options) *cobra.Command {
	var asJSON, correct, yes bool
	var drawn string
	cmd := &cobra.Command{
		Use:   "check [BUILD]",
		Short: "what is wrong, and how to correct it",
		Long: `Reads everything you wrote and says what is wrong, where, and what to write
instead. Edges that are sewn together are compared. With --correct each line is
shown as it is and as it would be, and written when you say yes; --drawn FILE
draws the pieces before and after on a page to open beside.

Exit status: 0 nothing wrong, 1 something is, 2 a command that cannot be
understood.`,
		Example: `  hembook check
  hembook check supper     one garment alone
  hembook check --correct supper
  hembook check --correct supper --drawn proposed.html`,
		SuggestFor: []string{"true"},
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return useErrorf("one garment at a time, or all of them: hembook check [BUILD]")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			switch {
			case yes && !correct:
				return useErrorf("--yes says yes to corrections: hembook check --correct --yes")
			case drawn != "" && !correct:
				return useErrorf("--drawn draws corrections: hembook check --correct --drawn %s", drawn)
			case correct && asJSON:
				return useErrorf("--json only tells: leave out --json, or --correct")
			case correct:
				return runCorrect(opt, args, yes, drawn, cmd)
			}
			return runCheck(opt, args, asJSON, cmd.OutOrStdout(), cmd.ErrOrStderr())
		},
		ValidArgsFunction: opt.completeBuilds,
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "for editors")
	cmd.Flags().BoolVar(&correct, "correct", false, "write corrections, each when you say yes")
	cmd.Flags().BoolVar(&yes, "yes", false, "with --correct: write all corrections of errors without asking; warnings stay")
	cmd.Flags().StringVar(&drawn, "drawn", "", "with --correct: a page, as proposed.html, of the pieces before and after")
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
		c.unsaid = append(c.unsaid, fmt.Sprintf("%s: lengths with a mark are read as inches: %s on line %d", g.Build.Name.V, marked[0].V, marked[0].At.Line))
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
		fmt.Fprintln(errs, "    to see the rest: hembook check")
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
			fmt.Fprintf(errs, "%s in other files\n    hembook check shows all\n", verb(found.others, "more thing is wrong", "more things are wrong"))
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
		return fmt.Sprintf("%s: everything fits together", words.Count(builds, "garment"))
	}
	said := words.Count(builds, "garment") + ": "
	if errors > 0 {
		said += verb(errors, "thing wrong", "things wrong")
	}
	if errors > 0 && warnings > 0 {
		said += ", "
	}
	if warnings > 0 {
		said += verb(warnings, "thing to look at again", "things to look at again")
	}
	return said
}
