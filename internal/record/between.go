package record

import (
	"reflect"
	"strings"

	"gopkg.in/yaml.v3"

	"hembook/internal/fault"
	"hembook/internal/record/phrase"
	"hembook/internal/say"
)

// Eased is how much is eased into a seam: all along, or between notches.
type Eased struct {
	Whole Length
	Parts []StretchSpec
}

// Gathered is how much is gathered into a seam: all along, or between notches.
type Gathered struct {
	Whole Turns
	Parts []StretchSpec
}

// betweenKind reads 26, "8 from front to top" or a list of such.
type betweenKind struct{ gather bool }

func (k betweenKind) read(d *decoder, n *yaml.Node, into reflect.Value, lim limits) {
	n = d.resolve(n)
	if n == nil {
		return
	}
	if n.Kind != yaml.SequenceNode {
		k.one(d, n, into, lim, false)
		return
	}
	for _, each := range n.Content {
		if each = d.resolve(each); each != nil {
			k.one(d, each, into, lim, true)
		}
	}
}

// one reads one amount; in a list each must say from which notch to which.
func (k betweenKind) one(d *decoder, n *yaml.Node, into reflect.Value, lim limits, listed bool) {
	at := d.pos(n)
	var s StretchSpec
	amount := *n
	if n.Kind == yaml.ScalarNode && !isNull(n) {
		words, from, to, bad := phrase.ReadBetween(n.Value)
		if bad != nil {
			d.misread(n, at, bad)
			return
		}
		amount.Value = words
		s = StretchSpec{At: at, From: named(from, at), To: named(to, at)}
	}
	if k.gather {
		kindOf(reflect.TypeFor[Turns]()).read(d, &amount, reflect.ValueOf(&s.Gather).Elem(), lim)
	} else {
		kindOf(reflect.TypeFor[Length]()).read(d, &amount, reflect.ValueOf(&s.Ease).Elem(), lim)
	}
	if !k.gather && s.Ease.V < 0 {
		now := strings.TrimLeft(amount.Value, "-−")
		d.faults.LookAgain(at, say.Of("record.write", now), say.Of("record.ease-is-how-much-longer")).InsteadAt(at, amount.Value, now)
		s.Ease.V = -s.Ease.V
	}
	whole := !s.From.Given() && !s.To.Given()
	switch {
	case !s.Ease.Given() && !s.Gather.Given():
	case whole && listed:
		d.faults.Wrong(at, say.Of("record.say-from-which-notch-to-which-as", amount.Value), say.Of("record.does-not-say-between-which-notches", say.Quoted(fault.Shorten(n.Value))))
	case whole && k.gather:
		into.Field(0).Set(reflect.ValueOf(s.Gather))
	case whole:
		into.Field(0).Set(reflect.ValueOf(s.Ease))
	default:
		parts := into.Field(1)
		parts.Set(reflect.Append(parts, reflect.ValueOf(s)))
	}
}

func named(name string, at fault.Pos) Text {
	if name == "" {
		return Text{}
	}
	return Text{name, at}
}

func (k betweenKind) schema(s *schemaWriter, lim limits) map[string]any {
	amount := reflect.TypeFor[Length]()
	if k.gather {
		amount = reflect.TypeFor[Turns]()
	}
	one := s.of(amount, lim)
	return map[string]any{"anyOf": []any{one, map[string]any{"type": "array", "items": map[string]any{
		"type": "string", "pattern": figurePattern + `.*\s(from|to)\s`}}}}
}
