package record

import (
	"os"
	"reflect"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/measure"
)

// shownOf reads a record and returns what is shown of it. read is false where
// the record has errors.
func shownOf(text string) (shown []byte, read bool) {
	var faults fault.Faults
	src := &fault.Source{Path: "content/builds/x/build.yaml"}
	clean, ok := checkText(src, []byte(text), &faults)
	if !ok {
		return nil, false
	}
	node, ok := parseYAML(src, clean, 0, &faults)
	if !ok {
		return nil, false
	}
	d := newDecoder(src, measure.UnitMM, &faults)
	d.into(node, &Build{})
	if fault.HasErrors(faults.Sorted()) {
		return nil, false
	}
	return redact(clean, node, d.hides), true
}

// TestShownWithoutWhatIsPrivate: a record, and what is shown of it word for word.
func TestShownWithoutWhatIsPrivate(t *testing.T) {
	const head = "name: A\ngarment: skirt\nstate: planned\n"
	for name, row := range map[string][2]string{
		"double quotes over lines": {"private: \"paid in\n  SECRETA: cash, by her husband\"\nstory: kept\n", "story: kept\n"},
		"single quotes over lines": {"private: 'paid in\n\n  SECRETA: cash'\nstory: kept\n", "story: kept\n"},
		"an entry over lines":      {"private:\n- \"paid in\nSECRETA: cash\"\n- b\nstory: kept\n", "story: kept\n"},
		"plain over lines":         {"private: paid\n   SECRETA in cash\nstory: kept\n", "story: kept\n"},
		"a remark after a tab":     {"notions:\n  button: {price: 7 EUR}\t# SECRETB\n  zip: {}\n", "notions:\n  button: {price: private}\n  zip: {}\n"},
		"a remark above":           {"notions:\n# SECRETC\n  button: {price: 7 EUR}\n# SECRETD\n  zip: {} # kept\n", "notions:\n  button: {price: private}\n  zip: {} # kept\n"},
		"remarks around its lines": {"story: kept # kept\n# SECRETE\n\n# SECRETF\nwearer: her # SECRETG\n# SECRETH\nsummary: kept\n# kept\n", "story: kept # kept\n\nsummary: kept\n# kept\n"},
		"a remark within brackets": {"notions: {zip: {}, hook: {price: 7 EUR}} # SECRETK\n", "notions: {zip: {}, hook: {price: private}}\n"},
		"a remark that repeats it": {"wearer: adela\nstory: kept\nsummary: kept\n# Adela likes it\nunits: mm\n", "story: kept\nsummary: kept\nunits: mm\n"},
		"a group of nothing else":  {"packet:\n  customs:\n    value: 7 EUR # SECRETL\n", "packet:\n  customs:\n    value: private\n"},
		"a key of its own line":    {"? private\n# SECRETM\n: {a: SECRETN}\nstory: kept\n", "? private\n: private\nstory: kept\n"},
		"no space after a key":     {"thread: {\"main\": {\"colour\":\"red\",\"price\":\"7 EUR\"}}\n", "thread: {\"main\": {\"colour\":\"red\",\"price\": private}}\n"},
		"kept empty lines":         {"story: |+\n  kept\n\n# SECRETO\nprivate: SECRETP\n", "story: |+\n  kept\n\n"},
		"a remark on a quote":      {"story: |+\n  kept\n\n# SECRETQ\n\nwearer: 'her'# SECRETR\nsummary: kept\n", "story: |+\n  kept\n\n#\n\nwearer: private #\nsummary: kept\n"},
		"nothing private":          {"story: kept # kept\n", "story: kept # kept\n"},
	} {
		t.Run(name, func(t *testing.T) {
			shown, read := shownOf(head + row[0])
			if !read || string(shown) != head+row[1] {
				t.Errorf("read %v, shown\n%s\nwant\n%s", read, shown, head+row[1])
			}
		})
	}
}

// TestAnUnreadSecondPartIsAFault: what cannot be read behind a record would be
// shown with it.
func TestAnUnreadSecondPartIsAFault(t *testing.T) {
	if _, read := shownOf("name: A\ngarment: skirt\nstate: planned\n---\nprivate: \"SECRET\n"); read {
		t.Error("a second part that is not YAML is passed over")
	}
}

// TestNastyRecords writes records in every way YAML has. HEMBOOK_NASTY says how
// many.
func TestNastyRecords(t *testing.T) {
	if testing.Short() {
		t.Skip("one thing after another: nothing for the race detector to see")
	}
	seeds := 1000
	if n, err := strconv.Atoi(os.Getenv("HEMBOOK_NASTY")); err == nil {
		seeds = n
	}
	read, shown := 0, 0
	for seed := range uint64(seeds) {
		switch checkNasty(t, seed) {
		case nastyShown:
			shown++
			fallthrough
		case nastyRead:
			read++
		}
	}
	t.Logf("%d records: %d with errors, %d refused, %d shown", seeds, seeds-read, read-shown, shown)
	if read < seeds*95/100 || shown < read*98/100 {
		t.Errorf("of %d records %d are read and %d shown", seeds, read, shown)
	}
}

