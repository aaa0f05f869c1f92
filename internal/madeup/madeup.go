// Package madeup invents whole workrooms of one garment for tests: pieces
// with curves, rings, godets, mirrored copies and halves on the fold, linings
// that are like a shell, darts and pleats, seams and finishes of all types,
// blends of fibres, shrinking cloth, notions, an order of work with a journal,
// rounds of fitting, in millimetres, centimetres or inches. The same seed and
// size give the same text on every machine.
//
// What it writes can be read without an error. It need not make sense as a
// garment: edges that are sewn to each other seldom match.
package madeup

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strconv"
	"strings"
)

// Build is the folder's name of the build in every workroom.
const Build = "made-up"

// A Wish says which workroom is to be made up.
type Wish struct {
	Seed uint64
	Size int // about so many drawn pieces, and seams to match; from 1
	// MovesCurves lets alterations move curved edges, and edges beside curved
	// ones. What becomes of a curve then is drawn anew, not exactly.
	MovesCurves bool
	// LevelDarts lets levels run through darts.
	LevelDarts bool
}

// Workroom is the text of every file of a workroom, by its path from the
// workroom's folder.
func (w Wish) Workroom() map[string]string {
	w.Size = max(1, w.Size)
	g := &maker{Wish: w, Rand: rand.New(rand.NewPCG(w.Seed, 20)), level: map[string]string{}}
	return g.workroom()
}

// Write writes a workroom into a folder.
func Write(dir string, files map[string]string) error {
	for name, text := range files {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(path, []byte(text), 0o644); err != nil {
			return err
		}
	}
	return nil
}

// A maker invents one workroom.
type maker struct {
	Wish
	*rand.Rand
	units    string // of the build
	shop     string // of the workroom
	parts    []string
	thread   []string
	weighed  bool // the mass of a thread is written
	pieces   []*piece
	level    map[string]string // of edges, by "piece.edge"
	seams    []string          // names of seams and finishes
	drawnUp  bool              // an edge of the seam being written is gathered by its piece
	zipped   string            // an edge of a seam that a zip may lie along; "" where there is none
	zippedTo string            // what it is sewn to
	out      strings.Builder

	aside                   *rand.Rand // the chance of what a garment gets besides
	moreSeams, moreFinishes []string   // as written, of that
	change                  string     // and what a round changes of it
}

func (g *maker) line(format string, args ...any) { fmt.Fprintf(&g.out, format+"\n", args...) }

// chance is true in so many of a hundred cases.
func (g *maker) chance(percent int) bool { return g.IntN(100) < percent }

// within is a number of millimetres between two.
func (g *maker) within(least, most float64) float64 { return least + (most-least)*g.Float64() }

func pick[T any](g *maker, list ...T) T { return list[g.IntN(len(list))] }

// smallest is the finest measure that is written in a unit, mm.
func smallest(unit string) float64 {
	if unit == "in" {
		return 25.4 / 8
	}
	return 1
}

// round rounds millimetres to what is written in a unit.
func round(mm float64, unit string) float64 {
	s := smallest(unit)
	return math.Round(mm/s) * s
}

// bare writes a length as a bare number in a unit.
func bare(mm float64, unit string) string {
	per := map[string]float64{"mm": 1, "cm": 10, "in": 25.4}[unit]
	n := math.Round(mm/smallest(unit)) * (smallest(unit) / per)
	return strconv.FormatFloat(math.Round(n*1000)/1000+0, 'f', -1, 64) // + 0: no tape shows −0
}

// length writes a length of the build, now and then with a unit of its own.
func (g *maker) length(mm float64) string {
	if g.chance(20) {
		switch g.IntN(3) {
		case 0:
			return bare(mm, "cm") + " cm"
		case 1:
			eighths := max(1, int(math.Round(mm/25.4*8)))
			if whole := eighths / 8; whole > 0 && eighths%8 > 0 {
				return fmt.Sprintf("%d %d/8 in", whole, eighths%8)
			} else if whole > 0 {
				return fmt.Sprintf("%d in", whole)
			}
			return fmt.Sprintf("%d/8 in", eighths)
		}
		return bare(mm, "mm") + " mm"
	}
	return bare(mm, g.units)
}

