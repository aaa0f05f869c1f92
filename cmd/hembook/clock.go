package main

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"os"
	"time"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"hembook/internal/bench"
	"hembook/internal/document"
	"hembook/internal/fault"
	"hembook/internal/record"
	"hembook/internal/record/amend"
	"hembook/internal/say"
)

// A clockDesk carries out the clock commands.
type clockDesk struct {
	opt       *options
	now       func() time.Time
	out, errs io.Writer
	in        *bufio.Reader // nil where nobody can be asked

	at, spent, note  string // flags
	drop, done, json bool
}

func newClock(opt *options) *cobra.Command {
	k := &clockDesk{opt: opt, now: time.Now}
	cmd := &cobra.Command{
		Use:     "clock [BUILD STEP --for TIME]",
		Short:   say.Of("hembook.clock-short"),
		Long:    say.Of("hembook.clock-long"),
		Example: say.Of("hembook.clock-example"),
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 1 || len(args) > 2 && k.spent == "" {
				return misused(say.Of("hembook.clock-on-off-or-pause-clock-alone"))
			}
			return nil
		},
		RunE:              k.run(func(args []string) error { return k.bare(args) }),
		ValidArgsFunction: k.complete,
	}
	cmd.Flags().StringVar(&k.spent, "for", "", say.Of("hembook.no-clock-was-running-this-time-45m"))
	cmd.Flags().StringVar(&k.at, "at", "", say.Of("hembook.when-it-started-else-as-long-ago"))
	cmd.Flags().StringVar(&k.note, "note", "", say.Of("hembook.a-note-beside-it"))
	cmd.Flags().BoolVar(&k.done, "done", false, say.Of("hembook.the-step-is-done"))
	cmd.Flags().BoolVar(&k.json, "json", false, say.Of("hembook.for-other-programs"))
	cmd.AddCommand(newClockOn(opt), newClockOff(opt), newClockPause(opt))
	return cmd
}

func newClockOn(opt *options) *cobra.Command {
	k := &clockDesk{opt: opt, now: time.Now}
	cmd := &cobra.Command{
		Use:     "on BUILD STEP",
		Short:   say.Of("hembook.on-short"),
		Long:    say.Of("hembook.on-long"),
		Example: say.Of("hembook.on-example"),
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) < 2 {
				return misused(say.Of("hembook.which-step-of-which-garment-hembook-clock"))
			}
			return nil
		},
		RunE:              k.run(func(args []string) error { return k.on(args[0], joinArgs(args[1:])) }),
		ValidArgsFunction: k.complete,
	}
	cmd.Flags().StringVar(&k.at, "at", "", say.Of("hembook.when-it-started-if-not-now"))
	cmd.Flags().StringVar(&k.note, "note", "", say.Of("hembook.a-note-beside-it"))
	return cmd
}

func newClockOff(opt *options) *cobra.Command {
	k := &clockDesk{opt: opt, now: time.Now}
	cmd := &cobra.Command{
		Use:               "off [BUILD] [STEP]",
		Short:             say.Of("hembook.off-short"),
		Long:              say.Of("hembook.off-long"),
		Example:           say.Of("hembook.off-example"),
		RunE:              k.run(k.off),
		ValidArgsFunction: k.completeRunning,
	}
	k.endingFlags(cmd)
	cmd.Flags().BoolVar(&k.done, "done", false, say.Of("hembook.the-step-is-done"))
	cmd.Flags().BoolVar(&k.drop, "discard", false, say.Of("hembook.discard-this-time-write-nothing"))
	cmd.Flags().StringVar(&k.note, "note", "", say.Of("hembook.a-note-beside-it"))
	return cmd
}

func newClockPause(opt *options) *cobra.Command {
	k := &clockDesk{opt: opt, now: time.Now}
	cmd := &cobra.Command{
		Use:               "pause [BUILD] [STEP]",
		Short:             say.Of("hembook.pause-short"),
		Long:              say.Of("hembook.pause-long"),
		Example:           say.Of("hembook.pause-example"),
		RunE:              k.run(k.pause),
		ValidArgsFunction: k.completeRunning,
	}
	k.endingFlags(cmd)
	return cmd
}

