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
	"hembook/internal/fault"
	"hembook/internal/record"
	"hembook/internal/record/amend"
	"hembook/internal/say"
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
		Use:     "begin [NAME]",
		Short:   say.Of("hembook.begin-short"),
		Long:    say.Of("hembook.begin-long"),
		Example: say.Of("hembook.begin-example"),
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return misused(say.Of("hembook.one-name-please-put-quotes-around-it", say.Quoted(strings.Join(args, " "))))
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
				return misused(say.Of("hembook.units-is-mm-cm-or-in-not", units))
			case units != "" && len(args) > 0:
				return misused(say.Of("hembook.units-is-for-a-new-workroom-a", units))
			case list:
				return printDrafts(room, inside, cmd.OutOrStdout())
			case how.from == "" && (how.with != "" || how.wearer != "" || how.size != "" || how.cloth != ""):
				return misused(say.Of("hembook.say-which-draft-too-from-straight-skirt"))
			case how.wearer != "" && how.size != "":
				return misused(say.Of("hembook.wearer-and-size-are-two-ways-to"))
			case how.from != "" && len(args) == 0:
				return misused(say.Of("hembook.and-a-name-please-hembook-begin-market", how.from))
			case len(args) == 0 && inside:
				return misused(say.Of("hembook.is-a-workroom-already-a-new-garment", room))
			case len(args) == 0:
				return beginRoom(cmd.Context(), dir, units, cmd.OutOrStdout())
			case !inside:
				return misused(say.Of("hembook.this-folder-is-not-a-workroom-yet"))
			}
			return beginBuild(room, args[0], how, cmd)
		},
	}
	cmd.Flags().StringVar(&how.from, "from", "", say.Of("hembook.the-draft-that-draws-it"))
	cmd.Flags().StringVar(&how.with, "with", "", say.Of("hembook.the-measurements-for-it-as-waist-74"))
	cmd.Flags().StringVar(&how.wearer, "wearer", "", say.Of("hembook.draw-it-for-the-size-of-this"))
	cmd.Flags().StringVar(&how.size, "size", "", say.Of("hembook.draw-it-for-a-size-of-a"))
	cmd.Flags().StringVar(&how.cloth, "cloth", "", say.Of("hembook.the-cloth-it-is-cut-from-by"))
	cmd.Flags().BoolVar(&list, "drafts", false, say.Of("hembook.list-what-can-be-drawn-and-from"))
	cmd.Flags().StringVar(&units, "units", "", say.Of("hembook.what-a-bare-number-is-in-in"))
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
		return errors.New(say.Of("hembook.there-is-a-folder-content-in-already", dir))
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
		return fault.Wrapping(err, say.Of("hembook.the-workroom-could-not-be-made", err))
	}
	if err := writeSchemas(dir); err != nil {
		return fault.Wrapping(err, say.Of("hembook.the-workroom-is-there-but-the-schemas", err))
	}
	if err := writeGuide(ctx, filepath.Join(dir, "guide")); err != nil {
		return fault.Wrapping(err, say.Of("hembook.the-workroom-is-there-but-the-guide", err))
	}
	fmt.Fprint(out, say.Of("hembook.your-workroom-is-ready-content-workroom-yaml"))
	return nil
}

func beginBuild(room, name string, how drafting, cmd *cobra.Command) error {
	out := cmd.OutOrStdout()
	folder := slug.Make(name)
	if folder == "" {
		return misused(say.Of("hembook.a-name-needs-at-least-one-letter", say.Quoted(name)))
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
		return fault.Wrapping(err, say.Of("hembook.cannot-be-the-name-of-a-garment", say.Quoted(name), err))
	}
	rel := filepath.Join("content", "builds", folder, "build.yaml")
	if err := writeNew(filepath.Join(room, rel), text); err != nil {
		if errors.Is(err, fs.ErrExist) {
			return errors.New(say.Of("hembook.is-there-already", rel))
		}
		return fault.Wrapping(err, say.Of("hembook.its-record-could-not-be-made", err))
	}
	if how.from != "" {
		fmt.Fprintln(out, say.Of("hembook.is-drawn-hembook-check-hembook-lay-hembook", oneLine, filepath.ToSlash(rel), folder))
		return nil
	}
	fmt.Fprintln(out, say.Of("hembook.is-ready-to-write", oneLine, filepath.ToSlash(rel)))
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
		return bytes.Replace(buildStarter, []byte("garment: dress "), []byte("garment: "+garmentIn(name)+" "), 1), nil
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
			return errors.New(say.Of("hembook.there-is-a-garment-called-already", say.Quoted(b.Name), b.Path))
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
