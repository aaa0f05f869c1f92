package main

import (
	"context"
	"io"
	"os"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/document"
	"hembook/internal/fault"
	"hembook/internal/figure"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
)

// A tally is one run of the tally command.
type tally struct {
	opt           *options
	time, rates   bool
	json, working bool
	upward, rows  bool
	from, part    string
	cloth         string
	round         int // the state to print: after this round; −1 for the last
	now           func() time.Time
	out, errs     io.Writer
}

func newTally(opt *options) *cobra.Command {
	t := &tally{opt: opt, now: time.Now}
	cmd := &cobra.Command{
		Use:     "tally BUILD [WORD...]",
		Short:   say.Of("hembook.tally-short"),
		Long:    say.Of("hembook.tally-long"),
		Example: say.Of("hembook.tally-example"),
		Args:    t.args,
		RunE: func(cmd *cobra.Command, args []string) error {
			t.out, t.errs = cmd.OutOrStdout(), cmd.ErrOrStderr()
			switch {
			case t.cloth != "":
				return t.runCloth()
			case t.rates:
				return t.runRates()
			}
			return t.run(args)
		},
		ValidArgsFunction: t.complete,
	}
	cmd.Flags().BoolVar(&t.json, "json", false, say.Of("hembook.for-other-programs-every-figure-with-value"))
	cmd.Flags().BoolVar(&t.working, "working", false, say.Of("hembook.how-each-was-worked-out"))
	cmd.Flags().BoolVar(&t.time, "time", false, say.Of("hembook.the-order-of-work-what-is-to"))
	cmd.Flags().BoolVar(&t.rates, "rates", false, say.Of("hembook.how-long-each-technique-takes-you"))
	cmd.Flags().IntVar(&t.round, "round", -1, say.Of("hembook.as-after-this-fitting-0-is-the"))
	cmd.Flags().BoolVar(&t.upward, "upward", false, say.Of("hembook.what-changes-with-a-figure-or-with"))
	cmd.Flags().BoolVar(&t.rows, "rows", false, say.Of("hembook.every-row-of-stitching-what-it-is"))
	cmd.Flags().StringVar(&t.cloth, "cloth", "", say.Of("hembook.of-this-cloth-what-came-what-was"))
	opt.completeNames(cmd, "cloth", clothNames)
	cmd.Flags().StringVar(&t.part, "part", "", say.Of("hembook.a-part-of-its-page-as-it"))
	_ = cmd.RegisterFlagCompletionFunc("part", func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		return partNames(), cobra.ShellCompDirectiveNoFileComp
	})
	cmd.Flags().StringVar(&t.from, "from", "", say.Of("hembook.with-time-from-this-moment-else-now"))
	opt.completeOf(cmd, "round", roundNumbers)
	return cmd
}

func (t *tally) args(_ *cobra.Command, args []string) error {
	switch {
	case t.cloth != "" && (t.time || t.rates || t.upward || t.rows || t.part != "" || t.round >= 0 || len(args) > 0):
		return misused(say.Of("hembook.cloth-stands-alone-hembook-tally-cloth-name"))
	case t.cloth != "":
		return nil
	case t.time && t.rates:
		return misused(say.Of("hembook.time-is-of-one-garment-and-rates"))
	case t.round >= 0 && (t.time || t.rates):
		return misused(say.Of("hembook.round-goes-with-the-figures-of-a"))
	case t.upward && (t.time || t.rates):
		return misused(say.Of("hembook.upward-goes-with-the-figures-of-a"))
	case t.rows && (t.time || t.rates || t.upward):
		return misused(say.Of("hembook.rows-stands-alone-hembook-tally-build-rows"))
	case t.rows && len(args) > 1:
		return misused(say.Of("hembook.rows-needs-no-other-word-hembook-tally"))
	case t.from != "" && !t.time:
		return misused(say.Of("hembook.from-goes-with-time"))
	case t.part != "" && (t.time || t.rates || t.upward || t.rows || len(args) > 1):
		return misused(say.Of("hembook.part-stands-alone-hembook-tally-build-part"))
	case t.rates && len(args) > 0:
		return misused(say.Of("hembook.rates-is-of-all-garments-hembook-tally"))
	case t.upward && len(args) != 2:
		return misused(say.Of("hembook.what-changes-with-what-hembook-tally-build"))
	case t.time && len(args) > 1:
		return misused(say.Of("hembook.time-needs-no-other-word-hembook-tally"))
	case !t.rates && !t.upward && len(args) == 0:
		return misused(say.Of("hembook.which-garment-hembook-tally-build"))
	}
	return nil
}

