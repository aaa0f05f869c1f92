package main

import (
	"io/fs"
	"path"
	"strings"

	"hembook/internal/cutting"
	"hembook/internal/derive"
	"hembook/internal/document"
	"hembook/internal/give"
	"hembook/internal/paper"
	"hembook/internal/pattern"
	"hembook/internal/record"
	"hembook/internal/sheet"
)

// again is the folder, within a packet, of a workroom in which the garment can be made
// again.
const again = "workroom"

// remakeFiles are what another maker needs beside the sheet: the pattern at full size and
// as pattern files, and a workroom that opens the record.
func remakeFiles(room *record.Room, tailor *derive.Tailor, cut *cutting.Cutting, size document.Size) ([]packFile, error) {
	b := cut.Garment.Build
	var out []packFile
	job := pattern.Print{Garment: b.Name.V, Pieces: cut.Garment.Pieces, Stock: paper.StockOf(size), Cover: size, Author: room.Workroom.Name.V,
		AsOf: roundWords(cut.Garment), Style: pattern.Style{Measure: room.Workroom.Style()}}
	if sheets, err := job.Set(); err == nil { // a garment without an outline has no pattern
		out = append(out, packFile{"pattern.pdf", sheets.PDF, true})
	}
	for _, as := range []give.Format{give.SVG, give.DXF} {
		if f, err := give.Pieces(cut.Garment.Garment, nil, as); err == nil {
			out = append(out, packFile{"pattern." + string(as), f.Text, true})
		}
	}
	for _, f := range room.Share(b, redraw(tailor, b)) {
		out = append(out, packFile{path.Join(again, f.Path), f.Text, false})
	}
	for _, file := range room.Photographs(b) {
		data, err := fs.ReadFile(room.FS, file)
		if err != nil {
			continue
		}
		if small := sheet.SmallPicture(data); small != nil {
			out = append(out, packFile{path.Join(again, file), small, false})
		}
	}
	return out, nil
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
	return func(pieces []string, file string) []byte {
		as := give.SVG
		if strings.EqualFold(path.Ext(file), ".dxf") {
			as = give.DXF
		}
		f, err := give.Pieces(tailor.DeriveAt(b, drawn).Garment, pieces, as)
		if err != nil {
			return nil
		}
		return f.Text
	}
}
