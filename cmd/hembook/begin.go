package main

import (
	"bytes"
	"context"
	"embed"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"

	"github.com/gosimple/slug"
	"github.com/spf13/cobra"
	"golang.org/x/term"

	"hembook/internal/disk"
	"hembook/internal/draft"
	"hembook/internal/record"
	"hembook/internal/record/amend"
)

//go:embed all:starter
var starter embed.FS

//go:embed build-starter.yaml
var buildStarter []byte

func newBegin(opt *options) *cobra.Command {
	var units string
	var how drafting
	var list bool
	cmd := &cobra.Command{
		Use:   "begin [NAME]",
		Short: "make a workroom, or in one the record of a new garment",
		Long: `Makes a workroom in this folder, or in a workroom the record of a new garment.
With --from it is drawn from measurements; you are asked for those you leave out.
It never overwrites a file.`,
		Example: `  hembook begin --units cm
  hembook begin "Harvest supper dress"
  hembook begin --drafts
  hembook begin "Market skirt" --from straight-skirt --with "waist 74 cm, hip 98 cm, length 60 cm"`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return useErrorf("one name, please; put quotes around it: hembook begin %q", strings.Join(args, " "))
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			dir := opt.room
			if dir == "" {
				dir = "."
			}
			room, inside := record.Find(dir)
			switch {
			case units != "" && !slices.Contains([]string{"mm", "cm", "in"}, units):
				return useErrorf("--units is mm, cm or in, not %s", units)
			case units != "" && len(args) > 0:
				return useErrorf("--units is for a new workroom; a garment has its own: write units: %s in its record", units)
			case list:
				return printDrafts(room, inside, cmd.OutOrStdout())
			case how.from == "" && (how.with != "" || how.wearer != "" || how.size != "" || how.cloth != ""):
				return useErrorf("say which draft too: --from straight-skirt\n    hembook begin --drafts lists them")
			case how.wearer != "" && how.size != "":
				return useErrorf("--wearer and --size are two ways to say the size: keep one of them")
			case how.from != "" && len(args) == 0:
				return useErrorf("and a name, please: hembook begin \"Market skirt\" --from %s", how.from)
			case len(args) == 0 && inside:
				return useErrorf("%s is a workroom already\n    a new garment: hembook begin \"Market skirt\"", room)
			case len(args) == 0:
				return beginRoom(cmd.Context(), dir, units, cmd.OutOrStdout())
			case !inside:
				return useErrorf("this folder is not a workroom yet\n    hembook begin, without a name, makes one")
			}
			return beginBuild(room, args[0], how, cmd)
		},
	}
	cmd.Flags().StringVar(&how.from, "from", "", "the `draft` that draws it")
	cmd.Flags().StringVar(&how.with, "with", "", "the `measurements` for it, as \"waist 74 cm, hip 98 cm\"")
	cmd.Flags().StringVar(&how.wearer, "wearer", "", "draw it for the size of this `wearer`, by the file's name")
	cmd.Flags().StringVar(&how.size, "size", "", "draw it for a `size` of a published table, as \"misses 12\"")
	cmd.Flags().StringVar(&how.cloth, "cloth", "", "the `cloth` it is cut from, by the file's name")
	cmd.Flags().BoolVar(&list, "drafts", false, "list what can be drawn, and from which measurements")
	cmd.Flags().StringVar(&units, "units", "", "what a bare number is in, in a new workroom: mm, cm or `in` (else mm)")
	completeFixed(cmd, "units", "mm", "cm", "in")
	opt.completeNames(cmd, "from", func(r *record.Room) (names []string) {
		for _, d := range draft.Among(r.Drafts) {
			names = append(names, d.Slug+"\t"+d.Summary.V)
		}
		return names
	})
	opt.completeNames(cmd, "wearer", func(r *record.Room) []string { return slices.Sorted(maps.Keys(r.Wearers)) })
	opt.completeNames(cmd, "cloth", func(r *record.Room) (names []string) {
		for _, c := range r.Cloths {
			names = append(names, c.Slug)
		}
		return names
	})
	return cmd
}

// inUnits finds the lines of the starter that say what units are used.
var inUnits = regexp.MustCompile(`(?m)^(units|show): mm`)

