package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"hembook/internal/say"
)

// newMan makes the command that prints the manual page; releases call it, so it stands
// in no list.
func newMan(*options) *cobra.Command {
	return &cobra.Command{
		Use:    "man",
		Short:  say.Of("hembook.man-short"),
		Hidden: true,
		Args:   cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return writeMan(cmd.Root(), cmd.OutOrStdout())
		},
	}
}

// writeMan writes one page for the program and all its commands, in the man macros
// (man(7)).
func writeMan(root *cobra.Command, out io.Writer) error {
	var b strings.Builder
	fmt.Fprintf(&b, ".TH HEMBOOK 1 \"\" \"hembook %s\" \"hembook\"\n.SH NAME\nhembook \\- %s\n", version, roff(root.Short))
	fmt.Fprintln(&b, say.Of("hembook.sh-synopsis-b-hembook-i-command-flags", roff(root.Long)))
	for _, c := range root.Commands() {
		if c.Hidden || c.Name() == "help" {
			continue
		}
		fmt.Fprintln(&b, say.Of("hembook.ss-b-hembook-pp-nf-fi", roff(c.Name()), roff(c.Use), roff(c.Long)))
		if c.Example != "" {
			fmt.Fprintf(&b, ".PP\n.nf\n%s\n.fi\n", roff(c.Example))
		}
		manFlags(&b, c.LocalFlags())
	}
	b.WriteString(".SH FLAGS OF EVERY COMMAND\n")
	manFlags(&b, root.PersistentFlags())
	_, err := io.WriteString(out, b.String())
	return err
}

func manFlags(b *strings.Builder, flags *pflag.FlagSet) {
	flags.VisitAll(func(f *pflag.Flag) {
		if f.Name == "help" || f.Hidden {
			return
		}
		name, use := pflag.UnquoteUsage(f)
		fmt.Fprintf(b, ".TP\n.BR \\-\\-%s", roff(f.Name))
		if name != "" {
			fmt.Fprintf(b, " \" \" \\fI%s\\fR", roff(name))
		}
		fmt.Fprintf(b, "\n%s\n", roff(use))
	})
}

// roff writes text so that no letter of it is taken for an order to the page.
func roff(text string) string {
	text = strings.NewReplacer(`\`, `\e`, "-", `\-`).Replace(text)
	lines := strings.Split(text, "\n")
	for i, l := range lines {
		if strings.HasPrefix(l, ".") || strings.HasPrefix(l, "'") {
			lines[i] = `\&` + l
		}
	}
	return strings.Join(lines, "\n")
}
