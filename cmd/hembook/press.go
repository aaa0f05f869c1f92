package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path/filepath"

	"github.com/spf13/cobra"

	"hembook/internal/garment"
	"hembook/internal/press"
	"hembook/internal/record"
	"hembook/themes"
)

func newPress(opt *options) *cobra.Command {
	var to string
	cmd := &cobra.Command{
		Use:   "press",
		Short: "render the notebook",
		Long: `press checks every record and, where none has an error, renders the notebook: a
folder of pages that opens by a double-click or from any web server. The folder
is replaced as a whole or not at all; files that did not change keep their time
stamps. What is private reaches no page.`,
		Example: `  hembook press                     into pressed/ in the workroom
  hembook press --to ../public      elsewhere`,
		Args: cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return runPress(cmd.Context(), opt, to, cmd.OutOrStdout(), cmd.ErrOrStderr())
		},
	}
	cmd.Flags().StringVar(&to, "to", "", "the `folder` to render into (pressed, in the workroom)")
	return cmd
}

func runPress(ctx context.Context, opt *options, to string, out, errs io.Writer) error {
	room, opened, err := opt.openRoom()
	if err != nil {
		return err
	}
	defer room.Close()
	if to == "" {
		to = filepath.Join(room.Dir, "pressed")
	}
	tailor, more := garment.NewTailor(room)
	faults := append(opened, more...)
	if record.HasErrors(faults) {
		return refuse(opt, errs)
	}
	own, err := fs.Sub(room.FS, "themes/plainweave")
	if err != nil {
		return err
	}
	theme, err := press.LoadTheme(themes.Plainweave(), own)
	if err != nil {
		return err
	}
	report, more, err := press.Press(ctx, room, tailor, theme, press.Options{To: to})
	var all record.Faults
	all.Add(append(faults, more...)...)
	if err == nil || errors.Is(err, press.ErrRecords) {
		printFaults(errs, all.Sorted())
	}
	if errors.Is(err, press.ErrRecords) {
		fmt.Fprintf(errs, "%s; nothing was written\n", faultSummary(all.Sorted(), len(room.Builds)))
		return errFaults
	}
	if err != nil {
		return err
	}
	fmt.Fprintf(out, "%s in %s: %d files, %d of them new or changed\n", counted(report.Pages, "page"), to, report.Files, report.Written)
	return nil
}

// refuse says everything that is wrong, of every file, and that nothing was written.
func refuse(opt *options, errs io.Writer) error {
	faults, builds, err := checkAll(opt, newProgress(errs, "checking"))
	if err != nil {
		return err
	}
	printFaults(errs, faults)
	fmt.Fprintf(errs, "%s; nothing was written\n", faultSummary(faults, builds))
	return errFaults
}
