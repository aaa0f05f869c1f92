package trade

import (
	"errors"
	"fmt"
	"math"
	"reflect"
	"sort"
	"strconv"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/meant"
	"hembook/internal/say"
)

// Bounds on what the reader walks, so that a file made of references to
// itself cannot keep it busy.
const (
	maxDepth = 24
	maxNodes = 200_000
)

// decodeStrict reads node into the value v points to. Unknown words, words
// given twice and values of the wrong shape are faults with their place; all
// are found in one go, and v is filled only when there are none.
func decodeStrict(node *yaml.Node, v any) fault.List {
	if node.Kind == 0 {
		return nil // an empty file, or one of comments alone
	}
	w := &walker{}
	w.walk(node, reflect.TypeOf(v).Elem(), 0)
	if len(w.faults) > 0 {
		return w.faults.Sorted()
	}
	if err := node.Decode(v); err != nil {
		return faultsOf(err).Sorted()
	}
	return nil
}

// faultsOf turns what the YAML library reports into faults. Our own value
// readers hand their faults through it as text with a place mark.
func faultsOf(err error) fault.List {
	var te *yaml.TypeError
	if !errors.As(err, &te) {
		return fault.List{placed(strings.TrimPrefix(err.Error(), "yaml: "))}
	}
	var out fault.List
	for _, s := range te.Errors {
		out = append(out, placed(s))
	}
	return out
}

// placed splits "line 3, column 5: text" or "line 3: text".
func placed(s string) fault.Fault {
	head, rest, ok := strings.Cut(s, ": ")
	if !ok || !strings.HasPrefix(head, "line ") {
		return fault.Fault{Severity: fault.Error, Message: s}
	}
	l, c, _ := strings.Cut(strings.TrimPrefix(head, "line "), ", column ")
	line, err := strconv.Atoi(l)
	if err != nil {
		return fault.Fault{Severity: fault.Error, Message: s}
	}
	col, _ := strconv.Atoi(c)
	return fault.Errorf(fault.Pos{Line: int32(line), Column: int32(col)}, "", "%s", rest)
}

// valueFault is the error a value reader returns so that the library goes on
// and collects the rest.
func valueFault(n *yaml.Node, text string) error {
	return &yaml.TypeError{Errors: []string{fmt.Sprintf("line %d, column %d: %s", n.Line, n.Column, text)}}
}

type walker struct {
	faults fault.List
	seen   int
}

func (w *walker) fault(n *yaml.Node, hint, message string) {
	w.faults = append(w.faults, fault.Wrong(fault.Pos{Line: int32(n.Line), Column: int32(n.Column)}, hint, message))
}

var unmarshaler = reflect.TypeFor[yaml.Unmarshaler]()

func (w *walker) walk(n *yaml.Node, t reflect.Type, depth int) {
	w.seen++
	if w.seen > maxNodes || depth > maxDepth {
		if w.seen == maxNodes+1 || depth == maxDepth+1 {
			w.fault(n, "", say.Of("trade.nested-too-deeply-or-too-long"))
		}
		return
	}
	switch {
	case n.Kind == yaml.DocumentNode && len(n.Content) > 0:
		w.walk(n.Content[0], t, depth+1)
	case n.Kind == yaml.DocumentNode:
	case n.Kind == yaml.AliasNode:
		w.walk(n.Alias, t, depth+1)
	default:
		w.walkValue(n, t, depth)
	}
}

func (w *walker) walkValue(n *yaml.Node, t reflect.Type, depth int) {
	if n.Tag == "!!null" && n.Value == "" {
		w.fault(n, "", say.Of("trade.a-value-is-missing-here"))
		return
	}
	if t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	if reflect.PointerTo(t).Implements(unmarshaler) {
		return // reads itself, with its own faults
	}
	switch t.Kind() {
	case reflect.Struct:
		w.walkStruct(n, t, depth)
	case reflect.Slice, reflect.Array:
		if n.Kind != yaml.SequenceNode {
			w.fault(n, "", say.Of("trade.a-list-please"))
			return
		}
		for _, c := range n.Content {
			w.walk(c, t.Elem(), depth+1)
		}
	case reflect.Map:
		w.walkMap(n, t, depth)
	default:
		w.scalar(n, t)
	}
}

func (w *walker) walkStruct(n *yaml.Node, t reflect.Type, depth int) {
	if n.Kind != yaml.MappingNode {
		w.fault(n, "", say.Of("trade.a-word-a-colon-a-value-please", firstField(t)))
		return
	}
	fields, names := fieldsOf(t)
	seen := map[string]bool{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key, val := n.Content[i], n.Content[i+1]
		ft, ok := fields[key.Value]
		switch {
		case !ok:
			w.fault(key, meant.Hint(key.Value, names), say.Of("trade.unknown-word", say.Quoted(key.Value)))
			continue
		case seen[key.Value]:
			w.fault(key, "", say.Of("trade.is-given-twice", say.Quoted(key.Value)))
			continue
		}
		seen[key.Value] = true
		w.walk(val, ft, depth+1)
	}
}

func (w *walker) walkMap(n *yaml.Node, t reflect.Type, depth int) {
	if n.Kind != yaml.MappingNode {
		w.fault(n, "", say.Of("trade.a-name-a-colon-a-value-please"))
		return
	}
	seen := map[string]bool{}
	for i := 0; i+1 < len(n.Content); i += 2 {
		key := n.Content[i]
		if seen[key.Value] {
			w.fault(key, "", say.Of("trade.is-given-twice", say.Quoted(key.Value)))
		}
		seen[key.Value] = true
		w.walk(n.Content[i+1], t.Elem(), depth+1)
	}
}

func (w *walker) scalar(n *yaml.Node, t reflect.Type) {
	if n.Kind != yaml.ScalarNode {
		w.fault(n, "", say.Of("trade.a-single-value-please-not-a-list"))
		return
	}
	switch t.Kind() {
	case reflect.Float64:
		if f, err := strconv.ParseFloat(n.Value, 64); err != nil || math.IsInf(f, 0) || math.IsNaN(f) {
			w.fault(n, "", say.Of("trade.is-not-a-number", say.Quoted(n.Value)))
		}
	case reflect.Int:
		if _, err := strconv.Atoi(n.Value); err != nil {
			w.fault(n, "", say.Of("trade.is-not-a-whole-number", say.Quoted(n.Value)))
		}
	case reflect.Bool:
		if n.Value != "true" && n.Value != "false" {
			w.fault(n, "", say.Of("trade.is-neither-true-nor-false", say.Quoted(n.Value)))
		}
	}
}

// fieldsOf maps the YAML words of a struct to the types of their fields.
func fieldsOf(t reflect.Type) (map[string]reflect.Type, []string) {
	fields := map[string]reflect.Type{}
	var names []string
	for i := range t.NumField() {
		f := t.Field(i)
		word, _, _ := strings.Cut(f.Tag.Get("yaml"), ",")
		if word == "" || word == "-" || !f.IsExported() {
			continue
		}
		fields[word] = f.Type
		names = append(names, word)
	}
	sort.Strings(names)
	return fields, names
}

func firstField(t reflect.Type) string {
	word, _, _ := strings.Cut(t.Field(0).Tag.Get("yaml"), ",")
	return word
}
