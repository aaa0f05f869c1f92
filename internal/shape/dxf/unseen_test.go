package dxf

import (
	"slices"
	"strings"
	"testing"

	"hembook/internal/shape/trace"
)

// layers writes the table of layers: colours below nought are off, odd flags
// frozen.
func layers(list ...any) string {
	out := pairs(0, "SECTION", 2, "TABLES", 0, "TABLE", 2, "LAYER", 70, len(list)/3)
	for i := 0; i+2 < len(list); i += 3 {
		out += pairs(0, "LAYER", 2, list[i], 62, list[i+1], 70, list[i+2], 6, "CONTINUOUS")
	}
	return out + pairs(0, "ENDTAB", 0, "ENDSEC")
}

// TestUnseen: what lies on layers that are off or frozen is not read, and it is
// known which layer would have to be shown.
func TestUnseen(t *testing.T) {
	box := func(layer any) string {
		return line(layer, 0, 0, 100, 0) + line(layer, 100, 0, 100, 50) + line(layer, 100, 50, 0, 0)
	}
	block := func(name string, lines string) string {
		return pairs(0, "SECTION", 2, "BLOCKS", 0, "BLOCK", 2, name) + lines + pairs(0, "ENDBLK", 0, "ENDSEC")
	}
	placed := func(name, layer string) string {
		return pairs(0, "SECTION", 2, "ENTITIES", 0, "INSERT", 8, layer, 2, name, 0, "ENDSEC", 0, "EOF")
	}
	entities := func(lines string) string {
		return pairs(0, "SECTION", 2, "ENTITIES") + lines + pairs(0, "ENDSEC", 0, "EOF")
	}
	for _, c := range []struct {
		name, text string
		pieces     int
		hidden, in string
		unseen     []string
	}{
		{"shown", layers("front", 7, 0) + entities(box("front")), 1, "", "", nil},
		{"off", layers("front", -7, 0) + entities(box("front")), 0, "front", "front", nil},
		{"frozen", layers("front", 7, 1) + entities(box("front")), 0, "front", "front", nil},
		{"locked only", layers("front", 7, 4) + entities(box("front")), 1, "", "", nil},
		{"one of two", layers("front", -7, 0) + entities(box("front")+box("back")), 1, "front", "front", nil},
		{"a block on a layer that is off", layers(14, -7, 0) + block("front", box(14)) + placed("front", "1"), 0, "front", "14", nil},
		{"a block placed on a frozen layer", layers("old", 7, 1) + block("front", box(14)) + placed("front", "old"), 0, "front", "old", nil},
		{"a block placed on a layer that is off", layers("old", -7, 0) + block("front", box(14)) + placed("front", "old"), 1, "", "", nil},
		{"sewing line off", layers(14, -7, 0) + block("front", box(14)+line(7, 10, 0, 10, 20)) + placed("front", "1"), 1, "", "", []string{"14"}},
		{"no layer has a name", layers(0, -7, 0) + entities(box(0)), 0, "0", "0", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			d, fault := Read([]byte(c.text))
			if fault != nil {
				t.Fatal(fault)
			}
			if len(d.Pieces) != c.pieces {
				t.Fatalf("%d pieces, want %d", len(d.Pieces), c.pieces)
			}
			want := trace.Hidden{Name: c.hidden, In: c.in}
			if (c.hidden != "") != slices.Contains(d.Hidden, want) || c.hidden == "" && len(d.Hidden) > 0 {
				t.Errorf("hidden are %v, want %v", d.Hidden, want)
			}
			if len(c.unseen) == 0 {
				return
			}
			if !slices.Equal(d.Pieces[0].Unseen, c.unseen) {
				t.Errorf("unseen are %v, want %v", d.Pieces[0].Unseen, c.unseen)
			}
			_, faults := d.Pieces[0].Assemble(trace.Options{})
			if len(faults) == 0 || !strings.Contains(faults[0].Hint, `show the layer "14"`) {
				t.Errorf("it is answered with %v", faults)
			}
		})
	}
}
