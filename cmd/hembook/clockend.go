package main

import (
	"fmt"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"hembook/internal/bench"
	"hembook/internal/record"
	"hembook/internal/record/amend"
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
		fmt.Fprintf(k.out, "%s, %s: discarded, nothing written\n", c.Named(), c.Build)
		return nil
	}
	bf, ok := room.BuildNamed(c.Build)
	if !ok {
		return fmt.Errorf("there is no garment %q any more; the clock is kept\n    clock off --discard", c.Build)
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
	fmt.Fprintf(k.errs, "the record has no step %q any more: correct did: in the entry\n", c.Step)
	return nil
}

// keptWords says that the clock runs on, where it does.
func keptWords(clocks *bench.Clocks, c *bench.Clock) string {
	all, _ := clocks.All()
	for _, o := range all {
		if o.Build == c.Build && o.Step == c.Step {
			return "\n    the clock is kept; stop it again once that is right"
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
		fmt.Fprintf(k.out, "already paused: %s\n", k.line(c))
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
	fmt.Fprintf(k.out, "paused at %s: %s, %s\n", bench.DurationWords(end.spent), c.Named(), c.Build)
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
		return useErrorf("--discard writes nothing, --done writes that the step is done: keep one of them")
	}
	if said > 1 {
		return useErrorf("--at, --for or --discard: one of them is enough")
	}
	return nil
}

// meantClock is the clock that words name: a part of the build's name, of the
// step's, or of one and then the other.
func meantClock(all []bench.Clock, args []string) (*bench.Clock, error) {
	if len(all) == 0 {
		return nil, fmt.Errorf("no clock is running\n    hembook clock BUILD STEP --for 45m")
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
	say := fmt.Sprintf("no clock is running for %q; there are:", joinArgs(args))
	if len(fits) > 0 {
		say = fmt.Sprintf("%s are running: name the garment, the step or both", words.Count(len(fits), "clock"))
	} else {
		for i := range all {
			fits = append(fits, i)
		}
	}
	for _, i := range fits {
		say += fmt.Sprintf("\n    %s %s", all[i].Build, all[i].Step)
	}
	return nil, useErrorf("%s", say)
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
			return ending{}, useErrorf("%s", err)
		}
		return ending{spent: d}, nil
	case k.at != "":
		return k.endedAt(c, k.at)
	case c.Ahead(k.now()):
		return ending{}, useErrorf("%s\n    --for 45m, or --discard", aheadWords(c, k.now()))
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
	return fmt.Sprintf("it started at %s, which is still to come: was this computer's clock changed?", bench.MomentWords(at, now))
}

// endedAt is the ending at a moment the maker named.
func (k *clockDesk) endedAt(c *bench.Clock, text string) (ending, error) {
	at, day, err := bench.Moment(text, k.now())
	spent := c.Spent(at)
	switch {
	case err != nil:
		return ending{}, useErrorf("%s", err)
	case day:
		return ending{}, useErrorf("%s is a whole day\n    write the time too: \"%s 17:00\"", text, text)
	case c.Ahead(k.now()):
		return ending{}, useErrorf("%s\n    leave --at out: --for 45m", aheadWords(c, k.now()))
	case c.Paused():
		return ending{}, useErrorf("it is paused at %s: leave --at out, or write --for", bench.DurationWords(c.Counted))
	case at.Before(c.Running):
		return ending{}, useErrorf("%s is before it started, %s", text, bench.MomentWords(c.Running, k.now()))
	case spent > 24*time.Hour:
		return ending{}, useErrorf("that would be %s of work\n    --for 45m", bench.DurationWords(spent))
	}
	return ending{spent: spent}, nil
}

// doubt asks about a clock that was probably forgotten.
func (k *clockDesk) doubt(c *bench.Clock, d bench.Doubt) (ending, error) {
	said := fmt.Sprintf("%s, %s: on since %s (%s), %s. Forgotten?", c.Named(), c.Build,
		bench.MomentWords(c.Running, k.now()), bench.DurationWords(c.Spent(k.now())), d.Why)
	if k.in == nil {
		hint := "--at 17:00"
		if !d.Closed.IsZero() {
			hint = fmt.Sprintf("--at %q", d.Closed.Format("2006-01-02 15:04"))
		}
		return ending{}, useErrorf("%s\n    stopped then: %s. Worked on: --at now. It took: --for 45m. Neither: --discard", said, hint)
	}
	fmt.Fprintln(k.errs, said)
	end, err := k.ask(c, d)
	if err == nil && end.leave {
		fmt.Fprintf(k.out, "still running: %s\n", k.line(c))
	}
	return end, err
}

// ask puts the choices to the maker until one of them is taken.
func (k *clockDesk) ask(c *bench.Clock, d bench.Doubt) (ending, error) {
	fmt.Fprintf(k.errs, "  1  I worked all that time: %s\n", bench.DurationWords(c.Spent(k.now())))
	if !d.Closed.IsZero() {
		fmt.Fprintf(k.errs, "  2  I stopped at closing, %s: %s\n", bench.MomentWords(d.Closed, k.now()), bench.DurationWords(c.Spent(d.Closed)))
	}
	fmt.Fprint(k.errs, "  3  I stopped at another time\n  4  It took …\n  5  Discard it\n  Enter: leave it running\n")
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
			at, _ := k.answer("when did you stop? (17:00, yesterday 17:00) ")
			end, err = k.endedAt(c, at)
		case answer == "4":
			long, _ := k.answer("how long did it take? (45m, 1 h 20 min) ")
			end.spent, err = bench.Spent(long)
		case answer == "5":
			return ending{drop: true}, nil
		default:
			err = fmt.Errorf("%q is none of them", answer)
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
