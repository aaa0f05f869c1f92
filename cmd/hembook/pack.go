package main

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"hembook/internal/cutting"
	"hembook/internal/disk"
	"hembook/internal/document"
	"hembook/internal/notebook"
	"hembook/internal/paper"
	"hembook/internal/record"
	"hembook/internal/sheet"
	"hembook/internal/words"
)

// packOptions are the flags of pack.
type packOptions struct {
	to, language, paper, lays, font string
	sheets                          []string
	plain, missing, json, working   bool
}

func newPack(opt *options) *cobra.Command {
	var pack packOptions
	cmd := &cobra.Command{
		Use:   "pack BUILD",
		Short: "make the packet that goes into the box",
		Long: `pack writes the sheets that go to the wearer with the garment: care and fit,
repairs and changes, what is in the box, for another maker, and customs facts
where the parcel crosses a customs border. Each sheet comes as a page of HTML and
as a PDF, and all of them together as packet.html and packet.pdf, which need
nothing beside themselves. The folder is replaced as a whole or not at all.

What is missing or doubtful is told first. A packet that would be silent or wrong
on care, fibres, fire, children or customs, or that nobody has checked for pins,
is refused, unless the record gives a reason under packet: despite:, which is
printed on the sheet. The packet holds what is private: keep it from the public
notebook.

Sheets: ` + strings.Join(sheet.Names(), ", ") + `. Languages: ` + strings.Join(sheet.Languages, ", ") + `.
Exit status: 0 packed, 1 refused or records hold errors, 2 for wrong use.`,
		Example: `  hembook pack supper-dress                  into packed/ in the workroom
  hembook pack supper --missing              what is missing, and where the care comes from
  hembook pack supper --language de --paper letter
  hembook pack supper --sheets care-and-fit --to ~/desk/sheet`,
		Args: oneArg("which build? hembook pack BUILD"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return runPack(cmd.Context(), opt, pack, args[0], cmd.OutOrStdout(), cmd.ErrOrStderr())
		},
		ValidArgsFunction: opt.completeBuilds,
	}
	f := cmd.Flags()
	f.StringVar(&pack.to, "to", "", "the `folder` to write (packed/BUILD, in the workroom)")
	f.StringVar(&pack.language, "language", "", "the `language` of the fixed words (the wearer's)")
	f.StringVar(&pack.paper, "paper", "", "a4 or letter (the workroom's)")
	f.StringSliceVar(&pack.sheets, "sheets", nil, "only these `sheets`, separated by commas")
	f.StringVar(&pack.lays, "lays", "make", "lay plans: make those that are not kept yet, use only those `kept`, or none")
	f.StringVar(&pack.font, "font", "", "a TrueType `file` for letters the PDF's own faces lack, such as Japanese")
	f.BoolVar(&pack.plain, "plain", false, "care in words alone, without symbols")
	f.BoolVar(&pack.missing, "missing", false, "only say what is missing and where care and content come from; write nothing")
	f.BoolVar(&pack.working, "working", false, "with --missing: show how each figure was reached")
	f.BoolVar(&pack.json, "json", false, "with --missing: print JSON: care, content with every working, what is missing")
	return cmd
}

func runPack(ctx context.Context, opt *options, pack packOptions, word string, out, errs io.Writer) error {
	mode, ok := layModes[pack.lays]
	if !ok {
		return useErrorf("--lays takes make, kept or none, not %q", pack.lays)
	}
	if (pack.json || pack.working) && !pack.missing {
		return useErrorf("--json and --working go with --missing")
	}
	on, err := opt.openBuild(word)
	if err != nil {
		return err
	}
	defer on.room.Close()
	room, tailor, bf, b := on.room, on.tailor, on.file, on.build
	how, err := pack.options(room, bf)
	if err != nil {
		return err
	}
	if record.HasErrors(on.faults) {
		printFaults(errs, on.faults)
		fmt.Fprintln(errs, "nothing was packed")
		return errFaults
	}
	if !pack.missing { // told before the lays are searched for
		if _, err := packTo(pack.folder(room, bf), room.Dir); err != nil {
			return err
		}
	}
	bar := newLayBar(errs)
	cut := cutting.NewCutter(ctx, room, tailor, cutting.Options{Mode: mode, Progress: bar.report()}).Cut(b)
	bar.done()
	packet, err := sheet.Make(room, tailor, cut, cut.Garment.Faults, how)
	if err != nil {
		return useErrorf("%s", err)
	}
	if pack.missing && pack.json {
		if err := packJSON(out, bf, packet); err != nil || !packet.Refused() {
			return err
		}
		return errFaults
	}
	if pack.missing {
		d := newDraft(room.Workroom.Style())
		packBlocks(d, packet, pack.working)
		tell(out, d, pack.working)
		return packFindings(errs, packet)
	}
	return pack.write(room, bf, packet, newPackProof(room, b, cut.Garment.Figures()), out, errs)
}

