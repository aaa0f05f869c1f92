package main

import (
	"context"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"hembook/internal/cutting"
	"hembook/internal/document"
	"hembook/internal/fault"
	"hembook/internal/notebook"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/sheet"
	"hembook/internal/words"
)

// packOptions are the flags of pack.
type packOptions struct {
	to, language, paper, lays, font string
	readers                         []string
	plain, missing, json, working   bool
}

func newPack(opt *options) *cobra.Command {
	var pack packOptions
	cmd := &cobra.Command{
		Use:     "pack BUILD",
		Short:   say.Of("hembook.pack-short"),
		Long:    say.Of("hembook.the-sheets-that-go-with-the-garment", strings.Join(sheet.ReaderNames(), ", "), strings.Join(sheet.Languages, ", ")),
		Example: say.Of("hembook.pack-example"),
		Args:    oneArg(say.Of("hembook.which-garment-hembook-pack-build")),
		RunE: func(cmd *cobra.Command, args []string) error {
			return runPack(cmd.Context(), opt, pack, args[0], cmd.OutOrStdout(), cmd.ErrOrStderr())
		},
		ValidArgsFunction: opt.completeBuilds,
	}
	f := cmd.Flags()
	f.StringVar(&pack.to, "to", "", say.Of("hembook.the-folder-else-packed-build-in-the"))
	f.StringVar(&pack.language, "language", "", say.Of("hembook.language-of-the-sheets-else-the-wearers"))
	f.StringVar(&pack.paper, "paper", "", say.Of("hembook.a4-or-letter-else-the-workrooms"))
	f.StringSliceVar(&pack.readers, "for", nil, say.Of("hembook.only-the-sheets-for-these-readers-separated"))
	f.StringVar(&pack.lays, "lays", "make", say.Of("hembook.lay-plans-make-use-kept-ones-or"))
	f.StringVar(&pack.font, "font", "", say.Of("hembook.a-font-file-for-other-scripts-as"))
	f.BoolVar(&pack.plain, "plain", false, say.Of("hembook.care-in-words-alone-without-symbols"))
	f.BoolVar(&pack.missing, "missing", false, say.Of("hembook.only-say-what-is-missing-no-sheets"))
	f.BoolVar(&pack.working, "working", false, say.Of("hembook.with-missing-how-each-was-worked-out"))
	f.BoolVar(&pack.json, "json", false, say.Of("hembook.with-missing-for-other-programs"))
	completeFixed(cmd, "language", "en", "de", "fr", "es", "it", "nl", "ja")
	completeFixed(cmd, "paper", "a4", "letter")
	completeFixed(cmd, "lays", "make", "kept", "none")
	completeFixed(cmd, "for", sheet.ReaderNames()...)
	return cmd
}

func runPack(ctx context.Context, opt *options, pack packOptions, word string, out, errs io.Writer) error {
	mode, ok := layModes[pack.lays]
	if !ok {
		return misused(say.Of("hembook.lays-is-make-kept-or-none-not", say.Quoted(pack.lays)))
	}
	if (pack.json || pack.working) && !pack.missing {
		return misused(say.Of("hembook.json-and-working-go-with-missing"))
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
	if fault.HasErrors(on.faults) {
		printFaults(errs, on.faults)
		fmt.Fprintln(errs, say.Of("hembook.no-sheets-made-see-above"))
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
		return misused(err.Error())
	}
	if pack.missing {
		d := newDraft(room.Workroom.Style())
		packBlocks(d, packet, pack.working && !pack.json)
		if pack.json {
			if err := packJSON(out, reportOf(bf, d), packet); err != nil || !packet.Refused() {
				return err
			}
			return errFaults
		}
		tell(out, d, pack.working)
		return packFindings(errs, packet)
	}
	var more []packFile
	if slices.ContainsFunc(packet.Sheets, func(s sheet.Sheet) bool { return s.Name == "remake" }) {
		more = remakeFiles(room, tailor, cut, how.Size)
	}
	return pack.write(room, bf, packet, newPackProof(room, b, cut.Garment.Figures()), more, out, errs)
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
	how := sheet.Options{Language: o.language, For: o.readers, Plain: o.plain}
	switch strings.ToLower(o.paper) {
	case "":
		if room.Workroom.Paper.V == "Letter" {
			how.Size = document.Letter
		}
	case "a4":
	case "letter":
		how.Size = document.Letter
	default:
		return how, misused(say.Of("hembook.paper-is-a4-or-letter-not", say.Quoted(o.paper)))
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
func (o packOptions) write(room *record.Room, bf record.BuildFile, packet *sheet.Packet, last *packProof, beside []packFile, out, errs io.Writer) error {
	if packet.Refused() {
		err := packFindings(errs, packet)
		fmt.Fprintln(errs, say.Of("hembook.no-sheets-made-see-above"))
		return err
	}
	set, err := o.lettering(room, packet)
	if err != nil {
		return err
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
	files = append(files, beside...)
	if err := packFindings(errs, packet); err != nil {
		return err
	}
	if leaks := last.faults(packet, files); len(leaks) > 0 {
		printFaults(errs, leaks)
		fmt.Fprintln(errs, say.Of("hembook.no-sheets-made-see-above"))
		return errFaults
	}
	to := o.folder(room, bf)
	if err := writeFolder(to, room.Dir, files); err != nil {
		return err
	}
	fmt.Fprintln(out, say.Of("hembook.in-in", words.Count(len(packet.Sheets), "sheet"), to, packet.Language))
	for _, f := range files {
		if f.first {
			fmt.Fprintf(out, "  %-14s %s\n", f.name, fileSize(len(f.data)))
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
		return say.Of("hembook.bytes", n)
	}
	return fmt.Sprintf("%d kB", (n+500)/1000)
}
