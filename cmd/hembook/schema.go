package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"hembook/internal/record"
)

func newSchema(*options) *cobra.Command {
	list := false
	cmd := &cobra.Command{
		Use:   "schema KIND",
		Short: "print the JSON Schema of a kind of file, for editors",
		Long: `schema prints the JSON Schema (draft 2020-12) of one kind of file, so that an
editor completes and underlines records while they are written. The kinds are:
` + strings.Join(record.KindNames(), ", ") + `.

With --words it lists the words of the kind to read instead, each with what it
means, an example, and the only values it may have.`,
		Example: `  hembook schema cloth --words
  hembook schema build > build.schema.json

  then, as the first line of a record:
  # yaml-language-server: $schema=../../../build.schema.json`,
		Args:      oneArg("which kind of file? one of: " + strings.Join(record.KindNames(), ", ")),
		ValidArgs: record.KindNames(),
		RunE: func(cmd *cobra.Command, args []string) error {
			text, err := record.Schema(args[0])
			if err != nil {
				return useErrorf("%s", err)
			}
			if i := slices.IndexFunc(record.FileKinds, func(k record.FileKind) bool { return k.Name == args[0] }); list && i >= 0 {
				text = []byte(strings.TrimLeft(words(record.FileKinds[i]), "\n"))
			}
			_, err = cmd.OutOrStdout().Write(text)
			return err
		},
	}
	cmd.Flags().BoolVar(&list, "words", false, "list the words of the kind, to read")
	return cmd
}

// words lists the words of a kind of file as tables, group by group. A word
// marked with a star must be there.
func words(kind record.FileKind) string {
	var b strings.Builder
	fmt.Fprintf(&b, "\n## %s\n\nIn `%s`.\n", strings.ToUpper(kind.Name[:1])+kind.Name[1:], kind.Where)
	group := ""
	for _, w := range record.Words(kind.Name) {
		if w.Group != group {
			group = w.Group
			if group != kind.Name {
				fmt.Fprintf(&b, "\n### %s: under `%s`\n", kind.Name, group)
			}
			b.WriteString("\n| word | meaning | as |\n|---|---|---|\n")
		}
		b.WriteString(wordRow(w))
	}
	return b.String()
}

func wordRow(w record.Word) string {
	star := ""
	if w.Must {
		star = " \\*"
	}
	about := w.About
	if len(w.OneOf) > 0 {
		about += ": " + strings.Join(w.OneOf, ", ")
	}
	eg := ""
	if w.Example != "" {
		eg = "`" + w.Example + "`"
	}
	return fmt.Sprintf("| `%s`%s | %s | %s |\n", w.Key, star, strings.ReplaceAll(about, "|", "\\|"), eg)
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
