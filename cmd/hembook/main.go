// Command hembook turns a maker's plain records of a garment into figures, a
// notebook and hand-off sheets.
package main

import (
	"errors"
	"fmt"
	"hembook/internal/fault"
	"hembook/internal/say"
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
	fmt.Fprintln(errs, say.Of("hembook.hembook", err))
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

// misused says what cannot be meant; what follows the first line is the hint.
func misused(text string) error {
	message, hint, _ := strings.Cut(text, "\n    ")
	return useError{fault.Refusing(hint, message)}
}

// isUse recognises what the command-line library itself refuses.
func isUse(err error) bool {
	s := err.Error()
	for _, start := range []string{"unknown command", "accepts ", "requires ", "if any flags"} {
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
		Use:                        "hembook",
		Version:                    version,
		Short:                      say.Of("hembook.hembook-short"),
		Long:                       say.Of("hembook.hembook-long"),
		PersistentPreRun:           func(cmd *cobra.Command, _ []string) { opt.errs = cmd.ErrOrStderr() },
		SilenceUsage:               true,
		SilenceErrors:              true,
		SuggestionsMinimumDistance: 2,
	}
	root.SetFlagErrorFunc(flagSlip)
	root.SetVersionTemplate(say.Of("hembook.hembook-version"))
	root.InitDefaultHelpCmd()
	root.InitDefaultCompletionCmd()
	for _, c := range root.Commands() {
		switch c.Name() {
		case "help":
			c.Short, c.Long = say.Of("hembook.help-on-a-command"), say.Of("hembook.says-more-of-a-command-hembook-help")
		case "completion":
			c.Short, c.Long = say.Of("hembook.fill-in-commands-and-names-with-the"), say.Of("hembook.prints-what-your-shell-needs-to-fill")
		}
	}
	root.PersistentFlags().StringVar(&opt.room, "room", "", say.Of("hembook.the-workrooms-folder-else-this-one-or"))
	root.AddCommand(newBegin(&opt), newCheck(&opt), newTally(&opt), newLay(&opt), newPress(&opt), newWords(), newSchema(&opt), newClock(&opt), newJot(&opt), newBench(&opt), newShow(&opt), newPack(&opt), newTake(&opt), newPattern(&opt), newTrace(&opt), newLicences(&opt), newMan(&opt))
	return root
}
