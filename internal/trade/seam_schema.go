package trade

import (
	"reflect"
	"strings"
)

// SeamTypesSchema is the JSON Schema of a list of seam types and finishes as a workroom
// writes its own, made of the same types that [SeamTypesFromNode] reads.
func SeamTypesSchema() map[string]any {
	one := schemaOf(reflect.TypeFor[SeamType]())
	one["required"] = []string{"name", "title", "kind", "summary", "use", "gives", "width", "section", "source"}
	return map[string]any{"type": "array", "items": one}
}

// scalar is one value: a reader of numbers takes them in quotation marks too.
func scalar() map[string]any { return map[string]any{"type": []string{"string", "number", "boolean"}} }

func oneOf[T ~string](list ...T) map[string]any { return map[string]any{"enum": textsOf(list)} }

func oneOrList(one map[string]any) map[string]any {
	return map[string]any{"anyOf": []any{one, map[string]any{"type": "array", "items": one}}}
}

// schemaForms are the types that read themselves, or may be certain words alone.
var schemaForms = map[reflect.Type]func() map[string]any{
	reflect.TypeFor[Kind]():     func() map[string]any { return oneOf(Seam, Finish) },
	reflect.TypeFor[Together](): func() map[string]any { return oneOf(RightTogether, WrongTogether, LaidFlat) },
	reflect.TypeFor[Pressed]():  func() map[string]any { return oneOf(pressings...) },
	reflect.TypeFor[Corner]():   func() map[string]any { return oneOf(corners...) },
	reflect.TypeFor[Role]():     func() map[string]any { return oneOf(roleNames...) },
	reflect.TypeFor[End]():      func() map[string]any { return oneOf(GoesOn, RawEdge, Pinked, Selvedge, Closed) },
	reflect.TypeFor[Places]():   func() map[string]any { return oneOrList(oneOf(places...)) },
	reflect.TypeFor[Through]():  func() map[string]any { return oneOrList(scalar()) },
	reflect.TypeFor[Most]():     func() map[string]any { return oneOrList(scalar()) },
	reflect.TypeFor[Expr]():     scalar,
	reflect.TypeFor[PointRule](): func() map[string]any {
		list := func(n int) map[string]any {
			return map[string]any{"type": "array", "items": scalar(), "minItems": n, "maxItems": n}
		}
		arc := map[string]any{"type": "object", "properties": map[string]any{"arc": list(5)}, "required": []string{"arc"}, "additionalProperties": false}
		return map[string]any{"anyOf": []any{list(2), arc}}
	},
}

func schemaOf(t reflect.Type) map[string]any {
	if form, ok := schemaForms[t]; ok {
		return form()
	}
	switch t.Kind() {
	case reflect.Pointer:
		return schemaOf(t.Elem())
	case reflect.Slice:
		return map[string]any{"type": "array", "items": schemaOf(t.Elem())}
	case reflect.Struct:
		props := map[string]any{}
		for i := range t.NumField() {
			f := t.Field(i)
			if word, _, _ := strings.Cut(f.Tag.Get("yaml"), ","); word != "" && word != "-" && f.IsExported() {
				props[word] = schemaOf(f.Type)
			}
		}
		return map[string]any{"type": "object", "properties": props, "additionalProperties": false}
	}
	return scalar()
}
