package main

import (
	"fmt"
	"io"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"hembook/internal/disk"
	"hembook/internal/measure"
	"hembook/internal/paperpiece"
	"hembook/internal/picture"
	"hembook/internal/say"
	"hembook/internal/tracing"
	"hembook/internal/words"
)

// A traceJob is what the trace command was asked for.
type traceJob struct {
	opt       *options
	out, errs io.Writer

	into, altered, saw, line, allowance, picture string // flags
	far, edges, marks, move                      []string
	bare                                         bool
}

func newTrace(opt *options) *cobra.Command {
	j := &traceJob{opt: opt}
	cmd := &cobra.Command{
		Use:     "trace PHOTO... --into BUILD#PIECE",
		Short:   say.Of("hembook.trace-short"),
		Long:    say.Of("hembook.trace-long"),
		Example: say.Of("hembook.trace-example"),
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 && len(j.move) == 0 {
				return misused(say.Of("hembook.which-photograph-hembook-trace-photo-into-build"))
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			j.out, j.errs = cmd.OutOrStdout(), cmd.ErrOrStderr()
			return j.run(args)
		},
	}
	f := cmd.Flags()
	f.StringVar(&j.into, "into", "", say.Of("hembook.the-garment-piece-that-it-is"))
	f.StringVar(&j.altered, "altered", "", say.Of("hembook.the-garment-piece-whose-paper-was-altered"))
	f.StringVar(&j.saw, "saw", "", say.Of("hembook.of-altered-paper-what-was-seen-at"))
	f.StringArrayVar(&j.far, "far", nil, say.Of("hembook.a-distance-measured-between-the-crosses-of"))
	f.StringVar(&j.line, "line", "", say.Of("hembook.how-long-the-line-of-50-mm"))
	f.StringSliceVar(&j.edges, "edges", nil, say.Of("hembook.names-of-the-edges-against-the-clock"))
	f.StringVar(&j.allowance, "allowance", "", say.Of("hembook.how-wide-the-allowances-of-the-paper"))
	f.StringSliceVar(&j.marks, "marks", nil, say.Of("hembook.what-lines-on-the-paper-are-by"))
	f.StringArrayVar(&j.move, "move", nil, say.Of("hembook.of-a-piece-that-was-traced-without"))
	f.StringVar(&j.picture, "picture", "", say.Of("hembook.write-what-was-seen-with-the-outline"))
	f.BoolVar(&j.bare, "bare", false, say.Of("hembook.with-picture-nothing-is-drawn-over-it"))
	return cmd
}

func (j *traceJob) run(photos []string) error {
	if (j.into == "") == (j.altered == "") || j.altered == "" && j.saw != "" {
		return misused(say.Of("hembook.into-which-piece-into-build-piece-as"))
	}
	build, piece, ok := strings.Cut(j.into+j.altered, "#")
	piece = strings.TrimSpace(piece)
	if !ok || build == "" || piece == "" {
		return misused(say.Of("hembook.which-piece-build-piece-as-in-supper", j.into+j.altered))
	}
	if err := paperpiece.CheckName(piece); err != nil {
		return err
	}
	on, err := j.opt.openBuildAlone(build)
	if err != nil {
		return err
	}
	defer on.room.Close()
	how, names, err := j.options()
	if err != nil {
		return err
	}
	if j.picture != "" {
		if j.picture, err = outFile(j.picture, piece+".png"); err != nil {
			return err
		}
	}
	home := paperpiece.Home{Room: on.room, File: on.file, Piece: piece, Unit: on.room.UnitOf(on.build)}
	if len(j.move) > 0 {
		return j.runMove(home, on.build, photos)
	}
	if j.altered != "" {
		return j.runAltered(home, on.build, photos, how)
	}
	if err := home.Free(on.build); err != nil {
		return err
	}
	pictures, err := readPictures(photos)
	if err != nil {
		return err
	}
	traced, err := tracing.Trace(pictures, how)
	if err != nil {
		return err
	}
	if n := traced.Count(); len(names) > 0 && len(names) != n {
		return misused(say.Of("hembook.edges-has-the-piece-has", words.Count(len(names), "name"), n, edgeList(traced.Named(nil))))
	}
	if err := j.takeOff(traced, names); err != nil {
		return err
	}
	if err := j.call(traced); err != nil {
		return err
	}
	if err := home.Write(traced.SVG(piece, names)); err != nil {
		return err
	}
	j.tell(traced, home, names)
	return j.show(traced, pictures)
}

