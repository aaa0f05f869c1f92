package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"hembook/internal/record"
)

func newTrue(opt *options) *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "true",
		Short: "check every record and say what is wrong",
		Long: `true reads every file of the workroom and prints what is wrong, each with file,
line, column and what was probably meant. Edges that are joined are walked and
compared, notch by notch; lines that run on across a seam or a fold are held to
run smooth; names that lead nowhere are found.

Exit status: 0 where nothing is wrong or only warnings are given, 1 where there
are errors, 2 for wrong use.`,
		Example: `  hembook true
  hembook true --json      for editors`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return runTrue(opt, asJSON, cmd.OutOrStdout(), cmd.ErrOrStderr())
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print a JSON list for editors")
	return cmd
}

func runTrue(opt *options, asJSON bool, out, errs io.Writer) error {
	faults, builds, err := checkAll(opt, newProgress(errs, "checking"))
	if err != nil {
		return err
	}
	if asJSON {
		err = printFaultsJSON(out, faults)
	} else {
		printFaults(out, faults)
		fmt.Fprintln(errs, faultSummary(faults, builds))
	}
	if err == nil && record.HasErrors(faults) {
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
		return fmt.Sprintf("%s checked, nothing wrong", counted(builds, "build"))
	}
	return fmt.Sprintf("%s checked: %s, %s", counted(builds, "build"), counted(errors, "error"), counted(warnings, "warning"))
}