// beginRoom writes the starter workroom, file by file, never over another.
func beginRoom(ctx context.Context, dir, units string, out io.Writer) error {
	if _, err := os.Stat(filepath.Join(dir, "content")); err == nil {
		return fmt.Errorf("there is a folder content in %s already, without a workroom.yaml\n    write content/workroom.yaml by hand, or begin in an empty folder", dir)
	}
	err := fs.WalkDir(starter, "starter", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		text, err := starter.ReadFile(path)
		if err != nil {
			return err
		}
		if units != "" && path == "starter/content/workroom.yaml" {
			text = inUnits.ReplaceAll(text, []byte("$1: "+units))
		}
		to := filepath.Join(dir, filepath.FromSlash(strings.TrimPrefix(path, "starter/")))
		return writeNew(to, text)
	})
	if err != nil {
		return fmt.Errorf("the workroom could not be made: %w", err)
	}
	if err := writeSchemas(dir); err != nil {
		return fmt.Errorf("the workroom is there, but the schemas for editors could not be written beside it: %w", err)
	}
	if err := writeGuide(ctx, filepath.Join(dir, "guide")); err != nil {
		return fmt.Errorf("the workroom is there, but the guide could not be written beside it: %w", err)
	}
	fmt.Fprint(out, `Your workroom is ready.

  content/workroom.yaml                      you, your units, your hours
  content/cloth/practice-cotton.yaml         a cloth on the shelf
  content/techniques/plain-seam.md           how you do something
  content/builds/practice-skirt/build.yaml   a skirt to practise on
  content/pages/about.md                     a page about you
  guide/index.html                           the guide: open it by a double-click

Try these three:
  hembook check           does everything fit together?
  hembook lay practice    where to chalk it, how much cloth
  hembook show            its page
`)
	return nil
}

func beginBuild(room, name string, how drafting, cmd *cobra.Command) error {
	out := cmd.OutOrStdout()
	folder := slug.Make(name)
	if folder == "" {
		return useErrorf("a name needs at least one letter, not %q", name)
	}
	if disk.Reserved(folder) {
		folder += "-2" // as its page's address: no folder can have that name on Windows
	}
	if err := sameName(room, name); err != nil {
		return err
	}
	begins, err := beginning(room, name, how, cmd)
	if err != nil {
		return err
	}
	oneLine := strings.Join(strings.Fields(name), " ")
	text := bytes.Replace(begins, []byte("NAME"), []byte(oneLine), 1)
	text, err = amend.Set(text, amend.At("name"), amend.Words(name))
	if err != nil {
		return fmt.Errorf("%q cannot be the name of a garment: %w", name, err)
	}
	rel := filepath.Join("content", "builds", folder, "build.yaml")
	if err := writeNew(filepath.Join(room, rel), text); err != nil {
		if errors.Is(err, fs.ErrExist) {
			return fmt.Errorf("%s is there already", rel)
		}
		return fmt.Errorf("its record could not be made: %w", err)
	}
	if how.from != "" {
		fmt.Fprintf(out, "%s is drawn: %s\n    hembook check %s, hembook lay %s, hembook pattern %s\n", oneLine, filepath.ToSlash(rel), folder, folder, folder)
		return nil
	}
	fmt.Fprintf(out, "%s is ready to write: %s\n", oneLine, filepath.ToSlash(rel))
	return nil
}

// garments are kinds of garment that a name may tell.
var garments = []string{"dress", "skirt", "trousers", "waistcoat", "coat", "blouse", "slip", "shirt", "jacket", "apron", "tunic", "gown", "cape", "cloak"}

// garmentIn is the kind of garment that a name tells; a dress, where it tells none.
func garmentIn(name string) string {
	for _, word := range strings.Fields(strings.ToLower(name)) {
		if slices.Contains(garments, word) {
			return word
		}
	}
	return "dress"
}

// beginning is the text a new record begins as: to be written, or drawn from a draft.
func beginning(dir, name string, how drafting, cmd *cobra.Command) ([]byte, error) {
	if how.from == "" {
		return bytes.Replace(buildStarter, []byte("garment: dress "), fmt.Appendf(nil, "garment: %s ", garmentIn(name)), 1), nil
	}
	room, _, err := record.Open(dir)
	if err != nil {
		return nil, err
	}
	defer room.Close()
	var ask io.Reader
	if in, ok := cmd.InOrStdin().(*os.File); ok && term.IsTerminal(int(in.Fd())) {
		ask = in
	}
	return draftText(room, how, ask, cmd.OutOrStdout())
}

// printDrafts lists the drafts of a workroom, or where there is none the program's own.
func printDrafts(dir string, inside bool, out io.Writer) error {
	if !inside {
		listDrafts(nil, out)
		return nil
	}
	room, _, err := record.Open(dir)
	if err != nil {
		return err
	}
	defer room.Close()
	listDrafts(room.Drafts, out)
	return nil
}

// sameName refuses a name that another build has.
func sameName(dir, name string) error {
	room, _, err := record.Open(dir)
	if err != nil {
		return err
	}
	defer room.Close()
	for _, b := range room.Builds {
		if strings.EqualFold(b.Name, name) {
			return fmt.Errorf("there is a garment called %q already: %s", b.Name, b.Path)
		}
	}
	return nil
}

// writeNew writes a file that must not be there yet.
func writeNew(path string, text []byte) error {
	if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
		return err
	}
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	_, err = f.Write(text)
	return errors.Join(err, f.Close())
}