func (k *clockDesk) endingFlags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&k.at, "at", "", say.Of("hembook.when-you-stopped-if-not-now-at"))
	cmd.Flags().StringVar(&k.spent, "for", "", say.Of("hembook.how-long-it-took-as-45m-or"))
}

// run hands a command its streams.
func (k *clockDesk) run(do func(args []string) error) func(*cobra.Command, []string) error {
	return func(cmd *cobra.Command, args []string) error {
		k.out, k.errs = cmd.OutOrStdout(), cmd.ErrOrStderr()
		if in, ok := cmd.InOrStdin().(*os.File); ok && term.IsTerminal(int(in.Fd())) {
			if errs, ok := k.errs.(*os.File); ok && term.IsTerminal(int(errs.Fd())) {
				k.in = bufio.NewReader(in)
			}
		}
		return do(args)
	}
}

// bare shows what runs, or notes a time without a clock.
func (k *clockDesk) bare(args []string) error {
	switch {
	case len(args) == 0 && (k.spent != "" || k.at != "" || k.note != "" || k.done):
		return misused(say.Of("hembook.which-step-of-which-garment-hembook-clock-2"))
	case len(args) == 0:
		return k.show()
	case k.spent == "":
		return misused(say.Of("hembook.how-long-did-it-take-add-for", joinArgs(args)))
	}
	return k.noteTime(args[0], joinArgs(args[1:]))
}

// clocked is a step of a build, with the record it stands in.
type clocked struct {
	room   *record.Room
	build  record.BuildFile
	step   bench.Named
	record amend.File
}

// find opens the workroom and finds a step in it. Faults of the record do not
// matter as long as it can be read as YAML.
func (k *clockDesk) find(build, step string) (*clocked, error) {
	room, _, err := k.opt.openRoom()
	if err != nil {
		return nil, err
	}
	w := &clocked{room: room}
	if err := w.find(build, step); err != nil {
		room.Close()
		return nil, err
	}
	return w, nil
}

func (w *clocked) find(build, step string) error {
	builds := make([]bench.Named, len(w.room.Builds))
	for i, b := range w.room.Builds {
		builds[i] = bench.Named{ID: b.Slug, Words: b.Name}
	}
	n, err := bench.Pick("garment", build, builds)
	if err != nil {
		return misused(err.Error())
	}
	w.build = w.room.Builds[n]
	w.record = amend.File{Folder: w.room.Dir, Path: w.build.Path}
	if bench.Readable(w.record) != nil {
		return notYAML(w.room, w.build)
	}
	if step == "" {
		return nil
	}
	b, _ := w.room.ReadBuild(w.build)
	steps := bench.Steps(b)
	i, err := bench.Pick("step", step, steps)
	if err != nil {
		return misused(w.build.Slug + ": " + err.Error())
	}
	w.step = steps[i]
	return nil
}

// notYAML says where a record cannot be read at all, with what was meant.
func notYAML(room *record.Room, bf record.BuildFile) error {
	_, faults := room.ReadBuild(bf)
	for _, f := range faults {
		if f.Severity == fault.Error {
			return errors.New(say.Of("hembook.nothing-can-be-added", f))
		}
	}
	return errors.New(say.Of("hembook.cannot-be-added-to", bf.Path))
}

func (k *clockDesk) noteTime(build, step string) error {
	w, err := k.find(build, step)
	if err != nil {
		return err
	}
	defer w.room.Close()
	spent, err := bench.Spent(k.spent)
	if err != nil {
		return misused(err.Error())
	}
	e := bench.Entry{At: k.now().Add(-spent), Did: w.step.ID, For: spent, Done: k.done, Note: k.note}
	if k.at != "" {
		if e.At, e.Day, err = bench.Moment(k.at, k.now()); err != nil {
			return misused(err.Error())
		}
	}
	if err := e.Write(w.record); err != nil {
		return err
	}
	k.noted(e, w.build.Name)
	clocks, _ := bench.ClocksOf(w.room.Dir).All()
	for _, c := range clocks {
		if c.Build == w.build.Slug && c.Step == w.step.ID {
			fmt.Fprintln(k.errs, say.Of("hembook.the-clock-for-it-is-still-running", k.line(&c)))
		}
	}
	return nil
}

