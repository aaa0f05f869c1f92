package paper

import (
	"encoding/binary"
	"maps"
	"slices"
)

// letters are those of each face that stand on the pages of a PDF.
type letters map[*face]map[rune]bool

// letters gathers them from the writer's pages.
func (w *writer) letters() letters {
	out := letters{}
	for _, p := range w.pages {
		for _, it := range p.items {
			t, ok := it.(textItem)
			if !ok {
				continue
			}
			if out[t.face] == nil {
				out[t.face] = map[rune]bool{}
			}
			for _, r := range t.text {
				out[t.face][r] = true
			}
		}
	}
	return out
}

// fontTables are the tables of a font that the PDF's writer reads, letters apart: it asks
// for nothing else, as what stands for which letters before others or in their stead.
var fontTables = []string{"OS/2", "cmap", "cvt ", "fpgm", "gasp", "glyf", "head", "hhea", "hmtx", "loca", "maxp", "name", "post", "prep"}

// only is the face's font for a writer that wants so many letters: its list of letters
// names no other. The writer goes through the whole list four times, and a font has
// thousands. Source: OpenType specification, "cmap", format 4.
func (f *face) only(used map[rune]bool) []byte {
	const head, record, most = 12, 16, 8000 // stretches that the table can count
	if len(used) > most {
		return f.data
	}
	plain := f.plain()
	out := make([]byte, len(plain), len(plain)+64+8*len(used))
	copy(out, plain)
	cmap := f.cmap(used)
	for i := range int(binary.BigEndian.Uint16(out[4:])) {
		if at := head + i*record; string(out[at:at+4]) == "cmap" {
			binary.BigEndian.PutUint32(out[at+8:], uint32(len(out)))
			binary.BigEndian.PutUint32(out[at+12:], uint32(len(cmap)))
		}
	}
	return append(out, cmap...)
}

// plainFont is a font with the tables that are wanted, where the list of letters is not
// filled in yet.
func plainFont(data []byte) []byte {
	const head, record = 12, 16
	var kept [][]byte // records
	for i := range int(binary.BigEndian.Uint16(data[4:])) {
		if r := data[head+i*record:][:record]; slices.Contains(fontTables, string(r[:4])) {
			kept = append(kept, r)
		}
	}
	out := slices.Clone(data[:head])
	binary.BigEndian.PutUint16(out[4:], uint16(len(kept)))
	out = append(out, slices.Concat(kept...)...)
	for i, r := range kept {
		if string(r[:4]) == "cmap" {
			continue
		}
		binary.BigEndian.PutUint32(out[head+i*record+8:], uint32(len(out)))
		from, size := binary.BigEndian.Uint32(r[8:]), binary.BigEndian.Uint32(r[12:])
		out = append(out, data[from:from+size]...)
		for len(out)%4 != 0 {
			out = append(out, 0)
		}
	}
	return out
}

// wholeTables reports whether a font's tables lie within it.
func wholeTables(data []byte) bool {
	const head, record = 12, 16
	if len(data) < head {
		return false
	}
	n := int(binary.BigEndian.Uint16(data[4:]))
	if len(data) < head+n*record {
		return false
	}
	for i := range n {
		r := data[head+i*record:]
		if uint64(binary.BigEndian.Uint32(r[8:]))+uint64(binary.BigEndian.Uint32(r[12:])) > uint64(len(data)) {
			return false
		}
	}
	return true
}

// cmap is the table of these letters and no others, a stretch for each.
func (f *face) cmap(used map[rune]bool) []byte {
	f.lock.Lock()
	defer f.lock.Unlock()
	var from, delta []uint16
	for _, r := range slices.Sorted(maps.Keys(used)) {
		if r > 0xFFFE { // of the last letter the table has its own stretch
			continue
		}
		if glyph := f.glyph(r); glyph != 0 {
			from, delta = append(from, uint16(r)), append(delta, uint16(glyph)-uint16(r))
		}
	}
	from, delta = append(from, 0xFFFF), append(delta, 1)
	n := len(from)
	words := []uint16{0, 1, 3, 1, 0, 12, 4, uint16(16 + 8*n), 0, uint16(2 * n), 0, 0, 0}
	words = append(words, from...) // each stretch ends where it begins
	words = append(words, 0)
	words = append(words, from...)
	words = append(words, delta...)
	words = append(words, make([]uint16, n)...)
	var out []byte
	for _, w := range words {
		out = binary.BigEndian.AppendUint16(out, w)
	}
	return out
}