func (g *maker) workroom() map[string]string {
	files := map[string]string{}
	g.units, g.shop = pick(g, "mm", "mm", "cm", "in"), pick(g, "mm", "mm", "cm", "in")
	files["content/workroom.yaml"] = g.shopFile()
	g.parts = []string{"shell"}
	for _, part := range []string{"lining", "fusing", "overlay"} {
		if g.chance(45) {
			g.parts = append(g.parts, part)
		}
	}
	for _, part := range g.parts {
		files["content/cloth/"+part+"-cloth.yaml"] = g.clothFile()
	}
	files["content/techniques/careful-seam.md"] = "---\nname: Careful seam\nsummary: A seam that is sewn with care.\n---\nSlowly.\n"
	files["content/techniques/hemming.md"] = "---\nname: Hemming\nalso: [last hems, hem by hand]\nsummary: Hems.\nseam: [double-turned-hem, blind-hem, rolled-hem]\n---\nSlowly.\n"
	files["content/techniques/strong-seams.md"] = "---\nname: Strong seams\nsummary: Seams.\nseam: [enclosed, hong-kong, overlocked]\n---\nTwice.\n"
	files["content/techniques/overlocked-edges.md"] = "---\nname: Overlocking\nsummary: Edges.\nseam: overlocked\n---\nFast.\n"
	files["content/techniques/enclosing.md"] = "---\nname: Enclosing\nsummary: Seams.\nseam: enclosed\n---\nIn.\n"
	files["content/builds/"+Build+"/build.yaml"] = g.build()
	return files
}

func (g *maker) shopFile() string {
	g.out.Reset()
	g.line("name: Made-up workroom\nunits: %s\ncurrency: EUR\nlabour: %d.%02d EUR", g.shop, 12+g.IntN(30), g.IntN(100))
	if g.chance(60) {
		g.line("usual: {allowance: %s, thread-waste: %d, reel: %d m}", bare(pick(g, 10.0, 12, 16, 20), g.shop), 5+g.IntN(20), pick(g, 100, 200, 457))
	}
	return g.out.String()
}

func (g *maker) clothFile() string {
	g.out.Reset()
	g.line("name: Cloth %d\nfibres: {%s}", g.IntN(1000), g.blend())
	g.line("width: %s", pick(g, "90 cm", "110 cm", "140 cm", "1.5 m", "60 in"))
	if g.chance(70) {
		g.line("selvedge: %s", bare(pick(g, 5.0, 10, 15), g.shop))
	}
	weight := 40 + g.IntN(300)
	g.line("weight: %d g/m2\nprice: %d.%02d EUR", weight, 3+g.IntN(40), g.IntN(100))
	if word := [7]string{2: "washed", 5: "unwashed"}[weight%7]; word != "" {
		g.line("weighed: %s", word)
	}
	if g.chance(70) {
		g.line("thick: %s", bare(pick(g, 0.2, 0.4, 0.8, 1.5, 2), g.shop))
	}
	if g.chance(50) {
		g.line("shrink: {along: %d, across: %s}", g.IntN(8), pick(g, "0", "1.5", "2", "3"))
	}
	if g.chance(40) {
		g.line("structure: knitted\nstretch: {across: %d, along: %d}", g.IntN(90), g.IntN(40))
		if g.chance(60) {
			g.line("recovery: %d", 80+g.IntN(21))
		}
	}
	return g.out.String()
}

// blend is one to four fibres that add up to 100.
func (g *maker) blend() string {
	names := []string{"cotton", "linen", "wool", "silk", "viscose", "polyester", "elastane", "modal"}
	g.Shuffle(len(names), func(i, j int) { names[i], names[j] = names[j], names[i] })
	var parts []string
	left := 100
	for i := g.IntN(4); i >= 0; i-- {
		share := left
		if i > 0 {
			share = 1 + g.IntN(left-i)
		}
		left -= share
		parts = append(parts, fmt.Sprintf("%s: %d", names[i], share))
	}
	return strings.Join(parts, ", ")
}

func (g *maker) build() string {
	g.out.Reset()
	g.line("name: Made up\ngarment: dress\nstate: sewing\nunits: %s\ncloth:", g.units)
	for _, part := range g.parts {
		g.line("  %s: %s-cloth", part, part)
	}
	if g.chance(80) {
		g.line("thread:")
		for _, name := range []string{"red", "blue"}[:1+g.IntN(2)] {
			g.thread = append(g.thread, name)
			mass := pick(g, "", fmt.Sprintf(", weight: %d g", 3+g.IntN(6)))
			g.weighed = g.weighed || mass != ""
			g.line("  %s: {colour: %s, reel: %d m, price: %d.%02d EUR%s}", name, name, pick(g, 100, 200, 500), 1+g.IntN(6), g.IntN(100), mass)
		}
	}
	g.line("drafted-for: {bust: %s, waist: %s}", bare(900, g.units), bare(720, g.units))
	g.writePieces()
	g.besides(g.writeConstruction)
	g.writeSeams()
	g.writeFinishes()
	g.writeRest()
	g.writeWork()
	g.writeRounds()
	return g.out.String()
}