func (k *clockDesk) noted(e bench.Entry, name string) {
	done := ""
	if e.Done {
		done = say.Of("hembook.done")
	}
	fmt.Fprintln(k.out, say.Of("hembook.written-in-its-journal", e.Did, name, e.Spent(), done))
}

// on begins a clock.
func (k *clockDesk) on(build, step string) error {
	at := k.now()
	if k.at != "" {
		var day bool
		var err error
		if at, day, err = bench.Moment(k.at, k.now()); err != nil {
			return misused(err.Error())
		} else if day {
			return misused(say.Of("hembook.is-a-whole-day-write-the-time", k.at))
		}
	}
	w, err := k.find(build, step)
	if err != nil {
		return err
	}
	defer w.room.Close()
	clocks := bench.ClocksOf(w.room.Dir)
	c, began, err := clocks.Start(bench.Clock{Build: w.build.Slug, Step: w.step.ID, Words: w.step.Words, Note: k.note}, at)
	switch {
	case err != nil:
		return err
	case !began && k.at != "":
		return errors.New(say.Of("hembook.already-running-since-hembook-clock-off-or", c.Step, bench.MomentWords(c.Since, k.now())))
	case !began:
		fmt.Fprintln(k.out, say.Of("hembook.already-running", k.line(&c)))
		k.warn(&c, w.room.Workroom)
	case c.Counted > 0:
		fmt.Fprintln(k.out, say.Of("hembook.started-again", k.line(&c)))
	default:
		fmt.Fprintln(k.out, say.Of("hembook.clock-started", w.step, w.build.Name, bench.MomentWords(c.Since, k.now())))
	}
	others, err := clocks.All()
	for _, o := range others {
		if o.Build != c.Build || o.Step != c.Step {
			fmt.Fprintln(k.out, say.Of("hembook.also-running", k.line(&o)))
		}
	}
	return err
}

// line is a clock in one line.
func (k *clockDesk) line(c *bench.Clock) string {
	state := "since "
	if c.Paused() {
		state = say.Of("hembook.paused-started")
	}
	return fmt.Sprintf("%s, %s, %s%s, %s", c.Named(), c.Build, state, bench.MomentWords(c.Since, k.now()), bench.DurationWords(c.Spent(k.now())))
}

func (k *clockDesk) warn(c *bench.Clock, room *record.Workroom) {
	if c.Ahead(k.now()) {
		fmt.Fprintf(k.errs, "    %s\n", aheadWords(c, k.now()))
		return
	}
	if c.Paused() {
		return
	}
	if d, doubt := bench.Forgotten(c.Running, k.now(), room); doubt {
		fmt.Fprintln(k.errs, say.Of("hembook.was-it-forgotten", d.Why))
	}
}

// show prints what is running.
func (k *clockDesk) show() error {
	room, _, err := k.opt.openRoom()
	if err != nil {
		return err
	}
	defer room.Close()
	clocks, bad := bench.ClocksOf(room.Dir).All()
	if k.json {
		return errors.Join(bad, k.showJSON(clocks))
	}
	for _, c := range clocks {
		fmt.Fprintln(k.out, k.line(&c))
		k.warn(&c, room.Workroom)
	}
	if len(clocks) == 0 && bad == nil {
		fmt.Fprintln(k.out, say.Of("hembook.no-clock-is-running"))
	}
	return bad
}

// A jsonClock is a running clock for other programs.
type jsonClock struct {
	Build   string    `json:"build"`
	Step    string    `json:"step"`
	Since   time.Time `json:"since"`
	Paused  bool      `json:"paused"`
	Minutes float64   `json:"minutes"`
	Note    string    `json:"note,omitempty"`
}

func (k *clockDesk) showJSON(clocks []bench.Clock) error {
	list := []jsonClock{}
	for _, c := range clocks {
		list = append(list, jsonClock{c.Build, c.Step, c.Since, c.Paused(), c.Spent(k.now()).Minutes(), c.Note})
	}
	return document.PrintJSON(k.out, list)
}
