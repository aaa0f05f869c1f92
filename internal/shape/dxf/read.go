package dxf

import (
	"strings"

	"hembook/internal/fault"
	"hembook/internal/say"
	"hembook/internal/shape/trace"
)

// A file is what was read of a DXF file, as it stands in it.
type file struct {
	unit     float64 // millimetres, 0 where it is not said
	blocks   map[string]*block
	order    []string        // of the blocks
	unseen   map[string]bool // layers that are off or frozen: true for frozen
	entities []entity
}

// A block is a drawing that is placed by reference.
type block struct {
	name     string
	line     int
	baseX    float64
	baseY    float64
	entities []entity
}

// Read reads the pieces a file draws, in the file's own units; a nil drawing
// comes with the fault.
func Read(text []byte) (*trace.Drawing, *fault.Fault) {
	if f := refuse(text); f != nil {
		return nil, f
	}
	in, f := parse(&scanner{text: text})
	if f != nil {
		return nil, f
	}
	return draw(in)
}

// parse reads the sections.
func parse(s *scanner) (*file, *fault.Fault) {
	in := &file{blocks: map[string]*block{}, unseen: map[string]bool{}}
	seen := false
	for {
		p, ok, f := s.next()
		if f != nil {
			return nil, f
		}
		if !ok {
			break
		}
		if p.code != 0 || strings.TrimSpace(p.value) != "SECTION" {
			continue
		}
		name, ok, f := s.next()
		if f != nil {
			return nil, f
		}
		if !ok {
			return nil, wrong(trace.Where{Line: p.line, What: "file"}, say.Of("dxf.was-it-copied-whole"), say.Of("dxf.it-ends-in-the-middle-a-section"))
		}
		seen = true
		switch strings.TrimSpace(name.value) {
		case "HEADER":
			f = in.header(s)
		case "TABLES":
			f = in.tables(s)
		case "BLOCKS":
			f = in.readBlocks(s)
		case "ENTITIES":
			in.entities, _, f = readEntities(s, "ENDSEC")
		}
		if f != nil {
			return nil, f
		}
	}
	if !seen {
		return nil, wrong(trace.Where{}, "", say.Of("dxf.this-is-not-a-dxf-file-it"))
	}
	return in, nil
}

// header reads the units; $INSUNITS is more exact than $MEASUREMENT.
func (in *file) header(s *scanner) *fault.Fault {
	name, exact := "", false
	for {
		p, ok, f := s.next()
		if f != nil || !ok || p.code == 0 {
			return f
		}
		switch {
		case p.code == 9:
			name = strings.TrimSpace(p.value)
		case name == "$INSUNITS" && p.code == 70:
			if unit, known := insUnits[p.whole()]; known {
				in.unit, exact = unit, true
			}
		case name == "$MEASUREMENT" && p.code == 70 && !exact:
			in.unit = 25.4
			if p.whole() == 1 {
				in.unit = 1
			}
		}
	}
}

// tables reads which layers are not shown: a colour below nought turns one off,
// the first bit of its flags freezes it (from memory: DXF reference, LAYER).
func (in *file) tables(s *scanner) *fault.Fault {
	list, _, f := readEntities(s, "ENDSEC")
	for i := range list {
		e := &list[i]
		if e.kind != "LAYER" {
			continue
		}
		flags, _ := e.get(70)
		if frozen := flags.whole()&1 == 1; frozen || e.number(62) < 0 {
			in.unseen[strings.TrimSpace(e.text(2))] = frozen
		}
	}
	return f
}

func (in *file) readBlocks(s *scanner) *fault.Fault {
	for {
		p, ok, f := s.next()
		if f != nil || !ok {
			return f
		}
		if p.code != 0 {
			continue
		}
		switch strings.TrimSpace(p.value) {
		case "ENDSEC":
			return nil
		case "BLOCK":
			head := entity{kind: "BLOCK", line: p.line}
			if f := head.fill(s); f != nil {
				return f
			}
			b := &block{name: head.text(2), line: p.line, baseX: head.number(10), baseY: head.number(20)}
			var last string
			if b.entities, last, f = readEntities(s, "ENDBLK"); f != nil {
				return f
			}
			if in.blocks[b.name] == nil {
				in.blocks[b.name] = b
				in.order = append(in.order, b.name)
			}
			if last == "ENDSEC" {
				return nil
			}
		}
	}
}

// fill takes the pairs that belong to an entity.
func (e *entity) fill(s *scanner) *fault.Fault {
	for {
		p, ok, f := s.next()
		if f != nil || !ok {
			return f
		}
		if p.code == 0 {
			s.back = &p
			return nil
		}
		e.pairs = append(e.pairs, p)
	}
}

// readEntities reads entities up to the word that ends them, and says which
// that was; a section may end early.
func readEntities(s *scanner, until string) (list []entity, last string, f *fault.Fault) {
	for {
		p, ok, f := s.next()
		if f != nil || !ok {
			return list, "", f
		}
		if p.code != 0 {
			continue
		}
		kind := strings.TrimSpace(p.value)
		if kind == until || kind == "ENDSEC" || kind == "EOF" {
			return list, kind, nil
		}
		e := entity{kind: kind, line: p.line}
		if f := e.fill(s); f != nil {
			return nil, "", f
		}
		if n := len(list); n > 0 && list[n-1].kind == "POLYLINE" && (kind == "VERTEX" || kind == "SEQEND") {
			if kind == "VERTEX" {
				list[n-1].kids = append(list[n-1].kids, e)
			} else {
				list = append(list, e)
			}
			continue
		}
		list = append(list, e)
	}
}