// show writes the picture of what was seen, where it was asked for.
func (j *traceJob) show(t *tracing.Traced, pictures []tracing.Picture) error {
	if j.picture == "" {
		return nil
	}
	if j.bare {
		return writeWhole(j.picture, t.Flat(pictures[0].Image))
	}
	return writeWhole(j.picture, t.Picture(pictures[0].Image))
}

// takeOff takes the paper's allowance off, where it has one.
func (j *traceJob) takeOff(t *tracing.Traced, names []tracing.EdgeName) error {
	if j.allowance == "" {
		return nil
	}
	wide, err := measure.ParseSigned(j.allowance, measure.UnitMM)
	if err != nil {
		return misused(say.Of("hembook.allowance", j.allowance, err))
	}
	return t.TakeOff(wide.MM(), names)
}

// markForm is how a line on the paper is called: 3: slit cuff.
var markForm = regexp.MustCompile(`^\s*(\d{1,3})\s*:\s*(.+?)\s*$`)

// call says what lines on the paper are, as the maker says.
func (j *traceJob) call(t *tracing.Traced) error {
	for _, said := range j.marks {
		m := markForm.FindStringSubmatch(said)
		if m == nil {
			return misused(say.Of("hembook.marks-write-the-number-of-a-line", say.Quoted(said)))
		}
		k, _ := strconv.Atoi(m[1])
		if k < 1 || k > len(t.Drawn) {
			return misused(say.Of("hembook.marks-found-on-the-paper", say.Quoted(said), words.Count(len(t.Drawn), "line")))
		}
		if err := t.Drawn[k-1].Call(m[2]); err != nil {
			return err
		}
	}
	return nil
}

// mostPictures is how many photographs one piece may be traced from.
const mostPictures = 6

// readPictures reads photographs the right way up, each within the limits of all others.
// Nothing of them is kept.
func readPictures(names []string) (out []tracing.Picture, err error) {
	if len(names) > mostPictures {
		return nil, misused(say.Of("hembook.photographs-are-too-many-two-or-three", len(names)))
	}
	for _, name := range names {
		file, err := disk.Open(name)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, plainError(err))
		}
		data, err := picture.ReadBytes(file)
		file.Close()
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		img, _, err := picture.Read(data)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", name, err)
		}
		out = append(out, tracing.Picture{Name: filepath.Base(name), Image: img})
	}
	return out, nil
}

// farForm is how a distance between two cards is written: 3 to 8: 842 mm.
var farForm = regexp.MustCompile(`^\s*(\d{1,3})\s*(?:to|-|–)\s*(\d{1,3})\s*:\s*(.+?)\s*$`)

// options reads what the flags say.
func (j *traceJob) options() (how tracing.Options, names []tracing.EdgeName, err error) {
	for _, far := range j.far {
		m := farForm.FindStringSubmatch(far)
		if m == nil {
			return how, nil, misused(say.Of("hembook.far-write-two-cards-and-how-far", far))
		}
		long, err := measure.ParseLength(m[3], measure.UnitMM)
		if err != nil || long.MM() < 100 {
			return how, nil, misused(say.Of("hembook.far-is-no-distance-between-two-cards", far, say.Quoted(m[3])))
		}
		from, _ := strconv.Atoi(m[1])
		to, _ := strconv.Atoi(m[2])
		if from == to {
			return how, nil, misused(say.Of("hembook.far-measure-between-two-different-cards", far))
		}
		how.Tapes = append(how.Tapes, tracing.Tape{From: from, To: to, MM: long.MM()})
	}
	if j.line != "" {
		long, err := measure.ParseLength(j.line, measure.UnitMM)
		if err != nil || long.MM() < 40 || long.MM() > 60 {
			return how, nil, misused(say.Of("hembook.line-the-line-on-a-card-is", j.line))
		}
		how.Line = long.MM()
	}
	for _, word := range j.edges {
		name, fold, _ := strings.Cut(word, ":")
		e := tracing.EdgeName{Name: strings.TrimSpace(name), Fold: strings.TrimSpace(fold) == "fold"}
		if e.Name == "" || strings.TrimSpace(fold) != "" && !e.Fold {
			return how, nil, misused(say.Of("hembook.edges-is-no-name-of-an-edge", say.Quoted(word)))
		}
		names = append(names, e)
	}
	return how, names, nil
}