// folder is where the packet goes.
func (o packOptions) folder(room *record.Room, bf record.BuildFile) string {
	if o.to != "" {
		return o.to
	}
	return filepath.Join(room.Dir, "packed", bf.Slug)
}

// options are what the sheets need to know of the flags.
func (o packOptions) options(room *record.Room, bf record.BuildFile) (sheet.Options, error) {
	how := sheet.Options{Language: o.language, Sheets: o.sheets, Plain: o.plain}
	switch strings.ToLower(o.paper) {
	case "":
		if room.Workroom.Paper.V == "Letter" {
			how.Size = document.Letter
		}
	case "a4":
	case "letter":
		how.Size = document.Letter
	default:
		return how, useErrorf("--paper takes a4 or letter, not %q", o.paper)
	}
	if site := room.Workroom.Site; site.Given() {
		book := notebook.New(room)
		for i := range room.Builds {
			if room.Builds[i].Slug == bf.Slug {
				how.Public = strings.TrimSuffix(site.V, "/") + "/" + string(book.BuildAddress(i))
			}
		}
	}
	return how, nil
}

// write sets the sheets, and puts the folder in its place when all are done.
func (o packOptions) write(room *record.Room, bf record.BuildFile, packet *sheet.Packet, last *packProof, out, errs io.Writer) error {
	if packet.Refused() {
		err := packFindings(errs, packet)
		fmt.Fprintln(errs, "nothing was packed")
		return err
	}
	var set paper.Options
	if o.font != "" {
		data, err := disk.ReadFile(o.font)
		if err != nil {
			return useErrorf("the font %s cannot be read: %s", o.font, plainError(err))
		}
		set.MoreFont = data
	}
	more, err := sheet.PageFindings(packet, set)
	if err != nil {
		return err
	}
	packet.Findings = append(packet.Findings, more...)
	files, err := packFiles(packet, set)
	if err != nil {
		return err
	}
	if err := packFindings(errs, packet); err != nil {
		return err
	}
	if leaks := last.faults(packet, files); len(leaks) > 0 {
		printFaults(errs, leaks)
		fmt.Fprintln(errs, "nothing was packed")
		return errFaults
	}
	to := o.folder(room, bf)
	if err := writeFolder(to, room.Dir, files); err != nil {
		return err
	}
	fmt.Fprintf(out, "%s in %s, in %s\n", words.Count(len(packet.Sheets), "sheet"), to, packet.Language)
	for _, f := range files {
		if strings.HasPrefix(f.name, "packet.") {
			fmt.Fprintf(out, "  %-12s %s\n", f.name, fileSize(len(f.data)))
		}
	}
	return nil
}

// packFindings prints what is missing or doubtful; the error says that the
// packet is refused.
func packFindings(errs io.Writer, packet *sheet.Packet) error {
	refused := 0
	for _, f := range packet.Findings {
		fmt.Fprintln(errs, f)
		if f.Refused {
			refused++
		}
	}
	if refused > 0 {
		return errFaults
	}
	return nil
}

// fileSize prints how large a file is.
func fileSize(n int) string {
	if n < 10_000 {
		return fmt.Sprintf("%d bytes", n)
	}
	return fmt.Sprintf("%d kB", (n+500)/1000)
}
