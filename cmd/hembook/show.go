package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"net"
	"os"
	"path/filepath"
	"strconv"
	"time"

	"github.com/spf13/cobra"

	"hembook/internal/bench"
	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/disk"
	"hembook/internal/fault"
	"hembook/internal/press"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/words"
)

// usualPort is tried where none is named, so that a page may stay open from
// one day to the next; where it is taken any other will do.
const usualPort = 6158

func newShow(opt *options) *cobra.Command {
	s := &showing{opt: opt}
	cmd := &cobra.Command{
		Use:     "show",
		Short:   say.Of("hembook.show-short"),
		Long:    say.Of("hembook.show-long"),
		Example: say.Of("hembook.show-example"),
		Args:    cobra.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			s.out, s.errs = cmd.OutOrStdout(), cmd.ErrOrStderr()
			return s.run(cmd.Context())
		},
	}
	cmd.Flags().StringVar(&s.port, "port", "", say.Of("hembook.the-number-of-the-port-0-for-2"))
	cmd.Flags().StringVar(&s.to, "to", "", say.Of("hembook.the-folder-else-one-that-is-deleted"))
	return cmd
}

// A showing is one run of the show command.
type showing struct {
	opt       *options
	port      string // as it was written; empty for the usual one
	to        string
	out, errs io.Writer

	told  map[string]bool // the faults last printed
	wrong bool            // nothing was pressed the last time

	room   *record.Room // as it was last read; nil at first
	memory press.Memory
	look   keptTheme
}

func (s *showing) run(ctx context.Context) error {
	port, named := usualPort, s.port != ""
	if named {
		n, err := strconv.ParseUint(s.port, 10, 16)
		if err != nil {
			return misused(say.Of("hembook.is-no-port-write-a-number-from", say.Quoted(s.port)))
		}
		port = int(n)
	}
	room, _, err := s.opt.openRoom()
	if err != nil {
		return err
	}
	dir := room.Dir
	room.Close()
	here := *s.opt
	here.room = dir
	if s.to == "" {
		prefix := filepath.Join(os.TempDir(), "hembook-show-")
		_ = removeLeft(prefix) // of previews that were stopped
		defer disk.BeginErrand(dir, previewErrand+prefix).End()
		temp, err := disk.NewStage(prefix, 0o700)
		if err != nil {
			return err
		}
		defer temp.Remove()
		s.to = filepath.Join(temp.Dir, "pressed")
	} else if err := press.Check(s.to, dir); err != nil {
		return err
	}
	defer pressErrand(dir, s.to).End()
	defer s.memory.Close()
	listeners, err := listen(port, named)
	if err != nil {
		return err
	}
	fmt.Fprintln(s.out, say.Of("hembook.see-it-at-http-localhost-leave-this", bench.PortOf(listeners[0])))
	preview := &bench.Preview{
		Room: dir, Watched: []string{"content", "themes"}, Pressed: s.to,
		Press: func(ctx context.Context) bench.Pressed { return s.press(ctx, &here) },
		Told:  s.tell,
		Rest:  s.memory.Look,
	}
	return preview.Serve(ctx, listeners...)
}

// listen opens the port, or another where nobody named one.
func listen(port int, named bool) ([]net.Listener, error) {
	list, err := bench.Listen(port)
	if errors.Is(err, bench.ErrTaken) {
		if named {
			return nil, errors.New(say.Of("hembook.hembook-is-already-showing-a-notebook-or", port))
		}
		return bench.Listen(0)
	}
	return list, err
}

// press presses the notebook as it is on the disk now.
func (s *showing) press(ctx context.Context, opt *options) bench.Pressed {
	begun := time.Now()
	report, faults, err := s.pressOnce(ctx, opt)
	switch {
	case ctx.Err() != nil:
	case err != nil:
		fmt.Fprintln(s.errs, say.Of("hembook.the-notebook-stays-as-it-was", begun.Format(time.TimeOnly)))
	default:
		fmt.Fprintln(s.out, say.Of("hembook.made-of-files-new-in-ms", begun.Format(time.TimeOnly), report.Made, words.Count(report.Pages, "page"), report.Written, time.Since(begun).Milliseconds()))
		tellHers(s.out, s.to, report)
	}
	if errors.Is(err, press.ErrRecords) && fault.HasErrors(faults) {
		err = nil // the faults say it
	}
	return bench.Pressed{Changed: report.Written+report.Removed > 0, Faults: faults, Err: err}
}

// tell prints what is wrong, where it is not what was wrong before.
func (s *showing) tell(p bench.Pressed) {
	now := make(map[string]bool, len(p.Faults)+1)
	tell := func(line string) {
		if now[line] = true; !s.told[line] {
			fmt.Fprintln(s.errs, line)
		}
	}
	for _, f := range p.Faults {
		tell(f.String())
	}
	if p.Err != nil {
		tell(p.Err.Error())
	}
	wrong := p.Err != nil || fault.HasErrors(p.Faults)
	if s.wrong && !wrong {
		fmt.Fprintln(s.errs, say.Of("hembook.that-is-right-now"))
	}
	s.told, s.wrong = now, wrong
}

// reopen reads the workroom as it is now.
func (s *showing) reopen(opt *options) (*record.Room, []fault.Fault, error) {
	open := opt.openRoom
	if s.room != nil {
		open = s.room.Again
	}
	room, faults, err := open()
	if err == nil {
		s.room = room
	}
	return room, faults, err
}

// pressOnce opens the workroom, checks it and presses what changed of it.
// Where there are errors all of them are found, of every file.
func (s *showing) pressOnce(ctx context.Context, opt *options) (press.Report, []fault.Fault, error) {
	room, opened, err := s.reopen(opt)
	if err != nil {
		return press.Report{}, nil, err
	}
	defer room.Close()
	tailor, more := derive.NewTailor(room)
	opened = append(opened, more...)
	if fault.HasErrors(opened) {
		found, err := checkAll(opt, newProgress(io.Discard, ""))
		return press.Report{}, found.faults, errors.Join(press.ErrRecords, err)
	}
	theme, err := s.look.of(room)
	if err != nil {
		return press.Report{}, opened, err
	}
	// a preview waits for no lay: those that are kept are shown
	cutter := cutting.NewCutter(ctx, room, tailor, cutting.Options{Mode: cutting.KeptOnly})
	report, faults, err := press.Press(ctx, room, cutter, theme, press.Options{To: s.to, Memory: &s.memory})
	var all fault.Faults
	all.Add(append(opened, faults...)...)
	return report, all.Sorted(), err
}
