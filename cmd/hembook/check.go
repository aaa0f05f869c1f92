package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"hembook/internal/record"
	"hembook/internal/words"
)

func newCheck(opt *options) *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "check [BUILD]",
		Short: "what is wrong in the records, and where",
		Long: `check reads every file of the workroom, or one garment and what it is made from,
and prints what is wrong: file, line, column, and what was probably meant. Edges
that are sewn together are walked and compared, notch by notch. Lines that run
on across a seam or a fold must run smooth. Names that lead nowhere are found.

Exit status: 0 where nothing is wrong or only warnings are given, 1 where there
are errors, 2 for wrong use.`,
		Example: `  hembook check
  hembook check supper     one garment alone
  hembook check --json     for editors`,
		SuggestFor: []string{"true"},
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return useErrorf("one garment at a time, or all of them: hembook check [BUILD]")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			return runCheck(opt, args, asJSON, cmd.OutOrStdout(), cmd.ErrOrStderr())
		},
		ValidArgsFunction: opt.completeBuilds,
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print a JSON list for editors")
	return cmd
}

// A checked is what check found.
type checked struct {
	faults []record.Fault
	builds int
	others int // faults of other garments, where one alone was asked for
}

func runCheck(opt *options, args []string, asJSON bool, out, errs io.Writer) error {
	var found checked
	var err error
	if len(args) == 0 {
		found.faults, found.builds, err = checkAll(opt, newProgress(errs, "checking"))
	} else {
		found, err = checkOne(opt, args[0])
	}
	if err != nil {
		return err
	}
	if asJSON {
		err = printFaultsJSON(out, found.faults)
	} else {
		printFaults(out, found.faults)
		fmt.Fprintln(errs, faultSummary(found.faults, found.builds))
		if found.others > 0 {
			fmt.Fprintf(errs, "%s in other files\n    hembook check shows all\n", words.Count(found.others, "more fault"))
		}
	}
	if err == nil && record.HasErrors(found.faults) {
		return errFaults
	}
	return err
}

func printFaults(out io.Writer, faults []record.Fault) {
	w := bufio.NewWriter(out) // there may be thousands
	defer w.Flush()
	for _, f := range faults {
		fmt.Fprintln(w, f)
	}
}

func printFaultsJSON(out io.Writer, faults []record.Fault) error {
	if faults == nil {
		faults = []record.Fault{}
	}
	enc := json.NewEncoder(out)
	enc.SetIndent("", "  ")
	enc.SetEscapeHTML(false)
	return enc.Encode(faults)
}

func faultSummary(faults []record.Fault, builds int) string {
	errors, warnings := 0, 0
	for _, f := range faults {
		if f.Severity == record.Error {
			errors++
		} else {
			warnings++
		}
	}
	if errors+warnings == 0 {
		return fmt.Sprintf("%s checked, nothing wrong", words.Count(builds, "garment"))
	}
	return fmt.Sprintf("%s checked: %s, %s", words.Count(builds, "garment"), words.Count(errors, "error"), words.Count(warnings, "warning"))
}
