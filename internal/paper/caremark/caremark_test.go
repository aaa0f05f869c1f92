package caremark_test

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"hembook/internal/document"
	"hembook/internal/drawing"
	"hembook/internal/paper"
	"hembook/internal/paper/caremark"

	"gopkg.in/yaml.v3"
)

var keep = flag.String("keep", "", "write the symbols into this folder, to look at")

// options are the names in the trade's table of care.
func options(t *testing.T) []string {
	t.Helper()
	text, err := os.ReadFile("../../trade/tables/care.yaml")
	if err != nil {
		t.Fatal(err)
	}
	var table struct{ Options []struct{ Name string } }
	if err := yaml.Unmarshal(text, &table); err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, o := range table.Options {
		names = append(names, o.Name)
	}
	if len(names) < 40 {
		t.Fatalf("only %d options were found", len(names))
	}
	return names
}

// TestEveryCareOptionHasASymbol: whatever the tables can say can be drawn.
func TestEveryCareOptionHasASymbol(t *testing.T) {
	for _, n := range options(t) {
		if _, ok := caremark.Named(n); !ok {
			t.Errorf("%s has no symbol", n)
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
	for _, n := range options(t) {
		d, ok := caremark.Named(n)
		if !ok {
			t.Fatalf("%s is not drawn", n)
		}
		title := d.Title
		d.Title = ""
		svg := string(d.SheetSVG(nil))
		d.Title = title
		if other, twice := seen[svg]; twice {
			t.Errorf("%s is drawn like %s", n, other)
		}
		seen[svg] = n
		for i := range d.Marks {
			if m := d.Marks[i].Means; m != drawing.Symbol && m != drawing.SymbolDot {
				t.Errorf("%s has a line of meaning %d", n, m)
			}
			for _, q := range d.Path(i).Points {
				if q.X < 0.2 || q.X > d.Wide()-0.2 || q.Y < 0.2 || q.Y > d.High()-0.2 {
					t.Errorf("%s reaches (%.1f, %.1f), out of its box", n, q.X, q.Y)
				}
			}
		}
	}
}

// TestLook writes all symbols as a document where -keep says.
func TestLook(t *testing.T) {
	row := document.List{Row: true}
	for _, n := range options(t) {
		d, _ := caremark.Named(n)
		row.Items = append(row.Items, document.Item{Draw: func() *drawing.Drawing { return d }, Phrase: document.Phrase{document.Say(n)}})
	}
	doc := document.Document{Title: "symbols", Language: "en", Blocks: []document.Block{document.Heading{Level: 1, Words: "Symbols"}, row}}
	data, err := paper.PDF(document.Alone(doc), paper.Options{})
	if err != nil {
		t.Fatal(err)
	}
	if *keep != "" {
		if err := os.WriteFile(filepath.Join(*keep, "symbols.pdf"), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
}
