package caremark_test

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"hembook/internal/paper"
	"hembook/internal/paper/caremark"
	"hembook/internal/trade"
)

var keep = flag.String("keep", "", "write the symbols into this folder, to look at")

// TestEveryCareOptionHasASymbol: whatever the tables can say can be drawn.
func TestEveryCareOptionHasASymbol(t *testing.T) {
	named := map[string]bool{}
	for _, o := range trade.CareOptions() {
		named[o.Name] = true
		if _, ok := caremark.Named(o.Name); !ok {
			t.Errorf("%s has no symbol", o.Name)
		}
	}
	for _, n := range caremark.Names() {
		if !named[n] {
			t.Errorf("%s is drawn, but no table knows it", n)
		}
	}
}

func TestWhatIsNoSymbol(t *testing.T) {
	for _, n := range []string{"", "wash", "wash-", "wash-35x", "wash-300", "wash-30-wild", "iron", "iron-120", "clean-x", "dry", "dry-line-sun", "bleach-", "wet-wild", "tumble-hot", "do"} {
		if _, ok := caremark.Named(n); ok && n != "do" {
			t.Errorf("%q is drawn", n)
		}
	}
}

// TestSymbolsDifferAndKeepToTheirBox: no two are drawn alike, all stand within their
// box, and all have one weight.
func TestSymbolsDifferAndKeepToTheirBox(t *testing.T) {
	seen := map[string]string{}
	for _, n := range caremark.Names() {
		d, ok := caremark.Named(n)
		if !ok {
			t.Fatalf("%s is not drawn", n)
		}
		svg := string(paper.AppendSVG(nil, d, "mark"))
		if other, twice := seen[svg]; twice {
			t.Errorf("%s is drawn like %s", n, other)
		}
		seen[svg] = n
		for _, m := range d.Marks {
			p := m.(paper.Path)
			if p.Pen.Weight != 1 && p.Fill == paper.NoInk {
				t.Errorf("%s has a line of %v mm", n, p.Pen.Weight)
			}
			for _, s := range p.Steps {
				if s.Kind != paper.ClosePath && (s.To.X < 0.5 || s.To.X > d.Wide-0.5 || s.To.Y < 0.5 || s.To.Y > d.High-0.5) {
					t.Errorf("%s reaches (%.1f, %.1f), out of its box", n, s.To.X, s.To.Y)
				}
			}
		}
	}
}

// TestLook writes all symbols as a document where -keep says.
func TestLook(t *testing.T) {
	doc := paper.Document{Title: "symbols", Language: "en", Blocks: []paper.Block{paper.Heading{Level: 1, Text: "Symbols"}}}
	var row []paper.Symbol
	for _, n := range caremark.Names() {
		d, _ := caremark.Named(n)
		row = append(row, paper.Symbol{Drawing: d, Words: n})
	}
	doc.Blocks = append(doc.Blocks, paper.Symbols{Items: row})
	data, err := paper.PDF(paper.Alone(doc), paper.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if *keep != "" {
		if err := os.WriteFile(filepath.Join(*keep, "symbols.pdf"), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
