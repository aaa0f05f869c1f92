package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"hembook/internal/cutting"
	"hembook/internal/draw"
	"hembook/internal/drawing"
	"hembook/internal/fault"
	"hembook/internal/measure"
	"hembook/internal/record"
	"hembook/internal/say"
	"hembook/internal/words"
)

// layOptions are the flags of lay.
type layOptions struct {
	cloth      string
	drawing    string // the file to draw into
	svg, dxf   string // folders for pattern files
	tries      int
	round      int // the state to lay: after this round of fitting; −1 for the last
	json, keep bool
	day        string   // it was cut on; empty for today
	on         []string // remnants to lay on, in place of the cloth
}

func newLay(opt *options) *cobra.Command {
	var lay layOptions
	cmd := &cobra.Command{
		Use:     "lay BUILD",
		Short:   say.Of("hembook.lay-short"),
		Long:    say.Of("hembook.lay-long"),
		Example: say.Of("hembook.lay-example"),
		Args:    oneArg(say.Of("hembook.which-garment-hembook-lay-build")),
		RunE: func(cmd *cobra.Command, args []string) error {
			return runLay(cmd.Context(), opt, lay, args[0], cmd.OutOrStdout(), cmd.ErrOrStderr())
		},
		ValidArgsFunction: opt.completeBuilds,
	}
	f := cmd.Flags()
	f.StringVar(&lay.cloth, "cloth", "", say.Of("hembook.only-the-cloth-of-this-part-of"))
	f.IntVar(&lay.tries, "tries", 0, say.Of("hembook.how-hard-to-look-in-places-tried"))
	f.IntVar(&lay.round, "round", -1, say.Of("hembook.as-after-this-fitting-0-is-the"))
	f.BoolVar(&lay.json, "json", false, say.Of("hembook.for-other-programs"))
	f.StringVar(&lay.drawing, "drawing", "", say.Of("hembook.draw-the-lay-into-this-file-the"))
	f.StringVar(&lay.svg, "svg", "", say.Of("hembook.write-each-lay-at-full-size-into"))
	f.StringVar(&lay.dxf, "dxf", "", say.Of("hembook.write-each-lay-at-full-size-into-2"))
	f.BoolVar(&lay.keep, "keep-remnants", false, say.Of("hembook.after-cutting-note-what-was-cut-off"))
	f.StringVar(&lay.day, "day", "", say.Of("hembook.with-keep-remnants-the-day-it-was"))
	f.StringArrayVar(&lay.on, "on", nil, say.Of("hembook.lay-on-this-remnant-and-on-further"))
	opt.completeOf(cmd, "cloth", clothParts)
	opt.completeOf(cmd, "round", roundNumbers)
	return cmd
}

func runLay(ctx context.Context, opt *options, lay layOptions, word string, out, errs io.Writer) error {
	switch {
	case lay.tries < 0:
		return misused(say.Of("hembook.tries-must-be-a-number-of-places", lay.tries))
	case lay.round < -1:
		return misused(say.Of("hembook.round-must-be-the-number-of-a", lay.round))
	case lay.day != "" && !lay.keep:
		return misused(say.Of("hembook.day-goes-with-keep-remnants"))
	case len(lay.on) > 0 && (lay.keep || lay.round >= 0 || lay.drawing != "" || lay.svg != "" || lay.dxf != ""):
		return misused(say.Of("hembook.on-goes-with-cloth-tries-and-json"))
	case lay.round >= 0 && lay.keep:
		return misused(say.Of("hembook.keep-remnants-goes-with-the-pieces-as"))
	}
	on, err := opt.openSound(word, errs)
	if err != nil {
		return err
	}
	defer on.room.Close()
	room, tailor, bf, b := on.room, on.tailor, on.file, on.build
	parts, err := partsWanted(b, lay.cloth)
	if err != nil {
		return err
	}
	if len(lay.on) > 0 {
		return lay.onRemnants(ctx, on, parts, out)
	}
	bar := newLayBar(errs)
	cutter := cutting.NewCutter(ctx, room, tailor, cutting.Options{Tries: lay.tries, Parts: parts, Progress: bar.report()})
	cut, err := lay.cut(cutter, b)
	bar.done()
	if err != nil {
		return err
	}
	return lay.show(room, bf, cut, out, errs)
}

// cut lays the build as it is, or as it was after a round.
func (o layOptions) cut(cutter *cutting.Cutter, b *record.Build) (*cutting.Cutting, error) {
	if o.round < 0 {
		return cutter.Cut(b), nil
	}
	if err := hasRound(b, o.round); err != nil {
		return nil, err
	}
	return cutter.CutAt(b, o.round), nil
}

