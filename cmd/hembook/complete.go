package main

import (
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"hembook/internal/bench"
	"hembook/internal/record"
	"hembook/internal/say"
)

// completeFlag fills in what a flag may be, given the words before it.
func completeFlag(cmd *cobra.Command, flag string, words func(args []string) []string) {
	err := cmd.RegisterFlagCompletionFunc(flag, func(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
		return words(args), cobra.ShellCompDirectiveNoFileComp
	})
	if err != nil {
		panic(err) // there is no such flag
	}
}

// completeFixed fills in a flag that takes one of a few words.
func completeFixed(cmd *cobra.Command, flag string, words ...string) {
	completeFlag(cmd, flag, func([]string) []string { return words })
}

// completeNames fills in what a flag may name in the workroom.
func (o *options) completeNames(cmd *cobra.Command, flag string, of func(*record.Room) []string) {
	completeFlag(cmd, flag, func([]string) []string {
		room, _, err := o.openRoom()
		if err != nil {
			return nil
		}
		defer room.Close()
		return of(room)
	})
}

// completeOf fills in what a flag may name in the record of the garment that is named
// before it.
func (o *options) completeOf(cmd *cobra.Command, flag string, of func(*record.Build) []string) {
	completeFlag(cmd, flag, func(args []string) []string {
		if len(args) == 0 {
			return nil
		}
		return o.inRecord(args[0], of)
	})
}

// inRecord lists something of a record; nothing, where it cannot be found.
func (o *options) inRecord(word string, of func(*record.Build) []string) []string {
	room, _, err := o.openRoomFor(word)
	if err != nil {
		return nil
	}
	defer room.Close()
	bf, err := findBuild(room, word)
	if err != nil {
		return nil
	}
	b, _ := room.ReadBuild(bf)
	return slices.Compact(of(b))
}

func pieceNames(b *record.Build) []string {
	var out []string
	for i := range b.Pieces {
		out = append(out, b.Pieces[i].Name.V)
	}
	return out
}

func clothParts(b *record.Build) []string { return b.Cloth.Names() }

// roundNumbers are the fittings of a garment, with what was seen at each.
func roundNumbers(b *record.Build) []string {
	out := []string{say.Of("hembook.0-the-draft")}
	for _, f := range b.InOrder() {
		saw, _, _ := strings.Cut(strings.TrimSpace(f.Saw.V), "\n")
		out = append(out, strconv.Itoa(f.Round.V)+"\t"+saw)
	}
	return out
}

func stepNames(b *record.Build) []string {
	var out []string
	for _, s := range bench.Steps(b) {
		out = append(out, s.ID+"\t"+s.Words)
	}
	return out
}

// madeNames are what a record calls its pieces, seams, finishes, levels, lengths,
// notions and threads: figures can be asked for by any of them.
func madeNames(b *record.Build) []string {
	out := pieceNames(b)
	for i := range b.Seams {
		out = append(out, b.Seams[i].Name.V)
	}
	for i := range b.Finishes {
		out = append(out, b.Finishes[i].Name.V)
	}
	for i := range b.Lengths {
		out = append(out, b.Lengths[i].Name.V)
	}
	for i := range b.Notions {
		out = append(out, b.Notions[i].Name.V)
	}
	return append(append(out, b.Levels.Names()...), b.Thread.Names()...)
}

// complete fills in a garment, and after it the names of figures: their groups and
// what the record calls its parts; with --upward one figure or edge.
func (t *tally) complete(cmd *cobra.Command, args []string, word string) ([]string, cobra.ShellCompDirective) {
	if len(args) == 0 {
		return t.opt.completeBuilds(cmd, args, word)
	}
	if t.time || t.rows || t.part != "" || t.upward && len(args) > 1 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	on, err := t.opt.openBuildAlone(args[0])
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	defer on.room.Close()
	g := on.tailor.Derive(on.build)
	var names []string
	if t.upward {
		for _, p := range g.Pieces {
			for i := range p.Edges {
				names = append(names, p.Name+"."+p.Edges[i].Name)
			}
		}
	} else {
		names = append(madeNames(on.build), everything)
	}
	for _, f := range g.Figures() {
		if t.upward {
			names = append(names, f.ID)
		} else {
			names = append(names, groupOf(f.ID))
		}
	}
	slices.Sort(names)
	return slices.Compact(names), cobra.ShellCompDirectiveNoFileComp
}
