package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"

	"github.com/spf13/cobra"

	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/fault"
	"hembook/internal/press"
	"hembook/internal/words"
)

func newPress(opt *options) *cobra.Command {
	var to, lays string
	cmd := &cobra.Command{
		Use:   "press",
		Short: "make the notebook",
		Long: `Makes the notebook: a folder of pages that opens with a double-click or from any
web server. Nothing private is in it. Where a record is wrong the notebook stays
as it was. Files that you put there yourself stay.`,
		Example: `  hembook press                     into pressed/ in the workroom
  hembook press --to ../public      elsewhere
  hembook press --lays kept         with the lay plans there are`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			mode, ok := layModes[lays]
			if !ok {
				return useErrorf("--lays is make, kept or none, not %q", lays)
			}
			return runPress(cmd.Context(), opt, to, mode, cmd.OutOrStdout(), cmd.ErrOrStderr())
		},
	}
	cmd.Flags().StringVar(&to, "to", "", "the `folder` (else pressed, in the workroom)")
	cmd.Flags().StringVar(&lays, "lays", "make", "lay plans: make, use `kept` ones, or none")
	completeFixed(cmd, "lays", "make", "kept", "none")
	return cmd
}

// layModes are the answers to --lays.
var layModes = map[string]cutting.Mode{"make": cutting.Make, "kept": cutting.KeptOnly, "none": cutting.None}

func runPress(ctx context.Context, opt *options, to string, lays cutting.Mode, out, errs io.Writer) error {
	defer collectSeldom()()
	room, opened, err := opt.openRoom()
	if err != nil {
		return err
	}
	defer room.Close()
	if to == "" {
		to = filepath.Join(room.Dir, "pressed")
	}
	tailor, more := derive.NewTailor(room)
	faults := append(opened, more...)
	if fault.HasErrors(faults) {
		return refuse(opt, errs)
	}
	theme, err := roomTheme(room)
	if err != nil {
		return err
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
			return err
		}
		all.Add(rest.faults...)
		printFaults(errs, all.Sorted())
		fmt.Fprintf(errs, "%s\nthe notebook stays as it was until this is right\n", faultSummary(all.Sorted(), len(room.Builds)))
		return errFaults
	}
	if err != nil {
		return err
	}
	printFaults(errs, all.Sorted())
	fmt.Fprintf(out, "The notebook is ready: open %s\n%s, %d of %d files new%s\n", filepath.Join(to, "index.html"), words.Count(report.Pages, "page"), report.Written, report.Files, wentAndStayed(report))
	tellHers(out, to, report)
	return nil
}

// wentAndStayed ends the closing line: what is gone of the notebook before, and
// what the maker put there herself.
func wentAndStayed(r press.Report) string {
	said := ""
	if r.Removed > 0 {
		said += fmt.Sprintf(", %d old ones removed", r.Removed)
	}
	if r.Carried > 0 {
		said += fmt.Sprintf(", %d of yours kept", r.Carried)
	}
	return said
}

// tellHers says where her own files are, where they have another name now.
func tellHers(out io.Writer, to string, r press.Report) {
	tellYours(out, to, r.Yours)
	if r.Before != "" {
		fmt.Fprintf(out, "%s had no list of its files: all of it is kept as %s\n    copy your own files back from there, then delete it\n", to, r.Before)
	}
}

// tellYours says which other names her versions of pages have.
func tellYours(out io.Writer, to string, names []string) {
	for _, name := range names {
		fmt.Fprintf(out, "you changed a page by hand: your version is kept as %s\n", filepath.Join(to, filepath.FromSlash(name)))
	}
}

// refuse says everything that is wrong, of every file, and that nothing was written.
func refuse(opt *options, errs io.Writer) error {
	found, err := checkAll(opt, newProgress(errs, "checking"))
	if err != nil {
		return err
	}
	printFaults(errs, found.faults)
	fmt.Fprintf(errs, "%s\nthe notebook stays as it was until this is right\n", faultSummary(found.faults, found.builds))
	return errFaults
}