// show prints, draws and keeps what was asked for.
func (o layOptions) show(room *record.Room, bf record.BuildFile, cut *cutting.Cutting, out, errs io.Writer) error {
	if fault.HasErrors(cut.Garment.Faults) {
		printFaults(errs, cut.Garment.Faults)
		return errFaults
	}
	if len(cut.Lays) == 0 {
		return misused(say.Of("hembook.nothing-is-cut-from", thatCloth(o.cloth)))
	}
	if o.json {
		if err := layJSON(out, bf, cut, o.round); err != nil {
			return err
		}
	} else {
		d := newDraft(room.Workroom.Style())
		layBlocks(d, bf, cut, o.round)
		tell(out, d, false)
	}
	if err := giveLays(cut, o.svg, o.dxf, errs); err != nil {
		return err
	}
	if o.drawing != "" {
		if err := drawLays(o.drawing, cut.Lays, room.Workroom.Style(), errs); err != nil {
			return err
		}
	}
	if o.keep {
		if err := o.keepRemnants(room, cut, errs); err != nil {
			return err
		}
	}
	for _, l := range cut.Lays {
		if l.Plan == nil {
			return errors.New(say.Of("hembook.no-lay-plan-of", l.Part, l.Why))
		}
	}
	return nil
}

func thatCloth(part string) string {
	if part == "" {
		return say.Of("hembook.any-cloth-of-this-garment")
	}
	return part
}

// partsWanted checks the name of a part; nil for all of them.
func partsWanted(b *record.Build, part string) ([]string, error) {
	if part == "" {
		return nil, nil
	}
	if _, ok := b.Cloth.Get(part); ok {
		return []string{part}, nil
	}
	return nil, misused(say.Of("hembook.no-cloth-called-in-this-garment-it", say.Quoted(part), joinWords(b.Cloth.Names())))
}

// keepRemnants writes what was cut off and what is left into the records of the
// cloths.
func (o layOptions) keepRemnants(room *record.Room, cut *cutting.Cutting, errs io.Writer) error {
	day, err := o.dayOfCutting()
	if err != nil {
		return err
	}
	for _, l := range cut.Lays {
		if l.Plan == nil {
			continue
		}
		kept, err := cutting.Keep(room, cut.Garment.Build, l, day)
		if err != nil {
			return err
		}
		path := l.Cloth.Cloth.At.File()
		switch {
		case len(kept.Remnants) > 0:
			fmt.Fprintln(errs, say.Of("hembook.noted", path, words.Count(len(kept.Remnants), "remnant"), joinWords(kept.Remnants)))
		case len(l.Left) > 0:
			fmt.Fprintln(errs, say.Of("hembook.its-remnants-are-noted-already", path))
		default:
			fmt.Fprintln(errs, say.Of("hembook.no-remnant-worth-keeping", path))
		}
		if kept.Cut != "" {
			fmt.Fprintln(errs, say.Of("hembook.cut-off-for", path, kept.Cut, l.Part))
		} else {
			fmt.Fprintln(errs, say.Of("hembook.what-was-cut-off-for-is-noted", path, l.Part))
		}
	}
	return nil
}

func (o layOptions) dayOfCutting() (record.Day, error) {
	if o.day == "" {
		now := time.Now()
		return record.Day{Year: now.Year(), Month: now.Month(), Day: now.Day()}, nil
	}
	day, err := record.ReadDay(o.day)
	if err != nil {
		return day, misused(say.Of("hembook.day", err))
	}
	return day, nil
}

// drawLays writes a drawing of each lay.
func drawLays(file string, lays []*cutting.Lay, style measure.Style, errs io.Writer) error {
	for _, l := range lays {
		d := draw.Lay(l, draw.LayStyle{Measure: style})
		if d == nil {
			continue
		}
		name := file
		if len(lays) > 1 {
			ext := filepath.Ext(file)
			name = strings.TrimSuffix(file, ext) + "-" + plainPart(l) + ext
		}
		if err := writeWhole(name, d.SVGFile(&drawing.Print)); err != nil {
			return fault.Wrapping(err, say.Of("hembook.the-drawing-of-could-not-be-written", l.Part, err))
		}
		fmt.Fprintln(errs, say.Of("hembook.drawn-in", l.Part, name))
	}
	return nil
}

// plainPart is a part's name as it may stand in a file's name.
func plainPart(l *cutting.Lay) string {
	return strings.TrimSuffix(strings.TrimPrefix(l.Needed.ID, "cloth."), ".needed")
}

// A layBar rewrites one line on a terminal: the best lay so far, and how much
// could still be won.
type layBar struct{ *progress }

func newLayBar(errs io.Writer) layBar { return layBar{newProgress(errs, "laying")} }

// report is what the search calls; nil where nobody watches.
func (b layBar) report() func(cutting.Progress) {
	if b.to == nil {
		return nil
	}
	return func(p cutting.Progress) {
		if time.Since(b.last) < 100*time.Millisecond {
			return
		}
		b.last, b.shown = time.Now(), true
		fmt.Fprint(b.to, say.Of("hembook.m-so-far-looked-through-ctrl-c", p.Part, fmt.Sprintf("%.2f", p.Length/1e3), fmt.Sprintf("%.0f", 100*p.Share)))
	}
}
