package main

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"hembook/internal/document"
	"hembook/internal/meant"
	"hembook/internal/record"
	"hembook/internal/say"
)

func newWords() *cobra.Command {
	return &cobra.Command{
		Use:     "words [WORD]",
		Short:   say.Of("hembook.words-short"),
		Long:    say.Of("hembook.words-long"),
		Example: say.Of("hembook.words-example"),
		Args: func(_ *cobra.Command, args []string) error {
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 || args[0] == "" {
				listWords(cmd.OutOrStdout())
				return nil
			}
			return tellWord(strings.Join(args, " "), cmd.OutOrStdout())
		},
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return wordKeys(), cobra.ShellCompDirectiveNoFileComp
		},
	}
}

// listWords prints the words of every kind of file, a line for each word they
// stand under.
func listWords(out io.Writer) {
	for i, kind := range record.FileKinds {
		if i > 0 {
			fmt.Fprintln(out)
		}
		fmt.Fprintln(out, say.Of("hembook.in-2", kind.Name, kind.Where))
		words := record.Words(kind.Name)
		for len(words) > 0 {
			n := 1
			for n < len(words) && words[n].Group == words[0].Group {
				n++
			}
			keys := make([]string, n)
			for k, w := range words[:n] {
				if keys[k] = w.Key; w.Must {
					keys[k] += "*"
				}
			}
			head := "  "
			if words[0].Group != kind.Name {
				head = "  " + words[0].Group + ": "
			}
			fmt.Fprintln(out, wrapped(head, strings.Join(keys, ", "), 80))
			words = words[n:]
		}
	}
}

// tellWord says where a word may stand and what it means there, and what may
// stand under it.
func tellWord(word string, out io.Writer) error {
	key := strings.TrimSuffix(strings.ToLower(strings.TrimSpace(word)), ":")
	found, told := false, map[string]bool{}
	for _, kind := range record.FileKinds {
		under := false
		for _, w := range record.Words(kind.Name) {
			switch {
			case w.Key == key:
				if place := wordPlace(kind, w); !told[place] {
					if found {
						fmt.Fprintln(out)
					}
					found, told[place] = true, true
					fmt.Fprint(out, place)
				}
			case w.Group == key && found:
				if !under {
					fmt.Fprintln(out, say.Of("hembook.under-in-a", key, kind.Name))
					under = true
				}
				fmt.Fprintln(out, wrapped(fmt.Sprintf("  %-12s ", starred(w)), w.About+onlyValues(w), 80))
			}
		}
	}
	inTrade := tellTrade(key, found, out)
	if found || tellGuide(key, inTrade, out) || inTrade {
		return nil
	}
	return noSuchWord(key)
}

// wordPlace tells of one place a word may stand at.
func wordPlace(kind record.FileKind, w record.Word) string {
	where := say.Of("hembook.in-a", kind.Name)
	if w.Group != kind.Name {
		where = say.Of("hembook.under-in-a-2", w.Group, kind.Name)
	}
	must := ""
	if w.Must {
		must = say.Of("hembook.it-must-be-there")
	}
	out := fmt.Sprintf("%s: %s%s\n%s\n", w.Key, where, must, wrapped("    ", w.About+onlyValues(w), 80))
	if w.Example != "" {
		out += say.Of("hembook.for-example", w.Key, w.Example)
	}
	if w.Spoken {
		out += say.Of("hembook.in-several-languages-as-en-de", w.Key)
	}
	return out
}

func starred(w record.Word) string {
	if w.Must {
		return w.Key + "*"
	}
	return w.Key
}

// onlyValues names the values a word may have, where they are few.
func onlyValues(w record.Word) string {
	if len(w.OneOf) == 0 {
		return ""
	}
	return ": " + strings.Join(w.OneOf, ", ")
}

// wordKeys are all words, each once, in the order of the alphabet.
func wordKeys() []string {
	var keys []string
	for _, kind := range record.FileKinds {
		for _, w := range record.Words(kind.Name) {
			keys = append(keys, w.Key)
		}
	}
	slices.Sort(keys)
	return slices.Compact(keys)
}

// noSuchWord says which word was probably meant: one spelt nearly so, or one
// whose meaning speaks of it.
func noSuchWord(key string) error {
	if h := meant.Hint(key, wordKeys()); h != "" {
		return misused(say.Of("hembook.no-record-has-the-word", say.Quoted(key), h))
	}
	var speak []string
	for _, kind := range record.FileKinds {
		for _, w := range record.Words(kind.Name) {
			if slices.Contains(strings.FieldsFunc(strings.ToLower(w.About), notLetter), key) {
				speak = append(speak, w.Key)
			}
		}
	}
	slices.Sort(speak)
	if speak = slices.Compact(speak); len(speak) > 0 {
		return misused(say.Of("hembook.no-record-has-the-word-these-speak", say.Quoted(key), joinWords(speak)))
	}
	return misused(say.Of("hembook.no-record-has-the-word-hembook-words", say.Quoted(key)))
}

func notLetter(r rune) bool { return r != '-' && (r < 'a' || r > 'z') }

// wrapped sets a text after its head, on lines that are no wider than the
// width where it can be; lines after the first begin below the text.
func wrapped(head, text string, width int) string {
	lines := document.Wrap(text, width-len(head))
	return head + strings.Join(lines, "\n"+strings.Repeat(" ", len(head)))
}
