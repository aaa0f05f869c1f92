package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"hembook/internal/cutting"
	"hembook/internal/fault"
	"hembook/internal/garment"
	"hembook/internal/give"
	"hembook/internal/say"
)

// givePieces writes pattern files of the pieces of those names, SVG and DXF
// each into its folder; no folder, no file.
func givePieces(g *garment.Garment, names []string, svg, dxf string, errs io.Writer) error {
	return intoFolders(svg, dxf, errs, func(as give.Format) ([]give.File, error) {
		f, err := give.Pieces(g, names, as)
		return []give.File{f}, err
	})
}

// giveLays writes a pattern file of every lay that has a plan.
func giveLays(cut *cutting.Cutting, svg, dxf string, errs io.Writer) error {
	return intoFolders(svg, dxf, errs, func(as give.Format) ([]give.File, error) {
		var files []give.File
		for _, l := range cut.Lays {
			if l.Plan == nil {
				continue
			}
			f, err := give.Lay(cut.Garment.Garment, l, as)
			if err != nil {
				return nil, err
			}
			files = append(files, f)
		}
		return files, nil
	})
}

// intoFolders makes all files of a format and then writes them, format by
// format.
func intoFolders(svg, dxf string, errs io.Writer, files func(give.Format) ([]give.File, error)) error {
	for _, to := range []struct {
		folder string
		as     give.Format
	}{{svg, give.SVG}, {dxf, give.DXF}} {
		if to.folder == "" {
			continue
		}
		made, err := files(to.as)
		if err != nil {
			return err
		}
		if err := os.MkdirAll(to.folder, 0o777); err != nil {
			return fault.Wrapping(err, say.Of("hembook.the-folder-cannot-be-made", to.folder, err))
		}
		for _, f := range made {
			name := filepath.Join(to.folder, plainFile(f.Name))
			if err := writeWhole(name, f.Text); err != nil {
				return fault.Wrapping(err, say.Of("hembook.could-not-be-written", name, err))
			}
			fmt.Fprintln(errs, say.Of("hembook.is-written", name))
		}
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
