package main

import (
	"strings"

	"github.com/spf13/cobra"

	"hembook/internal/record"
)

func newSchema(*options) *cobra.Command {
	return &cobra.Command{
		Use:   "schema KIND",
		Short: "print the JSON Schema of a kind of file, for editors",
		Long: `schema prints the JSON Schema (draft 2020-12) of one kind of file, so that an
editor completes and underlines records while they are written. The kinds are:
` + strings.Join(record.KindNames(), ", ") + `.

hembook words has the same to read.`,
		Example: `  hembook schema build > build.schema.json

  then, as the first line of a record:
  # yaml-language-server: $schema=../../../build.schema.json`,
		Args:      oneArg("which kind of file? one of: " + strings.Join(record.KindNames(), ", ")),
		ValidArgs: record.KindNames(),
		RunE: func(cmd *cobra.Command, args []string) error {
			text, err := record.Schema(args[0])
			if err != nil {
				return useErrorf("%s", err)
			}
			_, err = cmd.OutOrStdout().Write(text)
			return err
		},
	}
}

// oneArg asks for exactly one word, in the maker's terms.
func oneArg(otherwise string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		if len(args) != 1 {
			return useErrorf("%s", otherwise)
		}
		return nil
	}
}