type nastyEnd int

const (
	nastyFaulty nastyEnd = iota
	nastyRead
	nastyShown
)

var kept = regexp.MustCompile(`KEPT\d+`)

// checkNasty looks at what is shown of the record of one seed.
func checkNasty(t *testing.T, seed uint64) nastyEnd {
	t.Helper()
	text := nastyRecord(seed)
	shown, read := shownOf(text)
	if !read {
		return nastyFaulty
	}
	if shown == nil {
		return nastyRead
	}
	for _, s := range []string{"SECRET", "98.76"} {
		if strings.Contains(string(shown), s) {
			t.Errorf("seed %d: %s is shown of\n%s\nshown:\n%s", seed, s, text, shown)
		}
	}
	for _, s := range kept.FindAllString(text, -1) {
		if !strings.Contains(string(shown), s) {
			t.Errorf("seed %d: %s is not shown of\n%s\nshown:\n%s", seed, s, text, shown)
		}
	}
	compareShown(t, text, shown)
	return nastyShown
}

var privateKeys = []string{"wearer", "costs", "private", "price", "value"}

// compareShown fails where something else is shown than the record holds, its
// private words apart.
func compareShown(t *testing.T, text string, shown []byte) {
	t.Helper()
	var was, now yaml.Node
	if err := yaml.Unmarshal([]byte(text), &was); err != nil {
		t.Fatal(err)
	}
	if err := yaml.Unmarshal(shown, &now); err != nil {
		t.Errorf("what is shown is not YAML: %v\n%s", err, shown)
	}
	if !reflect.DeepEqual(publicOf(&was, 0), publicOf(&now, 0)) {
		t.Errorf("something else is shown than stands in\n%s\nshown:\n%s", text, shown)
	}
}

// publicOf is what a tree holds beside the words that are private wherever
// they stand here.
func publicOf(n *yaml.Node, depth int) any {
	if depth++; depth > 50 { // it may hold itself
		return nil
	}
	var list []any
	switch n.Kind {
	case yaml.AliasNode:
		return publicOf(n.Alias, depth)
	case yaml.ScalarNode:
		return [2]string{n.ShortTag(), n.Value}
	case yaml.MappingNode:
		for i := 0; i+1 < len(n.Content); i += 2 {
			if !slices.Contains(privateKeys, keyOf(n.Content[i])) {
				list = append(list, publicOf(n.Content[i], depth), publicOf(n.Content[i+1], depth))
			}
		}
	default:
		for _, each := range n.Content {
			list = append(list, publicOf(each, depth))
		}
	}
	return list
}

func keyOf(n *yaml.Node) string {
	if n.Alias != nil {
		n = n.Alias
	}
	return n.Value
}

var secretMark = regexp.MustCompile(`SECRET\d+\b`)

// countPrivate counts the marks in private values.
func countPrivate(n *yaml.Node, private bool, count map[string]int) {
	if private {
		for _, mark := range secretMark.FindAllString(n.Value, -1) {
			count[mark]++
		}
	}
	for i, each := range n.Content {
		inside := private
		if n.Kind == yaml.MappingNode && i%2 == 1 {
			inside = inside || slices.Contains(privateKeys, keyOf(n.Content[i-1]))
		}
		countPrivate(each, inside, count)
	}
}

// FuzzRedact: of any seed and any text, nothing private is shown. A text is
// changed at one place, so that strange YAML comes of it.
func FuzzRedact(f *testing.F) {
	for seed := range uint64(40) {
		f.Add(seed, uint(0), "")
		f.Add(seed, uint(seed*37), "#")
	}
	f.Fuzz(func(t *testing.T, seed uint64, at uint, put string) {
		if put == "" {
			checkNasty(t, seed)
			return
		}
		text := nastyRecord(seed)
		i := int(at % uint(len(text)))
		text = text[:i] + put + text[i:]
		shown, read := shownOf(text)
		if !read || shown == nil {
			return
		}
		var doc yaml.Node
		if yaml.Unmarshal([]byte(text), &doc) != nil {
			return
		}
		compareShown(t, text, shown)
		private := map[string]int{}
		countPrivate(&doc, false, private)
		for _, mark := range secretMark.FindAllString(string(shown), -1) {
			if n := private[mark]; n > 0 && n == len(regexp.MustCompile(mark+`\b`).FindAllString(text, -1)) {
				t.Errorf("%s, which stands in a private value alone, is shown of\n%s\nshown:\n%s", mark, text, shown)
			}
		}
	})
}
