package main

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"hembook/internal/bench"
	"hembook/internal/record"
	"hembook/internal/record/amend"
	"hembook/internal/say"
	"hembook/internal/words"
)

// off ends a clock and notes its time.
func (k *clockDesk) off(args []string) error {
	room, c, err := k.running(args)
	if err != nil {
		return err
	}
	defer room.Close()
	clocks := bench.ClocksOf(room.Dir)
	end, err := k.ending(c, room.Workroom)
	switch {
	case err != nil || end.leave:
		return err
	case end.drop:
		if err := clocks.Drop(*c); err != nil {
			return err
		}
		fmt.Fprintln(k.out, say.Of("hembook.discarded-nothing-written", c.Named(), c.Build))
		return nil
	}
	bf, ok := room.BuildNamed(c.Build)
	if !ok {
		return errors.New(say.Of("hembook.there-is-no-garment-any-more-the", say.Quoted(c.Build)))
	}
	rec := amend.File{Folder: room.Dir, Path: bf.Path}
	e, err := clocks.Stop(*c, bench.Ending{Now: k.now(), Spent: end.spent, Note: k.note, Done: k.done}, rec)
	if err != nil {
		if bench.Readable(rec) != nil {
			err = notYAML(room, bf)
		}
		return fmt.Errorf("%w%s", err, keptWords(clocks, c))
	}
	k.noted(e, bf.Name)
	b, _ := room.ReadBuild(bf)
	for _, s := range bench.Steps(b) {
		if s.ID == c.Step {
			return nil
		}
	}
	fmt.Fprintln(k.errs, say.Of("hembook.the-record-has-no-step-any-more", say.Quoted(c.Step)))
	return nil
}

// keptWords says that the clock runs on, where it does.
func keptWords(clocks *bench.Clocks, c *bench.Clock) string {
	all, _ := clocks.All()
	for _, o := range all {
		if o.Build == c.Build && o.Step == c.Step {
			return say.Of("hembook.the-clock-is-kept-stop-it-again")
		}
	}
	return ""
}

// pause lets a clock rest.
func (k *clockDesk) pause(args []string) error {
	room, c, err := k.running(args)
	if err != nil {
		return err
	}
	defer room.Close()
	if c.Paused() {
		fmt.Fprintln(k.out, say.Of("hembook.already-paused", k.line(c)))
		return nil
	}
	end, err := k.ending(c, room.Workroom)
	switch {
	case err != nil || end.leave:
		return err
	case end.drop:
		return bench.ClocksOf(room.Dir).Drop(*c)
	}
	if err := bench.ClocksOf(room.Dir).Pause(*c, end.spent); err != nil {
		return err
	}
	fmt.Fprintln(k.out, say.Of("hembook.paused-at", bench.DurationWords(end.spent), c.Named(), c.Build))
	return nil
}

// running finds the clock that is meant among those that run.
func (k *clockDesk) running(args []string) (*record.Room, *bench.Clock, error) {
	if err := k.oneAnswer(); err != nil {
		return nil, nil, err
	}
	room, _, err := k.opt.openRoom()
	if err != nil {
		return nil, nil, err
	}
	all, err := bench.ClocksOf(room.Dir).All()
	c, err2 := meantClock(all, args)
	if err2 != nil {
		room.Close()
		if err != nil {
			return nil, nil, err
		}
		return nil, nil, err2
	}
	return room, c, nil
}

// oneAnswer refuses flags that say different things.
func (k *clockDesk) oneAnswer() error {
	said := 0
	for _, is := range []bool{k.at != "", k.spent != "", k.drop} {
		if is {
			said++
		}
	}
	if k.drop && k.done {
		return misused(say.Of("hembook.discard-writes-nothing-done-writes-that-the"))
	}
	if said > 1 {
		return misused(say.Of("hembook.at-for-or-discard-one-of-them"))
	}
	return nil
}

