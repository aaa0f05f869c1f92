// Command hembook turns a maker's plain records of a garment into figures, a
// notebook and hand-off sheets.
package main

import (
	"errors"
	"fmt"
	"hembook/internal/fault"
	"io"
	"os"
	"os/signal"
	"slices"
	"strings"
	"syscall"

	"context"

	"github.com/spf13/cobra"
)

// What the program exits with.
const (
	exitFine   = 0
	exitFaults = 1 // a record needs the maker's attention, or the work could not be done
	exitUse    = 2 // the command line cannot be meant
)

func main() {
	os.Exit(run(os.Args[1:], os.Stdout, os.Stderr))
}

// run carries out one command line and says what to exit with.
func run(args []string, out, errs io.Writer) int {
	ctx, stop := untilSignal()
	defer stop()
	root := newRoot()
	root.SetArgs(asWords(root, args))
	root.SetOut(out)
	root.SetErr(errs)
	err := root.ExecuteContext(ctx)
	switch {
	case err == nil:
		return exitFine
	case errors.Is(err, errFaults):
		return exitFaults // they are printed already
	}
	fmt.Fprintf(errs, "hembook: %s\n", err)
	var use useError
	if errors.As(err, &use) || isUse(err) {
		return exitUse
	}
	return exitFaults
}

// untilSignal gives a context that ends by the first signal, which asks to
// stop; a second ends the program as if none were heard. What works under the
// context learns of the first only when the second can no longer be missed.
func untilSignal() (ctx context.Context, stop func()) {
	heard := make(chan os.Signal, 1)
	signal.Notify(heard, os.Interrupt, syscall.SIGTERM)
	ctx, stop = context.WithCancel(context.Background())
	go func() {
		select {
		case <-heard:
		case <-ctx.Done():
		}
		signal.Stop(heard)
		stop()
	}()
	return ctx, stop
}

// asWords puts what begins with a hyphen and a space behind a "--" at the end:
// it is a line of a note, and no flag is written so.
func asWords(root *cobra.Command, args []string) []string {
	cmd, _, err := root.Find(args)
	if err != nil || slices.Contains(args, "--") {
		return args
	}
	var flags, words []string
	for i, arg := range args {
		if line := len(arg) > 1 && arg[0] == '-' && strings.ContainsRune(" \t\r\n", rune(arg[1])); line && !(i > 0 && takesNext(cmd, args[i-1])) {
			words = append(words, arg)
		} else {
			flags = append(flags, arg)
		}
	}
	if words == nil {
		return args
	}
	return append(append(flags, "--"), words...)
}

// takesNext reports whether an argument is a flag whose value is the next one.
func takesNext(cmd *cobra.Command, arg string) bool {
	name, is := strings.CutPrefix(arg, "--")
	flag := cmd.Flag(name)
	return is && flag != nil && flag.NoOptDefVal == ""
}

// errFaults says that records hold errors, which have been printed.
var errFaults = errors.New("something is wrong: see above")

// A useError is a command line that cannot be meant.
type useError struct{ *fault.Refusal }

// useErrorf says what cannot be meant; what follows the first line is the hint.
func useErrorf(format string, args ...any) error {
	message, hint, _ := strings.Cut(fmt.Sprintf(format, args...), "\n    ")
	return useError{fault.Refuse(hint, "%s", message)}
}

// isUse recognises what the command-line library itself refuses.
func isUse(err error) bool {
	s := err.Error()
	for _, start := range []string{"unknown command", "unknown flag", "unknown shorthand", "flag needs", "invalid argument", "accepts ", "requires ", "if any flags"} {
		if strings.HasPrefix(s, start) {
			return true
		}
	}
	return false
}

// version is what `hembook --version` says; CHANGELOG.md tells what is in it.
const version = "0.1"

// options are the flags every command has.
type options struct {
	room string
	errs io.Writer // where it is told what nobody asked for
}

func newRoot() *cobra.Command {
	opt := options{errs: io.Discard}
	root := &cobra.Command{
		Use:     "hembook",
		Version: version,
		Short:   "write a garment down once: figures, lay, pattern, notebook and sheets follow",
		Long: `Write a garment down once. Figures, lay plan, pattern, notebook and sheets
follow from it.

  hembook begin              make a workroom here, with a practice skirt in it
  hembook check              what is wrong, and how to correct it
  hembook lay skirt          how the pieces lie on the cloth, and how much to buy
  hembook pattern skirt      the pieces at full size, to print
  hembook show               the notebook, while you work

At the table   clock · jot · bench
For others     pack · press · pattern --dxf
To look up     words · tally · schema · licences

Exit status: 0 fine, 1 something is wrong, 2 a command that cannot be understood.`,
		PersistentPreRun:           func(cmd *cobra.Command, _ []string) { opt.errs = cmd.ErrOrStderr() },
		SilenceUsage:               true,
		SilenceErrors:              true,
		SuggestionsMinimumDistance: 2,
	}
	root.SetVersionTemplate("hembook {{.Version}}\n")
	root.InitDefaultHelpCmd()
	root.InitDefaultCompletionCmd()
	for _, c := range root.Commands() {
		switch c.Name() {
		case "help":
			c.Short, c.Long = "help on a command", "Says more of a command: hembook help lay."
		case "completion":
			c.Short, c.Long = "fill in commands and names with the Tab key", "Prints what your shell needs to fill in commands and the names of garments with\nthe Tab key. Each of the four says how it is put in place."
		}
	}
	root.PersistentFlags().StringVar(&opt.room, "room", "", "the workroom's `folder` (else this one, or the nearest one above it)")
	root.AddCommand(newBegin(&opt), newCheck(&opt), newTally(&opt), newLay(&opt), newPress(&opt), newWords(), newSchema(&opt), newClock(&opt), newJot(&opt), newBench(&opt), newShow(&opt), newPack(&opt), newTake(&opt), newPattern(&opt), newTrace(&opt), newLicences(&opt), newMan(&opt))
	return root
}
