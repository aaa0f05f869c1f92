package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/fault"
	"hembook/internal/press"
	"hembook/internal/say"
	"hembook/internal/words"
)

func newPress(opt *options) *cobra.Command {
	var to, lays string
	cmd := &cobra.Command{
		Use:     "press",
		Short:   say.Of("hembook.press-short"),
		Long:    say.Of("hembook.press-long"),
		Example: say.Of("hembook.press-example"),
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			mode, ok := layModes[lays]
			if !ok {
				return misused(say.Of("hembook.lays-is-make-kept-or-none-not", say.Quoted(lays)))
			}
			return pressUnlessSame(cmd.Context(), opt, to, mode, cmd.OutOrStdout(), cmd.ErrOrStderr())
		},
	}
	cmd.Flags().StringVar(&to, "to", "", say.Of("hembook.the-folder-else-pressed-in-the-workroom"))
	cmd.Flags().StringVar(&lays, "lays", "make", say.Of("hembook.lay-plans-make-use-kept-ones-or"))
	completeFixed(cmd, "lays", "make", "kept", "none")
	return cmd
}

// layModes are the answers to --lays.
var layModes = map[string]cutting.Mode{"make": cutting.Make, "kept": cutting.KeptOnly, "none": cutting.None}

// pressUnlessSame presses unless that would write nothing: then it says what the last
// press said.
func pressUnlessSame(ctx context.Context, opt *options, to string, lays cutting.Mode, out, errs io.Writer) error {
	dir, err := opt.findRoom()
	if err != nil {
		return err
	}
	if to == "" {
		to = filepath.Join(dir, "pressed")
	}
	how := fmt.Sprint(thisProgram(), lays)
	grounds := press.GroundsOf(dir, how)
	if report, faults, same := grounds.Unchanged(to); same {
		tellPressed(out, errs, to, report, faults)
		return nil
	}
	report, faults, err := runPress(ctx, opt, to, lays, errs)
	if err != nil {
		return err
	}
	tellPressed(out, errs, to, report, faults)
	grounds.Account(how, to, report, faults)
	return nil
}

// thisProgram tells the program from any other that could make another notebook.
func thisProgram() string {
	said := version
	if path, err := os.Executable(); err == nil {
		if info, err := os.Stat(path); err == nil {
			said += fmt.Sprint(" ", info.Size(), " ", info.ModTime().UnixNano())
		}
	}
	return said
}

// tellPressed says what the notebook holds and where it is.
func tellPressed(out, errs io.Writer, to string, report press.Report, faults []fault.Fault) {
	printFaults(errs, faults)
	fmt.Fprintln(out, say.Of("hembook.the-notebook-is-ready-open-of-files", filepath.Join(to, "index.html"), words.Count(report.Pages, "page"), report.Written, report.Files, wentAndStayed(report)))
	tellHers(out, to, report)
}

func runPress(ctx context.Context, opt *options, to string, lays cutting.Mode, errs io.Writer) (press.Report, []fault.Fault, error) {
	defer collectSeldom()()
	room, opened, err := opt.openRoom()
	if err != nil {
		return press.Report{}, nil, err
	}
	defer room.Close()
	tailor, more := derive.NewTailor(room)
	faults := append(opened, more...)
	if fault.HasErrors(faults) {
		return press.Report{}, nil, refuse(opt, errs)
	}
	theme, err := roomTheme(room)
	if err != nil {
		return press.Report{}, nil, err
	}
	bar := newProgress(errs, "pressing")
	defer pressErrand(room.Dir, to).End()
	cutter := cutting.NewCutter(ctx, room, tailor, cutting.Options{Mode: lays})
	report, more, err := press.Press(ctx, room, cutter, theme, press.Options{To: to, Progress: bar.pressed})
	bar.done()
	var all fault.Faults
	all.Add(append(faults, more...)...)
	if errors.Is(err, press.ErrRecords) {
		// figures too, which the press does not derive from what has errors
		rest, err := checkAll(opt, newProgress(errs, "checking"))
		if err != nil {
			return press.Report{}, nil, err
		}
		all.Add(rest.faults...)
		printFaults(errs, all.Sorted())
		fmt.Fprintln(errs, say.Of("hembook.the-notebook-stays-as-it-was-until", faultSummary(all.Sorted(), len(room.Builds))))
		return press.Report{}, nil, errFaults
	}
	if err != nil {
		return press.Report{}, nil, err
	}
	return report, all.Sorted(), nil
}

// wentAndStayed ends the closing line: what is gone of the notebook before, and
// what the maker put there herself.
func wentAndStayed(r press.Report) string {
	said := ""
	if r.Removed > 0 {
		said += say.Of("hembook.old-ones-removed", r.Removed)
	}
	if r.Carried > 0 {
		said += say.Of("hembook.of-yours-kept", r.Carried)
	}
	return said
}

// tellHers says where her own files are, where they have another name now.
func tellHers(out io.Writer, to string, r press.Report) {
	tellYours(out, to, r.Yours)
	if r.Before != "" {
		fmt.Fprintln(out, say.Of("hembook.had-no-list-of-its-files-all", to, r.Before))
	}
}

// tellYours says which other names her versions of pages have.
func tellYours(out io.Writer, to string, names []string) {
	for _, name := range names {
		fmt.Fprintln(out, say.Of("hembook.you-changed-a-page-by-hand-your", filepath.Join(to, filepath.FromSlash(name))))
	}
}

// refuse says everything that is wrong, of every file, and that nothing was written.
func refuse(opt *options, errs io.Writer) error {
	found, err := checkAll(opt, newProgress(errs, "checking"))
	if err != nil {
		return err
	}
	printFaults(errs, found.faults)
	fmt.Fprintln(errs, say.Of("hembook.the-notebook-stays-as-it-was-until", faultSummary(found.faults, found.builds)))
	return errFaults
}