// edgeList says which edges were found, for a maker who counts them.
func edgeList(list []tracing.Length) string {
	var out []string
	for i, l := range list {
		out = append(out, say.Of("hembook.mm", i+1, fmt.Sprintf("%.0f", l.MM)))
	}
	return say.Of("hembook.against-the-clock-from-the-lower-left", strings.Join(out, ", "))
}

// tell says what was found and where it was written.
func (j *traceJob) tell(t *tracing.Traced, home paperpiece.Home, names []tracing.EdgeName) {
	wide, high := t.Size()
	list := t.Named(names)
	fmt.Fprintln(j.out, say.Of("hembook.mm-from", home.Piece, fmt.Sprintf("%.0f", wide), fmt.Sprintf("%.0f", high), words.Count(len(list), "edge"), words.Count(len(t.Cards), "card")))
	longest := 0
	for _, l := range list {
		longest = max(longest, len(l.Name))
	}
	for _, l := range list {
		form := "curved"
		if l.Straight {
			form = "straight"
		}
		fmt.Fprintln(j.out, say.Of("hembook.mm-seen-within-mm", fmt.Sprintf("%-*s", longest, l.Name), fmt.Sprintf("%6.1f", l.MM), form, fmt.Sprintf("%.1f", max(l.Off, 0.1))))
	}
	j.tellMarks(t, list)
	fmt.Fprintln(j.out, say.Of("hembook.written-and-in", home.FilePath(), home.Piece, home.File.Path))
	for _, n := range t.Lifted {
		fmt.Fprintln(j.errs, say.Of("hembook.card-does-not-lie-flat-it-was", n))
	}
	if len(t.Notches) > 0 {
		fmt.Fprintln(j.errs, say.Of("hembook.notches-found-they-are-in-the-file", len(t.Notches)))
	}
	if t.Even() && !slices.ContainsFunc(list, func(l tracing.Length) bool { return l.Fold }) {
		fmt.Fprintln(j.errs, say.Of("hembook.both-halves-are-alike-within-mm-folded", fmt.Sprintf("%.1f", t.Mirror)))
	}
	if len(names) == 0 {
		fmt.Fprintln(j.errs, say.Of("hembook.the-edges-have-numbers-name-them-in"))
	}
}

// tellMarks says what is drawn on the paper: what was written of it, and what is asked.
func (j *traceJob) tellMarks(t *tracing.Traced, list []tracing.Length) {
	if len(t.Drawn) > 0 {
		fmt.Fprintln(j.out, say.Of("hembook.drawn-on-it"))
	}
	asked := 0
	for i, m := range t.Drawn {
		said := say.Of("hembook.left-out-2")
		if m.Word != "" {
			said = say.Of("hembook.written-as", m.Word)
		} else if asked == 0 {
			asked = i + 1
		}
		fmt.Fprintf(j.out, "    %d  %s: %s\n", i+1, m.Said(list), said)
	}
	if asked > 0 && len(j.marks) == 0 {
		fmt.Fprintln(j.errs, say.Of("hembook.say-what-a-line-is-if-it", asked))
	}
	for _, m := range t.Drawn {
		if m.Is == tracing.Beside && j.allowance == "" {
			fmt.Fprintln(j.errs, say.Of("hembook.a-line-runs-mm-inside-if-it", fmt.Sprintf("%.0f", m.At), list[m.Edge].Name))
			return
		}
	}
}
