package main

import (
	"bytes"
	"embed"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/gosimple/slug"
	"github.com/spf13/cobra"

	"hembook/internal/disk"
	"hembook/internal/record"
	"hembook/internal/record/amend"
)

//go:embed all:starter
var starter embed.FS

//go:embed build-starter.yaml
var buildStarter []byte

func newBegin(opt *options) *cobra.Command {
	return &cobra.Command{
		Use:   "begin [NAME]",
		Short: "make a workroom, or a build in one",
		Long: `begin makes a small commented workroom in this folder. Inside a workroom, and
with a NAME, it makes the record of a new build of that name. It never writes
over a file that is there.`,
		Example: `  mkdir workroom && cd workroom && hembook begin
  hembook begin "Harvest supper dress"`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 1 {
				return useErrorf("begin takes one name; put quotes around it: hembook begin %q", strings.Join(args, " "))
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
			case len(args) == 0 && inside:
				return useErrorf("%s is a workroom already\n    hembook begin NAME makes a build in it", room)
			case len(args) == 0:
				return beginRoom(dir, cmd.OutOrStdout())
			case !inside:
				return useErrorf("there is no workroom here yet to make %q in\n    hembook begin, without a name, makes one in this folder", args[0])
			}
			return beginBuild(room, args[0], cmd.OutOrStdout())
		},
	}
}

// beginRoom writes the starter workroom, file by file, never over another.
func beginRoom(dir string, out io.Writer) error {
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
		to := filepath.Join(dir, filepath.FromSlash(strings.TrimPrefix(path, "starter/")))
		return writeNew(to, text)
	})
	if err != nil {
		return fmt.Errorf("making the workroom: %w", err)
	}
	fmt.Fprint(out, `a workroom is begun:
  content/workroom.yaml                      what holds for every build
  content/cloth/practice-cotton.yaml         a cloth
  content/techniques/plain-seam.md           a technique
  content/builds/practice-skirt/build.yaml   a build
  content/pages/about.md                     a page about you

next: hembook check     checks the records
      hembook press     makes the notebook, in pressed/
`)
	return nil
}

func beginBuild(room, name string, out io.Writer) error {
	folder := slug.Make(name)
	if folder == "" {
		return useErrorf("%q has no letter to name a folder by", name)
	}
	if disk.Reserved(folder) {
		folder += "-2" // as its page's address: no folder can have that name on Windows
	}
	if err := sameName(room, name); err != nil {
		return err
	}
	oneLine := strings.Join(strings.Fields(name), " ")
	text := bytes.Replace(buildStarter, []byte("NAME"), []byte(oneLine), 1)
	text, err := amend.Set(text, amend.At("name"), amend.Words(name))
	if err != nil {
		return fmt.Errorf("%q cannot be the name of a build: %w", name, err)
	}
	rel := filepath.Join("content", "builds", folder, "build.yaml")
	if err := writeNew(filepath.Join(room, rel), text); err != nil {
		if errors.Is(err, fs.ErrExist) {
			return fmt.Errorf("%s is there already", rel)
		}
		return fmt.Errorf("making the build: %w", err)
	}
	fmt.Fprintf(out, "%s is begun\n", filepath.ToSlash(rel))
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
			return fmt.Errorf("there is a build called %q already: %s", b.Name, b.Path)
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
