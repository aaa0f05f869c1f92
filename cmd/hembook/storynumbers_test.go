package main

import (
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"
)

// A proseNumber is a number with its unit in a text, and the clause it stands in up to it.
type proseNumber struct {
	words  string // "13 mm"
	number string // "13"
	kind   string // the unit that figures are compared in: mm, g, %, m², min
	times  float64
	before string
}

var (
	numberWithUnit = regexp.MustCompile(`(?:^|[^\w.,:/-])((\d+(?:\.\d+)?)\s?(mm|cm|m²|m|g|kg|%|minutes|minute|min|hours|hour|h))(?:[^\w²/]|$)`)
	unitsOfProse   = map[string]struct {
		kind  string
		times float64
	}{
		"mm": {"mm", 1}, "cm": {"mm", 10}, "m": {"mm", 1000}, "g": {"g", 1}, "kg": {"g", 1000}, "%": {"%", 1}, "m²": {"m²", 1},
		"min": {"min", 1}, "minute": {"min", 1}, "minutes": {"min", 1}, "h": {"min", 60}, "hour": {"min", 60}, "hours": {"min", 60},
	}
)

// numbersIn lists the numbers with units of a text.
func numbersIn(text string) (list []proseNumber) {
	for at := 0; ; {
		m := numberWithUnit.FindStringSubmatchIndex(text[at:])
		if m == nil {
			return list
		}
		start := at + m[2]
		clause := text[:start]
		clause = clause[strings.LastIndexAny(clause, ".;:!?|(\n")+1:]
		unit := unitsOfProse[text[at+m[6]:at+m[7]]]
		list = append(list, proseNumber{text[start : at+m[3]], text[at+m[4] : at+m[5]], unit.kind, unit.times, strings.ToLower(clause)})
		at += m[3]
	}
}

// A knownFigure is a figure as it is compared with prose.
type knownFigure struct {
	id    string
	value float64 // in the unit of its kind
	kind  string
}

// says reports whether the number is the figure at the number's last place.
func (n proseNumber) says(f knownFigure) bool {
	_, places, _ := strings.Cut(n.number, ".")
	return f.kind == n.kind && strconv.FormatFloat(math.Abs(f.value)/n.times, 'f', len(places), 64) == n.number
}

// significant counts the digits of a number.
func (n proseNumber) significant() int {
	return len(strings.TrimLeft(strings.ReplaceAll(n.number, ".", ""), "0"))
}

// leastNamed is from how many mm on a length beside the name of a level is meant as its width,
// and not as what it grew or was moved by.
const leastNamed = 100

// strayIn says why a number of a garment's prose should be a reference to a figure, or is not
// what the figure is; "" where it may stand. What the record itself gives (written) is said
// in prose as it is there; of three digits and more only the figure may say it, for that
// is nobody's chance.
func strayIn(n proseNumber, figures []knownFigure, written []string) string {
	if !slices.Contains(written, n.number) || n.significant() > 2 {
		for _, f := range figures {
			if n.says(f) {
				return "is " + f.id
			}
		}
	}
	value, err := strconv.ParseFloat(n.number, 64)
	if err != nil || n.kind != "mm" || value*n.times < leastNamed {
		return ""
	}
	for _, f := range figures {
		part := strings.Split(f.id, ".")
		if len(part) != 3 || part[0] != "level" && part[0] != "length" || part[2] != "finished" {
			continue
		}
		name := regexp.MustCompile(`(?:^|[^a-z])` + strings.ReplaceAll(part[1], "-", " ") + `(?:[^a-z]|$)`)
		if at := name.FindStringIndex(n.before); at != nil && !regexp.MustCompile(`(above|below|from|at|across|round) (the )?$`).MatchString(n.before[:at[0]+1]) {
			return "is said of " + f.id
		}
	}
	return ""
}

// numbersAllowed stand in the demo's prose beside a figure that they are by chance, or where
// no reference can stand; each with why.
var numbersAllowed = []struct{ garment, words, why string }{
	{"boatyard-trousers", "3 mm", "how shallow each row was sewn; that the waist is off by as much is chance"},
	{"boatyard-trousers", "13 mm", "in the letter, which names no figures; TestStoryNumbers holds it to level.hip.off"},
	{"harvest-supper-dress", "13 mm", "in the letter, which names no figures; TestStoryNumbers holds it to level.waist.off"},
	{"jersey-top-for-a-boy", "6 mm", "how wide the tape was bought"},
	{"plum-bias-slip", "8 mm", "how wide the sliders were bought"},
	{"winter-ferry-coat", "21 mm", "in a caption, which names no figures: the strip of the trial seam, cut before the coat's"},
	{"winter-ferry-coat", "8 mm", "by how much the cap was turned at the fitting"},
}

