package main

import (
	_ "embed"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"
)

// thirdParty names every module and font the program is made of, with its licence's
// text; a test writes it and holds it against what is built in.
//
//go:embed THIRD-PARTY.txt
var thirdParty string

// thirdPartyRule begins each entry of thirdParty.
const thirdPartyRule = "================================================================ "

func newLicences(*options) *cobra.Command {
	var texts bool
	cmd := &cobra.Command{
		Use:   "licences",
		Short: "what the program is made of, and under which licences",
		Long: `Names what the program is made of beside its own lines, each with its licence.
hembook itself is under the Apache License 2.0. What you make with it is yours.`,
		Example: `  hembook licences
  hembook licences --texts`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if texts {
				_, err := io.WriteString(cmd.OutOrStdout(), thirdParty)
				return err
			}
			_, err := fmt.Fprint(cmd.OutOrStdout(), "hembook: Apache License 2.0\n"+strings.Join(thirdPartyNames(), "\n")+"\n")
			return err
		},
	}
	cmd.Flags().BoolVar(&texts, "texts", false, "the licences word for word")
	return cmd
}

// thirdPartyNames are the heads of the entries: "module version: licence".
func thirdPartyNames() []string {
	var out []string
	for _, entry := range strings.Split(thirdParty, thirdPartyRule)[1:] {
		name, _, _ := strings.Cut(entry, "\n")
		out = append(out, name)
	}
	return out
}
