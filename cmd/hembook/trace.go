package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"hembook/internal/disk"
	"hembook/internal/measure"
	"hembook/internal/picture"
	"hembook/internal/record"
	"hembook/internal/record/amend"
	"hembook/internal/tracing"
	"hembook/internal/words"
)

// A traceJob is what the trace command was asked for.
type traceJob struct {
	opt       *options
	out, errs io.Writer

	into, line, allowance, picture string // flags
	far, edges                     []string
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
  hembook trace a.jpg b.jpg --into supper#front --edges "hem, side, waist, centre: fold"`,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) == 0 {
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
	f.StringArrayVar(&j.far, "far", nil, "a `distance` measured between the crosses of two cards: \"3 to 8: 842 mm\"")
	f.StringVar(&j.line, "line", "", "how `long` the line of 50 mm on your cards is, if the printer made it longer or shorter")
	f.StringSliceVar(&j.edges, "edges", nil, "`names` of the edges, against the clock from the lower left")
	f.StringVar(&j.allowance, "allowance", "", "how `wide` the allowances of the paper are: they are taken off, but at a fold")
	f.StringVar(&j.picture, "picture", "", "write what was seen, with the outline over it, as a PNG `file`")
	return cmd
}

func (j *traceJob) run(photos []string) error {
	build, piece, ok := strings.Cut(j.into, "#")
	piece = strings.TrimSpace(piece)
	if !ok || build == "" || piece == "" {
		return useErrorf("into which piece? --into BUILD#PIECE, as in --into supper#front")
	}
	if words.Slug(piece) == "" {
		return useErrorf("--into %s: the piece needs a name of letters", j.into)
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
	home := pieceHome{room: on.room, file: on.file, piece: piece, svg: path.Join("pattern", words.Slug(piece)+".svg")}
	if err := home.free(on.build); err != nil {
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
	if err := home.write(traced.SVG(piece, names)); err != nil {
		return err
	}
	j.tell(traced, home, names)
	if j.picture == "" {
		return nil
	}
	return writeWhole(j.picture, traced.Picture(pictures[0].Image))
}

// takeOff takes the paper's allowance off, where it has one.
func (j *traceJob) takeOff(t *tracing.Traced, names []tracing.EdgeName) error {
	if j.allowance == "" {
		return nil
	}
	wide, err := measure.ParseLength(j.allowance, measure.UnitMM)
	if err != nil {
		return useErrorf("--allowance %s: %s", j.allowance, err)
	}
	return t.TakeOff(wide.MM(), names)
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
func (j *traceJob) tell(t *tracing.Traced, home pieceHome, names []tracing.EdgeName) {
	wide, high := t.Size()
	list := t.Named(names)
	fmt.Fprintf(j.out, "%s: %.0f × %.0f mm, %s, from %s\n", home.piece, wide, high, words.Count(len(list), "edge"), words.Count(len(t.Cards), "card"))
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
	fmt.Fprintf(j.out, "written: %s, and %s in %s\n", path.Join(home.folder(), home.svg), home.piece, home.file.Path)
	for _, n := range t.Lifted {
		fmt.Fprintf(j.errs, "card %d does not lie flat: it was left out\n", n)
	}
	if len(t.Notches) > 0 {
		fmt.Fprintf(j.errs, "%s found: they are in the file\n", words.Count(len(t.Notches), "notch"))
	}
	if t.Even() && !slices.ContainsFunc(list, func(l tracing.Length) bool { return l.Fold }) {
		fmt.Fprintf(j.errs, "both halves are alike within %.1f mm: folded in half, it can be drawn on the fold\n", t.Mirror)
	}
	if len(names) == 0 {
		fmt.Fprintf(j.errs, "the edges have numbers: name them in the record, under outline\n")
	}
}

// A pieceHome is where a traced piece is written: a file beside the record, and a piece
// in it.
type pieceHome struct {
	room  *record.Room
	file  record.BuildFile
	piece string
	svg   string // of the garment's folder
}

func (h pieceHome) folder() string { return path.Dir(h.file.Path) }

// free refuses to write over what is there.
func (h pieceHome) free(b *record.Build) error {
	for _, p := range b.Pieces {
		if p.Name.V == h.piece && p.Formed() {
			return useErrorf("%s has the piece %s already\n    take its form out of the record, or trace into another piece", h.file.Path, h.piece)
		}
	}
	root, err := disk.OpenRoot(h.room.Dir)
	if err != nil {
		return err
	}
	defer root.Close()
	if _, err := root.Lstat(path.Join(h.folder(), h.svg)); err == nil {
		return useErrorf("%s is there already\n    delete it, or trace into another piece", path.Join(h.folder(), h.svg))
	}
	return nil
}

// outlineErrand begins the line of an errand while a piece's file is written and not yet
// named in its record: the file, a tab, the record.
const outlineErrand = "outline "

// write writes the file, then the record; where the record cannot be written the file is
// taken away again.
func (h pieceHome) write(svg []byte) error {
	root, err := disk.OpenRoot(h.room.Dir)
	if err != nil {
		return err
	}
	defer root.Close()
	file := path.Join(h.folder(), h.svg)
	if err := root.MkdirAll(path.Dir(file), 0o777); err != nil {
		return fmt.Errorf("%s could not be made: %w", path.Dir(file), plainError(err))
	}
	defer disk.BeginErrand(h.room.Dir, outlineErrand+file+"\t"+h.file.Path).End()
	if err := root.Keep(file, svg, 0o666); err != nil {
		return fmt.Errorf("%s could not be written: %w", file, plainError(err))
	}
	rec := amend.File{Folder: h.room.Dir, Path: h.file.Path}
	err = rec.Change(func(text []byte) ([]byte, error) {
		return amend.Set(text, amend.At("pieces", h.piece, "outline"), amend.Words(h.svg+"#"+h.piece))
	})
	if err != nil {
		return errors.Join(err, endOutlineErrand(h.room.Dir, file+"\t"+h.file.Path))
	}
	return nil
}

// endOutlineErrand removes the file of a piece that its record does not name.
func endOutlineErrand(room, line string) error {
	file, rec, _ := strings.Cut(line, "\t")
	root, err := disk.OpenRoot(room)
	if err != nil {
		return err
	}
	defer root.Close()
	text, err := root.ReadFile(rec)
	if err != nil || strings.Contains(string(text), path.Join("pattern", path.Base(file))) {
		return err
	}
	if err := root.Remove(file); err != nil && !errors.Is(err, fs.ErrNotExist) {
		return err
	}
	return nil
}
