package sown

import (
	"fmt"
	"strings"
)

// patternFiles adds two pattern files that the record draws pieces from, with
// secrets in all that is written in them beside the outline, and the record's
// text with those pieces.
func (g *sower) patternFiles(files map[string]string, build string) {
	files[build+"pattern/traced.svg"] = fmt.Sprintf(`<svg xmlns="http://www.w3.org/2000/svg" width="260mm" height="620mm" viewBox="0 0 260 620"><title>%s</title><metadata>%s</metadata><!-- %s -->
<g id="traced"><desc>%s</desc><path id="traced-hem" d="M10,610H250"/><path id="traced-side" d="M250,610L200,10"/><path id="traced-top" d="M200,10H10"/><path id="traced-middle" d="M10,10V610"/></g>
<text x="20" y="20">%s</text></svg>
`, g.word("pattern file, title", nil), g.word("pattern file, data", nil), g.remark(), g.word("pattern file, description", nil), g.word("pattern file, text", nil))
	var dxf strings.Builder
	pair := func(list ...any) {
		for _, one := range list {
			fmt.Fprintf(&dxf, "%v\n", one)
		}
	}
	pair(999, g.remark(), 0, "SECTION", 2, "HEADER", 9, "$INSUNITS", 70, 4, 0, "ENDSEC", 0, "SECTION", 2, "BLOCKS", 0, "BLOCK", 2, "plotted", 999, g.remark(), 0, "POLYLINE", 8, 14, 66, 1, 70, 1)
	for _, p := range [][2]int{{0, 0}, {100, 0}, {100, 50}, {0, 50}} {
		pair(0, "VERTEX", 8, 0, 10, p[0], 20, p[1])
	}
	pair(0, "SEQEND", 0, "TEXT", 8, 15, 10, 5, 20, 5, 1, g.word("pattern file, text", nil), 0, "ENDBLK", 0, "ENDSEC",
		0, "SECTION", 2, "ENTITIES", 0, "INSERT", 2, "plotted", 10, 0, 20, 0, 0, "ENDSEC", 0, "EOF")
	files[build+"pattern/plotted.dxf"] = dxf.String()
	record := build + "build.yaml"
	files[record] = strings.Replace(files[record], "\npieces:\n", "\npieces:\n  traced:\n    outline: pattern/traced.svg#traced\n  plotted:\n    outline: pattern/plotted.dxf#plotted\n", 1)
}
