package trade

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestDrawSections writes every cross-section as a plain SVG into the folder
// named by DRAW_SECTIONS, to be looked at; without it there is nothing to do.
func TestDrawSections(t *testing.T) {
	dir := os.Getenv("DRAW_SECTIONS")
	if dir == "" {
		t.Skip("DRAW_SECTIONS names no folder to draw into")
	}
	for _, st := range SeamTypes() {
		s, err := st.Section(nil)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, st.Name+".svg"), []byte(sketch(st.Title, s)), 0o644); err != nil {
			t.Fatal(err)
		}
	}
}

var inks = map[Role]string{ClothA: "#b5651d", ClothB: "#3b6e8f", ClothC: "#7a4f8f", Elastic: "#c0392b", Ribbing: "#b03a6b", Lining: "#4f8f7a", Interfacing: "#8f8f3b", Stay: "#444", Zip: "#222", Tape: "#6b8e23", Facing: "#6b8e23", Cord: "#888", Braid: "#777"}

// sketch is a crude drawing, only good enough to judge the geometry by.
func sketch(title string, s Section) string {
	const width = 560.0
	scale := (width - 40) / (s.Max.X - s.Min.X)
	low, high := s.Min.Y, s.Max.Y
	for _, d := range s.Dims {
		low, high = math.Min(low, d.From.Y), math.Max(high, d.From.Y)
	}
	height := (high-low)*scale + 90
	at := func(p Pt) (float64, float64) { return 20 + (p.X-s.Min.X)*scale, 50 + (high-p.Y)*scale }
	line := func(pts []Pt, style string) string {
		var b strings.Builder
		for _, p := range pts {
			x, y := at(p)
			fmt.Fprintf(&b, "%.2f,%.2f ", x, y)
		}
		return fmt.Sprintf(`<polyline points="%s" fill="none" %s/>`+"\n", b.String(), style)
	}
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" width="%.0f" height="%.0f" font-family="sans-serif" font-size="12"><rect width="100%%" height="100%%" fill="white"/>`+"\n", width, height)
	fmt.Fprintf(&b, `<text x="10" y="18" font-size="15">%s</text>`+"\n", title)
	for _, l := range s.Layers {
		b.WriteString(line(l.Path, fmt.Sprintf(`stroke="%s" stroke-width="%.1f"`, inks[l.Role], s.Ply*scale*0.55)))
	}
	for _, st := range s.Stitches {
		pts := []Pt{st.From, st.To}
		if st.Round != nil {
			pts = st.Round
		}
		style := `stroke="#c00" stroke-width="2"`
		if st.Temporary {
			style += ` stroke-dasharray="3 3"`
		}
		b.WriteString(line(pts, style))
		x, y := at(st.From)
		fmt.Fprintf(&b, `<text x="%.1f" y="%.1f" fill="#c00" font-size="10">%d</text>`+"\n", x+3, y-2, st.Row)
	}
	for _, d := range s.Dims {
		b.WriteString(line([]Pt{d.From, d.To}, `stroke="#333" stroke-width="1"`))
		x, y := at(d.From)
		fmt.Fprintf(&b, `<text x="%.1f" y="%.1f" fill="#333">%s</text>`+"\n", x, y-3, d.Text)
	}
	for _, l := range s.Labels {
		x, y := at(l.At)
		fmt.Fprintf(&b, `<text x="%.1f" y="%.1f" fill="#333">%s</text>`+"\n", x, y, l.Text)
	}
	return b.String() + "</svg>\n"
}
