package web

import (
	"encoding"
	"reflect"
	"strings"
	"unicode"
)

// schemas are the forms of JSON that a document names, by their names, as JSON Schema
// (2020-12) has them.
type schemas map[string]map[string]any

// of returns the schema of a value's type; what is sent may leave fields out, what is
// given never does.
func (s schemas) of(v any, sent bool) map[string]any {
	switch v := v.(type) {
	case anything:
		return map[string]any{"type": "object"}
	case several:
		list := map[string]any{"type": "array", "items": s.of(v.of, sent)}
		return map[string]any{"type": "object", "properties": map[string]any{v.name: list}, "required": []string{v.name}, "additionalProperties": false}
	}
	return s.ofType(reflect.TypeOf(v), sent)
}

// ofType returns the schema of a type.
func (s schemas) ofType(t reflect.Type, sent bool) map[string]any {
	if reflect.PointerTo(t).Implements(reflect.TypeFor[encoding.TextUnmarshaler]()) {
		return map[string]any{"type": "string"}
	}
	switch t.Kind() {
	case reflect.Pointer:
		return map[string]any{"anyOf": []any{s.ofType(t.Elem(), sent), map[string]any{"type": "null"}}}
	case reflect.Slice, reflect.Array:
		return map[string]any{"type": []string{"array", "null"}, "items": s.ofType(t.Elem(), sent)}
	case reflect.Map:
		return map[string]any{"type": []string{"object", "null"}, "additionalProperties": s.ofType(t.Elem(), sent)}
	case reflect.Struct:
		return s.named(t, sent)
	case reflect.Bool:
		return map[string]any{"type": "boolean"}
	case reflect.Float32, reflect.Float64:
		return map[string]any{"type": "number"}
	case reflect.String:
		return map[string]any{"type": "string"}
	default:
		return map[string]any{"type": "integer"}
	}
}

// named points at the schema of a struct, which stands under its name once: a struct may
// hold itself.
func (s schemas) named(t reflect.Type, sent bool) map[string]any {
	name := nameOf(t, sent)
	if _, ok := s[name]; !ok {
		s[name] = nil // while it is being made
		properties, required := map[string]any{}, []string{}
		s.fields(t, sent, properties, &required)
		one := map[string]any{"type": "object", "properties": properties, "additionalProperties": false}
		if len(required) > 0 && !sent {
			one["required"] = required
		}
		s[name] = one
	}
	return map[string]any{"$ref": "#/components/schemas/" + name}
}

// nameOf is what a struct is called in a document: those that are sent apart from those
// that are given, and other packages' apart from ours.
func nameOf(t reflect.Type, sent bool) string {
	name := []rune(t.Name())
	name[0] = unicode.ToUpper(name[0])
	out := string(name)
	if at := strings.LastIndex(t.PkgPath(), "/"); t.PkgPath()[at+1:] != "web" {
		out = "Exchange" + out
	}
	if sent {
		out += "Sent"
	}
	return out
}

// fields adds the fields of a struct, with those of what it embeds.
func (s schemas) fields(t reflect.Type, sent bool, properties map[string]any, required *[]string) {
	for i := range t.NumField() {
		f := t.Field(i)
		tag, options, _ := strings.Cut(f.Tag.Get("json"), ",")
		switch {
		case f.Anonymous && tag == "" && f.Type.Kind() == reflect.Struct:
			s.fields(f.Type, sent, properties, required)
			continue
		case !f.IsExported() || tag == "-":
			continue
		case tag == "":
			tag = strings.ToLower(f.Name)
		}
		properties[tag] = s.ofType(f.Type, sent)
		if !strings.Contains(options, "omitempty") {
			*required = append(*required, tag)
		}
	}
}
