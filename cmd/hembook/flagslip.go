package main

import (
	"errors"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/say"
)

// flagSlip answers flags that cannot be meant: an unknown one with that of the
// command which is spelled nearly so.
func flagSlip(cmd *cobra.Command, err error) error {
	var (
		unknown *pflag.NotExistError
		wrong   *pflag.InvalidValueError
		bare    *pflag.ValueRequiredError
		hint    string
	)
	says := err.Error()
	switch {
	case errors.As(err, &unknown):
		var known []string
		cmd.Flags().VisitAll(func(f *pflag.Flag) { known = append(known, f.Name) })
		if near := meant.Nearest(unknown.GetSpecifiedName(), known); near != "" {
			hint = say.Of("hembook.did-you-mean-flag", near)
		}
	case errors.As(err, &wrong) && wholeNumber(wrong.GetFlag()):
		says = say.Of("hembook.flag-needs-a-whole-number", wrong.GetFlag().Name, wrong.GetValue())
	case errors.As(err, &bare):
		what, _ := pflag.UnquoteUsage(bare.GetFlag())
		says = say.Of("hembook.nothing-stands-after-flag", bare.GetFlag().Name)
		hint = say.Of("hembook.write-flag-and-what", bare.GetFlag().Name, what)
	}
	return useError{fault.Refusing(hint, says)}
}

func wholeNumber(f *pflag.Flag) bool {
	switch f.Value.Type() {
	case "int", "int64", "uint64":
		return true
	}
	return false
}