// TestProseAgreesWithFigures: no number with a unit in a garment's prose, journal or captions is
// one of its figures, or is said of one, without referring to it: prose that repeats a figure
// goes on saying it when the figure has changed.
func TestProseAgreesWithFigures(t *testing.T) {
	nothingBeside(t)
	used := map[string]bool{}
	looked := 0
	for _, build := range demoBuilds(t) {
		figures := comparedFigures(t, build)
		texts, written := proseOf(t, build)
		for _, text := range texts {
			for _, n := range numbersIn(text) {
				looked++
				why := strayIn(n, figures, written)
				if why == "" {
					continue
				}
				allowed := slices.IndexFunc(numbersAllowed, func(a struct{ garment, words, why string }) bool { return a.garment == build && a.words == n.words })
				if allowed < 0 {
					t.Errorf("%s: %q in “…%s%s” %s: write [](figure:…)", build, n.words, n.before, n.words, why)
					continue
				}
				used[build+n.words] = true
			}
		}
	}
	for _, a := range numbersAllowed {
		if !used[a.garment+a.words] {
			t.Errorf("%s: %q is allowed, %s, and stands nowhere by a figure", a.garment, a.words, a.why)
		}
	}
	if looked < 80 {
		t.Errorf("only %d numbers were looked at", looked)
	}
}

// comparedFigures are a garment's figures in the units that prose is compared in.
func comparedFigures(t *testing.T, build string) (out []knownFigure) {
	t.Helper()
	for _, f := range reportOn(t, []string{"tally", build, "all"})["figures"].([]any) {
		f := f.(map[string]any)
		v, known := f["value"].(float64)
		if !known {
			continue
		}
		unit, _ := f["unit"].(string)
		if unit == "m" {
			unit, v = "mm", v*1000
		}
		out = append(out, knownFigure{f["id"].(string), v, unit})
	}
	return out
}

// The words of a record whose text is read by people, and those of days, times and money, whose
// numbers are no lengths.
var (
	textWords = strings.Fields("summary story note alt saw card wear box mend keep store because remark despite nightwear")
	dayWords  = strings.Fields("at for begun due sent day posted back packed takes wait price post other")
)

// proseOf are a garment's texts, and the numbers that its record gives elsewhere.
func proseOf(t *testing.T, build string) (texts, written []string) {
	t.Helper()
	read := func(name string) []byte {
		data, err := os.ReadFile(filepath.Join("../../content/builds", build, name))
		if err != nil {
			t.Fatal(err)
		}
		return data
	}
	var record yaml.Node
	if err := yaml.Unmarshal(read("build.yaml"), &record); err != nil {
		t.Fatal(err)
	}
	digits := regexp.MustCompile(`\d+(?:\.\d+)?`)
	var walk func(n *yaml.Node, prose bool)
	walk = func(n *yaml.Node, prose bool) {
		for i, child := range n.Content {
			if n.Kind != yaml.MappingNode {
				walk(child, prose)
			} else if word := n.Content[i/2*2].Value; i%2 == 1 && (prose || child.Kind != yaml.ScalarNode || !slices.Contains(dayWords, word)) {
				walk(child, prose || slices.Contains(textWords, word))
			}
		}
		switch {
		case n.Kind != yaml.ScalarNode:
		case prose:
			texts = append(texts, n.Value)
		default:
			written = append(written, digits.FindAllString(n.Value, -1)...)
		}
	}
	walk(&record, false)
	return append(texts, string(read("notes.md"))), written
}

// TestStrayNumbersAreFound: a number that a figure says, or that is said of a level and is not
// its width, is found; one of the record, and one that nothing says, is not. The figures
// are of nobody's garment.
func TestStrayNumbersAreFound(t *testing.T) {
	figures := []knownFigure{{"level.hip.finished", 1066.2, "mm"}, {"level.hip.off", 12.8, "mm"}, {"seam.sides.total", 2062, "mm"}, {"total.mass", 507.3, "g"}, {"step.cut.spent", 75, "min"}}
	for text, want := range map[string]string{
		"It came out 13 mm wider.":              "is level.hip.off",
		"It came out 12.8 mm wider.":            "is level.hip.off",
		"It came out 12 mm wider.":              "",
		"The sides are 2.06 m together.":        "is seam.sides.total",
		"It weighs 507 g, and I know it.":       "is total.mass",
		"It weighs 510 g.":                      "",
		"Cut in 75 minutes.":                    "is step.cut.spent",
		"The hip is 1070 mm.":                   "is said of level.hip.finished",
		"The hip, at last, came to 107 cm":      "is level.hip.finished",
		"The slit ends at the hip, 150 mm up.":  "",
		"The hip grew by 20 mm.":                "",
		"The allowance is 15 mm.":               "",
		"A fell of [](figure:seam.sides.width)": "",
	} {
		got := ""
		for _, n := range numbersIn(text) {
			if why := strayIn(n, figures, []string{"15"}); why != "" {
				got = why
			}
		}
		if got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