// meantClock is the clock that words name: a part of the build's name, of the
// step's, or of one and then the other.
func meantClock(all []bench.Clock, args []string) (*bench.Clock, error) {
	if len(all) == 0 {
		return nil, errors.New(say.Of("hembook.no-clock-is-running-hembook-clock-build"))
	}
	best, fits := 0, []int(nil)
	for i := range all {
		switch s := clockFit(&all[i], args); {
		case s == 0 || s < best:
		case s > best:
			best, fits = s, []int{i}
		default:
			fits = append(fits, i)
		}
	}
	if len(fits) == 1 {
		return &all[fits[0]], nil
	}
	refusal := say.Of("hembook.no-clock-is-running-for-there-are", say.Quoted(joinArgs(args)))
	if len(fits) > 0 {
		refusal = say.Of("hembook.are-running-name-the-garment-the-step", words.Count(len(fits), "clock"))
	} else {
		for i := range all {
			fits = append(fits, i)
		}
	}
	for _, i := range fits {
		refusal += fmt.Sprintf("\n    %s %s", all[i].Build, all[i].Step)
	}
	return nil, misused(refusal)
}

// clockFit says how well words name a clock, 0 for not at all.
func clockFit(c *bench.Clock, args []string) int {
	if len(args) == 0 {
		return 1
	}
	build, step := bench.Named{ID: c.Build}, c.Named()
	best := max(build.Fit(joinArgs(args)), step.Fit(joinArgs(args)))
	for i := 1; i < len(args); i++ {
		if b, s := build.Fit(joinArgs(args[:i])), step.Fit(joinArgs(args[i:])); b > 0 && s > 0 {
			best = max(best, b+s)
		}
	}
	return best
}

// An ending is what is to become of a clock.
type ending struct {
	spent time.Duration
	drop  bool
	leave bool
}

// ending works out how long a clock has run, by the flags or by itself, and
// asks where it was probably forgotten.
func (k *clockDesk) ending(c *bench.Clock, room *record.Workroom) (ending, error) {
	switch {
	case k.drop:
		return ending{drop: true}, nil
	case k.spent != "":
		d, err := bench.Spent(k.spent)
		if err != nil {
			return ending{}, misused(err.Error())
		}
		return ending{spent: d}, nil
	case k.at != "":
		return k.endedAt(c, k.at)
	case c.Ahead(k.now()):
		return ending{}, misused(say.Of("hembook.for-45m-or-discard", aheadWords(c, k.now())))
	case c.Paused():
		return ending{spent: c.Counted}, nil
	}
	if d, doubt := bench.Forgotten(c.Running, k.now(), room); doubt {
		return k.doubt(c, d)
	}
	return ending{spent: c.Spent(k.now())}, nil
}

// aheadWords asks about a clock that was begun at a time still to come.
func aheadWords(c *bench.Clock, now time.Time) string {
	at := c.Since
	if c.Running.After(at) {
		at = c.Running
	}
	return say.Of("hembook.it-started-at-which-is-still-to", bench.MomentWords(at, now))
}

// endedAt is the ending at a moment the maker named.
func (k *clockDesk) endedAt(c *bench.Clock, text string) (ending, error) {
	at, day, err := bench.Moment(text, k.now())
	spent := c.Spent(at)
	switch {
	case err != nil:
		return ending{}, misused(err.Error())
	case day:
		return ending{}, misused(say.Of("hembook.is-a-whole-day-write-the-time-2", text))
	case c.Ahead(k.now()):
		return ending{}, misused(say.Of("hembook.leave-at-out-for-45m", aheadWords(c, k.now())))
	case c.Paused():
		return ending{}, misused(say.Of("hembook.it-is-paused-at-leave-at-out", bench.DurationWords(c.Counted)))
	case at.Before(c.Running):
		return ending{}, misused(say.Of("hembook.is-before-it-started", text, bench.MomentWords(c.Running, k.now())))
	case spent > 24*time.Hour:
		return ending{}, misused(say.Of("hembook.that-would-be-of-work-for-45m", bench.DurationWords(spent)))
	}
	return ending{spent: spent}, nil
}

