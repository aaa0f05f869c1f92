package main

import (
	_ "embed"
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"hembook/internal/say"
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
		Use:     "licences",
		Short:   say.Of("hembook.licences-short"),
		Long:    say.Of("hembook.licences-long"),
		Example: say.Of("hembook.licences-example"),
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if texts {
				_, err := io.WriteString(cmd.OutOrStdout(), thirdParty)
				return err
			}
			_, err := fmt.Fprint(cmd.OutOrStdout(), say.Of("hembook.hembook-apache-license-2-0", strings.Join(thirdPartyNames(), "\n")))
			return err
		},
	}
	cmd.Flags().BoolVar(&texts, "texts", false, say.Of("hembook.the-licences-word-for-word"))
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
