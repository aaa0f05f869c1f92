package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"hembook/internal/bench"
	"hembook/internal/disk"
)

// A jotting is what the jot command was asked to note.
type jotting struct {
	opt  *options
	now  func() time.Time
	out  io.Writer
	errs io.Writer
	in   io.Reader

	photo, alt, at, did string // flags
	done                bool
}

func newJot(opt *options) *cobra.Command {
	j := &jotting{opt: opt, now: time.Now}
	cmd := &cobra.Command{
		Use:   `jot BUILD ["NOTE"]`,
		Short: "add a note or a photograph to the journal",
		Long: `Adds a note or a photograph to the journal, with date and time. Where the
photograph was taken is removed. A note given as - is read from what you type
until Ctrl-D.`,
		Example: `  hembook jot supper "pressed **before** measuring"
  hembook jot supper "the fell from inside" --photo ~/IMG_2207.jpg --alt "Two rows of stitching, 5 mm apart"
  hembook jot supper "hung overnight, dropped 14 mm" --did level --at "yesterday 18:30"
  hembook jot supper --did neck --done`,
		Args: func(_ *cobra.Command, args []string) error {
			switch {
			case len(args) == 0:
				return useErrorf("to which garment? hembook jot BUILD \"NOTE\"")
			case len(args) > 2:
				return useErrorf("put quotes around the note: hembook jot %s %q", args[0], joinArgs(args[1:]))
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			j.out, j.errs, j.in = cmd.OutOrStdout(), cmd.ErrOrStderr(), cmd.InOrStdin()
			note := ""
			if len(args) == 2 {
				note = args[1]
			}
			return j.run(args[0], note)
		},
		ValidArgsFunction: opt.completeBuilds,
	}
	cmd.Flags().StringVar(&j.photo, "photo", "", "a photograph, the `file` of it")
	cmd.Flags().StringVar(&j.alt, "alt", "", "what the photograph shows, in `words`, for readers who cannot see it")
	cmd.Flags().StringVar(&j.at, "at", "", "when it was, if not `now`: 14:10, \"yesterday 14:10\", \"2026-08-05 14:10\" or a date")
	cmd.Flags().StringVar(&j.did, "did", "", "the `step` it belongs to")
	opt.completeOf(cmd, "did", stepNames)
	cmd.Flags().BoolVar(&j.done, "done", false, "the step named with --did is done")
	return cmd
}

func (j *jotting) run(build, note string) error {
	note, err := j.words(note)
	if err != nil {
		return err
	}
	e := bench.Entry{At: j.now(), Note: note, Alt: j.alt, Done: j.done}
	if j.at != "" {
		if e.At, e.Day, err = bench.Moment(j.at, j.now()); err != nil {
			return useErrorf("%s", err)
		}
	}
	room, _, err := j.opt.openRoom()
	if err != nil {
		return err
	}
	defer room.Close()
	w := &clocked{room: room}
	if err := w.find(build, j.did); err != nil {
		return err
	}
	e.Did = w.step.ID
	if j.photo != "" {
		return j.withPhoto(w, e)
	}
	if err := e.Write(w.record); err != nil {
		return err
	}
	fmt.Fprintf(j.out, "written in the journal of %s, %s\n", w.build.Name, e.Words(j.now()))
	return nil
}

// words is the note, and refuses to note nothing.
func (j *jotting) words(note string) (string, error) {
	const most = 1 << 20
	if note == "-" {
		text, err := io.ReadAll(io.LimitReader(j.in, most+1))
		if err != nil {
			return "", fmt.Errorf("reading the note: %w", err)
		}
		if len(text) > most {
			return "", errors.New("the note is longer than 1 MB")
		}
		note = string(text)
	}
	note = strings.TrimSpace(note)
	switch {
	case j.done && j.did == "":
		return "", useErrorf("--done belongs to a step: name it with --did STEP")
	case note == "" && j.photo == "" && !j.done:
		return "", useErrorf("which note? hembook jot BUILD \"NOTE\", or --photo FILE")
	case j.alt != "" && j.photo == "":
		return "", useErrorf("--alt belongs to a photograph: --photo FILE")
	}
	return note, nil
}

// withPhoto keeps the photograph first, then writes the entry that names it.
// Where the entry cannot be written the photograph is taken away again.
func (j *jotting) withPhoto(w *clocked, e bench.Entry) error {
	photo, err := readPhoto(j.photo)
	if err != nil {
		return fmt.Errorf("%s: %w", j.photo, err)
	}
	words := e.Note
	for _, other := range []string{e.Alt, e.Did, strings.TrimSuffix(filepath.Base(j.photo), filepath.Ext(j.photo))} {
		if words == "" {
			words = other
		}
	}
	folder := path.Dir(w.build.Path)
	kept, err := photo.Keep(w.room.Dir, folder, e.At.Format(time.DateOnly), words)
	if err != nil {
		return fmt.Errorf("the photograph could not be saved in %s/photos: %w", folder, plainError(err))
	}
	defer kept.Settled()
	e.Photo = kept.Name
	if err := e.Write(w.record); err != nil {
		return errors.Join(err, unkeep(w, e.Photo))
	}
	fmt.Fprintf(j.out, "written in the journal of %s, %s\nphotograph saved as %s/%s; place and camera removed\n",
		w.build.Name, e.Words(j.now()), folder, e.Photo)
	if e.Alt == "" {
		fmt.Fprintln(j.errs, "say what it shows for readers who cannot see it: --alt \"…\"")
	}
	return nil
}

// unkeep takes a photograph away whose entry was not written. One that the
// record, or a version of it kept beside, may name stays.
func unkeep(w *clocked, name string) error {
	b, _ := w.room.ReadBuild(w.build)
	for _, e := range b.Journal {
		if e.Photo.File.V == name {
			return nil
		}
	}
	kept, _ := filepath.Glob(filepath.Join(w.room.Dir, filepath.FromSlash(w.build.Path)) + ".ours-*")
	if len(kept) > 0 {
		return nil
	}
	return bench.RemovePhoto(w.room.Dir, path.Dir(w.build.Path), name)
}

func readPhoto(name string) (bench.Photo, error) {
	f, err := disk.Open(name)
	if err != nil {
		return bench.Photo{}, plainError(err)
	}
	defer f.Close()
	return bench.ReadPhoto(f)
}

// plainError leaves out the path and the system call: the message around it
// names the file already.
func plainError(err error) error {
	var p *os.PathError
	if errors.As(err, &p) {
		if errors.Is(err, os.ErrNotExist) {
			return errors.New("there is no such file")
		}
		return p.Err
	}
	return err
}