// doubt asks about a clock that was probably forgotten.
func (k *clockDesk) doubt(c *bench.Clock, d bench.Doubt) (ending, error) {
	said := say.Of("hembook.on-since-forgotten", c.Named(), c.Build, bench.MomentWords(c.Running, k.now()), bench.DurationWords(c.Spent(k.now())), d.Why)
	if k.in == nil {
		hint := say.Of("hembook.at-17-00")
		if !d.Closed.IsZero() {
			hint = say.Of("hembook.at", say.Quoted(d.Closed.Format("2006-01-02 15:04")))
		}
		return ending{}, misused(say.Of("hembook.stopped-then-worked-on-at-now-it", said, hint))
	}
	fmt.Fprintln(k.errs, said)
	end, err := k.ask(c, d)
	if err == nil && end.leave {
		fmt.Fprintln(k.out, say.Of("hembook.still-running", k.line(c)))
	}
	return end, err
}

// ask puts the choices to the maker until one of them is taken.
func (k *clockDesk) ask(c *bench.Clock, d bench.Doubt) (ending, error) {
	fmt.Fprintln(k.errs, say.Of("hembook.1-i-worked-all-that-time", bench.DurationWords(c.Spent(k.now()))))
	if !d.Closed.IsZero() {
		fmt.Fprintln(k.errs, say.Of("hembook.2-i-stopped-at-closing", bench.MomentWords(d.Closed, k.now()), bench.DurationWords(c.Spent(d.Closed))))
	}
	fmt.Fprint(k.errs, say.Of("hembook.3-i-stopped-at-another-time-4"))
	for range 5 {
		answer, ok := k.answer("which? ")
		end, err := ending{}, error(nil)
		switch {
		case !ok || answer == "":
			return ending{leave: true}, nil
		case answer == "1":
			end, err = k.endedAt(c, "now")
		case answer == "2" && !d.Closed.IsZero():
			end = ending{spent: c.Spent(d.Closed)}
		case answer == "3":
			at, _ := k.answer(say.Of("hembook.when-did-you-stop-17-00-yesterday"))
			end, err = k.endedAt(c, at)
		case answer == "4":
			long, _ := k.answer(say.Of("hembook.how-long-did-it-take-45m-1"))
			end.spent, err = bench.Spent(long)
		case answer == "5":
			return ending{drop: true}, nil
		default:
			err = errors.New(say.Of("hembook.is-none-of-them", say.Quoted(answer)))
		}
		if err == nil {
			return end, nil
		}
		fmt.Fprintln(k.errs, err)
	}
	return ending{leave: true}, nil
}

// answer reads a line; false at the end of what there is to read.
func (k *clockDesk) answer(question string) (string, bool) {
	fmt.Fprint(k.errs, question)
	line, err := k.in.ReadString('\n')
	line = strings.TrimSpace(line)
	return line, err == nil || line != ""
}

func joinArgs(args []string) string { return strings.Join(args, " ") }

// complete offers builds, then the steps of the one named.
func (k *clockDesk) complete(cmd *cobra.Command, args []string, word string) ([]string, cobra.ShellCompDirective) {
	if len(args) != 1 {
		return k.opt.completeBuilds(cmd, args, word)
	}
	w, err := k.find(args[0], "")
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	defer w.room.Close()
	b, _ := w.room.ReadBuild(w.build)
	var out []string
	for _, s := range bench.Steps(b) {
		out = append(out, s.ID+"\t"+s.Words)
	}
	return out, cobra.ShellCompDirectiveNoFileComp
}

// completeRunning offers the builds and steps whose clocks run.
func (k *clockDesk) completeRunning(_ *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
	room, _, err := k.opt.openRoom()
	if err != nil {
		return nil, cobra.ShellCompDirectiveNoFileComp
	}
	defer room.Close()
	all, _ := bench.ClocksOf(room.Dir).All()
	var out []string
	for _, c := range all {
		if len(args) == 0 {
			out = append(out, c.Build)
		}
		out = append(out, c.Step)
	}
	return out, cobra.ShellCompDirectiveNoFileComp
}
