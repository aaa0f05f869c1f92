package internal

import (
	"go/ast"
	"go/parser"
	"go/token"
	"os"
	"path"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// nounRooms says in which rooms a type may be called by a noun alone, in capitals or
// small. DEVELOPERS.md says what each noun means; where another room needs another
// meaning, it takes another word.
var nounRooms = map[string][]string{
	"cut":     {"internal/record", "internal/shape"},
	"edge":    {"internal/abacus", "internal/madeup", "internal/sewn", "internal/shape"},
	"entry":   {"internal/bench", "internal/notebook", "internal/record"},
	"finish":  {"internal/abacus", "internal/garment", "internal/record"},
	"form":    {"internal/garment"},
	"join":    {"internal/sewn"},
	"layer":   {"internal/trade"},
	"leaf":    {"internal/notebook"},
	"ledger":  {"internal/notebook"},
	"level":   {"internal/fitting", "internal/garment", "internal/sewn", "internal/shape/trace"},
	"line":    {"internal/record/phrase", "internal/sewn", "internal/shape", "internal/shape/trace"},
	"mark":    {"internal/drawing"},
	"opening": {"internal/garment", "internal/order", "internal/sewn"},
	"part":    {"internal/compose", "internal/press"},
	"piece":   {"internal/abacus", "internal/garment", "internal/lay", "internal/madeup", "internal/record", "internal/sewn", "internal/shape/trace"},
	"place":   {"internal/sewn", "internal/shape/trace"},
	"row":     {"internal/garment"},
	"run":     {"internal/sewn"},
	"seam":    {"internal/abacus", "internal/garment", "internal/record", "internal/sewn"},
	"sheet":   {"internal/sheet"},
	"side":    {"internal/sewn"},
	"slip":    {"internal/record"},
	"stage":   {"internal/notebook"},
	"step":    {"internal/abacus", "internal/notebook", "internal/order", "internal/record"},
	"stretch": {"internal/draw", "internal/lay", "internal/record/phrase", "internal/sewn", "internal/shape"},
}

// TestANounMeansOneThing: a type by a noun of the list stands only in the rooms that the
// list gives, each of these has one, and DEVELOPERS.md tells of the same nouns.
func TestANounMeansOneThing(t *testing.T) {
	found := map[string][]string{}
	eachType(t, func(room, name string) {
		noun := strings.ToLower(name)
		if _, listed := nounRooms[noun]; listed && !slices.Contains(found[noun], room) {
			found[noun] = append(found[noun], room)
		}
	})
	for noun, rooms := range nounRooms {
		for _, room := range found[noun] {
			if !slices.Contains(rooms, room) {
				t.Errorf("%s calls a type %q, which means something in %s: call it otherwise, or add the room where it means the same", room, noun, strings.Join(rooms, ", "))
			}
		}
		for _, room := range rooms {
			if !slices.Contains(found[noun], room) {
				t.Errorf("%s has no type %q any more: take it out of the list", room, noun)
			}
		}
	}
	text, err := os.ReadFile("../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	_, rest, _ := strings.Cut(string(text), "## What a word means here\n")
	told, _, _ := strings.Cut(rest, "\n## ")
	var nouns []string
	for _, m := range regexp.MustCompile(`(?m)^\| ([a-z]+) \|`).FindAllStringSubmatch(told, -1) {
		if m[1] != "word" {
			nouns = append(nouns, m[1])
		}
	}
	for _, noun := range nouns {
		if _, listed := nounRooms[noun]; !listed {
			t.Errorf("DEVELOPERS.md says what %q means; list its rooms", noun)
		}
	}
	for noun := range nounRooms {
		if !slices.Contains(nouns, noun) {
			t.Errorf("DEVELOPERS.md does not say what %q means", noun)
		}
	}
}

// eachType calls visit with every type at the top of a file, tests apart.
func eachType(t *testing.T, visit func(room, name string)) {
	t.Helper()
	eachParsed(t, parser.SkipObjectResolution, func(file string, parsed *ast.File) {
		for _, decl := range parsed.Decls {
			group, ok := decl.(*ast.GenDecl)
			if !ok || group.Tok != token.TYPE {
				continue
			}
			for _, spec := range group.Specs {
				visit(path.Dir(file), spec.(*ast.TypeSpec).Name.Name)
			}
		}
	})
}
