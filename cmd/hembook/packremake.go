package main

import (
	"io/fs"
	"path"
	"strings"
	"sync"

	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/document"
	"hembook/internal/give"
	"hembook/internal/paper"
	"hembook/internal/record"
	"hembook/internal/sheet"
)

// again is the folder, within a packet, of a workroom in which the garment can be made
// again.
const again = "workroom"

// remakeFiles are what another maker needs beside the sheet: the pattern at full size and
// as pattern files, where the garment has outlines, and a workroom that opens the record.
func remakeFiles(room *record.Room, tailor *derive.Tailor, cut *cutting.Cutting, size document.Size) []packFile {
	b := cut.Garment.Build
	var out []packFile
	if sheets, err := printed(room, cut.Garment, cut.Garment.Pieces, paper.StockOf(size), size).Set(); err == nil {
		out = append(out, packFile{"pattern.pdf", sheets.PDF, true})
	}
	for _, as := range []give.Format{give.SVG, give.DXF} {
		if f, err := give.Pieces(cut.Garment.Garment, nil, as); err == nil {
			out = append(out, packFile{"pattern." + string(as), f.Text, true})
		}
	}
	shared := room.Share(b, redraw(tailor, b))
	if shared == nil {
		return out
	}
	for _, f := range shared {
		out = append(out, packFile{path.Join(again, f.Path), f.Text, false})
	}
	for _, file := range room.Photographs(b) {
		data, err := fs.ReadFile(room.FS, file)
		if err != nil {
			continue // check has told of it
		}
		if small := sheet.SmallPicture(data); small != nil {
			out = append(out, packFile{path.Join(again, file), small, false})
		}
	}
	return out
}

// redraw draws the pieces of pattern files anew, as they are drawn there: with the changes
// of those rounds of fitting that the record says are drawn.
func redraw(tailor *derive.Tailor, b *record.Build) func(pieces []string, file string) []byte {
	drawn := 0
	for _, f := range b.InOrder() {
		if f.Drawn.V {
			drawn = f.Round.V
		}
	}
	asDrawn := sync.OnceValue(func() *derive.Garment { return tailor.DeriveAt(b, drawn) })
	return func(pieces []string, file string) []byte {
		as := give.SVG
		if strings.EqualFold(path.Ext(file), ".dxf") {
			as = give.DXF
		}
		f, err := give.Pieces(asDrawn().Garment, pieces, as)
		if err != nil {
			return nil
		}
		return f.Text
	}
}