// completeBuilds offers the workroom's builds to the shell.
func (o *options) completeBuilds(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	room, _, err := o.openRoom()
	if err != nil || len(args) > 0 {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	defer room.Close()
	names := make([]string, len(room.Builds))
	for i, b := range room.Builds {
		names[i] = b.Slug
	}
	return names, cobra.ShellCompDirectiveNoFileComp
}

// run prints the figures of a build, its order of work, or what changes with
// one of them.
func (t *tally) run(args []string) error {
	open := t.opt.openBuildAlone
	if t.time || t.part == "work" { // which takes its rates from all
		open = t.opt.openBuild
	}
	on, err := open(args[0])
	if err != nil {
		return err
	}
	defer on.room.Close()
	room, tailor, bf, b, faults := on.room, on.tailor, on.file, on.build, on.faults
	if fault.HasErrors(on.own) {
		printFaults(t.errs, on.own)
		return errFaults
	}
	cutter := cutting.NewCutter(context.Background(), room, tailor, cutting.Options{Mode: cutting.KeptOnly})
	var cut *cutting.Cutting
	if t.round < 0 {
		cut = cutter.Cut(b)
	} else {
		if err := hasRound(b, t.round); err != nil {
			return err
		}
		cut = cutter.CutAt(b, t.round)
	}
	g := cut.Garment
	found := g.Faults
	switch {
	case t.time:
		found, err = t.printTime(room, tailor, bf, g)
	case t.part != "":
		err = t.printPart(on, cut)
	case t.rows:
		err = t.printRows(room, tailor, bf, g)
	case t.upward:
		err = t.printUpward(on, cut, args[1])
	default:
		err = t.printFigures(on, cut, args[1:])
	}
	if err == nil && fault.HasErrors(append(faults, found...)) {
		return errFaults
	}
	return err
}

// hasRound reports what is wrong where the build has no such round.
func hasRound(b *record.Build, round int) error {
	var numbers []string
	for _, f := range b.InOrder() {
		if f.Round.V == round {
			return nil
		}
		numbers = append(numbers, strconv.Itoa(f.Round.V))
	}
	switch {
	case round == 0:
		return nil
	case len(numbers) == 0:
		return misused(say.Of("hembook.has-no-fitting-it-has-none", b.Slug, round))
	}
	return misused(say.Of("hembook.has-no-fitting-there-are-0-the", b.Slug, round, joinWords(numbers)))
}

// printFigures prints the figures that words ask for, or those that matter.
func (t *tally) printFigures(on *buildAtHand, cut *cutting.Cutting, asked []string) error {
	room, bf, tailor, g := on.room, on.file, on.tailor, cut.Garment
	list := shownFigures(g)
	if cut.Rounds != nil {
		for _, f := range cut.Rounds.Figures() {
			list = append(list, shown{f, false})
		}
	}
	if len(asked) > 0 {
		var err error
		if list, err = wanted(list, asked); err != nil {
			return err
		}
	}
	d := newDraft(room.Workroom.Style())
	if t.round >= 0 {
		d.Say(document.Say(asAfter(t.round)))
	}
	if t.json || len(asked) > 0 {
		figureBlocks(d, bf, list)
	} else {
		fewBlocks(d, bf, cut)
	}
	if t.json {
		out := jsonTally{jsonReport: reportOf(bf, d)}
		if len(asked) == 0 {
			out.whole(tailor, cut)
		}
		return document.PrintJSON(t.out, out)
	}
	tell(t.out, d, t.working)
	printFaults(t.errs, g.Faults)
	return nil
}

// A shown figure is one the maker sees at the terminal, private ones included.
type shown struct {
	figure.Figure
	private bool
}

func shownFigures(g *derive.Garment) []shown {
	var out []shown
	for _, f := range g.Figures() {
		out = append(out, shown{f, false})
	}
	for _, p := range g.PrivateFigures() {
		out = append(out, shown{p.Open(record.ToTheMaker), true})
	}
	return out
}

// figureBlocks are figures in groups.
func figureBlocks(d *document.Draft, bf record.BuildFile, list []shown) {
	d.Say(document.Say(bf.Name + " (" + bf.Slug + ")"))
	group := func(s shown) string { name, _, _ := strings.Cut(s.ID, "."); return name }
	for from, to := 0, 0; from < len(list); from = to {
		for to = from; to < len(list) && group(list[to]) == group(list[from]); to++ {
		}
		d.Add(document.Section{Head: group(list[from]), Blocks: []document.Block{facts(d, list[from:to], true)}})
	}
}

// facts are figures by their titles, under the name of what they are of where
// that is asked for.
func facts(d *document.Draft, list []shown, of bool) document.Facts {
	var out document.Facts
	for i := range list {
		s := &list[i]
		name := s.Title
		if of && s.Of != "" {
			name = strings.TrimSuffix(s.Of+": "+s.Title, ": ")
		}
		if fact, ok := d.Fact(name, &s.Figure); ok {
			fact.Private = s.private
			out.Items = append(out.Items, fact)
		}
	}
	return out
}

// momentForm is how moments are written at the terminal.
const momentForm = "Mon 2006-01-02 15:04"

// newDraft begins a document to be told at the terminal.
func newDraft(style measure.Style) *document.Draft {
	return &document.Draft{Printer: document.Printer{Style: style, Moment: momentForm}}
}

// tell writes a document, as wide as the terminal where there is one.
func tell(out io.Writer, d *document.Draft, working bool) {
	w := document.Terminal{Printer: d.Printer, Working: working}
	if f, ok := out.(*os.File); ok && term.IsTerminal(int(f.Fd())) {
		w.Wide, _, _ = term.GetSize(int(f.Fd()))
	}
	_, _ = out.Write(w.Write(d.Blocks))
}
