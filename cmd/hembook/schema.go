package main

import (
	"strings"

	"github.com/spf13/cobra"

	"hembook/internal/record"
	"hembook/internal/say"
)

func newSchema(*options) *cobra.Command {
	return &cobra.Command{
		Use:   "schema KIND",
		Short: say.Of("hembook.schema-short"),
		Long:  say.Of("hembook.schema-prints-the-json-schema-draft-2020", strings.Join(record.KindNames(), ", ")),
		Example: `  hembook schema build > build.schema.json

  then, as the first line of a record:
  # yaml-language-server: $schema=../../../build.schema.json`,
		Args:      oneArg(say.Of("hembook.which-kind-of-file-one-of", strings.Join(record.KindNames(), ", "))),
		ValidArgs: record.KindNames(),
		RunE: func(cmd *cobra.Command, args []string) error {
			text, err := record.Schema(args[0])
			if err != nil {
				return misused(err.Error())
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
			return misused(otherwise)
		}
		return nil
	}
}
