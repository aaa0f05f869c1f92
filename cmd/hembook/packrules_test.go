package main

import (
	"math"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

var htmlTag = regexp.MustCompile(`<[^>]*>`)

// TestSheetsSayWhatRulesAsk: on the sheets of a packet stands what forms, labels and menders
// need, and nothing that is not so of this garment. Forms CN 22 and CN 23 ask for sender,
// addressee, how both are reached, the invoice, net weight and heading; the rest is our own
// rule.
func TestSheetsSayWhatRulesAsk(t *testing.T) {
	t.Parallel()
	const (
		build   = "content/builds/skirt/build.yaml"
		notions = "notions:\n"
		borders = "may not cross borders without papers"
	)
	buttons := func(material string) [3]string {
		return [3]string{build, notions, notions + "  buttons: {count: 3, size: 18, material: " + material + ", weight: 1 g}\n"}
	}
	gift := [3]string{build, "category: sale of goods", "category: gift"}
	for _, c := range []struct {
		name      string
		swaps     [][3]string
		sheet     string
		want, not []string
	}{
		{"sender and addressee, how they are reached, invoice, six digits", nil, "customs",
			[]string{"Ada Quill", "Mill Yard 2", "ada@quill.example", "Robin Marsh", "Fjord Street 4", "+47 00 00 00 00, robin@marsh.example", "2026-7", "6204.52", "2 February 2026"}, nil},
		{"how the heading was found, note by note", nil, "customs", []string{"How the heading was found", "cotton (chapter 52) 100%"}, nil},
		{"chapters 54 and 55 as one", [][3]string{{"content/cloth/green.yaml", "{cotton: 100}", "{cotton: 40, polyester: 30, viscose: 30}"}}, "customs",
			[]string{"man-made fibres (chapters 54 and 55) 60%", "(Section XI, note 2)", "6204.59"}, nil},
		{"the day it was packed", nil, "card", []string{"2 February 2026"}, nil},
		{"a gift has its value on the form", [][3]string{gift}, "customs", []string{"gift", "120.00 EUR"}, nil},
		{"and on nothing that lies in it", [][3]string{gift}, "wearer", nil, []string{"120.00"}},
		{"nor in what menders get", [][3]string{gift}, "makers", nil, []string{"120.00"}},
		{"menders see how it is washed", nil, "repairs", []string{"wash at 40", "do not bleach"}, []string{"Robin", "Norway"}},
		{"measured", nil, "care-and-fit", []string{"80 cm"}, []string{"lanned"}},
		{"planned", [][3]string{{build, "measured: {waist: 800}\n", ""}}, "care-and-fit", []string{"80 cm", "Planned measurements."}, nil},
		{"horn buttons", [][3]string{buttons("horn")}, "care-and-fit", []string{"Contains non-textile parts of animal origin"}, []string{borders}},
		{"shell buttons", [][3]string{buttons("mother of pearl")}, "care-and-fit", []string{"Contains non-textile parts of animal origin", borders}, nil},
	} {
		a := readArchive(t, filepath.Join(packetDir, "base.txtar"))
		for _, s := range c.swaps {
			swapped(t, a, s[0], s[1], s[2])
		}
		text := strings.ReplaceAll(htmlTag.ReplaceAllString(packedSkirt(t, a)(c.sheet), ""), "\u00a0", " ")
		for _, w := range c.want {
			if !strings.Contains(text, w) {
				t.Errorf("%s: the sheet %s does not say %q", c.name, c.sheet, w)
			}
		}
		for _, w := range c.not {
			if strings.Contains(text, w) {
				t.Errorf("%s: the sheet %s says %q", c.name, c.sheet, w)
			}
		}
	}
}

// TestOneNetWeight: what lies in the box and what stands on the customs form weigh the same,
// by the sum or by the maker's scale, which is told up to the next 10 g.
func TestOneNetWeight(t *testing.T) {
	t.Parallel()
	grams, kilograms := regexp.MustCompile(`Garment \((calculated|weighed)\)\s+([0-9.]+) g`), regexp.MustCompile(`Net weight\D*?([0-9.]+) kg \((calculated|weighed)\)`)
	for net, how := range map[string]string{"": "calculated", "  net: 333 g\n": "weighed"} {
		a := readArchive(t, filepath.Join(packetDir, "base.txtar"))
		swapped(t, a, "content/builds/skirt/build.yaml", "  parcel: 500 g\n", "  parcel: 500 g\n"+net)
		read := packedSkirt(t, a)
		plain := func(sheet string) string {
			return strings.ReplaceAll(htmlTag.ReplaceAllString(read(sheet), " "), "\u00a0", " ")
		}
		inBox, onForm := grams.FindStringSubmatch(plain("box")), kilograms.FindStringSubmatch(plain("customs"))
		if inBox == nil || onForm == nil || inBox[1] != how || onForm[2] != how {
			t.Errorf("%q: %q, %q", net, inBox, onForm)
			continue
		}
		g, _ := strconv.ParseFloat(inBox[2], 64)
		kg, _ := strconv.ParseFloat(onForm[1], 64)
		if g == 0 || int(g) != int(math.Round(1000*kg)) || net != "" && g != 340 {
			t.Errorf("%q: %v g in the box, %v kg on the form", net, g, kg)
		}
	}
}
