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
		Use:   "trace PHOTO... --into BUILD#PIECE",
		Short: "the outline of a paper piece, from a photograph",
		Long: `Lay the paper flat on a table of another tone, six or more cards round it
(hembook pattern --cards), and take a photograph from above. The outline is
written into pattern/PIECE.svg of the garment, the piece into its record.`,
		Example: `  hembook trace IMG_2207.jpg --into supper#front
  hembook trace IMG_2207.jpg --into supper#front --far "3 to 8: 842 mm"
  hembook trace a.jpg b.jpg --into supper#front --edges "hem, side, waist, centre: fold"
  hembook trace --into supper#front --move "2: 0.5 right, 1 down"
  hembook trace IMG_2311.jpg --altered supper#front --saw "tight over the hip"`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 && len(j.move) == 0 {
				return useErrorf("which photograph? hembook trace PHOTO --into BUILD#PIECE")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			j.out, j.errs = cmd.OutOrStdout(), cmd.ErrOrStderr()
			return j.run(args)
		},
	}
	f := cmd.Flags()
	f.StringVar(&j.into, "into", "", "the `garment#piece` that it is")
	f.StringVar(&j.altered, "altered", "", "the `garment#piece` whose paper was altered: it becomes a round of fitting")
	f.StringVar(&j.saw, "saw", "", "of altered paper: what was seen at the fitting, in `words`")
	f.StringArrayVar(&j.far, "far", nil, "a `distance` measured between the crosses of two cards: \"3 to 8: 842 mm\"")
	f.StringVar(&j.line, "line", "", "how `long` the line of 50 mm on your cards is, if the printer made it longer or shorter")
	f.StringSliceVar(&j.edges, "edges", nil, "`names` of the edges, against the clock from the lower left")
	f.StringVar(&j.allowance, "allowance", "", "how `wide` the allowances of the paper are: they are taken off, but at a fold")
	f.StringSliceVar(&j.marks, "marks", nil, "what `lines` on the paper are, by their numbers: \"1: slit cuff, 2: no\"")
	f.StringArrayVar(&j.move, "move", nil, "of a piece that was traced, without a photograph: how far a `corner` is moved: \"2: 0.5 right, 1 down\"")
	f.StringVar(&j.picture, "picture", "", "write what was seen, with the outline and what is drawn on the paper over it, as a PNG `file`")
	f.BoolVar(&j.bare, "bare", false, "with --picture: nothing is drawn over it")
	return cmd
}

func (j *traceJob) run(photos []string) error {
	if (j.into == "") == (j.altered == "") || j.altered == "" && j.saw != "" {
		return useErrorf("into which piece? --into BUILD#PIECE, as in --into supper#front\n    altered paper of a piece that is there: --altered supper#front --saw \"gapes at the waist\"")
	}
	build, piece, ok := strings.Cut(j.into+j.altered, "#")
	piece = strings.TrimSpace(piece)
	if !ok || build == "" || piece == "" {
		return useErrorf("%s: which piece? BUILD#PIECE, as in supper#front", j.into+j.altered)
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
		return useErrorf("--edges has %s, the piece has %d\n    %s", words.Count(len(names), "name"), n, edgeList(traced.Named(nil)))
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
		return useErrorf("--allowance %s: %s", j.allowance, err)
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
			return useErrorf("--marks %q: write the number of a line and what it is, as \"1: slit cuff\"", said)
		}
		k, _ := strconv.Atoi(m[1])
		if k < 1 || k > len(t.Drawn) {
			return useErrorf("--marks %q: %s found on the paper", said, words.Count(len(t.Drawn), "line"))
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
		return nil, useErrorf("%d photographs are too many: two or three show all there is", len(names))
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
			return how, nil, useErrorf("--far %s: write two cards and how far apart their crosses are, as \"3 to 8: 842 mm\"", far)
		}
		long, err := measure.ParseLength(m[3], measure.UnitMM)
		if err != nil || long.MM() < 100 {
			return how, nil, useErrorf("--far %s: %q is no distance between two cards\n    write it as \"3 to 8: 842 mm\"", far, m[3])
		}
		from, _ := strconv.Atoi(m[1])
		to, _ := strconv.Atoi(m[2])
		if from == to {
			return how, nil, useErrorf("--far %s: measure between two different cards", far)
		}
		how.Tapes = append(how.Tapes, tracing.Tape{From: from, To: to, MM: long.MM()})
	}
	if j.line != "" {
		long, err := measure.ParseLength(j.line, measure.UnitMM)
		if err != nil || long.MM() < 40 || long.MM() > 60 {
			return how, nil, useErrorf("--line %s: the line on a card is about 50 mm long; write what your ruler says, as 49.2", j.line)
		}
		how.Line = long.MM()
	}
	for _, word := range j.edges {
		name, fold, _ := strings.Cut(word, ":")
		e := tracing.EdgeName{Name: strings.TrimSpace(name), Fold: strings.TrimSpace(fold) == "fold"}
		if e.Name == "" || strings.TrimSpace(fold) != "" && !e.Fold {
			return how, nil, useErrorf("--edges: %q is no name of an edge\n    write them as \"hem, side, waist, centre: fold\"", word)
		}
		names = append(names, e)
	}
	return how, names, nil
}

