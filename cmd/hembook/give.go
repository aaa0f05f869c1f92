package main

import (
	"context"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"hembook/internal/cutting"
	"hembook/internal/garment"
	"hembook/internal/give"
	"hembook/internal/record"
)

// giveOptions are the flags of give.
type giveOptions struct {
	svg, dxf, piece string
}

func newGive(opt *options) *cobra.Command {
	var g giveOptions
	cmd := &cobra.Command{
		Use:   "give BUILD",
		Short: "hand out the pieces and lays of a build as SVG or DXF",
		Long: `give writes the pieces of a build into one pattern file, at full size in
millimetres: cut line, sewing line edge by edge, grain, darts, notches and
levels, each on a layer of its own. Every lay that is kept becomes a file beside
it. What is given can be read back by outline: FILE#PIECE, in this or another
workroom. DXF is written in the form of release 12, as text.

Exit status: 0 fine, 1 where records hold errors or a file cannot be written,
2 for wrong use.`,
		Example: `  hembook give supper-dress --svg pattern
  hembook give supper --dxf pattern --piece front`,
		Args: oneArg("which build? hembook give BUILD --svg FOLDER"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return g.run(cmd.Context(), opt, args[0], cmd.ErrOrStderr())
		},
		ValidArgsFunction: opt.completeBuilds,
	}
	f := cmd.Flags()
	f.StringVar(&g.svg, "svg", "", "write SVG into this `folder`")
	f.StringVar(&g.dxf, "dxf", "", "write DXF into this `folder`")
	f.StringVar(&g.piece, "piece", "", "only the `piece` of that name, and no lays")
	return cmd
}

func (o giveOptions) run(ctx context.Context, opt *options, word string, errs io.Writer) error {
	if o.svg == "" && o.dxf == "" {
		return useErrorf("as what? --svg FOLDER, --dxf FOLDER or both")
	}
	cut, faults, err := opt.cutKept(ctx, word)
	if err != nil {
		return err
	}
	if record.HasErrors(faults) {
		printFaults(errs, faults)
		return errFaults
	}
	if err := o.knows(cut.Garment); err != nil {
		return err
	}
	for _, to := range []struct {
		folder string
		as     give.Format
	}{{o.svg, give.SVG}, {o.dxf, give.DXF}} {
		if to.folder == "" {
			continue
		}
		if err := o.write(cut, to.folder, to.as, errs); err != nil {
			return err
		}
	}
	return nil
}

// cutKept is a build with the lays that are kept, none being searched for.
func (o *options) cutKept(ctx context.Context, word string) (*cutting.Cutting, []record.Fault, error) {
	on, err := o.openBuild(word)
	if err != nil {
		return nil, nil, err
	}
	defer on.room.Close()
	if record.HasErrors(on.faults) {
		return nil, on.faults, nil
	}
	cut := cutting.NewCutter(ctx, on.room, on.tailor, cutting.Options{Mode: cutting.KeptOnly}).Cut(on.build)
	return cut, append(on.faults, cut.Garment.Faults...), nil
}

// knows checks the name of the piece.
func (o giveOptions) knows(g *garment.Garment) error {
	if o.piece == "" {
		return nil
	}
	var names []string
	for _, p := range g.Pieces {
		if p.Name == o.piece {
			return nil
		}
		names = append(names, p.Name)
	}
	return useErrorf("this build has no piece called %q\n    it has: %s", o.piece, joinWords(names))
}

// write makes all files of one format and then writes them.
func (o giveOptions) write(cut *cutting.Cutting, folder string, as give.Format, errs io.Writer) error {
	pieces, err := give.Pieces(cut.Garment, o.piece, as)
	if err != nil {
		return err
	}
	files, without := []give.File{pieces}, []string(nil)
	for _, l := range cut.Lays {
		switch {
		case o.piece != "":
		case l.Plan == nil:
			without = append(without, l.Part)
		default:
			lay, err := give.Lay(cut.Garment, l, as)
			if err != nil {
				return err
			}
			lay.Name = plainFile(lay.Name)
			files = append(files, lay)
		}
	}
	if err := os.MkdirAll(folder, 0o777); err != nil {
		return fmt.Errorf("the folder %s cannot be made: %w", folder, err)
	}
	for _, f := range files {
		name := filepath.Join(folder, f.Name)
		if err := writeWhole(name, f.Text); err != nil {
			return fmt.Errorf("%s could not be written: %w", name, err)
		}
		fmt.Fprintf(errs, "%s is written\n", name)
	}
	if len(without) > 0 {
		fmt.Fprintf(errs, "no lay is kept of: %s\n    hembook lay %s plans them\n", joinWords(without), cut.Garment.Build.Slug)
	}
	return nil
}

// plainFile is a file's name without what no file's name may hold.
func plainFile(name string) string {
	return strings.Map(func(r rune) rune {
		if strings.ContainsRune(`/\:*?"<>|`, r) || r < 0x20 {
			return '-'
		}
		return r
	}, name)
}
