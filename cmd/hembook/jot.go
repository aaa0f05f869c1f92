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
	"hembook/internal/fault"
	"hembook/internal/say"
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
		Use:     `jot BUILD ["NOTE"]`,
		Short:   say.Of("hembook.jot-short"),
		Long:    say.Of("hembook.jot-long"),
		Example: say.Of("hembook.jot-example"),
		Args: func(_ *cobra.Command, args []string) error {
			switch {
			case len(args) == 0:
				return misused(say.Of("hembook.to-which-garment-hembook-jot-build-note"))
			case len(args) > 2:
				return misused(say.Of("hembook.put-quotes-around-the-note-hembook-jot", args[0], say.Quoted(joinArgs(args[1:]))))
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
	cmd.Flags().StringVar(&j.photo, "photo", "", say.Of("hembook.a-photograph-the-file-of-it"))
	cmd.Flags().StringVar(&j.alt, "alt", "", say.Of("hembook.what-the-photograph-shows-in-words-for"))
	cmd.Flags().StringVar(&j.at, "at", "", say.Of("hembook.when-it-was-if-not-now-14"))
	cmd.Flags().StringVar(&j.did, "did", "", say.Of("hembook.the-step-it-belongs-to"))
	opt.completeOf(cmd, "did", stepNames)
	cmd.Flags().BoolVar(&j.done, "done", false, say.Of("hembook.the-step-named-with-did-is-done"))
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
			return misused(err.Error())
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
	fmt.Fprintln(j.out, say.Of("hembook.written-in-the-journal-of", w.build.Name, e.Words(j.now())))
	return nil
}

// words is the note, and refuses to note nothing.
func (j *jotting) words(note string) (string, error) {
	const most = 1 << 20
	if note == "-" {
		text, err := io.ReadAll(io.LimitReader(j.in, most+1))
		if err != nil {
			return "", fault.Wrapping(err, say.Of("hembook.reading-the-note", err))
		}
		if len(text) > most {
			return "", errors.New(say.Of("hembook.the-note-is-longer-than-1-mb"))
		}
		note = string(text)
	}
	note = strings.TrimSpace(note)
	switch {
	case j.done && j.did == "":
		return "", misused(say.Of("hembook.done-belongs-to-a-step-name-it"))
	case note == "" && j.photo == "" && !j.done:
		return "", misused(say.Of("hembook.which-note-hembook-jot-build-note-or"))
	case j.alt != "" && j.photo == "":
		return "", misused(say.Of("hembook.alt-belongs-to-a-photograph-photo-file"))
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
		return fault.Wrapping(plainError(err), say.Of("hembook.the-photograph-could-not-be-saved-in", folder, plainError(err)))
	}
	defer kept.Settled()
	e.Photo = kept.Name
	if err := e.Write(w.record); err != nil {
		return errors.Join(err, unkeep(w, e.Photo))
	}
	fmt.Fprintln(j.out, say.Of("hembook.written-in-the-journal-of-photograph-saved", w.build.Name, e.Words(j.now()), folder, e.Photo))
	if e.Alt == "" {
		fmt.Fprintln(j.errs, say.Of("hembook.say-what-it-shows-for-readers-who"))
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
			return errors.New(say.Of("hembook.there-is-no-such-file"))
		}
		return p.Err
	}
	return err
}