// edgeList says which edges were found, for a maker who counts them.
func edgeList(list []tracing.Length) string {
	var out []string
	for i, l := range list {
		out = append(out, fmt.Sprintf("%d %.0f mm", i+1, l.MM))
	}
	return "against the clock from the lower left: " + strings.Join(out, ", ")
}

// tell says what was found and where it was written.
func (j *traceJob) tell(t *tracing.Traced, home paperpiece.Home, names []tracing.EdgeName) {
	wide, high := t.Size()
	list := t.Named(names)
	fmt.Fprintf(j.out, "%s: %.0f × %.0f mm, %s, from %s\n", home.Piece, wide, high, words.Count(len(list), "edge"), words.Count(len(t.Cards), "card"))
	longest := 0
	for _, l := range list {
		longest = max(longest, len(l.Name))
	}
	for _, l := range list {
		form := "curved"
		if l.Straight {
			form = "straight"
		}
		fmt.Fprintf(j.out, "    %-*s  %6.1f mm, %s, seen within %.1f mm\n", longest, l.Name, l.MM, form, max(l.Off, 0.1))
	}
	j.tellMarks(t, list)
	fmt.Fprintf(j.out, "written: %s, and %s in %s\n", home.FilePath(), home.Piece, home.File.Path)
	for _, n := range t.Lifted {
		fmt.Fprintf(j.errs, "card %d does not lie flat: it was left out\n", n)
	}
	if len(t.Notches) > 0 {
		fmt.Fprintf(j.errs, "notches found: %d; they are in the file\n", len(t.Notches))
	}
	if t.Even() && !slices.ContainsFunc(list, func(l tracing.Length) bool { return l.Fold }) {
		fmt.Fprintf(j.errs, "both halves are alike within %.1f mm: folded in half, it can be drawn on the fold\n", t.Mirror)
	}
	if len(names) == 0 {
		fmt.Fprintf(j.errs, "the edges have numbers: name them in the record, under outline\n")
	}
}

// tellMarks says what is drawn on the paper: what was written of it, and what is asked.
func (j *traceJob) tellMarks(t *tracing.Traced, list []tracing.Length) {
	if len(t.Drawn) > 0 {
		fmt.Fprintf(j.out, "drawn on it:\n")
	}
	asked := 0
	for i, m := range t.Drawn {
		said := "left out"
		if m.Word != "" {
			said = "written as " + m.Word
		} else if asked == 0 {
			asked = i + 1
		}
		fmt.Fprintf(j.out, "    %d  %s: %s\n", i+1, m.Said(list), said)
	}
	if asked > 0 && len(j.marks) == 0 {
		fmt.Fprintf(j.errs, "say what a line is, if it belongs to the piece: --marks \"%d: slit NAME\", or line NAME, crease NAME\n", asked)
	}
	for _, m := range t.Drawn {
		if m.Is == tracing.Beside && j.allowance == "" {
			fmt.Fprintf(j.errs, "a line runs %.0f mm inside %s: if it is the sewing line, trace again with --allowance %.0f\n", m.At, list[m.Edge].Name, m.At)
			return
		}
	}
}
